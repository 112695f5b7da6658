//! What is left out of the model: `may be neglected`, `neglecting air resistance`.

use crate::reader::Reader;

impl Reader<'_> {
    pub(super) fn neglect(&mut self, at: usize) -> Option<usize> {
        // "Air resistance may be neglected": what was spoken of just before is not modelled.
        let mut end = at + 1;
        if self.w(at).ends_with("ing") || matches!(self.w(at), "neglect" | "ignore") {
            // neglecting air resistance
            let k = self.skip(end);
            if let Some(e) = self.left_out(at).or_else(|| {
                self.negligible(k).filter(|_| {
                    !(k..k + 4).any(|n| self.w(n).starts_with("resist") || self.w(n).starts_with("frict"))
                })
            }) {
                end = e;
            } else {
                return None;
            }
        }
        if end == at + 1 {
            // What is neglected stands before, and was not read as something that may be.
            return None;
        }
        self.told(at, end, "left out of the model");
        Some(end)
    }

    /// Things that may be neglected: `air resistance`, `the mass of the cable`, `friction`.
    pub(crate) fn negligible(&self, i: usize) -> Option<usize> {
        self.phrase(i, "any|all|the|other? other? resistance|resistances|resistive|frictional forces? to motion|movement").or_else(|| self.phrase(i, "any|all|the|other? other? frictional|friction forces").or_else(|| self.phrase(i, "any|all|the|other? other? resistances|friction forces?"))).or_else(|| self.phrase(i, "any|all|the|effects|of? air resistance|friction")).or_else(|| self.phrase(i, "air resistance|friction")).or_else(|| self.phrase(i, "friction|resistance of? the? air?")).or_else(|| {
            self.phrase(i, "the|any? stretch|mass|masses|weight|weights|extension and|or? the|any? mass|masses|stretch? of|in the cable|rope|ropes|string|thread|chain|cord|tow-bar|pulley|cables|strings|coupling|couplings")
        })
    }
}

#[cfg(test)]
mod tests {
    use crate::trial::{means, refused};

    #[test]
    fn air_resistance_may_be_neglected() {
        let text = "A van of mass 900 kg tows a trailer of mass 300 kg by a light rope. The driving force is \
         2400 N. Air resistance may be neglected. Find the tension in the rope.";
        assert_eq!(means(text, "Air resistance"), "left out of the model");
    }

    #[test]
    fn the_mass_of_a_body_may_not() {
        let text = "A van of mass 900 kg tows a trailer of mass 300 kg by a light rope. The driving force is \
         2400 N. The mass of the trailer may be neglected. Find the tension in the rope.";
        assert!(refused(text).contains(&"\"neglected\" was not understood, and may matter".to_owned()));
    }
}
