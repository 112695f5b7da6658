//! What the chains of a scene stand on: each surface as far as its chain and its pulleys ask for it.

use crate::drawing::*;
use crate::geometry::{Bounds, Point, at};
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
    let tracks = piece.tracks.clone();
    for track in &tracks {
        let (rear, front) = (on_surface(track, track.rear), on_surface(track, track.front));
        match track.line {
            Line::Vertical => stand_or_cable(setting, piece, track),
            Line::Level => match (track.rear_finish, track.front_finish) {
                (Finish::Open, Finish::Open) if hangs.is_empty() || track.chain != first_chain(&tracks) => {
                    scenery::ground(&mut piece.back, rear - at(24.0, 0.0), front + at(40.0, 0.0));
                }
                (Finish::Apex(apex), _) => plateau(piece, apex, front + at(40.0, 0.0), base),
                (_, Finish::Apex(apex)) => plateau(piece, rear - at(24.0, 0.0), apex, base),
                (one, two) => {
                    let edge = |f: Finish, open: Point| if let Finish::Edge(p) = f { p } else { open };
                    let left = edge(one, rear - at(34.0, 0.0));
                    let right = edge(two, front + at(34.0, 0.0));
                    let floor = lowest.max(rear.y + 60.0) + 24.0;
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
                        let length = (front - low).dot(track.frame.u) + BEYOND;
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
fn least_length(setting: &Setting<'_>, track: &Track) -> f64 {
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

/// Under a vertical chain that nothing holds: the ground, if it stands on something.
fn stand_or_cable(setting: &Setting<'_>, piece: &mut Piece, track: &Track) {
    let lowest = setting.plan.chains.get(track.chain).and_then(|c| c.bodies.first());
    let stands = lowest.and_then(|b| setting.situation.body(*b)).is_some_and(|b| b.surface.is_some());
    if stands {
        let half = at(track.half_breadth + 26.0, 0.0);
        scenery::ground(&mut piece.back, track.rear - half, track.rear + half);
    }
}
