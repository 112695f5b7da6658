//! Questions turned round: a mass, a force, a resistance or a coefficient is wanted. The numbers are
//! those of Marram Quay exercises, each worked by hand beside the check.

mod support;

use exact::{Sign, Value};
use model::{Direction, Form, Grip, Line, Role, State, Wanted};
use motion::{answer, check, sign_with_positive_letters, solve};
use support::*;

/// 1050 − 250 = M × 0.5 from the trailer, F − 350 − 1050 = 2200 × 0.5 from the tractor.
#[test]
fn a_mass_and_a_driving_force() {
    let mut w = World::new();
    let tractor = w.form("the tractor", Form::Vehicle, Line::Level, 2200.into());
    let trailer = w.unknown_body("the trailer", Line::Level);
    let bar = w.b.tow("the tow-bar", tractor, trailer);
    let drive = w.b.act(Role::Driving, "the driving force", tractor, Direction::Along(1));
    let r1 = w.b.act(Role::Resistance, "the resistance on the tractor", tractor, Direction::Opposing);
    let r2 = w.b.act(Role::Resistance, "the resistance on the trailer", trailer, Direction::Opposing);
    let stage = w.stage(State::Moving);
    w.b.size(stage, r1, 350.into());
    w.b.size(stage, r2, 250.into());
    w.b.heading(stage, tractor, 1);
    w.know_acceleration(stage, tractor, ratio(1, 2));
    let tension = w.b.situation().stages[0].links[bar.0];
    w.b.know(tension, 1050.into());
    let mass = w.b.situation().bodies[trailer.0].mass;
    let w = w.finish();
    let solved = w.solved();
    assert_value(solved.value(mass), &Value::from_int(1600));
    assert_value(solved.value(w.situation.stages[0].forces[drive.0]), &Value::from_int(2500));
}

/// A journey from rest gives a, then the second resistance: 180 − 80 − X = 100 × 0.5, T − X = 40 × 0.5.
#[test]
fn a_resistance_from_a_journey() {
    let mut w = World::new();
    let p = w.body("P", Line::Level, 60.into());
    let q = w.body("Q", Line::Level, 40.into());
    let rope = w.b.string("the rope", p, q);
    let pull = w.b.act(Role::Applied, "the pull of the winch", p, Direction::Along(1));
    let r1 = w.b.act(Role::Resistance, "the resistance on P", p, Direction::Opposing);
    let r2 = w.b.act(Role::Resistance, "the resistance on Q", q, Direction::Opposing);
    let stage = w.stage(State::Moving);
    w.b.size(stage, pull, 180.into());
    w.b.size(stage, r1, 80.into());
    w.b.heading(stage, p, 1);
    let j = w.b.journey(stage, p).unwrap();
    w.b.know(j.start_speed, Value::zero());
    w.b.know(j.end_speed, 4.into());
    w.b.know(j.time, 8.into());
    let w = w.finish();
    let solved = w.solved();
    assert_value(solved.acceleration(q), &ratio(1, 2));
    assert_value(solved.value(w.situation.stages[0].forces[r2.0]), &Value::from_int(50));
    assert_value(solved.value(w.tension(rope.0)), &Value::from_int(70));
    assert_value(solved.value(j.distance), &Value::from_int(16));
}

/// 1.4² = 2a × 1.4, 6g − T = 6a, T − μ 8g = 8a (the form a = (m2 − μ m1)g/(m1 + m2) turned round).
#[test]
fn a_coefficient_from_a_journey() {
    let mut w = World::new();
    let a = w.body("A", Line::Level, 8.into());
    let c = w.body("B", Line::Vertical, 6.into());
    let mu = w.b.coefficient(None);
    w.b.surface(a, "the staging", Grip::Rough(mu));
    w.b.over_pulley("the rope", a, c);
    let stage = w.stage(State::Released);
    let j = w.b.journey(stage, c).unwrap();
    w.b.know(j.start_speed, Value::zero());
    w.b.know(j.distance, ratio(7, 5));
    w.b.know(j.end_speed, ratio(7, 5));
    let w = w.finish();
    let solved = w.solved();
    assert_value(solved.acceleration(a), &ratio(7, 10));
    assert_value(solved.value(w.tension(0)), &ratio(273, 5));
    assert_value(solved.value(mu), &ratio(5, 8));
}

/// 3.92 = ½ a 2², T − 2.5g = 2.5a, Mg − T = Ma; that Q falls has to be said, or P might.
#[test]
fn the_mass_of_the_one_that_falls() {
    let build = |falls: bool| {
        let mut w = World::new();
        let p = w.body("P", Line::Vertical, ratio(5, 2));
        let q = w.unknown_body("Q", Line::Vertical);
        w.b.over_pulley("the rope", p, q);
        let stage = w.stage(State::Released);
        if falls {
            w.b.heading(stage, q, -1);
        }
        let j = w.b.journey(stage, q).unwrap();
        w.b.know(j.start_speed, Value::zero());
        w.b.know(j.distance, ratio(98, 25));
        w.b.know(j.time, 2.into());
        w.finish()
    };
    let w = build(true);
    let solved = w.solved();
    assert_value(solved.acceleration(w.bodies[0]), &ratio(49, 25));
    assert_value(solved.value(w.tension(0)), &ratio(147, 5));
    assert_value(solved.value(w.situation.bodies[1].mass), &ratio(15, 4));
    let either = build(false);
    let refused = solve(&either.situation, model::StageId(0), 0).unwrap_err();
    assert_eq!(refused[0].refusal, Some(model::Refusal::Undetermined));
    assert!(refused[0].message.contains("mass of Q"), "{}", refused[0].message);
}

/// Smooth slope, unknown friction given by an acceleration: T = 6g − 6 × 1.8 = 48, F = 48 − 5g sin 30° − 9,
/// μ = F/(5g cos 30°) = 29√3/147.
#[test]
fn a_coefficient_with_a_surd() {
    let mut w = World::new();
    let angle = w.b.angle("α", exact::Angle::Degrees(30.into()));
    let stone = w.body("the stone", Line::Slope { angle, rises_right: true }, 5.into());
    let mu = w.b.coefficient(None);
    w.b.surface(stone, "the plane", Grip::Rough(mu));
    let load = w.body("the load", Line::Vertical, 6.into());
    w.b.over_pulley("the string", stone, load);
    let stage = w.stage(State::Released);
    w.know_acceleration(stage, load, ratio(-9, 5));
    let w = w.finish();
    let solved = w.solved();
    assert_value(solved.value(w.tension(0)), &Value::from_int(48));
    assert_value(solved.value(w.friction(0)), &ratio(29, 2));
    assert_eq!(solved.value(mu).unwrap().to_string(), "29*sqrt(3)/147");
}

/// A fact ties the unknowns: the whole resistance is 910 N, four fifths of it on the trailer
/// (1900 − 910 = 1800 × 0.55; T = 700 × 0.55 + 728).
#[test]
fn a_fact_shares_out_a_resistance() {
    let mut w = World::new();
    let car = w.form("the car", Form::Vehicle, Line::Level, 1100.into());
    let trailer = w.form("the trailer", Form::Trailer, Line::Level, 700.into());
    w.b.tow("the hitch", car, trailer);
    let drive = w.b.act(Role::Driving, "the driving force", car, Direction::Along(1));
    let r1 = w.b.act(Role::Resistance, "the resistance on the car", car, Direction::Opposing);
    let r2 = w.b.act(Role::Resistance, "the resistance on the trailer", trailer, Direction::Opposing);
    let stage = w.stage(State::Moving);
    w.b.size(stage, drive, 1900.into());
    w.b.heading(stage, car, 1);
    w.know_acceleration(stage, car, ratio(11, 20));
    let forces = w.b.situation().stages[0].forces.clone();
    w.b.situation_mut().relations.push(model::Relation {
        terms: vec![(Value::one(), vec![forces[r1.0]]), (ratio(-1, 4), vec![forces[r2.0]])],
        name: "four fifths of the resistance act on the trailer".to_owned(),
        span: None,
        from_part: 0,
    });
    let w = w.finish();
    let solved = w.solved();
    assert_value(solved.value(w.tension(0)), &Value::from_int(1113));
    assert_value(solved.value(forces[r1.0]), &Value::from_int(182));
}

/// A mass that is a multiple of an unknown mass: m and 3m, with T = 14.7: 2T = 3mg, m = 1.
#[test]
fn a_letter_that_is_itself_wanted() {
    let mut w = World::new();
    let p = w.unknown_body("P", Line::Vertical);
    let mass = w.b.situation().bodies[p.0].mass;
    w.b.letter(mass, "m");
    let q = w.body("Q", Line::Vertical, Value::from_int(3) * Value::symbol("m"));
    let string = w.b.over_pulley("the string", p, q);
    let stage = w.stage(State::Released);
    let tension = w.b.situation().stages[stage.0].links[string.0];
    w.b.know(tension, ratio(147, 10));
    let w = w.finish();
    let solved = w.solved();
    assert_value(solved.value(mass), &Value::one());
    assert_value(solved.value(w.situation.bodies[q.0].mass), &Value::from_int(3));
    assert_value(solved.acceleration(p), &ratio(49, 10));
}

/// Limiting equilibrium up the slope: P = mg sin θ + μ mg cos θ; down, P = mg sin θ − μ mg cos θ; without
/// saying which, either would do.
#[test]
fn the_least_and_the_greatest_force_that_hold() {
    let build = |heading: Option<i8>| {
        let mut w = World::new();
        let angle = w.b.angle("α", tan(3, 4));
        let block = w.body("the block", Line::Slope { angle, rises_right: true }, 10.into());
        w.ground(block, Some(ratio(1, 4)));
        w.b.act(Role::Applied, "the force P", block, Direction::Along(1));
        let stage = w.stage(State::Limiting);
        if let Some(sense) = heading {
            w.b.heading(stage, block, sense);
        }
        w.finish()
    };
    for (heading, force) in [(1, ratio(392, 5)), (-1, ratio(196, 5))] {
        let w = build(Some(heading));
        assert_value(w.solved().value(w.situation.stages[0].forces[0]), &force);
    }
    let refused = solve(&build(None).situation, model::StageId(0), 0).unwrap_err();
    assert_eq!(refused[0].refusal, Some(model::Refusal::Undetermined));
}

/// At constant speed up the slope the pull balances: P = mg sin θ + μ mg cos θ.
#[test]
fn a_steady_pull_finds_the_coefficient() {
    let mut w = World::new();
    let angle = w.b.angle("α", tan(3, 4));
    let block = w.body("the block", Line::Slope { angle, rises_right: true }, 10.into());
    let mu = w.b.coefficient(None);
    w.b.surface(block, "the slipway", Grip::Rough(mu));
    let pull = w.b.act(Role::Applied, "the pull", block, Direction::Along(1));
    let stage = w.stage(State::Steady);
    w.b.size(stage, pull, ratio(392, 5));
    w.b.heading(stage, block, 1);
    let w = w.finish();
    assert_value(w.solved().value(mu), &ratio(1, 4));
}

/// Two stages share a resistance: the first, at constant speed, gives it; the second uses it.
/// 900 = X; 1500 − X = 1200a.
#[test]
fn one_stage_tells_another() {
    let mut w = World::new();
    let truck = w.form("the truck", Form::Vehicle, Line::Level, 1200.into());
    let drive = w.b.act(Role::Driving, "the driving force", truck, Direction::Along(1));
    let drag = w.b.act(Role::Resistance, "the resistance", truck, Direction::Opposing);
    let steady = w.stage(State::Steady);
    let faster = w.stage(State::Moving);
    w.b.size(steady, drive, 900.into());
    w.b.size(faster, drive, 1500.into());
    let shared = w.b.situation().stages[steady.0].forces[drag.0];
    w.b.situation_mut().stages[faster.0].forces[drag.0] = shared;
    for stage in [steady, faster] {
        w.b.heading(stage, truck, 1);
    }
    let w = w.finish();
    let solved = solve(&w.situation, faster, 0).unwrap();
    check(&w.situation, &solved).unwrap();
    assert_value(solved.acceleration(truck), &ratio(1, 2));
    assert_value(solved.value(shared), &Value::from_int(900));
}

/// A journey that slows: 0 = 8² − 2 × 1.6 s, and of the two times of the quadratic only one keeps v ≥ 0.
#[test]
fn a_journey_that_ends_at_rest() {
    let mut w = World::new();
    let lorry = w.form("the lorry", Form::Vehicle, Line::Level, 2400.into());
    let brake = w.b.act(Role::Braking, "the braking force", lorry, Direction::Along(-1));
    let stage = w.stage(State::Moving);
    w.b.size(stage, brake, 3840.into());
    w.b.heading(stage, lorry, 1);
    let j = w.b.journey(stage, lorry).unwrap();
    w.b.know(j.start_speed, 8.into());
    w.b.know(j.distance, 15.into());
    let w = w.finish();
    let solved = w.solved();
    assert_value(solved.value(j.end_speed), &Value::from_int(4));
    assert_value(solved.value(j.time), &ratio(5, 2));
}

/// A given of a later part is not used before: without it the answer is missing, and is not guessed.
#[test]
fn a_later_given_is_not_used_before_its_part() {
    let mut w = World::new();
    let block = w.body("the block", Line::Level, 4.into());
    let mu = w.b.coefficient(None);
    w.b.surface(block, "the quay", Grip::Rough(mu));
    let pull = w.b.act(Role::Applied, "the pull", block, Direction::Along(1));
    let stage = w.stage(State::Moving);
    w.b.size(stage, pull, 30.into());
    w.b.heading(stage, block, 1);
    let a = w.b.situation().stages[0].accelerations[0];
    w.b.know_as(
        mu,
        model::Known {
            value: ratio(1, 4),
            written: "0.25".to_owned(),
            basis: model::Basis::Given(model::Span::new(3, 7)),
            from_part: 1,
        },
    );
    w.b.ask("a", stage, "acceleration of the block", Wanted::Quantity(a));
    let w = w.finish();
    let early = solve(&w.situation, stage, 0).unwrap();
    let refused = answer(&w.situation, &early, &w.situation.asks[0]).unwrap_err();
    assert_eq!(refused.refusal, Some(model::Refusal::Incomplete));
    assert!(refused.message.contains("coefficient of friction"), "{}", refused.message);
    let late = solve(&w.situation, stage, 1).unwrap();
    assert_value(late.value(a), &ratio(101, 20)); // 30 − 9.8 = 4a
    assert_eq!(sign_with_positive_letters(late.value(a).unwrap()), Some(Sign::Positive));
}

/// Smooth: g sin θ = 4.9 gives sin θ = 1/2. Limiting: tan θ = μ (OpenStax College Physics, angle of repose).
#[test]
fn an_angle_is_found_by_its_sine() {
    let build = |state: State, mu: Option<Value>| {
        let mut w = World::new();
        let angle = w.b.quantity(model::Kind::Angle, "θ", "angle of the ramp");
        let block = w.body("the block", Line::Slope { angle, rises_right: true }, 3.into());
        w.ground(block, mu);
        let stage = w.stage(state);
        w.b.heading(stage, block, -1);
        if state == State::Released {
            w.know_acceleration(stage, block, ratio(-49, 10));
        }
        w.b.ask("a", stage, "angle of the ramp", Wanted::Quantity(angle));
        (w.finish(), angle)
    };
    let (w, angle) = build(State::Released, None);
    let solved = w.solved();
    assert_value(solved.angles[&angle].sin().ok().as_ref(), &ratio(1, 2));
    let found = answer(&w.situation, &solved, &w.situation.asks[0]).unwrap();
    assert_value(found.value.as_ref(), &Value::from_int(30));
    let (w, angle) = build(State::Limiting, Some(ratio(3, 4)));
    assert_value(w.solved().angles[&angle].tan().ok().as_ref(), &ratio(3, 4));
}

/// Masses m and km with a = g/5 given: k is wanted, (k − 1)/(k + 1) = 1/5, so k = 3/2 (UP Ex 6.5 turned
/// round); and with k a letter that stays open, the acceleration g/5 cannot be had for every k.
#[test]
fn a_multiple_is_wanted() {
    let build = |wanted: bool| {
        let mut w = World::new();
        w.b.open_letter("m", model::Kind::Mass);
        w.b.open_letter("g", model::Kind::Gravity);
        w.b.gravity(Value::symbol("g"));
        let k = w.b.quantity(model::Kind::Number, "k", "value of k");
        if wanted {
            w.b.letter(k, "k");
        } else {
            w.b.open_letter("k", model::Kind::Number);
        }
        let p = w.body("P", Line::Vertical, Value::symbol("m"));
        let q = w.body("Q", Line::Vertical, Value::symbol("k") * Value::symbol("m"));
        w.b.over_pulley("the string", p, q);
        let stage = w.stage(State::Released);
        w.know_acceleration(stage, p, Value::symbol("g").checked_div(&5.into()).unwrap());
        (w.finish(), k)
    };
    let (w, k) = build(true);
    let solved = w.solved();
    assert_value(solved.value(k), &ratio(3, 2));
    assert_eq!(solved.value(w.tension(0)).unwrap().to_string(), "6*m*g/5");
    let (open, _) = build(false);
    let refused = solve(&open.situation, model::StageId(0), 0).unwrap_err();
    assert_eq!(refused[0].refusal, Some(model::Refusal::Contradictory));
}
