//! Linear equations of every shape.
#![allow(clippy::unwrap_used, clippy::panic, reason = "helpers of tests may fail loudly")]
use exact::linear::{Outcome, solve, solve_rational};
use exact::{Rational, Value};

fn n(n: i64) -> Value {
    Value::from_int(n)
}

#[test]
fn nothing_to_solve() {
    assert_eq!(solve(&[], &[]), Ok(Outcome::Unique(vec![])));
    assert_eq!(solve(&[vec![]], &[n(0)]), Ok(Outcome::Unique(vec![])));
    assert_eq!(solve(&[vec![]], &[n(1)]), Ok(Outcome::Inconsistent { row: 0 }));
}

#[test]
fn some_unknowns_may_be_fixed_though_others_are_not() {
    // x = 2; y + z = 5.
    let matrix = [vec![n(1), n(0), n(0)], vec![n(1), n(1), n(1)]];
    let found = solve(&matrix, &[n(2), n(7)]).unwrap();
    assert_eq!(found, Outcome::Underdetermined { particular: vec![Some(n(2)), None, None], free: vec![2] });
}

#[test]
fn a_contradiction_names_its_row() {
    let matrix = [vec![n(1), n(1)], vec![n(2), n(2)], vec![n(1), n(-1)]];
    assert_eq!(solve(&matrix, &[n(3), n(7), n(1)]), Ok(Outcome::Inconsistent { row: 1 }));
    let ragged = [vec![n(1)], vec![n(0), n(2)]];
    assert_eq!(solve(&ragged, &[n(3), n(4)]), Ok(Outcome::Unique(vec![n(3), n(2)])));
}

/// Car 1200 kg and trailer 300 kg, driving force 3000 N, resistances 400 N and 200 N:
/// a = (F − R₁ − R₂)/(m₁ + m₂), T = (m₂F + m₁R₂ − m₂R₁)/(m₁ + m₂).
#[test]
fn car_and_trailer_agree_with_the_closed_form() {
    let r = Rational::from_int;
    let matrix = [vec![r(1200), r(1)], vec![r(300), r(-1)]];
    let found = solve_rational(&matrix, &[r(2600), r(-200)]).unwrap();
    let tension = Rational::new(300 * 3000 + 1200 * 200 - 300 * 400, 1500).unwrap();
    assert_eq!(found, Outcome::Unique(vec![Rational::new(2400, 1500).unwrap(), tension]));
}

/// T − mg = ma, kmg − T = kma: a = (k − 1)g/(k + 1), T = 2kmg/(k + 1).
#[test]
fn two_masses_in_letters_agree_with_the_closed_form() {
    let [k, m, g] = ["k", "m", "g"].map(Value::symbol);
    let km = &k * &m;
    let matrix = [vec![n(1), -&m], vec![n(-1), -&km]];
    let Ok(Outcome::Unique(found)) = solve(&matrix, &[&m * &g, -(&km * &g)]) else {
        panic!("two equations fix two unknowns")
    };
    let shown: Vec<String> = found.iter().map(Value::to_string).collect();
    assert_eq!(shown, ["2*k*m*g/(k + 1)", "(k - 1)*g/(k + 1)"]);
}

/// A rough slope at 25°: R = mg cos 25°, F = mg sin 25° − ma, F = R/4.
#[test]
fn a_slope_keeps_its_sine_and_cosine() {
    let angle = Rational::from_int(25);
    let (sine, cosine) = (Value::sin_deg(&angle), Value::cos_deg(&angle));
    let weight = n(49);
    let quarter = Value::rational(Rational::new(1, 4).unwrap());
    // Unknowns R, F, a with m = 5.
    let matrix = [vec![n(1), n(0), n(0)], vec![n(0), n(1), n(5)], vec![-&quarter, n(1), n(0)]];
    let right = [&weight * &cosine, &weight * &sine, n(0)];
    let Ok(Outcome::Unique(found)) = solve(&matrix, &right) else {
        panic!("three equations fix three unknowns")
    };
    let expected = (&weight * (&sine - &quarter * &cosine)).checked_div(&n(5)).unwrap();
    assert_eq!(found.get(2), Some(&expected));
    assert_eq!(exact::round_significant(&expected, 3).unwrap().digits, "1.92");
}
