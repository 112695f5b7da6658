//! Pulleys and surfaces: `a smooth peg`, `a rough horizontal table`, `the slipway`.

use super::Front;
use crate::adjective::Tells;
use crate::lexicon::{plural, singular};
use crate::noun::{Np, Ref};
use crate::reader::Reader;
use crate::story::{PulleyTold, SlopeTold, SurfaceTold};
use exact::Angle;
use model::{Diagnostic, Refusal};

impl Reader<'_> {
    pub(super) fn pulley_np(&mut self, i: usize, f: &Front) -> Option<Np> {
        let word = self.w(f.head).to_owned();
        for (bad, what) in [
            (Tells::Heavy, "a pulley with a mass of its own"),
            (Tells::Rough, "a rough pulley"),
            (Tells::Movable, "a movable pulley"),
        ] {
            let slung = bad == Tells::Movable && self.w(i.wrapping_sub(1)) == "under";
            if Self::has(f, bad) && !slung {
                let d = Diagnostic::refuse(Refusal::Unread, format!("{what} is not followed here"))
                    .at(self.span(i, f.end))
                    .hint("write: a smooth fixed pulley");
                self.diagnostics.push(d);
            }
        }
        let mut end = f.end;
        let (label, label_end) = match self.tok(end) {
            Some(t) if t.label() && !plural(&word) && f.indefinite && self.by_label(&t.text).is_none() => {
                (Some(t.text.clone()), end + 1)
            }
            _ => (None, end),
        };
        if label.is_some() {
            end = label_end;
        }
        self.note_front(i, f, "the pulley");
        let known = self.story.pulleys.len();
        let reuse = known > 0 && !f.indefinite && f.count.is_none();
        let ids: Vec<usize> = if reuse {
            if plural(&word) { (0..known).collect() } else { vec![known - 1] }
        } else {
            let n = f.count.unwrap_or(if plural(&word) { 2 } else { 1 }).min(8);
            let span = self.span(i, end);
            for _ in 0..n {
                self.story
                    .pulleys
                    .push(PulleyTold { noun: label.clone().unwrap_or_else(|| singular(&word)), span });
            }
            self.told(i, end, "a string over a pulley turns the pull round; its tension stays the same on both sides of a smooth, light pulley");
            (known..known + n).collect()
        };
        Some(Np { what: Ref::Pulleys(ids), end })
    }

    pub(super) fn surface_np(&mut self, i: usize, f: &Front, slopes: bool) -> Option<Np> {
        let word = self.w(f.head).to_owned();
        let one = singular(&word);
        if one == "line"
            && (f.head > 0
                && matches!(
                    self.w(f.head.wrapping_sub(1)),
                    "straight" | "same" | "vertical" | "horizontal" | "this" | "a"
                ))
        {
            return None;
        }
        // A line of greatest slope is a direction.
        if one == "line" && self.phrase(f.head, "line|lines of greatest slope").is_some() {
            return None;
        }
        // The rails of a slipway: one surface.
        if matches!(one.as_str(), "rail" | "track" | "surface" | "line")
            && self.w(self.skip(f.end)) == "of"
            && self.surface_ahead(self.skip(f.end) + 1)
        {
            let of = self.skip(f.end) + 1;
            self.note_front(i, f, "it");
            self.glue(i, of);
            return self.np(of);
        }
        if let Some(first) = self.several_surfaces(i, f, &one, slopes) {
            self.note_front(i, f, &format!("each {one}"));
            self.surface = Some(first);
            return Some(Np { what: Ref::Surface(first), end: f.end });
        }
        if f.head > 0 && self.w(f.head.wrapping_sub(1)) == "guide" {
            self.scene(i, f.end);
            return Some(Np { what: Ref::Thing, end: f.end });
        }
        let which = self.which_slope(f);
        // The first face of a wedge that was named as a whole.
        let wedge = (one == "face" && !self.story.surfaces.iter().any(|s| s.noun == "face"))
            .then(|| self.story.surfaces.iter().position(|s| s.noun == "wedge" && s.slope.is_none()))
            .flatten();
        if let Some(s) = wedge.and_then(|w| self.story.surfaces.get_mut(w)) {
            s.noun = "face".to_owned();
        }
        let same = which.or(wedge).or_else(|| self.story.surfaces.iter().rposition(|s| s.noun == one));
        let any = self.story.surfaces.len().checked_sub(1);
        let level = Self::has(f, Tells::Level);
        let reuse = if wedge.is_some() || which.is_some() {
            same
        } else if f.indefinite && !level || one == "face" && Self::has(f, Tells::Other) {
            None
        } else {
            same.or(if f.definite && !matches!(one.as_str(), "floor" | "ground") {
                any.filter(|&s| {
                    self.story.surfaces.get(s).is_some_and(|s| {
                        (!slopes || s.slope.is_some() || s.slopes)
                            && !(matches!(s.noun.as_str(), "table" | "bench") && slopes)
                    })
                })
            } else {
                None
            })
        };
        let id = match reuse.filter(|&s| {
            wedge.is_some()
                || !(f.indefinite
                    && self.story.surfaces.get(s).is_some_and(|s| s.slopes || s.slope.is_some()))
        }) {
            Some(id) => id,
            None => {
                let span = self.span(i, f.end);
                self.story.surfaces.push(SurfaceTold {
                    noun: one.clone(),
                    span,
                    slopes,
                    ..SurfaceTold::default()
                });
                self.story.surfaces.len() - 1
            }
        };
        if Self::has(f, Tells::Vertical) {
            let d = Diagnostic::refuse(Refusal::Unread, "bodies on a vertical surface are not followed")
                .at(self.span(i, f.end))
                .hint("say that the body hangs freely");
            self.diagnostics.push(d);
        }
        self.note_front(i, f, &format!("the {one}"));
        let span = self.span(i, f.end);
        if let Some(s) = self.story.surfaces.get_mut(id) {
            if f.tells.iter().any(|(_, t)| *t == Tells::Smooth) {
                s.smooth = Some(span);
            }
            if f.tells.iter().any(|(_, t)| *t == Tells::Rough) {
                s.rough = Some(span);
            }
            s.level |= level;
            if f.tells.iter().any(|(_, t)| *t == Tells::Sloping) {
                s.slopes = true;
            }
        }
        self.surface = Some(id);
        if let Some(a) = &f.angle {
            if let (Some(d), Some(s)) = (a.value.as_rational(), self.story.surfaces.get_mut(id)) {
                s.slope = Some(SlopeTold {
                    letter: None,
                    angle: Some(Angle::Degrees(d.clone())),
                    written: a.written.clone(),
                    span: a.span,
                });
                s.slopes = true;
            }
            let at = self.toks.iter().position(|t| t.span.start == a.span.start).unwrap_or(i);
            self.told(
                at,
                f.end,
                "the angle of the slope: the weight has a part mg sin along it and a part mg cos across it",
            );
        }
        Some(Np { what: Ref::Surface(id), end: f.end })
    }
}
