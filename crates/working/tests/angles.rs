//! Workings that end in A sin θ + B cos θ = C.
#![allow(clippy::expect_used, reason = "the situations are built by hand")]

mod common;

use common::{dec, worked};
use exact::Value;
use model::*;

/// A block of 5 kg on a slope whose angle is not given.
fn block(b: &mut Builder, mu: Value) -> (QuantityId, BodyId) {
    let angle = b.quantity(Kind::Angle, "θ", "angle of the slope");
    let block =
        b.body("the block", "block", Form::Block, Line::Slope { angle, rises_right: true }, Some(5.into()));
    let mu = b.coefficient(Some(mu));
    b.surface(block, "the slipway", Grip::Rough(mu));
    (angle, block)
}

/// 5g sin θ − μ × 5g cos θ = 5a.
fn slides_down(a: Value, mu: Value, letters: bool) -> Situation {
    let mut b = Builder::new();
    if letters {
        b.open_letter("g", Kind::Gravity);
        b.gravity(Value::symbol("g"));
    }
    let (angle, block) = block(&mut b, mu);
    let stage = b.stage(State::Moving);
    b.heading(stage, block, -1);
    let acceleration = b.situation().stages[0].accelerations[0];
    b.know(acceleration, -a);
    b.ask("", stage, "angle of the slope", Wanted::Quantity(angle));
    b.finish()
}

/// P = 5g sin θ + μ × 5g cos θ, on the point of slipping up.
fn only_just_held() -> Situation {
    let mut b = Builder::new();
    let (angle, block) = block(&mut b, dec("0.5"));
    let pull = b.act(Role::Applied, "the pull", block, Direction::Along(1));
    let stage = b.stage(State::Limiting);
    b.heading(stage, block, 1);
    b.size(stage, pull, 40.into());
    b.ask("", stage, "angle of the slope", Wanted::Quantity(angle));
    b.finish()
}

/// P cos α = μ(5g − P sin α), on the point of slipping.
fn rope_at_an_angle() -> Situation {
    let mut b = Builder::new();
    let block = b.body("the block", "block", Form::Block, Line::Level, Some(5.into()));
    let mu = b.coefficient(Some(dec("0.5")));
    b.surface(block, "the quay", Grip::Rough(mu));
    let angle = b.quantity(Kind::Angle, "β", "angle of the rope");
    let pull = b.act(Role::Applied, "the pull", block, Direction::At { sense: 1, angle, lifts: true });
    let stage = b.stage(State::Limiting);
    b.heading(stage, block, 1);
    b.size(stage, pull, 30.into());
    b.ask("", stage, "angle of the rope", Wanted::Quantity(angle));
    b.finish()
}

/// 4g − T = 4, T − 5g sin θ − F = 5, F = (1/4) × 5g cos θ; the tension too.
fn drawn_up_by_a_load() -> Situation {
    let mut b = Builder::new();
    let (angle, block) = block(&mut b, dec("0.25"));
    let load = b.body("the load", "load", Form::Load, Line::Vertical, Some(4.into()));
    let string = b.over_pulley("the string", block, load);
    let stage = b.stage(State::Released);
    b.heading(stage, load, -1);
    let acceleration = b.situation().stages[0].accelerations[1];
    b.know(acceleration, (-1).into());
    b.ask_link("a", stage, string);
    b.ask("b", stage, "angle of the slope", Wanted::Quantity(angle));
    b.finish()
}

#[test]
fn one_sine_of_two_shares() {
    let fifth = Value::symbol("g") * dec("0.4");
    let all = [
        ("angle: slides down", slides_down(dec("3.92"), dec("0.25"), false), "36.9 degrees"),
        ("angle: slides down, surds", slides_down(2.into(), dec("0.3"), false), "28.0 degrees"),
        ("angle: slides down, letters", slides_down(fifth, dec("0.25"), true), "36.9 degrees"),
        ("angle: only just held", only_just_held(), "20.3 degrees"),
        ("angle: rope", rope_at_an_angle(), "69.6 degrees"),
        ("angle: drawn up by a load", drawn_up_by_a_load(), "22.7 degrees"),
    ];
    for (name, situation, expected) in all {
        let work = worked(&situation);
        assert_eq!(work.answers.last().map(|a| a.shown.as_str()), Some(expected), "{name}");
        let text = work.plain();
        insta::with_settings!({ omit_expression => true, description => name, prepend_module_to_snapshot => false }, {
            insta::assert_snapshot!(name.replace([' ', ',', ':'], "_"), text);
        });
    }
}
