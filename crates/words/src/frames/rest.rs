//! Standing on something: `rests on a rough horizontal table`, `is held at rest`, `stands on the floor of a lift`.

use crate::noun::Ref;
use crate::reader::Reader;
use crate::story::On;
use exact::Dimension;
use model::State;

impl Reader<'_> {
    pub(crate) fn rest(&mut self, at: usize) -> Option<usize> {
        let held = self.w(at) == "held";
        let remains = matches!(self.w(at), "remain" | "remains" | "stays" | "stay");
        let mut subject = self.about_bodies();
        let mut end = at + 1;
        let mut still = held;
        let mut placed = false;
        if subject.len() > 1
            && let Some(e) = self.piled(at, &subject)
        {
            placed = true;
            end = e;
            if let [lowest, ..] = subject.as_slice() {
                subject = vec![*lowest];
            }
        }
        for _ in 0..8 {
            let k = self.skip(end);
            if let Some(e) = self
                .phrase(k, "at rest|equilibrium")
                .or_else(|| self.phrase(k, "in equilibrium"))
                .or_else(|| self.phrase(k, "stationary|still"))
            {
                still = true;
                if let Some(e2) = self.phrase(e, "relative to").or_else(|| self.phrase(e, "with respect to"))
                    && let Some(np) = self.np(e2)
                {
                    self.told(k, np.end, "they move together");
                    end = np.end;
                    continue;
                }
                if remains || (k..e).any(|n| self.w(n) == "equilibrium") {
                    self.state(at, e, State::AtRest, "at rest: no acceleration");
                }
                end = e;
                continue;
            }
            if let Some(e) = self.phrase(k, "together|there|initially|with|freely|directly|on? top|vertically|next|side by|in place|contact").filter(|_| matches!(self.w(k), "together" | "there" | "initially" | "freely" | "vertically")) {
                end = e;
                continue;
            }
            if let Some(e) = self.phrase(k, "along|parallel to? a|the line|lines of greatest slope of? the? plane|slope|ramp|slipway|incline?") {
                self.told(k, e, "along the slope");
                placed = true;
                end = e;
                continue;
            }
            if let Some(e) = self.phrase(k, "parallel to")
                && let Some(np) = self.np(e)
                && matches!(np.what, Ref::Surface(_))
            {
                self.told(k, np.end, "along the line of motion");
                placed = true;
                end = np.end;
                continue;
            }
            if let Some(e) = self.arranged(k) {
                self.scene(k, e);
                placed = true;
                end = e;
                continue;
            }
            // 2.45 m from the edge: how far it can go
            if let Some((amount, e)) =
                self.phrase(k, "at? a distance of?").or(Some(k)).and_then(|p| self.amount(p, true))
                && let Some(e2) = self
                    .phrase(e, "from the pulley|edge|peg")
                    .filter(|_| amount.dimension == Some(Dimension::LENGTH))
            {
                let given = self.given(&amount);
                self.clear(given, false);
                self.told(k, e2, "how far it can move");
                end = e2;
                continue;
            }
            if let Some(e) = self.under_force(k) {
                end = e;
                continue;
            }
            if let Some(e) = self.touch(k).or_else(|| self.one_above(k)) {
                end = e;
                placed = true;
                continue;
            }
            // on either side of the pulley
            if let Some(e) = self.phrase(k, "on either|each|opposite side|sides of") {
                if let Some(np) = self.np(e)
                    && matches!(np.what, Ref::Pulleys(_))
                {
                    for &b in &subject {
                        if let Some(body) = self.story.bodies.get_mut(b) {
                            body.hangs = true;
                        }
                    }
                    end = self.after_np(&np.what, np.end);
                    placed = true;
                    continue;
                }
                break;
            }
            // on a scale, before the lift itself is named
            if let Some(e) = self.phrase(
                k,
                "on|upon a|the|some|bathroom|weighing? set? of? bathroom|weighing? scale|scales|machine",
            ) {
                self.told(k, e, "a scale shows the push between it and what stands on it");
                end = e;
                placed = true;
                continue;
            }
            let on = self
                .phrase(k, "on|upon|at the? top|surface|bottom|foot of")
                .or_else(|| self.phrase(k, "on|upon|in|inside|along|at|against"));
            if let Some(e) = on {
                let np = match self.slope_pronoun(e).or_else(|| self.nps(e, true)) {
                    Some(np) => np,
                    None => {
                        if let Some(e2) = self.place(k) {
                            end = e2;
                            continue;
                        }
                        break;
                    }
                };
                match np.what.clone() {
                    Ref::Surface(s) => {
                        for &b in &subject {
                            if let Some(body) = self.story.bodies.get_mut(b) {
                                body.on = Some(On::Surface(s));
                            }
                        }
                    }
                    Ref::Floor(l) => self.put_on(&subject, l),
                    Ref::Bodies(b) => {
                        // "A person is standing in it": what was spoken of before.
                        let before = self.pair.filter(|p| subject == [p.1]).map(|p| p.0);
                        match (b.as_slice(), before) {
                            ([one], Some(before)) if subject == [*one] => self.put_on(&subject, before),
                            ([one], _) => self.put_on(&subject, *one),
                            _ => break,
                        }
                    }
                    _ => break,
                }
                placed = true;
                let names = self.names(&subject);
                self.told(k, np.end, format!("what {names} stands on"));
                // ", has mass 8 kg" after a relative clause goes back to what stands there.
                let back = self.phrase(np.end, ", has|have|is|are").is_some();
                end = if back { np.end } else { self.after_np(&np.what, np.end) };
                continue;
            }
            break;
        }
        if !still && !placed {
            return None;
        }
        if subject.iter().any(|&b| self.story.bodies.get(b).is_some_and(|x| x.on == Some(On::Body(b)))) {
            return None;
        }
        if held && still {
            self.state(at, end, State::AtRest, "held at rest: no acceleration until it is released");
        }
        self.glue(at, end);
        Some(end)
    }

    /// What is said of the bodies spoken of without a verb: `Three crates in a row, on a smooth floor: 10 kg, then 8 kg,
    /// then 2 kg`, `there are three blocks in contact, of masses ...`.
    pub(crate) fn told_loosely(&mut self, i: usize) -> Option<usize> {
        let Some(Ref::Bodies(bodies)) = self.about.clone() else { return None };
        let some = |r: &Self, test: &dyn Fn(&crate::story::BodyTold) -> bool| {
            bodies.iter().any(|&b| r.story.bodies.get(b).is_some_and(test))
        };
        // "each of mass 5 kg and 3 kg" gives every one of them two masses: that is not for us to settle.
        if self.asking || bodies.is_empty() || self.w(i.wrapping_sub(1)) == "each" {
            return None;
        }
        if matches!(self.w(i), "," | ":" | "of" | "with" | "each") && !some(self, &|b| b.mass.is_some()) {
            if let Some(list) =
                self.listed(i, Some(bodies.len())).filter(|l| l.labels.is_empty() && l.ranks.is_empty())
                && bodies.len() > 1
            {
                self.set_mass(&bodies, &list.masses);
                self.told(i, list.end, "their masses");
                return Some(list.end);
            }
            let (amounts, e, _) = self
                .masses_after(i, false)
                .filter(|(m, _, each)| m.len() == 1 || m.len() == bodies.len() && !each)?;
            if self.w(i) == "," || bodies.len() > 1 {
                self.set_mass(&bodies, &amounts);
                let names = self.names(&bodies);
                self.told(i, e, format!("the mass of {names}"));
                return Some(e);
            }
        }
        let e = self.phrase(i, ",? on|upon").filter(|&e| self.surface_ahead(e))?;
        if some(self, &|b| b.on.is_some() || b.hangs) {
            return None;
        }
        let np = self.np(e)?;
        let Ref::Surface(s) = np.what else { return None };
        self.on_surface(&bodies, s);
        let names = self.names(&bodies);
        self.told(i, e, format!("what {names} stands on"));
        Some(self.after_np(&np.what, np.end))
    }

    /// How several stand to each other, which the order of their names tells already.
    pub(super) fn arranged(&self, k: usize) -> Option<usize> {
        const WAYS: &[&str] = &[
            ",? in a|one straight? line|row",
            ",? in line",
            ",? in the same straight? line",
            ",? in that|this order",
            ",? the? one behind|after the? other|another|next",
            ",? end to end",
        ];
        WAYS.iter().find_map(|way| self.phrase(k, way))
    }

    /// `stacked`, `placed one on top of the other`: the first named is taken for the lowest, the next stand on it.
    fn piled(&mut self, at: usize, subject: &[usize]) -> Option<usize> {
        let next = self.skip(at + 1);
        let over = self
            .phrase(next, "one|each ,? on top of the|another other|next?")
            .or_else(|| self.phrase(next, "on top of each other"))
            .or_else(|| self.phrase(next, "on top of one another"))
            .or_else(|| self.phrase(next, "one on|upon the other|another"));
        let alike = subject
            .iter()
            .all(|&b| self.story.bodies.get(b).is_some_and(|b| b.mass.is_none() && b.label.is_none()));
        // Which of them lies below is told later by calling it the lower; named ones would have to be told.
        if !alike || !(over.is_some() || matches!(self.w(at), "stacked" | "piled")) {
            return None;
        }
        for (&below, &above) in subject.iter().zip(subject.iter().skip(1)) {
            self.put_on(&[above], below);
        }
        let end = over.unwrap_or(at + 1);
        self.told(at, end, "each stands on the one below it");
        Some(end)
    }

    pub(crate) fn put_on(&mut self, what: &[usize], carrier: usize) {
        for &b in what {
            if let Some(body) = self.story.bodies.get_mut(b) {
                body.on = Some(On::Body(carrier));
                body.hangs = false;
            }
        }
    }

    /// Puts bodies on a surface where nothing else is said.
    pub(super) fn on_surface(&mut self, bodies: &[usize], surface: usize) {
        for &b in bodies {
            if let Some(body) = self.story.bodies.get_mut(b)
                && body.on.is_none()
                && !body.hangs
            {
                body.on = Some(On::Surface(surface));
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::trial::{in_short, told};

    #[test]
    fn a_crate_on_the_floor_of_a_hoist_moves_with_it() {
        let text = "A hoist of mass 400 kg is raised by a cable. A crate of mass 100 kg rests on the floor of \
         the hoist. The hoist accelerates upwards at 0.5 m s^-2. Find the reaction between the crate \
         and the floor.";
        let expected = [
            "the hoist hangs",
            "the crate hangs",
            "reaction between the crate and the hoist: the crate - the hoist",
            "tension in the cable: along",
            "Moving",
        ];
        assert_eq!(in_short(&told(text)), expected);
    }
}
