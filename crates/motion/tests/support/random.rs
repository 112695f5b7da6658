//! Situations drawn by lot: bodies on lines, joined by strings, rods, contacts, movable pulleys and strings
//! with three ends, in trees and now and then in a ring; and what is known of them without `motion`.

use super::lots::Lots;
use super::{ratio, tan};
use exact::{Angle, Value};
use model::{
    BodyId, Builder, Direction, End, Form, Grip, Holds, Line, Link, LinkId, QuantityId, Role, Situation,
    Stage, StageId, State,
};
use std::fmt::Write as _;

/// What is drawn.
#[derive(Clone, Copy)]
pub struct Rules {
    /// The most bodies.
    pub bodies: usize,
    /// Of a hundred level or sloping surfaces, so many are rough.
    pub rough: usize,
    /// Of a hundred situations, so many are moving already when the stage begins.
    pub moving: usize,
    /// Of a hundred trees of links, so many have a further link that closes a ring.
    pub rings: usize,
    /// Of a hundred links over a pulley, so many have three ends.
    pub three_ends: usize,
}

/// A situation drawn by lot, with one stage.
pub struct Drawn {
    pub situation: Situation,
    /// Do its links close a ring? Then tensions may be undetermined.
    pub ring: bool,
}

/// Draws the situation that belongs to a seed.
pub fn draw(seed: u64, rules: Rules) -> Drawn {
    let mut lots = Lots::new(seed);
    let mut b = Builder::new();
    if lots.percent(30) {
        b.gravity(10.into());
    }
    let moving = lots.percent(rules.moving);
    let count = 1 + lots.below(rules.bodies);
    for i in 0..count {
        body(&mut b, &mut lots, i, rules);
    }
    let ring = links(&mut b, &mut lots, count, rules, moving);
    let sizes = actions(&mut b, &mut lots, count);
    let stage = b.stage(if moving { State::Moving } else { State::Released });
    for (action, size) in sizes {
        b.size(stage, action, size);
    }
    if moving {
        let sense = lots.sense();
        b.heading(stage, BodyId(0), sense);
    }
    Drawn { situation: b.finish(), ring }
}

fn body(b: &mut Builder, lots: &mut Lots, i: usize, rules: Rules) {
    let line = match lots.below(10) {
        0..4 => Line::Vertical,
        4..7 => Line::Level,
        _ => {
            let angle = match lots.below(7) {
                0 => tan(3, 4),
                1 => tan(4, 3),
                2 => tan(5, 12),
                3 => Angle::Sin(ratio(7, 25)),
                4 => Angle::Degrees(30.into()),
                5 => Angle::Degrees(45.into()),
                _ => Angle::Degrees(60.into()),
            };
            Line::Slope { angle: b.angle("α", angle), rises_right: true }
        }
    };
    let mass = ratio(lots.between(1, 40), lots.of(&[1, 2, 4, 5]));
    let name = format!("load {}", i + 1);
    let id = b.body(&name, "", Form::Block, line, Some(mass));
    if line != Line::Vertical {
        let grip = match lots.percent(rules.rough) {
            true => {
                let mu = ratio(lots.between(1, 20), 20);
                Grip::Rough(b.coefficient(Some(mu)))
            }
            false => Grip::Smooth,
        };
        b.surface(id, "the ground", grip);
    }
}

/// Joins most bodies to one before them, so that links make trees.
fn links(b: &mut Builder, lots: &mut Lots, count: usize, rules: Rules, moving: bool) -> bool {
    let mut next = 1;
    while next < count {
        let earlier = lots.below(next);
        if !moving && lots.percent(12) {
            next += 1; // a body by itself
            continue;
        }
        // Which way three ends move does not follow from one of them, so they are drawn at rest only.
        if !moving && next + 1 < count && lots.percent(rules.three_ends) {
            join(b, lots, &[earlier, next, next + 1]);
            next += 2;
        } else {
            join(b, lots, &[earlier, next]);
            next += 1;
        }
    }
    let ring = count > 2 && lots.percent(rules.rings);
    if ring {
        let one = lots.below(count);
        let other = (one + 1 + lots.below(count - 1)) % count;
        join(b, lots, &[one, other]);
    }
    ring
}

fn join(b: &mut Builder, lots: &mut Lots, bodies: &[usize]) {
    let line = |i: usize| b.situation().bodies[i].line;
    let alike = bodies.len() == 2 && line(bodies[0]) == line(bodies[1]);
    let holds = match lots.below(10) {
        0..6 => Holds::Pull,
        6..8 => Holds::Push,
        _ => Holds::PullOrPush,
    };
    let in_line = alike && lots.percent(50) || bodies.len() == 2 && holds == Holds::Push;
    let turn = lots.sense();
    let ends: Vec<End> = bodies
        .iter()
        .enumerate()
        .map(|(at, &i)| End {
            body: BodyId(i),
            sense: if in_line && at == 1 { -turn } else { turn },
            times: if !in_line && lots.percent(25) { lots.of(&[2, 2, 2, 3]) } else { 1 },
        })
        .collect();
    let name = format!("link {}", b.situation().links.len() + 1);
    let id = b.link(&name, holds, holds == Holds::Push, &[]);
    if let Some(link) = b.situation_mut().links.get_mut(id.0) {
        link.ends = ends;
    }
}

fn actions(b: &mut Builder, lots: &mut Lots, count: usize) -> Vec<(model::ActionId, Value)> {
    let mut sizes = Vec::new();
    for i in 0..count {
        if !lots.percent(35) {
            continue;
        }
        let sense = lots.sense();
        let direction = match lots.below(4) {
            0 => {
                let angle = b.angle("β", {
                    let (rise, run) = lots.of(&[(3, 4), (7, 24), (8, 15)]);
                    tan(rise, run)
                });
                Direction::At { sense, angle, lifts: lots.percent(50) }
            }
            _ => Direction::Along(sense),
        };
        let name = format!("pull {}", i + 1);
        let id = b.act(Role::Applied, &name, BodyId(i), direction);
        sizes.push((id, ratio(lots.between(1, 120), lots.of(&[1, 2]))));
    }
    sizes
}

/// What the situation says of one body, worked out here and not by `motion`: all counted in the body's
/// own positive sense.
pub struct Loaded {
    /// Its mass.
    pub mass: Value,
    /// The sum of its weight's share and the named forces along its line.
    pub drive: Value,
    /// The normal reaction of its surface; zero where it hangs.
    pub reaction: Value,
    /// The greatest friction: μR; zero where it is smooth.
    pub limit: Value,
}

fn known(situation: &Situation, id: QuantityId) -> Value {
    situation.known(id, 0).cloned().expect("drawn with a value")
}

/// The loads on every body in the first stage.
pub fn loads(situation: &Situation) -> Vec<Loaded> {
    let g = known(situation, situation.gravity.expect("g"));
    let stage = &situation.stages[0];
    let sin_cos = |id: QuantityId| {
        let angle = &situation.angles[&id];
        (angle.sin().expect("a sine"), angle.cos().expect("a cosine"))
    };
    let mut all = Vec::new();
    for (i, body) in situation.bodies.iter().enumerate() {
        let mass = known(situation, body.mass);
        let weight = &mass * &g;
        let (mut drive, mut reaction) = match body.line {
            Line::Vertical => (-&weight, Value::zero()),
            Line::Level => (Value::zero(), weight.clone()),
            Line::Slope { angle, .. } => (-(&weight * &sin_cos(angle).0), &weight * &sin_cos(angle).1),
        };
        for (j, action) in situation.actions.iter().enumerate().filter(|(_, a)| a.on == BodyId(i)) {
            let size = known(situation, stage.forces[j]);
            match action.direction {
                Direction::Along(sense) => drive += signed(sense, &size),
                Direction::At { sense, angle, lifts } => {
                    let (sine, cosine) = sin_cos(angle);
                    drive += signed(sense, &(&size * &cosine));
                    if body.line != Line::Vertical {
                        reaction += signed(if lifts { -1 } else { 1 }, &(&size * &sine));
                    }
                }
                Direction::Opposing => unreachable!("not drawn"),
            }
        }
        let mu = match body.surface.as_ref().map(|s| s.grip) {
            Some(Grip::Rough(mu)) => known(situation, mu),
            _ => Value::zero(),
        };
        let limit = &mu * &reaction;
        all.push(Loaded { mass, drive, reaction, limit });
    }
    all
}

/// A value, or its opposite.
pub fn signed(sense: i8, value: &Value) -> Value {
    if sense < 0 { -value } else { value.clone() }
}

/// A plain number as a float.
pub fn float(value: &Value) -> f64 {
    value.to_f64().expect("a number")
}

/// The acceleration of a body in its own positive sense.
pub fn acceleration(solved: &motion::Solved, body: usize) -> Option<Value> {
    solved.acceleration(BodyId(body)).map(|a| signed(solved.senses[body], a))
}

/// The force of a link, a thrust counted negative.
pub fn force_of(situation: &Situation, solved: &motion::Solved, link: usize) -> Option<Value> {
    let value = solved.value(situation.stages[solved.stage.0].links[link])?;
    let thrust = situation.links[link]
        .ends
        .first()
        .and_then(|end| solved.link_force(LinkId(link), end.body))
        .is_some_and(|f| f.thrust);
    Some(signed(if thrust { -1 } else { 1 }, value))
}

/// How a link's ends come nearer (a string goes slack): the sum of sense × times × acceleration.
pub fn closing(link: &Link, accelerations: &[Value]) -> Value {
    link.ends
        .iter()
        .map(|e| signed(e.sense, &accelerations[e.body.0]) * Value::from_int(i64::from(e.times)))
        .sum()
}

/// A situation on a few lines, for the report of a failure.
pub fn describe(situation: &Situation) -> String {
    let mut text = String::new();
    let value = |id: QuantityId| situation.known(id, 0).map_or("?".to_owned(), ToString::to_string);
    let _ = writeln!(text, "g = {}", situation.gravity.map_or("?".to_owned(), value));
    for (i, body) in situation.bodies.iter().enumerate() {
        let line = match body.line {
            Line::Slope { angle, .. } => format!("slope {:?}", situation.angles.get(&angle)),
            other => format!("{other:?}"),
        };
        let grip = match body.surface.as_ref().map(|s| s.grip) {
            Some(Grip::Rough(mu)) => format!("rough {}", value(mu)),
            other => format!("{other:?}"),
        };
        let _ = writeln!(text, "body {i}: mass {}, {line}, {grip}", value(body.mass));
    }
    for link in &situation.links {
        let ends: Vec<_> = link.ends.iter().map(|e| (e.body.0, e.sense, e.times)).collect();
        let _ = writeln!(text, "{}: {:?} {ends:?}", link.name, link.holds);
    }
    for stage in &situation.stages {
        let Stage { state, heading, .. } = stage;
        let _ = writeln!(text, "stage: {state:?}, heading {heading:?}");
        for (j, action) in situation.actions.iter().enumerate() {
            let _ =
                writeln!(text, "on body {}: {} {:?}", action.on.0, value(stage.forces[j]), action.direction);
        }
    }
    text
}

/// The one stage of a drawn situation, solved.
pub fn solve(drawn: &Drawn) -> Result<motion::Solved, String> {
    match motion::solve(&drawn.situation, StageId(0), 0) {
        Ok(solved) => match motion::check(&drawn.situation, &solved) {
            Ok(()) => Ok(solved),
            Err(why) => Err(format!("not proved: {why}")),
        },
        Err(refusals) => Err(refusals.iter().map(|d| d.message.as_str()).collect::<Vec<_>>().join("; ")),
    }
}
