//! Situations of Marram Quay, built by hand: one of each kind that the drawings have to show.
#![allow(dead_code, clippy::unwrap_used, reason = "each test and example uses some of them; they are sound")]

use exact::{Angle, Rational, Value};
use model::*;

fn fraction(n: i64, d: i64) -> Value {
    Value::rational(Rational::new(n, d).unwrap())
}

/// An engine and so many wagons on the level, with resistances.
pub(crate) fn train(wagons: usize) -> Situation {
    let mut b = Builder::new();
    let engine = b.body("the engine", "engine", Form::Vehicle, Line::Level, Some(6000.into()));
    let drive = b.act(Role::Driving, "driving force", engine, Direction::Along(1));
    let mut resistances =
        vec![(b.act(Role::Resistance, "resistance on the engine", engine, Direction::Opposing), 900)];
    let mut before = engine;
    for i in 0..wagons {
        let letter = char::from(b'A' + u8::try_from(i % 26).unwrap());
        let name = format!("wagon {letter}");
        let wagon = b.body(&name, &name, Form::Trailer, Line::Level, Some((4000 - 100 * i as i64).into()));
        b.tow("the coupling", before, wagon);
        let name = format!("resistance on wagon {letter}");
        resistances.push((b.act(Role::Resistance, &name, wagon, Direction::Opposing), 400));
        before = wagon;
    }
    let stage = b.stage(State::Moving);
    b.size(stage, drive, 9000.into());
    for (r, n) in resistances {
        b.size(stage, r, n.into());
    }
    b.heading(stage, engine, 1);
    b.ask_acceleration("a", stage, engine);
    b.finish()
}

/// A lorry braking with a mixer behind: the coupling is in thrust, the acceleration against the motion.
pub(crate) fn braking() -> Situation {
    let mut b = Builder::new();
    let lorry = b.body("the lorry", "lorry", Form::Vehicle, Line::Level, Some(2400.into()));
    let mixer = b.body("the mixer", "mixer", Form::Trailer, Line::Level, Some(600.into()));
    b.tow("the tow-bar", lorry, mixer);
    let brake = b.act(Role::Braking, "braking force", lorry, Direction::Along(-1));
    let one = b.act(Role::Resistance, "resistance on the lorry", lorry, Direction::Opposing);
    let two = b.act(Role::Resistance, "resistance on the mixer", mixer, Direction::Opposing);
    let stage = b.stage(State::Moving);
    b.size(stage, brake, 4350.into());
    b.size(stage, one, 300.into());
    b.size(stage, two, 150.into());
    b.heading(stage, lorry, 1);
    b.ask_acceleration("a", stage, lorry);
    b.finish()
}

/// A lift with a diver and a crate side by side, on a cable, its acceleration given.
pub(crate) fn lift() -> Situation {
    let mut b = Builder::new();
    let lift = b.body("the lift", "lift", Form::Lift, Line::Vertical, Some(250.into()));
    let diver = b.body("the diver", "diver", Form::Person, Line::Vertical, Some(110.into()));
    let crate_ = b.body("the crate", "crate", Form::Block, Line::Vertical, Some(40.into()));
    b.rests_on("reaction between the floor and the diver", diver, lift);
    b.rests_on("reaction between the floor and the crate", crate_, lift);
    b.act(Role::Cable, "tension in the cable", lift, Direction::Along(1));
    let stage = b.stage(State::Moving);
    b.heading(stage, lift, 1);
    let a = b.situation().stage(stage).unwrap().accelerations.clone();
    for q in a {
        b.know(q, fraction(1, 2));
    }
    b.ask_acceleration("a", stage, lift);
    b.finish()
}

/// Two blocks, one upon the other, in a cage that is slowing down on its way up.
pub(crate) fn stack() -> Situation {
    let mut b = Builder::new();
    let cage = b.body("the cage", "cage", Form::Lift, Line::Vertical, Some(200.into()));
    let p = b.body("block P", "P", Form::Block, Line::Vertical, Some(50.into()));
    let q = b.body("block Q", "Q", Form::Block, Line::Vertical, Some(30.into()));
    b.rests_on("reaction of the floor on P", p, cage);
    b.rests_on("reaction of P on Q", q, p);
    let cable = b.act(Role::Cable, "tension in the cable", cage, Direction::Along(1));
    let stage = b.stage(State::Moving);
    b.heading(stage, cage, 1);
    b.size(stage, cable, 2500.into());
    b.ask_acceleration("a", stage, cage);
    b.finish()
}

/// Two particles over a fixed pulley.
pub(crate) fn atwood() -> Situation {
    let mut b = Builder::new();
    let p = b.body("particle A", "A", Form::Particle, Line::Vertical, Some(3.into()));
    let q = b.body("particle B", "B", Form::Particle, Line::Vertical, Some(5.into()));
    b.over_pulley("the string", p, q);
    let stage = b.stage(State::Released);
    b.ask_acceleration("a", stage, p);
    b.finish()
}

/// Two particles of masses m and 3m.
pub(crate) fn letters() -> Situation {
    let mut b = Builder::new();
    b.open_letter("m", Kind::Mass);
    let m = Value::symbol("m");
    let p = b.body("particle P", "P", Form::Particle, Line::Vertical, Some(m.clone()));
    let q = b.body("particle Q", "Q", Form::Particle, Line::Vertical, Some(Value::from_int(3) * m));
    b.over_pulley("the string", p, q);
    let stage = b.stage(State::Released);
    b.ask_acceleration("a", stage, p);
    b.finish()
}

/// A lift with its counterweight over two pulleys.
pub(crate) fn counterweight() -> Situation {
    let mut b = Builder::new();
    let lift = b.body("the hoist cage", "hoist cage", Form::Lift, Line::Vertical, Some(400.into()));
    let load = b.body("the load of stone", "load of stone", Form::Load, Line::Vertical, Some(350.into()));
    let weight = b.body("the counterweight", "counterweight", Form::Load, Line::Vertical, Some(600.into()));
    b.rests_on("reaction of the floor", load, lift);
    b.over_pulley("the cable", lift, weight);
    let stage = b.stage(State::Released);
    b.ask_acceleration("a", stage, lift);
    b.finish()
}

/// A block on a rough table and a weight over its edge.
pub(crate) fn table() -> Situation {
    let mut b = Builder::new();
    let a = b.body("block A", "A", Form::Block, Line::Level, Some(5.into()));
    let w = b.body("weight B", "B", Form::Load, Line::Vertical, Some(4.into()));
    let mu = b.coefficient(Some(fraction(1, 5)));
    b.surface(a, "the table", Grip::Rough(mu));
    b.over_pulley("the string", a, w);
    let stage = b.stage(State::Released);
    b.ask_acceleration("a", stage, a);
    b.finish()
}

/// A block on a rough table between two buckets.
pub(crate) fn three() -> Situation {
    let mut b = Builder::new();
    let block = b.body("block B", "B", Form::Block, Line::Level, Some(5.into()));
    let right = b.body("bucket A", "A", Form::Load, Line::Vertical, Some(6.into()));
    let left = b.body("bucket C", "C", Form::Load, Line::Vertical, Some(3.into()));
    let mu = b.coefficient(Some(fraction(1, 5)));
    b.surface(block, "the table", Grip::Rough(mu));
    b.over_pulley("the string joining A and B", block, right);
    let link = b.over_pulley("the string joining B and C", block, left);
    if let Some(end) = b.situation_mut().links.get_mut(link.0).and_then(|l| l.ends.first_mut()) {
        end.sense = -1;
    }
    let stage = b.stage(State::Released);
    b.ask_acceleration("a", stage, block);
    b.finish()
}

/// A box on a rough slope, a weight beyond the top.
pub(crate) fn slope_and_pulley(rises_right: bool, angle: Angle) -> Situation {
    let mut b = Builder::new();
    let angle = b.angle("α", angle);
    let line = Line::Slope { angle, rises_right };
    let p = b.body("box P", "P", Form::Block, line, Some(5.into()));
    let q = b.body("ballast weight Q", "Q", Form::Load, Line::Vertical, Some(9.into()));
    let mu = b.coefficient(Some(fraction(1, 4)));
    b.surface(p, "the plane", Grip::Rough(mu));
    b.over_pulley("the string", p, q);
    let stage = b.stage(State::Released);
    b.ask_acceleration("a", stage, p);
    b.finish()
}

/// A lorry towing a trailer up a gentle slope.
pub(crate) fn hill() -> Situation {
    let mut b = Builder::new();
    let angle = b.angle("α", Angle::Sin(fraction(1, 20)));
    let line = Line::Slope { angle, rises_right: true };
    let lorry = b.body("the lorry", "lorry", Form::Vehicle, line, Some(3000.into()));
    let trailer = b.body("the trailer", "trailer", Form::Trailer, line, Some(1000.into()));
    b.tow("the tow-bar", lorry, trailer);
    let drive = b.act(Role::Driving, "driving force", lorry, Direction::Along(1));
    let one = b.act(Role::Resistance, "resistance on the lorry", lorry, Direction::Opposing);
    let two = b.act(Role::Resistance, "resistance on the trailer", trailer, Direction::Opposing);
    let stage = b.stage(State::Moving);
    b.size(stage, drive, 3760.into());
    b.size(stage, one, 600.into());
    b.size(stage, two, 200.into());
    b.heading(stage, lorry, 1);
    b.ask_acceleration("a", stage, lorry);
    b.finish()
}

/// Two blocks dragged up a rough slipway by a winch.
pub(crate) fn slipway() -> Situation {
    let mut b = Builder::new();
    let angle = b.angle("α", Angle::Tan(fraction(3, 4)));
    let line = Line::Slope { angle, rises_right: true };
    let mu = b.coefficient(Some(fraction(1, 4)));
    let one = b.body("block A", "A", Form::Block, line, Some(20.into()));
    let two = b.body("block B", "B", Form::Block, line, Some(10.into()));
    b.surface(one, "the slipway", Grip::Rough(mu));
    b.surface(two, "the slipway", Grip::Rough(mu));
    b.string("the rope", one, two);
    let p = b.act(Role::Applied, "pull of the winch", one, Direction::Along(1));
    let stage = b.stage(State::Moving);
    b.open_letter("P", Kind::Force);
    let q = b.situation().stage(stage).unwrap().forces[p.0];
    b.letter(q, "P");
    b.heading(stage, one, 1);
    let a = b.situation().stage(stage).unwrap().accelerations[one.0];
    b.know(a, fraction(1, 2));
    b.ask_acceleration("a", stage, one);
    b.finish()
}

/// A sledge pulled by a rope at 30° on rough ground, another one behind it.
pub(crate) fn sledges() -> Situation {
    let mut b = Builder::new();
    let front = b.body("the front sledge", "front sledge", Form::Block, Line::Level, Some(40.into()));
    let rear = b.body("the rear sledge", "rear sledge", Form::Block, Line::Level, Some(30.into()));
    let mu = b.coefficient(None);
    b.surface(front, "the ground", Grip::Rough(mu));
    b.surface(rear, "the ground", Grip::Rough(mu));
    b.string("the rope", front, rear);
    let angle = b.angle("θ", Angle::Degrees(30.into()));
    let pull = b.act(Role::Applied, "pull", front, Direction::At { sense: 1, angle, lifts: true });
    let stage = b.stage(State::Moving);
    b.size(stage, pull, 300.into());
    b.heading(stage, front, 1);
    let a = b.situation().stage(stage).unwrap().accelerations[front.0];
    b.know(a, fraction(1, 2));
    b.ask_acceleration("a", stage, front);
    b.finish()
}

/// Two crates in contact, pushed from behind.
pub(crate) fn pushed() -> Situation {
    let mut b = Builder::new();
    let rear = b.body("crate A", "A", Form::Block, Line::Level, Some(12.into()));
    let front = b.body("crate B", "B", Form::Block, Line::Level, Some(8.into()));
    b.surface(rear, "the floor", Grip::Smooth);
    b.surface(front, "the floor", Grip::Smooth);
    b.rests_on("push between the crates", front, rear);
    let p = b.act(Role::Applied, "push", rear, Direction::Along(1));
    let stage = b.stage(State::Moving);
    b.size(stage, p, 60.into());
    b.heading(stage, rear, 1);
    b.ask_acceleration("a", stage, rear);
    b.finish()
}

/// Two trucks on two slopes with a pulley at the top between them.
pub(crate) fn two_slopes() -> Situation {
    let mut b = Builder::new();
    let one = b.angle("α", Angle::Degrees(30.into()));
    let two = b.angle("β", Angle::Degrees(45.into()));
    let a =
        b.body("truck A", "A", Form::Trailer, Line::Slope { angle: one, rises_right: true }, Some(80.into()));
    let c = b.body(
        "truck B",
        "B",
        Form::Trailer,
        Line::Slope { angle: two, rises_right: false },
        Some(50.into()),
    );
    b.over_pulley("the cable", a, c);
    let stage = b.stage(State::Released);
    b.ask_acceleration("a", stage, a);
    b.finish()
}

/// A load on a movable pulley, a lighter effort at the end of the string.
pub(crate) fn movable() -> Situation {
    let mut b = Builder::new();
    let load = b.body("the load", "load", Form::Load, Line::Vertical, Some(30.into()));
    let effort = b.body("the weight", "W", Form::Particle, Line::Vertical, Some(20.into()));
    let link = b.over_pulley("the rope", effort, load);
    if let Some(end) = b.situation_mut().links.get_mut(link.0).and_then(|l| l.ends.get_mut(1)) {
        end.times = 2;
    }
    let stage = b.stage(State::Released);
    b.ask_acceleration("a", stage, load);
    b.finish()
}

/// Two particles hanging one below the other from a pulley against a third.
pub(crate) fn hanging_pair() -> Situation {
    let mut b = Builder::new();
    let a = b.body("particle A", "A", Form::Particle, Line::Vertical, Some(2.into()));
    let c = b.body("particle B", "B", Form::Particle, Line::Vertical, Some(3.into()));
    let d = b.body("particle C", "C", Form::Particle, Line::Vertical, Some(4.into()));
    b.string("the lower string", a, c);
    b.over_pulley("the upper string", a, d);
    let stage = b.stage(State::Released);
    b.ask_acceleration("a", stage, a);
    b.finish()
}

/// A particle on a table joined to one on a slope below its edge.
pub(crate) fn table_and_slope() -> Situation {
    let mut b = Builder::new();
    let angle = b.angle("α", Angle::Degrees(30.into()));
    let a = b.body("particle A", "A", Form::Particle, Line::Level, Some(2.into()));
    let c =
        b.body("particle B", "B", Form::Particle, Line::Slope { angle, rises_right: false }, Some(3.into()));
    b.surface(a, "the table", Grip::Smooth);
    b.surface(c, "the slope", Grip::Smooth);
    b.over_pulley("the string", a, c);
    let stage = b.stage(State::Released);
    b.ask_acceleration("a", stage, a);
    b.finish()
}

/// All of them, with names.
pub(crate) fn everything() -> Vec<(&'static str, Situation)> {
    vec![
        ("train", train(2)),
        ("long-train", train(20)),
        ("braking", braking()),
        ("lift", lift()),
        ("stack", stack()),
        ("atwood", atwood()),
        ("letters", letters()),
        ("counterweight", counterweight()),
        ("table", table()),
        ("three", three()),
        ("slope", slope_and_pulley(true, Angle::Tan(fraction(3, 4)))),
        ("slope-left", slope_and_pulley(false, Angle::Degrees(20.into()))),
        ("hill", hill()),
        ("slipway", slipway()),
        ("sledges", sledges()),
        ("pushed", pushed()),
        ("two-slopes", two_slopes()),
        ("movable", movable()),
        ("hanging-pair", hanging_pair()),
        ("table-and-slope", table_and_slope()),
    ]
}
