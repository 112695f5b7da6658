//! Reads exam English into a situation, and accounts for every word.
//!
//! A question goes through five steps, each resting on the one before:
//!
//! 1. `token` cuts it into words, numbers and signs, and takes typeset maths away.
//! 2. `parts` finds the lettered parts and their sentences.
//! 3. `sentence` reads each sentence from left to right into the `story`: what things there are and what is said
//!    of them, without any geometry. Things are named by noun phrases (`noun`, with the words of `lexicon` and
//!    `adjective`); what a verb says of them is read by its frame (`frames`, chosen by the table in `verbs`);
//!    quantities are mentioned (`quantity`, sizes by `amount`) and then told or asked for (`tell`).
//! 4. `assemble` settles who stands where, who is in front and which way forces act; `stages` finds in which
//!    state each fact holds and each question is asked.
//!    A story of several stages is a `timeline` of happenings; its chapters become stages (`stages/chapters`), and
//!    each question is measured from moment to moment (`stages/legs`, `stages/measure`).
//! 5. `account` sorts what is left. Every word ends as told (with what it told us), as scene-setting, or unread;
//!    a word that is unread and may carry mechanics stops the answer.
//!
//! To teach the reader a new wording:
//!
//! - a new thing or a new name for one: a noun in `lexicon`;
//! - a new adjective: `adjective`, with what it tells;
//! - a new verb that says what another says: a form in the table of `verbs`;
//! - a new phrase around a verb: a pattern in the frame's file, and an example in its tests. In a pattern `|`
//!   separates words of which one must stand, and a word before `?` may be missing;
//! - a set phrase without mechanics: `scenery`; one that lays down a condition: `sentence/conditions`.
//!
//! What is read must be *used*: a phrase that is taken and not acted upon is an answer to another question.
//! Where a phrase may matter and is not followed, leave it open, and the account refuses the question.

mod account;
mod adjective;
mod amount;
mod assemble;
mod frames;
mod guards;
mod idioms;
mod ignoring;
mod lexicon;
mod mending;
mod names;
mod noun;
mod parts;
mod place_words;
mod quantity;
mod reader;
mod reading;
mod scenery;
mod sentence;
mod stages;
mod story;
mod tell;
mod timeline;
mod token;
#[cfg(test)]
mod trial;
mod verbs;
mod write;

pub use reading::{Note, PartRead, Phrase, Reading, Sort};
pub use write::{Voice, differences, write};

/// Reads a question. Always gives a reading, with every diagnostic.
///
/// ```
/// let reading = words::read(
///     "A lift of mass 500 kg carries a crate of mass 100 kg on its floor. The lift accelerates \
///      upwards at 0.5 m s^-2. Find the tension in the cable.",
/// );
/// assert!(reading.is_sound(), "{:?}", reading.diagnostics);
/// assert_eq!(reading.situation.bodies.len(), 2);
/// ```
pub fn read(text: &str) -> Reading {
    account::read(text, &[])
}

/// Reads a question and ignores phrases that are not understood, because whoever asks says that they do not matter.
/// Nothing else is read otherwise; the reading says what was ignored. A phrase that told something is not ignored but
/// refused, and one that does not stand in the question earns a warning.
///
/// ```
/// let question = "A crate of mass 5 kg is pulled along a smooth horizontal floor by a horizontal force of 20 N, with much \
///                 magnetism. Find the acceleration of the crate.";
/// assert!(!words::read(question).is_sound());
/// let reading = words::read_ignoring(question, &["much magnetism".to_owned()]);
/// assert!(reading.is_sound());
/// assert_eq!(reading.ignored[0].of(question), "much magnetism");
/// ```
pub fn read_ignoring(text: &str, phrases: &[String]) -> Reading {
    account::read(text, phrases)
}
