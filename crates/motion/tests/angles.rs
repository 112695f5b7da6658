//! Angles that stand in a sine and in a cosine at once: A sin θ + B cos θ = C. Held to the closed form
//! θ = arcsin(C/√(A² + B²)) − arctan(B/A), or 180° less the arcsine (common practice, no source), worked out apart.
#![allow(clippy::expect_used, clippy::unwrap_used, reason = "a test that cannot be set up should stop")]

mod support;

use exact::{Value, round_significant_with};
use model::{BodyId, Direction, Kind, Line, QuantityId, Refusal, Role, StageId, State, Wanted};
use support::*;

/// A block on a slope whose angle is not given.
struct Slope {
    w: World,
    angle: QuantityId,
    block: BodyId,
}

fn slope(mass: i64, mu: Value) -> Slope {
    let mut w = World::new();
    let angle = w.b.quantity(Kind::Angle, "θ", "angle of the slope");
    let block = w.body("the block", Line::Slope { angle, rises_right: true }, mass.into());
    w.ground(block, Some(mu));
    Slope { w, angle, block }
}

/// The angle that is found, in degrees to eight figures.
#[track_caller]
fn degrees(w: &Built, angle: QuantityId) -> String {
    let solved = w.solved();
    let found = solved.angles.get(&angle).expect("the angle is found");
    round_significant_with(|bits| found.degrees_enclosure(bits), 8).unwrap().digits
}

#[track_caller]
fn refused(w: &Built) -> (Refusal, String) {
    let why = motion::solve(&w.situation, StageId(0), 0).expect_err("no angle that is sure");
    (why[0].refusal.unwrap(), why[0].message.clone())
}

/// g sin θ − μg cos θ = a. With μ = 1/4 and a = 3.92 sin θ = 3/5; else θ = arcsin(a/(g√(1 + μ²))) + arctan μ.
#[test]
fn the_slope_from_the_acceleration_down_it() {
    for (mu, a, expected) in [
        (ratio(1, 4), ratio(98, 25), "36.869898"),
        (ratio(3, 10), ratio(2, 1), "27.971703"),
        (ratio(1, 3), ratio(3, 1), "35.317647"),
    ] {
        let mut s = slope(5, mu);
        let stage = s.w.stage(State::Moving);
        s.w.b.heading(stage, s.block, -1);
        s.w.know_acceleration(stage, s.block, -a);
        assert_eq!(degrees(&s.w.finish(), s.angle), expected);
    }
}

/// P = mg sin θ + μmg cos θ on the point of slipping up: 49 sin θ + 24.5 cos θ = P.
fn pulled_up(pull: i64, state: State) -> (Built, QuantityId) {
    let mut s = slope(5, ratio(1, 2));
    let force = s.w.b.act(Role::Applied, "the pull", s.block, Direction::Along(1));
    let stage = s.w.stage(state);
    s.w.b.heading(stage, s.block, 1);
    s.w.b.size(stage, force, pull.into());
    (s.w.finish(), s.angle)
}

#[test]
fn the_slope_on_which_a_pull_only_just_holds() {
    for state in [State::Limiting, State::Steady] {
        let (w, angle) = pulled_up(40, state);
        assert_eq!(degrees(&w, angle), "20.333470");
    }
}

/// 49 sin θ + 24.5 cos θ = 52 at 45.1° and at 81.8°: both are named, neither is chosen.
#[test]
fn two_slopes_on_which_the_same_pull_holds() {
    let (w, _) = pulled_up(52, State::Steady);
    let (kind, says) = refused(&w);
    assert_eq!(kind, Refusal::Undetermined);
    assert!(says.contains("the angle of the slope could be 45.1° or 81.8°"), "{says}");
}

/// 49 sin θ + 24.5 cos θ is at most 54.78.
#[test]
fn a_pull_that_no_slope_needs() {
    let (w, _) = pulled_up(55, State::Steady);
    let (kind, says) = refused(&w);
    assert_eq!(kind, Refusal::Contradictory);
    assert!(says.contains("no angle θ satisfies it"), "{says}");
}

/// P cos α = μ(mg − P sin α), P = 30 and μ = 1/2: 15 sin α + 30 cos α = 24.5.
#[test]
fn the_angle_of_a_pull_that_only_just_moves_a_block() {
    let mut w = World::new();
    let block = w.body("the block", Line::Level, 5.into());
    w.ground(block, Some(ratio(1, 2)));
    let angle = w.b.quantity(Kind::Angle, "α", "angle of the rope");
    let pull = w.b.act(Role::Applied, "the pull", block, Direction::At { sense: 1, angle, lifts: true });
    let stage = w.stage(State::Limiting);
    w.b.heading(stage, block, 1);
    w.b.size(stage, pull, 30.into());
    assert_eq!(degrees(&w.finish(), angle), "69.641013");
}

/// 4g − 5g sin θ − (1/4)5g cos θ = 9 × 1 for a block drawn up by a load: 49 sin θ + 12.25 cos θ = 30.2.
#[test]
fn the_slope_up_which_a_load_draws_a_block() {
    let mut s = slope(5, ratio(1, 4));
    let load = s.w.body("the load", Line::Vertical, 4.into());
    s.w.b.over_pulley("the string", s.block, load);
    let stage = s.w.stage(State::Released);
    s.w.b.heading(stage, load, -1);
    s.w.know_acceleration(stage, load, ratio(-1, 1));
    assert_eq!(degrees(&s.w.finish(), s.angle), "22.685156");
}

/// With g a letter a = g/5 fixes the angle; with a letter that stays open no angle is given.
#[test]
fn an_angle_in_letters() {
    let build = |a: Value| {
        let mut s = slope(5, ratio(1, 4));
        s.w.b.open_letter("g", Kind::Gravity);
        s.w.b.open_letter("k", Kind::Number);
        s.w.b.gravity(Value::symbol("g"));
        let stage = s.w.stage(State::Moving);
        s.w.b.heading(stage, s.block, -1);
        s.w.know_acceleration(stage, s.block, -a);
        s.w.b.ask("a", stage, "angle of the slope", Wanted::Quantity(s.angle));
        (s.w.finish(), s.angle)
    };
    let (w, angle) = build(Value::symbol("g") * ratio(2, 5));
    assert_eq!(degrees(&w, angle), "36.869898");
    let (w, _) = build(Value::symbol("g") * Value::symbol("k"));
    let (kind, says) = refused(&w);
    assert_eq!(kind, Refusal::Undetermined);
    assert!(says.contains("the angle of the slope depends on k"), "{says}");
}
