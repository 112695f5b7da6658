//! How long reading takes: one question, and how it grows with the length of the text.

use divan::{Bencher, black_box};

fn main() {
    divan::main();
}

/// A hundred words, as a textbook would put them.
const QUESTION: &str = "A block A of mass 3 kg is held at rest on a rough plane inclined at an angle of 30° to the \
horizontal. A light inextensible string attached to A lies along a line of greatest slope of the plane, passes \
over a smooth pulley fixed at the top of the plane and carries at its other end a block B of mass 5 kg which hangs \
freely. The coefficient of friction between A and the plane is 0.2. The system is released from rest. (a) Find the \
acceleration of B. (b) Find the tension in the string. (c) Find the speed of B when it has fallen 0.5 m. \n";

/// Texts that make a reader look far ahead or look again: a mass that may be a body, phrases within phrases.
const PUZZLES: [&str; 4] = ["mass 3 kg ", "a mass ", "which is joined to a block ", "2("];

#[divan::bench]
fn one_question(bencher: Bencher<'_, '_>) {
    bencher.bench(|| words::read(black_box(QUESTION)));
}

/// The time must grow as the text does.
#[divan::bench(args = [1, 2, 4, 8])]
fn questions_in_a_row(bencher: Bencher<'_, '_>, times: usize) {
    let text = QUESTION.repeat(times);
    bencher.bench(|| words::read(black_box(&text)));
}

/// The longest text that is read, made of nothing but one puzzle.
#[divan::bench(args = PUZZLES)]
fn longest_puzzle(bencher: Bencher<'_, '_>, puzzle: &str) {
    let text = puzzle.repeat(19_900 / puzzle.len());
    bencher.bench(|| words::read(black_box(&text)));
}
