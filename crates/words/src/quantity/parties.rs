//! Between whom a force acts: `acting on the car`, `exerted by P on Q`, `between A and the floor`.

use crate::noun::Ref;
use crate::quantity::{Mention, Sort};
use crate::reader::Reader;
use crate::story::Way;
use model::Role;

impl Reader<'_> {
    /// `acting on the car`, `is applied to C`, `exerted by P on Q`, `on the engine and the wagon respectively`.
    pub(super) fn acting(&mut self, m: &mut Mention, i: usize) -> Option<usize> {
        let mut at = i;
        if matches!(self.w(at), "is" | "are") {
            at = self.skip(at + 1);
        }
        let verb =
            matches!(self.w(at), "acting" | "exerted" | "applied" | "acts" | "act" | "pushing" | "pressing");
        if verb {
            at = self.skip(at + 1);
        }
        let mut moved = verb && at > i;
        for _ in 0..4 {
            let w = self.w(at);
            if matches!(w, "on" | "upon" | "to" | "for") && (m.on.is_none()) {
                if w == "to" && !verb {
                    break;
                }
                at = self.object(m, at + 1, |m, r| m.on = Some(r))?;
                moved = true;
            } else if matches!(w, "by" | "from") && m.by.is_none() {
                at = self.object(m, at + 1, |m, r| m.by = Some(r))?;
                moved = true;
            } else if let Some(e) = self.phrase(at, "respectively|forwards|horizontally|directly|only|alone") {
                at = e;
            } else if let Some(e) = self.phrase(at, "parallel to a|the line|lines of greatest slope of? the? plane|slope|ramp|slipway?").or_else(|| self.phrase(at, "parallel to the plane|slope|ramp|slipway|road|track|rails|table|floor|ground|surface|string|rope")) {
                at = e;
                moved = true;
            } else if let Some(e) = self.phrase(at, "and parallel to it|the plane|slope|ramp?").filter(|_| m.way.is_some()) {
                at = e;
                moved = true;
            } else if let Some(e) = self.phrase(at, "up this|the line|lines of? greatest? slope?") {
                m.way = Some(Way::UpSlope);
                at = e;
                moved = true;
            } else if let Some(e) = self.phrase(at, "in the line|direction of the strings|string|rope|ropes").or_else(|| self.phrase(at, "in line with the strings|string|rope")) {
                self.scene(at, e);
                at = e;
                moved = true;
            } else if let (true, Some((lean, e))) = (m.lean.is_none() && verb, self.lean(at)) {
                m.lean = Some(lean);
                at = e;
                moved = true;
            } else if let Some((way, e)) = self.way(at) {
                if !verb && m.way.is_some() {
                    break;
                }
                m.way = Some(way);
                at = e;
                moved = true;
            } else {
                break;
            }
            at = self.skip(at);
        }
        moved.then_some(at)
    }

    /// `with which the floor presses upon the foreman`, `that the slope exerts on the sled`, `which the clamp exerts on the pulley`.
    pub(super) fn exerted_clause(&mut self, m: &mut Mention, i: usize) -> Option<usize> {
        if !matches!(
            m.sort,
            Sort::PlainForce | Sort::Reaction | Sort::Resultant | Sort::Friction | Sort::Tension
        ) {
            return None;
        }
        let at = self.phrase(i, "with which").or_else(|| self.phrase(i, "that|which")).unwrap_or(i);
        let by = self.np(at)?;
        let verb =
            self.skip(self.phrase(by.end, "must|does|then|can|now|will|would|should|did").unwrap_or(by.end));
        if !matches!(
            self.w(verb),
            "exerts"
                | "presses"
                | "pushes"
                | "exert"
                | "press"
                | "push"
                | "pulls"
                | "acts"
                | "provides"
                | "produces"
                | "provide"
                | "produce"
                | "gives"
                | "give"
                | "supplies"
                | "develops"
        ) {
            return None;
        }
        let mut on_at = self.skip(verb + 1);
        if matches!(self.w(on_at), "up" | "down" | "back") {
            on_at = self.skip(on_at + 1);
        }
        if matches!(self.w(on_at), "on" | "upon" | "against") {
            on_at = self.skip(on_at + 1);
        }
        // The force that the engine provides.
        let whole =
            self.skip(verb + 1) >= self.hi || matches!(self.w(self.skip(verb + 1)), "," | "and" | ";");
        if whole
            && self.asking
            && self.bodies_of(Some(&by.what)).is_some_and(|b| b.as_slice() == self.driver().as_slice())
        {
            m.by = Some(by.what);
            return Some(verb + 1);
        }
        let on = self.np(on_at)?;
        let end = self.phrase(on.end, "'s tires|tyres|wheels").unwrap_or(on.end);
        self.glue(i, end);
        if m.way == Some(Way::Forward) && matches!(by.what, Ref::Surface(_)) {
            // The road drives the car forwards: its driving force.
            m.sort = Sort::Force(Role::Driving);
        } else {
            m.by = Some(by.what);
        }
        m.on = Some(on.what);
        Some(end)
    }

    /// `between the man and the floor of the lift`, `between each block and the slipway`, `between them`.
    pub(super) fn between(&mut self, m: &mut Mention, at: usize) -> Option<usize> {
        // Between the buffers: of the two that touch.
        if let (Some(e), [(a, b)]) =
            (self.phrase(at, "the|their buffers|faces"), self.story.contacts.as_slice())
        {
            m.between = vec![Ref::Bodies(vec![*a, *b])];
            return Some(e);
        }
        let first = self.nps(at, false)?;
        let mut end = first.end;
        m.between = vec![first.what];
        if self.w(self.skip(end)) == "and" {
            let saved = self.latest.clone();
            if let Some(second) = self.np(self.skip(end) + 1) {
                self.glue(end, second.end);
                end = second.end;
                m.between.push(second.what);
            }
            self.latest = saved;
        }
        Some(end)
    }

    pub(super) fn object(
        &mut self,
        m: &mut Mention,
        at: usize,
        put: impl Fn(&mut Mention, Ref),
    ) -> Option<usize> {
        let np = self.nps(at, !m.plural)?;
        if matches!(np.what, Ref::Thing) {
            return None;
        }
        let mut end = np.end;
        if matches!(np.what, Ref::Links(_) | Ref::Surface(_)) {
            end = self.after_np(&np.what, end);
        }
        put(m, np.what);
        if let Some(e) = self.phrase(end, "respectively") {
            end = e;
        }
        Some(end)
    }
}
