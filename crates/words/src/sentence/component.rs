//! Parts of a weight: `the component of the weight of the truck parallel to the track`, `the weight of the crate`.

use crate::noun::Ref;
use crate::reader::Reader;
use crate::story::{Share, Target};

impl Reader<'_> {
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
