//! What the chains of a scene stand on: each surface as far as its chain and its pulleys ask for it.

use crate::drawing::*;
use crate::geometry::{Bounds, Point, at};
use crate::told::{self, Kept};
use crate::track::{Finish, Piece, Setting, Track};
use crate::{label, scenery};
use model::Line;

/// Draws what the chains of a piece stand on.
pub(crate) fn finish(setting: &Setting<'_>, piece: &mut Piece) {
    let hangs: Vec<Bounds> = piece.tracks.iter().filter(|t| t.hangs).map(|t| t.bounds).collect();
    let lowest = hangs.iter().map(|b| b.high.y).fold(f64::NEG_INFINITY, f64::max);
    let on_surface = |t: &Track, along: Point| along - t.frame.n * crate::glyph::COUPLING;
    // All slopes of a piece come down to one level, below whatever hangs beside them.
    let foot = |t: &Track| {
        let rear = on_surface(t, t.rear);
        let top = match t.front_finish {
            Finish::Open => on_surface(t, t.front) + t.frame.u * BEYOND,
            Finish::Edge(p) | Finish::Apex(p) => p,
        };
        rear - t.frame.u * (least_length(setting, t) - (top - rear).dot(t.frame.u)).max(64.0)
    };
    let sloping = |t: &&Track| matches!(t.line, Line::Slope { .. });
    let base = piece
        .tracks
        .iter()
        .filter(sloping)
        .map(|t| match t.rear_finish {
            Finish::Open => foot(t).y,
            Finish::Edge(p) | Finish::Apex(p) => p.y,
        })
        .fold(lowest + 18.0, f64::max);
    // ... and below the level ground that they lead up to.
    let level = piece.tracks.iter().filter(|t| t.line == Line::Level);
    let base = level.map(|t| on_surface(t, t.rear).y + 16.0).fold(base, f64::max);
    let tracks = piece.tracks.clone();
    // What has landed lies on the floor of the table, if it hangs low enough.
    let deepest = tracks.iter().filter(|t| t.line == Line::Level).map(|t| t.rear.y + 60.0);
    let deepest = deepest.chain([lowest]).fold(f64::NEG_INFINITY, f64::max);
    let landed = |t: &&Track| lies_on_floor(setting, t) && t.bounds.high.y > deepest - 1.0;
    let floor = tracks.iter().find(landed).map(|t| t.bounds.high.y);
    for track in &tracks {
        let (rear, front) = (on_surface(track, track.rear), on_surface(track, track.front));
        match track.line {
            Line::Vertical if floor == Some(track.bounds.high.y) && tracks.iter().any(has_table) => {}
            Line::Vertical => stand_or_cable(setting, piece, track),
            Line::Level => match (track.rear_finish, track.front_finish) {
                (Finish::Open, Finish::Open) if hangs.is_empty() || track.chain != first_chain(&tracks) => {
                    let (left, right) = (track.beyond_rear.max(24.0), track.beyond_front.max(40.0));
                    scenery::ground(&mut piece.back, rear - at(left, 0.0), front + at(right, 0.0));
                }
                (Finish::Apex(apex), _) => plateau(piece, apex, front + at(40.0, 0.0), base),
                (_, Finish::Apex(apex)) => plateau(piece, rear - at(24.0, 0.0), apex, base),
                (one, two) => {
                    let edge = |f: Finish, open: Point| if let Finish::Edge(p) = f { p } else { open };
                    let left = edge(one, rear - at(track.beyond_rear.max(34.0), 0.0));
                    let right = edge(two, front + at(track.beyond_front.max(34.0), 0.0));
                    let floor = floor.unwrap_or(lowest.max(rear.y + 60.0) + 24.0);
                    scenery::table(&mut piece.back, left.x, right.x, rear.y, floor);
                    let far =
                        hangs.iter().fold((left.x, right.x), |(l, r), b| (l.min(b.low.x), r.max(b.high.x)));
                    scenery::ground(&mut piece.back, at(far.0 - 14.0, floor), at(far.1 + 14.0, floor));
                }
            },
            Line::Slope { angle, .. } => {
                let low = match track.rear_finish {
                    Finish::Edge(p) | Finish::Apex(p) => p,
                    Finish::Open => {
                        let natural = foot(track);
                        let steep = track.frame.u.y.abs().max(0.1);
                        natural - track.frame.u * ((base - natural.y) / steep).clamp(0.0, 330.0)
                    }
                };
                let (high, face) = match track.front_finish {
                    Finish::Open => {
                        let length = (front - low).dot(track.frame.u) + BEYOND.max(track.beyond_front);
                        (low + track.frame.u * length.max(least_length(setting, track)), false)
                    }
                    Finish::Edge(p) => (p, true),
                    Finish::Apex(p) => (p, false),
                };
                scenery::wedge(&mut piece.back, low, high, base, face);
                scenery::slope_angle(
                    &mut piece.back,
                    low,
                    track.frame,
                    label::angle(setting.situation, angle),
                );
                if !hangs.is_empty() {
                    let ends = hangs.iter().fold((low.x.min(high.x), low.x.max(high.x)), |(l, r), b| {
                        (l.min(b.low.x), r.max(b.high.x))
                    });
                    scenery::ground(&mut piece.back, at(ends.0 - 14.0, base), at(ends.1 + 14.0, base));
                }
            }
        }
    }
}

/// The surface of a slope with nothing beyond its upper end goes on so far behind its foremost body.
const BEYOND: f64 = 34.0;

/// The length that a slope needs so that its angle can be marked under it.
pub(crate) fn least_length(setting: &Setting<'_>, track: &Track) -> f64 {
    let Line::Slope { angle, .. } = track.line else { return 0.0 };
    let text = label::angle(setting.situation, angle);
    scenery::angle_run(track.frame, &text) / track.frame.u.x.abs().max(0.1)
}

fn first_chain(tracks: &[Track]) -> usize {
    tracks.first().map_or(0, |t| t.chain)
}

/// Level ground that ends where a slope begins.
fn plateau(piece: &mut Piece, left: Point, right: Point, base: f64) {
    let points = vec![left, right, at(right.x, base), at(left.x, base)];
    piece.back.add_hollow("ground", Pen { width: 0.0, ..FINE }, Mark::Path { points, fill: Some(STONE) });
    piece.back.line("ground", OUTLINE, left, right);
    piece.back.line("ground", FINE, at(left.x, base), at(right.x, base));
}

/// Does a chain stand on a table, with an edge over which something hangs?
fn has_table(track: &Track) -> bool {
    let edge = |f: Finish| matches!(f, Finish::Edge(_));
    let apex = |f: Finish| matches!(f, Finish::Apex(_));
    let (one, two) = (track.rear_finish, track.front_finish);
    track.line == Line::Level && (edge(one) || edge(two)) && !apex(one) && !apex(two)
}

/// Has the lowest body of a vertical chain landed?
fn lies_on_floor(setting: &Setting<'_>, track: &Track) -> bool {
    let lowest = setting.plan.chains.get(track.chain).and_then(|c| c.bodies.first());
    let kept = lowest.and_then(|b| told::kept(setting.situation, setting.stage, *b));
    track.line == Line::Vertical && matches!(kept, Some(Kept::Landed(_)))
}

/// Under a vertical chain: the ground, if it stands on something or has landed.
fn stand_or_cable(setting: &Setting<'_>, piece: &mut Piece, track: &Track) {
    let lowest = setting.plan.chains.get(track.chain).and_then(|c| c.bodies.first());
    let stands = lowest.and_then(|b| setting.situation.body(*b)).is_some_and(|b| b.surface.is_some());
    if stands || lies_on_floor(setting, track) {
        // What hangs beside it must stay clear of its floor.
        let half = if track.hangs { track.bounds.width() / 2.0 } else { track.half_breadth + 26.0 };
        let half = at(half, 0.0);
        scenery::ground(&mut piece.back, track.rear - half, track.rear + half);
    }
}
