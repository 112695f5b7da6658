//! Places the bodies of one connected piece of the situation: chains on their lines, pulleys where a string leaves
//! its line, and the chains beyond the pulleys.

use crate::chain::{Plan, thinned};
use crate::drawing::*;
use crate::frame::{self, Angles, Frame};
use crate::geometry::{Bounds, Point, at};
use crate::glyph::{self, COUPLING, Cast, Stand};
use crate::scenery;
use crate::text::Text;
use model::{BodyId, End, Holds, Line, LinkId, Situation};
use std::collections::{BTreeMap, BTreeSet};

/// Between bodies that a string or rod joins.
const GAP: f64 = 46.0;
/// From a body on a surface to the pulley.
const TO_PULLEY: f64 = 62.0;
/// From a pulley to what hangs from it.
const HANG: f64 = 46.0;
/// The usual pulley.
const RADIUS: f64 = 14.0;
/// Larger pulleys than this are drawn as two.
const LARGEST: f64 = 34.0;

/// How a chain's surface ends at one end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Finish {
    Open,
    /// At a pulley from which something hangs: an edge with nothing beyond.
    Edge(Point),
    /// At a pulley beyond which another surface begins.
    Apex(Point),
}

/// A chain in its place.
#[derive(Clone, Debug)]
pub(crate) struct Track {
    pub(crate) chain: usize,
    pub(crate) frame: Frame,
    pub(crate) line: Line,
    /// Ends of the chain on its coupling line.
    pub(crate) rear: Point,
    pub(crate) front: Point,
    pub(crate) rear_finish: Finish,
    pub(crate) front_finish: Finish,
    pub(crate) bounds: Bounds,
    /// Half of its greatest breadth.
    pub(crate) half_breadth: f64,
    /// Is it held at the front by a pulley?
    pub(crate) hangs: bool,
    /// The side on which there is most room beside it: −1 left, +1 right.
    pub(crate) side: f64,
}

/// What holds in the stage that is drawn.
pub(crate) struct Setting<'a> {
    pub(crate) situation: &'a Situation,
    pub(crate) plan: &'a Plan,
    pub(crate) angles: &'a Angles,
    pub(crate) part: usize,
    /// Links that carry no force: drawn as slack.
    pub(crate) loose: BTreeSet<LinkId>,
    /// The way each chain faces.
    pub(crate) facing: BTreeMap<usize, f64>,
}

/// One connected piece of the scene.
#[derive(Clone, Debug, Default)]
pub(crate) struct Piece {
    pub(crate) back: Drawing,
    pub(crate) strings: Drawing,
    pub(crate) wheels: Drawing,
    pub(crate) cast: Cast,
    pub(crate) tracks: Vec<Track>,
}

/// Where a chain goes.
#[derive(Clone, Copy)]
enum Anchor {
    /// The rear end of its coupling line.
    Rear(Point),
    /// Its string reaches the pulley here, in this sense of the line, this long.
    Tangent(Point, f64, f64),
}

impl Setting<'_> {
    fn line(&self, chain: usize) -> Option<Line> {
        self.plan.chains.get(chain).map(|c| c.line)
    }
    /// Room that a chain takes across a vertical string.
    fn half_breadth(&self, chain: usize) -> f64 {
        let bodies = self.plan.chains.get(chain).map_or(&[][..], |c| c.bodies.as_slice());
        let widest = bodies.iter().map(|b| glyph::extent(self.situation, self.plan, *b, self.part, 0).0);
        widest.fold(20.0, f64::max) / 2.0
    }

    /// Builds the piece that starts from a chain.
    pub(crate) fn build(&self, root: usize) -> Piece {
        let mut piece = Piece::default();
        let Some(line) = self.line(root) else { return piece };
        let frame = frame::frame(line, self.angles, false);
        self.place(&mut piece, root, frame, Anchor::Rear(at(0.0, 0.0)));
        let mut next = 0;
        let mut used = BTreeSet::new();
        while let Some(track) = piece.tracks.get(next).cloned() {
            for (link, ends) in &self.plan.over {
                let own = ends.iter().position(|e| self.plan.chain_of(e.body) == Some(track.chain));
                if let Some(own) = own.filter(|_| used.insert(*link)) {
                    let mut ends = ends.clone();
                    let first = ends.remove(own);
                    // The two-strand end of a movable pulley comes next after the first.
                    ends.sort_by_key(|e| std::cmp::Reverse(e.times));
                    self.run_over(&mut piece, *link, next, first, &ends);
                }
            }
            next += 1;
        }
        piece
    }

    /// Places the bodies of a chain and what joins them.
    fn place(&self, piece: &mut Piece, index: usize, frame: Frame, anchor: Anchor) {
        let Some(chain) = self.plan.chains.get(index) else { return };
        let upright = chain.line == Line::Vertical;
        let shown = thinned(&chain.bodies);
        let more = Text::upright(format!("… {} more …", chain.bodies.len() + 1 - shown.len()));
        let mut spans: Vec<(Option<BodyId>, f64, f64)> = Vec::new();
        let (mut reached, mut breadth) = (0.0, 20.0f64);
        let mut before: Option<Option<BodyId>> = None;
        for entry in &shown {
            let (length, wide) = match entry {
                Some(body) => {
                    let (l, h) = glyph::extent(self.situation, self.plan, *body, self.part, 0);
                    if upright { (h, l) } else { (l, h) }
                }
                None if upright => (20.0, 20.0),
                None => (more.width(glyph::NAME) + 12.0, 20.0),
            };
            reached += match (before, entry) {
                (Some(Some(behind)), Some(front)) => self.gap(behind, *front),
                (Some(_), _) => GAP * 0.6,
                (None, _) => 0.0,
            };
            spans.push((*entry, reached, reached + length));
            reached += length;
            breadth = breadth.max(wide);
            before = Some(*entry);
        }
        let rear = match anchor {
            Anchor::Rear(point) => point,
            Anchor::Tangent(point, sense, gap) if sense > 0.0 => point - frame.u * (gap + reached),
            Anchor::Tangent(point, _, gap) => point + frame.u * gap,
        };
        let right = if frame.u.x < 0.0 { -1.0 } else { 1.0 };
        let facing = self.facing.get(&index).copied().unwrap_or(1.0);
        let first = piece.cast.spots.len();
        let mut bounds = Bounds { low: rear, high: rear };
        for (entry, from, to) in &spans {
            let middle = rear + frame.u * ((from + to) / 2.0);
            match entry {
                Some(body) => {
                    let stand = if upright {
                        Stand { foot: rear + frame.u * *from, u: at(1.0, 0.0), n: frame.u, facing: 1.0 }
                    } else {
                        let foot = middle - frame.n * COUPLING;
                        Stand { foot, u: frame.u * right, n: frame.n, facing: facing * right }
                    };
                    glyph::put(&mut piece.cast, self.situation, self.plan, *body, self.part, stand, 0);
                }
                None => {
                    let turn = if upright { 0.0 } else { (frame.u * right).angle() };
                    let label = Label::turned(more.clone(), middle, glyph::NAME, turn);
                    piece.cast.drawing.write("more", label);
                }
            }
        }
        for spot in piece.cast.spots.iter().skip(first) {
            if let Some(b) =
                Bounds::of(&crate::geometry::corners(spot.centre, spot.u, spot.half_length, spot.half_height))
            {
                bounds = bounds.join(b);
            }
        }
        for ((one, _, end), (two, start, _)) in spans.iter().zip(spans.iter().skip(1)) {
            let (a, b) = (rear + frame.u * *end, rear + frame.u * *start);
            match (one, two) {
                (Some(behind), Some(front)) => self.join(piece, *behind, *front, a, b),
                _ => piece.strings.line("more", STRING, a, b),
            }
        }
        piece.tracks.push(Track {
            chain: index,
            frame,
            line: chain.line,
            rear,
            front: rear + frame.u * reached,
            rear_finish: Finish::Open,
            front_finish: Finish::Open,
            bounds,
            half_breadth: breadth / 2.0,
            hangs: false,
            side: 1.0,
        });
    }

    fn gap(&self, behind: BodyId, front: BodyId) -> f64 {
        let link = self.plan.between(behind, front);
        match link.and_then(|id| self.situation.link(id)) {
            Some(link) if link.is_contact => {
                link_gap(link.is_contact && link_is_loose(&self.loose, self.plan, behind, front))
            }
            _ => GAP,
        }
    }

    /// Draws what joins two neighbours.
    fn join(&self, piece: &mut Piece, behind: BodyId, front: BodyId, a: Point, b: Point) {
        let Some(id) = self.plan.between(behind, front) else { return };
        let Some(link) = self.situation.link(id).filter(|l| !l.is_contact) else { return };
        let group = format!("link-{}", id.0);
        piece.strings.line(&group, self.pen(id, link.holds), a, b);
        if link.holds == Holds::PullOrPush {
            for end in [a, b] {
                piece.wheels.add(&group, OUTLINE, Mark::Circle { centre: end, radius: 2.5, fill: Some(INK) });
            }
        }
    }

    fn pen(&self, id: LinkId, holds: Holds) -> Pen {
        match (self.loose.contains(&id), holds) {
            (true, _) => Pen { dash: Some("3 4"), ..STRING },
            (false, Holds::PullOrPush) => Pen { width: 3.0, ..STRING },
            (false, _) => STRING,
        }
    }

    /// Leads a string from a placed chain over its pulley to the chains at its other ends.
    fn run_over(&self, piece: &mut Piece, link: LinkId, from: usize, first: End, rest: &[End]) {
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

fn link_is_loose(loose: &BTreeSet<LinkId>, plan: &Plan, behind: BodyId, front: BodyId) -> bool {
    plan.between(behind, front).is_some_and(|id| loose.contains(&id))
}

fn link_gap(parted: bool) -> f64 {
    if parted { 18.0 } else { 0.0 }
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
