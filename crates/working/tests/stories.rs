//! Workings that go through several stages: what a class would copy down.
#![allow(clippy::expect_used, reason = "the situations are built by hand")]

mod common;
#[path = "../../motion/tests/support/landing.rs"]
mod landing;

use common::{dec, worked};
use exact::Value;
use landing::{Landing, two_hang};
use model::*;

/// A load of 3 kg draws one of 2 kg up from rest over a pulley; after 0.5 m the string breaks.
fn string_breaks() -> Situation {
    let mut b = Builder::new();
    let p = b.body("P", "P", Form::Particle, Line::Vertical, Some(2.into()));
    let q = b.body("Q", "Q", Form::Particle, Line::Vertical, Some(3.into()));
    let string = b.over_pulley("the string", p, q);
    let taut = b.stage(State::Released);
    let before = b.journey(taut, p).expect("a journey");
    b.know(before.start_speed, Value::zero());
    b.know(before.distance, dec("0.5"));
    let free = b.then(taut, Happening::Breaks(string), State::Moving);
    b.heading(free, p, 1);
    let up = b.journey_from(free, p, before.end_speed, false).expect("a journey");
    b.know(up.end_speed, Value::zero());
    let height = b.total(
        Kind::Distance,
        "h",
        "the greatest height of P above its starting point",
        &[(1, before.distance), (1, up.distance)],
    );
    b.ask("a", free, "greatest height of P above its starting point", Wanted::Quantity(height));
    b.ask("b", taut, "acceleration of P", Wanted::Quantity(b.situation().stages[0].accelerations[0]));
    b.finish()
}

/// An engine draws a truck from rest for 20 s; then the power is cut and both run to rest.
fn power_cut() -> Situation {
    let mut b = Builder::new();
    let engine = b.body("the engine", "engine", Form::Vehicle, Line::Level, Some(1200.into()));
    let truck = b.body("the truck", "truck", Form::Trailer, Line::Level, Some(800.into()));
    let bar = b.tow("the coupling", engine, truck);
    let drive = b.act(Role::Driving, "the driving force", engine, Direction::Along(1));
    let first = b.act(Role::Resistance, "the resistance on the engine", engine, Direction::Opposing);
    let second = b.act(Role::Resistance, "the resistance on the truck", truck, Direction::Opposing);
    let driven = b.stage(State::Moving);
    b.size(driven, drive, 1800.into());
    let coasting = b.then(driven, Happening::Ends(drive), State::Moving);
    for stage in [driven, coasting] {
        b.size(stage, first, 350.into());
        b.size(stage, second, 150.into());
        b.heading(stage, engine, 1);
    }
    let there = b.journey(driven, engine).expect("a journey");
    b.know(there.start_speed, Value::zero());
    b.know(there.time, 20.into());
    let on = b.journey_from(coasting, engine, there.end_speed, false).expect("a journey");
    b.know(on.end_speed, Value::zero());
    let total = b.total(Kind::Distance, "d", "the total distance", &[(1, there.distance), (1, on.distance)]);
    b.ask_link("a", driven, bar);
    b.ask("b", coasting, "total distance", Wanted::Quantity(total));
    b.ask_link("c", coasting, bar);
    b.finish()
}

/// The same run, its coasting known and its driving force wanted: found backwards.
fn told_by_the_end() -> Situation {
    let mut b = Builder::new();
    let engine = b.body("the engine", "engine", Form::Vehicle, Line::Level, Some(2000.into()));
    let drive = b.act(Role::Driving, "the driving force", engine, Direction::Along(1));
    let resistance = b.act(Role::Resistance, "the resistance", engine, Direction::Opposing);
    let driven = b.stage(State::Moving);
    let coasting = b.then(driven, Happening::Ends(drive), State::Moving);
    for stage in [driven, coasting] {
        b.size(stage, resistance, 500.into());
        b.heading(stage, engine, 1);
    }
    let there = b.journey(driven, engine).expect("a journey");
    b.know(there.start_speed, Value::zero());
    b.know(there.distance, 100.into());
    let on = b.journey_from(coasting, engine, there.end_speed, false).expect("a journey");
    b.know(on.end_speed, Value::zero());
    b.know(on.distance, 72.into());
    let force = b.situation().stages[0].forces[drive.0];
    b.ask("", driven, "driving force", Wanted::Quantity(force));
    b.finish()
}

/// Q of 3 kg falls 0.5 m to the floor and stays; P of 2 kg rises on, comes back, and the string tightens with a jerk
/// (the anchor of docs/closed-forms.md).
fn lands_and_is_lifted_again() -> Situation {
    let mut landing = two_hang(2.into(), 3.into());
    landing.b.know(landing.fall.distance, dec("0.5"));
    let after = landing.tightens();
    let Landing { mut b, falls, fall, string, .. } = landing;
    let impulse = b.situation().stages[after.jerks.0].links[string.0];
    b.ask("a", falls, "speed of Q as it reaches the floor", Wanted::Quantity(fall.end_speed));
    b.ask("b", after.loose, "time for which the string is slack", Wanted::Quantity(after.slack.time));
    b.ask("c", after.jerks, "speed of P just after the jerk", Wanted::Quantity(after.jerk[0].end_speed));
    b.ask("d", after.jerks, "impulse in the string", Wanted::Quantity(impulse));
    b.ask("e", after.jerks, "kinetic energy lost", Wanted::Quantity(after.lost));
    b.ask("f", after.lifts, "height to which Q is lifted", Wanted::Quantity(after.lifted.distance));
    b.finish()
}

fn all() -> Vec<(&'static str, Situation)> {
    vec![
        ("story: string breaks", string_breaks()),
        ("story: power cut", power_cut()),
        ("story: told by the end", told_by_the_end()),
        ("story: lands and is lifted again", lands_and_is_lifted_again()),
    ]
}

#[test]
fn the_working_goes_through_the_stages() {
    for (name, situation) in all() {
        let text = worked(&situation).plain();
        insta::with_settings!({ omit_expression => true, description => name, prepend_module_to_snapshot => false }, {
            insta::assert_snapshot!(name.replace([' ', ',', ':'], "_"), text);
        });
    }
}
