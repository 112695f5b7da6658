//! Properties of every solved stage, over situations made at random: the values satisfy every equation
//! and inequality exactly, a system's equation is the sum of its bodies' equations, and an independent
//! solution in floating point (nalgebra's LU decomposition of equations written out here) agrees.

#![allow(clippy::expect_used, reason = "a test that cannot be set up should stop")]

mod support;

use exact::{Angle, Value};
use model::{Direction, Form, LinkId, Role, State};
use motion::{Equation, Factor, Law, Solved};
use nalgebra::{DMatrix, DVector};
use proptest::prelude::*;
use std::collections::BTreeMap;
use support::*;

const G: f64 = 9.8;

/// A side of an equation as a sum of products, formally: product → coefficient.
fn formal(equation: &Equation) -> BTreeMap<String, i64> {
    let mut sum = BTreeMap::new();
    let left = equation.left.iter().map(|t| (t, 1));
    let right = equation.right.iter().map(|t| (t, -1));
    for (term, side) in left.chain(right) {
        let mut factors: Vec<String> = term.factors.iter().map(|f| format!("{f:?}")).collect();
        factors.sort();
        *sum.entry(factors.join(" ")).or_insert(0) += side * i64::from(term.sign);
    }
    sum.retain(|_, n| *n != 0);
    sum
}

/// Every equation of motion of several bodies is the sum of those of its bodies.
fn systems_are_sums(solved: &Solved) {
    let motions: Vec<&Equation> = solved.equations.iter().filter(|e| e.law == Law::Motion).collect();
    for system in motions.iter().filter(|e| e.system.len() > 1) {
        let mut sum: BTreeMap<String, i64> = BTreeMap::new();
        for body in &system.system {
            let own = motions.iter().find(|e| e.system == [*body]).expect("each body has its own");
            for (product, n) in formal(own) {
                *sum.entry(product).or_insert(0) += n;
            }
        }
        sum.retain(|_, n| *n != 0);
        assert_eq!(formal(system), sum, "the system {:?}", system.system);
        let tensions = system
            .terms()
            .any(|t| matches!(t.origin, motion::Origin::Force(id) if system.internal.contains(&id)));
        assert!(!tensions, "internal forces do not stand in the equation of a system");
    }
}

fn close(exact: Option<&Value>, float: f64) {
    let value = exact.expect("determined").to_f64().expect("a number");
    assert!((value - float).abs() <= 1e-6 * float.abs().max(1.0), "exact {value}, in floating point {float}");
}

/// Solves matrix × x = right by LU decomposition.
fn lu(rows: &[(Vec<f64>, f64)]) -> Vec<f64> {
    let n = rows.len();
    let matrix = DMatrix::from_fn(n, n, |i, j| rows[i].0[j]);
    let right = DVector::from_fn(n, |i, _| rows[i].1);
    matrix.lu().solve(&right).expect("a regular system").iter().copied().collect()
}

fn angles() -> impl Strategy<Value = (Angle, f64)> {
    prop_oneof![
        Just((tan(3, 4), (3.0f64 / 4.0).atan())),
        Just((tan(5, 12), (5.0f64 / 12.0).atan())),
        Just((Angle::Degrees(30.into()), 30.0f64.to_radians())),
        Just((Angle::Degrees(45.into()), 45.0f64.to_radians())),
        Just((Angle::Degrees(60.into()), 60.0f64.to_radians())),
    ]
}

/// Two bodies on one string: how strongly each is driven along the string (in the direction in which the
/// second pulls the first), and the friction that the first can have. The independent solution.
fn on_one_string(masses: [f64; 2], drives: [f64; 2], limit: f64) -> (bool, f64, f64) {
    let drive = drives[0] + drives[1];
    if drive.abs() <= limit {
        // At rest; the second body alone says what the tension is.
        return (false, 0.0, drives[1]);
    }
    let friction = -limit * drive.signum();
    let x = lu(&[(vec![masses[0], -1.0], drives[0] + friction), (vec![masses[1], 1.0], drives[1])]);
    (true, x[0].abs(), x[1])
}

fn agrees(w: &Built, expected: (bool, f64, f64)) {
    let solved = w.solved();
    systems_are_sums(&solved);
    assert_eq!(solved.case.moves, expected.0 && expected.1 > 1e-12);
    close(solved.acceleration(w.bodies[0]), expected.1);
    close(solved.value(w.tension(0)), expected.2);
}

/// So many random cases, or as many as `PROPTEST_CASES` asks for.
fn config(cases: u32) -> ProptestConfig {
    let asked = std::env::var("PROPTEST_CASES").ok().and_then(|n| n.parse().ok());
    ProptestConfig { cases: asked.unwrap_or(cases), failure_persistence: None, ..ProptestConfig::default() }
}

proptest! {
    #![proptest_config(config(96))]

    /// Trains of two to five, driven or braked, on the level or up a slope.
    #[test]
    fn trains(
        train in prop::collection::vec((1i64..40, 0i64..30), 2..6),
        force in 1i64..900,
        braked in any::<bool>(),
    ) {
        let train: Vec<(i64, i64)> = train.iter().map(|(m, r)| (m * 50, r * 10)).collect();
        let w = if braked { towed(&train, None, Some(force * 10)) } else { towed(&train, Some(force * 10), None) };
        let solved = w.solved();
        systems_are_sums(&solved);
        // Unknowns: a, then the tensions.
        let n = train.len();
        let rows: Vec<(Vec<f64>, f64)> = train.iter().enumerate().map(|(i, (m, r))| {
            let mut row = vec![0.0; n];
            row[0] = *m as f64;
            if i > 0 { row[i] -= 1.0 }
            if i + 1 < n { row[i + 1] += 1.0 }
            let drive = if i > 0 { 0.0 } else { force as f64 * if braked { -10.0 } else { 10.0 } };
            (row, drive - *r as f64)
        }).collect();
        let x = lu(&rows);
        close(solved.acceleration(w.bodies[0]), x[0]);
        for (link, tension) in x.iter().enumerate().skip(1) {
            close(solved.value(w.tension(link - 1)), tension.abs());
            let force = solved.link_force(LinkId(link - 1), w.bodies[link]).expect("a coupling pulls");
            prop_assert_eq!(force.thrust, *tension < -1e-9);
        }
    }

    /// A body over a pulley, released.
    #[test]
    fn two_hanging(m1 in 1i64..60, m2 in 1i64..60) {
        let (f1, f2) = (m1 as f64 / 4.0, m2 as f64 / 4.0);
        agrees(&atwood(ratio(m1, 4), ratio(m2, 4)), on_one_string([f1, f2], [-f1 * G, f2 * G], 0.0));
    }

    /// A table, smooth or rough, and a hanging mass.
    #[test]
    fn tables(m1 in 1i64..40, m2 in 1i64..40, mu in prop::option::of(1i64..20)) {
        let (f1, f2) = (m1 as f64 / 2.0, m2 as f64 / 2.0);
        let limit = mu.map_or(0.0, |mu| mu as f64 / 20.0) * f1 * G;
        // A comparison too close for floating point is left to the exact tests.
        prop_assume!(mu.is_none_or(|mu| mu * m1 != 20 * m2));
        let w = table(ratio(m1, 2), ratio(m2, 2), mu.map(|mu| ratio(mu, 20)));
        agrees(&w, on_one_string([f1, f2], [0.0, f2 * G], limit));
    }

    /// A slope, smooth or rough, and a hanging mass.
    #[test]
    fn slopes(m1 in 1i64..40, m2 in 1i64..40, mu in prop::option::of(1i64..20), angle in angles()) {
        let (f1, f2) = (m1 as f64 / 2.0, m2 as f64 / 2.0);
        let (given, radians) = angle;
        let limit = mu.map_or(0.0, |mu| mu as f64 / 20.0) * f1 * G * radians.cos();
        let drives = [-f1 * G * radians.sin(), f2 * G];
        prop_assume!(((drives[0] + drives[1]).abs() - limit).abs() > 1e-6);
        let w = slope_and_load(ratio(m1, 2), ratio(m2, 2), given, mu.map(|mu| ratio(mu, 20)));
        agrees(&w, on_one_string([f1, f2], drives, limit));
    }

    /// A lift with a load on its floor, and a known tension in its cable.
    #[test]
    fn lifts(lift in 50i64..400, load in 10i64..200, tension in 1i64..12_000, up in any::<bool>(), drag in 0i64..300) {
        let mut w = World::new();
        let cage = w.form("the cage", Form::Lift, model::Line::Vertical, lift.into());
        let drum = w.form("the drum", Form::Load, model::Line::Vertical, load.into());
        w.b.rests_on("the reaction of the floor", drum, cage);
        let cable = w.b.act(Role::Cable, "the tension in the cable", cage, Direction::Along(1));
        let rails = w.b.act(Role::Resistance, "the resistance", cage, Direction::Opposing);
        let stage = w.stage(State::Moving);
        w.b.size(stage, cable, tension.into());
        w.b.size(stage, rails, drag.into());
        w.b.heading(stage, cage, if up { 1 } else { -1 });
        let w = w.finish();
        let solved = w.solved();
        systems_are_sums(&solved);
        let sense = if up { 1.0 } else { -1.0 };
        let (m, n) = (lift as f64, load as f64);
        // Unknowns: a upwards, and the push on the drum.
        let x = lu(&[
            (vec![m, 1.0], tension as f64 - m * G - sense * drag as f64),
            (vec![n, -1.0], -n * G),
        ]);
        if x[1] >= 0.0 {
            close(solved.acceleration(cage), sense * x[0]);
            close(solved.value(w.tension(0)), x[1]);
        } else {
            prop_assert_eq!(solved.case.links[0], motion::LinkState::Loose);
        }
    }

    /// Crates on a rough slope, roped one below the other, perhaps with a load over a pulley at the top:
    /// released, they always do something, whichever ropes are slack and whichever crates stay.
    #[test]
    fn roped_crates_on_a_rough_slope(
        crates in prop::collection::vec((1i64..20, 0i64..24), 1..5),
        load in prop::option::of(1i64..40),
        angle in angles(),
    ) {
        let mut w = World::new();
        let angle = w.b.angle("α", angle.0);
        for (i, (mass, mu)) in crates.iter().enumerate() {
            let line = model::Line::Slope { angle, rises_right: true };
            let crate_ = w.body(&format!("crate {}", i + 1), line, (*mass).into());
            w.ground(crate_, (*mu > 0).then(|| ratio(*mu, 20)));
        }
        for i in 1..crates.len() {
            w.b.string(&format!("rope {i}"), w.bodies[i - 1], w.bodies[i]);
        }
        if let Some(load) = load {
            let hangs = w.body("the load", model::Line::Vertical, load.into());
            w.b.over_pulley("the cable", w.bodies[0], hangs);
        }
        w.stage(State::Released);
        let w = w.finish();
        let solved = w.solved();
        systems_are_sums(&solved);
        for (i, state) in solved.case.frictions.iter().enumerate() {
            // What slides is driven against its friction.
            if *state == motion::FrictionState::Sliding {
                let a = solved.acceleration(w.bodies[i]).expect("determined");
                prop_assert!(motion::sign_with_positive_letters(a) != Some(exact::Sign::Negative));
            }
        }
    }

    /// Whatever is given, solving gives a result or a refusal with a reason, and never panics.
    #[test]
    fn anything_is_answered_or_refused(
        known in prop::collection::vec(prop::option::of(-20i64..200), 12),
        state in prop_oneof![
            Just(State::AtRest), Just(State::Limiting), Just(State::Steady), Just(State::Released), Just(State::Moving)
        ],
        heading in prop::option::of(any::<bool>()),
    ) {
        let mut w = slope_and_load(5.into(), 9.into(), tan(3, 4), Some(ratio(1, 4)));
        let mut b = model::Builder::new();
        std::mem::swap(b.situation_mut(), &mut w.situation);
        let stage = b.stage(state);
        if let Some(up) = heading {
            b.heading(stage, w.bodies[0], if up { 1 } else { -1 });
        }
        let journey = b.journey(stage, w.bodies[0]).expect("a body");
        let here = b.situation().stages[stage.0].clone();
        let ids = [
            here.accelerations[0], here.accelerations[1], here.links[0], journey.start_speed, journey.end_speed,
            journey.distance, journey.time, here.reactions[0].expect("a surface"), here.frictions[0].expect("rough"),
        ];
        for (id, value) in ids.into_iter().zip(&known) {
            if let Some(value) = value {
                b.know(id, (*value).into());
            }
        }
        let situation = b.finish();
        match motion::solve(&situation, stage, 0) {
            Ok(solved) => prop_assert_eq!(motion::check(&situation, &solved), Ok(())),
            Err(refusals) => prop_assert!(refusals.iter().all(|d| d.refusal.is_some() && !d.message.is_empty())),
        }
    }
}

/// The formal sums see through the order of factors.
#[test]
fn formal_sums_are_formal() {
    let w = towed(&[(100, 10), (200, 20)], Some(600), None);
    let solved = w.solved();
    let whole = solved.equations.iter().find(|e| e.system.len() == 2).expect("the whole train");
    let mass = |i: usize| Factor::Quantity(w.situation.bodies[i].mass);
    assert!(whole.right.iter().all(|t| t.factors.len() == 2), "mass × acceleration");
    assert!(whole.right[0].factors.contains(&mass(0)) && whole.right[1].factors.contains(&mass(1)));
    assert_eq!(whole.internal.len(), 2, "the tension at both ends of the coupling");
}
