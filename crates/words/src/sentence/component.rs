//! A diagram of forces; parts of a weight: `the component of the weight of the truck parallel to the track`, `the weight of the crate`.

use crate::noun::Ref;
use crate::reader::Reader;
use crate::story::{Share, Target};

impl Reader<'_> {
    /// `Show on a diagram the forces acting on P`, `Draw a free-body diagram for each block`, `Sketch, on separate
    /// diagrams, the forces acting on A and B`: the figure shows them, and the answer names them.
    pub(super) fn diagram(&mut self, i: usize) -> Option<usize> {
        let at = self.phrase(i, "draw|sketch|show|mark|indicate ,?")?;
        if !(at..self.hi).any(|k| matches!(self.w(k), "diagram" | "diagrams" | "sketch" | "figure")) {
            return None;
        }
        const DRAWING: &str = "labelled|labeled|clear|clearly|separate|suitable|free-body|force|free";
        let drawing = |r: &Self, k: usize| {
            let k = r.phrase(k, "a|an|the|two|three|separate").unwrap_or(k);
            let mut k = r.phrase(k, DRAWING).unwrap_or(k);
            k = r.phrase(k, "labelled|labeled|separate|force|body").unwrap_or(k);
            k = r.phrase(k, "body").unwrap_or(k);
            r.phrase(k, "diagram|diagrams|sketch|figure")
        };
        let on = self.phrase(at, "on|in|with").unwrap_or(at);
        let first = drawing(self, on);
        let mut at = first.unwrap_or(at);
        at = self.phrase(at, ",").unwrap_or(at);
        at = self.phrase(at, "showing|of|to show|for").unwrap_or(at);
        at = self
            .phrase(
                at,
                "clearly? all? the|each? of? the? external? forces|force which|that? act|acts|acting? on?",
            )
            .unwrap_or(at);
        at = self.phrase(at, "of|for").unwrap_or(at);
        let saved = (self.latest.clone(), self.pair, self.story.bodies.len());
        let np = self.nps(at, false).filter(|_| self.story.bodies.len() == saved.2);
        let (bodies, end) = match np {
            Some(np) => match np.what {
                Ref::Bodies(b) => (b, np.end),
                Ref::System => (Vec::new(), np.end),
                _ => return None,
            },
            None => (Vec::new(), at),
        };
        let second = self.phrase(end, "on|in").and_then(|k| drawing(self, k));
        if first.is_none() && second.is_none() {
            (self.latest, self.pair) = (saved.0, saved.1);
            return None;
        }
        let end = second.unwrap_or(end);
        self.asking = true;
        self.push_ask(Target::Diagram(bodies), i, end);
        self.glue(i, end);
        Some(end)
    }

    /// A weight, or its part along or across the slope, where it is asked for. The place after it.
    pub(super) fn component(&mut self, i: usize) -> Option<usize> {
        if !self.asking {
            return None;
        }
        let at = self.phrase(i, "the? magnitude|size of the").unwrap_or(i);
        let part = self.phrase(at, "the? resolved? component|part of the|its|their");
        let at = part.unwrap_or(self.phrase(at, "the").unwrap_or(at));
        let at = self.phrase(at, "weight")?;
        let saved = (self.latest.clone(), self.pair, self.story.bodies.len());
        let (bodies, at) = match self.phrase(at, "of") {
            Some(of) => {
                let np = self.np(of).filter(|_| self.story.bodies.len() == saved.2)?;
                let Ref::Bodies(b) = np.what else { return None };
                (b, np.end)
            }
            None if self.subject.len() == 1 => (self.subject.clone(), at),
            None => (self.latest.clone(), at),
        };
        let [body] = bodies.as_slice() else {
            (self.latest, self.pair) = (saved.0, saved.1);
            return None;
        };
        let (part, end) = match part {
            None => (Share::Whole, at),
            Some(_) => {
                let at = self.phrase(at, "which|that? acts|acting|in? the? direction?").unwrap_or(at);
                let along = self
                    .phrase(at, "parallel to")
                    .or_else(|| self.phrase(at, "along|down|up"))
                    .map(|e| (Share::Along, e));
                let across = || {
                    let e = self
                        .phrase(at, "perpendicular|normal to")
                        .or_else(|| self.phrase(at, "at right angles to"))?;
                    Some((Share::Across, e))
                };
                let (part, e) = along.or_else(across)?;
                let np = self.np(e)?;
                if !matches!(np.what, Ref::Surface(_)) {
                    return None;
                }
                (part, np.end)
            }
        };
        self.push_ask(Target::Weight { of: *body, part }, i, end);
        let end = self.show_value(end).unwrap_or(end);
        self.glue(i, end);
        Some(end)
    }
}
