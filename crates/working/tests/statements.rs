//! Statements about the model are made from the question's own bodies and equations.
#![allow(clippy::expect_used, reason = "the situations are built by hand")]

mod common;

use common::{dec, engine_and_truck, loads_in_letters, rough_table, two_loads};
use exact::{Angle, Value};
use model::*;
use working::{Settings, work};

/// What is said on each topic after all other parts.
fn said(mut situation: Situation, stage: StageId, topics: &[Topic]) -> Vec<String> {
    let asked = situation.asks.len();
    let last = situation.asks.last().map_or(0, |a| a.part_index);
    for (n, topic) in topics.iter().enumerate() {
        situation.asks.push(Ask {
            part: format!("s{n}"),
            part_index: last + 1,
            phrase: "statement".to_owned(),
            wanted: Wanted::Statement(*topic),
            show: None,
            accuracy: None,
            stage,
            span: Span::default(),
            marks: None,
        });
    }
    let solved: Vec<_> = motion::solve_story(&situation, 0).into_iter().filter_map(Result::ok).collect();
    let work = work(&situation, &solved, &Settings::default());
    work.answers.iter().skip(asked).map(|a| a.text.clone()).collect()
}

const FIRST: StageId = StageId(0);
const ALL: [Topic; 9] = [
    Topic::Inextensible,
    Topic::Rigid,
    Topic::Light,
    Topic::SmoothPulley,
    Topic::Particle,
    Topic::SmoothSurface,
    Topic::NoAirResistance,
    Topic::Limitation,
    Topic::Assumption,
];

/// A block of 2 kg slides down a smooth slope of 30°.
fn smooth_slope() -> Situation {
    let mut b = Builder::new();
    let angle = b.angle("α", Angle::Degrees(30.into()));
    let slope = Line::Slope { angle, rises_right: true };
    let block = b.body("the crate", "crate", Form::Block, slope, Some(2.into()));
    b.surface(block, "the slipway", Grip::Smooth);
    let stage = b.stage(State::Released);
    b.ask_acceleration("a", stage, block);
    b.finish()
}

/// Six trucks behind an engine.
fn train() -> Situation {
    let mut b = Builder::new();
    let engine = b.body("the engine", "engine", Form::Vehicle, Line::Level, Some(2000.into()));
    let mut front = engine;
    let mut bars = Vec::new();
    for n in 1..=6 {
        let truck = b.body(&format!("truck {n}"), "", Form::Trailer, Line::Level, Some(500.into()));
        bars.push(b.tow(&format!("coupling {n}"), front, truck));
        front = truck;
    }
    let drive = b.act(Role::Driving, "the driving force", engine, Direction::Along(1));
    let stage = b.stage(State::Moving);
    b.size(stage, drive, 2500.into());
    b.heading(stage, engine, 1);
    b.ask_acceleration("a", stage, engine);
    b.ask_link("b", stage, bars[0]);
    b.finish()
}

/// A load hangs in a string round a pulley that moves; the other end bears another load over a fixed pulley.
fn moving_pulley() -> Situation {
    let mut b = Builder::new();
    let p = b.body("P", "P", Form::Particle, Line::Vertical, Some(3.into()));
    let q = b.body("Q", "Q", Form::Particle, Line::Vertical, Some(4.into()));
    let string = b.over_pulley("the string", p, q);
    b.situation_mut().links[string.0].ends[1].times = 2;
    let stage = b.stage(State::Released);
    b.ask_acceleration("a", stage, p);
    b.finish()
}

/// The string breaks after 0.5 m; asked of the motion afterwards.
fn broken() -> Situation {
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
    b.ask("a", taut, "speed of P", Wanted::Quantity(before.end_speed));
    b.ask("b", free, "height", Wanted::Quantity(up.distance));
    b.finish()
}

/// A limitation is not what the question gives: no air resistance where there is a resistance, no string without one.
#[test]
fn limitations_are_those_of_this_model() {
    let limits = |situation| said(situation, FIRST, &[Topic::Limitation]).concat();
    assert!(!limits(engine_and_truck()).contains("ir resistance"));
    assert!(limits(engine_and_truck()).contains("constant"));
    assert!(limits(two_loads(3, 5)).contains("With it the acceleration of A would be smaller"));
    let slope = limits(smooth_slope());
    assert!(!slope.contains("string") && !slope.contains("pulley"), "{slope}");
}

/// The equations are those of the route, in which each body is taken by itself or both as one.
#[test]
fn the_equations_are_those_of_the_working() {
    let used = said(two_loads(3, 5), FIRST, &[Topic::SmoothPulley]).concat();
    assert!(used.contains("on A in T − 3g = 3a and on B in 5g − T = 5a"), "{used}");
    let hung = said(moving_pulley(), FIRST, &[Topic::Inextensible]).concat();
    assert!(hung.contains("2a_Q = a_P"), "{hung}");
}

#[test]
fn statements_name_bodies_and_equations() {
    let all = [
        ("two loads", two_loads(3, 5), FIRST),
        ("loads in letters", loads_in_letters(), FIRST),
        ("engine and truck", engine_and_truck(), FIRST),
        ("at rest on a rough table", rough_table("0.8"), FIRST),
        ("smooth slope", smooth_slope(), FIRST),
        ("train", train(), FIRST),
        ("moving pulley", moving_pulley(), FIRST),
        ("after the string has broken", broken(), StageId(1)),
    ];
    let mut text = String::new();
    for (name, situation, stage) in all {
        text.push_str(&format!("{name}\n"));
        for (topic, says) in ALL.iter().zip(said(situation, stage, &ALL)) {
            assert!(!says.is_empty(), "{name}: {topic:?}");
            text.push_str(&format!("  {topic:?}: {says}\n"));
        }
    }
    insta::with_settings!({ omit_expression => true, prepend_module_to_snapshot => false }, {
        insta::assert_snapshot!("statements", text);
    });
}
