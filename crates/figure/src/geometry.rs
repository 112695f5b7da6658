//! Plane geometry in pixels: points, directions, and whether two convex shapes touch.
//! The y axis points down, as on the page; angles are counted anticlockwise from "to the right".

use std::ops::{Add, Mul, Neg, Sub};

/// A point or a displacement, in pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Point {
    pub(crate) x: f64,
    pub(crate) y: f64,
}

/// Short for a point.
pub(crate) const fn at(x: f64, y: f64) -> Point {
    Point { x, y }
}

impl Point {
    /// The direction at this angle, of length 1.
    pub(crate) fn towards(angle: f64) -> Point {
        at(angle.cos(), -angle.sin())
    }
    /// Anticlockwise from "to the right", in (−π, π].
    pub(crate) fn angle(self) -> f64 {
        (-self.y).atan2(self.x)
    }
    pub(crate) fn dot(self, other: Point) -> f64 {
        self.x * other.x + self.y * other.y
    }
    pub(crate) fn length(self) -> f64 {
        self.x.hypot(self.y)
    }
    /// A quarter turn anticlockwise as seen on the page.
    pub(crate) fn left(self) -> Point {
        at(self.y, -self.x)
    }
    /// The same direction with length 1; "to the right" if there is no direction.
    pub(crate) fn unit(self) -> Point {
        let length = self.length();
        if length > 1e-9 { self * (1.0 / length) } else { at(1.0, 0.0) }
    }
}

impl Add for Point {
    type Output = Point;
    fn add(self, other: Point) -> Point {
        at(self.x + other.x, self.y + other.y)
    }
}
impl Sub for Point {
    type Output = Point;
    fn sub(self, other: Point) -> Point {
        at(self.x - other.x, self.y - other.y)
    }
}
impl Mul<f64> for Point {
    type Output = Point;
    fn mul(self, by: f64) -> Point {
        at(self.x * by, self.y * by)
    }
}
impl Neg for Point {
    type Output = Point;
    fn neg(self) -> Point {
        at(-self.x, -self.y)
    }
}

/// An upright rectangle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Bounds {
    pub(crate) low: Point,
    pub(crate) high: Point,
}

impl Bounds {
    /// The smallest one that holds all the points; nothing for no points.
    pub(crate) fn of(points: &[Point]) -> Option<Bounds> {
        let first = *points.first()?;
        let mut bounds = Bounds { low: first, high: first };
        for &p in points {
            bounds.low = at(bounds.low.x.min(p.x), bounds.low.y.min(p.y));
            bounds.high = at(bounds.high.x.max(p.x), bounds.high.y.max(p.y));
        }
        Some(bounds)
    }
    /// The smallest one that holds both.
    pub(crate) fn join(self, other: Bounds) -> Bounds {
        Bounds {
            low: at(self.low.x.min(other.low.x), self.low.y.min(other.low.y)),
            high: at(self.high.x.max(other.high.x), self.high.y.max(other.high.y)),
        }
    }
    /// Wider by this much on every side.
    pub(crate) fn grown(self, by: f64) -> Bounds {
        Bounds { low: self.low - at(by, by), high: self.high + at(by, by) }
    }
    pub(crate) fn width(self) -> f64 {
        self.high.x - self.low.x
    }
    pub(crate) fn height(self) -> f64 {
        self.high.y - self.low.y
    }
    pub(crate) fn centre(self) -> Point {
        (self.low + self.high) * 0.5
    }
    pub(crate) fn apart(self, other: Bounds, gap: f64) -> bool {
        self.low.x > other.high.x + gap
            || other.low.x > self.high.x + gap
            || self.low.y > other.high.y + gap
            || other.low.y > self.high.y + gap
    }
}

/// The corners of a rectangle with this centre, half-width along `u` and half-height across it.
pub(crate) fn corners(centre: Point, u: Point, half_width: f64, half_height: f64) -> [Point; 4] {
    let (a, b) = (u * half_width, u.left() * half_height);
    [centre + a + b, centre - a + b, centre - a - b, centre + a - b]
}

/// Do two convex shapes, given by their corners (two corners: a line), come nearer than `gap`
/// on every axis that could separate them? Exact for shapes that overlap; slightly eager for near misses.
pub(crate) fn touch(one: &[Point], other: &[Point], gap: f64) -> bool {
    match (Bounds::of(one), Bounds::of(other)) {
        (Some(a), Some(b)) if !a.apart(b, gap) => {}
        _ => return false,
    }
    let sides = |shape: &[Point], rest: &[Point]| -> bool {
        let next = shape.iter().cycle().skip(1);
        shape.iter().zip(next).all(|(&p, &q)| {
            let axis = (q - p).left().unit();
            let (low, high) = shadow(shape, axis);
            let (least, most) = shadow(rest, axis);
            low <= most + gap && least <= high + gap
        })
    };
    sides(one, other) && sides(other, one)
}

fn shadow(shape: &[Point], axis: Point) -> (f64, f64) {
    shape
        .iter()
        .map(|p| p.dot(axis))
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), d| (l.min(d), h.max(d)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shapes_touch_when_no_line_parts_them() {
        let square = corners(at(0.0, 0.0), at(1.0, 0.0), 10.0, 10.0);
        let turned = corners(at(22.0, 0.0), Point::towards(std::f64::consts::FRAC_PI_4), 10.0, 10.0);
        assert!(touch(&square, &turned, 0.0), "the corner of the turned square reaches in");
        assert!(!touch(&square, &corners(at(25.0, 0.0), at(1.0, 0.0), 10.0, 10.0), 0.0));
        assert!(touch(&square, &[at(-20.0, 5.0), at(20.0, 5.0)], 0.0), "a line through it");
        assert!(!touch(&square, &[at(25.0, 0.0), at(0.0, 25.0)], 0.0), "a line past its corner");
    }

    #[test]
    fn angles_count_anticlockwise_on_the_page() {
        assert_eq!(Point::towards(std::f64::consts::FRAC_PI_2).y.round(), -1.0, "up the page");
        assert_eq!(at(1.0, 0.0).left(), at(0.0, -1.0));
    }
}
