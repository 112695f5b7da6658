//! What makes a sentence ask: `Find`, `Show that`, `What is`, `How far does it travel`.

use crate::noun::Ref;
use crate::reader::Reader;
use crate::story::{By, Target};

impl Reader<'_> {
    /// `Find`, `Show that`, `What is`, `How far`: the sentence asks.
    pub(crate) fn command(&mut self, i: usize, question: bool) -> Option<usize> {
        let start = i;
        let mut at = i;
        if let Some(e) = self.phrase(at, "hence|also|now|thus|therefore ,? or? otherwise? ,?")
            && (!matches!(self.w(i), "now" | "also") || self.is_command(self.w(self.skip(e))))
        {
            at = self.skip(e);
        }
        if let Some(e) = self.phrase(at, "you are asked|required to") {
            at = self.skip(e);
        }
        let w = self.w(at);
        if self.is_command(w) || matches!(w, "what" | "how" | "with") {
            self.settle_tows();
        }
        if self.is_command(w) {
            let mut e = at + 1;
            if let Some(e2) = self.phrase(at, "work|write|find|make out|down") {
                e = e2;
            }
            while matches!(
                self.w(self.skip(e)),
                ":" | "," | "also" | "expressions" | "expression" | "for" | "that" | "and" | "an" | "hence"
            ) {
                if self.w(self.skip(e)) == "for"
                    && !matches!(self.w(self.skip(e) - 1), "expression" | "expressions")
                {
                    break;
                }
                if self.w(self.skip(e)) == "an" && self.w(self.skip(self.skip(e) + 1)) != "expression" {
                    break;
                }
                e = self.skip(e) + 1;
            }
            self.asking = true;
            self.commanded = true;
            self.showing = matches!(w, "show" | "prove" | "verify" | "deduce");
            self.glue(start, e);
            if let Some(e2) = self.phrase(e, "down? an|the|separate? equation|equations of motion for|of")
                && let Some(np) = self.nps(e2, true)
            {
                let e3 = self.phrase(np.end, ",? and|hence|thus? hence|thus?").unwrap_or(np.end);
                self.told(e, e3, "the worked solution shows these equations");
                return Some(e3);
            }
            if let Some(e2) = self.special_ask(e) {
                return Some(e2);
            }
            return Some(e);
        }
        if let Some(e) = self.question_words(at) {
            return Some(e);
        }
        if (self.asking || question)
            && let Some(e) = self.special_ask(at)
        {
            return Some(e);
        }
        None
    }

    pub(super) fn is_command(&self, w: &str) -> bool {
        matches!(
            w,
            "find"
                | "calculate"
                | "determine"
                | "show"
                | "prove"
                | "state"
                | "write"
                | "work"
                | "deduce"
                | "compute"
                | "evaluate"
                | "obtain"
                | "verify"
                | "derive"
                | "express"
                | "name"
                | "explain"
                | "give"
                | "describe"
                | "suggest"
        ) && !(w == "work" && self.lo == usize::MAX)
    }

    /// `What is the tension`, `How large is`, `With what acceleration do`, `How far does`, `How long does it take`.
    fn question_words(&mut self, i: usize) -> Option<usize> {
        if let Some(e) =
            self.phrase(i, "what|how large|great|big? is|are|was|will|would|must|should be? then?")
        {
            self.asking = true;
            self.glue(i, e);
            return Some(e);
        }
        if let Some(e) = self.phrase(i, "what normal|contact|upward|downward? force does|do") {
            // What force does the clamp exert on the pulley?
            self.asking = true;
            let mut at = self.skip(e);
            for _ in 0..6 {
                if matches!(self.w(at), "exert" | "apply" | "exerts") {
                    break;
                }
                at = self.skip(at + 1);
            }
            let on = self.phrase(at, "exert|apply on|to|upon")?;
            let by = {
                let hi = self.hi;
                let np = self.np(e);
                self.hi = hi;
                np.map(|n| n.what)
            };
            let np = self.np(on)?;
            let target = match (&np.what, by) {
                (Ref::Pulleys(p), _) => Target::PulleyForce(p.first().copied()),
                (Ref::Bodies(b), Some(Ref::Floor(_))) => {
                    Target::Contact { on: b.clone(), by: Some(By::Floor) }
                }
                (Ref::Bodies(b), Some(Ref::Surface(_))) => {
                    Target::Contact { on: b.clone(), by: Some(By::Surface) }
                }
                (Ref::Bodies(b), Some(Ref::Bodies(c))) => {
                    Target::Contact { on: b.clone(), by: c.first().map(|&c| By::Body(c)) }
                }
                (Ref::Bodies(_), Some(Ref::Links(l))) => Target::Link(l),
                (Ref::Floor(_), Some(Ref::Bodies(b))) => Target::Contact { on: b, by: Some(By::Floor) },
                _ => return None,
            };
            self.push_ask(target, i, np.end);
            return Some(np.end);
        }
        if let Some(e) = self.phrase(i, "with what|which acceleration|retardation|deceleration do|does|will")
        {
            self.asking = true;
            let slowing = self.w(self.skip(i + 2)) != "acceleration";
            let of = match self.np(e) {
                Some(np) => {
                    let b = self.bodies_of(Some(&np.what)).unwrap_or_default();
                    let end = self.phrase(np.end, "move|moves|descend|rise|ascend|fall|slide|travel|accelerate|begin|start to? move? together?").unwrap_or(np.end);
                    self.push_ask(Target::Acceleration { of: b, slowing, way: None }, i, end);
                    return Some(end);
                }
                None => Vec::new(),
            };
            self.push_ask(Target::Acceleration { of, slowing, way: None }, i, e);
            return Some(e);
        }
        let far = self
            .phrase(
                i,
                "how far up|down|along? the? ramp|slope|plane|slipway|track|table? does|do|will|has|have|did",
            )
            .map(|e| (e, true));
        let fast = self.phrase(i, "how fast is|are|will|does|do|was").map(|e| (e, false));
        if let Some((e, distance)) = far.or(fast) {
            self.asking = true;
            let np = self.nps(e, false)?;
            let of = self.bodies_of(Some(&np.what)).unwrap_or_default();
            let end = self.phrase(np.end, "be? have? move|moves|travel|moving|moved|travelling|going|fall|rise|descend|descended|travelled|slide|go|fallen|climb|ascend").unwrap_or(np.end);
            let target = if distance {
                Target::Distance { of: of.clone() }
            } else {
                Target::Speed { of: of.clone(), start: false }
            };
            self.push_ask(target, i, end);
            self.set_about(Ref::Bodies(of));
            return Some(end);
        }
        if let Some(e) = self.phrase(i, "how long does|do|will|is|must|it? it|they? take|takes|taken|be|elapse|elapses? to|for|before|until?").or_else(|| self.phrase(i, "how long does|do|will")) {
            self.asking = true;
            self.push_ask(Target::Time, i, e.min(i + 2));
            self.glue(i, e);
            return Some(e);
        }
        None
    }
}
