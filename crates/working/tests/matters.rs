//! Whether something is so: what the working shows of it.
#![allow(clippy::expect_used, reason = "the situations are built by hand")]

mod common;

use common::{dec, worked};
use exact::{Angle, Value};
use model::*;

/// A crate of 50 kg on the bed of a lorry that speeds up; the coefficient is 0.4, so that it sticks up to 3.92 m s⁻².
fn crate_on_lorry(acceleration: &str, told: Option<bool>) -> Situation {
    let mut b = Builder::new();
    let lorry = b.body("the lorry", "lorry", Form::Vehicle, Line::Level, None);
    let load = b.body("the crate", "crate", Form::Block, Line::Level, Some(50.into()));
    let mu = b.coefficient(Some(dec("0.4")));
    b.on_top(load, lorry, Grip::Rough(mu));
    b.act(Role::Driving, "the driving force", lorry, Direction::Along(1));
    let stage = b.stage(State::Moving);
    b.heading(stage, lorry, 1);
    let a = b.situation().stages[0].accelerations[lorry.0];
    b.know(a, dec(acceleration));
    b.ask_whether("a", stage, Matter::Slips(load), told);
    b.finish()
}

/// A string between a block pulled up a slope and one behind it.
fn string_that_may_be_slack(front: &str, behind: &str) -> Situation {
    let mut b = Builder::new();
    let angle = b.angle("α", Angle::Sin(dec("0.6")));
    let line = Line::Slope { angle, rises_right: true };
    let upper = b.body("P", "P", Form::Particle, line, Some(2.into()));
    let lower = b.body("Q", "Q", Form::Particle, line, Some(3.into()));
    for (body, mu) in [(upper, front), (lower, behind)] {
        let mu = b.coefficient(Some(dec(mu)));
        b.surface(body, "the slope", Grip::Rough(mu));
    }
    let string = b.string("the string", upper, lower);
    let stage = b.stage(State::Released);
    b.ask_whether("a", stage, Matter::Taut(string), None);
    b.finish()
}

/// A tug draws a truck by a rope that can bear so much.
fn rope(bears: i64, told: Option<bool>) -> Situation {
    let mut b = Builder::new();
    let tug = b.body("the tug", "tug", Form::Vehicle, Line::Level, Some(900.into()));
    let truck = b.body("the truck", "truck", Form::Trailer, Line::Level, Some(600.into()));
    let rope = b.string("the rope", tug, truck);
    b.bears(rope, Some(bears.into()));
    let drive = b.act(Role::Driving, "the driving force", tug, Direction::Along(1));
    let stage = b.stage(State::Moving);
    b.size(stage, drive, 3000.into());
    b.heading(stage, tug, 1);
    b.ask_whether("a", stage, Matter::Bears(rope), told);
    b.finish()
}

/// Q of 3 kg hangs over the edge of a table and draws P of 2 kg (coefficient 0.25) until it lands after 0.5 m; the pulley
/// is so far from where P began.
fn towards_the_pulley(way: &str, told: Option<bool>) -> Situation {
    over_the_table(way, told, false)
}

fn over_the_table(way: &str, told: Option<bool>, smooth: bool) -> Situation {
    let mut b = Builder::new();
    let p = b.body("P", "P", Form::Particle, Line::Level, Some(2.into()));
    let q = b.body("Q", "Q", Form::Particle, Line::Vertical, Some(3.into()));
    match smooth {
        true => b.surface(p, "the table", Grip::Smooth),
        false => {
            let mu = b.coefficient(Some(dec("0.75")));
            b.surface(p, "the table", Grip::Rough(mu));
        }
    }
    let string = b.over_pulley("the string", p, q);
    let falls = b.stage(State::Released);
    b.heading(falls, q, -1);
    let fall = b.journey(falls, q).expect("a journey");
    b.know(fall.start_speed, Value::zero());
    b.know(fall.distance, dec("0.5"));
    let lands = Happening::Stops { body: q, at: "the floor".to_owned() };
    let alone = b.then(falls, lands, State::Moving);
    b.situation_mut().stages[alone.0].without_links.push(string);
    b.heading(alone, p, 1);
    b.journey_from(alone, p, fall.end_speed, false).expect("a journey");
    let gone = b.stopping(alone, p, &[fall.distance]).expect("a distance");
    let far = b.quantity(Kind::Distance, "l", "distance of P from the pulley");
    b.know(far, dec(way));
    b.ask_whether("a", alone, Matter::Reaches { body: p, gone, way: far }, told);
    b.finish()
}

/// A lift with a load: the push of its floor as it goes up with a = 1, and down with a = −1.
fn two_states(is: Comparison) -> Situation {
    let mut b = Builder::new();
    let lift = b.body("the lift", "lift", Form::Lift, Line::Vertical, Some(600.into()));
    let load = b.body("the crate", "crate", Form::Block, Line::Vertical, Some(50.into()));
    let floor = b.rests_on("push of the floor on the crate", load, lift);
    b.act(Role::Cable, "the tension in the cable", lift, Direction::Along(1));
    let mut pushes = Vec::new();
    for (name, a, way) in [("going up", "1", 1), ("going down", "-1", -1)] {
        let stage = b.stage(State::Moving);
        b.heading(stage, lift, way);
        b.situation_mut().stages[stage.0].name = name.to_owned();
        let id = b.situation().stages[stage.0].accelerations[lift.0];
        b.know(id, dec(a));
        pushes.push(b.situation().stages[stage.0].links[floor.0]);
    }
    let matter = Matter::Compares { left: pushes[0], is, times: Value::one(), right: pushes[1] };
    b.ask_whether("a", StageId(1), matter, None);
    b.finish()
}

/// A block that has come to rest on a slope.
fn stopped(mu: &str, told: Option<bool>) -> Situation {
    let mut b = Builder::new();
    let angle = b.angle("α", Angle::Sin(dec("0.6")));
    let p = b.body("P", "P", Form::Particle, Line::Slope { angle, rises_right: true }, Some(2.into()));
    let mu = b.coefficient(Some(dec(mu)));
    b.surface(p, "the slope", Grip::Rough(mu));
    let up = b.stage(State::Moving);
    b.heading(up, p, 1);
    let way = b.journey(up, p).expect("a journey");
    b.know(way.start_speed, 7.into());
    b.know(way.end_speed, Value::zero());
    let then = b.then(up, Happening::Rests(p), State::Released);
    b.ask("a", up, "distance", Wanted::Quantity(way.distance));
    b.ask_whether("b", then, Matter::StaysAtRest(Some(p)), told);
    b.finish()
}

/// The text of the answer, and the line of the working that decides it.
fn found(situation: &Situation) -> (String, String) {
    let work = worked(situation);
    let answer = work.answers.last().expect("an answer");
    assert_eq!(answer.refused, None);
    assert_eq!(answer.quantity, "statement");
    let steps = work.routes.first().map(|r| r.steps.as_slice()).unwrap_or_default();
    let own = steps.iter().rev().filter(|s| s.ask == Some(answer.ask) && !s.is_check);
    let last = own.flat_map(|s| s.lines.last()).next();
    (answer.text.clone(), last.map_or(String::new(), |l| format!("{}{}", l.math.plain(), l.after)))
}

/// Why there is no answer.
fn refused(situation: &Situation) -> String {
    let work = worked(situation);
    work.answers.last().and_then(|a| a.refused.clone()).map_or(String::new(), |d| d.message)
}

/// F = 50 × 2 = 100 N, μR = 0.4 × 490 = 196 N.
#[test]
fn a_crate_that_does_not_slip() {
    let (text, line) = found(&crate_on_lorry("2", Some(false)));
    assert_eq!(
        text,
        "The crate does not slip on the lorry: it needs 100 N of friction, and up to 196 N is to be had."
    );
    assert_eq!(line, "F = 100 < 196, so the crate does not slip on the lorry, as required");
}

/// F = 50 × 5 = 250 N would be needed: found by supposing that it does not slip.
#[test]
fn a_crate_that_slips() {
    let (text, line) = found(&crate_on_lorry("5", None));
    assert_eq!(
        text,
        "The crate slips on the lorry: it would need 250 N of friction not to, and no more than 196 N is to be had."
    );
    assert_eq!(line, "F = 250 > 196, so the crate slips on the lorry");
    let work = worked(&crate_on_lorry("5", None));
    assert!(
        work.routes[0].steps[0].reason.starts_with("Suppose that the crate does not slip on the lorry. ")
    );
}

#[test]
fn what_is_not_so_cannot_be_shown() {
    let says = refused(&crate_on_lorry("5", Some(false)));
    assert!(
        says.starts_with("the question wants the contrary shown, but the crate slips on the lorry"),
        "{says}"
    );
    assert!(refused(&rope(1000, Some(true))).contains("but the rope breaks: its tension would be 1200 N"));
    assert!(refused(&stopped("0.8", Some(false))).contains("but P stays at rest"));
    assert!(refused(&towards_the_pulley("0.6", Some(false))).contains("but P gets so far"));
}

/// T = 600 × 2 = 1200 N.
#[test]
fn a_rope_that_breaks_or_not() {
    assert_eq!(found(&rope(1500, Some(true))).1, "T = 1200 < 1500, so the rope does not break, as required");
    assert_eq!(
        found(&rope(1000, None)).0,
        "The rope breaks: its tension would be 1200 N, and it can bear only 1000 N."
    );
}

/// Together a = 15.68/5 = 3.136, T = 17.64 − 5.88 − 9.408 = 2.352; the other way about a rod would be in thrust of as
/// much (13.72/5 = 2.744, 11.76 − 17.64 + 8.232 = 2.352).
#[test]
fn a_string_taut_or_slack() {
    assert_eq!(found(&string_that_may_be_slack("0.5", "0.25")).1, "T = 2.352 > 0, so the string is taut");
    let (text, line) = found(&string_that_may_be_slack("0.25", "0.5"));
    assert_eq!(
        text,
        "The string is slack: to keep its length it would have to push with 2.35 N, which no string can."
    );
    assert!(line.starts_with("T = 2.352 > 0, so it would have to push"), "{line}");
}

/// a = (3g − 0.75 × 2g)/5 = 2.94, v² = 2.94; then −7.35, so 0.2 m more: 0.7 m.
#[test]
fn a_block_that_stops_before_the_pulley() {
    let (text, line) = found(&towards_the_pulley("0.75", Some(false)));
    assert_eq!(text, "P does not get so far: it stops after 0.700 m, and the way is 0.750 m.");
    assert_eq!(line, "d = 0.7 < 0.75, so P does not get so far, as required");
    let (text, _) = found(&towards_the_pulley("0.6", Some(true)));
    assert_eq!(text, "P gets so far: it would stop only after 0.700 m, and the way is 0.600 m.");
}

/// 50 (g + 1) = 540 N and 50 (g − 1) = 440 N, found in two stages.
#[test]
fn pushes_of_two_stages_compared() {
    let (text, line) = found(&two_states(Comparison::More));
    assert!(text.ends_with(": 540 N and 440 N."), "{text}");
    assert!(line.starts_with("540 > 440, so "), "{line}");
}

/// Held by 0.8 × 15.68 = 12.544 N, as 11.76 N are needed; not by 7.84 N.
#[test]
fn a_block_that_has_stopped_on_a_slope() {
    let (text, line) = found(&stopped("0.8", Some(true)));
    assert_eq!(text, "P stays at rest: it needs 11.8 N of friction, and up to 12.5 N is to be had.");
    assert_eq!(line, "11.76 < 12.544, so P stays at rest");
    assert_eq!(found(&stopped("0.5", Some(false))).1, "11.76 > 7.84, so P moves");
}

/// The same rope: which driving forces does it bear, or which is the greatest?
fn towing(most: i64) -> (Builder, StageId, LinkId, QuantityId) {
    let mut b = Builder::new();
    let tug = b.body("the tug", "tug", Form::Vehicle, Line::Level, Some(900.into()));
    let truck = b.body("the truck", "truck", Form::Trailer, Line::Level, Some(600.into()));
    let rope = b.string("the rope", tug, truck);
    b.bears(rope, Some(most.into()));
    let drive = b.act(Role::Driving, "the driving force", tug, Direction::Along(1));
    let stage = b.stage(State::Moving);
    b.heading(stage, tug, 1);
    let force = b.situation().stages[0].forces[drive.0];
    (b, stage, rope, force)
}

/// T = 600 × D/1500 ≤ 900 for D ≤ 2250.
#[test]
fn the_driving_forces_that_a_rope_bears() {
    let (mut b, stage, _, force) = towing(900);
    b.ask("a", stage, "driving force", Wanted::Range(force));
    let work = worked(&b.finish());
    assert_eq!(work.answers[0].refused, None);
    assert_eq!(work.answers[0].exact, "0 < D <= 2250");
    let plain = work.plain();
    assert!(
        plain.contains("The rope does not break as long as its force is no more than it can bear."),
        "{plain}"
    );
    assert!(plain.contains("0.4D ≤ 900"), "{plain}");
}

/// About to break: T = 900, so a = 1.5 and D = 2250.
#[test]
fn the_greatest_driving_force() {
    let (mut b, stage, rope, force) = towing(900);
    b.about_to_break(stage, rope).expect("a greatest tension");
    b.ask("a", stage, "greatest driving force", Wanted::Quantity(force));
    let work = worked(&b.finish());
    assert_eq!(work.answers[0].refused, None);
    assert_eq!(work.answers[0].exact, "2250");
    let plain = work.plain();
    assert!(plain.contains("The rope is about to break."), "{plain}");
}

/// It breaks at 3000 N, where T would be 1200; then the tug alone has a = 3000/900. With 2000 N (T = 800) it does not.
#[test]
fn a_rope_that_breaks_under_its_load() {
    let story = |drive: i64| {
        let (mut b, stage, rope, force) = towing(900);
        b.know(force, drive.into());
        let then = b.then(stage, Happening::Breaks(rope), State::Moving);
        let force = b.situation().stages[1].forces[0];
        b.know(force, drive.into());
        b.heading(then, BodyId(0), 1);
        b.ask_acceleration("a", then, BodyId(0));
        b.finish()
    };
    assert_eq!(worked(&story(3000)).answers[0].exact, "10/3");
    let situation = story(2000);
    let why = motion::solve(&situation, StageId(1), 0).expect_err("it bears that");
    assert!(
        why[0].message.starts_with("the rope does not break: its tension is 800 N, and it can bear 900 N"),
        "{}",
        why[0].message
    );
}

/// Nothing is asked of the breaking; then it is remarked upon.
#[test]
fn a_rope_that_would_break_is_remarked_upon() {
    let (mut b, stage, rope, force) = towing(900);
    b.know(force, 3000.into());
    b.ask_link("a", stage, rope);
    let situation = b.finish();
    let solved = motion::solve(&situation, stage, 0).expect("a motion");
    let remarks = motion::remarks(&situation, &solved);
    assert!(
        remarks.iter().any(|d| d.message.starts_with("the rope would break: its tension would be 1200 N"))
    );
}

/// On a smooth table it goes on for ever: then there is no distance after which it stops.
#[test]
fn what_does_not_slow_down() {
    let situation = over_the_table("0.75", None, true);
    let why = motion::solve(&situation, StageId(1), 0).expect_err("it never stops");
    assert_eq!(why[0].message, "P does not slow down, so that it never comes to rest");
}
