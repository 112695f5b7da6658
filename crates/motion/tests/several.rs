//! Givens that more than one motion fits: what the motions agree on is answered, what they differ in is named. Worked by
//! hand.

#![allow(clippy::expect_used, reason = "a test that cannot be set up should stop")]

mod support;

use exact::Value;
use model::{BodyId, Direction, Line, QuantityId, Relation, Role, StageId, State, Wanted};
use support::*;

/// A of 2 kg behind B of unknown mass on smooth ground, a string between; 10 N on A and 6 N on B, forwards. Of the
/// acceleration b of B it is told that b² − 10b + 21 = 0, so that it is 3 or 7.
///
/// Taut: 10 + T = 2b, so b = 7, T = 4 and m = 2/7 (3 would make T = −4). Slack: A has 5, so b must not be more: b = 3
/// and m = 2.
fn string_taut_or_slack() -> World {
    let mut w = World::new();
    let a = w.body("A", Line::Level, 2.into());
    let b = w.unknown_body("B", Line::Level);
    w.ground(a, None);
    w.ground(b, None);
    w.b.string("the string", b, a);
    let forces =
        [(a, 10), (b, 6)].map(|(on, n)| (w.b.act(Role::Applied, "the pull", on, Direction::Along(1)), n));
    let stage = w.stage(State::Moving);
    w.b.heading(stage, a, 1);
    for (force, size) in forces {
        w.b.size(stage, force, size.into());
    }
    let a = w.b.situation().stages[0].accelerations[1];
    let terms =
        vec![(Value::one(), vec![a, a]), (Value::from_int(-10), vec![a]), (Value::from_int(21), vec![])];
    let name = "b² − 10b + 21 = 0".to_owned();
    w.b.situation_mut().relations.push(Relation { terms, name, span: None, from_part: 0 });
    w
}

fn ask(w: &mut World, id: QuantityId) {
    w.b.ask("a", StageId(0), "what is asked", Wanted::Quantity(id));
}

#[test]
fn taut_and_slack_are_both_named_where_they_differ() {
    let mut w = string_taut_or_slack();
    let mass = w.b.situation().bodies[1].mass;
    ask(&mut w, mass);
    let why = motion::solve(&w.finish().situation, StageId(0), 0).expect_err("two motions");
    let says = why.first().map_or("", |d| d.message.as_str());
    assert!(
        says.starts_with(
            "more than one motion fits the givens: the mass of B could be 0.286 kg with the string taut or 2 kg with \
             the string slack"
        ),
        "{says}"
    );
}

#[test]
fn what_they_agree_on_is_answered() {
    let mut w = string_taut_or_slack();
    let reaction = w.b.situation().stages[0].reactions[0].expect("the ground");
    let mass = w.b.situation().bodies[1].mass;
    ask(&mut w, reaction);
    let w = w.finish();
    let solved = w.solved();
    assert_value(solved.value(reaction), &ratio(98, 5));
    assert_eq!(solved.value(mass), None, "this they do not agree on");
}

/// Thrown up at 14 m s⁻¹ it is 8.4 m up after 6/7 s and after 2 s: 8.4 = 14t − 4.9t².
fn thrown_up() -> (World, QuantityId) {
    let mut w = World::new();
    let ball = w.body("the ball", Line::Vertical, 1.into());
    let stage = w.stage(State::Moving);
    w.b.heading(stage, ball, 1);
    let start = w.b.quantity(model::Kind::Speed, "u", "initial speed");
    w.b.know(start, 14.into());
    let way = w.b.journey_from(stage, ball, start, true).expect("a journey");
    w.b.know(way.distance, ratio(42, 5));
    (w, way.time)
}

#[test]
fn two_times_are_both_named() {
    let (mut w, time) = thrown_up();
    ask(&mut w, time);
    let why = motion::solve(&w.finish().situation, StageId(0), 0).expect_err("two moments");
    let first = why.first().expect("a reason");
    assert!(
        first.message.contains("the time taken could be 0.857 s or 2 s")
            || first.message.contains("the time taken could be 2 s or 0.857 s"),
        "{}",
        first.message
    );
    assert_eq!(first.hint.as_deref(), Some("say which of the two moments is meant"));
}

#[test]
fn the_acceleration_is_the_same_at_both_moments() {
    let (mut w, _) = thrown_up();
    let a = w.b.situation().stages[0].accelerations[BodyId(0).0];
    ask(&mut w, a);
    let w = w.finish();
    assert_value(w.solved().acceleration(BodyId(0)), &ratio(-49, 5));
}
