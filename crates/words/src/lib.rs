//! Reads exam English into a situation, and accounts for every word.
//!
//! A question goes through four steps, each a pure function of the one before: [tokens](token), the
//! lettered parts and their sentences, the story (what things there are and what is said of them) and
//! the situation. Every token ends as told (with what it told us), scene-setting or unread; a word
//! that is unread and may carry mechanics stops the answer.

mod account;
mod adjective;
mod amount;
mod assemble;
mod frames;
mod lexicon;
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
mod token;
mod verbs;

pub use reading::{Note, PartRead, Reading};

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
    account::read(text)
}
