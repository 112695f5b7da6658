//! Stories that cannot be as they are told: refused, with the reason, in the stage where they go wrong.

#![allow(clippy::expect_used, clippy::unwrap_used, reason = "a test that cannot be set up should stop")]

mod support;

use exact::Value;
use model::{Claim, Claimed, Happening, Kind, Refusal, Situation, Span, StageId, State};
use support::landing::{Landing, over_the_edge, two_hang};
use support::*;

/// The reason why a stage has no answer, and its words.
#[track_caller]
fn refused(situation: &Situation, stage: StageId) -> (Refusal, String) {
    let why = motion::solve(situation, stage, 0).expect_err("this story is wrong");
    (why[0].refusal.unwrap(), why[0].message.clone())
}

/// A block of 2 kg on a table (μ = 1/4) and a load of 3 kg that lands after half a metre.
fn quay() -> Landing {
    let mut quay = over_the_edge(2.into(), 3.into(), Some(Some(ratio(1, 4))));
    quay.b.know(quay.fall.distance, ratio(1, 2));
    quay
}

fn finish(landing: Landing) -> Built {
    World { b: landing.b, bodies: vec![landing.drawn, landing.load] }.finish()
}

/// v² = 2 × 4.9 × 0.5, and friction stops the block after 1 m (B25).
#[test]
fn a_body_that_stops_short_of_the_distance() {
    let mut quay = quay();
    let slides = quay.lands();
    let slide = quay.goes_on(slides);
    quay.b.know(slide.distance, ratio(6, 5));
    let w = finish(quay);
    let (kind, says) = refused(&w.situation, slides);
    assert_eq!(kind, Refusal::Contradictory);
    assert!(says.contains("the block comes to rest after 1 m"), "{says}");
}

/// It stops after √4.9/2.45 = 0.904 s.
#[test]
fn a_body_that_stops_before_the_time() {
    let mut quay = quay();
    let slides = quay.lands();
    let slide = quay.goes_on(slides);
    quay.b.know(slide.time, 1.into());
    let w = finish(quay);
    let (kind, says) = refused(&w.situation, slides);
    assert_eq!(kind, Refusal::Contradictory);
    assert!(says.contains("the block comes to rest after 0.904 s"), "{says}");
}

/// Half a metre and then one more: a pulley that is 1.2 m away is reached first.
#[test]
fn a_body_that_reaches_the_pulley_first() {
    let reaches = |room: Value| {
        let mut quay = quay();
        let slides = quay.lands();
        let slide = quay.goes_on(slides);
        quay.b.know(slide.end_speed, 0.into());
        let claim =
            Claim { stage: quay.falls, body: quay.drawn, says: Claimed::Within(room), span: Span::default() };
        quay.b.situation_mut().claims.push(claim);
        let w = finish(quay);
        motion::solve(&w.situation, slides, 0).is_err()
    };
    assert!(reaches(ratio(6, 5)));
    assert!(!reaches(ratio(8, 5)));
}

#[test]
fn a_body_that_is_said_to_rest_and_moves() {
    let mut quay = quay();
    let slides = quay.lands();
    let slide = quay.goes_on(slides);
    quay.b.know(slide.distance, ratio(1, 2));
    let rests = quay.b.then(slides, Happening::Rests(quay.drawn), State::Released);
    let w = finish(quay);
    let (kind, says) = refused(&w.situation, rests);
    assert_eq!(kind, Refusal::Contradictory);
    assert!(says.contains("the block is not at rest then: it moves at 1.57 m s^-1"), "{says}");
}

/// The light one is stopped on its way up: then the string does not go slack, it holds the other.
#[test]
fn a_string_that_does_not_go_slack() {
    let mut hung = two_hang(2.into(), 3.into());
    hung.b.know(hung.fall.distance, 1.into());
    let stops = Happening::Stops { body: hung.drawn, at: "the beam".to_owned() };
    let on = hung.b.then(hung.falls, stops, State::Moving);
    hung.b.situation_mut().stages[on.0].without_links.push(hung.string);
    let w = finish(hung);
    let (kind, says) = refused(&w.situation, on);
    assert_eq!(kind, Refusal::Contradictory);
    assert!(says.contains("the string does not go slack"), "{says}");
}

/// A fault in the first stage is told of whichever stage is asked: 0.5 m in 1 s would need 1 m s⁻², not 4.9.
#[test]
fn a_fault_is_not_hidden_by_the_stages_after_it() {
    let mut quay = quay();
    quay.b.know(quay.fall.time, 1.into());
    let slides = quay.lands();
    let slide = quay.goes_on(slides);
    quay.b.know(slide.end_speed, 0.into());
    let falls = quay.falls;
    let w = finish(quay);
    let (kind, says) = refused(&w.situation, falls);
    assert_eq!((kind, &says), (refused(&w.situation, slides).0, &refused(&w.situation, slides).1));
    assert_eq!(kind, Refusal::Contradictory);
}

/// The stages agree with themselves and not with each other: it lands at √4.9 and is said to stop after 2 m.
#[test]
fn stages_that_contradict_each_other() {
    let mut quay = quay();
    let slides = quay.lands();
    let slide = quay.goes_on(slides);
    quay.b.know(slide.end_speed, 0.into());
    quay.b.know(slide.distance, 2.into());
    let w = finish(quay);
    assert_eq!(refused(&w.situation, slides).0, Refusal::Contradictory);
}

#[test]
fn a_string_that_is_not_yet_taut() {
    let mut hung = two_hang(2.into(), 3.into());
    hung.b.know(hung.fall.distance, ratio(1, 2));
    let loose = hung.lands();
    let rise = hung.goes_on(loose);
    hung.b.know(rise.end_speed, 0.into());
    let jerk = hung.b.then(loose, Happening::Tightens(hung.string), State::Jerk);
    let zero = hung.b.quantity(Kind::Speed, "u", "speed of Q before the jerk");
    hung.b.know(zero, 0.into());
    hung.b.journey_from(jerk, hung.drawn, rise.end_speed, false).unwrap();
    hung.b.journey_from(jerk, hung.load, zero, false).unwrap();
    let w = finish(hung);
    let (kind, says) = refused(&w.situation, jerk);
    assert_eq!(kind, Refusal::Contradictory);
    assert!(says.contains("the string is not taut then: its ends are 0.100 m"), "{says}");
}

/// Nothing turns round by itself between two stages.
#[test]
fn a_body_that_turns_round_without_a_reason() {
    let mut quay = quay();
    let slides = quay.lands();
    quay.b.heading(slides, quay.drawn, -1);
    let slide = quay.goes_on(slides);
    quay.b.know(slide.end_speed, 0.into());
    let w = finish(quay);
    let (kind, says) = refused(&w.situation, slides);
    assert_eq!(kind, Refusal::Contradictory);
    assert!(says.contains("the other way"), "{says}");
}
