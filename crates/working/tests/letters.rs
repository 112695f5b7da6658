//! Answers in letters with their conditions, ranges and effects: what a class would copy down.
#![allow(clippy::expect_used, reason = "the situations are built by hand")]

mod common;

use common::{dec, worked};
use exact::{Angle, Rational, Value};
use model::*;

/// P of mass m on a rough slope, joined to Q of mass km that hangs: at rest for which k?
fn band_of_rest() -> Situation {
    let mut b = Builder::new();
    b.open_letter("m", Kind::Mass);
    b.open_letter("k", Kind::Number);
    b.open_letter("g", Kind::Gravity);
    b.gravity(Value::symbol("g"));
    let (m, k) = (Value::symbol("m"), Value::symbol("k"));
    let ratio = b.quantity(Kind::Number, "k", "k");
    b.letter(ratio, "k");
    b.know(ratio, k.clone());
    let angle = b.angle("α", Angle::Tan(Value::rational(Rational::new(3, 4).expect("3/4"))));
    let line = Line::Slope { angle, rises_right: true };
    let p = b.body("P", "P", Form::Particle, line, Some(m.clone()));
    let q = b.body("Q", "Q", Form::Particle, Line::Vertical, Some(k * m));
    let mu = b.coefficient(Some(dec("0.25")));
    b.surface(p, "the slipway", Grip::Rough(mu));
    b.over_pulley("the rope", p, q);
    let rest = b.stage(State::AtRest);
    b.ask("a", rest, "set of values of k", Wanted::Range(ratio));
    b.finish()
}

/// A block of 4 kg on a rough table is to be drawn by a load of unknown mass.
fn heavy_enough() -> Situation {
    let mut b = Builder::new();
    let block = b.body("the block", "block", Form::Block, Line::Level, Some(4.into()));
    let load = b.body("the load", "load", Form::Load, Line::Vertical, None);
    let mu = b.coefficient(Some(dec("0.35")));
    b.surface(block, "the table", Grip::Rough(mu));
    b.over_pulley("the string", block, load);
    let stage = b.stage(State::Released);
    b.heading(stage, load, -1);
    let mass = b.situation().bodies[1].mass;
    b.ask("", stage, "range of masses of the load", Wanted::Range(mass));
    b.finish()
}

/// Masses m₁ on a rough table and m₂ hanging, all in letters.
fn all_in_letters() -> Situation {
    let mut b = Builder::new();
    for (letter, kind) in
        [("m", Kind::Mass), ("k", Kind::Number), ("g", Kind::Gravity), ("μ", Kind::Coefficient)]
    {
        b.open_letter(letter, kind);
    }
    b.gravity(Value::symbol("g"));
    let (m, k) = (Value::symbol("m"), Value::symbol("k"));
    let block = b.body("P", "P", Form::Particle, Line::Level, Some(m.clone()));
    let load = b.body("Q", "Q", Form::Particle, Line::Vertical, Some(k * m));
    let mu = b.coefficient(Some(Value::symbol("μ")));
    b.surface(block, "the table", Grip::Rough(mu));
    let string = b.over_pulley("the string", block, load);
    let stage = b.stage(State::Released);
    b.heading(stage, load, -1);
    b.ask_acceleration("a", stage, load);
    b.ask_link("b", stage, string);
    b.finish()
}

/// Two loads over a pulley, with questions about the model.
fn effects() -> Situation {
    let mut b = Builder::new();
    let p = b.body("P", "P", Form::Particle, Line::Vertical, Some(3.into()));
    let q = b.body("Q", "Q", Form::Particle, Line::Vertical, Some(5.into()));
    let string = b.over_pulley("the string", p, q);
    let stage = b.stage(State::Released);
    let journey = b.journey(stage, q).expect("a journey");
    b.know(journey.start_speed, Value::zero());
    b.know(journey.distance, 1.into());
    let here = b.situation().stages[0].clone();
    let (a, t, mass) = (here.accelerations[0], here.links[string.0], b.situation().bodies[0].mass);
    b.ask("a", stage, "time", Wanted::Quantity(journey.time));
    let asks = [
        (Change::AirResistance, a),
        (Change::AirResistance, journey.time),
        (Change::RoughPulley, t),
        (Change::RoughPulley, a),
        (Change::HeavyString, a),
        (Change::More(mass), t),
        (Change::Less(mass), journey.end_speed),
    ];
    for (n, (change, on)) in asks.into_iter().enumerate() {
        b.ask(&format!("b{}", n + 1), stage, "effect on the answer", Wanted::Effect { change, on });
    }
    b.finish()
}

fn all() -> Vec<(&'static str, Situation)> {
    vec![
        ("letters: band of rest", band_of_rest()),
        ("letters: heavy enough", heavy_enough()),
        ("letters: all in letters", all_in_letters()),
        ("letters: effects", effects()),
    ]
}

#[test]
fn letters_ranges_and_effects_read_well() {
    for (name, situation) in all() {
        let text = worked(&situation).plain();
        insta::with_settings!({ omit_expression => true, description => name, prepend_module_to_snapshot => false }, {
            insta::assert_snapshot!(name.replace([' ', ',', ':'], "_"), text);
        });
    }
}
