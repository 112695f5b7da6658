//! Strings over pulleys: where the pulley goes, what holds it, and the chains at the string's other ends.

use crate::drawing::*;
use crate::footing;
use crate::frame;
use crate::geometry::{Point, at};
use crate::glyph::COUPLING;
use crate::scenery;
use crate::told::{self, Kept};
use crate::track::{Anchor, Finish, Piece, Setting, Track};
use model::{End, Form, Holds, Line, LinkId};

/// From a body on a surface to the pulley.
const TO_PULLEY: f64 = 62.0;
/// From a pulley to what hangs from it.
pub(crate) const HANG: f64 = 46.0;
/// The usual pulley.
pub(crate) const RADIUS: f64 = 14.0;
/// Larger pulleys than this are drawn as two.
const LARGEST: f64 = 34.0;

impl Setting<'_> {
    /// Leads a string from a placed chain over its pulley to the chains at its other ends.
    pub(crate) fn run_over(&self, piece: &mut Piece, link: LinkId, from: usize, first: End, rest: &[End]) {
        let Some(track) = piece.tracks.get(from).cloned() else { return };
        if first.sense < 0 && self.form(first.body) == Some(Form::Pulley) && track.line == Line::Vertical {
            self.hang_from_wheel(piece, link, first, rest);
            return;
        }
        let Some(second) = rest.first().copied() else { return };
        let Some(other) = self.plan.chain_of(second.body) else { return };
        let Some(line) = self.line(other) else { return };
        let group = format!("link-{}", link.0);
        let pen = self.pen(link, Holds::Pull);
        let ahead = first.sense > 0;
        let way = if ahead { track.frame.u } else { -track.frame.u };
        let upright = track.line == Line::Vertical;
        let from_chain = track.chain;
        let start = self.string_end(piece, &track, first);
        if let Some(known) = piece.tracks.iter().find(|t| t.chain == other).cloned() {
            let end = self.string_end(piece, &known, second);
            if other == track.chain && !upright && first.sense == second.sense {
                self.turn_back(piece, from, link, way, (start, end));
            } else {
                piece.strings.line(&group, pen, start, end);
            }
            return;
        }
        // How much higher than usual the string of a body leaves that stands on another, and how far back.
        let level = if ahead { track.front } else { track.rear };
        let lift = (start - level).dot(track.frame.n).max(0.0);
        let behind = (level - start).dot(way).max(0.0);
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
        // The body at that end may itself be the pulley that moves.
        let own_wheel = match self.form(second.body) {
            Some(Form::Pulley) if movable => Some(self.wheel(second.body)),
            _ => None,
        };
        let (radius, spread) = match (upright && line == Line::Vertical, movable) {
            (true, true) if own_wheel.is_some() => {
                let need = track.half_breadth + reach + 16.0 - own_wheel.unwrap_or(0.0);
                let each = (need / 2.0).max(RADIUS);
                if each > LARGEST { (RADIUS, need - 2.0 * RADIUS) } else { (each, 0.0) }
            }
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
        let back = (radius + 3.0).max((clearance + (COUPLING - radius + lift) * rise) / run_out);
        let run = if upright {
            HANG + 18.0 + self.sunk(from_chain)
        } else {
            TO_PULLEY.max(back + 24.0) + taken + behind
        };
        // A slope with a pulley at its low end must be as long as its angle asks.
        let run = if ahead || upright { run } else { run.max(self.short_of(&track) + back) };
        let arrival = start + way * run;
        let near = arrival - arrives * radius;
        let far = near + at(side * spread, 0.0);
        let departure = far + leaves * radius;

        if first.times > 1 && !upright {
            self.two_strands(piece, link, (start, arrival), way, arrives);
        } else {
            piece.strings.line(&group, pen, start, arrival);
        }
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
            let edge = near - way * back - track.frame.n * (COUPLING - radius + lift);
            // A pulley high above its surface stands on a post, clear of what hangs from it.
            let held_at = if lift > 0.0 { near - way * back } else { edge + at(0.0, 4.0) };
            if lift > 0.0 {
                piece.wheels.line(&wheel, Pen { width: 3.0, ..OUTLINE }, edge, held_at);
            }
            scenery::pulley(&mut piece.wheels, &wheel, near, radius, held_at);
            let finish = if line == Line::Vertical {
                Finish::Edge(edge)
            } else {
                Finish::Apex(near - track.frame.n * (COUPLING - radius + lift))
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
            let third = rest.get(1).is_some_and(|e| e.times == 1);
            let round = own_wheel.unwrap_or(radius);
            let strands = if movable && !third { side * round } else { 0.0 };
            let middle = at((near.x + far.x) / 2.0 + strands, roof);
            scenery::ceiling(&mut piece.back, middle, half + strands.abs());
        }

        let mut anchor = departure;
        let mut hang = if upright {
            HANG + 18.0 + self.sunk(other)
        } else if line == Line::Vertical {
            HANG.max(back * rise + 12.0) + self.sunk(other)
        } else {
            TO_PULLEY
        };
        if movable {
            let drop = departure + at(0.0, hang + 30.0);
            let round = own_wheel.unwrap_or(radius);
            let wheel_at = drop + at(side * round, 0.0);
            let back_up = drop + at(side * 2.0 * round, 0.0);
            piece.strings.line(&group, pen, departure, drop);
            if own_wheel.is_none() {
                let (left, right) = (at(-side, 0.0), at(side, 0.0));
                arc(&mut piece.strings, &group, pen, wheel_at, round, left, right, side < 0.0);
                let hook = wheel_at + at(0.0, round + 12.0);
                scenery::pulley(&mut piece.wheels, &wheel, wheel_at, round, hook);
            }
            let third = rest.get(1).filter(|e| e.times == 1);
            let top = at(back_up.x, near.y - radius - 22.0);
            if third.is_none() {
                piece.strings.line(&group, pen, back_up, top);
            }
            if let Some(third) = third {
                let beside = (reach - round).max(0.0) + 10.0;
                let wide = self.plan.chain_of(third.body).map_or(0.0, |c| self.half_breadth(c));
                let round = radius.max((wide + beside) / 2.0);
                let roof = near.y - radius - 22.0;
                let from = far.x + side * (radius + 22.0);
                let to = top.x + side * (2.0 * round + 22.0);
                let top = at(top.x, roof + 22.0 + round);
                piece.strings.line(&group, pen, back_up, top);
                let (from, to) = if surface { (top.x, to) } else { (from, to) };
                scenery::ceiling(&mut piece.back, at((from + to) / 2.0, roof), (to - from).abs() / 2.0);
                self.third_end(piece, (link, &wheel), top, side, round, *third);
            } else if surface {
                let y = near.y - radius - 22.0;
                scenery::ceiling(&mut piece.back, at(top.x + side * round * 0.5, y), 34.0);
            }
            anchor = wheel_at;
            hang = if own_wheel.is_some() { -round } else { radius + 12.0 };
        } else {
            piece.strings.line(&group, pen, departure, departure - leaves_way * hang);
        }
        let placed = piece.tracks.len();
        // A body that stands on another takes its string further up.
        let raised = self.raised(second, line);
        if raised > 0.0 && !movable {
            // What lies below its top must clear the ground on the other side of the pulley.
            let longer = raised * (frame.u.y / frame.u.x.abs().max(0.1)).abs();
            piece.strings.line(
                &group,
                pen,
                departure - leaves_way * hang,
                departure - leaves_way * (hang + longer),
            );
            hang += longer;
        }
        let anchor_low = anchor - frame.n * raised;
        self.place(piece, other, frame, Anchor::Tangent(anchor_low, f64::from(second.sense), hang));
        if let (true, Some(track)) = (raised > 0.0, piece.tracks.get(placed).cloned()) {
            let end = self.string_end(piece, &track, second);
            piece.strings.line(&group, pen, departure - leaves_way * hang, end);
        }
        if let Some(t) = piece.tracks.get_mut(placed) {
            t.hangs = line == Line::Vertical;
            t.side = if line == Line::Vertical { side } else { 1.0 };
            if line != Line::Vertical {
                let apex = Finish::Apex(far - t.frame.n * (COUPLING - radius + raised));
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
        let hang = HANG.max(radius + 24.0);
        piece.strings.line(&group, pen, departure, departure + at(0.0, hang));
        let frame = frame::frame(Line::Vertical, self.angles, false);
        let placed = piece.tracks.len();
        self.place(piece, chain, frame, Anchor::Tangent(departure, 1.0, hang));
        if let Some(t) = piece.tracks.get_mut(placed) {
            t.hangs = true;
        }
    }

    /// The length that a slope lacks behind its chain so that its angle can be marked.
    fn short_of(&self, track: &Track) -> f64 {
        let top = match track.front_finish {
            Finish::Open => 24.0,
            Finish::Edge(p) | Finish::Apex(p) => (p - track.front).dot(track.frame.u),
        };
        footing::least_length(self, track) - top - (track.front - track.rear).length()
    }

    /// How much lower a chain hangs whose lowest body has landed.
    fn sunk(&self, chain: usize) -> f64 {
        let lowest = self.plan.chains.get(chain).and_then(|c| c.bodies.first());
        let kept = lowest.and_then(|b| told::kept(self.situation, self.stage, *b));
        if matches!(kept, Some(Kept::Landed(_))) { 54.0 } else { 0.0 }
    }

    pub(crate) fn wheel_number(&self, link: LinkId) -> usize {
        self.situation.link(link).and_then(|l| l.pulleys.first()).map_or(link.0, |p| p.0)
    }
}

/// The part of a string that lies round a pulley.
#[expect(clippy::too_many_arguments, reason = "an arc is its pulley, its two ends and its turn")]
pub(crate) fn arc(
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
