//! Situations on Marram Quay, built by hand, for the tests of the working.
#![allow(dead_code, unreachable_pub, clippy::expect_used, reason = "each test file uses some of these")]

use exact::{Angle, Rational, Value};
use model::*;
use motion::Solved;
use working::{Settings, Work, work};

/// A decimal as a value.
pub fn dec(text: &str) -> Value {
    Value::rational(Rational::parse_decimal(text).expect("a decimal"))
}

/// Solves every stage with the givens of every part, as the tool does.
pub fn solve_all(situation: &Situation) -> Vec<Solved> {
    let mut pairs: Vec<(StageId, usize)> = situation.asks.iter().map(|a| (a.stage, a.part_index)).collect();
    if situation.stages.iter().any(|s| s.begins.is_some()) {
        pairs = situation.stage_ids().map(|stage| (stage, 0)).collect();
    }
    pairs.sort();
    pairs.dedup();
    let solved = pairs.into_iter().map(|(stage, part)| motion::solve(situation, stage, part));
    solved.filter_map(Result::ok).collect()
}

/// The working of a situation with the settings of the house.
pub fn worked(situation: &Situation) -> Work {
    work(situation, &solve_all(situation), &Settings::default())
}

/// An engine of 1800 kg pulls a truck of 1200 kg; resistances 500 N and 400 N, driving force 3150 N.
pub fn engine_and_truck() -> Situation {
    let mut b = Builder::new();
    let engine = b.body("the engine", "engine", Form::Vehicle, Line::Level, Some(1800.into()));
    let truck = b.body("the truck", "truck", Form::Trailer, Line::Level, Some(1200.into()));
    let bar = b.tow("the coupling", engine, truck);
    let drive = b.act(Role::Driving, "the driving force", engine, Direction::Along(1));
    let first = b.act(Role::Resistance, "the resistance on the engine", engine, Direction::Opposing);
    let second = b.act(Role::Resistance, "the resistance on the truck", truck, Direction::Opposing);
    let stage = b.stage(State::Moving);
    b.size(stage, drive, 3150.into());
    b.size(stage, first, 500.into());
    b.size(stage, second, 400.into());
    b.heading(stage, engine, 1);
    b.ask_acceleration("a", stage, engine);
    b.ask_link("b", stage, bar);
    b.finish()
}

/// The same, the acceleration given and the driving force wanted.
pub fn driving_force_wanted() -> Situation {
    let mut b = Builder::new();
    let engine = b.body("the engine", "engine", Form::Vehicle, Line::Level, Some(1800.into()));
    let truck = b.body("the truck", "truck", Form::Trailer, Line::Level, Some(1200.into()));
    let bar = b.tow("the coupling", engine, truck);
    let drive = b.act(Role::Driving, "the driving force", engine, Direction::Along(1));
    let first = b.act(Role::Resistance, "the resistance on the engine", engine, Direction::Opposing);
    let second = b.act(Role::Resistance, "the resistance on the truck", truck, Direction::Opposing);
    let stage = b.stage(State::Moving);
    b.size(stage, first, 500.into());
    b.size(stage, second, 400.into());
    b.heading(stage, engine, 1);
    let a = b.situation().stages[stage.0].accelerations[engine.0];
    b.know(a, dec("0.75"));
    let wanted = b.situation().stages[stage.0].forces[drive.0];
    b.ask("a", stage, "driving force of the engine", Wanted::Quantity(wanted));
    b.ask_link("b", stage, bar);
    b.finish()
}

/// Two loads over a pulley, released from rest.
pub fn two_loads(one: i64, other: i64) -> Situation {
    let mut b = Builder::new();
    let a = b.body("A", "A", Form::Particle, Line::Vertical, Some(one.into()));
    let c = b.body("B", "B", Form::Particle, Line::Vertical, Some(other.into()));
    let string = b.over_pulley("the string", a, c);
    let stage = b.stage(State::Released);
    b.ask_acceleration("a", stage, a);
    b.ask_link("b", stage, string);
    let j = b.journey(stage, c).expect("a journey");
    b.know(j.start_speed, Value::zero());
    b.know(j.distance, dec("0.5"));
    b.ask("c", stage, "speed of B when it has fallen 0.5 m", Wanted::Quantity(j.end_speed));
    b.finish()
}

/// Two loads with masses in letters: m and km over a pulley.
pub fn loads_in_letters() -> Situation {
    let mut b = Builder::new();
    b.open_letter("m", Kind::Mass);
    b.open_letter("g", Kind::Gravity);
    b.gravity(Value::symbol("g"));
    let m = Value::symbol("m");
    let a = b.body("A", "A", Form::Particle, Line::Vertical, Some(m.clone()));
    let c = b.body("B", "B", Form::Particle, Line::Vertical, Some(m * Value::from_int(4)));
    let string = b.over_pulley("the string", a, c);
    let stage = b.stage(State::Released);
    b.ask_acceleration("a", stage, c);
    b.ask_link("b", stage, string);
    b.finish()
}

/// A block of 5 kg on a rough table, joined over a pulley to a load of 3 kg.
pub fn rough_table(mu: &str) -> Situation {
    let mut b = Builder::new();
    let block = b.body("the block", "block", Form::Block, Line::Level, Some(5.into()));
    let load = b.body("the load", "load", Form::Load, Line::Vertical, Some(3.into()));
    let rough = b.coefficient(Some(dec(mu)));
    b.surface(block, "the table", Grip::Rough(rough));
    let string = b.over_pulley("the string", block, load);
    let stage = b.stage(State::Released);
    b.ask("a", stage, "whether the block moves", Wanted::WhetherItMoves);
    b.ask_acceleration("b", stage, load);
    b.ask_link("c", stage, string);
    b.finish()
}

/// A sledge of 8 kg on a slope with tan = 3/4, joined over a pulley to a load of 6 kg.
pub fn slope(angle: Angle, mu: Option<&str>) -> Situation {
    let mut b = Builder::new();
    let angle = b.angle("α", angle);
    let line = Line::Slope { angle, rises_right: true };
    let sledge = b.body("the sledge", "sledge", Form::Block, line, Some(4.into()));
    let load = b.body("the load", "load", Form::Load, Line::Vertical, Some(6.into()));
    match mu {
        Some(mu) => {
            let rough = b.coefficient(Some(dec(mu)));
            b.surface(sledge, "the slipway", Grip::Rough(rough));
        }
        None => b.surface(sledge, "the slipway", Grip::Smooth),
    }
    let string = b.over_pulley("the rope", sledge, load);
    let stage = b.stage(State::Released);
    b.ask_acceleration("", stage, sledge);
    b.ask_link("", stage, string);
    b.finish()
}

/// A hoist cage of 600 kg with a crate of 50 kg on its floor, accelerating upwards at 0.5 m s⁻².
pub fn hoist() -> Situation {
    let mut b = Builder::new();
    let cage = b.body("the cage", "cage", Form::Lift, Line::Vertical, Some(600.into()));
    let crate_ = b.body("the crate", "crate", Form::Block, Line::Vertical, Some(50.into()));
    let floor = b.rests_on("push of the floor on the crate", crate_, cage);
    let cable = b.act(Role::Cable, "the tension in the cable", cage, Direction::Along(1));
    let stage = b.stage(State::Moving);
    b.heading(stage, cage, 1);
    let a = b.situation().stages[stage.0].accelerations[cage.0];
    b.know(a, dec("0.5"));
    let tension = b.situation().stages[stage.0].forces[cable.0];
    b.ask("i", stage, "tension in the cable", Wanted::Quantity(tension));
    b.ask_link("ii", stage, floor);
    b.finish()
}

/// A chain of trucks pulled by an engine, every coupling wanted at its first and last place.
pub fn train(trucks: usize) -> Situation {
    let mut b = Builder::new();
    let engine = b.body("the engine", "engine", Form::Vehicle, Line::Level, Some(20_000.into()));
    let drive = b.act(Role::Driving, "the driving force", engine, Direction::Along(1));
    let mut front = engine;
    let mut couplings = Vec::new();
    for n in 1..=trucks {
        let name = format!("truck {n}");
        let truck = b.body(&name, &n.to_string(), Form::Trailer, Line::Level, Some(5_000.into()));
        couplings.push(b.tow(&format!("coupling {n}"), front, truck));
        b.act(Role::Resistance, &format!("the resistance on {name}"), truck, Direction::Opposing);
        front = truck;
    }
    let stage = b.stage(State::Moving);
    b.size(stage, drive, 30_000.into());
    for n in 1..=trucks {
        b.size(stage, ActionId(n), 200.into());
    }
    b.heading(stage, engine, 1);
    b.ask_acceleration("a", stage, engine);
    for (part, coupling) in [("b", couplings.first()), ("c", couplings.last())] {
        if let Some(c) = coupling {
            b.ask_link(part, stage, *c);
        }
    }
    b.finish()
}

/// A crate of 20 kg pulled along a rough floor by a rope at 30° to it, on the point of moving; the pull is wanted.
pub fn pull_at_an_angle() -> Situation {
    let mut b = Builder::new();
    let crate_ = b.body("the crate", "crate", Form::Block, Line::Level, Some(20.into()));
    let mu = b.coefficient(Some(dec("0.5")));
    b.surface(crate_, "the floor", Grip::Rough(mu));
    let angle = b.angle("θ", Angle::Degrees(Rational::from_int(30)));
    let pull = b.act(Role::Applied, "the pull", crate_, Direction::At { sense: 1, angle, lifts: true });
    let stage = b.stage(State::Limiting);
    b.heading(stage, crate_, 1);
    let wanted = b.situation().stages[stage.0].forces[pull.0];
    b.ask("", stage, "least pull that moves the crate", Wanted::Quantity(wanted));
    b.finish()
}

/// A load of 12 kg on a movable pulley, raised by an effort of 9 kg on the free part of the rope.
pub fn movable_pulley() -> Situation {
    let mut b = Builder::new();
    let load = b.body("the load", "load", Form::Load, Line::Vertical, Some(12.into()));
    let effort = b.body("the counterweight", "counterweight", Form::Load, Line::Vertical, Some(9.into()));
    let rope = b.over_pulley("the rope", load, effort);
    b.situation_mut().links[rope.0].ends[0].times = 2;
    let stage = b.stage(State::Released);
    b.ask_acceleration("a", stage, load);
    b.ask_link("b", stage, rope);
    b.finish()
}

/// Every situation above that has an answer.
pub fn all() -> Vec<(&'static str, Situation)> {
    let three_four = || Angle::Tan(Value::rational(Rational::new(3, 4).expect("3/4")));
    vec![
        ("engine and truck", engine_and_truck()),
        ("driving force wanted", driving_force_wanted()),
        ("two loads", two_loads(2, 3)),
        ("loads in letters", loads_in_letters()),
        ("rough table, slides", rough_table("0.4")),
        ("rough table, stays", rough_table("0.8")),
        ("smooth slope", slope(three_four(), None)),
        ("rough slope at 25 degrees", slope(Angle::Degrees(Rational::from_int(25)), Some("0.2"))),
        ("hoist", hoist()),
        ("train of five", train(5)),
        ("pull at an angle", pull_at_an_angle()),
        ("movable pulley", movable_pulley()),
        ("braking", braking()),
        ("table and pulley", table_and_pulley()),
        ("total resistance", total_resistance()),
        ("coefficient wanted", coefficient_wanted()),
        ("slope in letters", slope_in_letters()),
        ("quadratic time", quadratic_time()),
        ("angle wanted", angle_wanted()),
        ("angle at the limit", angle_at_the_limit()),
        ("coefficient from the angle", coefficient_from_the_angle()),
        ("coefficient and reaction", coefficient_and_reaction()),
        ("speed trebled", speed_trebled()),
        ("slope without a mass", slope_without_a_mass()),
        ("angle without a mass", angle_without_a_mass()),
        ("two limits", two_limits()),
    ]
}

/// The engine brakes on level track, pulling nothing but pushed on by the truck behind: thrust in the coupling.
pub fn braking() -> Situation {
    let mut b = Builder::new();
    let engine = b.body("the engine", "engine", Form::Vehicle, Line::Level, Some(1800.into()));
    let truck = b.body("the truck", "truck", Form::Trailer, Line::Level, Some(1200.into()));
    let bar = b.tow("the coupling", engine, truck);
    let brake = b.act(Role::Braking, "the braking force", engine, Direction::Along(-1));
    let drag = b.act(Role::Resistance, "the resistance on the truck", truck, Direction::Opposing);
    let stage = b.stage(State::Moving);
    b.size(stage, brake, 2800.into());
    b.size(stage, drag, 200.into());
    b.heading(stage, engine, 1);
    b.ask("a", stage, "deceleration of the engine", Wanted::Deceleration(engine));
    b.ask("b", stage, "whether the coupling is in tension or thrust", Wanted::TensionOrThrust(bar));
    b.finish()
}

/// A smooth table: the force on the pulley is wanted, an answer is to be shown, and statements are asked for.
pub fn table_and_pulley() -> Situation {
    let mut b = Builder::new();
    let block = b.body("the crate", "crate", Form::Block, Line::Level, Some(5.into()));
    let load = b.body("the bucket", "bucket", Form::Load, Line::Vertical, Some(2.into()));
    b.surface(block, "the table", Grip::Smooth);
    let string = b.over_pulley("the string", block, load);
    let stage = b.stage(State::Released);
    b.ask_acceleration("a", stage, load);
    if let Some(ask) = b.situation_mut().asks.last_mut() {
        ask.show = Some(dec("2.8"));
    }
    b.ask_link("b", stage, string);
    b.ask("c", stage, "force on the pulley", Wanted::PulleyForce(PulleyId(0)));
    b.ask("d", stage, "how the string was taken to be inextensible", Wanted::Statement(Topic::Inextensible));
    b.ask("e", stage, "how the pulley was taken to be smooth", Wanted::Statement(Topic::SmoothPulley));
    b.finish()
}

/// The total resistance is given, not how it is shared; the acceleration is wanted.
pub fn total_resistance() -> Situation {
    let mut b = Builder::new();
    let engine = b.body("the engine", "engine", Form::Vehicle, Line::Level, Some(900.into()));
    let wagon = b.body("the wagon", "wagon", Form::Trailer, Line::Level, Some(600.into()));
    b.tow("the bar", engine, wagon);
    let drive = b.act(Role::Driving, "the driving force", engine, Direction::Along(1));
    let first = b.act(Role::Resistance, "the resistance on the engine", engine, Direction::Opposing);
    let second = b.act(Role::Resistance, "the resistance on the wagon", wagon, Direction::Opposing);
    let stage = b.stage(State::Moving);
    b.heading(stage, engine, 1);
    b.size(stage, drive, 1500.into());
    let forces = b.situation().stages[stage.0].forces.clone();
    b.situation_mut().relations.push(Relation {
        terms: vec![
            (Value::one(), vec![forces[first.0]]),
            (Value::one(), vec![forces[second.0]]),
            (Value::from_int(-450), vec![]),
        ],
        name: "the total resistance is 450 N".to_owned(),
        span: None,
        from_part: 0,
    });
    b.ask_acceleration("", stage, engine);
    b.finish()
}

/// From the time of a fall to the coefficient of friction of the table.
pub fn coefficient_wanted() -> Situation {
    let mut b = Builder::new();
    let block = b.body("the block", "P", Form::Block, Line::Level, Some(5.into()));
    let load = b.body("the load", "Q", Form::Load, Line::Vertical, Some(3.into()));
    let mu = b.coefficient(None);
    b.surface(block, "the table", Grip::Rough(mu));
    b.over_pulley("the string", block, load);
    let stage = b.stage(State::Released);
    let j = b.journey(stage, load).expect("a journey");
    b.know(j.start_speed, Value::zero());
    b.know(j.distance, dec("0.8"));
    b.know(j.time, dec("1.6"));
    b.ask_acceleration("a", stage, load);
    b.ask("b", stage, "coefficient of friction", Wanted::Quantity(mu));
    b.finish()
}

/// A loaded sledge and a hanging load in letters, on a rough slope; the force on the pulley is wanted too.
pub fn slope_in_letters() -> Situation {
    let mut b = Builder::new();
    b.open_letter("m", Kind::Mass);
    b.open_letter("g", Kind::Gravity);
    b.gravity(Value::symbol("g"));
    let angle = b.angle("α", Angle::Tan(Value::rational(Rational::new(3, 4).expect("3/4"))));
    let m = Value::symbol("m");
    let line = Line::Slope { angle, rises_right: true };
    let p = b.body("P", "P", Form::Block, line, Some(&m * Value::from_int(2)));
    let q = b.body("Q", "Q", Form::Load, Line::Vertical, Some(&m * Value::from_int(3)));
    let mu = b.coefficient(Some(Value::rational(Rational::new(1, 4).expect("1/4"))));
    b.surface(p, "the plane", Grip::Rough(mu));
    let string = b.over_pulley("the string", p, q);
    let stage = b.stage(State::Released);
    b.ask_acceleration("a", stage, p);
    b.ask_link("b", stage, string);
    b.ask("c", stage, "force on the pulley", Wanted::PulleyForce(PulleyId(0)));
    b.finish()
}

/// An engine on its own with a journey whose time follows from a quadratic.
pub fn quadratic_time() -> Situation {
    let mut b = Builder::new();
    let engine = b.body("the engine", "engine", Form::Vehicle, Line::Level, Some(1000.into()));
    let drive = b.act(Role::Driving, "the driving force", engine, Direction::Along(1));
    let stage = b.stage(State::Moving);
    b.size(stage, drive, 500.into());
    b.heading(stage, engine, 1);
    let j = b.journey(stage, engine).expect("a journey");
    b.know(j.start_speed, 3.into());
    b.know(j.distance, 20.into());
    b.ask("", stage, "time taken", Wanted::Quantity(j.time));
    b.finish()
}

/// A smooth slope whose angle is wanted: the rope over the pulley keeps all at rest.
pub fn angle_wanted() -> Situation {
    let mut b = Builder::new();
    let angle = b.quantity(Kind::Angle, "θ", "angle of the slope to the horizontal");
    let line = Line::Slope { angle, rises_right: true };
    let sledge = b.body("the sledge", "sledge", Form::Block, line, Some(10.into()));
    let load = b.body("the load", "load", Form::Load, Line::Vertical, Some(4.into()));
    b.surface(sledge, "the slipway", Grip::Smooth);
    let rope = b.over_pulley("the rope", sledge, load);
    let stage = b.stage(State::AtRest);
    b.ask_link("a", stage, rope);
    b.ask("b", stage, "angle of the slope", Wanted::Quantity(angle));
    b.finish()
}

/// A crate on the point of sliding down a rough slope: from the coefficient to the angle.
pub fn angle_at_the_limit() -> Situation {
    let mut b = Builder::new();
    let angle = b.quantity(Kind::Angle, "α", "angle of the slipway to the horizontal");
    let line = Line::Slope { angle, rises_right: true };
    let crate_ = b.body("the crate", "crate", Form::Block, line, Some(5.into()));
    let mu = b.coefficient(Some(dec("0.75")));
    b.surface(crate_, "the slipway", Grip::Rough(mu));
    let stage = b.stage(State::Limiting);
    b.heading(stage, crate_, -1);
    b.ask("", stage, "angle of the slipway", Wanted::Quantity(angle));
    b.finish()
}

/// The same, the angle given and the coefficient wanted.
pub fn coefficient_from_the_angle() -> Situation {
    let mut b = Builder::new();
    let angle = b.angle("α", Angle::Tan(Value::rational(Rational::new(5, 12).expect("5/12"))));
    let line = Line::Slope { angle, rises_right: true };
    let crate_ = b.body("the crate", "crate", Form::Block, line, Some(26.into()));
    let mu = b.coefficient(None);
    b.surface(crate_, "the slipway", Grip::Rough(mu));
    let stage = b.stage(State::Limiting);
    b.heading(stage, crate_, -1);
    b.ask("", stage, "coefficient of friction", Wanted::Quantity(mu));
    b.finish()
}

/// A load drags a sledge with a known acceleration: friction, reaction and coefficient follow one after the other.
pub fn coefficient_and_reaction() -> Situation {
    let mut b = Builder::new();
    let sledge = b.body("the sledge", "P", Form::Block, Line::Level, Some(6.into()));
    let load = b.body("the load", "Q", Form::Load, Line::Vertical, Some(4.into()));
    let mu = b.coefficient(None);
    b.surface(sledge, "the quay", Grip::Rough(mu));
    b.over_pulley("the rope", sledge, load);
    let stage = b.stage(State::Moving);
    b.heading(stage, sledge, 1);
    let a = b.situation().stages[stage.0].accelerations[sledge.0];
    b.know(a, dec("2.5"));
    let reaction = b.situation().stages[stage.0].reactions[sledge.0].expect("a reaction");
    b.ask("a", stage, "normal reaction on the sledge", Wanted::Quantity(reaction));
    b.ask("b", stage, "coefficient of friction", Wanted::Quantity(mu));
    b.finish()
}

/// An engine trebles its speed on a given distance with a given acceleration: both speeds are wanted.
pub fn speed_trebled() -> Situation {
    let mut b = Builder::new();
    let engine = b.body("the engine", "engine", Form::Vehicle, Line::Level, Some(1000.into()));
    let drive = b.act(Role::Driving, "the driving force", engine, Direction::Along(1));
    let stage = b.stage(State::Moving);
    b.size(stage, drive, 800.into());
    b.heading(stage, engine, 1);
    let j = b.journey(stage, engine).expect("a journey");
    b.know(j.distance, 40.into());
    b.situation_mut().relations.push(Relation {
        terms: vec![(Value::one(), vec![j.end_speed]), (Value::from_int(-3), vec![j.start_speed])],
        name: "the speed trebles".to_owned(),
        span: None,
        from_part: 0,
    });
    b.ask("a", stage, "speed at the start", Wanted::Quantity(j.start_speed));
    b.ask("b", stage, "time taken", Wanted::Quantity(j.time));
    b.finish()
}

/// A crate of unknown mass slides down a rough slope at 20°: its mass cancels.
pub fn slope_without_a_mass() -> Situation {
    let mut b = Builder::new();
    let angle = b.angle("α", Angle::Degrees(Rational::from_int(20)));
    let line = Line::Slope { angle, rises_right: true };
    let crate_ = b.body("the crate", "crate", Form::Block, line, None);
    let mu = b.coefficient(Some(dec("0.25")));
    b.surface(crate_, "the slipway", Grip::Rough(mu));
    let stage = b.stage(State::Released);
    b.ask_acceleration("", stage, crate_);
    b.finish()
}

/// A crate of unknown mass on the point of sliding: neither mass nor angle is given.
pub fn angle_without_a_mass() -> Situation {
    let mut b = Builder::new();
    let angle = b.quantity(Kind::Angle, "α", "angle of the slipway to the horizontal");
    let line = Line::Slope { angle, rises_right: true };
    let crate_ = b.body("the crate", "crate", Form::Block, line, None);
    let mu = b.coefficient(Some(dec("0.4")));
    b.surface(crate_, "the slipway", Grip::Rough(mu));
    let stage = b.stage(State::Limiting);
    b.heading(stage, crate_, -1);
    b.ask("", stage, "angle of the slipway", Wanted::Quantity(angle));
    b.finish()
}

/// The same letter P for the pull that just moves a crate up a slope, and for the one that just holds it.
pub fn two_limits() -> Situation {
    let mut b = Builder::new();
    let angle = b.angle("α", Angle::Tan(Value::rational(Rational::new(3, 4).expect("3/4"))));
    let line = Line::Slope { angle, rises_right: true };
    let crate_ = b.body("the crate", "crate", Form::Block, line, Some(5.into()));
    let mu = b.coefficient(Some(dec("0.5")));
    b.surface(crate_, "the slipway", Grip::Rough(mu));
    let pull = b.act(Role::Applied, "the pull", crate_, Direction::Along(1));
    let up = b.stage(State::Limiting);
    b.heading(up, crate_, 1);
    let down = b.stage(State::Limiting);
    b.heading(down, crate_, -1);
    let first = b.situation().stages[up.0].forces[pull.0];
    let second = b.situation().stages[down.0].forces[pull.0];
    b.letter(first, "P");
    b.know(second, Value::symbol("P"));
    b.ask("a", up, "pull that just moves the crate up", Wanted::Quantity(first));
    b.ask("b", down, "pull that just keeps the crate from sliding down", Wanted::Quantity(first));
    b.finish()
}
