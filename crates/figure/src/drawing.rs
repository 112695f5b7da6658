//! A drawing as plain data: a list of marks, each with its pen and the thing that it belongs to.
//! Layout writes this list, the overlap check measures it, and the SVG writer turns it into text.

use crate::geometry::{Bounds, Point, at, corners};
use crate::text::Text;

/// Near-black of text and outlines.
pub(crate) const INK: &str = "#1a1a1a";
/// Blue of a colour-vision-safe palette: tensions and thrusts.
pub(crate) const BLUE: &str = "#0072B2";
/// Vermillion of it: what resists.
pub(crate) const VERMILLION: &str = "#D55E00";
/// Green of it: reactions.
pub(crate) const GREEN: &str = "#009E73";
/// Grey of hatching and constructions.
pub(crate) const GREY: &str = "#767676";
/// Fill of tables and wedges.
pub(crate) const STONE: &str = "#f1f1ef";
/// Fill of bodies.
pub(crate) const PAPER: &str = "#ffffff";

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Pen {
    pub(crate) colour: &'static str,
    pub(crate) width: f64,
    pub(crate) dash: Option<&'static str>,
}

/// The usual outline.
pub(crate) const OUTLINE: Pen = Pen { colour: INK, width: 1.4, dash: None };
/// Construction lines and hatching.
pub(crate) const FINE: Pen = Pen { colour: GREY, width: 1.0, dash: None };
/// Strings and cables.
pub(crate) const STRING: Pen = Pen { colour: INK, width: 1.2, dash: None };

/// The point of an arrow.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Head {
    Filled,
    Open,
}

/// Where the given point of a label lies on its baseline.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Anchor {
    Start,
    Middle,
    End,
}

/// A line of text with its place.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Label {
    pub(crate) text: Text,
    /// On the baseline.
    pub(crate) at: Point,
    pub(crate) anchor: Anchor,
    pub(crate) size: f64,
    /// Turned anticlockwise by this many radians.
    pub(crate) turn: f64,
}

/// How far letters reach above and below the baseline, in parts of the type size.
pub(crate) const ASCENT: f64 = 0.72;
/// Below the baseline.
pub(crate) const DESCENT: f64 = 0.25;

impl Label {
    /// Upright (not turned) text with its middle at a point.
    pub(crate) fn centred(text: Text, middle: Point, size: f64) -> Label {
        Label::turned(text, middle, size, 0.0)
    }
    /// Text turned by an angle about its middle.
    pub(crate) fn turned(text: Text, middle: Point, size: f64, turn: f64) -> Label {
        let drop = (ASCENT - DESCENT) / 2.0 * size;
        let down = -Point::towards(turn).left();
        Label { text, at: middle + down * drop, anchor: Anchor::Middle, size, turn }
    }
    /// The same place, but fixed at the end that faces an arrow coming this way, so that a wider
    /// face grows away from the arrow.
    pub(crate) fn away_from(mut self, way: Point) -> Label {
        let half = self.text.width(self.size) / 2.0;
        if self.anchor == Anchor::Middle && self.turn == 0.0 && way.x.abs() > 0.7 {
            let sign = way.x.signum();
            self.at.x -= sign * half;
            self.anchor = if sign > 0.0 { Anchor::Start } else { Anchor::End };
        }
        self
    }
    /// The corners of its box.
    pub(crate) fn corners(&self) -> [Point; 4] {
        let width = self.text.width(self.size);
        let u = Point::towards(self.turn);
        let middle = match self.anchor {
            Anchor::Start => width / 2.0,
            Anchor::Middle => 0.0,
            Anchor::End => -width / 2.0,
        };
        let centre = self.at + u * middle + u.left() * ((ASCENT - DESCENT) / 2.0 * self.size);
        corners(centre, u, width / 2.0, (ASCENT + DESCENT) / 2.0 * self.size)
    }
}

/// One mark on the page.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Mark {
    Line {
        from: Point,
        to: Point,
    },
    Arrow {
        from: Point,
        to: Point,
        head: Head,
    },
    /// A shaft with two heads at its end: an acceleration.
    DoubleArrow {
        from: Point,
        to: Point,
    },
    /// A rectangle along the direction `u`.
    Box {
        centre: Point,
        u: Point,
        half_width: f64,
        half_height: f64,
        round: f64,
        fill: Option<&'static str>,
    },
    Circle {
        centre: Point,
        radius: f64,
        fill: Option<&'static str>,
    },
    /// Joined straight pieces; closed and filled if `fill` is given.
    Path {
        points: Vec<Point>,
        fill: Option<&'static str>,
    },
    /// Part of a circle from one angle anticlockwise to another (radians).
    Arc {
        centre: Point,
        radius: f64,
        start: f64,
        end: f64,
    },
    /// Short slanted strokes along a line, on the side `side`.
    Hatch {
        from: Point,
        to: Point,
        side: Point,
    },
    Label(Label),
}

/// A mark with what it needs to be drawn and checked.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Item {
    /// What it belongs to: `force-3`, `body-0`, `ground`.
    pub(crate) group: String,
    pub(crate) mark: Mark,
    pub(crate) pen: Pen,
    /// Something that other things may lie within: a wedge, a cage, the ring round a system.
    pub(crate) hollow: bool,
}

/// A convex piece of what an item covers, kept so that room can be found quickly.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Piece {
    pub(crate) item: usize,
    pub(crate) bounds: Bounds,
    pub(crate) points: Vec<Point>,
}

/// The list.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Drawing {
    pub(crate) items: Vec<Item>,
    /// What all items cover, in their order.
    pub(crate) pieces: Vec<Piece>,
}

/// The depth of hatching.
pub(crate) const HATCH: f64 = 8.0;

impl Drawing {
    /// Adds a solid mark.
    pub(crate) fn add(&mut self, group: &str, pen: Pen, mark: Mark) {
        self.push(Item { group: group.to_owned(), mark, pen, hollow: false });
    }
    /// Adds a mark that others may lie within.
    pub(crate) fn add_hollow(&mut self, group: &str, pen: Pen, mark: Mark) {
        self.push(Item { group: group.to_owned(), mark, pen, hollow: true });
    }
    fn push(&mut self, item: Item) {
        let number = self.items.len();
        for points in item.mark.shapes(item.hollow) {
            if let Some(bounds) = Bounds::of(&points) {
                self.pieces.push(Piece { item: number, bounds, points });
            }
        }
        self.items.push(item);
    }
    /// Adds text.
    pub(crate) fn write(&mut self, group: &str, label: Label) {
        if !label.text.is_empty() {
            self.add(group, OUTLINE, Mark::Label(label));
        }
    }
    /// A straight line.
    pub(crate) fn line(&mut self, group: &str, pen: Pen, from: Point, to: Point) {
        self.add(group, pen, Mark::Line { from, to });
    }
    /// The rectangle that holds everything.
    pub(crate) fn bounds(&self) -> Bounds {
        let all = self.pieces.iter().map(|p| p.bounds).reduce(Bounds::join);
        all.unwrap_or(Bounds { low: at(0.0, 0.0), high: at(1.0, 1.0) })
    }
    /// Puts another drawing on top of this one, moved by `by`.
    pub(crate) fn take_in(&mut self, other: Drawing, by: Point) {
        for mut item in other.items {
            item.mark.shift(by);
            self.push(item);
        }
    }
}

/// Half the width of an arrow's head.
pub(crate) const HEAD_HALF: f64 = 4.0;
/// The length of an arrow's head.
pub(crate) const HEAD_LONG: f64 = 10.0;

impl Mark {
    /// What it covers, as convex pieces. A hollow mark covers its outline only.
    pub(crate) fn shapes(&self, hollow: bool) -> Vec<Vec<Point>> {
        let outline = |points: &[Point], closed: bool| -> Vec<Vec<Point>> {
            let mut lines: Vec<_> =
                points.iter().zip(points.iter().skip(1)).map(|(&a, &b)| vec![a, b]).collect();
            if let (true, Some(&a), Some(&b)) = (closed, points.last(), points.first()) {
                lines.push(vec![a, b]);
            }
            lines
        };
        match self {
            Mark::Line { from, to } => vec![vec![*from, *to]],
            Mark::Arrow { from, to, .. } => vec![vec![*from, *to], head(*from, *to, HEAD_LONG)],
            Mark::DoubleArrow { from, to } => vec![vec![*from, *to], head(*from, *to, HEAD_LONG + 7.0)],
            Mark::Box { centre, u, half_width, half_height, .. } => {
                let points = corners(*centre, *u, *half_width, *half_height);
                if hollow { outline(&points, true) } else { vec![points.to_vec()] }
            }
            Mark::Circle { centre, radius, .. } => {
                // An octagon around it.
                let reach = radius / (std::f64::consts::PI / 8.0).cos();
                let points: Vec<Point> = (0..8)
                    .map(|i| {
                        *centre + Point::towards((f64::from(i) + 0.5) * std::f64::consts::FRAC_PI_4) * reach
                    })
                    .collect();
                if hollow { outline(&points, true) } else { vec![points] }
            }
            Mark::Path { points, fill } => {
                if hollow || fill.is_none() {
                    outline(points, fill.is_some())
                } else {
                    vec![points.clone()]
                }
            }
            Mark::Arc { centre, radius, start, end } => {
                outline(&arc_points(*centre, *radius, *start, *end), false)
            }
            Mark::Hatch { from, to, side } => {
                let down = *side * HATCH;
                vec![vec![*from, *to, *to + down, *from + down]]
            }
            Mark::Label(label) => vec![label.corners().to_vec()],
        }
    }

    fn shift(&mut self, by: Point) {
        match self {
            Mark::Line { from, to }
            | Mark::Arrow { from, to, .. }
            | Mark::DoubleArrow { from, to }
            | Mark::Hatch { from, to, .. } => {
                *from = *from + by;
                *to = *to + by;
            }
            Mark::Box { centre, .. } | Mark::Circle { centre, .. } | Mark::Arc { centre, .. } => {
                *centre = *centre + by;
            }
            Mark::Path { points, .. } => points.iter_mut().for_each(|p| *p = *p + by),
            Mark::Label(label) => label.at = label.at + by,
        }
    }
}

/// The triangle of an arrow's head.
pub(crate) fn head(from: Point, to: Point, long: f64) -> Vec<Point> {
    let u = (to - from).unit();
    let (back, side) = (to - u * long, u.left() * HEAD_HALF);
    vec![to, back + side, back - side]
}

/// Points along an arc, anticlockwise.
pub(crate) fn arc_points(centre: Point, radius: f64, start: f64, end: f64) -> Vec<Point> {
    (0..=8).map(|i| centre + Point::towards(start + (end - start) * f64::from(i) / 8.0) * radius).collect()
}
