//! Exerting and suffering a force: `the engine exerts a driving force of 3 kN`, `the floor presses up on her`.

use crate::noun::Ref;
use crate::quantity::Sort;
use crate::reader::Reader;
use crate::story::Fact;

impl Reader<'_> {
    pub(super) fn exert(&mut self, at: usize, passive: bool) -> Option<usize> {
        if passive {
            // "the brakes are applied": told with the braking force.
            return None;
        }
        let subject = self.about_bodies();
        // "the driver applies the brakes", "the engine's brakes"
        if let Some(e) = self.phrase(at + 1, "the|its|his|her? brakes|brake") {
            self.told(at, e, "braking: a force against the motion");
            let span = self.span(at, e);
            let of = subject.clone();
            self.fact(of, span, Fact::Slowing);
            return Some(e);
        }
        // "the floor presses up on her with a force of 678 N"
        let mut k = self.skip(self.phrase(at + 1, "forward|forwards|along? with").unwrap_or(at + 1));
        if matches!(self.w(k), "up" | "down" | "back") {
            k = self.skip(k + 1);
        }
        if matches!(self.w(k), "on" | "upon" | "against") {
            let about = self.about.clone();
            let np = self.np(self.skip(k + 1))?;
            let e = self.phrase(np.end, "with")?;
            let mut m = self.mention(e)?;
            m.on = Some(np.what);
            m.by = about;
            if self.tell(&m) {
                self.told(at, np.end, "a push");
                return Some(m.end);
            }
            return None;
        }
        let about = self.about.clone();
        let mut m = self.mention(k)?;
        if m.on.is_none() && m.of.is_none() && !subject.is_empty() {
            m.on = Some(Ref::Bodies(subject.clone()));
        }
        if let (Some(Ref::Bodies(on)), true) = (&m.on, !subject.is_empty()) {
            // One body of the story on another: a force between them, not one from outside.
            if on.iter().any(|b| !subject.contains(b)) {
                m.by = Some(Ref::Bodies(subject.clone()));
                if !matches!(m.sort, Sort::PlainForce | Sort::Reaction) {
                    return None;
                }
            }
        }
        if m.by.is_none() && matches!(about, Some(Ref::Floor(_) | Ref::Surface(_) | Ref::Links(_))) {
            // The road pushes a car forwards: a driving force, not a reaction.
            if !matches!(m.sort, Sort::Force(_) | Sort::Resistance | Sort::Friction) {
                m.by = about;
            }
        }
        if self.tell(&m) {
            return Some(m.end);
        }
        None
    }

    pub(super) fn suffer(&mut self, at: usize) -> Option<usize> {
        // "It experiences a resistance", where it may be one of several bodies.
        if self.w(self.skip(self.lo)) == "it" && self.story.bodies.len() > 1 {
            return None;
        }
        let subject = self.about_bodies();
        let mut m = self.mention(self.skip(at + 1))?;
        if m.of.is_none() && m.on.is_none() && !subject.is_empty() {
            m.on = Some(Ref::Bodies(subject));
        }
        self.tell(&m).then_some(m.end)
    }
}

#[cfg(test)]
mod tests {
    use crate::trial::{in_short, told};

    #[test]
    fn a_driving_force_and_a_resistance() {
        let text = "A van of mass 900 kg moves along a straight level road. The engine exerts a driving force of \
         1800 N and the van experiences a resistance of 300 N. Find the acceleration of the van.";
        let expected = [
            "the van moves on the level",
            "driving force: along",
            "resistance on the van: against the motion",
            "Moving",
        ];
        assert_eq!(in_short(&told(text)), expected);
    }
}
