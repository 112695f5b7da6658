//! Decimals as they are shown.
#![allow(clippy::unwrap_used, clippy::panic, reason = "helpers of tests may fail loudly")]
use exact::{
    Amount, Angle, Dimension, Enclosure, ExactError, Rational, Value, degrees_of_tan, round_places,
    round_places_with, round_significant, round_significant_with,
};

fn value(text: &str) -> Value {
    Value::rational(Rational::parse_decimal(text).unwrap())
}

#[test]
fn significant_figures() {
    for (text, figures, shown) in [
        ("1234567", 3, "1230000"),
        ("0.00012345", 3, "0.000123"),
        ("9.996", 3, "10.0"),
        ("0.75", 3, "0.750"),
        ("16900", 3, "16900"),
        ("-3.2651", 3, "-3.27"),
        ("0", 3, "0"),
        ("999.5", 3, "1000"),
        ("99950", 3, "100000"),
        ("0.0009999", 2, "0.0010"),
        ("24", 2, "24"),
        ("23.52", 3, "23.5"),
        ("1.96", 2, "2.0"),
        ("5", 1, "5"),
        ("0.5", 1, "0.5"),
        ("1e20", 3, "100000000000000000000"),
        ("123", 0, "100"),
    ] {
        assert_eq!(round_significant(&value(text), figures).unwrap().digits, shown, "{text} to {figures}");
    }
}

#[test]
fn halves_go_away_from_zero_and_are_flagged() {
    let half = round_significant(&value("2.345"), 3).unwrap();
    assert_eq!((half.digits.as_str(), half.half, half.exact), ("2.35", true, false));
    let half = round_places(&value("-0.125"), 2).unwrap();
    assert_eq!((half.digits.as_str(), half.half, half.exact), ("-0.13", true, false));
    let whole = round_places(&value("0.75"), 2).unwrap();
    assert_eq!((whole.digits.as_str(), whole.half, whole.exact), ("0.75", false, true));
    assert_eq!(round_places(&value("-0.001"), 2).unwrap().digits, "0.00");
}

/// sin 30° hidden in other sines: sin 50° sin 10° sin 70° = 1/8, an exact half at two places.
#[test]
fn a_half_in_disguise_is_found() {
    let sine = |a| Value::sin_deg(&Rational::from_int(a));
    let eighth = sine(10) * sine(50) * sine(70);
    let shown = round_places(&eighth, 2).unwrap();
    assert_eq!((shown.digits.as_str(), shown.half), ("0.13", true));
    let shown = round_places(&eighth, 3).unwrap();
    assert_eq!((shown.digits.as_str(), shown.exact), ("0.125", true));
}

#[test]
fn a_number_beside_a_half_is_told_from_it() {
    let close = value("0.125") + Value::from_int(2).sqrt().unwrap() * value("1e-60");
    let shown = round_places(&close, 2).unwrap();
    assert_eq!((shown.digits.as_str(), shown.half, shown.exact), ("0.13", false, false));
    let below = value("0.125") - Value::from_int(2).sqrt().unwrap() * value("1e-60");
    assert_eq!(round_places(&below, 2).unwrap().digits, "0.12");
}

/// arctan(3/4) = 36.8699...° and arcsin(1/20) = 2.8660...° (any table of natural tangents and sines).
#[test]
fn angles_are_rounded_from_enclosures() {
    let slope = value("0.75");
    let shown = round_significant_with(|bits| degrees_of_tan(&slope, bits), 6).unwrap();
    assert_eq!(shown.digits, "36.8699");
    let hill = Angle::Sin(value("0.05"));
    assert_eq!(round_places_with(|bits| hill.degrees_enclosure(bits), 3).unwrap().digits, "2.866");
    let level = round_places_with(|bits| degrees_of_tan(&Value::one(), bits), 1).unwrap();
    assert_eq!((level.digits.as_str(), level.exact), ("45.0", true));
}

#[test]
fn an_enclosure_that_never_narrows_is_undecided() {
    let stuck = |_| Ok(Enclosure::new(Rational::ZERO, Rational::ONE).unwrap());
    assert_eq!(round_significant_with(stuck, 3), Err(ExactError::Undecided));
    assert_eq!(round_significant(&Value::symbol("m"), 3), Err(ExactError::HasLetters));
    assert_eq!(round_places(&Value::one(), u32::MAX), Err(ExactError::TooLarge));
    assert_eq!(round_significant_with(|_| Err(ExactError::NoSuchAngle), 3), Err(ExactError::NoSuchAngle));
}

#[test]
fn angles_in_every_form() {
    let forms = [Angle::Sin(value("0.6")), Angle::Cos(value("0.8")), Angle::Tan(value("0.75"))];
    for angle in forms {
        assert_eq!(angle.sin(), Ok(value("0.6")));
        assert_eq!(angle.cos(), Ok(value("0.8")));
        assert_eq!(angle.tan(), Ok(value("0.75")));
    }
    assert_eq!(Angle::Sin(value("0.05")).cos().unwrap().to_string(), "sqrt(399)/20");
    assert_eq!(Angle::Sin(value("1.2")).cos(), Err(ExactError::NoSuchAngle));
    assert_eq!(Angle::Cos(value("-3")).sin(), Err(ExactError::NoSuchAngle));
    assert_eq!(Angle::Degrees(Rational::from_int(90)).tan(), Err(ExactError::NoSuchAngle));
    assert_eq!(Angle::Sin(Value::one()).degrees_enclosure(9).unwrap().lo(), &Rational::from_int(90));
    assert_eq!(Angle::Cos(-Value::one()).degrees_enclosure(9).unwrap().lo(), &Rational::from_int(180));
    let k = Value::symbol("k");
    assert_eq!(Angle::Tan(k.clone()).cos().unwrap().to_string(), "sqrt(k^2 + 1)/(k^2 + 1)");
    assert_eq!(Angle::Tan(k).degrees_enclosure(9), Err(ExactError::HasLetters));
}

#[test]
fn unlike_amounts_do_not_mix() {
    let force = Amount::new(Value::from_int(6), Dimension::FORCE);
    let mass = Amount::new(Value::from_int(2), Dimension::MASS);
    assert_eq!(
        force.cmp_exact(&mass),
        Err(ExactError::Dimension { left: Dimension::FORCE, right: Dimension::MASS })
    );
    assert_eq!(force.div(&mass).unwrap().to_string(), "3 m s⁻²");
    assert_eq!(mass.mul(&mass).unwrap().to_string(), "4 kg²");
    assert_eq!(force.sub(&force).unwrap().value, Value::zero());
}
