//! Sloping: `is inclined at 30° to the horizontal`, `makes an angle α with the horizontal`.

use crate::noun::Ref;
use crate::reader::Reader;

impl Reader<'_> {
    pub(super) fn incline(&mut self, at: usize) -> Option<usize> {
        if let Some(Ref::Links(l)) = self.about.clone() {
            return self.lean_of_links(&l, at);
        }
        if self.about.is_some() && !matches!(self.about, Some(Ref::Surface(_))) {
            return None;
        }
        if let Some(Ref::Surface(s)) = self.about {
            self.surface = Some(s);
            if let Some(x) = self.story.surfaces.get_mut(s) {
                x.slopes = true;
            }
        }
        let k = self.phrase(at + 1, "upwards|downwards").unwrap_or(at + 1);
        let e = self.slope_angle(k)?;
        self.told(at, e, "a slope at this angle");
        Some(e)
    }
}

#[cfg(test)]
mod tests {
    use crate::trial::{in_short, means, told};

    #[test]
    fn a_ramp_told_to_slope_in_a_sentence_of_its_own() {
        let text = "A sledge of mass 30 kg is released from rest on a smooth ramp. The ramp is inclined at 20° \
         to the horizontal. Find its acceleration.";
        let expected = ["the sledge moves on a slope", "Released"];
        assert_eq!(in_short(&told(text)), expected);
        assert_eq!(means(text, "inclined"), "a slope at this angle");
    }
}
