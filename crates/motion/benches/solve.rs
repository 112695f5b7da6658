//! How long a stage takes to solve: two bodies, and trains of growing length.
#![allow(missing_docs, reason = "a benchmark has no callers")]
#![allow(clippy::expect_used, reason = "a benchmark that cannot be built should stop")]

#[path = "../tests/support/mod.rs"]
mod support;

use divan::{Bencher, black_box};
use model::StageId;
use support::*;

fn main() {
    divan::main();
}

fn solve(bencher: Bencher, w: &Built) {
    bencher.bench(|| motion::solve(black_box(&w.situation), StageId(0), 0).expect("a motion that fits"));
}

#[divan::bench]
fn tractor_and_trailer(bencher: Bencher) {
    solve(bencher, &towed(&[(1800, 500), (1200, 400)], Some(3150), None));
}

#[divan::bench]
fn two_masses_over_a_pulley(bencher: Bencher) {
    solve(bencher, &atwood(2.into(), 3.into()));
}

#[divan::bench]
fn rough_slope_and_load(bencher: Bencher) {
    solve(bencher, &slope_and_load(5.into(), 9.into(), tan(3, 4), Some(ratio(1, 4))));
}

#[divan::bench]
fn slope_of_thirty_degrees_with_friction(bencher: Bencher) {
    let angle = exact::Angle::Degrees(30.into());
    solve(bencher, &slope_and_load(5.into(), 9.into(), angle, Some(ratio(1, 4))));
}

#[divan::bench(args = [2, 4, 8, 10, 16, 20, 30, 32, 40, 50])]
fn train(bencher: Bencher, length: usize) {
    solve(bencher, &towed(&vec![(1000, 100); length], Some(10_000), None));
}

/// Crates on a rough slope, each rougher than the one above it, with slack ropes between: the guess that all is
/// taut fails at every rope.
#[divan::bench(args = [3, 6, 9, 12])]
fn contacts(bencher: Bencher, count: usize) {
    let mut w = World::new();
    let angle = w.b.angle("α", tan(3, 4));
    let crates = count / 2 + 1;
    for i in 0..crates {
        let line = model::Line::Slope { angle, rises_right: true };
        let body = w.body(&format!("crate {i}"), line, 2.into());
        // With a smooth first crate there is one contact fewer.
        let mu = i64::try_from(i).unwrap_or(0) + 1;
        w.ground(body, (i > 0 || count % 2 == 1).then(|| ratio(mu, 13)));
    }
    for i in 1..crates {
        w.b.string(&format!("rope {i}"), w.bodies[i - 1], w.bodies[i]);
    }
    w.stage(model::State::Released);
    solve(bencher, &w.finish());
}
