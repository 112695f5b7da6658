//! Forces and ropes at an angle: `inclined at 30° to the horizontal`, `acting at an angle θ above the horizontal`.

use crate::noun::Ref;
use crate::quantity::Sort;
use crate::reader::Reader;
use crate::story::{Lean, LeanTo};

impl Reader<'_> {
    /// The angle of a force or a rope at `i`, and the place after it. Changes nothing.
    pub(crate) fn lean(&self, i: usize) -> Option<(Lean, usize)> {
        let start = self.skip(i);
        let mut at = self.phrase(start, ",").unwrap_or(start);
        if let Some(e) = self.phrase(at, "which|that is|acts").or_else(|| self.phrase(at, "which|that")) {
            at = e;
        }
        if let Some(e) =
            self.phrase(at, "inclined|acting|directed|applied|held|sloping|acts").filter(|&e| e > at)
        {
            at = e;
        }
        let mut up = None;
        if let Some(e) = self.phrase(at, "upward|upwards|up") {
            (at, up) = (e, Some(true));
        } else if let Some(e) = self.phrase(at, "downward|downwards|down") {
            (at, up) = (e, Some(false));
        }
        let at = self
            .phrase(at, "at|makes|making|inclined at? an? constant|fixed|acute? angle of?")
            .or_else(|| self.phrase(at, "makes|making|at the? angle of?"))
            .or_else(|| self.phrase(at, "at|making|makes"))?;
        let (letter, mut angle, mut end) = self.plain_angle(at)?;
        let mut to = None;
        for _ in 0..2 {
            if let Some(e) = self.phrase(end, "above|below") {
                let named = self.phrase(e, "the horizontal|level|ground")?;
                up = Some(self.w(self.skip(end)) == "above");
                (to, end) = (Some(LeanTo::Horizontal), named);
            } else if let Some(e) = self.phrase(end, "to|with|from the upward|downward? vertical") {
                (to, end) = (Some(LeanTo::Vertical), e);
            } else if let Some(e) =
                self.phrase(end, "to|with|from the horizontal|ground|floor|level|deck|quay|track|rails|road")
            {
                (to, end) = (Some(LeanTo::Horizontal), e);
            } else if let Some(e) = self
                .phrase(
                    end,
                    "to|with a|the|its? line|lines of greatest slope of? the? plane|slope|ramp|slipway?",
                )
                .or_else(|| {
                    self.phrase(end, "to|with the? inclined? plane|slope|ramp|slipway|incline|surface")
                })
            {
                (to, end) = (Some(LeanTo::Slope), e);
            }
            if to.is_some() {
                break;
            }
            end = self.phrase(end, ",? upwards|downwards").inspect(|&e| {
                up = Some(self.w(e.wrapping_sub(1)) == "upwards");
            })?;
        }
        if let Some((ratio, e)) = self.ratio_after(letter.as_deref(), end).filter(|_| angle.is_none()) {
            (angle, end) = (Some(ratio), e);
        }
        if up.is_none()
            && let Some(e) = self
                .phrase(end, ",? and? directed|acting? upwards|downwards")
                .or_else(|| self.phrase(end, "and upwards|downwards"))
        {
            up = Some((end..e).any(|k| self.w(k) == "upwards"));
            end = e;
        }
        let span = self.span(start, end);
        let written = span.of(self.text).trim_start_matches([',', ' ']).to_owned();
        Some((Lean { letter, angle, written, span, to: to?, up }, end))
    }

    /// `under the action of a horizontal force of magnitude H newtons`, `held by a force of T newtons`.
    pub(crate) fn under_force(&mut self, i: usize) -> Option<usize> {
        let e = self
            .phrase(i, ",? under the action|influence of")
            .or_else(|| self.phrase(i, ",? is|are? being? acted on|upon by"))
            .or_else(|| self.phrase(i, "by").filter(|_| !self.asking))?;
        let on = if self.subject.is_empty() { self.latest.clone() } else { self.subject.clone() };
        let [_] = on.as_slice() else { return None };
        let mut m = self.quantity_head(self.skip(e)).and_then(|_| self.mention(e))?;
        if !matches!(m.sort, Sort::PlainForce | Sort::Force(_))
            || m.on.is_some()
            || m.of.is_some()
            || m.by.is_some()
            || m.amounts.is_empty()
        {
            return None;
        }
        m.on = Some(Ref::Bodies(on));
        let asking = std::mem::take(&mut self.asking);
        let good = self.tell(&m);
        self.asking = asking;
        good.then(|| {
            self.glue(i, e);
            m.end
        })
    }

    /// The rope or the force that is spoken of slopes at this angle.
    pub(crate) fn lean_of_links(&mut self, links: &[usize], i: usize) -> Option<usize> {
        let (lean, e) = self.lean(i)?;
        for &l in links {
            if let Some(link) = self.story.links.get_mut(l) {
                link.lean = Some(lean.clone());
            }
        }
        self.told(i, e, "it pulls at an angle: one part along the motion, one part across it");
        Some(e)
    }
}
