//! Long chains: what is solved grows with their length, what is written of it at most with its square.

#![allow(clippy::expect_used, reason = "a test that cannot be set up should stop")]

mod support;

use model::StageId;
use support::*;

/// A locomotive of 1000 kg and trucks of as much, each with 100 N against it, drawn with 10 kN.
fn train(length: usize) -> Built {
    towed(&vec![(1000, 100); length], Some(10_000), None)
}

/// How many equations, and how many terms in them.
fn written(solved: &motion::Solved) -> (usize, usize) {
    (solved.equations.len(), solved.equations.iter().map(|e| e.terms().count()).sum())
}

#[test]
fn values_alone_are_the_same_and_need_no_systems() {
    for length in [2, 7, 20, 60] {
        let w = train(length);
        let all = motion::solve(&w.situation, StageId(0), 0).expect("a motion that fits");
        let alone = motion::values(&w.situation, StageId(0), 0).expect("a motion that fits");
        assert_eq!((&all.values, &all.case), (&alone.values, &alone.case));
        assert!(alone.equations.iter().all(|e| e.system.len() == 1));
        assert_eq!(motion::check(&w.situation, &alone), Ok(()));
    }
}

#[test]
fn what_is_solved_grows_with_the_length_and_what_is_written_with_its_square() {
    let of = |length: usize, solve: &dyn Fn(&Built) -> motion::Solved| written(&solve(&train(length)));
    let alone = |w: &Built| motion::values(&w.situation, StageId(0), 0).expect("a motion that fits");
    let pool = |w: &Built| motion::solve(&w.situation, StageId(0), 0).expect("a motion that fits");
    let (short, long) = (of(20, &alone), of(60, &alone));
    assert!(long.0 <= 3 * short.0 + 1 && long.1 <= 3 * short.1 + 9, "{short:?} {long:?}");
    let (short, long) = (of(20, &pool), of(60, &pool));
    assert!(long.0 <= 3 * short.0 + 9 && long.1 <= 9 * short.1 + 9, "{short:?} {long:?}");
}
