//! A stem whose asks are finished by its parts: `Find the tension when the lift (a) is at rest, (b) moves up at ...`.

use crate::noun::Ref;
use crate::reader::Reader;
use crate::story::AskTold;
use model::{Form, State};

impl Reader<'_> {
    /// Keeps the asks of the stem for its parts, where the stem ends with an unfinished "when the lift ...".
    pub(super) fn make_template(&mut self, question: bool) {
        let last = self.parts.first().and_then(|p| p.sentences.last()).is_some_and(|s| s.lo == self.lo);
        let fresh = self.story.asks.len() > self.first_ask;
        if self.part != 0 || !last || !fresh || self.parts.len() < 2 || question {
            return;
        }
        let after = self.story.asks.last().map_or(0, |a| a.span.end);
        let open = (self.lo..self.hi).any(|k| {
            matches!(self.w(k), "when" | "if" | "while" | "as" | "given")
                && self.toks.get(k).is_some_and(|t| t.span.start >= after)
        });
        let bare = self.story.asks.iter().skip(self.first_ask).all(|a| a.facts.is_empty());
        if open && bare {
            self.template = self.story.asks.split_off(self.first_ask);
        }
    }

    /// Starts a part with the asks of the stem, and reads its condition.
    pub(super) fn take_template(&mut self, lo: usize) -> usize {
        let begins = self.parts.get(self.part).and_then(|p| p.sentences.first()).is_some_and(|s| s.lo == lo);
        if self.template.is_empty() || self.part == 0 || !begins {
            return lo;
        }
        let i = self.skip(lo);
        if self.is_command(self.w(i)) || matches!(self.w(i), "what" | "how") {
            return lo;
        }
        self.asking = true;
        for ask in self.template.clone() {
            self.story.asks.push(AskTold { part: self.part, ..ask });
        }
        let lift = self.story.bodies.iter().position(|b| b.form == Form::Lift);
        let about = lift.map(|l| vec![l]).unwrap_or_else(|| self.latest.clone());
        self.set_about(Ref::Bodies(about.clone()));
        self.latest = about;
        // The condition may lack its verb: "at rest", "upwards with a uniform speed of 4 m/s".
        if let Some(e) = self.be_state(i) {
            return e;
        }
        if (self.way(i).is_some() || matches!(self.w(i), "with" | "at"))
            && let Some(e) = self.moves(i.saturating_sub(1))
        {
            return e;
        }
        lo
    }

    /// `at rest`, `stationary`, `in equilibrium` without a verb.
    fn be_state(&mut self, i: usize) -> Option<usize> {
        let i = self.phrase(i, "is|are|it|remains").unwrap_or(i);
        let e = self
            .phrase(i, "at rest")
            .or_else(|| self.phrase(i, "stationary"))
            .or_else(|| self.phrase(i, "not moving"))
            .or_else(|| self.phrase(i, "in equilibrium"))?;
        self.state(i, e, State::AtRest, "at rest: no acceleration");
        Some(e)
    }
}
