//! Values in simplest form: numbers, surds, letters and angles.
#![allow(clippy::unwrap_used, clippy::panic, reason = "helpers of tests may fail loudly")]
use exact::{ExactError, Rational, Sign, Value};
use std::cmp::Ordering;

fn n(n: i64) -> Value {
    Value::from_int(n)
}

fn frac(num: i64, den: i64) -> Value {
    Value::rational(Rational::new(num, den).unwrap())
}

fn s(name: &str) -> Value {
    Value::symbol(name)
}

fn deg(angle: i64) -> Rational {
    Rational::from_int(angle)
}

#[track_caller]
fn shows(value: &Value, plain: &str) {
    assert_eq!(value.to_string(), plain);
}

#[test]
fn numbers_are_shown_as_fractions() {
    shows(&frac(6, 8), "3/4");
    shows(&frac(49, 10), "49/10");
    shows(&n(-2), "-2");
    shows(&Value::zero(), "0");
}

#[test]
fn square_roots_of_numbers_are_simplified() {
    shows(&n(12).sqrt().unwrap(), "2*sqrt(3)");
    shows(&frac(9, 4).sqrt().unwrap(), "3/2");
    shows(&frac(98, 5).sqrt().unwrap(), "7*sqrt(10)/5");
    shows(&frac(3, 4).sqrt().unwrap(), "sqrt(3)/2");
    shows(&frac(1, 2).sqrt().unwrap(), "sqrt(2)/2");
    assert_eq!(n(-1).sqrt(), Err(ExactError::NegativeRoot));
    shows(&(n(2).sqrt().unwrap() * n(6).sqrt().unwrap()), "2*sqrt(3)");
    shows(&n(399).sqrt().unwrap().checked_div(&n(20)).unwrap(), "sqrt(399)/20");
}

#[test]
fn no_root_stands_below_the_line() {
    shows(&n(1).checked_div(&n(2).sqrt().unwrap()).unwrap(), "sqrt(2)/2");
    let golden = n(1).checked_div(&(n(5).sqrt().unwrap() - n(1))).unwrap();
    shows(&golden, "(1 + sqrt(5))/4");
    let two = n(2).sqrt().unwrap() + n(3).sqrt().unwrap() + n(5).sqrt().unwrap();
    let inverse = n(1).checked_div(&two).unwrap();
    assert_eq!(inverse * two, n(1));
}

#[test]
fn roots_of_sums_of_roots_come_apart_when_they_can() {
    let value = n(3) + n(8).sqrt().unwrap();
    shows(&value.sqrt().unwrap(), "1 + sqrt(2)");
    let less = n(5) - n(24).sqrt().unwrap();
    let root = less.sqrt().unwrap();
    assert_eq!(&root * &root, less);
    assert_eq!(root.sign(), Ok(Sign::Positive));
    let nested = (n(1) + n(2).sqrt().unwrap()).sqrt().unwrap();
    shows(&nested, "sqrt(1 + sqrt(2))");
    assert_eq!(&nested * &nested, n(1) + n(2).sqrt().unwrap());
}

#[test]
fn letters_cancel() {
    let (m, g, k) = (s("m"), s("g"), s("k"));
    let answer = (n(2) * &m * &g).checked_div(&(n(5) * &m)).unwrap();
    shows(&answer, "2*g/5");
    shows(&(n(2) * &m * &g).checked_div(&n(5)).unwrap(), "2*m*g/5");
    shows(&(&k * &m * &g), "k*m*g");
    let difference = (&k * &k - n(1)).checked_div(&(&k - n(1))).unwrap();
    shows(&difference, "k + 1");
    assert_eq!((&m - &m), Value::zero());
    assert!((&m - &m).is_zero());
    assert_eq!(m.checked_div(&(&g - &g)), Err(ExactError::DivisionByZero));
}

/// The closed form of two masses over a smooth pulley (University Physics vol. 1, example 6.5).
#[test]
fn two_masses_over_a_pulley() {
    let (a, b, g) = (s("m_1"), s("m_2"), s("g"));
    let acceleration = ((&b - &a) * &g).checked_div(&(&a + &b)).unwrap();
    shows(&acceleration, "(m_2 - m_1)*g/(m_1 + m_2)");
    let tension = &a * (&g + &acceleration);
    shows(&tension, "2*m_1*m_2*g/(m_1 + m_2)");
    assert_eq!(acceleration.math().plain(), "(m₂ − m₁)g/(m₁ + m₂)");
    let numbers = acceleration.substitute("m_1", &n(2)).unwrap().substitute("m_2", &n(3)).unwrap();
    shows(&numbers, "g/5");
}

#[test]
fn sums_are_written_as_people_write_them() {
    let (m, g, a, u, t) = (s("m"), s("g"), s("a"), s("u"), s("t"));
    shows(&(&m * (&g + &a)), "m*(g + a)");
    shows(&(&u + &a * &t), "a*t + u");
    shows(&(n(24) + n(12) * &a), "12*a + 24");
    shows(&-(&a + n(1)), "-(a + 1)");
    shows(&(n(3) - &a), "3 - a");
    shows(&(&a - n(3)), "a - 3");
    shows(&a.pow(-2).unwrap(), "1/a^2");
    shows(&n(3).checked_div(&(n(2) * &a)).unwrap(), "3/(2*a)");
    shows(&(s("mu") * &m * &g), "mu*m*g");
    shows(&(frac(1, 2) * &g * t.pow(2).unwrap()), "g*t^2/2");
}

#[test]
fn formulas_are_set_in_the_trade_form() {
    let (m, g) = (s("m"), s("g"));
    assert_eq!((frac(2, 5) * &m * &g).math().plain(), "2mg/5");
    assert_eq!((frac(-3, 4)).math().plain(), "−3/4");
    assert_eq!((n(2) * n(3).sqrt().unwrap()).math().plain(), "2√3");
    assert_eq!((s("mu") * g).math().plain(), "μg");
    assert_eq!((n(2) * Value::sin_deg(&deg(20))).math().plain(), "2 sin 20°");
    assert_eq!((&m + n(1)).pow(2).unwrap().math().plain(), "m² + 2m + 1");
}

#[test]
fn roots_of_expressions() {
    let (g, h, m) = (s("g"), s("h"), s("m"));
    let speed = (n(2) * &g * &h).sqrt().unwrap();
    shows(&speed, "sqrt(2*g*h)");
    assert_eq!(&speed * &speed, n(2) * &g * &h);
    shows(&(frac(2, 5) * &g * &h).sqrt().unwrap(), "sqrt(10*g*h)/5");
    shows(&(m.pow(2).unwrap() * n(4)).sqrt().unwrap(), "2*m");
    shows(&(&m + n(1)).pow(2).unwrap().sqrt().unwrap(), "m + 1");
    assert_eq!((&m - n(1)).pow(2).unwrap().sqrt(), Err(ExactError::Undecided));
    let atwood = (n(2) * &g * &h * (&m - n(1))).checked_div(&(&m + n(1))).unwrap();
    let root = atwood.sqrt().unwrap();
    assert_eq!(&root * &root, atwood);
    assert_eq!(root.substitute("m", &n(3)).unwrap(), (&g * &h).sqrt().unwrap());
    assert_eq!((-&g).sqrt(), Err(ExactError::NegativeRoot));
    let inverse = g.checked_div(&h).unwrap().sqrt().unwrap();
    shows(&inverse, "sqrt(g*h)/h");
}

#[test]
fn simple_angles_are_surds() {
    for (angle, sine, cosine) in [
        (0, "0", "1"),
        (30, "1/2", "sqrt(3)/2"),
        (45, "sqrt(2)/2", "sqrt(2)/2"),
        (60, "sqrt(3)/2", "1/2"),
        (90, "1", "0"),
        (120, "sqrt(3)/2", "-1/2"),
        (180, "0", "-1"),
        (270, "-1", "0"),
        (-30, "-1/2", "sqrt(3)/2"),
        (750, "1/2", "sqrt(3)/2"),
    ] {
        shows(&Value::sin_deg(&deg(angle)), sine);
        shows(&Value::cos_deg(&deg(angle)), cosine);
    }
}

#[test]
fn other_angles_meet_below_45_degrees() {
    assert_eq!(Value::cos_deg(&deg(70)), Value::sin_deg(&deg(20)));
    assert_eq!(Value::sin_deg(&deg(160)), Value::sin_deg(&deg(20)));
    assert_eq!(Value::cos_deg(&deg(160)), -Value::cos_deg(&deg(20)));
    let (sine, cosine) = (Value::sin_deg(&deg(20)), Value::cos_deg(&deg(20)));
    assert_eq!(&sine * &sine + &cosine * &cosine, n(1));
    shows(&sine, "sin(20°)");
    shows(&cosine, "cos(20°)");
    let tan = sine.checked_div(&cosine).unwrap();
    assert_eq!(tan * cosine, sine);
    assert_eq!((n(1) - &sine * &sine).sqrt().unwrap(), Value::cos_deg(&deg(20)));
    let half = Rational::new(45, 2).unwrap();
    shows(&Value::sin_deg(&half), "sin(45/2°)");
}

/// NIST Digital Library of Mathematical Functions, section 4.17 (special values),
/// and the pentagon values sin 18° = (√5 − 1)/4, cos 36° = (√5 + 1)/4 (Euclid, Elements XIII).
#[test]
fn published_values_are_proved_equal() {
    let root = |x| n(x).sqrt().unwrap();
    let quarter = frac(1, 4);
    assert_eq!(Value::sin_deg(&deg(15)), (root(6) - root(2)) * &quarter);
    assert_eq!(Value::cos_deg(&deg(15)), (root(6) + root(2)) * &quarter);
    let eighteen = (root(5) - n(1)) * &quarter;
    assert_eq!(Value::sin_deg(&deg(18)).cmp_exact(&eighteen), Ok(Ordering::Equal));
    let thirty_six = (root(5) + n(1)) * &quarter;
    assert_eq!(Value::cos_deg(&deg(36)).cmp_exact(&thirty_six), Ok(Ordering::Equal));
    let nested = (n(10) - n(2) * root(5)).sqrt().unwrap() * &quarter;
    assert_eq!(Value::sin_deg(&deg(36)).cmp_exact(&nested), Ok(Ordering::Equal));
    let twenty = &(n(2) * Value::sin_deg(&deg(20))) * Value::cos_deg(&deg(20));
    assert!((Value::sin_deg(&deg(40)) - &twenty).is_zero(), "sin 40° = 2 sin 20° cos 20°");
    let near = Value::sin_deg(&deg(40)) - twenty + Value::rational(Rational::parse_decimal("1e-90").unwrap());
    assert_eq!(near.sign(), Ok(Sign::Positive));
}

#[test]
fn hidden_zeros_do_not_divide() {
    let hidden = Value::sin_deg(&deg(40)) - n(2) * Value::sin_deg(&deg(20)) * Value::cos_deg(&deg(20));
    assert_eq!(n(1).checked_div(&hidden), Err(ExactError::DivisionByZero));
    assert_eq!((&hidden * s("m")).sign(), Err(ExactError::HasLetters));
    assert!((hidden * s("m")).is_zero());
}

#[test]
fn signs_and_order() {
    let close = n(2).sqrt().unwrap() - frac(99, 70);
    assert_eq!(close.sign(), Ok(Sign::Negative));
    assert_eq!(n(2).sqrt().unwrap().cmp_exact(&frac(7, 5)), Ok(Ordering::Greater));
    assert_eq!(s("m").sign(), Err(ExactError::HasLetters));
    assert_eq!((s("m") - s("m")).sign(), Ok(Sign::Zero));
    let sums = n(2).sqrt().unwrap() + n(3).sqrt().unwrap() - (n(5) + n(24).sqrt().unwrap()).sqrt().unwrap();
    assert_eq!(sums.sign(), Ok(Sign::Zero));
}

#[test]
fn coefficients_of_a_letter() {
    let (a, t) = (s("a"), s("T"));
    let line = (n(3) * &a - &t + n(6)).checked_div(&n(2)).unwrap();
    let parts = line.coefficients_in("a").unwrap();
    assert_eq!(parts, [(n(6) - &t) * frac(1, 2), frac(3, 2)]);
    assert_eq!(n(1).checked_div(&a).unwrap().coefficients_in("a"), None);
    assert_eq!((&a + n(1)).sqrt().unwrap().coefficients_in("a"), None);
    assert_eq!(a.pow(2).unwrap().coefficients_in("a").unwrap().len(), 3);
    assert_eq!(n(7).coefficients_in("a"), Some(vec![n(7)]));
}

#[test]
fn substitution_reaches_under_roots() {
    let speed = (s("u").pow(2).unwrap() + n(2) * s("a") * s("x")).sqrt().unwrap();
    let found = speed.substitute("u", &n(3)).unwrap().substitute("a", &n(2)).unwrap();
    assert_eq!(found.substitute("x", &n(4)).unwrap(), n(5));
    assert_eq!(found.substitute("x", &n(-40)), Err(ExactError::NegativeRoot));
    let inverse = n(1).checked_div(&(s("k") - n(1))).unwrap();
    assert_eq!(inverse.substitute("k", &n(1)), Err(ExactError::DivisionByZero));
    assert_eq!(speed.symbols().into_iter().collect::<Vec<_>>(), ["a", "u", "x"]);
}

#[test]
fn growth_is_stopped() {
    let mut sum = n(1);
    for i in 0..12 {
        sum += s(&format!("x_{i}"));
    }
    assert_eq!(sum.pow(9), Err(ExactError::TooLarge));
    let mut square = sum;
    for _ in 0..6 {
        square = &square * &square;
    }
    assert!(square.is_too_large());
    assert_eq!(square.sign(), Err(ExactError::TooLarge));
    assert_eq!(square.enclose(10), Err(ExactError::TooLarge));
    assert_eq!((&square + n(1)).checked(), Err(ExactError::TooLarge));
    assert_eq!(n(10).pow(i32::MAX), Err(ExactError::TooLarge));
    assert_eq!(s("x").pow(i32::MIN), Err(ExactError::TooLarge));
    let mut nested = n(2);
    let mut stopped = false;
    for _ in 0..12 {
        match (nested + n(1)).sqrt() {
            Ok(root) => nested = root,
            Err(error) => {
                assert_eq!(error, ExactError::TooLarge);
                stopped = true;
                break;
            }
        }
    }
    assert!(stopped, "roots within roots end somewhere");
}

#[test]
fn nearest_doubles() {
    assert_eq!(n(2).sqrt().unwrap().to_f64(), Some(std::f64::consts::SQRT_2));
    assert_eq!(frac(1, 3).to_f64(), Some(1.0 / 3.0));
    assert_eq!(s("m").to_f64(), None);
    let tiny = n(2).sqrt().unwrap() * Value::rational(Rational::parse_decimal("1e-40").unwrap());
    assert_eq!(tiny.to_f64(), "1.41421356237309504880168872e-40".parse().ok());
}
