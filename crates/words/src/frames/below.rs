//! What hangs from something that moves: `from the ceiling of a lift`, `below A`, `from the hook of a crane`.

use crate::noun::Ref;
use crate::reader::Reader;
use model::Form;

impl Reader<'_> {
    /// `the ceiling of the lift`, `the roof of the cage`, `the ceiling` where there is one lift: the lift.
    pub(super) fn ceiling(&mut self, i: usize) -> Option<(usize, usize)> {
        let e = self.phrase(i, "the|its roof|ceiling|top|underside")?;
        if self.w(self.skip(e)) == "of" {
            let of = self.skip(e) + 1;
            let saved = (self.latest.clone(), self.pair);
            let np = self.lift_ahead(of).then(|| self.np(of)).flatten()?;
            (self.latest, self.pair) = saved;
            let Ref::Bodies(b) = np.what else { return None };
            self.glue(i, of);
            return Some((*b.first()?, np.end));
        }
        let mut lifts = self.story.bodies.iter().enumerate().filter(|(_, b)| b.form == Form::Lift);
        match (lifts.next(), lifts.next()) {
            (Some((lift, _)), None) => {
                self.glue(i, e);
                Some((lift, e))
            }
            _ => None,
        }
    }

    /// `the hook of the crane`, `a helicopter`, `a hook on the jib`: what holds it is no body of the story.
    pub(super) fn outside(&mut self, i: usize) -> Option<usize> {
        let hook = self.phrase(i, "the|a hook|arm|jib|head|end of|on|hanging? from?").unwrap_or(i);
        let e = self.phrase(
            hook,
            "the|a|an? fixed|tall|harbour|quayside|dock|floating? crane|helicopter|derrick|winch|gantry|airship|balloon|jib",
        )?;
        self.scene(i, e);
        Some(e)
    }

    /// `Below the crate hangs a second crate`: who is above whom.
    pub(crate) fn below_hangs(&mut self, i: usize) -> Option<usize> {
        let e = self.phrase(i, "below|beneath|under|from")?;
        let saved = (self.story.clone(), self.uses.clone(), self.latest.clone(), self.pair);
        let hung = |r: &mut Self| -> Option<usize> {
            let up = r.np(e)?;
            let Ref::Bodies(upper) = up.what else { return None };
            let verb = r
                .phrase(up.end, "there? hangs|hang")
                .or_else(|| r.phrase(up.end, "there? is|are suspended|hung"))?;
            let np = r.np(verb)?;
            let (Ref::Bodies(lower), [one]) = (np.what.clone(), upper.as_slice()) else { return None };
            let [load] = lower.as_slice() else { return None };
            r.hangs_below(*one, *load);
            let text = format!("{} hangs below {}", r.name(*load), r.name(*one));
            r.told(i, verb, text);
            let end = r.after_np(&np.what, np.end);
            r.subject = vec![*load];
            r.about = Some(Ref::Bodies(vec![*load]));
            Some(end)
        };
        let end = hung(self);
        if end.is_none() {
            (self.story, self.uses, self.latest, self.pair) = saved;
        }
        end
    }

    /// Is a body of the story named here, a lift or one with a letter?
    pub(super) fn named_body(&self, i: usize) -> bool {
        self.lift_ahead(i)
            || self.tok(self.skip(i)).is_some_and(|t| t.label_of(self))
            || self.phrase(i, "the first|upper|other|former").is_some()
    }

    /// One body hangs below another; what joins them is told somewhere in the sentence, or has been.
    pub(super) fn hangs_below(&mut self, upper: usize, load: usize) {
        if upper == load {
            return;
        }
        if let Some(b) = self.story.bodies.get_mut(load) {
            b.hangs = true;
        }
        if !self.story.order.contains(&(upper, load)) {
            self.story.order.push((upper, load));
        }
        if !self.are_joined(upper, load) && !self.joins.contains(&(upper, load)) {
            self.joins.push((upper, load));
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::trial::{in_short, told};

    #[test]
    fn a_lamp_hangs_from_the_ceiling_of_a_lift() {
        let text = "A lamp of mass 3 kg hangs by a light string from the ceiling of a lift. The lift accelerates \
         upwards at 1.2 m s^-2. Find the tension in the string.";
        let expected = [
            "the lamp hangs",
            "the lift hangs",
            "string: the lamp - the lift",
            "tension in the cable: along",
            "Moving",
        ];
        assert_eq!(in_short(&told(text)), expected);
    }
}
