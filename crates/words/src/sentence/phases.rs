//! Journeys told in phases: `it then moves at constant speed for 10 s`, `finally it slows down to rest`.

use crate::reader::Reader;
use crate::story::Fact;
use crate::timeline::Occurs;
use crate::verbs::{self, Frame};
use model::State;

impl Reader<'_> {
    /// Is it told how long or how far the present phase goes?
    fn stretch_told(&self) -> bool {
        self.story.motions.iter().any(|m| {
            m.chapter == self.chapter
                && matches!(m.fact, Fact::Time(_) | Fact::Distance(_) | Fact::EndSpeed(_))
        })
    }

    /// A word that begins the next phase of a journey, where a phase was told before it.
    pub(super) fn phase(&mut self, i: usize) -> Option<usize> {
        if self.asking {
            return None;
        }
        let cue = self
            .phrase(i, "after which|that|this")
            .or_else(|| {
                self.phrase(i, "for|during|over the|a next|further")
                    .filter(|&e| self.amount(e, false).is_some())
            })
            // ", moves at constant speed": one phase after the other
            .or_else(|| {
                let e = self.phrase(i, ",|;|and and?")?;
                let verb = matches!(
                    self.w(self.skip(e)),
                    "moves" | "travels" | "continues" | "slows" | "decelerates" | "accelerates" | "comes"
                );
                (verb && self.stretch_told()).then_some(e)
            })
            .or_else(|| self.phrase(i, ",? and then|finally|lastly").filter(|_| self.stretch_told()))
            .or_else(|| self.phrase(i, "then|next|finally|lastly|thereafter|subsequently|afterwards"))
            .or_else(|| self.phrase(i, "before").filter(|&e| self.w(e).ends_with("ing")))?;
        let chapter = self.chapter;
        let phased = self.story.motions.iter().any(|m| {
            m.chapter == chapter
                && matches!(
                    m.fact,
                    Fact::State(State::Steady)
                        | Fact::Acceleration { .. }
                        | Fact::Time(_)
                        | Fact::Distance(_)
                        | Fact::EndSpeed(_)
                )
        });
        if !phased {
            return None;
        }
        // A verb of motion follows, with its subject or without.
        let after = self.phrase(cue, ",").unwrap_or(cue);
        // then at constant speed, and then with constant deceleration: the verb goes without saying
        if self.stretch_told()
            && self
                .phrase(
                    after,
                    "at|with a? constant|steady|uniform speed|velocity|acceleration|deceleration|retardation",
                )
                .is_some()
        {
            self.narrate(i, after, Occurs::Changes);
            let who = self.who_moves();
            self.about.get_or_insert(crate::noun::Ref::Bodies(who));
            return self.moves(after - 1).or(Some(after));
        }
        let verb = (after..after + 7).find(|&k| {
            matches!(verbs::frame(self.w(k)), Some(Frame::Move | Frame::Stop | Frame::Pass))
                || matches!(self.w(k), "brought" | "continues" | "continue" | "runs" | "retarded" | "brakes")
        })?;
        if (after..verb).any(|k| matches!(self.w(k), "," | ";" | "when" | "if" | "pulley")) {
            return None;
        }
        // "for the next 10 s": the words with the time are read as a fact of the new phase.
        let timed = matches!(self.w(i), "for" | "during" | "over");
        let end = if timed { cue } else { after };
        self.narrate(i, end, Occurs::Changes);
        if self.w(i) == "before" || timed {
            // What the verb speaks of goes on.
            let who = self.who_moves();
            self.about.get_or_insert(crate::noun::Ref::Bodies(who));
        }
        Some(end)
    }
}
