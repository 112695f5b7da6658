//! Other words for what was not understood, each tried before it is offered.
//!
//! For a sentence with unread words, or with a doubtful reference, a handful of changes is thought of: a nearer word
//! in the same place ([`nearest`]), or a plain sentence of the kind of thing that it seems to speak of ([`kinds`]), filled
//! in with the names of this question ([`cast`]) and with the amounts that the sentence itself gives ([`figures`]). The
//! question is then read with each change in turn, and a change is offered only if fewer words are left unread, nothing
//! that was asked is lost, and there is not one error more. So no suggestion rests on a guess about the reader.

mod cast;
mod doubts;
mod figures;
mod kinds;
mod nearest;
mod sentence;

use crate::Reading;
use crate::parts::divide;
use crate::token::{LONGEST, Token, tokens};
use cast::Cast;
use model::{Diagnostic, Severity, Span, Suggestion};
use sentence::Troubled;

/// At most so many changes are tried for one question, so that a refusal costs no more than so many readings.
const TRIES: usize = 16;
/// A text with more unread words than this is not mended word by word.
const STRANGEST: usize = 80;
/// At most so many are offered for one sentence.
const OFFERED: usize = 3;

/// Puts suggestions that work beside the diagnostics of a reading of this text. `again` reads a changed text in the
/// same way as this one was read.
pub(crate) fn mend(text: &str, reading: &mut Reading, again: &dyn Fn(&str) -> Reading) {
    let before = Extent::of(text, reading);
    if reading.is_sound() || text.len() > LONGEST / 5 || before.unread > STRANGEST {
        return;
    }
    let mut trial = Trial { text, before, again, left: TRIES, tried: Vec::new() };
    let toks = tokens(text);
    let troubled = troubled(text, &toks, reading);
    let cast = Cast::of(text, reading);
    let share = (TRIES / troubled.len().max(1)).max(OFFERED);
    for place in &troubled {
        let changes = place.changes(&cast).into_iter().take(share);
        let mut offered: Vec<(Extent, Suggestion)> =
            changes.filter_map(|change| Some((trial.helps(&change)?, change))).collect();
        // Those that are read furthest.
        let best = offered.iter().map(|(extent, _)| (extent.unread, extent.errors)).min();
        offered.retain(|(extent, _)| Some((extent.unread, extent.errors)) == best);
        offered.truncate(OFFERED);
        put(reading, place.open(), offered.into_iter().map(|(_, change)| change));
    }
    for n in 0..reading.diagnostics.len() {
        let Some(d) = reading.diagnostics.get(n) else { continue };
        let meant = doubts::candidates(text, d, reading, &cast);
        let meant: Vec<Suggestion> = meant.into_iter().filter(|change| trial.settles(change)).collect();
        if let Some(d) = reading.diagnostics.get_mut(n) {
            d.suggestions.extend(meant);
        }
    }
    for d in &mut reading.diagnostics {
        if let Some(first) = d.suggestions.first() {
            let words = first.replacement.trim();
            d.hint = Some(match words {
                "" => format!("leave out “{}” if it does not matter", first.span.of(text).trim()),
                _ => format!("say it in words such as: {words}"),
            });
        }
    }
}

/// Sentences with words that were not understood.
fn troubled<'a>(text: &'a str, toks: &'a [Token], reading: &Reading) -> Vec<Troubled<'a>> {
    let (parts, _) = divide(toks);
    let sentences = parts.iter().flat_map(|p| &p.sentences);
    sentences.filter_map(|s| Troubled::find(text, toks, s, reading)).collect()
}

/// The suggestions stand with the complaint about the first unread words of their sentence.
fn put(reading: &mut Reading, open: &[Span], offered: impl Iterator<Item = Suggestion>) {
    let about = |d: &&mut Diagnostic| {
        d.severity == Severity::Error
            && d.spans.iter().any(|place| open.iter().any(|unread| unread.overlaps(*place)))
    };
    if let Some(d) = reading.diagnostics.iter_mut().find(about) {
        d.suggestions.extend(offered);
    }
}

/// How far a text was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Extent {
    unread: usize,
    errors: usize,
    asked: usize,
}

impl Extent {
    fn of(text: &str, reading: &Reading) -> Extent {
        let words = |span: &Span| span.of(text).split_whitespace().count();
        Extent {
            unread: reading.unread.iter().map(words).sum(),
            errors: reading.diagnostics.iter().filter(|d| d.severity == Severity::Error).count(),
            asked: reading.situation.asks.len(),
        }
    }
}

/// Changes are tried one by one, none twice.
struct Trial<'a> {
    text: &'a str,
    before: Extent,
    again: &'a dyn Fn(&str) -> Reading,
    left: usize,
    tried: Vec<String>,
}

impl Trial<'_> {
    /// How far the question is read with the change made.
    fn with(&mut self, change: &Suggestion) -> Option<Extent> {
        let text = change.applied(self.text)?;
        if self.left == 0 || text == self.text || self.tried.contains(&text) {
            return None;
        }
        self.left -= 1;
        let extent = Extent::of(&text, &(self.again)(&text));
        self.tried.push(text);
        Some(extent)
    }

    /// How far the question is read with the change, if it leaves fewer words unread.
    fn helps(&mut self, change: &Suggestion) -> Option<Extent> {
        let before = self.before;
        self.with(change).filter(|after| {
            after.unread < before.unread && after.errors <= before.errors && after.asked >= before.asked
        })
    }

    /// Does it take a doubt away?
    fn settles(&mut self, change: &Suggestion) -> bool {
        let before = self.before;
        self.with(change).is_some_and(|after| {
            after.errors < before.errors && after.unread <= before.unread && after.asked >= before.asked
        })
    }
}

#[cfg(test)]
mod tests {
    /// The texts that a question becomes with each of its suggestions.
    fn mended(text: &str) -> Vec<String> {
        let reading = crate::read(text).mended(text, &[]);
        let all = reading.diagnostics.iter().flat_map(|d| &d.suggestions);
        all.filter_map(|s| s.applied(text)).collect()
    }

    fn sound(text: &str) -> bool {
        crate::read(text).is_sound()
    }

    const TABLE: &str = "A crate A of mass 5 kg rests on a horizontal floor and is joined by a light inextensible \
        string, which passes over a smooth fixed pulley, to a load B of mass 3 kg that hangs freely. $ The system is \
        released from rest. Find the acceleration of A.";

    #[test]
    fn a_coefficient_is_said_with_the_names_of_the_question() {
        let all = mended(&TABLE.replace('$', "There is kinetic drag coeff 0.3 on crate A."));
        let said = "The coefficient of friction between A and the floor is 0.3.";
        assert!(all.iter().any(|t| t.contains(said) && sound(t)), "{all:#?}");
    }

    #[test]
    fn a_word_that_is_near_stands_in_the_same_place() {
        let all = mended(&TABLE.replace('$', "The floor is greasy."));
        assert!(all.iter().any(|t| t.contains("The floor is smooth.") && sound(t)), "{all:#?}");
    }

    #[test]
    fn a_doubtful_string_is_asked_about_with_the_candidates() {
        let text = "Two blocks A and B of masses 5 kg and 3 kg are joined by a light string. B is joined by another light \
                    string to a block C of mass 2 kg. All rest on a smooth horizontal table. A horizontal force of 20 N \
                    pulls A. Find the tension.";
        let all = mended(text);
        assert_eq!(all.len(), 2, "{all:#?}");
        for changed in all {
            assert!(changed.contains("the tension in the string joining") && sound(&changed), "{changed}");
        }
    }

    #[test]
    fn no_number_is_lost() {
        for sentence in ["A grip factor of 0.3 goes with it.", "It is tugged back by 12 N of goo for 3 s."] {
            let text = TABLE.replace('$', sentence);
            for changed in mended(&text) {
                let figures = |t: &str| t.chars().filter(char::is_ascii_digit).count();
                assert!(figures(&changed) >= figures(&text), "{changed}");
            }
        }
    }

    #[test]
    fn what_is_understood_is_left_alone() {
        assert!(mended(&TABLE.replace('$', "The floor is smooth.")).is_empty());
        assert!(mended("").is_empty());
        assert!(mended("What is the price of kippers at Marram Quay?").is_empty());
    }
}
