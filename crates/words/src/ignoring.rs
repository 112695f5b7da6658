//! Phrases that whoever asks wants to be ignored: only what was not understood can be.

use crate::reader::{Reader, Use};
use crate::token::{Sort, Token, tokens};
use model::{Diagnostic, Refusal, Span};

impl Reader<'_> {
    /// Sets aside what is wished to be ignored, wherever it stands and was not understood.
    pub(crate) fn ignore(&mut self, phrases: &[String]) {
        if phrases.iter().all(|p| p.trim().is_empty()) {
            return;
        }
        let written: Vec<Token> = tokens(self.text).into_iter().filter(|t| t.sort != Sort::Newline).collect();
        for phrase in phrases.iter().map(|p| p.trim()).filter(|p| !p.is_empty()) {
            let said = crate::account::shorten(phrase);
            let places = places(&written, phrase);
            if places.is_empty() {
                let message =
                    format!("\"{said}\" does not stand in the question, so nothing was ignored for it");
                self.diagnostics.push(Diagnostic::warn(message));
                continue;
            }
            let (told, free): (Vec<Span>, Vec<Span>) = places.into_iter().partition(|p| self.tells(*p));
            if let (Some(place), []) = (told.first(), free.as_slice()) {
                let message = format!("\"{said}\" tells something that is understood, so it is not ignored");
                self.diagnostics.push(
                    Diagnostic::refuse(Refusal::Contradictory, message)
                        .at(*place)
                        .hint("take it out of the question, or take back the wish to ignore it"),
                );
            }
            for (t, u) in self.toks.iter().zip(&mut self.uses) {
                if free.iter().any(|p| p.overlaps(t.span)) {
                    *u = Use::Ignored;
                }
            }
        }
    }

    /// Did a word in this place tell something?
    fn tells(&self, place: Span) -> bool {
        let mut uses = self.toks.iter().zip(&self.uses);
        uses.any(|(t, u)| t.span.overlaps(place) && matches!(u, Use::Told(_)))
    }
}

/// Where the phrase stands, whatever the case and the spaces.
fn places(written: &[Token], phrase: &str) -> Vec<Span> {
    let wanted: Vec<Token> = tokens(phrase).into_iter().filter(|t| t.sort != Sort::Newline).collect();
    if wanted.is_empty() {
        return Vec::new();
    }
    let same = |run: &&[Token]| run.iter().zip(&wanted).all(|(a, b)| a.lower == b.lower);
    let whole = |run: &[Token]| Some(run.first()?.span.join(run.last()?.span));
    written.windows(wanted.len()).filter(same).filter_map(whole).collect()
}

#[cfg(test)]
mod tests {
    use model::Refusal;

    const QUESTION: &str = "A light crate of mass 5 kg is pulled along a smooth horizontal floor by a horizontal force of \
        20 N,\nwith much  magnetism. Find the acceleration of the crate.";

    fn ignoring(phrase: &str) -> crate::Reading {
        crate::read_ignoring(QUESTION, &[phrase.to_owned()])
    }

    #[test]
    fn only_what_was_not_understood_is_ignored_and_it_is_said() {
        let reading = ignoring("much magnetism");
        assert!(reading.is_sound(), "{:?}", reading.diagnostics);
        assert_eq!(reading.ignored.iter().map(|s| s.of(QUESTION)).collect::<Vec<_>>(), ["much  magnetism"]);
        let (with, without) = (reading.situation, crate::read(QUESTION).situation);
        assert_eq!(with, without, "nothing else changes");
    }

    #[test]
    fn what_tells_something_is_not_ignored() {
        for phrase in ["smooth", "20 N", "force of 20 N, with much magnetism"] {
            let reading = ignoring(phrase);
            let clash = |d: &&model::Diagnostic| d.refusal == Some(Refusal::Contradictory);
            assert_eq!(reading.diagnostics.iter().filter(clash).count(), 1, "{phrase}");
            assert!(reading.ignored.is_empty(), "{phrase}");
        }
    }

    #[test]
    fn a_phrase_that_is_not_there_ignores_nothing() {
        let reading = ignoring("a dancing bear");
        assert!(reading.ignored.is_empty() && !reading.is_sound());
        assert!(reading.diagnostics.iter().any(|d| d.message.contains("a dancing bear")));
        assert_eq!(ignoring("  "), crate::read(QUESTION));
    }
}
