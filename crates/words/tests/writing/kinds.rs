//! The kinds of situations that examinations ask about, as examinations put them: what is known of each is what a
//! question would give.

use crate::draw::Draw;
use exact::{Angle, Rational, Value};
use model::*;

type Build = fn(&mut Draw<'_>) -> Situation;

/// Every kind, with its name.
pub(crate) const ALL: [(&str, Build); 24] = [
    ("a train on the level", |d| train(d, false)),
    ("a train on a slope", |d| train(d, true)),
    ("a train that brakes", braking),
    ("a driving force wanted", driving_wanted),
    ("loads pulled along by a string", pulled),
    ("a lift and its loads", lift),
    ("a load hung in a lift", hung_in_lift),
    ("loads one below the other", one_below),
    ("two loads over a pulley", over_pulley),
    ("masses in letters", letters),
    ("a mass wanted", mass_wanted),
    ("a table and a load", |d| edge(d, false)),
    ("a slope and a load", |d| edge(d, true)),
    ("a coefficient wanted", mu_wanted),
    ("two slopes", two_slopes),
    ("two loads over two edges", two_edges),
    ("bodies in contact", contact),
    ("one body upon another", stack),
    ("a pull at an angle", aslant),
    ("on the point of moving", limiting),
    ("at constant speed", steady),
    ("a load lands", landing),
    ("a string breaks", breaking),
    ("an engine is switched off", engine_off),
];

const HARD: [(&str, Form); 4] =
    [("block", Form::Block), ("crate", Form::Block), ("particle", Form::Particle), ("box", Form::Block)];
const LOADS: [(&str, Form); 4] =
    [("load", Form::Load), ("bucket", Form::Load), ("particle", Form::Particle), ("sack", Form::Load)];
const GROUNDS: [&str; 4] = ["the table", "the bench", "the floor", "the deck"];
const SLOPES: [&str; 4] = ["the plane", "the slope", "the ramp", "the slipway"];

/// A body with a letter, and its mass.
fn lettered(b: &mut Builder, d: &mut Draw<'_>, letter: &str, of: &[(&str, Form)], line: Line) -> BodyId {
    let (noun, form) = d.of(of);
    let mass = d.number(1, 1);
    b.body(&format!("{noun} {letter}"), letter, form, line, Some(mass))
}

fn slope_line(b: &mut Builder, d: &mut Draw<'_>) -> Line {
    let angle = d.slope();
    Line::Slope { angle: b.angle("α", angle), rises_right: true }
}

/// Smooth, or rough with a coefficient.
fn grip(b: &mut Builder, d: &mut Draw<'_>) -> Grip {
    match d.coin() {
        false => Grip::Smooth,
        true => {
            let mu = d.mu();
            Grip::Rough(b.coefficient(Some(mu)))
        }
    }
}

fn maybe_gravity(b: &mut Builder, d: &mut Draw<'_>) {
    match d.of(&[0, 1, 2]) {
        1 => b.gravity(10.into()),
        2 => b.gravity(crate::draw::ratio(981, 100)),
        _ => {}
    }
}

fn acceleration(b: &Builder, stage: StageId, body: BodyId) -> QuantityId {
    b.situation().stages[stage.0].accelerations[body.0]
}

/// One or two questions about a link and an acceleration, lettered or not, with marks or to some accuracy.
fn asks(b: &mut Builder, d: &mut Draw<'_>, stage: StageId, body: BodyId, link: Option<LinkId>) {
    let labels = d.of(&[["a", "b"], ["i", "ii"], ["", ""]]);
    b.ask_acceleration(labels[0], stage, body);
    if let Some(link) = link {
        b.ask_link(labels[1], stage, link);
    }
    let marks = d.coin() && !labels[0].is_empty();
    let accuracy = d.of(&[None, Some(Accuracy::Significant(3)), Some(Accuracy::Places(1))]);
    for ask in &mut b.situation_mut().asks {
        ask.marks = marks.then_some(3);
        ask.accuracy = accuracy;
    }
}

/// The label that follows two others.
fn third(b: &Builder) -> &'static str {
    if b.situation().asks.iter().any(|a| a.part.starts_with('i')) { "iii" } else { "c" }
}

/// The speed after a distance, or after a time; from rest.
fn journey(b: &mut Builder, d: &mut Draw<'_>, stage: StageId, body: BodyId) {
    if !d.coin() || b.situation().asks.iter().any(|a| a.part.is_empty()) {
        return;
    }
    let last = third(b);
    let j = b.journey(stage, body).expect("a journey");
    b.know(j.start_speed, 0.into());
    let (given, wanted) =
        d.of(&[(j.distance, j.end_speed), (j.time, j.end_speed), (j.time, j.distance), (j.distance, j.time)]);
    let size = d.number(1, 1);
    b.know(given, size);
    b.ask(last, stage, "the journey", Wanted::Quantity(wanted));
}

fn train(d: &mut Draw<'_>, sloping: bool) -> Situation {
    let mut b = Builder::new();
    maybe_gravity(&mut b, d);
    let line = if sloping { slope_line(&mut b, d) } else { Line::Level };
    let front = d.of(&["car", "engine", "van", "tractor", "lorry"]);
    let first = b.body(
        &format!("the {front}"),
        front,
        Form::Vehicle,
        line,
        Some((1000 + 100 * d.of(&[0, 2, 5])).into()),
    );
    let two = d.coin();
    let names = if two {
        vec!["truck A", "truck B"]
    } else {
        vec![d.of(&["the trailer", "the caravan", "the wagon"])]
    };
    let mut bodies = vec![first];
    let mut links = Vec::new();
    for name in names {
        let mass = d.number(400, 20);
        let body = b.body(name, "", Form::Trailer, line, Some(mass));
        let bar = d.of(&["the tow-bar", "the coupling", "the tow-rope"]);
        let front = bodies[bodies.len() - 1];
        links.push(if bar == "the tow-rope" { b.string(bar, front, body) } else { b.tow(bar, front, body) });
        bodies.push(body);
    }
    for body in &bodies {
        b.surface(*body, if sloping { "the hill" } else { "the road" }, Grip::Unsaid);
    }
    let drive = b.act(Role::Driving, "the driving force", first, Direction::Along(1));
    let resistances: Vec<ActionId> =
        bodies.iter().map(|x| b.act(Role::Resistance, "the resistance", *x, Direction::Opposing)).collect();
    let stage = b.stage(State::Moving);
    b.heading(stage, first, 1);
    let size = d.number(2000, 100);
    b.size(stage, drive, size);
    for r in resistances {
        let size = d.number(100, 20);
        b.size(stage, r, size);
    }
    asks(&mut b, d, stage, first, links.first().copied());
    b.finish()
}

fn braking(d: &mut Draw<'_>) -> Situation {
    let mut b = Builder::new();
    let lorry = b.body("the lorry", "lorry", Form::Vehicle, Line::Level, Some(2400.into()));
    let mass = d.number(500, 50);
    let trailer = b.body("the trailer", "trailer", Form::Trailer, Line::Level, Some(mass));
    for body in [lorry, trailer] {
        b.surface(body, "the road", Grip::Unsaid);
    }
    let bar = b.tow("the tow-bar", lorry, trailer);
    let brake = b.act(Role::Braking, "the braking force", lorry, Direction::Opposing);
    let one = b.act(Role::Resistance, "the resistance", lorry, Direction::Opposing);
    let stage = b.stage(State::Moving);
    b.heading(stage, lorry, 1);
    for (a, low) in [(brake, 3000), (one, 200)] {
        let size = d.number(low, 50);
        b.size(stage, a, size);
    }
    b.ask("a", stage, "deceleration", Wanted::Deceleration(lorry));
    b.ask_link("b", stage, bar);
    b.finish()
}

fn driving_wanted(d: &mut Draw<'_>) -> Situation {
    let mut b = Builder::new();
    let line = if d.coin() { slope_line(&mut b, d) } else { Line::Level };
    let car = b.body("the car", "car", Form::Vehicle, line, Some(1200.into()));
    let trailer = b.body("the trailer", "trailer", Form::Trailer, line, Some(400.into()));
    for body in [car, trailer] {
        b.surface(body, "the road", Grip::Unsaid);
    }
    let bar = b.tow("the tow-bar", car, trailer);
    let one = b.act(Role::Resistance, "the resistance", car, Direction::Opposing);
    let two = b.act(Role::Resistance, "the resistance", trailer, Direction::Opposing);
    let drive = b.act(Role::Driving, "the driving force", car, Direction::Along(1));
    let stage = b.stage(State::Moving);
    b.heading(stage, car, 1);
    for a in [one, two] {
        let size = d.number(100, 20);
        b.size(stage, a, size);
    }
    let a = acceleration(&b, stage, car);
    b.know(a, d.of(&[crate::draw::ratio(1, 2), crate::draw::ratio(3, 4), 2.into()]));
    let wanted = b.situation().stages[stage.0].forces[drive.0];
    b.ask("a", stage, "driving force", Wanted::Quantity(wanted));
    b.ask_link("b", stage, bar);
    b.finish()
}

fn pulled(d: &mut Draw<'_>) -> Situation {
    let mut b = Builder::new();
    maybe_gravity(&mut b, d);
    let first = lettered(&mut b, d, "A", &HARD, Line::Level);
    let second = lettered(&mut b, d, "B", &HARD, Line::Level);
    let (ground, grip) = (d.of(&GROUNDS), grip(&mut b, d));
    b.surface(first, ground, grip);
    b.surface(second, ground, grip);
    let rope = b.string("the rope", first, second);
    let pull = b.act(Role::Applied, "the force", first, Direction::Along(1));
    let told = d.coin();
    let stage = b.stage(if told { State::Moving } else { State::Released });
    if told {
        b.heading(stage, first, 1);
        let a = acceleration(&b, stage, first);
        let size = d.number(1, 1);
        b.know(a, size);
        let force = b.situation().stages[stage.0].forces[pull.0];
        b.letter(force, "P");
        b.ask("a", stage, "P", Wanted::Quantity(force));
        b.ask_link("b", stage, rope);
    } else {
        let size = d.number(20, 5);
        b.size(stage, pull, size);
        asks(&mut b, d, stage, first, Some(rope));
    }
    b.finish()
}

fn lift(d: &mut Draw<'_>) -> Situation {
    let mut b = Builder::new();
    maybe_gravity(&mut b, d);
    let name = d.of(&["lift", "cage", "hoist", "elevator"]);
    let mass = d.number(400, 25);
    let lift = b.body(&format!("the {name}"), name, Form::Lift, Line::Vertical, Some(mass));
    let load = d.of(&[("the crate", Form::Block), ("the man", Form::Person), ("the engineer", Form::Person)]);
    let mass = d.number(60, 5);
    let load = b.body(load.0, "", load.1, Line::Vertical, Some(mass));
    let floor = b.rests_on("the reaction", load, lift);
    let cable = b.act(Role::Cable, "tension in the cable", lift, Direction::Along(1));
    let stage = b.stage(State::Moving);
    let up = if d.coin() { -1 } else { 1 };
    b.heading(stage, lift, up);
    let slows = if d.coin() { -1 } else { 1 };
    let a = acceleration(&b, stage, lift);
    let size = d.number(1, 1);
    b.know(a, Value::from_int(i64::from(up) * slows) * size);
    let tension = b.situation().stages[stage.0].forces[cable.0];
    b.ask("a", stage, "tension in the cable", Wanted::Quantity(tension));
    b.ask_link("b", stage, floor);
    b.finish()
}

fn hung_in_lift(d: &mut Draw<'_>) -> Situation {
    let mut b = Builder::new();
    let lift = b.body("the lift", "lift", Form::Lift, Line::Vertical, None);
    let mass = d.number(2, 1);
    let load = b.body("the load", "load", Form::Load, Line::Vertical, Some(mass));
    let string = b.string("the string", lift, load);
    b.act(Role::Cable, "tension in the cable", lift, Direction::Along(1));
    let stage = b.stage(State::Moving);
    b.heading(stage, lift, 1);
    let a = acceleration(&b, stage, lift);
    let size = d.number(1, 1);
    b.know(a, size);
    b.ask_link("", stage, string);
    b.finish()
}

fn one_below(d: &mut Draw<'_>) -> Situation {
    let mut b = Builder::new();
    let upper = lettered(&mut b, d, "A", &HARD, Line::Vertical);
    let lower = lettered(&mut b, d, "B", &HARD, Line::Vertical);
    let rope = b.string("the rope", upper, lower);
    let cable = b.act(Role::Cable, "tension in the cable", upper, Direction::Along(1));
    let stage = b.stage(State::Moving);
    b.heading(stage, upper, 1);
    let a = acceleration(&b, stage, upper);
    let size = d.number(1, 1);
    b.know(a, size);
    let tension = b.situation().stages[stage.0].forces[cable.0];
    b.ask("a", stage, "tension in the cable", Wanted::Quantity(tension));
    b.ask_link("b", stage, rope);
    b.finish()
}

fn over_pulley(d: &mut Draw<'_>) -> Situation {
    let mut b = Builder::new();
    maybe_gravity(&mut b, d);
    let p = lettered(&mut b, d, "P", &LOADS, Line::Vertical);
    let q = lettered(&mut b, d, "Q", &LOADS, Line::Vertical);
    let string = b.over_pulley(d.of(&["the string", "the rope", "the cord"]), p, q);
    let stage = b.stage(State::Released);
    asks(&mut b, d, stage, p, Some(string));
    if b.situation().asks.iter().all(|a| !a.part.is_empty()) && d.coin() {
        let label = third(&b);
        b.ask(label, stage, "force on the pulley", Wanted::PulleyForce(PulleyId(0)));
    } else {
        journey(&mut b, d, stage, q);
    }
    b.finish()
}

fn letters(d: &mut Draw<'_>) -> Situation {
    let mut b = Builder::new();
    b.open_letter("m", Kind::Mass);
    b.open_letter("g", Kind::Gravity);
    b.gravity(Value::symbol("g"));
    let m = Value::symbol("m");
    let times = d.of(&[2, 3, 5]);
    let p = b.body("particle P", "P", Form::Particle, Line::Vertical, Some(m.clone()));
    let q = b.body("particle Q", "Q", Form::Particle, Line::Vertical, Some(Value::from_int(times) * m));
    let string = b.over_pulley("the string", p, q);
    let stage = b.stage(State::Released);
    asks(&mut b, d, stage, q, Some(string));
    for ask in &mut b.situation_mut().asks {
        ask.accuracy = None;
    }
    b.finish()
}

fn mass_wanted(d: &mut Draw<'_>) -> Situation {
    let mut b = Builder::new();
    maybe_gravity(&mut b, d);
    let p = lettered(&mut b, d, "P", &LOADS, Line::Vertical);
    let q = b.body("particle Q", "Q", Form::Particle, Line::Vertical, None);
    let string = b.over_pulley("the string", p, q);
    let stage = b.stage(State::Released);
    let tension = b.situation().stages[stage.0].links[string.0];
    let size = d.number(20, 2);
    b.know(tension, size);
    b.ask_acceleration("a", stage, p);
    let mass = b.situation().bodies[q.0].mass;
    b.ask("b", stage, "mass of Q", Wanted::Quantity(mass));
    b.finish()
}

fn edge(d: &mut Draw<'_>, sloping: bool) -> Situation {
    let mut b = Builder::new();
    maybe_gravity(&mut b, d);
    let line = if sloping { slope_line(&mut b, d) } else { Line::Level };
    let a = lettered(&mut b, d, "A", &HARD, line);
    let c = lettered(&mut b, d, "B", &LOADS, Line::Vertical);
    let grip = grip(&mut b, d);
    b.surface(a, if sloping { d.of(&SLOPES) } else { d.of(&GROUNDS) }, grip);
    let string = b.over_pulley(d.of(&["the string", "the rope"]), a, c);
    let stage = b.stage(State::Released);
    asks(&mut b, d, stage, a, Some(string));
    journey(&mut b, d, stage, c);
    b.finish()
}

fn mu_wanted(d: &mut Draw<'_>) -> Situation {
    let mut b = Builder::new();
    let line = if d.coin() { slope_line(&mut b, d) } else { Line::Level };
    let a = lettered(&mut b, d, "A", &HARD, line);
    let c = lettered(&mut b, d, "B", &LOADS, Line::Vertical);
    let mu = b.coefficient(None);
    b.surface(a, if line == Line::Level { "the table" } else { "the plane" }, Grip::Rough(mu));
    let string = b.over_pulley("the string", a, c);
    let stage = b.stage(State::Moving);
    b.heading(stage, a, 1);
    let q = acceleration(&b, stage, a);
    let size = d.number(1, 1);
    b.know(q, size);
    b.ask_link("a", stage, string);
    b.ask("b", stage, "coefficient", Wanted::Quantity(mu));
    b.finish()
}

fn two_slopes(d: &mut Draw<'_>) -> Situation {
    let mut b = Builder::new();
    let one = slope_line(&mut b, d);
    let other = d.of(&[60, 45, 50]);
    let other = b.angle("β", Angle::Degrees(Rational::from_int(other)));
    let a = lettered(&mut b, d, "A", &HARD, one);
    let c = lettered(&mut b, d, "B", &HARD, Line::Slope { angle: other, rises_right: false });
    for body in [a, c] {
        let grip = grip(&mut b, d);
        b.surface(body, "the plane", grip);
    }
    let string = b.over_pulley("the string", a, c);
    let stage = b.stage(State::Released);
    asks(&mut b, d, stage, a, Some(string));
    b.finish()
}

fn two_edges(d: &mut Draw<'_>) -> Situation {
    let mut b = Builder::new();
    let block = lettered(&mut b, d, "B", &HARD, Line::Level);
    let right = lettered(&mut b, d, "A", &LOADS, Line::Vertical);
    let left = lettered(&mut b, d, "C", &LOADS, Line::Vertical);
    let grip = grip(&mut b, d);
    b.surface(block, "the table", grip);
    let string = b.over_pulley("the string", block, right);
    let link = b.over_pulley("the string", block, left);
    b.situation_mut().links[link.0].ends[0].sense = -1;
    let stage = b.stage(State::Released);
    let asked = d.of(&[string, link]);
    asks(&mut b, d, stage, block, Some(asked));
    b.finish()
}

fn contact(d: &mut Draw<'_>) -> Situation {
    let mut b = Builder::new();
    let count = d.of(&[2, 3]);
    let (ground, grip) = (d.of(&GROUNDS), grip(&mut b, d));
    let noun = d.of(&HARD);
    let mut before: Option<BodyId> = None;
    let mut links = Vec::new();
    for letter in ["A", "B", "C"].into_iter().take(count) {
        let body = lettered(&mut b, d, letter, &[noun], Line::Level);
        b.surface(body, ground, grip);
        if let Some(before) = before {
            links.push(b.rests_on("the push", body, before));
        }
        before = Some(body);
    }
    let push = b.act(Role::Applied, "the force", BodyId(0), Direction::Along(1));
    let stage = b.stage(State::Released);
    let size = d.number(20, 5);
    b.size(stage, push, size);
    asks(&mut b, d, stage, BodyId(0), links.last().copied());
    b.finish()
}

fn stack(d: &mut Draw<'_>) -> Situation {
    let mut b = Builder::new();
    maybe_gravity(&mut b, d);
    let low = lettered(&mut b, d, "A", &HARD, Line::Level);
    let top = lettered(&mut b, d, "B", &HARD, Line::Level);
    let under = grip(&mut b, d);
    b.surface(low, "the floor", under);
    let mu = d.mu();
    let mu = b.coefficient(Some(mu));
    b.on_top(top, low, Grip::Rough(mu));
    let pull = b.act(Role::Applied, "the force", d.of(&[low, top]), Direction::Along(1));
    let stage = b.stage(State::Released);
    let size = d.number(10, 5);
    b.size(stage, pull, size);
    b.ask_acceleration("a", stage, low);
    let friction = b.situation().stages[stage.0].frictions[top.0].expect("rough");
    b.ask("b", stage, "friction", Wanted::Quantity(friction));
    b.finish()
}

fn aslant(d: &mut Draw<'_>) -> Situation {
    let mut b = Builder::new();
    let a = lettered(&mut b, d, "A", &HARD, Line::Level);
    let grip = grip(&mut b, d);
    b.surface(a, d.of(&GROUNDS), grip);
    let angle = d.slope();
    let angle = b.angle("θ", angle);
    let pull = b.act(Role::Applied, "the force", a, Direction::At { sense: 1, angle, lifts: !d.coin() });
    let stage = b.stage(State::Released);
    let size = d.number(20, 5);
    b.size(stage, pull, size);
    b.ask_acceleration("a", stage, a);
    let reaction = b.situation().stages[stage.0].reactions[a.0].expect("a surface");
    b.ask("b", stage, "reaction", Wanted::Quantity(reaction));
    b.finish()
}

fn limiting(d: &mut Draw<'_>) -> Situation {
    let mut b = Builder::new();
    let line = if d.coin() { slope_line(&mut b, d) } else { Line::Level };
    let a = lettered(&mut b, d, "A", &HARD, line);
    let c = lettered(&mut b, d, "B", &LOADS, Line::Vertical);
    let mu = b.coefficient(None);
    b.surface(a, if line == Line::Level { "the table" } else { "the plane" }, Grip::Rough(mu));
    let string = b.over_pulley("the string", a, c);
    let stage = b.stage(State::Limiting);
    b.heading(stage, a, if line != Line::Level && d.coin() { -1 } else { 1 });
    b.ask_link("a", stage, string);
    b.ask("b", stage, "coefficient", Wanted::Quantity(mu));
    b.finish()
}

fn steady(d: &mut Draw<'_>) -> Situation {
    let mut b = Builder::new();
    let line = if d.coin() { slope_line(&mut b, d) } else { Line::Level };
    let a = lettered(&mut b, d, "A", &HARD, line);
    let mu = d.mu();
    let mu = b.coefficient(Some(mu));
    b.surface(a, if line == Line::Level { "the floor" } else { "the plane" }, Grip::Rough(mu));
    let pull = b.act(Role::Applied, "the force", a, Direction::Along(1));
    let stage = b.stage(State::Steady);
    b.heading(stage, a, 1);
    let force = b.situation().stages[stage.0].forces[pull.0];
    b.letter(force, "P");
    b.ask("", stage, "P", Wanted::Quantity(force));
    b.finish()
}

/// A block on a table or another load, and a load that reaches the floor: the speed then, and what comes after.
fn landing(d: &mut Draw<'_>) -> Situation {
    let mut b = Builder::new();
    let line = if d.coin() { Line::Vertical } else { Line::Level };
    let q = if line == Line::Level {
        lettered(&mut b, d, "Q", &HARD, line)
    } else {
        lettered(&mut b, d, "Q", &LOADS, line)
    };
    let p = lettered(&mut b, d, "P", &LOADS, Line::Vertical);
    if line == Line::Level {
        let mu = d.mu();
        let mu = b.coefficient(Some(mu));
        b.surface(q, "the table", Grip::Rough(mu));
    }
    let string = b.over_pulley("the string", q, p);
    let first = b.stage(State::Released);
    let down = b.journey(first, p).expect("a journey");
    b.know(down.start_speed, 0.into());
    let size = d.number(1, 1);
    b.know(down.distance, size);
    let second = b.then(first, Happening::Stops { body: p, at: "the floor".to_owned() }, State::Moving);
    b.situation_mut().stages[second.0].without_links.push(string);
    b.heading(second, q, 1);
    let up = b.journey_from(second, q, down.end_speed, false).expect("a journey");
    b.know(up.end_speed, 0.into());
    b.ask("a", first, "speed", Wanted::Quantity(down.end_speed));
    match d.of(&[0, 1, 2]) {
        0 => b.ask("b", second, "further distance", Wanted::Quantity(up.distance)),
        1 => b.ask("b", second, "time", Wanted::Quantity(up.time)),
        _ => {
            let total =
                b.total(Kind::Distance, "s", "total distance", &[(1, down.distance), (1, up.distance)]);
            b.ask("b", second, "total distance", Wanted::Quantity(total));
        }
    }
    b.finish()
}

fn breaking(d: &mut Draw<'_>) -> Situation {
    let mut b = Builder::new();
    let a = lettered(&mut b, d, "A", &HARD, Line::Level);
    let c = lettered(&mut b, d, "B", &LOADS, Line::Vertical);
    let mu = d.mu();
    let mu = b.coefficient(Some(mu));
    b.surface(a, d.of(&GROUNDS), Grip::Rough(mu));
    let string = b.over_pulley(d.of(&["the string", "the rope"]), a, c);
    let first = b.stage(State::Released);
    let way = b.journey(first, a).expect("a journey");
    b.know(way.start_speed, 0.into());
    let size = d.number(1, 1);
    b.know(way.time, size);
    let second = b.then(first, Happening::Breaks(string), State::Moving);
    b.heading(second, a, 1);
    let on = b.journey_from(second, a, way.end_speed, false).expect("a journey");
    b.know(on.end_speed, 0.into());
    b.ask("a", first, "speed", Wanted::Quantity(way.end_speed));
    b.ask_acceleration("b", second, a);
    b.ask("c", second, "further distance", Wanted::Quantity(on.distance));
    b.finish()
}

fn engine_off(d: &mut Draw<'_>) -> Situation {
    let mut b = Builder::new();
    let car = b.body("the car", "car", Form::Vehicle, Line::Level, Some(1200.into()));
    let mass = d.number(400, 20);
    let trailer = b.body("the trailer", "trailer", Form::Trailer, Line::Level, Some(mass));
    for body in [car, trailer] {
        b.surface(body, "the road", Grip::Unsaid);
    }
    let bar = b.tow("the tow-bar", car, trailer);
    let drive = b.act(Role::Driving, "the driving force", car, Direction::Along(1));
    let resistances =
        [car, trailer].map(|x| b.act(Role::Resistance, "the resistance", x, Direction::Opposing));
    let first = b.stage(State::Moving);
    let sizes: Vec<(ActionId, Value)> = [(drive, 2000), (resistances[0], 300), (resistances[1], 100)]
        .map(|(a, n)| (a, d.number(n, 20)))
        .to_vec();
    b.heading(first, car, 1);
    let way = b.journey(first, car).expect("a journey");
    b.know(way.start_speed, 0.into());
    let size = d.number(2, 1);
    b.know(way.time, size);
    let second = b.then(first, Happening::Ends(drive), State::Moving);
    b.heading(second, car, 1);
    for stage in [first, second] {
        for (action, size) in &sizes {
            b.size(stage, *action, size.clone());
        }
    }
    let on = b.journey_from(second, car, way.end_speed, false).expect("a journey");
    b.know(on.end_speed, 0.into());
    b.ask("a", first, "speed", Wanted::Quantity(way.end_speed));
    b.ask_link("b", second, bar);
    b.ask("c", second, "time", Wanted::Quantity(on.time));
    b.finish()
}
