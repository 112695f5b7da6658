//! Gauss's principle of least constraint as an outside check: of all accelerations that the links allow, the
//! true ones make ½ Σ m (a − f/m)² least (C. F. Gauss, "Über ein neues allgemeines Grundgesetz der Mechanik",
//! Crelle's Journal 4, 1829). With strings that only pull and contacts that only push it is a quadratic
//! programme, whose multipliers are the tensions and pushes; a general solver (clarabel, an interior point
//! method in floating point) has to find the same as `motion`, which enumerates cases exactly.
//! Dry friction adds Σ μR |a| for bodies released from rest, which keeps the programme convex.

#![allow(clippy::expect_used, reason = "a test that cannot be set up should stop")]

mod support;

use clarabel::algebra::CscMatrix;
use clarabel::solver::{DefaultSettingsBuilder, DefaultSolver, IPSolver, NonnegativeConeT, ZeroConeT};
use model::{Holds, Situation};
use motion::LinkState;
use nalgebra::{DMatrix, DVector};
use support::random::{Drawn, Loaded, Rules, acceleration, describe, draw, float, force_of, loads, solve};

/// How near is near enough, as a share of the largest value.
const NEAR: f64 = 1e-7;

/// What the programme gives.
struct Least {
    accelerations: Vec<f64>,
    /// By link: its force, and how its ends come nearer.
    links: Vec<(f64, f64)>,
}

/// The quadratic programme of a situation: minimise ½ Σ m a² − Σ f a + Σ μR |a| with every link's ends no further
/// apart than it allows.
struct Programme<'a> {
    situation: &'a Situation,
    masses: Vec<f64>,
    drives: Vec<f64>,
    /// Bodies with friction, and μR.
    rough: Vec<(usize, f64)>,
    /// Rods first: they are equations.
    order: Vec<usize>,
    rods: usize,
}

impl Programme<'_> {
    fn new<'a>(situation: &'a Situation, loads: &[Loaded]) -> Programme<'a> {
        let rod = |i: &usize| situation.links[*i].holds == Holds::PullOrPush;
        let mut order: Vec<usize> = (0..situation.links.len()).collect();
        order.sort_by_key(|i| !rod(i));
        Programme {
            situation,
            masses: loads.iter().map(|l| float(&l.mass)).collect(),
            drives: loads.iter().map(|l| float(&l.drive)).collect(),
            rough: loads.iter().map(|l| float(&l.limit)).enumerate().filter(|(_, l)| *l > 0.0).collect(),
            rods: order.iter().filter(|i| rod(i)).count(),
            order,
        }
    }

    /// How a link's ends come nearer, as a row of factors of the accelerations.
    fn row(&self, link: usize) -> Vec<f64> {
        let mut row = vec![0.0; self.masses.len()];
        for end in &self.situation.links[link].ends {
            row[end.body.0] += f64::from(end.sense) * f64::from(end.times);
        }
        row
    }

    /// By the interior point method: which links hold, by their place in `order`, and which way what is rough
    /// slides (0: it rests).
    fn which_hold(&self) -> (Vec<bool>, Vec<f64>) {
        let (n, links) = (self.masses.len(), self.order.len());
        let columns = n + self.rough.len();
        let squares = CscMatrix::new_from_triplets(
            columns,
            columns,
            (0..n).collect(),
            (0..n).collect(),
            self.masses.clone(),
        );
        let mut linear: Vec<f64> = self.drives.iter().map(|f| -f).collect();
        linear.extend(self.rough.iter().map(|r| r.1));
        let (mut rows, mut cols, mut entries) = (Vec::new(), Vec::new(), Vec::new());
        let mut put = |row: usize, col: usize, entry: f64| {
            if entry != 0.0 {
                rows.push(row);
                cols.push(col);
                entries.push(entry);
            }
        };
        for (at, link) in self.order.iter().enumerate() {
            for (col, entry) in self.row(*link).into_iter().enumerate() {
                put(at, col, -entry);
            }
        }
        // |a| is at most t, whose sum with the factors μR is made least.
        for (at, (body, _)) in self.rough.iter().enumerate() {
            for (row, sign) in [(links + 2 * at, 1.0), (links + 2 * at + 1, -1.0)] {
                put(row, *body, sign);
                put(row, n + at, -1.0);
            }
        }
        let height = links + 2 * self.rough.len();
        let matrix = CscMatrix::new_from_triplets(height, columns, rows, cols, entries);
        let cones = [ZeroConeT(self.rods), NonnegativeConeT(height - self.rods)];
        let settings = DefaultSettingsBuilder::default().verbose(false).build().expect("sound settings");
        let nought = vec![0.0; height];
        let mut solver = DefaultSolver::new(&squares, &linear, &matrix, &nought, &cones, settings)
            .expect("a sound programme");
        solver.solve();
        let (z, s) = (&solver.solution.z, &solver.solution.s);
        let binds = |row: usize| row < self.rods || z[row] > s[row];
        let slides = |at: usize| match (binds(links + 2 * at), binds(links + 2 * at + 1)) {
            (true, true) => 0.0,
            (_, other) => {
                if other {
                    -1.0
                } else {
                    1.0
                }
            }
        };
        ((0..links).map(binds).collect(), (0..self.rough.len()).map(slides).collect())
    }

    /// With what binds taken as equations, the rest is linear, and is solved to the last digits. What an
    /// inequality then forbids was a close call of the interior point method, and is turned.
    fn least(&self) -> Option<Least> {
        let (mut holds, mut slides) = self.which_hold();
        for _ in 0..12 {
            let (least, frictions) = self.with(&holds, &slides)?;
            let scale = self.drives.iter().fold(1.0f64, |most, f| most.max(f.abs()));
            let tiny = 1e-9 * scale;
            let mut turned = false;
            for (at, link) in self.order.iter().enumerate().skip(self.rods) {
                let (force, gap) = least.links[*link];
                if (holds[at] && force < -tiny) || (!holds[at] && gap < -tiny) {
                    (holds[at], turned) = (!holds[at], true);
                }
            }
            for (at, (body, limit)) in self.rough.iter().enumerate() {
                let way = slides[at];
                if way == 0.0 && frictions[at].abs() > limit + tiny {
                    (slides[at], turned) = (-frictions[at].signum(), true);
                } else if way != 0.0 && way * least.accelerations[*body] < -tiny {
                    (slides[at], turned) = (0.0, true);
                }
            }
            if !turned {
                return Some(least);
            }
        }
        None
    }

    /// The accelerations, the forces of links and of friction, if just these bind.
    fn with(&self, holds: &[bool], slides: &[f64]) -> Option<(Least, Vec<f64>)> {
        let n = self.masses.len();
        let mut bound: Vec<Vec<f64>> = Vec::new();
        let mut forces = self.drives.clone();
        let mut places = Vec::new();
        for (at, link) in self.order.iter().enumerate().filter(|(at, _)| holds[*at]) {
            places.push(at);
            bound.push(self.row(*link));
        }
        let taut = bound.len();
        for ((body, limit), way) in self.rough.iter().zip(slides) {
            forces[*body] -= limit * way;
            if *way == 0.0 {
                let mut row = vec![0.0; n];
                row[*body] = 1.0;
                bound.push(row);
            }
        }
        let size = n + bound.len();
        let mut matrix = DMatrix::zeros(size, size);
        let mut right = DVector::zeros(size);
        for i in 0..n {
            matrix[(i, i)] = self.masses[i];
            right[i] = forces[i];
            for (k, row) in bound.iter().enumerate() {
                matrix[(i, n + k)] = -row[i];
                matrix[(n + k, i)] = row[i];
            }
        }
        // What hangs together leaves the forces open: then the least of those that do is taken.
        let exact = |x: &DVector<f64>| (&matrix * x - &right).amax() <= 1e-9 * right.amax().max(1.0);
        let x = match matrix.clone().lu().solve(&right).filter(exact) {
            Some(x) => x,
            None => matrix.clone().svd(true, true).solve(&right, 1e-9).ok()?,
        };
        let accelerations: Vec<f64> = (0..n).map(|i| x[i]).collect();
        let mut links = vec![(0.0, 0.0); self.order.len()];
        for (at, link) in self.order.iter().enumerate() {
            let force = places.iter().position(|p| *p == at).map_or(0.0, |k| x[n + k]);
            let gap = self.row(*link).iter().zip(&accelerations).map(|(r, a)| r * a).sum();
            links[*link] = (force, gap);
        }
        let mut resting = n + taut;
        let frictions = self.rough.iter().zip(slides).map(|((_, limit), way)| {
            if *way != 0.0 {
                return -limit * way;
            }
            resting += 1;
            x[resting - 1]
        });
        let frictions = frictions.collect();
        Some((Least { accelerations, links }, frictions))
    }
}

/// Said where the solver's own answer could not be made sharp: nothing to compare with.
const DOUBTFUL: &str = "the solver does not settle";

/// Compares; what differs, in words.
fn differs(drawn: &Drawn) -> Option<String> {
    let situation = &drawn.situation;
    let loads = loads(situation);
    if loads.iter().any(|l| float(&l.reaction) < -1e-9) {
        // Lifted off its surface: outside the programme, and refused.
        return solve(drawn).is_ok().then(|| "a body without a surface under it is solved".to_owned());
    }
    let Some(least) = Programme::new(situation, &loads).least() else {
        return Some(DOUBTFUL.to_owned());
    };
    let solved = match solve(drawn) {
        Ok(solved) => solved,
        Err(why) => return Some(format!("refused: {why}\nexpected {:?}", least.accelerations)),
    };
    let scale = least.accelerations.iter().fold(1.0f64, |most, a| most.max(a.abs()));
    for (i, expected) in least.accelerations.iter().enumerate() {
        let Some(found) = acceleration(&solved, i) else { return Some(format!("no acceleration of {i}")) };
        if (float(&found) - expected).abs() > NEAR * scale {
            return Some(format!("acceleration of {i}: {found}, expected {expected}"));
        }
    }
    let heaviest = loads.iter().fold(1.0f64, |most, l| most.max(float(&l.mass)));
    let pull = least.links.iter().fold(heaviest * scale, |most, l| most.max(l.0.abs()));
    let unsure = drawn.ring || loads.iter().any(|l| float(&l.limit) > 0.0);
    for (i, (expected, gap)) in least.links.iter().enumerate() {
        match force_of(situation, &solved, i) {
            // In a ring, and between bodies that friction holds, tensions need not be determined; the programme
            // picks one of many.
            _ if unsure => {}
            None => return Some(format!("no force in link {i}")),
            Some(found) if (float(&found) - expected).abs() > NEAR * pull => {
                return Some(format!("force in link {i}: {found}, expected {expected}"));
            }
            Some(_) => {}
        }
        let state = solved.case.links[i];
        if !unsure && *expected > 10.0 * NEAR * pull && state != LinkState::Holding {
            return Some(format!("link {i} is {state:?}, expected taut"));
        }
        if *gap > 10.0 * NEAR * scale && state != LinkState::Loose {
            return Some(format!("link {i} is {state:?}, expected slack"));
        }
    }
    None
}

/// Compares so many situations; reports the smallest that differs.
#[track_caller]
fn agree(seeds: std::ops::Range<u64>, rules: Rules) {
    let mut failures: Vec<(usize, u64, String)> = Vec::new();
    let (mut doubtful, all) = (0, seeds.end - seeds.start);
    for seed in seeds {
        let drawn = draw(seed, rules);
        if let Some(why) = differs(&drawn) {
            if why == DOUBTFUL {
                doubtful += 1;
                continue;
            }
            let size = drawn.situation.bodies.len() * 4
                + drawn.situation.links.len() * 2
                + drawn.situation.actions.len();
            failures.push((size, seed, format!("{why}\n{}", describe(&drawn.situation))));
        }
    }
    assert!(doubtful * 500 <= all, "{doubtful} of {all} have nothing to be compared with");
    failures.sort();
    let shown: Vec<_> = failures.iter().take(3).map(|(_, seed, why)| format!("seed {seed}: {why}")).collect();
    assert!(failures.is_empty(), "{} differ; the smallest:\n{}", failures.len(), shown.join("\n"));
}

const SMOOTH: Rules = Rules { bodies: 6, rough: 0, moving: 20, rings: 4, three_ends: 20 };

#[test]
fn ten_thousand_smooth_situations() {
    agree(0..10_000, SMOOTH);
}

#[test]
fn two_thousand_rough_ones_released_from_rest() {
    agree(20_000..22_000, Rules { bodies: 6, rough: 60, moving: 0, rings: 0, three_ends: 10 });
}
