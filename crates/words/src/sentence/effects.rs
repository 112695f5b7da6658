//! Effects of a change of the model: `the effect on the tension of including air resistance`, `how the acceleration
//! would change if the pulley were rough`; and sets of values for which something holds.

use crate::amount::plain_index;
use crate::quantity::Sort;
use crate::reader::Reader;
use crate::story::{Fact, Target};
use model::{Change, State};

impl Reader<'_> {
    /// `the effect on the tension if air resistance were included`.
    pub(super) fn effect_ask(&mut self, i: usize) -> Option<usize> {
        let end = self.hi;
        let effect = self.phrase(i, "the|what|any? effect|effects").is_some();
        let how = self.phrase(i, "how|whether").or_else(|| self.phrase(i, "in what way")).is_some()
            && (i..end).any(|k| {
                matches!(
                    self.w(k),
                    "would" | "will" | "affect" | "affects" | "change" | "differ" | "affected"
                )
            });
        if !effect && !how {
            return None;
        }
        if (i..end).any(|k| self.tok(k).is_some_and(|t| t.number().is_some())) {
            return None;
        }
        let change = self.change_of_model(i, end)?;
        // What is affected: the first quantity named that is no cause.
        let m = (i..end).find_map(|k| {
            let head = self.quantity_head(k)?;
            matches!(head.sort, Sort::Tension | Sort::Acceleration { .. } | Sort::Reaction).then_some(k)
        });
        let target = match m {
            Some(k) => {
                let m = self.mention(k)?;
                self.target(&m)?
            }
            // "Your answer", where one thing was asked.
            None if (i..end).any(|k| matches!(self.w(k), "answer" | "value")) => {
                match self.story.asks.as_slice() {
                    [one] => one.target.clone(),
                    _ => return None,
                }
            }
            None => return None,
        };
        let fits = matches!(target, Target::Link(_) | Target::Acceleration { .. } | Target::Contact { .. });
        if !fits {
            return None;
        }
        self.push_ask(Target::Effect { change, on: Box::new(target) }, i, end);
        Some(end)
    }

    /// The change of the model that is spoken of, where exactly one is.
    fn change_of_model(&self, a: usize, b: usize) -> Option<Change> {
        let has = |words: &[&str]| (a..b).any(|k| words.contains(&self.w(k)));
        let rough = has(&["rough", "friction"])
            || (a..b).any(|k| self.w(k) == "not" && self.w(self.skip(k + 1)) == "smooth");
        let heavy = has(&["heavy"])
            || has(&["weight", "mass"])
            || (a..b).any(|k| self.w(k) == "not" && self.w(self.skip(k + 1)) == "light");
        let string = has(&["string", "rope", "cable", "cord", "chain"]);
        let mut found = Vec::new();
        if has(&["air"]) && has(&["resistance", "drag"]) {
            found.push(Change::AirResistance);
        }
        if rough && has(&["pulley", "peg", "axle", "bearing"]) {
            found.push(Change::RoughPulley);
        } else if rough
            && has(&["table", "plane", "slope", "surface", "floor", "track", "ramp", "slipway", "bench"])
        {
            found.push(Change::RoughSurface);
        }
        if heavy && string && !rough {
            found.push(Change::HeavyString);
        }
        match found.as_slice() {
            [one] if !has(&["unless", "except", "without", "less", "greater", "smaller", "larger"]) => {
                Some(*one)
            }
            _ => None,
        }
    }

    /// `the set of values of k for which the system remains at rest`.
    pub(super) fn range_ask(&mut self, i: usize) -> Option<usize> {
        let e = self
            .phrase(i, "the set|range of possible|all? values|value of the? constant?")
            .or_else(|| self.phrase(i, "the? possible|all values of the? constant?"))
            .or_else(|| self.phrase(i, "for what|which set|range of possible|all? values of the? constant?"))
            .or_else(|| self.phrase(i, "for what|which possible? values of the? constant?"))?;
        let t = self.tok(self.skip(e)).filter(|t| t.letter().is_some() && !t.is("a"))?;
        let letter = plain_index(&t.text);
        let (stays, end) = self.stays_or_moves(self.skip(e) + 1)?;
        if !stays {
            return None;
        }
        self.asking = true;
        self.push_ask(Target::Range(letter), i, end);
        let span = self.span(i, end);
        self.fact(Vec::new(), span, Fact::State(State::AtRest));
        Some(end)
    }
}
