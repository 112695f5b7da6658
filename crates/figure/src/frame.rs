//! Directions in the drawing: the line of each body, and the angle at which each slope and pull is drawn.
//!
//! A slope of 1 in 40 would look level and a label beside it would find no room, so drawn angles keep between bounds.
//! A force that makes a slope's angle with a line is drawn with the same drawn angle: a weight stays upright.

use crate::geometry::{Point, at};
use exact::Angle;
use model::{BodyId, Line, QuantityId, Situation};
use motion::{Force, Share};
use std::collections::BTreeMap;

/// The line of a body in the drawing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Frame {
    /// The positive sense of the line.
    pub(crate) u: Point,
    /// Away from the surface; for a vertical line, to the right.
    pub(crate) n: Point,
}

/// The drawn size of every angle, in radians.
#[derive(Clone, Debug, Default)]
pub(crate) struct Angles(BTreeMap<QuantityId, f64>);

const LEAST_SLOPE: f64 = 14.0;
const MOST_SLOPE: f64 = 55.0;

impl Angles {
    /// Reads all angles of a situation; those in letters get a middling slope.
    pub(crate) fn of(situation: &Situation) -> Angles {
        let mut drawn = BTreeMap::new();
        for (id, angle) in &situation.angles {
            let size = match angle {
                Angle::Degrees(degrees) => Some(degrees.to_f64().to_radians()),
                Angle::Sin(sine) => sine.to_f64().map(f64::asin),
                Angle::Cos(cosine) => cosine.to_f64().map(f64::acos),
                Angle::Tan(tan) => tan.to_f64().map(f64::atan),
            };
            if let Some(size) = size.filter(|s| s.is_finite()) {
                drawn.insert(*id, size);
            }
        }
        Angles(drawn)
    }
    /// An angle as drawn.
    pub(crate) fn drawn(&self, id: QuantityId) -> f64 {
        let true_size = self.0.get(&id).copied().unwrap_or(30f64.to_radians());
        true_size.clamp(LEAST_SLOPE.to_radians(), MOST_SLOPE.to_radians())
    }
}

/// The frame of a line. `flipped` mirrors a slope left to right.
pub(crate) fn frame(line: Line, angles: &Angles, flipped: bool) -> Frame {
    match line {
        Line::Level => Frame { u: at(1.0, 0.0), n: at(0.0, -1.0) },
        Line::Vertical => Frame { u: at(0.0, -1.0), n: at(1.0, 0.0) },
        Line::Slope { angle, rises_right } => {
            let size = angles.drawn(angle);
            if rises_right != flipped {
                let u = Point::towards(size);
                Frame { u, n: u.left() }
            } else {
                let u = Point::towards(std::f64::consts::PI - size);
                Frame { u, n: -u.left() }
            }
        }
    }
}

/// The direction of a force in the drawing, given the frame of its body.
pub(crate) fn direction(force: &Force, frame: Frame, angles: &Angles) -> Point {
    let part = |share: Share| match share {
        Share::None => 0.0,
        Share::All(s) => f64::from(s),
        Share::Sin(s, id) => f64::from(s) * angles.drawn(id).sin(),
        Share::Cos(s, id) => f64::from(s) * angles.drawn(id).cos(),
    };
    (frame.u * part(force.along) + frame.n * part(force.across)).unit()
}

/// The frame of a body, if there is such a body.
pub(crate) fn body_frame(
    situation: &Situation,
    body: BodyId,
    angles: &Angles,
    flipped: bool,
) -> Option<Frame> {
    Some(frame(situation.body(body)?.line, angles, flipped))
}
