//! How long the working of a question takes, the stages being solved already.

#[path = "../tests/common/mod.rs"]
mod common;

use divan::{Bencher, black_box};

fn main() {
    divan::main();
}

#[divan::bench]
fn engine_and_truck(bencher: Bencher<'_, '_>) {
    let situation = common::engine_and_truck();
    let solved = common::solve_all(&situation);
    bencher.bench(|| working::work(black_box(&situation), &solved, &working::Settings::default()));
}

#[divan::bench]
fn two_loads(bencher: Bencher<'_, '_>) {
    let situation = common::two_loads(2, 3);
    let solved = common::solve_all(&situation);
    bencher.bench(|| working::work(black_box(&situation), &solved, &working::Settings::default()));
}

#[divan::bench]
fn rough_slope(bencher: Bencher<'_, '_>) {
    let angle = exact::Angle::Degrees(exact::Rational::from_int(25));
    let situation = common::slope(angle, Some("0.2"));
    let solved = common::solve_all(&situation);
    bencher.bench(|| working::work(black_box(&situation), &solved, &working::Settings::default()));
}

#[divan::bench]
fn train_of_fifty(bencher: Bencher<'_, '_>) {
    let situation = common::train(50);
    let solved = common::solve_all(&situation);
    bencher.bench(|| working::work(black_box(&situation), &solved, &working::Settings::default()));
}
