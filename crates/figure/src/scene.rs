//! The situation drawn: what there is, what joins it, and how it moves.

use crate::chain::Plan;
use crate::diagram::{self, Core, Prefer};
use crate::drawing::*;
use crate::figure::Figure;
use crate::frame::Angles;
use crate::geometry::{Point, at};
use crate::glyph::{NAME, Shape, Spot};
use crate::label::{self, Acceleration};
use crate::scenery::REMARK;
use crate::text::Text;
use crate::told::{self, Kept};
use crate::track::{Setting, Track};
use crate::{footing, story};
use model::{Direction, Form, Line, Role, Situation, Stage, StageId, State};
use motion::Solved;
use std::collections::{BTreeMap, BTreeSet};

/// The situation drawn: ground, table, slope, pulleys, strings, bodies with names and masses, and the
/// acceleration as a double-headed arrow. Without `solved` the first stage is drawn as the question tells it.
pub fn scene(situation: &Situation, solved: Option<&Solved>) -> Figure {
    let stage_id = solved.map_or(StageId(0), |s| s.stage);
    let part = solved.map_or(0, |s| s.part);
    let angles = Angles::of(situation);
    let (links, loose) = told::links(situation, stage_id, solved);
    let plan = Plan::of(situation, &links, loose);
    let stage = situation.stage(stage_id);
    let facing = facing(situation, stage, &plan);
    let setting = Setting { situation, plan: &plan, angles: &angles, part, stage: stage_id, facing };

    let mut drawing = Drawing::default();
    let mut tracks: Vec<(Track, Point)> = Vec::new();
    let mut spots: Vec<Spot> = Vec::new();
    let mut right: Option<f64> = None;
    let mut done = BTreeSet::new();
    for root in roots(&plan) {
        if done.contains(&root) {
            continue;
        }
        let mut piece = setting.build(root);
        done.extend(piece.tracks.iter().map(|t| t.chain));
        footing::finish(&setting, &mut piece);
        let mut whole = Drawing::default();
        for layer in [&piece.back, &piece.strings, &piece.wheels, &piece.cast.drawing] {
            whole.take_in(layer.clone(), at(0.0, 0.0));
        }
        let b = whole.bounds();
        let by = at(right.map_or(0.0, |r| r + 50.0 - b.low.x), -b.high.y);
        drawing.take_in(whole, by);
        tracks.extend(piece.tracks.into_iter().map(|t| (t, by)));
        spots.extend(piece.cast.spots.into_iter().map(|s| Spot { centre: s.centre + by, ..s }));
        right = Some(b.high.x + by.x);
    }
    if let Some(stage) = stage {
        pulls(&mut drawing, &setting, stage_id, stage, &tracks, &spots);
    }
    remarks(&mut drawing, &setting, &tracks, &spots);
    for (track, by) in &tracks {
        motion(&mut drawing, &setting, stage, solved, track, *by);
    }
    let description = story::describe(&setting, &links, stage, solved);
    let prefix = format!("s{}p{}-scene-", stage_id.0, part);
    Figure::new(drawing, "The situation", told::phrase(situation, stage_id), &description, "", prefix)
}

/// Chains to start from: what stands on the level first, then slopes, then what hangs; within each the one
/// with the most strings over pulleys.
fn roots(plan: &Plan) -> Vec<usize> {
    let mut order: Vec<usize> = (0..plan.chains.len()).collect();
    order.sort_by_key(|&i| {
        let strings = plan
            .over
            .iter()
            .filter(|(_, ends)| ends.iter().any(|e| plan.chain_of(e.body) == Some(i) && e.times == 1))
            .count();
        // What hangs from a pulley that moves comes after that pulley.
        let below = plan.over.iter().any(|(_, ends)| {
            let own = |e: &model::End| plan.chain_of(e.body) == Some(i);
            ends.iter().any(own) && ends.iter().any(|e| e.sense < 0 && e.times > 1 && !own(e))
        });
        let rank = match plan.chains.get(i).map(|c| c.line) {
            Some(Line::Level) => 0,
            Some(Line::Slope { .. }) => 1,
            _ => 2,
        };
        (below, rank, std::cmp::Reverse(strings), i)
    });
    order
}

/// Which way the vehicles of each chain face: the way they go, else engine first.
fn facing(situation: &Situation, stage: Option<&Stage>, plan: &Plan) -> BTreeMap<usize, f64> {
    let mut facing = BTreeMap::new();
    for (i, chain) in plan.chains.iter().enumerate() {
        let form = |b: Option<&model::BodyId>| b.and_then(|b| situation.body(*b)).map(|b| b.form);
        let engine = |b| form(b) == Some(Form::Vehicle);
        let heading = stage.and_then(|s| s.heading).filter(|h| chain.bodies.contains(&h.body));
        let backwards = match heading {
            Some(h) => h.sense < 0,
            None => engine(chain.bodies.first()) && !engine(chain.bodies.last()),
        };
        facing.insert(i, if backwards { -1.0 } else { 1.0 });
    }
    facing
}

/// Cables and pulls from outside, where they have a free end of the chain.
fn pulls(
    drawing: &mut Drawing,
    setting: &Setting<'_>,
    stage_id: StageId,
    stage: &Stage,
    tracks: &[(Track, Point)],
    spots: &[Spot],
) {
    let situation = setting.situation;
    for (id, action) in situation.actions_in(stage_id) {
        if !matches!(action.role, Role::Cable | Role::Applied | Role::Other) {
            continue;
        }
        let chain = setting.plan.chain_of(action.on);
        let Some((track, by)) = tracks.iter().find(|(t, _)| Some(t.chain) == chain) else { continue };
        let Some(spot) = spots.iter().find(|s| s.body == action.on) else { continue };
        let bodies = setting.plan.chains.get(track.chain).map_or(&[][..], |c| c.bodies.as_slice());
        let (sense, tilt) = match action.direction {
            Direction::Along(s) => (f64::from(s), 0.0),
            Direction::At { sense, angle, lifts } => {
                let size = setting.angles.drawn(angle);
                (f64::from(sense), if lifts { size } else { -size })
            }
            Direction::Opposing => continue,
        };
        let rides = setting.plan.carried_by.contains_key(&action.on);
        let is_front = rides || bodies.last() == Some(&action.on);
        let is_rear = rides || bodies.first() == Some(&action.on);
        let along = track.frame.u * sense;
        let way = along * tilt.cos() + track.frame.n * tilt.sin();
        let (free, other_end) = if sense > 0.0 { (is_front, is_rear) } else { (is_rear, is_front) };
        let (front, rear) = match rides {
            true => track.ends_of(spot),
            false => (track.front + *by, track.rear + *by),
        };
        let (end, start) = if sense > 0.0 { (front, rear) } else { (rear, front) };
        let group = format!("action-{}", id.0);
        let size =
            stage.forces.get(id.0).map(|q| label::quantity(situation, *q, setting.part)).unwrap_or_default();
        let cable = action.role == Role::Cable;
        let (from, to) = if free && (tilt >= 0.0 || !other_end) {
            // A pull leaves the end; it leaves a steep side from further up.
            let lift = if tilt > 0.0 { track.frame.n * (spot.half_height * 0.4) } else { at(0.0, 0.0) };
            (end + lift, end + lift + way * if cable { 62.0 } else { 54.0 })
        } else if other_end {
            let lift = if tilt < 0.0 { track.frame.n * (spot.half_height * 0.4) } else { at(0.0, 0.0) };
            (start + lift - way * 56.0, start + lift - way * 3.0)
        } else {
            continue;
        };
        // Where another pull is drawn already, this one goes beside it.
        let u = way.left() * 4.0;
        let beside = [0.0, 0.6, -0.6].map(|k| track.frame.n * (spot.half_height * k));
        let free_at = beside.into_iter().find(|by| {
            let (a, b) = (from + *by + way * 4.0, to + *by - way * 4.0);
            drawing.is_free(&[a + u, b + u, b - u, a - u], 0.0)
        });
        let Some(by) = free_at else { continue };
        let (from, to) = (from + by, to + by);
        if cable && tilt == 0.0 && free {
            drawing.line(&group, STRING, from, to);
            let wave: Vec<Point> = [(-7.0, 2.5), (-2.3, -2.5), (2.3, 2.5), (7.0, -2.5)]
                .iter()
                .map(|(s, w)| to + way.left() * *s + way * *w)
                .collect();
            drawing.add(&group, OUTLINE, Mark::Path { points: wave, fill: None });
            continue;
        }
        drawing.add(&group, OUTLINE, Mark::Arrow { from, to, head: Head::Open });
        let away = if free { to + way * 16.0 } else { from - way * 16.0 };
        let set = |p: Point| Label::centred(size.clone(), p, NAME);
        let half = size.width(NAME) / 2.0 * way.x.abs();
        let beyond = away + way * if free { half } else { -half };
        let middle = (from + to) * 0.5;
        let places = [set(beyond), set(middle + track.frame.n * 16.0), set(middle - track.frame.n * 16.0)];
        drawing.place(&group, set(beyond), &places, away);
    }
}

/// Masses that found no room, and what is said of the surfaces.
fn remarks(drawing: &mut Drawing, setting: &Setting<'_>, tracks: &[(Track, Point)], spots: &[Spot]) {
    for spot in spots {
        let Some(text) = spot.outside.clone() else { continue };
        let group = format!("body-{}", spot.body.0);
        let half = at(text.width(REMARK) / 2.0, 9.0);
        let n = spot.u.left();
        let set = |p: Point| Label::centred(text.clone(), p, REMARK);
        let right = set(spot.centre + at(spot.half_length + half.x + 7.0, 0.0));
        let left = set(spot.centre - at(spot.half_length + half.x + 7.0, 0.0));
        let above = set(spot.centre + n * (spot.half_height + 12.0));
        let below = set(spot.centre + at(0.0, spot.half_height + 14.0));
        let upright = setting.situation.body(spot.body).is_some_and(|b| b.line == Line::Vertical);
        let places = match (spot.shape, upright) {
            (Shape::Cage, _) => [below, right, left, above],
            (_, true) => [right, left, below, above],
            (_, false) => [above, below, right, left],
        };
        let label = set(spot.centre);
        drawing.place(&group, label, &places, spot.centre);
    }
    for spot in spots {
        let under = setting.situation.body(spot.body).and_then(|b| b.surface.as_ref()?.under);
        let Some(text) = under.and_then(|_| story::grip(setting, spot.body)) else { continue };
        let n = spot.u.left();
        let half = at(text.width(REMARK) / 2.0 + 8.0, 0.0);
        let set = |p: Point| Label::centred(text.clone(), p, REMARK);
        let edge =
            |side: f64| spot.centre - n * (spot.half_height - 10.0) + spot.u * (side * spot.half_length);
        let places =
            [set(edge(1.0) + half), set(edge(-1.0) - half), set(spot.centre + n * (spot.half_height + 12.0))];
        drawing.place("surface", set(spot.centre), &places, spot.centre);
    }
    for spot in spots {
        let remark = match told::kept(setting.situation, setting.stage, spot.body) {
            Some(Kept::Held) => "held".to_owned(),
            Some(Kept::Stopped(at)) => format!("at {}", Text::cut(&at, 12.0)),
            _ => continue,
        };
        let text = Text::upright(remark);
        let n = spot.u.left();
        let half = at(text.width(REMARK) / 2.0 + 7.0, 0.0);
        let set = |p: Point| Label::centred(text.clone(), p, REMARK);
        let places = [
            set(spot.centre + n * (spot.half_height + 12.0)),
            set(spot.centre + at(spot.half_length, 0.0) + half),
            set(spot.centre - at(spot.half_length, 0.0) - half),
            set(spot.centre + at(0.0, spot.half_height + 14.0)),
        ];
        drawing.place(&format!("body-{}", spot.body.0), set(spot.centre), &places, spot.centre);
    }
    for (track, _) in tracks {
        let mut said: Vec<(String, Text, Point)> = Vec::new();
        let bodies = setting.plan.chains.get(track.chain).map_or(&[][..], |c| c.bodies.as_slice());
        for body in bodies {
            let Some(spot) = spots.iter().find(|s| s.body == *body) else { continue };
            let Some(text) = story::grip(setting, *body) else { continue };
            if said.iter().all(|s| s.0 != text.plain()) {
                said.push((text.plain(), text, spot.centre - spot.u.left() * spot.half_height));
            }
        }
        for (_, text, foot) in said {
            let middle = match track.line {
                Line::Slope { .. } => {
                    let base = drawing.bounds().high.y;
                    at(foot.x, foot.y.max(base - 40.0))
                }
                _ => foot,
            };
            let set = |p: Point| Label::centred(text.clone(), p, REMARK);
            let under = at(middle.x, drawing.bounds().high.y + 14.0);
            let places = [set(middle + at(0.0, 22.0)), set(middle + at(0.0, 30.0)), set(under)];
            drawing.place("surface", set(middle), &places, middle + at(0.0, 24.0));
        }
    }
}

/// Acceleration of a chain, and its direction of motion where that differs or there is none.
fn motion(
    drawing: &mut Drawing,
    setting: &Setting<'_>,
    stage: Option<&Stage>,
    solved: Option<&Solved>,
    track: &Track,
    by: Point,
) {
    let Some(chain) = setting.plan.chains.get(track.chain) else { return };
    let Some(body) = chain.bodies.last().copied() else { return };
    let acceleration: Option<Acceleration> = match (solved, stage) {
        (Some(solved), _) => label::acceleration(setting.situation, solved, body),
        (None, Some(stage)) => {
            chain.bodies.iter().find_map(|b| label::told_acceleration(setting.situation, stage, *b))
        }
        (None, None) => None,
    };
    let core = Core {
        centre: track.bounds.centre() + by,
        u: if track.line == Line::Vertical { at(1.0, 0.0) } else { track.frame.u },
        half_width: if track.line == Line::Vertical {
            track.bounds.width() / 2.0
        } else {
            (track.front - track.rear).length() / 2.0
        },
        half_height: if track.line == Line::Vertical {
            track.bounds.height() / 2.0
        } else {
            track.half_breadth
        },
        round: 0.0,
    };
    let prefer = if track.side < 0.0 { Prefer::Below } else { Prefer::Above };
    let heading = stage.and_then(|s| s.heading).filter(|h| chain.bodies.contains(&h.body));
    let moving = stage.is_some_and(|s| matches!(s.state, State::Moving | State::Steady));
    let against = match (&acceleration, heading) {
        (Some(a), Some(h)) => a.sense * f64::from(h.sense) < 0.0,
        (None, Some(_)) => true,
        (_, None) => false,
    };
    if let (Some(h), true, true) = (heading, moving, against) {
        let text = Text::upright("motion");
        let (from, to, label) =
            diagram::beside(drawing, core, track.frame.u * f64::from(h.sense), &text, prefer);
        let group = format!("motion-{}", body.0);
        drawing.add(&group, FINE, Mark::Arrow { from, to, head: Head::Open });
        drawing.write(&group, label);
    }
    if let Some(a) = acceleration {
        diagram::accelerate(drawing, &format!("acceleration-{}", body.0), core, track.frame.u, &a, prefer);
    }
}
