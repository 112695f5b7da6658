//! Exact solving against elimination in doubles, in the same run: the price of
//! being right. `cargo bench -p exact` prints both side by side.
use divan::{Bencher, black_box};
use exact::{Rational, Value, linear};
use nalgebra::{DMatrix, DVector};

fn main() {
    divan::main();
}

/// Small whole coefficients and one-decimal right-hand sides, as questions have them.
fn entry(row: usize, column: usize) -> i64 {
    let mixed = (row * 7 + column * 13 + row * column * 5) % 11;
    mixed as i64 - 5 + if row == column { 12 } else { 0 }
}

fn rational_system(n: usize) -> (Vec<Vec<Rational>>, Vec<Rational>) {
    let row = |r| (0..n).map(|c| Rational::from_int(entry(r, c))).collect();
    let right = (0..n).filter_map(|r| Rational::new(49 * (r as i64 + 1), 10)).collect();
    ((0..n).map(row).collect(), right)
}

#[divan::bench(args = [2, 3, 4, 6])]
fn exact_fractions(bencher: Bencher, n: usize) {
    let (matrix, right) = rational_system(n);
    bencher.bench_local(|| linear::solve_rational(black_box(&matrix), black_box(&right)));
}

#[divan::bench(args = [2, 3, 4, 6])]
fn exact_values(bencher: Bencher, n: usize) {
    let (matrix, right) = rational_system(n);
    let matrix: Vec<Vec<Value>> =
        matrix.into_iter().map(|row| row.into_iter().map(Value::rational).collect()).collect();
    let right: Vec<Value> = right.into_iter().map(Value::rational).collect();
    bencher.bench_local(|| linear::solve(black_box(&matrix), black_box(&right)));
}

#[divan::bench(args = [2, 3, 4, 6])]
fn doubles_nalgebra_lu(bencher: Bencher, n: usize) {
    let matrix = DMatrix::from_fn(n, n, |r, c| entry(r, c) as f64);
    let right = DVector::from_fn(n, |r, _| 4.9 * (r as f64 + 1.0));
    bencher.bench_local(|| black_box(&matrix).clone().lu().solve(black_box(&right)));
}

/// Two masses over a pulley in letters: T − mg = ma, kmg − T = kma.
#[divan::bench]
fn letters_two_bodies(bencher: Bencher) {
    let [k, m, g] = ["k", "m", "g"].map(Value::symbol);
    let one = Value::one();
    let km = &k * &m;
    let matrix = vec![vec![one.clone(), -&m], vec![-&one, -&km]];
    let right = vec![&m * &g, -(&km * &g)];
    bencher.bench_local(|| linear::solve(black_box(&matrix), black_box(&right)));
}
