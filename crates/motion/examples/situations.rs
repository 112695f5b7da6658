//! Two hundred situations drawn from seeds, as lines of JSON: what is told of each, raw, and what `motion` finds.
//! `tests/oracle/rederive.py` reads them and works all of it out again.
//!
//! Sizes are plain algebra. What has a direction counts along the line of its body: right, up, up the slope.

#![allow(clippy::expect_used, reason = "an example that cannot be set up should stop")]

#[path = "../tests/support/mod.rs"]
mod support;

use exact::Value;
use model::{
    BodyId, Builder, Direction, Form, Grip, Holds, Kind, Line, QuantityId, Role, Situation, StageId, State,
};
use motion::{ForceKind, FrictionState, LinkState, Solved};
use serde_json::{Value as Json, json};
use support::lots::Lots;
use support::random::{Rules, acceleration, draw, force_of, signed};
use support::{World, ratio};

/// A situation, and the one quantity that is wanted in place of an acceleration, if there is one.
struct Posed {
    situation: Situation,
    wanted: Option<QuantityId>,
}

/// Draws what belongs to a seed.
type Pose = fn(u64) -> Option<Posed>;

fn main() {
    let sorts: [(&str, usize, Pose); 4] = [
        ("numbers", 80, numbers),
        ("trains", 30, train),
        ("letters", 60, letters),
        ("turned round", 30, turned),
    ];
    for (sort, count, pose) in sorts {
        let lines = (0..20_000).filter_map(|seed| line(sort, seed, &pose(seed)?));
        for line in lines.take(count) {
            println!("{line}");
        }
    }
}

/// A line of JSON, where `motion` has an answer.
fn line(sort: &str, seed: u64, posed: &Posed) -> Option<Json> {
    let solved = solved(&posed.situation)?;
    Some(json!({
        "name": format!("{sort} {seed}"),
        "told": told(posed),
        "found": found(posed, &solved),
    }))
}

fn solved(situation: &Situation) -> Option<Solved> {
    let solved = motion::solve(situation, StageId(0), 0).ok()?;
    motion::check(situation, &solved).ok()?;
    Some(solved)
}

// What is posed ---------------------------------------------------------------------------------------------------

/// Chains of all sorts in numbers: pulleys, movable ones too, slopes, rough ground, rods, contacts, pulls at an angle.
fn numbers(seed: u64) -> Option<Posed> {
    let drawn = draw(seed, Rules { bodies: 5, rough: 45, moving: 35, rings: 0, three_ends: 15 });
    (drawn.situation.bodies.len() > 1).then_some(Posed { situation: drawn.situation, wanted: None })
}

/// Trucks behind an engine, on the level or up a slope, each with its resistance.
fn train(seed: u64) -> Option<Posed> {
    let mut lots = Lots::new(seed ^ 0x7124);
    let mut w = World::new();
    let line = match lots.percent(50) {
        true => Line::Level,
        false => {
            let sine = exact::Angle::Sin(ratio(1, lots.of(&[10, 14, 20, 49])));
            Line::Slope { angle: w.b.angle("α", sine), rises_right: true }
        }
    };
    let count = 2 + lots.below(3);
    let mut sizes = Vec::new();
    for i in 0..count {
        let form = if i == 0 { Form::Vehicle } else { Form::Trailer };
        let body = w.form(&format!("truck {}", i + 1), form, line, (100 * lots.between(4, 30)).into());
        if i > 0 {
            let front = w.bodies[i - 1];
            w.b.tow(&format!("coupling {i}"), front, body);
        }
        let resistance =
            w.b.act(Role::Resistance, &format!("resistance {}", i + 1), body, Direction::Opposing);
        sizes.push((resistance, 50 * lots.between(1, 9)));
    }
    let (role, sense) = if lots.percent(60) { (Role::Driving, 1) } else { (Role::Braking, -1) };
    let force = w.b.act(role, "the force at the front", w.bodies[0], Direction::Along(sense));
    sizes.push((force, 250 * lots.between(2, 30)));
    let stage = w.stage(State::Moving);
    for (action, size) in sizes {
        w.b.size(stage, action, size.into());
    }
    w.b.heading(stage, w.bodies[0], 1);
    Some(Posed { situation: w.finish().situation, wanted: None })
}

/// The same with masses in m, weights in g, and now and then a coefficient μ, a mass km or a force F.
fn letters(seed: u64) -> Option<Posed> {
    let rules = Rules { bodies: 4, rough: 50, moving: 60, rings: 0, three_ends: 10 };
    let mut situation = draw(seed ^ 0x5_0000, rules).situation;
    let mut lots = Lots::new(seed ^ 0x1E77);
    if situation.bodies.len() < 2 {
        return None;
    }
    let [m, g, k, mu, f] = ["m", "g", "k", "μ", "F"].map(Value::symbol);
    let further = [None, Some(("k", Kind::Number)), Some(("μ", Kind::Coefficient)), Some(("F", Kind::Force))];
    let further = lots.of(&further);
    let which = lots.below(situation.bodies.len());
    for body in 0..situation.bodies.len() {
        let letter = if further.is_some_and(|f| f.0 == "k") && body == which { &k * &m } else { m.clone() };
        let mass = situation.bodies[body].mass;
        rewrite(&mut situation, mass, |old| old * &letter)?;
        let grip = situation.bodies[body].surface.as_ref().map(|s| s.grip);
        if let (Some(Grip::Rough(id)), true) = (grip, further.is_some_and(|f| f.0 == "μ")) {
            rewrite(&mut situation, id, |_| mu.clone())?;
        }
    }
    let weight = &m * &g * ratio(1, 10);
    for id in situation.stages[0].forces.clone() {
        let unit = if further.is_some_and(|f| f.0 == "F") { &f } else { &weight };
        rewrite(&mut situation, id, |old| old * unit)?;
    }
    let gravity = situation.gravity?;
    rewrite(&mut situation, gravity, |_| g.clone())?;
    // The builder names what it holds anew, so that nothing else is called by one of these letters.
    let mut b = Builder::new();
    *b.situation_mut() = situation;
    for (letter, kind) in [("m", Kind::Mass), ("g", Kind::Gravity)].into_iter().chain(further) {
        b.open_letter(letter, kind);
    }
    let situation = b.finish();
    let written = |symbol: &str| {
        let has = |q: &model::Quantity| q.known.as_ref().is_some_and(|k| k.value.symbols().contains(symbol));
        situation.quantities.iter().any(has)
    };
    let sound = situation.check().is_empty() && situation.letters.iter().all(|l| written(&l.symbol));
    sound.then_some(Posed { situation, wanted: None })
}

fn rewrite(situation: &mut Situation, id: QuantityId, by: impl Fn(&Value) -> Value) -> Option<()> {
    let known = situation.quantities.get_mut(id.0)?.known.as_mut()?;
    known.value = by(&known.value);
    Some(())
}

/// An acceleration is told; a mass, a force or a coefficient is wanted.
fn turned(seed: u64) -> Option<Posed> {
    let mut lots = Lots::new(seed ^ 0xBAC4);
    let mut situation = match lots.percent(30) {
        true => train(seed ^ 0x9_0000)?.situation,
        false => {
            let rules = Rules { bodies: 4, rough: 50, moving: 60, rings: 0, three_ends: 0 };
            draw(seed ^ 0x9_0000, rules).situation
        }
    };
    if situation.bodies.len() < 2 {
        return None;
    }
    let before = solved(&situation)?;
    let held = before.case.links.iter().all(|l| *l == LinkState::Holding);
    let told = acceleration(&before, 0).filter(|a| held && !a.is_zero())?;
    let mut choices: Vec<QuantityId> = situation.bodies.iter().map(|b| b.mass).collect();
    choices.extend(&situation.stages[0].forces);
    for (body, state) in situation.bodies.iter().zip(&before.case.frictions) {
        if let (Some(Grip::Rough(mu)), FrictionState::Sliding) =
            (body.surface.as_ref().map(|s| s.grip), state)
        {
            choices.extend([mu; 4]);
        }
    }
    let wanted = lots.of(&choices);
    situation.quantities[wanted.0].known = None;
    let first = situation.stages[0].accelerations[0];
    situation.quantities[first.0].known = Some(model::Known {
        written: told.to_string(),
        value: told,
        basis: model::Basis::Given(model::Span::default()),
        from_part: 0,
    });
    let posed = Posed { situation, wanted: Some(wanted) };
    solved(&posed.situation)?.value(wanted)?;
    Some(posed)
}

// How it is written -----------------------------------------------------------------------------------------------

/// What the situation says, and nothing that follows from it.
fn told(posed: &Posed) -> Json {
    let situation = &posed.situation;
    let stage = &situation.stages[0];
    let size =
        |id: QuantityId| situation.known(id, 0).map_or_else(|| "wanted".to_owned(), ToString::to_string);
    let angle = |id: QuantityId| {
        let angle = &situation.angles[&id];
        json!({ "sin": angle.sin().expect("a sine").to_string(), "cos": angle.cos().expect("a cosine").to_string() })
    };
    let bodies = situation.bodies.iter().map(|body| {
        let (line, slope) = match body.line {
            Line::Vertical => ("vertical", Json::Null),
            Line::Level => ("level", Json::Null),
            Line::Slope { angle: id, .. } => ("slope", angle(id)),
        };
        let mu = match body.surface.as_ref().map(|s| s.grip) {
            Some(Grip::Rough(mu)) => json!(size(mu)),
            _ => Json::Null,
        };
        json!({ "mass": size(body.mass), "line": line, "angle": slope, "mu": mu })
    });
    let links = situation.links.iter().map(|link| {
        let holds = match link.holds {
            Holds::Pull => "pull",
            Holds::Push => "push",
            Holds::PullOrPush => "either",
        };
        let ends = link.ends.iter().map(|e| json!({ "body": e.body.0, "sense": e.sense, "times": e.times }));
        json!({ "holds": holds, "ends": ends.collect::<Vec<_>>() })
    });
    let actions = situation.actions.iter().zip(&stage.forces).map(|(action, force)| {
        let (way, sense, at) = match action.direction {
            Direction::Along(sense) => ("along", sense, Json::Null),
            Direction::Opposing => ("opposing", 0, Json::Null),
            Direction::At { sense, angle: id, lifts } => {
                (if lifts { "lifts" } else { "presses" }, sense, angle(id))
            }
        };
        json!({ "on": action.on.0, "size": size(*force), "way": way, "sense": sense, "angle": at })
    });
    let given =
        (0..situation.bodies.len()).map(|i| situation.known(stage.accelerations[i], 0).map(Value::to_string));
    json!({
        "g": situation.gravity.map(size),
        "letters": situation.letters.iter().map(|l| &l.symbol).collect::<Vec<_>>(),
        "heading": stage.heading.map(|h| json!({ "body": h.body.0, "sense": h.sense })),
        "accelerations": given.collect::<Vec<_>>(),
        "bodies": bodies.collect::<Vec<_>>(),
        "links": links.collect::<Vec<_>>(),
        "actions": actions.collect::<Vec<_>>(),
    })
}

/// What `motion` finds: what holds, and every value.
fn found(posed: &Posed, solved: &Solved) -> Json {
    let situation = &posed.situation;
    let stage = &situation.stages[0];
    let text = |value: Option<Value>| value.map(|v| v.to_string());
    let all = || 0..situation.bodies.len();
    let friction = |i: usize| {
        let value = solved.value(stage.frictions[i]?)?;
        let force = solved.forces_on(BodyId(i)).find(|f| f.kind == ForceKind::Friction);
        match force {
            Some(force) => Some(signed(force.along.sense(), value)),
            None => value.is_zero().then(Value::zero),
        }
    };
    let holds = |l: &LinkState| match l {
        LinkState::Holding => "holds",
        LinkState::Loose | LinkState::Absent => "loose",
    };
    let grips = |f: &FrictionState| match f {
        FrictionState::NoFriction => "none",
        FrictionState::Static => "rests",
        FrictionState::Limiting => "about to slip",
        FrictionState::Sliding => "slides",
    };
    json!({
        "links": solved.case.links.iter().map(holds).collect::<Vec<_>>(),
        "frictions": solved.case.frictions.iter().map(grips).collect::<Vec<_>>(),
        "moves": solved.case.moves,
        "senses": solved.senses,
        "values": {
            "acceleration": all().map(|i| text(acceleration(solved, i))).collect::<Vec<_>>(),
            "tension": (0..situation.links.len()).map(|l| text(force_of(situation, solved, l))).collect::<Vec<_>>(),
            "reaction": all().map(|i| text(solved.value(stage.reactions[i]?).cloned())).collect::<Vec<_>>(),
            "friction": all().map(|i| text(friction(i))).collect::<Vec<_>>(),
            "wanted": [text(posed.wanted.and_then(|id| solved.value(id).cloned()))],
        },
    })
}
