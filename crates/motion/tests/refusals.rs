//! What cannot be answered is refused, with the reason; and answers say what they are.

#![allow(clippy::expect_used, reason = "a test that cannot be set up should stop")]

mod support;

use exact::Value;
use model::{Ask, Direction, Form, Grip, Line, LinkId, Refusal, Role, StageId, State, Wanted};
use motion::{About, answer, remarks, solve};
use support::*;

fn refused(w: &Built) -> model::Diagnostic {
    solve(&w.situation, StageId(0), 0).expect_err("no motion fits").remove(0)
}

fn ask(wanted: Wanted) -> Ask {
    Ask {
        part: "a".to_owned(),
        part_index: 0,
        phrase: "the acceleration".to_owned(),
        wanted,
        show: None,
        accuracy: None,
        stage: StageId(0),
        span: model::Span::new(10, 20),
        marks: None,
    }
}

/// 1000 = 500a gives a = 2, and 3 is given: the odd one out is named with both values.
#[test]
fn an_acceleration_that_the_forces_contradict() {
    let mut w = World::new();
    let front = w.body("the first truck", Line::Level, 300.into());
    let behind = w.body("the second truck", Line::Level, 200.into());
    w.b.tow("the bar", front, behind);
    let pull = w.b.act(Role::Applied, "the pull", front, Direction::Along(1));
    let stage = w.stage(State::Moving);
    w.b.size(stage, pull, 1000.into());
    w.b.heading(stage, front, 1);
    w.know_acceleration(stage, front, 3.into());
    let d = refused(&w.finish());
    assert_eq!(d.refusal, Some(Refusal::Contradictory));
    assert!(d.message.contains('3') && d.message.contains('2'), "{}", d.message);
}

/// From rest at 2 m s⁻² the speed after 3 s is 6, not 10.
#[test]
fn a_journey_that_contradicts_itself() {
    let mut w = World::new();
    let sledge = w.body("the sledge", Line::Level, 40.into());
    w.b.act(Role::Applied, "the pull of the rope", sledge, Direction::Along(1));
    let stage = w.stage(State::Moving);
    w.b.heading(stage, sledge, 1);
    w.know_acceleration(stage, sledge, 2.into());
    let j = w.b.journey(stage, sledge).unwrap();
    w.b.know(j.start_speed, Value::zero());
    w.b.know(j.time, 3.into());
    w.b.know(j.end_speed, 10.into());
    let d = refused(&w.finish());
    assert_eq!(d.refusal, Some(Refusal::Contradictory));
}

/// Steady speed and an acceleration at the same time.
#[test]
fn steady_and_yet_accelerating() {
    let mut w = World::new();
    let hoist = w.form("the hoist", Form::Lift, Line::Vertical, 250.into());
    w.b.act(Role::Cable, "the tension in the cable", hoist, Direction::Along(1));
    let stage = w.stage(State::Steady);
    w.know_acceleration(stage, hoist, ratio(1, 2));
    assert_eq!(refused(&w.finish()).refusal, Some(Refusal::Contradictory));
}

/// Friction would have to push the block on: μ would be negative.
#[test]
fn friction_does_not_push_on() {
    let mut w = World::new();
    let block = w.body("the block", Line::Level, 2.into());
    let load = w.body("the load", Line::Vertical, ratio(1, 2));
    let mu = w.b.coefficient(None);
    w.b.surface(block, "the table", Grip::Rough(mu));
    w.b.over_pulley("the string", block, load);
    let stage = w.stage(State::Released);
    w.b.heading(stage, block, 1);
    w.know_acceleration(stage, block, 4.into());
    let d = refused(&w.finish());
    assert_eq!(d.refusal, Some(Refusal::Impossible));
    assert!(d.message.contains("coefficient of friction"), "{}", d.message);
}

/// No hanging mass makes the blocks accelerate faster than g: its mass would be negative.
#[test]
fn nothing_falls_faster_than_freely() {
    let mut w = World::new();
    let block = w.body("the block", Line::Level, 5.into());
    let load = w.unknown_body("the hanging block", Line::Vertical);
    w.b.over_pulley("the cord", block, load);
    let stage = w.stage(State::Released);
    w.know_acceleration(stage, block, 12.into());
    let d = refused(&w.finish());
    assert_eq!(d.refusal, Some(Refusal::Impossible));
    assert!(d.message.contains("mass of the hanging block"), "{}", d.message);
}

/// 500 − X = 1000 × 2 asks for a resistance that drives.
#[test]
fn a_resistance_does_not_drive() {
    let mut w = World::new();
    let car = w.form("the car", Form::Vehicle, Line::Level, 1000.into());
    let drive = w.b.act(Role::Driving, "the driving force", car, Direction::Along(1));
    w.b.act(Role::Resistance, "the resistance", car, Direction::Opposing);
    let stage = w.stage(State::Moving);
    w.b.size(stage, drive, 500.into());
    w.b.heading(stage, car, 1);
    w.know_acceleration(stage, car, 2.into());
    let d = refused(&w.finish());
    assert_eq!(d.refusal, Some(Refusal::Impossible));
    assert!(d.message.contains("-1500 N"), "{}", d.message);
}

/// One mass of two: the acceleration hangs on the other, which is named.
#[test]
fn a_missing_mass_is_named() {
    let mut w = World::new();
    let a = w.body("A", Line::Vertical, 4.into());
    let b = w.unknown_body("B", Line::Vertical);
    w.b.over_pulley("the string", a, b);
    w.stage(State::Released);
    let w = w.finish();
    let solved = w.solved();
    let acceleration = w.situation.stages[0].accelerations[0];
    let d = answer(&w.situation, &solved, &ask(Wanted::Quantity(acceleration))).unwrap_err();
    assert_eq!(d.refusal, Some(Refusal::Incomplete));
    assert!(d.message.contains("the mass of B is not given"), "{}", d.message);
}

/// A rough table without its coefficient.
#[test]
fn a_missing_coefficient_is_named() {
    let mut w = World::new();
    let a = w.body("A", Line::Level, 6.into());
    let mu = w.b.coefficient(None);
    w.b.surface(a, "the table", Grip::Rough(mu));
    let b = w.body("B", Line::Vertical, 5.into());
    w.b.over_pulley("the string", a, b);
    w.stage(State::Released);
    let w = w.finish();
    let solved = w.solved();
    let d = answer(&w.situation, &solved, &ask(Wanted::Quantity(w.tension(0)))).unwrap_err();
    assert_eq!(d.refusal, Some(Refusal::Incomplete));
    assert!(d.message.contains("the coefficient of friction is not given"), "{}", d.message);
}

/// The inclination is not told: the acceleration of a sliding crate hangs on it.
#[test]
fn a_missing_angle_is_named() {
    let mut w = World::new();
    let angle = w.b.quantity(model::Kind::Angle, "θ", "angle of the ramp");
    let crate_ = w.body("the crate", Line::Slope { angle, rises_right: true }, 12.into());
    w.ground(crate_, None);
    let stage = w.stage(State::Released);
    w.b.heading(stage, crate_, -1);
    let w = w.finish();
    let solved = w.solved();
    let a = w.situation.stages[0].accelerations[0];
    let d = answer(&w.situation, &solved, &ask(Wanted::Quantity(a))).unwrap_err();
    assert_eq!(d.refusal, Some(Refusal::Incomplete));
    assert!(d.message.contains("the angle of the ramp is not given"), "{}", d.message);
}

/// The lift accelerates, but nothing fixes how.
#[test]
fn nothing_fixes_the_acceleration_of_the_lift() {
    let mut w = World::new();
    let lift = w.form("the lift", Form::Lift, Line::Vertical, 700.into());
    let rider = w.form("the woman", Form::Person, Line::Vertical, 62.into());
    w.b.rests_on("the reaction of the floor", rider, lift);
    w.b.act(Role::Cable, "the tension in the cable", lift, Direction::Along(1));
    let stage = w.stage(State::Moving);
    w.b.heading(stage, lift, 1);
    let w = w.finish();
    let solved = w.solved();
    let d = answer(&w.situation, &solved, &ask(Wanted::Quantity(w.tension(0)))).unwrap_err();
    assert!(matches!(d.refusal, Some(Refusal::Incomplete | Refusal::Undetermined)));
}

/// A deceleration is positive, a thrust is called so, and the value to be shown is compared.
#[test]
fn answers_say_what_they_are() {
    let w = towed(&[(2400, 300), (600, 150)], None, Some(4350));
    let solved = w.solved();
    let slowing = answer(&w.situation, &solved, &ask(Wanted::Deceleration(w.bodies[0]))).unwrap();
    assert_value(slowing.value.as_ref(), &ratio(8, 5));
    let a = w.situation.stages[0].accelerations[0];
    let signed = answer(&w.situation, &solved, &ask(Wanted::Quantity(a))).unwrap();
    assert_value(signed.value.as_ref(), &ratio(-8, 5));
    let thrust = answer(&w.situation, &solved, &ask(Wanted::Quantity(w.tension(0)))).unwrap();
    assert_eq!((thrust.quantity, thrust.value), ("thrust", Some(Value::from_int(810))));
    let which = answer(&w.situation, &solved, &ask(Wanted::TensionOrThrust(LinkId(0)))).unwrap();
    assert_eq!(which.says, "the tow-bar is in thrust, of 810 N");
    let mut show = ask(Wanted::Deceleration(w.bodies[0]));
    show.show = Some(ratio(16, 10));
    assert!(answer(&w.situation, &solved, &show).is_ok());
    show.show = Some(ratio(17, 10));
    let d = answer(&w.situation, &solved, &show).unwrap_err();
    assert_eq!(d.refusal, Some(Refusal::Contradictory));
}

/// Whether it moves is answered with the comparison: friction needed, friction to be had.
#[test]
fn whether_it_moves_is_a_comparison() {
    let held = table(10.into(), 4.into(), Some(ratio(3, 5)));
    let solved = held.solved();
    let it = answer(&held.situation, &solved, &ask(Wanted::WhetherItMoves)).unwrap();
    assert!(it.says.contains("39.2 N") && it.says.contains("58.8 N"), "{}", it.says);
    assert!(solved.conditions.iter().any(|c| matches!(c.about, About::Friction(_))));
    let slides = table(4.into(), 3.into(), Some(ratio(1, 2)));
    let it = answer(&slides.situation, &slides.solved(), &ask(Wanted::WhetherItMoves)).unwrap();
    assert!(it.says.contains("29.4 N") && it.says.contains("19.6 N"), "{}", it.says);
    let way = answer(&slides.situation, &slides.solved(), &ask(Wanted::WhichWay(slides.bodies[1])));
    assert_eq!(way.unwrap().says, "C moves down");
}

/// A trailer at 40 m s⁻² earns a remark, and is answered all the same.
#[test]
fn unlikely_values_are_remarked() {
    let w = towed(&[(100, 0), (100, 0)], Some(8000), None);
    let found = remarks(&w.situation, &w.solved());
    assert_eq!(found.len(), 1);
    assert!(found[0].message.contains("40 m s^-2"), "{}", found[0].message);
}

/// An empty situation, or a stage that is not there, is an error and no panic.
#[test]
fn nonsense_is_refused_without_panic() {
    let empty = model::Situation::default();
    assert!(solve(&empty, StageId(0), 0).is_err());
    let w = atwood(2.into(), 3.into());
    assert!(solve(&w.situation, StageId(7), 0).is_err());
    let mut skewed = atwood(2.into(), 3.into()).situation;
    skewed.links[0].ends[0].sense = i8::MIN;
    let refused = solve(&skewed, StageId(0), 0).unwrap_err();
    assert!(refused[0].message.contains("unsound"), "{}", refused[0].message);
}

/// The place of the given that does not fit is handed on, so that the page can underline it.
#[test]
fn a_contradiction_has_a_place() {
    let mut w = World::new();
    let p = w.body("P", Line::Vertical, 2.into());
    let q = w.body("Q", Line::Vertical, 3.into());
    let string = w.b.over_pulley("the string", p, q);
    let stage = w.stage(State::Released);
    let tension = w.b.situation().stages[stage.0].links[string.0];
    w.b.know_as(
        tension,
        model::Known {
            value: 30.into(),
            written: "30 N".to_owned(),
            basis: model::Basis::Given(model::Span::new(40, 44)),
            from_part: 0,
        },
    );
    let d = refused(&w.finish());
    assert_eq!(d.refusal, Some(Refusal::Contradictory));
    assert_eq!(d.spans, [model::Span::new(40, 44)]);
    // T = 2 m1 m2 g/(m1 + m2) = 23.52 (UP Ex 6.5).
    assert_eq!(
        d.message,
        "the tension in the string is given as 30 N, but 23.5 N follows from the other givens"
    );
}

/// A cable does not push: lowered faster than it falls, the cage would have to be pushed down.
#[test]
fn a_cable_does_not_push() {
    let mut w = World::new();
    let cage = w.form("the cage", Form::Lift, Line::Vertical, 300.into());
    w.b.act(Role::Cable, "the tension in the cable", cage, Direction::Along(1));
    let stage = w.stage(State::Moving);
    w.b.heading(stage, cage, -1);
    w.know_acceleration(stage, cage, (-12).into());
    let d = refused(&w.finish());
    assert_eq!(d.refusal, Some(Refusal::Impossible));
    assert!(d.message.contains("tension in the cable would have to be -660 N"), "{}", d.message);
}

/// A pull weaker than the resistance moves nothing, and the resistance is then only as large as the pull.
#[test]
fn a_resistance_holds_up_to_its_size() {
    let build = |pull: i64| {
        let mut w = World::new();
        let boat = w.body("the boat", Line::Level, 50.into());
        let p = w.b.act(Role::Applied, "the pull", boat, Direction::Along(1));
        let r = w.b.act(Role::Resistance, "the resistance", boat, Direction::Opposing);
        let stage = w.stage(State::Released);
        w.b.size(stage, p, pull.into());
        w.b.size(stage, r, 100.into());
        (w.finish(), r)
    };
    let (w, r) = build(60);
    let solved = w.solved();
    assert!(!solved.case.moves);
    assert_value(solved.value(w.situation.stages[0].forces[r.0]), &Value::from_int(60));
    let (w, _) = build(150);
    assert_value(w.solved().acceleration(w.bodies[0]), &Value::one());
}

/// A lift that falls faster than freely leaves its load behind: the contact parts.
#[test]
fn a_load_leaves_a_floor_that_falls_too_fast() {
    let mut w = World::new();
    let cage = w.form("the cage", Form::Lift, Line::Vertical, 100.into());
    let drum = w.form("the drum", Form::Load, Line::Vertical, 40.into());
    w.b.rests_on("the floor", drum, cage);
    let push = w.b.act(Role::Applied, "the push", cage, Direction::Along(-1));
    let stage = w.stage(State::Released);
    w.b.size(stage, push, 200.into());
    let w = w.finish();
    let solved = w.solved();
    assert_eq!(solved.case.links, vec![motion::LinkState::Loose]);
    assert_value(solved.acceleration(cage), &ratio(59, 5)); // g + 2
    assert_value(solved.acceleration(drum), &ratio(49, 5));
    assert!(solved.forces.iter().all(|f| !matches!(f.kind, motion::ForceKind::Link(_))), "nothing pushes");
}

/// A bar that is given in thrust stays so, whatever its sign in the question.
#[test]
fn a_given_thrust_is_a_thrust() {
    let mut w = World::new();
    let lorry = w.form("the lorry", Form::Vehicle, Line::Level, 2400.into());
    let mixer = w.form("the mixer", Form::Trailer, Line::Level, 600.into());
    let bar = w.b.tow("the tow-bar", lorry, mixer);
    let brake = w.b.act(Role::Braking, "the braking force", lorry, Direction::Along(-1));
    let stage = w.stage(State::Moving);
    w.b.heading(stage, lorry, 1);
    let tension = w.b.situation().stages[stage.0].links[bar.0];
    w.b.know(tension, (-960).into());
    let w = w.finish();
    let solved = w.solved();
    assert_value(solved.acceleration(mixer), &ratio(-8, 5));
    assert_value(solved.value(w.situation.stages[0].forces[brake.0]), &Value::from_int(4800));
    assert_value(solved.value(tension), &Value::from_int(960));
    assert!(solved.link_force(LinkId(0), mixer).unwrap().thrust);
}
