//! Strings over pulleys: where the pulley goes, what holds it, and the chains at the string's other ends.

use crate::drawing::*;
use crate::frame;
use crate::geometry::{Point, at};
use crate::glyph::COUPLING;
use crate::scenery;
use crate::track::{Anchor, Finish, Piece, Setting};
use model::{End, Holds, Line, LinkId};

/// From a body on a surface to the pulley.
const TO_PULLEY: f64 = 62.0;
/// From a pulley to what hangs from it.
const HANG: f64 = 46.0;
/// The usual pulley.
const RADIUS: f64 = 14.0;
/// Larger pulleys than this are drawn as two.
const LARGEST: f64 = 34.0;

impl Setting<'_> {
    /// Leads a string from a placed chain over its pulley to the chains at its other ends.
    pub(crate) fn run_over(&self, piece: &mut Piece, link: LinkId, from: usize, first: End, rest: &[End]) {
        let Some(track) = piece.tracks.get(from).cloned() else { return };
        let Some(second) = rest.first().copied() else { return };
        let Some(other) = self.plan.chain_of(second.body) else { return };
        let Some(line) = self.line(other) else { return };
        let group = format!("link-{}", link.0);
        let pen = self.pen(link, Holds::Pull);
        let ahead = first.sense > 0;
        let (way, start) = if ahead { (track.frame.u, track.front) } else { (-track.frame.u, track.rear) };
        if let Some(known) = piece.tracks.iter().find(|t| t.chain == other).cloned() {
            let end = if second.sense > 0 { known.front } else { known.rear };
            piece.strings.line(&group, pen, start, end);
            return;
        }
        let upright = track.line == Line::Vertical;
        let taken = match (ahead, track.front_finish, track.rear_finish) {
            (true, Finish::Open, _) | (false, _, Finish::Open) => 0.0,
            _ => 60.0,
        };
        // The side of the pulley on which the string arrives; beyond a vertical string the pulley lies to the right.
        let arrives = if upright { at(if track.hangs { 1.0 } else { -1.0 }, 0.0) } else { track.frame.n };
        let side = if upright {
            -arrives.x
        } else if way.x < 0.0 {
            -1.0
        } else {
            1.0
        };
        let flipped = match line {
            Line::Slope { .. } => {
                let plain = frame::frame(line, self.angles, false).u * f64::from(second.sense);
                plain.x * side > 0.0
            }
            _ => false,
        };
        let frame = frame::frame(line, self.angles, flipped);
        let leaves_way = frame.u * f64::from(second.sense);
        let leaves = match line {
            Line::Vertical => at(side, 0.0),
            Line::Slope { .. } => frame.n,
            Line::Level if leaves_way.x * way.x > 0.0 => at(0.0, 1.0),
            Line::Level => frame.n,
        };
        if let Some(t) = piece.tracks.get_mut(from).filter(|_| upright && !track.hangs) {
            t.side = -side;
        }
        let reach = self.half_breadth(other);
        let movable = second.times > 1 && line == Line::Vertical;
        let (radius, spread) = match (upright && line == Line::Vertical, movable) {
            (true, true) => {
                let need = track.half_breadth + reach + 16.0;
                let each = (need / 3.0).max(RADIUS);
                if each > LARGEST { (RADIUS, need - 3.0 * RADIUS) } else { (each, 0.0) }
            }
            (true, false) => {
                let need = (track.half_breadth + reach + 18.0) / 2.0;
                if need > LARGEST { (RADIUS, 2.0 * (need - RADIUS)) } else { (need.max(20.0), 0.0) }
            }
            _ => (RADIUS, 0.0),
        };
        // How far the edge lies back from the pulley, so that what hangs from it clears the edge.
        let rise = way.y.abs().min(0.95);
        let run_out = (1.0 - rise * rise).sqrt();
        let clearance = if line == Line::Vertical { reach + 10.0 - radius } else { radius };
        let back = (radius + 3.0).max((clearance + (COUPLING - radius) * rise) / run_out);
        let run = if upright { HANG + 18.0 } else { TO_PULLEY.max(back + 24.0) + taken };
        let arrival = start + way * run;
        let near = arrival - arrives * radius;
        let far = near + at(side * spread, 0.0);
        let departure = far + leaves * radius;

        piece.strings.line(&group, pen, start, arrival);
        let clockwise = way.dot(-arrives.left()) > 0.0;
        if spread > 0.0 {
            let up = at(0.0, -1.0);
            arc(&mut piece.strings, &group, pen, near, radius, arrives, up, clockwise);
            piece.strings.line(&group, pen, near + up * radius, far + up * radius);
            arc(&mut piece.strings, &group, pen, far, radius, up, leaves, clockwise);
        } else {
            arc(&mut piece.strings, &group, pen, near, radius, arrives, leaves, clockwise);
        }

        // What holds the pulley.
        let wheel = format!("pulley-{}", self.wheel_number(link));
        let surface = !upright;
        if surface {
            let edge = near - way * back - track.frame.n * (COUPLING - radius);
            scenery::pulley(&mut piece.wheels, &wheel, near, radius, edge + at(0.0, 4.0));
            let finish = if line == Line::Vertical {
                Finish::Edge(edge)
            } else {
                Finish::Apex(near - track.frame.n * (COUPLING - radius))
            };
            if let Some(t) = piece.tracks.get_mut(from) {
                if ahead { t.front_finish = finish } else { t.rear_finish = finish }
            }
        } else {
            let roof = near.y - radius - 22.0;
            for centre in if spread > 0.0 { vec![near, far] } else { vec![near] } {
                scenery::pulley(&mut piece.wheels, &wheel, centre, radius, at(centre.x, roof));
            }
            let half = (far.x - near.x).abs() / 2.0 + radius + 22.0;
            let strands = if movable { side * radius } else { 0.0 };
            let middle = at((near.x + far.x) / 2.0 + strands, roof);
            scenery::ceiling(&mut piece.back, middle, half + strands.abs());
        }

        let mut anchor = departure;
        let mut hang = if upright {
            HANG + 18.0
        } else if line == Line::Vertical {
            HANG.max(back * rise + 12.0)
        } else {
            TO_PULLEY
        };
        if movable {
            let drop = departure + at(0.0, hang + 30.0);
            let wheel_at = drop + at(side * radius, 0.0);
            let back_up = drop + at(side * 2.0 * radius, 0.0);
            piece.strings.line(&group, pen, departure, drop);
            arc(&mut piece.strings, &group, pen, wheel_at, radius, at(-side, 0.0), at(side, 0.0), side < 0.0);
            let third = rest.get(1).filter(|e| e.times == 1);
            let top = at(back_up.x, if third.is_some() { near.y } else { near.y - radius - 22.0 });
            piece.strings.line(&group, pen, back_up, top);
            scenery::pulley(&mut piece.wheels, &wheel, wheel_at, radius, wheel_at + at(0.0, radius + 12.0));
            if surface || third.is_some() {
                let y = near.y - radius - 22.0;
                scenery::ceiling(&mut piece.back, at(top.x + side * radius * 0.5, y), 34.0);
            }
            if let Some(third) = third {
                self.third_end(piece, (link, &wheel), top, side, radius, *third);
            }
            anchor = wheel_at;
            hang = radius + 12.0;
        } else {
            piece.strings.line(&group, pen, departure, departure - leaves_way * hang);
        }
        let placed = piece.tracks.len();
        self.place(piece, other, frame, Anchor::Tangent(anchor, f64::from(second.sense), hang));
        if let Some(t) = piece.tracks.get_mut(placed) {
            t.hangs = line == Line::Vertical;
            t.side = if line == Line::Vertical { side } else { 1.0 };
            if line != Line::Vertical {
                let apex = Finish::Apex(far - t.frame.n * (COUPLING - radius));
                if second.sense > 0 { t.front_finish = apex } else { t.rear_finish = apex }
            }
        }
    }

    /// The third end of a string that carries a movable pulley: over one more fixed pulley and down.
    fn third_end(
        &self,
        piece: &mut Piece,
        (link, wheel): (LinkId, &str),
        top: Point,
        side: f64,
        radius: f64,
        end: End,
    ) {
        let Some(chain) = self.plan.chain_of(end.body) else { return };
        if self.line(chain) != Some(Line::Vertical) || piece.tracks.iter().any(|t| t.chain == chain) {
            return;
        }
        let (group, pen) = (format!("link-{}", link.0), self.pen(link, Holds::Pull));
        let centre = top + at(side * radius, 0.0);
        arc(&mut piece.strings, &group, pen, centre, radius, at(-side, 0.0), at(side, 0.0), side > 0.0);
        scenery::pulley(&mut piece.wheels, wheel, centre, radius, centre - at(0.0, radius + 22.0));
        let departure = centre + at(side * radius, 0.0);
        piece.strings.line(&group, pen, departure, departure + at(0.0, HANG));
        let frame = frame::frame(Line::Vertical, self.angles, false);
        self.place(piece, chain, frame, Anchor::Tangent(departure, 1.0, HANG));
    }

    fn wheel_number(&self, link: LinkId) -> usize {
        self.situation.link(link).and_then(|l| l.pulleys.first()).map_or(link.0, |p| p.0)
    }
}

/// The part of a string that lies round a pulley.
#[expect(clippy::too_many_arguments, reason = "an arc is its pulley, its two ends and its turn")]
fn arc(
    d: &mut Drawing,
    group: &str,
    pen: Pen,
    centre: Point,
    radius: f64,
    from: Point,
    to: Point,
    clockwise: bool,
) {
    let full = std::f64::consts::TAU;
    let start = from.angle();
    let mut turn = (to.angle() - start).rem_euclid(full);
    if clockwise {
        turn -= full;
    }
    if turn.abs() < 0.01 || turn.abs() > full - 0.01 {
        return;
    }
    d.add(group, pen, Mark::Arc { centre, radius, start, end: start + turn });
}
