//! Angles of slopes: `inclined at 30° to the horizontal`, `where tan α = 3/4`, `a gradient of 1 in 20`.

use crate::reader::Reader;
use crate::story::{SlopeTold, SurfaceTold};
use exact::{Angle, Dimension, Value};
use model::{Diagnostic, Refusal, Span};

impl Reader<'_> {
    /// `sin α = 1/20`, `tan θ = 3/4`, `at 30° to the horizontal`, `at an angle α to the horizontal`, `whose sine is 1/20`, `1 in 20`.
    pub(super) fn angle_here(&mut self, i: usize) -> Option<usize> {
        let at = self
            .phrase(i, "where|and|with|such|given? that?")
            .filter(|_| !self.tok(i).is_some_and(|t| t.is("sin") || t.is("tan") || t.is("cos")))
            .unwrap_or(i);
        if let Some((letter, angle, e)) = self.ratio_of_letter(at) {
            let span = self.span(at, e);
            if let Some(done) = self.angle_of_lean(&letter, &angle) {
                if !done {
                    return None;
                }
                self.told(i, e, "the angle, exactly, by its ratio");
                return Some(e);
            }
            let told = |s: &SurfaceTold| s.slope.clone();
            let slopes: Vec<SlopeTold> = self.story.surfaces.iter().filter_map(told).collect();
            let mine: Vec<&SlopeTold> =
                slopes.iter().filter(|x| x.letter.as_deref() == Some(letter.as_str())).collect();
            let other = slopes.iter().any(|x| x.letter.is_some() || x.angle.is_some());
            if let Some(old) = mine.iter().find_map(|x| x.angle.clone()) {
                // sin α = 3/5 and cos α = 4/5: the same angle told twice.
                return same_angle(&old, &angle).then(|| {
                    self.told(i, e, "the same angle, by another ratio");
                    e
                });
            }
            if mine.is_empty() && other {
                return None;
            }
            self.told(i, e, "the angle, exactly, by its ratio");
            self.give_angle(Some(letter), Some(angle), span);
            return Some(e);
        }
        // α = 30°
        if self.tok(at).is_some_and(|t| t.letter().is_some_and(|c| !c.is_ascii())) && self.w(at + 1) == "=" {
            let (amount, e) = self.amount(at + 2, false)?;
            if amount.dimension == Some(Dimension::ANGLE) {
                let letter = self.tok(at)?.text.clone();
                let degrees = amount.value.as_rational()?.clone();
                if let Some(done) = self.angle_of_lean(&letter, &Angle::Degrees(degrees.clone())) {
                    self.told(i, e, "the angle");
                    return done.then_some(e);
                }
                self.told(i, e, "the angle");
                self.give_angle(Some(letter), Some(Angle::Degrees(degrees)), amount.span);
                return Some(e);
            }
        }
        None
    }

    /// Gives its size to the letter of a force's or a rope's angle. `None` if no such angle has the letter, false if it
    /// has a size already.
    fn angle_of_lean(&mut self, letter: &str, angle: &Angle) -> Option<bool> {
        let story = &mut self.story;
        let of_links = story.links.iter_mut().filter_map(|l| l.lean.as_mut());
        let of_forces = story.forces.iter_mut().filter_map(|f| f.lean.as_mut());
        let mut found = None;
        for lean in of_links.chain(of_forces).filter(|l| l.letter.as_deref() == Some(letter)) {
            let fresh = lean.angle.as_ref().is_none_or(|old| old == angle);
            lean.angle = Some(angle.clone());
            found = Some(found.unwrap_or(true) && fresh);
        }
        found
    }

    /// An angle after `inclined`, `makes`, `at`: the place after it.
    pub(crate) fn slope_angle(&mut self, i: usize) -> Option<usize> {
        if let Some(e) = self.twin_angles(i) {
            return Some(e);
        }
        let mut at = self.skip(i);
        let start = at;
        while matches!(
            self.w(at),
            "at" | "is" | "to" | "makes" | "make" | "making" | "with" | "through" | "by"
        ) && !matches!(self.w(self.skip(at + 1)), "rest")
        {
            // "inclined to the horizontal at an angle α"
            if let Some(e) = self.phrase(at, "to|with the horizontal|level") {
                at = self.skip(e);
                continue;
            }
            at = self.skip(at + 1);
        }
        if let Some(e) = self.phrase(at, "an|the? angle of?") {
            at = self.skip(e);
        }
        let (letter, mut angle, mut end) = self.plain_angle(at)?;
        if let Some(e) = self.phrase(end, "to|with|from the? vertical|upward") {
            // An angle to the vertical: its complement is the slope's.
            let ninety = exact::Rational::from_int(90);
            angle = match angle {
                Some(Angle::Degrees(d)) => Some(Angle::Degrees(&ninety - &d)),
                _ => return None,
            };
            end = e;
        } else if let Some(e) = self.phrase(end, "to|with|above|below|from the? horizontal|level|ground") {
            end = e;
        } else if matches!(self.w(self.skip(end)), "to" | "with" | "from")
            && matches!(self.w(self.skip(end) + 1), "the" | "a" | "an")
            && (angle.is_some() || letter.is_some())
        {
            // An angle to something else is not the angle of the slope.
            return None;
        }
        if let Some((ratio, e)) = self.ratio_after(letter.as_deref(), end).filter(|_| angle.is_none()) {
            (angle, end) = (Some(ratio), e);
        }
        let span = self.span(start, end);
        self.told(
            start,
            end,
            "the angle of the slope: the weight has a part mg sin along it and a part mg cos across it",
        );
        self.give_angle(letter, angle, span);
        Some(end)
    }

    /// After a surface: `whose angle of inclination is 40°`, `with an inclination to the horizontal of 40°`, `of slope 40°`.
    pub(crate) fn inclination(&mut self, surface: usize, i: usize) -> Option<usize> {
        let at = self
            .phrase(i, ",? whose|with|having|has|of? its|an|a|the? angle|inclination|slope|gradient|tilt")?;
        if self.w(at.wrapping_sub(1)) == "angle" && self.w(at) != "of" {
            return None;
        }
        let at = self.phrase(at, "of inclination|slope|tilt|elevation").unwrap_or(at);
        let at = self.phrase(at, "to|with|from|above the? horizontal").unwrap_or(at);
        let at = self.phrase(at, "is|of|=|equal? to?").unwrap_or(at);
        let (amount, _) = self.amount(at, false)?;
        if amount.dimension != Some(Dimension::ANGLE) {
            return None;
        }
        self.surface = Some(surface);
        self.glue(i, at);
        self.slope_angle(at)
    }

    /// Gives the present surface its angle, or its value to an angle already named.
    fn give_angle(&mut self, letter: Option<String>, angle: Option<Angle>, span: Span) {
        let by_letter = letter.as_ref().and_then(|l| {
            self.story
                .surfaces
                .iter()
                .position(|s| s.slope.as_ref().is_some_and(|x| x.letter.as_ref() == Some(l)))
        });
        let id = by_letter.or(self.surface).or_else(|| self.story.surfaces.len().checked_sub(1));
        let id = match id {
            Some(id) => id,
            None => {
                self.story.surfaces.push(SurfaceTold {
                    noun: "slope".to_owned(),
                    slopes: true,
                    span,
                    ..SurfaceTold::default()
                });
                self.story.surfaces.len() - 1
            }
        };
        let written = span.of(self.text).to_owned();
        if let Some(s) = self.story.surfaces.get_mut(id) {
            let slope = s.slope.get_or_insert_with(SlopeTold::default);
            if letter.is_some() {
                slope.letter = letter;
            }
            if let (Some(old), Some(new)) = (&slope.angle, &angle)
                && old != new
            {
                let d = Diagnostic::refuse(Refusal::Contradictory, "two angles are given for one slope")
                    .at(slope.span)
                    .at(span)
                    .hint("keep one of them");
                self.diagnostics.push(d);
                return;
            }
            if angle.is_some() {
                slope.angle = angle;
                slope.written = written;
                slope.span = span;
            }
        }
    }
}

/// Are two ways of giving an angle one angle?
pub(super) fn same_angle(one: &Angle, other: &Angle) -> bool {
    let equal = |a: Result<Value, exact::ExactError>, b: Result<Value, exact::ExactError>| matches!((a, b), (Ok(a), Ok(b)) if a == b);
    equal(one.sin(), other.sin()) && equal(one.cos(), other.cos())
}
