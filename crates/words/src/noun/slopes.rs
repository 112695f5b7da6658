//! Two slopes back to back: `two smooth planes`, `the second plane`, `the other face`, `the plane of angle α`.

use super::{Front, Np, Ref};
use crate::adjective::Tells;
use crate::reader::Reader;
use crate::story::{SlopeTold, SurfaceTold};
use exact::Angle;

impl Reader<'_> {
    /// Two or more surfaces named at once: one is made for each, and the first is given back.
    pub(super) fn several_surfaces(&mut self, i: usize, f: &Front, one: &str, slopes: bool) -> Option<usize> {
        let n = f.count.filter(|n| (2..=3).contains(n) && !f.definite)?;
        let first = self.story.surfaces.len();
        let span = self.span(i, f.end);
        let has = |t: Tells| f.tells.iter().any(|(_, x)| *x == t);
        for k in 0..n {
            self.story.surfaces.push(SurfaceTold {
                noun: one.to_owned(),
                span,
                slopes: slopes || has(Tells::Sloping),
                smooth: has(Tells::Smooth).then_some(span),
                rough: has(Tells::Rough).then_some(span),
                level: has(Tells::Level),
                twin: (k + 1 < n).then_some(first + k + 1),
                ..SurfaceTold::default()
            });
        }
        Some(first)
    }

    /// Which of several slopes is meant: the second, the other, the one of angle α, the 30° plane.
    pub(super) fn which_slope(&self, f: &Front) -> Option<usize> {
        let sloping: Vec<usize> = self
            .story
            .surfaces
            .iter()
            .enumerate()
            .filter(|(_, s)| s.slopes || s.slope.is_some() || s.twin.is_some())
            .map(|(n, _)| n)
            .collect();
        let pair = sloping.len() > 1 || self.story.surfaces.iter().any(|s| s.twin.is_some());
        if !pair || f.indefinite {
            return None;
        }
        if crate::lexicon::plural(self.w(f.head)) {
            return self.story.surfaces.iter().position(|s| s.twin.is_some());
        }
        for (_, tells) in &f.tells {
            match tells {
                Tells::Nth(n) => return sloping.get(*n).copied(),
                Tells::Other => {
                    let rest: Vec<usize> =
                        sloping.iter().copied().filter(|s| Some(*s) != self.surface).collect();
                    return match rest.as_slice() {
                        [one] => Some(*one),
                        _ => None,
                    };
                }
                _ => {}
            }
        }
        let slope = |s: usize| self.story.surfaces.get(s).and_then(|s| s.slope.as_ref());
        if let Some(a) = &f.angle {
            let d = a.value.as_rational()?;
            return sloping
                .into_iter()
                .find(|&s| slope(s).and_then(|x| x.angle.as_ref()) == Some(&Angle::Degrees(d.clone())));
        }
        let e = self
            .phrase(f.end, "of angle|inclination")
            .or_else(|| self.phrase(f.end, "which|that? is? inclined|sloping|sloped at angle?"))?;
        let found = self.angled(&sloping, e);
        // Two faces without an angle yet: this is the first of them, and its angle is told here.
        found.or_else(|| sloping.into_iter().find(|&s| slope(s).is_none()))
    }

    /// `the one inclined at α`, `the other`, `the first`, where two slopes were named: which of them.
    pub(crate) fn slope_pronoun(&mut self, i: usize) -> Option<Np> {
        let e = self.phrase(i, "the? one").or_else(|| self.phrase(i, "the|each other|first|second"))?;
        let word = self.w(e - 1);
        if crate::lexicon::noun(self.w(self.skip(e))).is_some() {
            return None;
        }
        let first = self.story.surfaces.iter().position(|s| s.twin.is_some())?;
        let second = self.story.surfaces.get(first)?.twin?;
        let bare = |s: usize| self.story.surfaces.get(s).is_some_and(|s| s.slope.is_none());
        let found = match word {
            "first" => first,
            "second" => second,
            "other" => match self.surface {
                Some(s) if s == first => second,
                Some(s) if s == second => first,
                _ => return None,
            },
            // "the one inclined at α": the angle tells which, or is told by it.
            _ => self
                .phrase(e, "which|that? is? inclined|sloping|sloped at angle?")
                .and_then(|k| self.angled(&[first, second], k))
                .or(Some(first).filter(|&s| bare(s)))?,
        };
        self.surface = Some(found);
        self.glue(i, e);
        Some(Np { what: Ref::Surface(found), end: e })
    }

    /// The slope with the angle told at `i`.
    fn angled(&self, slopes: &[usize], i: usize) -> Option<usize> {
        let (letter, angle, _) = self.plain_angle(i)?;
        slopes.iter().copied().find(|&s| {
            self.story.surfaces.get(s).and_then(|s| s.slope.as_ref()).is_some_and(|x| {
                (letter.is_some() && x.letter == letter) || (angle.is_some() && x.angle == angle)
            })
        })
    }

    /// `inclined at 30° and 60° to the horizontal`, `at angles α and β`: an angle for each of the slopes.
    pub(crate) fn twin_angles(&mut self, i: usize) -> Option<usize> {
        let first = self.surface?;
        let twin = self.story.surfaces.get(first)?.twin?;
        let at =
            self.phrase(i, "inclined at|to angles? of?").or_else(|| self.phrase(i, "at|to angles? of?"))?;
        let one = self.plain_angle(at)?;
        let joined = self.phrase(one.2, "and")?;
        let two = self.plain_angle(joined)?;
        let e = self.phrase(two.2, "respectively").unwrap_or(two.2);
        let e = self.phrase(e, "to the horizontal")?;
        let e = self.phrase(e, ",? respectively").unwrap_or(e);
        for (s, (letter, angle, end)) in [(first, one), (twin, two)] {
            let span = self.span(end.wrapping_sub(1), end);
            if let Some(s) = self.story.surfaces.get_mut(s) {
                s.slopes = true;
                s.slope = Some(SlopeTold { letter, angle, written: span.of(self.text).to_owned(), span });
            }
        }
        self.told(i, e, "the angles of the two slopes, in the order told");
        Some(e)
    }
}

#[cfg(test)]
mod tests {
    use crate::trial::{in_short, told};

    #[test]
    fn one_string_over_the_ridge_of_two_planes() {
        let text = "Two smooth planes, inclined at 30° and 60° to the horizontal, meet at a ridge. A particle P of \
         mass 4 kg on the first plane is connected to a particle Q of mass 2 kg on the second plane by a light \
         string that passes over a smooth pulley fixed at the ridge. The particles are released from rest. Find \
         the tension in the string.";
        let expected =
            ["P moves on a slope", "Q moves on a slope", "string: P - Q over a pulley", "Released"];
        assert_eq!(in_short(&told(text)), expected);
    }
}
