//! Sloping: `is inclined at 30° to the horizontal`, `makes an angle α with the horizontal`.

use crate::noun::Ref;
use crate::reader::Reader;

impl Reader<'_> {
    pub(super) fn incline(&mut self, at: usize) -> Option<usize> {
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
