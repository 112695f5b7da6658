//! What does not move: `is fixed at the edge of the bench`, `is mounted at the top of the slope`.

use crate::noun::Ref;
use crate::reader::Reader;

impl Reader<'_> {
    pub(super) fn fix(&mut self, at: usize) -> Option<usize> {
        if matches!(self.about, Some(Ref::Bodies(_) | Ref::System)) {
            return None;
        }
        let mut end = at + 1;
        for _ in 0..4 {
            let k = self.skip(end);
            if let Some(e) =
                self.phrase(k, "back to back").filter(|_| matches!(self.about, Some(Ref::Surface(_))))
            {
                end = e;
                continue;
            }
            if let Some(e) = self.pulley_place(k).or_else(|| self.place(k)) {
                end = e;
                continue;
            }
            if matches!(self.w(k), "at" | "to" | "in" | "above" | "on" | "over" | "so")
                && let Some(np) = self.np(self.skip(k + 1))
                && matches!(np.what, Ref::Surface(_) | Ref::Thing | Ref::Floor(_))
            {
                self.glue(k, np.end);
                end = self.after_np(&np.what, np.end);
                continue;
            }
            break;
        }
        self.told(at, end, "it does not move");
        Some(end)
    }

    /// Where a pulley is: `at the edge of the table`, `at the top of the plane`, `above the floor`.
    pub(super) fn pulley_place(&mut self, i: usize) -> Option<usize> {
        if let Some(e) = self.phrase(i, "fixed? at|to|over|on the table|bench|plane|slope|ramp|quay|staging|roof|deck 's edge|end|top|side") {
            self.told(i, e, "the pulley is fixed");
            return Some(e);
        }
        const SET: &str = "fixed|bolted|mounted|clamped|attached|provided|which|that? is? firmly? fixed|provided|bolted|attached? at|to|in|on|above|over|from|beside";
        const WHERE: &str = "top|summit|edge|end|edges|ends|side|sides|corner|foot";
        const WHAT: &str = "table|plane|slope|ramp|slipway|bench|floor|staging|incline|ceiling|roof|beam|tabletop|track|hill|deck|quay|pier|jetty|ground|support|wall|jib|gantry";
        let at = self
            .phrase(i, &format!("{SET} the|its|a|each|one|both|either|opposite? opposite|left|right|left-hand|right-hand|far|near|upper|common? {WHERE} of the|a|an|its|rigid|smooth|rough|inclined? rigid|smooth|rough|inclined? {WHAT}"))
            .or_else(|| self.phrase(i, &format!("{SET} the|its|a|each|one|both|either|opposite? opposite|left|right|left-hand|right-hand|far|near|upper|common? {WHERE}")))
            .or_else(|| self.phrase(i, &format!("{SET} the|its|a top edge|end|corner")))
            .or_else(|| self.phrase(i, &format!("{SET} the|its|a|each|opposite? rigid? {WHAT}")))?;
        self.told(i, at, "the pulley is fixed");
        if self.w(self.skip(at)) == "of"
            && let Some(e) = self.of_place(at)
        {
            self.scene(at, e);
            return Some(e);
        }
        if let Some(e) = self.phrase(at, "above|over the? quay|deck|floor|ground|harbour") {
            self.scene(at, e);
            return Some(e);
        }
        Some(at)
    }
}

#[cfg(test)]
mod tests {
    use crate::trial::means;

    #[test]
    fn a_pulley_fixed_to_a_beam_does_not_move() {
        let text = "Two buckets of mass 3 kg and 5 kg are joined by a light string. The string passes over a \
         smooth pulley. The pulley is fixed to a beam. The system is released from rest. Find the \
         tension.";
        assert_eq!(means(text, "fixed to a beam"), "the pulley is fixed");
    }
}
