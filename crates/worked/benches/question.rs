//! How long one question takes, whole and room by room: the tug tractor and its trailer.

use divan::{Bencher, black_box};
use worked::Settings;

const QUESTION: &str = include_str!("../../../shelf/01-timber-trailer.txt");

fn main() {
    divan::main();
}

#[divan::bench]
fn whole(bencher: Bencher<'_, '_>) {
    bencher.bench(|| worked::work(black_box(QUESTION), &Settings::default()));
}

#[divan::bench]
fn read(bencher: Bencher<'_, '_>) {
    bencher.bench(|| words::read(black_box(QUESTION)));
}

#[divan::bench]
fn solve(bencher: Bencher<'_, '_>) {
    let situation = words::read(QUESTION).situation;
    bencher.bench(|| {
        situation.stage_ids().map(|stage| motion::solve(black_box(&situation), stage, 0)).collect::<Vec<_>>()
    });
}

#[divan::bench]
fn explain(bencher: Bencher<'_, '_>) {
    let done = worked::work(QUESTION, &Settings::default());
    bencher.bench(|| {
        working::work(black_box(&done.reading.situation), &done.solved, &Settings::default().working)
    });
}

#[divan::bench]
fn draw(bencher: Bencher<'_, '_>) {
    let done = worked::work(QUESTION, &Settings::default());
    bencher.bench(|| {
        done.solved.iter().map(|s| figure::all(black_box(&done.reading.situation), s)).collect::<Vec<_>>()
    });
}
