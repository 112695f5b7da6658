//! All figures of a question with two bodies: the aim is less than 150 µs.

#[path = "../tests/support/mod.rs"]
mod support;

use divan::{Bencher, black_box};
use model::StageId;

fn main() {
    divan::main();
}

fn drawn(bencher: Bencher, situation: &model::Situation) {
    match motion::solve(situation, StageId(0), 0) {
        Ok(solved) => bencher.bench(|| figure::all(black_box(situation), black_box(&solved))),
        Err(_) => bencher.bench(|| figure::scene(black_box(situation), None)),
    }
}

#[divan::bench]
fn table_and_weight(bencher: Bencher) {
    drawn(bencher, &support::table());
}

#[divan::bench]
fn hill(bencher: Bencher) {
    drawn(bencher, &support::hill());
}

#[divan::bench]
fn train_of_twenty(bencher: Bencher) {
    drawn(bencher, &support::train(20));
}
