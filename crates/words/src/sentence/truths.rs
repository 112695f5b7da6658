//! Whether something is so: `show that the crate does not slip`, `will it move?`, `determine whether the rope breaks`.

use crate::noun::Ref;
use crate::reader::Reader;
use crate::sentence::clauses::among;
use crate::story::{Fact, Target, Truth};
use crate::timeline::{Event, Moment, Occurs};

/// Words before the verb that only give it its tense.
const TENSE: &str = "do does did will would must should can could is are was were has have be been to then now still just indeed \
     therefore both all begin begins start starts actually simply ever itself themselves";

impl Reader<'_> {
    /// A clause that is so or not, from `i` on; `told` is what it means if it stands as it is. The place after it.
    pub(super) fn truth(&mut self, i: usize, told: Option<bool>) -> Option<usize> {
        const VERBS: &str = "slip slips slide slides move moves budge remain remains stay stays rest break breaks snap snaps bear bears \
             withstand withstands support strong slack taut lift lifts equilibrium stationary moving sliding slipping";
        let i = self.skip(i);
        let far =
            (i..i + 14).find(|&k| matches!(self.w(k), "" | "," | ";" | "and" | "find")).unwrap_or(i + 14);
        if !(i..far).any(|k| among(VERBS, self.w(k))) {
            return None;
        }
        let kept = self.keep();
        let found = self.truth_here(i, told);
        if found.is_none() {
            self.restore(kept);
        }
        found
    }

    fn truth_here(&mut self, i: usize, told: Option<bool>) -> Option<usize> {
        let aux = self.phrase(i, "does|do|did|will|would|is|are|can|could").filter(|_| told.is_none());
        let subject = self.skip(aux.unwrap_or(i));
        let mut negated = false;
        let (what, mut at) = match self.phrase(subject, "nothing|neither") {
            Some(e) => {
                negated = true;
                (Ref::System, e)
            }
            None => {
                let np = self.nps(subject, false)?;
                (np.what, np.end)
            }
        };
        for _ in 0..8 {
            at = self.skip(at);
            let w = self.w(at);
            if matches!(w, "not" | "never" | "no") {
                negated = !negated;
            } else if !among(TENSE, w) {
                break;
            }
            at += 1;
        }
        let (truth, so, mut end) = self.what_is_so(&what, at)?;
        let so = so != negated;
        let span = self.span(i, end);
        if let Truth::Stays(of) = &truth {
            // Which way it goes is said in passing.
            if !so && let Some((way, e)) = self.way(end) {
                let of = of.map_or_else(Vec::new, |b| vec![b]);
                if told.is_some() {
                    self.story.claims.push((of, Fact::Heading(way), self.part, span));
                }
                end = e;
            }
            let place = |r: &Self, e: usize| {
                r.phrase(e, "there|here|again|afterwards|initially")
                    .or_else(|| r.phrase(e, "at all"))
                    .or_else(|| r.phrase(e, "at|in this|that|its|the highest? point|position"))
                    .or_else(|| r.phrase(e, "on the plane|slope|ramp|slipway|table|bench|floor"))
                    .or_else(|| r.phrase(e, "when|after|if it|they|everything? is|are? released|let|freed"))
                    .or_else(|| r.phrase(e, "when|if|after the system is released"))
            };
            const BACK: &str = "then there again back afterwards highest remain remains stay stays";
            let back = (i..end + 3).any(|k| among(BACK, self.w(k)));
            for _ in 0..2 {
                end = place(self, end).unwrap_or(end);
            }
            // "moves with an acceleration of 2", "moves 3 m": no yes or no.
            let next = self.w(self.skip(end));
            if !so
                && !matches!(
                    next,
                    "" | "," | ";" | "and" | "or" | "but" | "when" | "if" | "after" | "once" | "while"
                )
            {
                return None;
            }
            if back {
                self.rest_again(i, end);
            }
        }
        let target = Target::Whether(truth, told.map(|t| t == so));
        self.asking = true;
        self.push_ask(target, i, end);
        Some(end)
    }

    /// What the verb at `i` says of its subject: the truth, whether it says yes to it, and the place after it.
    fn what_is_so(&mut self, what: &Ref, i: usize) -> Option<(Truth, bool, usize)> {
        let bodies = match what {
            Ref::System => Some(Vec::new()),
            Ref::Bodies(b) => Some(b.clone()),
            _ => None,
        };
        if let Ref::Links(l) = what {
            let link = l.clone();
            if let Some(e) = self.phrase(i, "break|breaks|snap|snaps") {
                return Some((Truth::Bears(link), false, e));
            }
            if let Some(e) = self.phrase(i, "bear|bears|withstand|withstands|support|take|strong") {
                let e = self.phrase(e, "enough").unwrap_or(e);
                let e = self.phrase(e, "the|this|its|that tension|force|load|pull").unwrap_or(e);
                return Some((Truth::Bears(link), true, e));
            }
            let e = self.phrase(i, "become|becomes|go|goes|remain|remains|stay|stays|be").unwrap_or(i);
            if let Some(e) = self.phrase(e, "slack|loose") {
                return Some((Truth::Taut(link), false, e));
            }
            let e = self.phrase(e, "taut|tight")?;
            return Some((Truth::Taut(link), true, self.phrase(e, "throughout").unwrap_or(e)));
        }
        let bodies = bodies?;
        let one = match bodies.as_slice() {
            [] => None,
            [one] => Some(*one),
            all if all.len() == self.story.bodies.len() => None,
            _ => return None,
        };
        let loads =
            self.loads(&if bodies.is_empty() { (0..self.story.bodies.len()).collect() } else { bodies });
        if let Some(e) = self.phrase(i, "slip|slips|slide|slides|slipping|sliding") {
            if let [load] = loads.as_slice() {
                let e = self.slip_tail(e);
                return Some((Truth::Slips(*load), true, e));
            }
            return loads.is_empty().then_some((Truth::Stays(one), false, e));
        }
        if let Some(e) =
            self.phrase(i, "lift|lifts|lifted|leave|leaves off|from? the? ground|floor|table|plane|surface?")
        {
            return Some((Truth::LiftsOff(one?), true, e));
        }
        if let Some(e) = self.phrase(i, "move|moves|moving|budge") {
            return Some((Truth::Stays(one), false, e));
        }
        let e = self.phrase(i, "remain|remains|stay|stays|rest|be").unwrap_or(i);
        let e = self
            .phrase(e, "at rest")
            .or_else(|| self.phrase(e, "in limiting? equilibrium"))
            .or_else(|| self.phrase(e, "stationary|still|put"))
            .or_else(|| self.phrase(e, "where it is").or_else(|| self.phrase(e, "where they are")))
            .or_else(|| self.phrase(e, "there|here").filter(|_| e > i))?;
        Some((Truth::Stays(one), true, e))
    }

    /// What stopped in an earlier part: what is asked now is of the time after that.
    pub(super) fn rest_again(&mut self, a: usize, b: usize) {
        let stopped = self.story.asks.iter().rev().find_map(|ask| match &ask.when.to {
            Some(Moment::Rest(of)) => Some(of.clone()),
            _ => {
                let rests = |f: &Fact| matches!(f, Fact::EndSpeed(g) if g.value.is_zero());
                ask.facts.iter().any(rests).then(|| self.latest.clone())
            }
        });
        let Some([body]) = stopped.as_deref() else { return };
        // After another happening the working does not follow it yet.
        if !self.story.events.is_empty() {
            return;
        }
        let occurs = Occurs::Rests(*body);
        let span = self.span(a, b);
        self.story.events.push(Event { occurs, told: true, part: self.part, span });
        self.chapter = self.story.events.len();
    }
}
