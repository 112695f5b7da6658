//! What the model leaves out: `air resistance may be ignored`, `ignore friction`.

use crate::reader::Reader;
use model::Role;

impl Reader<'_> {
    /// `Air resistance may be neglected`, `friction is negligible`, `the mass of the cable is to be ignored`, `ignore friction`.
    pub(crate) fn left_out(&mut self, i: usize) -> Option<usize> {
        let verb_first =
            self.phrase(i, "and|you|may|also? ignore|neglect|ignoring|neglecting|disregard|disregarding");
        let at = verb_first.unwrap_or_else(|| self.phrase(i, "and|,|that? all? effects? of?").unwrap_or(i));
        let mut e = self.negligible(at)?;
        let mut friction = self.w(e.wrapping_sub(1)) == "friction"
            || matches!(self.w(e.wrapping_sub(2)), "frictional" | "friction");
        // "friction and air resistance", "between the block and the table"
        if let Some(e2) = self.phrase(e, "and|or").and_then(|x| self.negligible(x)) {
            friction |= self.w(e2.wrapping_sub(1)) == "friction";
            e = e2;
        }
        if verb_first.is_none() {
            e = self
                .phrase(e, "is|are|may|can|should|will|to|be|being|has|have all? both? also? to|be|being? both? be? so? small? that? it? neglected|ignored|disregarded|negligible|negligibly|left")
                .or_else(|| self.phrase(e, "is|are|may|can|should|being to|be? be? neglected|ignored|disregarded|negligible"))
                .or_else(|| self.phrase(e, "is|are modelled|modeled|taken|assumed|considered as|to? being|be? negligible|negligibly|zero small?"))
                .or_else(|| self.phrase(e, "neglected|ignored|disregarded|negligible"))?;
            if self.w(e.wrapping_sub(1)) == "left" {
                e = self.phrase(e, "out")?;
            }
        }
        let resistances = (at..e).any(|k| self.w(k).starts_with("resist"))
            && !(at..e).any(|k| self.w(k) == "air" || self.w(k) == "other");
        if resistances
            && (self.story.forces.iter().any(|f| f.role == Role::Resistance && f.size.is_some())
                || self.story.per_mass.is_some()
                || self.story.total_resistance.is_some())
        {
            return None;
        }
        if friction && (!self.story.frictions.is_empty() || !self.story.coefficients.is_empty()) {
            return None;
        }
        if friction {
            self.story.frictionless = true;
        }
        self.told(i, e, "left out of the model");
        Some(e)
    }
}
