//! Strings in less usual places: over a pulley that moves, from a body that stands on another, round a pulley and
//! back to the same pile, and in two strands to a body on a surface.

use crate::drawing::*;
use crate::frame;
use crate::geometry::{Point, at};
use crate::glyph;
use crate::over::{HANG, RADIUS, arc};
use crate::scenery;
use crate::track::{Anchor, Piece, Setting, Track};
use model::{BodyId, End, Form, Holds, Line, LinkId};

/// From the bodies to a pulley round which a string turns back.
const TO_POST: f64 = 52.0;

impl Setting<'_> {
    pub(crate) fn form(&self, body: BodyId) -> Option<Form> {
        self.situation.body(body).map(|b| b.form)
    }

    /// The radius of a body that is a pulley.
    pub(crate) fn wheel(&self, body: BodyId) -> f64 {
        glyph::glyph(self.situation, self.plan, body, self.part).length / 2.0
    }

    /// Where a string leaves a chain: at its end, or at the end of the body that stands on another there.
    pub(crate) fn string_end(&self, piece: &Piece, track: &Track, end: End) -> Point {
        let spot = piece.cast.spots.iter().find(|s| s.body == end.body);
        let rides = self.plan.carried_by.contains_key(&end.body) && track.line != Line::Vertical;
        match (spot, end.sense > 0) {
            (Some(spot), ahead) if rides => {
                let (front, rear) = track.ends_of(spot);
                if ahead { front } else { rear }
            }
            (_, true) => track.front,
            (_, false) => track.rear,
        }
    }

    /// How much higher than the ground the feet of a body are that stands on others.
    pub(crate) fn raised(&self, end: End, line: Line) -> f64 {
        let mut height = 0.0;
        let mut at = end.body;
        for _ in 0..self.plan.carried_by.len() {
            let Some(&under) = self.plan.carried_by.get(&at).filter(|_| line != Line::Vertical) else {
                break;
            };
            height += glyph::glyph(self.situation, self.plan, under, self.part).height;
            at = under;
        }
        height
    }

    /// What hangs from the two ends of a string over a pulley that moves; a missing end is fixed to the ground.
    pub(crate) fn hang_from_wheel(&self, piece: &mut Piece, link: LinkId, over: End, rest: &[End]) {
        let Some(spot) = piece.cast.spots.iter().find(|s| s.body == over.body).cloned() else { return };
        let (group, pen) = (format!("link-{}", link.0), self.pen(link, Holds::Pull));
        let frame = frame::frame(Line::Vertical, self.angles, false);
        let radius = spot.half_length;
        for (side, end) in [(-1.0, rest.first()), (1.0, rest.get(1))] {
            let leaves = spot.centre + at(side * radius, 0.0);
            let chain = end.and_then(|e| self.plan.chain_of(e.body));
            let known = piece.tracks.iter().find(|t| Some(t.chain) == chain).cloned();
            match (chain, end, known) {
                (Some(_), Some(end), Some(known)) => {
                    let to = self.string_end(piece, &known, *end);
                    piece.strings.line(&group, pen, leaves, to);
                }
                (Some(chain), Some(_), None) if self.line(chain) == Some(Line::Vertical) => {
                    let hang = HANG + radius;
                    piece.strings.line(&group, pen, leaves, leaves + at(0.0, hang));
                    let placed = piece.tracks.len();
                    self.place(piece, chain, frame, Anchor::Tangent(leaves, 1.0, hang));
                    if let Some(t) = piece.tracks.get_mut(placed) {
                        t.hangs = true;
                        t.side = side;
                    }
                }
                _ => {
                    let foot = leaves + at(0.0, 2.0 * HANG + radius);
                    piece.strings.line(&group, pen, leaves, foot);
                    scenery::ground(&mut piece.back, foot - at(16.0, 0.0), foot + at(16.0, 0.0));
                }
            }
        }
    }

    /// A string from a body round a fixed pulley back to one above or below it.
    pub(crate) fn turn_back(
        &self,
        piece: &mut Piece,
        from: usize,
        link: LinkId,
        way: Point,
        (one, two): (Point, Point),
    ) {
        let Some(track) = piece.tracks.get(from).cloned() else { return };
        let (group, pen) = (format!("link-{}", link.0), self.pen(link, Holds::Pull));
        let n = track.frame.n;
        let (upper, lower) = if (one - two).dot(n) > 0.0 { (one, two) } else { (two, one) };
        let radius = ((upper - lower).dot(n) / 2.0).clamp(8.0, 60.0);
        let beyond = (if way.dot(track.frame.u) > 0.0 { track.front } else { track.rear }).dot(way);
        let reach = |p: Point| (beyond - p.dot(way)).max(0.0) + TO_POST.max(radius + 16.0);
        let top = upper + way * reach(upper);
        let bottom = top - n * (2.0 * radius);
        piece.strings.line(&group, pen, upper, top);
        piece.strings.line(&group, pen, lower, bottom);
        let centre = top - n * radius;
        let clockwise = way.dot(-n.left()) > 0.0;
        arc(&mut piece.strings, &group, pen, centre, radius, n, -n, clockwise);
        let wall = centre + way * (radius + 24.0);
        let wheel = format!("pulley-{}", self.wheel_number(link));
        scenery::pulley(&mut piece.wheels, &wheel, centre, radius, wall);
        let foot = wall - n * ((wall - track.front).dot(n) + glyph::COUPLING);
        scenery::wall(&mut piece.back, foot, wall + n * (radius + 10.0), way);
        if let Some(t) = piece.tracks.get_mut(from) {
            // The ground goes on as far as the wall.
            if way.dot(t.frame.u) > 0.0 {
                t.beyond_front = (foot - t.front).dot(way)
            } else {
                t.beyond_rear = (foot - t.rear).dot(way)
            }
        }
    }

    /// Two strands from a pulley on a body: one to the fixed pulley, the other back to a post under it.
    pub(crate) fn two_strands(
        &self,
        piece: &mut Piece,
        link: LinkId,
        (start, arrival): (Point, Point),
        way: Point,
        side: Point,
    ) {
        let (group, pen) = (format!("link-{}", link.0), self.pen(link, Holds::Pull));
        let radius = RADIUS / 2.0;
        let top = start + way * radius;
        let centre = top - side * radius;
        let bottom = centre - side * radius;
        piece.strings.line(&group, pen, top, arrival);
        let run = (arrival - start).dot(way);
        piece.strings.line(&group, pen, bottom, bottom + way * (run - 2.0 * RADIUS).max(radius));
        let clockwise = way.dot(-side.left()) > 0.0;
        arc(&mut piece.strings, &group, pen, centre, radius, -side, side, clockwise);
        let wheel = format!("pulley-{}", self.wheel_number(link));
        scenery::pulley(&mut piece.wheels, &wheel, centre, radius, centre - way * radius);
        let post = bottom + way * (run - 2.0 * RADIUS).max(radius);
        piece.wheels.line(
            &wheel,
            Pen { width: 3.0, ..OUTLINE },
            post + side * 4.0,
            post - side * (glyph::COUPLING - 2.0 * radius),
        );
    }
}
