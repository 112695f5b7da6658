//! Carrying: `the lift carries a crate`, `the string carries a ball at its other end`, `is supported by a cable`.

use crate::amount::in_words;
use crate::lexicon;
use crate::noun::Ref;
use crate::quantity::quantity_word;
use crate::reader::Reader;
use crate::story::On;
use model::Form;

impl Reader<'_> {
    pub(super) fn carry(&mut self, at: usize, passive: bool) -> Option<usize> {
        if passive {
            // The lift is supported by a cable.
            let subject = self.about_bodies();
            if let Some(e) = self.phrase(at + 1, "in|inside|on")
                && let Some(np) = self.np(e)
                && let Ref::Bodies(b) = &np.what
                && let Some(&lift) =
                    b.iter().find(|&&b| self.story.bodies.get(b).is_some_and(|x| x.form == Form::Lift))
            {
                self.put_on(&subject, lift);
                self.told(at, np.end, "carried: they move with it");
                return Some(self.after_np(&np.what, np.end));
            }
            let e = self.phrase(at + 1, "vertically? by")?;
            let np = self.np(e)?;
            let Ref::Links(l) = np.what.clone() else { return None };
            for &b in &subject {
                if let Some(&l) = l.first() {
                    self.add_end(l, b);
                }
            }
            self.told(at, np.end, "held up by it: its tension acts upwards");
            return Some(self.after_np(&np.what, np.end));
        }
        let links = self.about_links();
        let subject = self.about_bodies();
        let mut k = self.skip(at + 1);
        let mut end_named = false;
        // carries at its other end a particle Q
        if matches!(self.w(k), "at" | "on")
            && let Some(np) = self.np(self.skip(k + 1))
            && let Ref::Ends(_) = np.what
        {
            end_named = true;
            k = self.skip(np.end);
        }
        // carry, hanging freely at their other ends, two loads
        if !links.is_empty()
            && let Some(e) = self.phrase(k, ",? hanging|suspended freely|vertically?")
        {
            let at = self.phrase(e, "at|from|on").unwrap_or(e);
            let np = if at > e { self.ends(self.skip(at)) } else { None };
            k = np.map_or(e, |np| np.end);
            k = self.phrase(k, ",").unwrap_or(k);
        }
        if let Some(e) = self.cargo(k) {
            self.scene(at, e);
            return Some(e);
        }
        let np = self.nps(k, true)?;
        let Ref::Bodies(b) = np.what.clone() else { return None };
        let mut end = self.after_np(&np.what, np.end);
        let mut b = b;
        for _ in 0..3 {
            let Some(e) = self
                .phrase(end, "at|on|from its|their|the|one? other|lower|free|second? end|ends|extremity?")
            else {
                break;
            };
            if !matches!(self.w(e.wrapping_sub(1)), "end" | "ends" | "other" | "extremity") {
                break;
            }
            self.glue(end, e);
            end = self.after_np(&np.what, e);
            let Some(e) = self.phrase(end, ",? and").filter(|_| !links.is_empty()) else { break };
            let Some(more) = self.np(e) else { break };
            let Ref::Bodies(x) = more.what.clone() else { break };
            self.glue(end, e);
            b.extend(x);
            end = self.after_np(&more.what, more.end);
        }
        if !links.is_empty() || end_named {
            let l = if links.is_empty() { self.link.clone() } else { links };
            // "Each string carries a load": as many loads as strings.
            if let (&[load], true) = (b.as_slice(), l.len() > 1)
                && let Some(like) = self.story.bodies.get(load).filter(|x| x.label.is_none()).cloned()
                && (self.lo..at).any(|n| matches!(self.w(n), "each" | "both"))
            {
                for n in 1..l.len() {
                    b.push(self.story.bodies.len());
                    let order = Some(like.order.unwrap_or(0) + n);
                    self.story.bodies.push(crate::story::BodyTold { order, ..like.clone() });
                }
                if let Some(first) = self.story.bodies.get_mut(load).filter(|x| x.order.is_none()) {
                    first.order = Some(0);
                }
                if let Some(list) = self.listed(end, Some(b.len())) {
                    self.set_mass(&b, &list.masses);
                    self.told(end, list.end, "their masses");
                    end = list.end;
                }
            }
            self.at_ends(&l, &b);
            for &x in &b {
                // What a string over a pulley carries, hangs.
                let over = l.iter().any(|&l| {
                    self.story.links.get(l).is_some_and(|l| !l.pulleys.is_empty() && l.ends.contains(&x))
                });
                if let Some(body) = self.story.bodies.get_mut(x)
                    && body.on.is_none()
                    && over
                {
                    body.hangs = true;
                }
            }
            let names = self.names(&b);
            self.told(at, at + 1, format!("{names} is at the end of it"));
            return Some(end);
        }
        let [carrier] = subject.as_slice() else { return None };
        if self
            .story
            .bodies
            .get(*carrier)
            .is_none_or(|x| x.form != Form::Lift && x.on.is_none_or(|o| !matches!(o, On::Body(_))))
        {
            return None;
        }
        for &x in &b {
            self.put_on(&[x], *carrier);
        }
        let e = self.phrase(end, "on its floor").unwrap_or(end);
        self.told(at, at + 1, "it carries it on its floor");
        self.glue(end, e);
        Some(e)
    }

    /// A load named only by what it is: `carry stone`, `carrying sacks of grain`.
    fn cargo(&mut self, i: usize) -> Option<usize> {
        let t = self.tok(i)?;
        let next = self.w(self.skip(i + 1));
        let bare = t.is_word()
            && !lexicon::glue(&t.lower)
            && t.letter().is_none()
            && in_words(&t.lower).is_none()
            && !quantity_word(&t.lower);
        let ends = next.is_empty()
            || matches!(next, "along" | "and" | "," | "." | "to" | "from" | "is" | "are" | "on" | "in");
        (bare && ends && self.about_links().is_empty()).then_some(i + 1)
    }
}

#[cfg(test)]
mod tests {
    use crate::trial::{in_short, told};

    #[test]
    fn a_lift_carries_a_crate_and_a_cable_carries_the_lift() {
        let text = "A lift of mass 500 kg carries a crate of mass 100 kg on its floor. The lift is supported by \
         a cable. The lift accelerates upwards at 0.5 m s^-2. Find the tension in the cable.";
        let expected = [
            "the lift hangs",
            "the crate hangs",
            "reaction between the crate and the lift: the crate - the lift",
            "tension in the cable: along",
            "Moving",
        ];
        assert_eq!(in_short(&told(text)), expected);
    }
}
