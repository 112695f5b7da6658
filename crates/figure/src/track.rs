//! Places the bodies of one connected piece of the situation: chains on their lines, pulleys where a string leaves
//! its line, and the chains beyond the pulleys.

use crate::chain::{Plan, thinned};
use crate::drawing::*;
use crate::frame::{self, Angles, Frame};
use crate::geometry::{Bounds, Point, at};
use crate::glyph::{self, COUPLING, Cast, Spot, Stand};
use crate::style;
use crate::text::Text;
use model::{BodyId, Holds, Line, LinkId, Situation, StageId};
use std::collections::{BTreeMap, BTreeSet};

/// Between bodies that a string or rod joins.
const GAP: f64 = 46.0;

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
    /// How far its surface must go beyond its ends at least.
    pub(crate) beyond_front: f64,
    pub(crate) beyond_rear: f64,
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
    pub(crate) stage: StageId,
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
pub(crate) enum Anchor {
    /// The rear end of its coupling line.
    Rear(Point),
    /// Its string reaches the pulley here, in this sense of the line, this long.
    Tangent(Point, f64, f64),
}

impl Track {
    /// Where strings leave a body that stands on another: its front and rear end, as high above its foot as on the ground.
    pub(crate) fn ends_of(&self, spot: &Spot) -> (Point, Point) {
        let up = COUPLING.min(spot.half_height);
        let middle = spot.centre - self.frame.n * (spot.half_height - up);
        (middle + self.frame.u * spot.half_length, middle - self.frame.u * spot.half_length)
    }
}

impl Setting<'_> {
    pub(crate) fn line(&self, chain: usize) -> Option<Line> {
        self.plan.chains.get(chain).map(|c| c.line)
    }
    /// Room that a chain takes across a vertical string.
    pub(crate) fn half_breadth(&self, chain: usize) -> f64 {
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
        self.tie(&mut piece);
        piece
    }

    /// Draws the strings of bodies that stand on others: to their neighbours there, or to bodies on the ground.
    fn tie(&self, piece: &mut Piece) {
        for (id, behind, front) in &self.plan.direct {
            let rides = |b| self.plan.carried_by.contains_key(b);
            let Some(link) = self.situation.link(*id).filter(|l| !l.is_contact) else { continue };
            if !(rides(behind) || rides(front)) || self.plan.carries(*behind, *front) {
                continue;
            }
            let hangs = self.situation.body(*behind).is_some_and(|b| b.line == Line::Vertical);
            if hangs || self.plan.carries(*front, *behind) {
                continue;
            }
            let spot = |b| piece.cast.spots.iter().find(|s| s.body == b);
            let track = piece.tracks.iter().find(|t| Some(t.chain) == self.plan.chain_of(*behind));
            let (Some(one), Some(two), Some(track)) = (spot(*behind), spot(*front), track) else { continue };
            let (from, to) = (track.ends_of(one).0, track.ends_of(two).1);
            if (to - from).dot(track.frame.u) > 4.0 {
                piece.strings.line(&format!("link-{}", id.0), self.pen(*id, link.holds), from, to);
            }
        }
    }

    /// Places the bodies of a chain and what joins them.
    pub(crate) fn place(&self, piece: &mut Piece, index: usize, frame: Frame, anchor: Anchor) {
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
                        Stand {
                            foot: rear + frame.u * *from,
                            u: at(1.0, 0.0),
                            n: frame.u,
                            facing: 1.0,
                            forward: 1.0,
                        }
                    } else {
                        let foot = middle - frame.n * COUPLING;
                        Stand { foot, u: frame.u * right, n: frame.n, facing: facing * right, forward: right }
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
            beyond_front: 0.0,
            beyond_rear: 0.0,
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
                if link_is_loose(self.plan, behind, front) {
                    18.0
                } else {
                    0.0
                }
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

    pub(crate) fn pen(&self, id: LinkId, holds: Holds) -> Pen {
        style::link(self.plan.loose.contains(&id), holds)
    }
}

fn link_is_loose(plan: &Plan, behind: BodyId, front: BodyId) -> bool {
    plan.between(behind, front).is_some_and(|id| plan.loose.contains(&id))
}
