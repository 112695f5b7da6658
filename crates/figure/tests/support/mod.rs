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

/// A crate on a truck that is pulled by a winch; nothing slips.
pub(crate) fn truck() -> Situation {
    let mut b = Builder::new();
    let truck = b.body("the truck", "truck", Form::Trailer, Line::Level, Some(300.into()));
    let crate_ = b.body("the crate", "crate", Form::Block, Line::Level, Some(50.into()));
    let mu = b.coefficient(Some(fraction(2, 5)));
    b.on_top(crate_, truck, Grip::Rough(mu));
    let pull = b.act(Role::Applied, "pull of the winch", truck, Direction::Along(1));
    let stage = b.stage(State::Moving);
    b.size(stage, pull, 700.into());
    b.heading(stage, truck, 1);
    b.ask_acceleration("a", stage, truck);
    b.finish()
}

/// Three slabs, one upon the other, on a rough quay; the lowest is pulled.
pub(crate) fn slabs() -> Situation {
    let mut b = Builder::new();
    let names = [("slab A", "A", 20), ("slab B", "B", 12), ("slab C", "C", 6)];
    let ids: Vec<BodyId> =
        names.map(|(n, l, m)| b.body(n, l, Form::Block, Line::Level, Some(m.into()))).into_iter().collect();
    let mu = b.coefficient(Some(fraction(1, 5)));
    b.surface(ids[0], "the quay", Grip::Rough(mu));
    let top = b.coefficient(Some(fraction(1, 2)));
    b.on_top(ids[1], ids[0], Grip::Rough(top));
    b.on_top(ids[2], ids[1], Grip::Rough(top));
    let pull = b.act(Role::Applied, "pull", ids[0], Direction::Along(1));
    let stage = b.stage(State::Moving);
    b.size(stage, pull, 120.into());
    b.heading(stage, ids[0], 1);
    b.ask_acceleration("a", stage, ids[0]);
    b.finish()
}

/// A block on a block on a slope, the upper one pulled up by a rope.
pub(crate) fn stack_on_slope() -> Situation {
    let mut b = Builder::new();
    let angle = b.angle("α", Angle::Tan(fraction(3, 4)));
    let line = Line::Slope { angle, rises_right: true };
    let low = b.body("block B", "B", Form::Block, line, Some(10.into()));
    let top = b.body("block A", "A", Form::Block, line, Some(4.into()));
    b.surface(low, "the slipway", Grip::Smooth);
    let mu = b.coefficient(Some(fraction(9, 10)));
    b.on_top(top, low, Grip::Rough(mu));
    let pull = b.act(Role::Applied, "pull", top, Direction::Along(1));
    let stage = b.stage(State::Moving);
    b.size(stage, pull, 90.into());
    b.heading(stage, low, 1);
    b.ask_acceleration("a", stage, low);
    b.finish()
}

/// The upper of two blocks on a table is tied to a weight over the edge.
pub(crate) fn stack_and_pulley() -> Situation {
    let mut b = Builder::new();
    let low = b.body("block B", "B", Form::Block, Line::Level, Some(8.into()));
    let top = b.body("block A", "A", Form::Block, Line::Level, Some(2.into()));
    let weight = b.body("weight C", "C", Form::Load, Line::Vertical, Some(1.into()));
    b.surface(low, "the bench", Grip::Smooth);
    let mu = b.coefficient(Some(fraction(1, 2)));
    b.on_top(top, low, Grip::Rough(mu));
    b.over_pulley("the string", top, weight);
    let stage = b.stage(State::Released);
    b.ask_acceleration("a", stage, low);
    b.finish()
}

/// One block upon another, joined by a string round a fixed pulley; the lower one is pulled away from it.
pub(crate) fn turned_back() -> Situation {
    let mut b = Builder::new();
    let low = b.body("block B", "B", Form::Block, Line::Level, Some(5.into()));
    let top = b.body("block A", "A", Form::Block, Line::Level, Some(3.into()));
    let mu = b.coefficient(Some(fraction(1, 5)));
    b.surface(low, "the floor", Grip::Smooth);
    b.on_top(top, low, Grip::Rough(mu));
    b.over_pulley("the string", top, low);
    let pull = b.act(Role::Applied, "pull", low, Direction::Along(-1));
    let stage = b.stage(State::Moving);
    b.size(stage, pull, 60.into());
    b.heading(stage, low, -1);
    b.ask_acceleration("a", stage, low);
    b.finish()
}

/// Two crates joined by a rope on a barge's deck that a tug pulls.
pub(crate) fn tied_on_top() -> Situation {
    let mut b = Builder::new();
    let barge = b.body("the barge", "barge", Form::Block, Line::Level, Some(900.into()));
    let one = b.body("crate A", "A", Form::Block, Line::Level, Some(40.into()));
    let two = b.body("crate B", "B", Form::Block, Line::Level, Some(30.into()));
    b.surface(barge, "the water", Grip::Smooth);
    let mu = b.coefficient(Some(fraction(1, 2)));
    b.on_top(one, barge, Grip::Smooth);
    b.on_top(two, barge, Grip::Rough(mu));
    b.string("the rope", two, one);
    let pull = b.act(Role::Cable, "tension in the tow-rope", barge, Direction::Along(1));
    let stage = b.stage(State::Moving);
    b.size(stage, pull, 500.into());
    b.heading(stage, barge, 1);
    b.ask_acceleration("a", stage, barge);
    b.finish()
}

/// Two loads hung in a lift, one under the other, beside a man.
pub(crate) fn hung_in_lift() -> Situation {
    let mut b = Builder::new();
    let lift = b.body("the lift", "lift", Form::Lift, Line::Vertical, Some(300.into()));
    let upper = b.body("load A", "A", Form::Load, Line::Vertical, Some(8.into()));
    let lower = b.body("load B", "B", Form::Load, Line::Vertical, Some(5.into()));
    let man = b.body("the keeper", "keeper", Form::Person, Line::Vertical, Some(70.into()));
    b.string("the upper string", lift, upper);
    b.string("the lower string", upper, lower);
    b.rests_on("reaction of the floor", man, lift);
    let cable = b.act(Role::Cable, "tension in the cable", lift, Direction::Along(1));
    let stage = b.stage(State::Moving);
    b.heading(stage, lift, 1);
    b.size(stage, cable, 4200.into());
    b.ask_acceleration("a", stage, lift);
    b.finish()
}

/// A light pulley on a string from a fixed pulley, with a string of its own over it.
pub(crate) fn pulley_on_pulley() -> Situation {
    let mut b = Builder::new();
    let a = b.body("load A", "A", Form::Load, Line::Vertical, Some(6.into()));
    let pulley = b.light_pulley("the lower pulley", "Q", Line::Vertical);
    let c = b.body("load B", "B", Form::Load, Line::Vertical, Some(2.into()));
    let d = b.body("load C", "C", Form::Load, Line::Vertical, Some(3.into()));
    b.over_pulley("the upper string", a, pulley);
    let lower = b.link("the lower string", Holds::Pull, false, &[(pulley, -1), (c, 1), (d, 1)]);
    b.situation_mut().links[lower.0].ends[0].times = 2;
    let stage = b.stage(State::Released);
    b.ask_acceleration("a", stage, a);
    b.finish()
}

/// A load under a light pulley that hangs in the bight of a rope.
pub(crate) fn load_under_pulley() -> Situation {
    let mut b = Builder::new();
    let effort = b.body("weight W", "W", Form::Load, Line::Vertical, Some(20.into()));
    let pulley = b.light_pulley("the movable pulley", "M", Line::Vertical);
    let load = b.body("the load", "load", Form::Load, Line::Vertical, Some(30.into()));
    let link = b.over_pulley("the rope", effort, pulley);
    b.situation_mut().links[link.0].ends[1].times = 2;
    b.string("the sling", pulley, load);
    let stage = b.stage(State::Released);
    b.ask_acceleration("a", stage, load);
    b.finish()
}

/// A light pulley with a load in the bight of a string between two fixed pulleys, a load at each end.
pub(crate) fn three_ends() -> Situation {
    let mut b = Builder::new();
    let left = b.body("load A", "A", Form::Load, Line::Vertical, Some(4.into()));
    let pulley = b.light_pulley("the movable pulley", "M", Line::Vertical);
    let right = b.body("load B", "B", Form::Load, Line::Vertical, Some(5.into()));
    let middle = b.body("load C", "C", Form::Load, Line::Vertical, Some(6.into()));
    let link = b.link("the string", Holds::Pull, false, &[(left, 1), (pulley, 1), (right, 1)]);
    b.situation_mut().links[link.0].ends[1].times = 2;
    b.string("the sling", pulley, middle);
    let stage = b.stage(State::Released);
    b.ask_acceleration("a", stage, left);
    b.finish()
}

/// A truck drawn in two strands by a weight over the edge.
pub(crate) fn two_strands() -> Situation {
    let mut b = Builder::new();
    let truck = b.body("the truck", "truck", Form::Trailer, Line::Level, Some(40.into()));
    let weight = b.body("weight W", "W", Form::Load, Line::Vertical, Some(15.into()));
    let link = b.over_pulley("the rope", truck, weight);
    b.situation_mut().links[link.0].ends[0].times = 2;
    let stage = b.stage(State::Released);
    b.ask_acceleration("a", stage, truck);
    b.finish()
}

/// Four crates in a row, pushed at an angle from behind.
pub(crate) fn row() -> Situation {
    let mut b = Builder::new();
    let mu = b.coefficient(Some(fraction(1, 10)));
    let mut ids = Vec::new();
    for (i, mass) in [30, 20, 10, 5].into_iter().enumerate() {
        let label = char::from(b'A' + u8::try_from(i).unwrap()).to_string();
        let body = b.body(&format!("crate {label}"), &label, Form::Block, Line::Level, Some(mass.into()));
        b.surface(body, "the quay", Grip::Rough(mu));
        if let Some(before) = ids.last().copied() {
            b.rests_on("push between the crates", body, before);
        }
        ids.push(body);
    }
    let angle = b.angle("θ", Angle::Degrees(25.into()));
    let push = b.act(Role::Applied, "push", ids[0], Direction::At { sense: 1, angle, lifts: false });
    let stage = b.stage(State::Moving);
    b.size(stage, push, 250.into());
    b.heading(stage, ids[0], 1);
    b.ask_acceleration("a", stage, ids[0]);
    b.finish()
}

/// Two loads over a pulley: the heavier reaches the floor, the other goes on and comes to rest; at last the string
/// tightens with a jerk. Stages 0 to 3.
pub(crate) fn landing() -> Situation {
    let mut b = Builder::new();
    let p = b.body("load P", "P", Form::Load, Line::Vertical, Some(5.into()));
    let q = b.body("load Q", "Q", Form::Load, Line::Vertical, Some(3.into()));
    let string = b.over_pulley("the string", p, q);
    let first = b.stage(State::Released);
    let down = b.journey(first, p).unwrap();
    b.know(down.start_speed, 0.into());
    b.know(down.distance, 2.into());
    let landed = Happening::Stops { body: p, at: "the floor".to_owned() };
    let second = b.then(first, landed, State::Moving);
    b.situation_mut().stages[second.0].without_links.push(string);
    b.heading(second, q, 1);
    let up = b.journey_from(second, q, down.end_speed, true).unwrap();
    b.know(up.distance, 0.into());
    b.ask_acceleration("a", first, p);
    let third = b.then(second, Happening::Tightens(string), State::Jerk);
    let _ = (b.journey_from(third, q, up.end_speed, true), b.journey(third, p));
    b.finish()
}

/// A block on a table, with a string over its edge that is cut, and another that is not; then the block stops at a buffer.
pub(crate) fn cut() -> Situation {
    let mut b = Builder::new();
    let block = b.body("block B", "B", Form::Block, Line::Level, Some(5.into()));
    let right = b.body("bucket A", "A", Form::Load, Line::Vertical, Some(6.into()));
    let mu = b.coefficient(Some(fraction(1, 5)));
    b.surface(block, "the table", Grip::Rough(mu));
    let string = b.over_pulley("the string", block, right);
    let first = b.stage(State::Released);
    let way = b.journey(first, block).unwrap();
    b.know(way.start_speed, 0.into());
    b.know(way.time, 2.into());
    let second = b.then(first, Happening::Breaks(string), State::Moving);
    b.heading(second, block, 1);
    b.journey_from(second, block, way.end_speed, false);
    let stops = Happening::Stops { body: block, at: "the buffer".to_owned() };
    let third = b.then(second, stops, State::Moving);
    b.situation_mut().stages[third.0].without_links.push(string);
    b.ask_acceleration("a", first, block);
    b.finish()
}

/// A crate held on a slope by hand, its partner hanging.
pub(crate) fn held() -> Situation {
    let mut b = Builder::new();
    let angle = b.angle("α", Angle::Degrees(30.into()));
    let line = Line::Slope { angle, rises_right: true };
    let p = b.body("crate P", "P", Form::Block, line, Some(5.into()));
    let q = b.body("bucket Q", "Q", Form::Load, Line::Vertical, Some(9.into()));
    b.surface(p, "the plane", Grip::Smooth);
    b.over_pulley("the string", p, q);
    let stage = b.stage(State::AtRest);
    b.situation_mut().stages[stage.0].held.push(p);
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
        ("truck", truck()),
        ("slabs", slabs()),
        ("stack-on-slope", stack_on_slope()),
        ("stack-and-pulley", stack_and_pulley()),
        ("turned-back", turned_back()),
        ("tied-on-top", tied_on_top()),
        ("hung-in-lift", hung_in_lift()),
        ("pulley-on-pulley", pulley_on_pulley()),
        ("load-under-pulley", load_under_pulley()),
        ("three-ends", three_ends()),
        ("two-strands", two_strands()),
        ("row", row()),
        ("landing", landing()),
        ("cut", cut()),
        ("held", held()),
    ]
}
