//! Workings in which no stage by itself gives what is wanted: equations of several stages are solved together.
#![allow(clippy::expect_used, reason = "the situations are built by hand")]

mod common;
#[path = "../../motion/tests/support/landing.rs"]
mod landing;

use common::dec;
use exact::Value;
use landing::{Landing, over_the_edge};
use model::*;
use working::{Settings, Work, work};

/// The working with every stage solved.
fn worked(situation: &Situation) -> Work {
    let solved: Vec<_> = motion::solve_story(situation, 0).into_iter().filter_map(Result::ok).collect();
    work(situation, &solved, &Settings::default())
}

/// A block of 2 kg on a rough table is drawn by a load of 3 kg, which lands after 0.5 m; it slides 1.2 m in all.
/// 3g − 2μg = 5a, v² = 2a × 0.5, v² = 2μg × 0.7: 3 − 2μ = 7μ, T = 3(g − 7g/15) = 15.68.
fn total_distance_gives_the_coefficient() -> Situation {
    let mut landing = over_the_edge(2.into(), 3.into(), Some(None));
    landing.b.know(landing.fall.distance, dec("0.5"));
    let slides = landing.lands();
    let slide = landing.goes_on(slides);
    let Landing { mut b, falls, fall, string, mu, .. } = landing;
    b.know(slide.end_speed, Value::zero());
    let total = b.total(
        Kind::Distance,
        "d",
        "the total distance moved by the block",
        &[(1, fall.distance), (1, slide.distance)],
    );
    b.know(total, dec("1.2"));
    b.ask("a", slides, "coefficient of friction", Wanted::Quantity(mu.expect("a rough table")));
    b.ask_link("b", falls, string);
    b.finish()
}

/// 1800 − X = 2000a, v = 20a, X = 2000b, v² = 2b × 338: X = 500 (and 6480, with which it would run backwards).
fn resistance_from_both_stages() -> Situation {
    let mut b = Builder::new();
    let engine = b.body("the engine", "engine", Form::Vehicle, Line::Level, Some(2000.into()));
    let drive = b.act(Role::Driving, "the driving force", engine, Direction::Along(1));
    let drag = b.act(Role::Resistance, "the resistance", engine, Direction::Opposing);
    let driven = b.stage(State::Moving);
    b.size(driven, drive, 1800.into());
    let coasting = b.then(driven, Happening::Ends(drive), State::Moving);
    let shared = b.situation().stages[driven.0].forces[drag.0];
    b.situation_mut().stages[coasting.0].forces[drag.0] = shared;
    for stage in [driven, coasting] {
        b.heading(stage, engine, 1);
    }
    let there = b.journey(driven, engine).expect("a journey");
    b.know(there.start_speed, Value::zero());
    b.know(there.time, 20.into());
    let on = b.journey_from(coasting, engine, there.end_speed, false).expect("a journey");
    b.know(on.end_speed, Value::zero());
    b.know(on.distance, 338.into());
    b.ask("", coasting, "resistance", Wanted::Quantity(shared));
    b.finish()
}

/// Q of 3 kg draws P up for 1 s, then the string breaks; P rises 1.176 m in all. s = a/2, v = a, h = s + v²/(2g), so
/// a = 1.96; 3g − T = 3a, T − mg = ma: m = 2.
fn total_height_gives_the_mass() -> Situation {
    let mut b = Builder::new();
    let p = b.body("P", "P", Form::Particle, Line::Vertical, None);
    let q = b.body("Q", "Q", Form::Particle, Line::Vertical, Some(3.into()));
    let string = b.over_pulley("the string", p, q);
    let taut = b.stage(State::Released);
    b.heading(taut, q, -1);
    let before = b.journey(taut, p).expect("a journey");
    b.know(before.start_speed, Value::zero());
    b.know(before.time, 1.into());
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
    b.know(height, dec("1.176"));
    let mass = b.situation().bodies[p.0].mass;
    b.ask("", taut, "mass of P", Wanted::Quantity(mass));
    b.finish()
}

/// Two pulls on one crate: 30 − X = m, 50 − X = 3m: m = 10, X = 20.
fn two_pulls_give_the_mass() -> Situation {
    let mut b = Builder::new();
    let load = b.body("the crate", "crate", Form::Block, Line::Level, None);
    let pull = b.act(Role::Applied, "the pull", load, Direction::Along(1));
    let drag = b.act(Role::Resistance, "the resistance", load, Direction::Opposing);
    let slow = b.stage(State::Moving);
    let fast = b.stage(State::Moving);
    b.situation_mut().stages[slow.0].name = "the first pull".to_owned();
    b.situation_mut().stages[fast.0].name = "the second pull".to_owned();
    let shared = b.situation().stages[slow.0].forces[drag.0];
    b.situation_mut().stages[fast.0].forces[drag.0] = shared;
    for (stage, force, acceleration) in [(slow, 30, 1), (fast, 50, 3)] {
        b.size(stage, pull, force.into());
        b.heading(stage, load, 1);
        let a = b.situation().stages[stage.0].accelerations[0];
        b.know(a, acceleration.into());
    }
    let mass = b.situation().bodies[load.0].mass;
    b.ask("a", fast, "mass of the crate", Wanted::Quantity(mass));
    b.ask("b", fast, "resistance", Wanted::Quantity(shared));
    b.finish()
}

/// Two pulls on a crate on a rough quay: 30 − μmg = m, 50 − μmg = 3m: m = 10, μ = 10/49.
fn two_pulls_give_the_mass_and_the_coefficient() -> Situation {
    let mut b = Builder::new();
    let load = b.body("the crate", "crate", Form::Block, Line::Level, None);
    let mu = b.coefficient(None);
    b.surface(load, "the quay", Grip::Rough(mu));
    let pull = b.act(Role::Applied, "the pull", load, Direction::Along(1));
    let slow = b.stage(State::Moving);
    let fast = b.stage(State::Moving);
    b.situation_mut().stages[slow.0].name = "the first pull".to_owned();
    b.situation_mut().stages[fast.0].name = "the second pull".to_owned();
    for (stage, force, acceleration) in [(slow, 30, 1), (fast, 50, 3)] {
        b.size(stage, pull, force.into());
        b.heading(stage, load, 1);
        let a = b.situation().stages[stage.0].accelerations[0];
        b.know(a, acceleration.into());
    }
    let mass = b.situation().bodies[load.0].mass;
    b.ask("a", fast, "mass of the crate", Wanted::Quantity(mass));
    b.ask("b", fast, "coefficient of friction", Wanted::Quantity(mu));
    b.finish()
}

fn all() -> Vec<(&'static str, Situation, &'static [&'static str])> {
    vec![
        ("together: total distance", total_distance_gives_the_coefficient(), &["1/3", "392/25"]),
        ("together: resistance", resistance_from_both_stages(), &["500"]),
        ("together: total height", total_height_gives_the_mass(), &["2"]),
        ("together: two pulls", two_pulls_give_the_mass(), &["10", "20"]),
        ("together: two pulls, rough", two_pulls_give_the_mass_and_the_coefficient(), &["10", "10/49"]),
    ]
}

#[test]
fn stages_that_only_together_give_what_is_wanted() {
    for (name, situation, answers) in all() {
        let work = worked(&situation);
        let found: Vec<&str> = work.answers.iter().map(|a| a.exact.as_str()).collect();
        assert_eq!(found, answers, "{name}");
        let text = work.plain();
        insta::with_settings!({ omit_expression => true, description => name, prepend_module_to_snapshot => false }, {
            insta::assert_snapshot!(name.replace([' ', ',', ':'], "_"), text);
        });
    }
}
