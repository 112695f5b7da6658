//! How the motion begins: `is released from rest`, `starts from rest`, `sets off at 3 m s⁻¹`.

use crate::noun::Ref;
use crate::reader::Reader;
use crate::story::{Fact, Given};
use exact::Value;
use model::State;

impl Reader<'_> {
    pub(super) fn release(&mut self, at: usize) -> Option<usize> {
        let mut end = at + 1;
        if matches!(self.w(at), "let" | "allowed" | "left") {
            end = self
                .phrase(at, "let go|fall|free|move")
                .or_else(|| self.phrase(at, "allowed to move|fall|slide|run freely?"))
                .or_else(|| self.phrase(at, "left to itself|themselves|move"))?;
        }
        let of = self.who();
        for _ in 0..5 {
            let k = self.skip(end);
            if let Some(e) = self.phrase(k, "from rest|this|that? position?") {
                end = e;
                continue;
            }
            if let Some(e) = self.phrase(k, "with the? string|rope|strings|cord|thread|cable|ropes|both? strings|ropes? taut|tight|vertical") {
                self.told(k, e, "the string is tight from the start");
                end = e;
                continue;
            }
            if let Some(e) = self.phrase(k, "with both strings|ropes taut") {
                self.told(k, e, "both strings are tight from the start");
                end = e;
                continue;
            }
            if let Some(e) = self.phrase(k, "with both|the? hanging|straight|free? parts|sections|portions of the string|rope vertical|taut").or_else(|| self.phrase(k, "with both|the|all bodies|particles|blocks|masses|boxes hanging freely|vertically")) {
                self.glue(k, e);
                end = e;
                continue;
            }
            break;
        }
        let span = self.span(at, end);
        let given = self.zero(at, end);
        self.told(
            at,
            end,
            "released from rest: no speed at the start; which way it moves follows from the forces",
        );
        self.releasing = true;
        self.fact(of.clone(), span, Fact::State(State::Released));
        self.fact(of, span, Fact::StartSpeed(given));
        self.releasing = false;
        Some(end)
    }

    pub(super) fn starts(&mut self, at: usize) -> Option<usize> {
        if self.w(at) == "set" {
            let e = self.phrase(at, "set free").or_else(|| self.phrase(at, "set in motion"))?;
            let span = self.span(at, e);
            let of = self.who();
            let given = self.zero(at, e);
            self.told(
                at,
                e,
                "released from rest: no speed at the start; which way it moves follows from the forces",
            );
            self.releasing = true;
            self.fact(of.clone(), span, Fact::State(State::Released));
            self.fact(of, span, Fact::StartSpeed(given));
            self.releasing = false;
            return Some(e);
        }
        if let Some(e) = self.phrase(at + 1, "from rest") {
            self.tell_from_rest(at, e);
            return Some(self.trip(e));
        }
        if let Some(e) = self.phrase(at + 1, "at rest") {
            self.tell_from_rest(at, e);
            return Some(e);
        }
        // starts to move, begins moving upwards; as the elevator starts upward
        if let Some(e) = self
            .phrase(at + 1, "to move|slide|descend|ascend|rise|accelerate|fall|travel")
            .or_else(|| self.phrase(at + 1, "moving|its|their? motion|sliding|journey"))
        {
            self.told(at, e, "it begins to move");
            if let Some((way, e2)) = self.way(e) {
                let span = self.span(at, e2);
                let of = self.who();
                self.told(e, e2, "which way it begins to move");
                self.fact(of, span, Fact::Heading(way));
                return Some(self.trip(e2));
            }
            return Some(self.trip(e));
        }
        if let Some((way, e)) = self.way(at + 1) {
            let span = self.span(at, e);
            let of = self.who();
            self.told(at, e, "which way it begins to move");
            self.fact(of, span, Fact::Heading(way));
            return Some(e);
        }
        // "after they start"
        if self.asking {
            return Some(at + 1);
        }
        None
    }

    /// `from rest`: no speed at the start.
    pub(super) fn tell_from_rest(&mut self, a: usize, b: usize) {
        let span = self.span(a, b);
        let given = self.zero(a, b);
        let of = self.who();
        self.told(a, b, "from rest: no speed at the start, u = 0");
        self.fact(of, span, Fact::StartSpeed(given));
    }

    pub(super) fn who(&self) -> Vec<usize> {
        match &self.about {
            Some(Ref::Bodies(b)) => b.clone(),
            Some(Ref::System) => (0..self.story.bodies.len()).collect(),
            _ if !self.subject.is_empty() => self.subject.clone(),
            _ => self.latest.clone(),
        }
    }

    pub(super) fn zero(&self, a: usize, b: usize) -> Given {
        let span = self.span(a, b);
        Given { value: Value::zero(), span, written: "0".to_owned(), part: self.part }
    }
}

#[cfg(test)]
mod tests {
    use crate::trial::means;

    #[test]
    fn from_rest_there_is_no_speed_at_the_start() {
        let text = "Two particles P and Q of mass 3 kg and 2 kg hang at the ends of a light string over a smooth \
         pulley. The system is released from rest. Find the speed of P after 2 s.";
        assert_eq!(
            means(text, "released"),
            "released from rest: no speed at the start; which way it moves follows from the forces"
        );
        assert_eq!(means(text, "after 2 s"), "time 2 s");
    }
}
