//! Forces that do not lie along the motion: at an angle to the ground or the slope, or horizontal on a slope.

use crate::assemble::Assembly;
use crate::story::{ForceTold, Lean, LeanTo, Way};
use exact::{Angle, Rational, Value};
use model::{Basis, Direction, Kind, Known, Line, QuantityId, Refusal, Span};

impl Assembly<'_> {
    /// The direction of a force on a body that is told to act at an angle; `None` (and a refusal) where that is not clear.
    pub(super) fn aslant(
        &mut self,
        i: usize,
        lean: &Lean,
        pulls: Option<bool>,
        sense: i8,
    ) -> Option<Direction> {
        let line = *self.lines.get(i)?;
        let lifts = lean.up.or(pulls);
        match (line, lean.to) {
            (Line::Vertical, _) => {
                self.crooked(i, lean.span);
                None
            }
            (Line::Level, LeanTo::Slope) => {
                self.crooked(i, lean.span);
                None
            }
            (Line::Level, to) => {
                let Some(lifts) = lifts else {
                    self.refuse(
                        Refusal::Incomplete,
                        "it is not said whether this force points upwards or downwards".to_owned(),
                        lean.span,
                        "say: at 30° above the horizontal, or below it",
                    );
                    return None;
                };
                let angle = match (to, &lean.angle) {
                    (LeanTo::Vertical, Some(Angle::Degrees(d))) => {
                        Some(Angle::Degrees(&Rational::from_int(90) - d))
                    }
                    (LeanTo::Vertical, _) => {
                        self.crooked(i, lean.span);
                        return None;
                    }
                    (_, angle) => angle.clone(),
                };
                let angle = self.lean_angle(lean, angle)?;
                Some(Direction::At { sense, angle, lifts })
            }
            (Line::Slope { .. }, LeanTo::Slope) => {
                let Some(lifts) = lifts else {
                    self.refuse(
                        Refusal::Incomplete,
                        "it is not said whether this force points away from the slope or into it".to_owned(),
                        lean.span,
                        "say, for example: it is pulled by a rope at 15° to the slope",
                    );
                    return None;
                };
                let angle = self.lean_angle(lean, lean.angle.clone())?;
                Some(Direction::At { sense, angle, lifts })
            }
            (Line::Slope { angle, .. }, LeanTo::Horizontal) => {
                // Above the horizontal and up the slope: the rest of the slope's own angle is the angle to the slope.
                let slope = self.b.situation().angles.get(&angle).cloned();
                let (Some(Angle::Degrees(slope)), Some(Angle::Degrees(own)), Some(true), 1) =
                    (slope, lean.angle.clone(), lifts, sense)
                else {
                    self.crooked(i, lean.span);
                    return None;
                };
                let rest = &own - &slope;
                let lifts = rest > Rational::ZERO;
                if rest == Rational::ZERO {
                    return Some(Direction::Along(1));
                }
                let size = if lifts { rest } else { &slope - &own };
                let angle = self.lean_angle(lean, Some(Angle::Degrees(size)))?;
                Some(Direction::At { sense: 1, angle, lifts })
            }
            (Line::Slope { .. }, LeanTo::Vertical) => {
                self.crooked(i, lean.span);
                None
            }
        }
    }

    fn crooked(&mut self, i: usize, span: Span) {
        let text =
            format!("the angle of this force to the line on which {} moves is not followed", self.name(i));
        self.refuse(Refusal::Unread, text, span, "give its angle to the horizontal, or to the slope");
    }

    /// A horizontal force on a slope presses on the slope, and its angle to the slope is the slope's own.
    pub(super) fn horizontal_on_slope(&self, i: usize, f: &ForceTold) -> Option<Direction> {
        let Some(Line::Slope { angle, .. }) = self.lines.get(i) else { return None };
        (f.level == Some(true) && matches!(f.way, None | Some(Way::UpSlope)) && f.pulls != Some(true))
            .then_some(Direction::At { sense: 1, angle: *angle, lifts: false })
    }

    /// The angle as a quantity: known, or asked for by its letter.
    fn lean_angle(&mut self, lean: &Lean, angle: Option<Angle>) -> Option<QuantityId> {
        let letter = lean.letter.clone().unwrap_or_else(|| "φ".to_owned());
        let id = match &angle {
            Some(angle) => {
                let id = self.b.angle(&letter, angle.clone());
                let value = match angle {
                    Angle::Degrees(d) => Value::rational(d.clone()),
                    other => other.sin().unwrap_or_else(|_| Value::zero()),
                };
                self.b.know_as(
                    id,
                    Known {
                        value,
                        written: lean.written.clone(),
                        basis: Basis::Given(lean.span),
                        from_part: 0,
                    },
                );
                id
            }
            None if lean.letter.as_ref().is_some_and(|l| self.asked.contains(l)) => {
                self.b.quantity(Kind::Angle, &letter, "angle of the force")
            }
            None => {
                self.refuse(
                    Refusal::Incomplete,
                    "the size of this angle is not given".to_owned(),
                    lean.span,
                    "say, for example: where tan θ = 3/4",
                );
                return None;
            }
        };
        if let Some(l) = &lean.letter {
            self.b.letter(id, l);
            self.letters.entry(l.clone()).or_insert(id);
        }
        Some(id)
    }
}
