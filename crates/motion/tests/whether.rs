//! Whether it moves: said of what moves and of what does not, with the friction that decides it. Worked by hand.

#![allow(clippy::expect_used, reason = "a test that cannot be set up should stop")]

mod support;

use model::{Ask, BodyId, Direction, Grip, Line, Role, StageId, State, Wanted};
use support::*;

fn whether(w: &Built) -> String {
    let ask = Ask {
        part: "a".to_owned(),
        part_index: 0,
        phrase: "whether it moves".to_owned(),
        wanted: Wanted::WhetherItMoves,
        show: None,
        accuracy: None,
        stage: StageId(0),
        span: model::Span::new(10, 20),
        marks: None,
    };
    motion::answer(&w.situation, &w.solved(), &ask).expect("an answer").says
}

/// A block of 2 kg on one of 3 kg, on a floor with this coefficient; the lower one is pulled.
fn pulled(pull: i64, floor: (i64, i64)) -> Built {
    let mut w = World::new();
    let lower = w.body("the lower block", Line::Level, 3.into());
    w.ground(lower, (floor.0 != 0).then(|| ratio(floor.0, floor.1)));
    let upper = w.body("the upper block", Line::Level, 2.into());
    let mu = w.b.coefficient(Some(ratio(1, 2)));
    w.b.on_top(upper, lower, Grip::Rough(mu));
    let force = w.b.act(Role::Applied, "the pull", lower, Direction::Along(1));
    let stage = w.stage(State::Released);
    w.b.size(stage, force, pull.into());
    w.finish()
}

/// 10 N on a smooth floor moves both at 2 m s⁻²; the 4 N that the upper one needs keep it from slipping, not from
/// moving.
#[test]
fn a_stack_that_moves_as_one_does_not_stay_at_rest() {
    let says = whether(&pulled(10, (0, 1)));
    assert_eq!(
        says,
        "it moves, and the upper block does not slip on the lower block: it needs 4 N of friction, and up to \
         9.80 N is to be had"
    );
}

/// On a rough floor the stack would need 34 N to stay at rest, and 9.8 N is to be had.
#[test]
fn a_stack_moves_against_the_floor() {
    let says = whether(&pulled(34, (1, 5)));
    assert!(
        says.starts_with("it moves: the lower block would need 34 N of friction to stay at rest"),
        "{says}"
    );
    assert!(says.contains("only 9.80 N"), "{says}");
    assert!(says.contains("; the upper block does not slip on the lower block"), "{says}");
}

/// Pulled harder than 24.5 N on the smooth floor, the lower one slips away under the upper one.
#[test]
fn a_stack_that_slips_apart() {
    assert_eq!(whether(&pulled(30, (0, 1))), "it moves, and the upper block slips on the lower block");
}

/// All at rest: both comparisons are made.
#[test]
fn a_stack_that_stays() {
    let says = whether(&pulled(9, (1, 5)));
    assert!(says.starts_with("it stays at rest: the lower block needs 9 N of friction"), "{says}");
}

/// One crate slides, another that nothing joins to it stays: both are said.
#[test]
fn one_moves_and_one_stays() {
    let mut w = World::new();
    let angle = w.b.angle("α", tan(3, 4));
    for (name, mu) in [("P", ratio(1, 2)), ("Q", ratio(4, 5))] {
        let body = w.body(name, Line::Slope { angle, rises_right: true }, 5.into());
        w.ground(body, Some(mu));
    }
    w.stage(State::Released);
    let says = whether(&w.finish());
    assert!(says.starts_with("P moves: "), "{says}");
    assert!(says.contains("29.4 N") && says.contains("19.6 N"), "{says}");
    assert!(
        says.contains("Q stays at rest: it needs 29.4 N of friction, and up to 31.4 N is to be had"),
        "{says}"
    );
}

/// Against static friction that is more than sliding friction, the comparison is with static friction.
#[test]
fn the_comparison_is_with_static_friction() {
    let mut w = World::new();
    let block = w.body("the block", Line::Level, 5.into());
    w.ground(block, Some(ratio(2, 5)));
    let mu = w.b.coefficient(Some(ratio(1, 5)));
    w.b.situation_mut().bodies[BodyId(0).0].surface.as_mut().expect("a surface").sliding = Some(mu);
    let pull = w.b.act(Role::Applied, "the pull", block, Direction::Along(1));
    let stage = w.stage(State::Released);
    w.b.size(stage, pull, 25.into());
    let says = whether(&w.finish());
    assert!(says.contains("25 N") && says.contains("19.6 N"), "{says}");
}

/// A body that moves already is not said to need friction to stay at rest.
#[test]
fn what_moves_already_moves() {
    let mut w = World::new();
    let block = w.body("the block", Line::Level, 5.into());
    w.ground(block, Some(ratio(2, 5)));
    let stage = w.stage(State::Moving);
    w.b.heading(stage, block, 1);
    assert_eq!(whether(&w.finish()), "it moves");
}
