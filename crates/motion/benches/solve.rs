//! How long a stage takes to solve: two bodies, and trains of growing length.
#![allow(missing_docs, reason = "a benchmark has no callers")]
#![allow(clippy::expect_used, reason = "a benchmark that cannot be built should stop")]

#[path = "../tests/support/mod.rs"]
mod support;

use divan::{Bencher, black_box};
use model::StageId;
use support::*;

fn main() {
    growth();
    divan::main();
}

/// Trains of growing length: how long one takes to solve, for its values alone and with its pool; and the power of the
/// length with which that grows from one to the next.
fn growth() {
    let lengths = [10usize, 20, 40, 60];
    let measure = |solve: &dyn Fn(&Built)| -> Vec<f64> {
        let time = |length: usize| {
            let w = train_of(length);
            let mut times: Vec<f64> = (0..60)
                .map(|_| {
                    let start = std::time::Instant::now();
                    solve(&w);
                    start.elapsed().as_secs_f64() * 1e6
                })
                .collect();
            times.sort_by(f64::total_cmp);
            times[times.len() / 4]
        };
        lengths.iter().map(|n| time(*n)).collect()
    };
    let told = |what: &str, times: &[f64]| {
        print!("{what:<18}");
        for (i, (n, t)) in lengths.iter().zip(times).enumerate() {
            print!("  {n} bodies {t:.0} µs");
            if i > 0 {
                let power = (t / times[i - 1]).ln() / (*n as f64 / lengths[i - 1] as f64).ln();
                print!(" (n^{power:.2})");
            }
        }
        println!();
    };
    told("values alone", &measure(&|w| drop(black_box(motion::values(&w.situation, StageId(0), 0)))));
    told("with the pool", &measure(&|w| drop(black_box(motion::solve(&w.situation, StageId(0), 0)))));
}

fn train_of(length: usize) -> Built {
    towed(&vec![(1000, 100); length], Some(10_000), None)
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

#[divan::bench(args = [2, 4, 8, 10, 16, 20, 30, 40, 50, 60])]
fn train(bencher: Bencher, length: usize) {
    solve(bencher, &train_of(length));
}

#[divan::bench(args = [2, 4, 8, 10, 16, 20, 30, 40, 50, 60])]
fn train_for_its_values(bencher: Bencher, length: usize) {
    let w = train_of(length);
    bencher.bench(|| motion::values(black_box(&w.situation), StageId(0), 0).expect("a motion that fits"));
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
