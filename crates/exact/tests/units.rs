//! Every usual spelling of a unit is read, and nothing else is.
#![allow(clippy::unwrap_used, clippy::panic, reason = "helpers of tests may fail loudly")]
use exact::{Dimension, Rational, parse_unit};
use proptest::prelude::*;

/// The unit shown and its size, if the whole text is read.
fn whole(text: &str) -> Option<(String, String)> {
    let (unit, used) = parse_unit(text)?;
    (used == text.len()).then(|| (unit.shown.to_owned(), unit.to_si.to_string()))
}

#[track_caller]
fn all_are(shown: &str, si: &str, spellings: &[&str]) {
    for text in spellings {
        assert_eq!(whole(text), Some((shown.to_owned(), si.to_owned())), "{text:?}");
    }
}

#[test]
fn masses() {
    all_are(
        "kg",
        "1",
        &["kg", " kg", "kilograms", "kilogram", "Kilograms", "\\mathrm{kg}", "\\text{ kg}", "{\\rm kg}"],
    );
    all_are("g", "1/1000", &["g", "grams", "gram"]);
    all_are("mg", "1/1000000", &["mg"]);
    all_are("t", "1000", &["t", "tonne", "tonnes"]);
}

#[test]
fn forces() {
    all_are("N", "1", &["N", "newtons", "newton", "Newtons", "NEWTONS", "~N", "\\,\\mathrm{N}", "{\\rm N}"]);
    all_are("kN", "1000", &["kN", "kilonewtons", "\\mathrm{~kN}"]);
    all_are("MN", "1000000", &["MN", "meganewtons"]);
    all_are("N s", "1", &["N s", "Ns", "N·s", "newton seconds", "newton-seconds", "N\u{a0}s"]);
    all_are("kg m s⁻¹", "1", &["kg m s^-1", "kgms⁻¹", "kg m/s", "kg m s⁻¹", "kgms^{-1}"]);
}

#[test]
fn lengths_and_times() {
    all_are("m", "1", &["m", "metres", "meters", "metre", "meter"]);
    all_are("cm", "1/100", &["cm", "centimetres", "centimeters"]);
    all_are("mm", "1/1000", &["mm"]);
    all_are("km", "1000", &["km", "kilometres"]);
    all_are("s", "1", &["s", "sec", "seconds", "second", "secs"]);
    all_are("min", "60", &["min", "minutes", "mins", "minute"]);
    all_are("h", "3600", &["h", "hours", "hour", "hr"]);
    all_are("ms", "1/1000", &["ms", "milliseconds"]);
    all_are("m²", "1", &["m²", "m^2", "square metres", "m^{2}"]);
}

#[test]
fn speeds() {
    all_are(
        "m s⁻¹",
        "1",
        &[
            "m/s",
            "ms^-1",
            "m s^-1",
            "m s⁻¹",
            "ms⁻¹",
            "m s−1",
            "ms−1",
            "m s^{-1}",
            "ms^{-1}",
            "m s-1",
            "ms-1",
            "metres per second",
            "meters per second",
            "Metres per second",
            "m per s",
            "m / s",
            "\\mathrm{m\\,s^{-1}}",
            "\\mathrm{~m} \\mathrm{~s}^{-1}",
            "\\mathrm{~m}\\mathrm{s}^{-1}",
            "\\text{ m s}^{-1}",
            "m s^{−1}",
            "m\u{2009}s⁻¹",
            "m.s^-1",
            "m·s⁻¹",
            "m s^(-1)",
            "m s –1",
            "{\\rm m s}^{-1}",
            "{\\rm m\\, s^{-1}}",
        ],
    );
    all_are(
        "km h⁻¹",
        "5/18",
        &[
            "km/h",
            "km h^-1",
            "kmh^-1",
            "kph",
            "km h⁻¹",
            "kilometres per hour",
            "km per hour",
            "kmh⁻¹",
            "km/hr",
        ],
    );
    all_are("mph", "1397/3125", &["mph", "miles per hour", "MPH"]);
}

#[test]
fn accelerations() {
    all_are(
        "m s⁻²",
        "1",
        &[
            "m/s/s",
            "m/s^2",
            "m/s²",
            "ms^-2",
            "m s^-2",
            "m s^{-2}",
            "m s⁻²",
            "ms⁻²",
            "ms−2",
            "m s−2",
            "m/s^{2}",
            "metres per second squared",
            "meters per second squared",
            "metres per second per second",
            "metre per second squared",
            "\\mathrm{~m}\\mathrm{s}^{-2}",
            "\\mathrm{~m} \\mathrm{~s}^{-2}",
            "\\mathrm{m\\,s}^{-2}",
            "\\text{ m s}^{-2}",
            "m\\,s^{-2}",
            "\\mathrm{m}/\\mathrm{s}^2",
            "\\mathrm{m/s^2}",
        ],
    );
    all_are("N kg⁻¹", "1", &["N/kg", "N kg^-1", "N kg⁻¹", "newtons per kilogram", "N per kg"]);
}

#[test]
fn energy_power_and_angles() {
    all_are("J", "1", &["J", "joules", "joule"]);
    all_are("kJ", "1000", &["kJ"]);
    all_are("W", "1", &["W", "watts", "watt"]);
    all_are("kW", "1000", &["kW", "kilowatts"]);
    all_are("°", "1", &["°", "degrees", "deg", "degree", "^\\circ", "^{\\circ}", "^°"]);
}

#[test]
fn a_unit_ends_where_the_words_go_on() {
    for (text, shown, used) in [
        ("m s^-2 down the slope", "m s⁻²", 6),
        ("m s−2.", "m s⁻²", "m s−2".len()),
        ("kg and N", "kg", 2),
        ("N s - 2", "N s", 3),
        ("m s –2 and", "m s⁻²", "m s –2".len()),
        ("m - 2", "m", 1),
        ("N, and", "N", 1),
        ("m above the floor", "m", 1),
        ("s after it starts", "s", 1),
        ("m so that", "m", 1),
        ("N s of", "N s", 3),
        ("m. So", "m", 1),
        ("N. The", "N", 1),
        ("kg. A string", "kg", 2),
        ("m s⁻¹, find", "m s⁻¹", "m s⁻¹".len()),
        ("seconds per turn", "s", 7),
        ("km h^-1 and", "km h⁻¹", 7),
        ("N/unit", "N", 1),
        ("tonnes truck", "t", 6),
        ("m-long", "m", 1),
        ("kg-block", "kg", 2),
        ("°C", "°", 0),
    ] {
        let found = parse_unit(text).map(|(unit, used)| (unit.shown, used));
        let wanted = (used > 0).then_some((shown, used));
        assert_eq!(found, wanted, "{text:?}");
    }
}

#[test]
fn words_are_not_units() {
    for text in [
        "man",
        "so",
        "Nut",
        "gram-like"[4..].as_ref(),
        "the",
        "",
        " ",
        "Mg",
        "n",
        "K",
        "meets",
        "she",
        "hooks",
        "mass",
        "Newt",
        "minus",
        "second-hand"[6..].as_ref(),
        "per second",
        "/s",
        "^-2",
        "k",
        "start",
        "gives",
        "µm",
        "m2",
        "s1",
        "mgs",
        "Ng",
        "is",
        "T",
        "\\mathrm{man}",
        "masses",
        "ton-up"[3..].as_ref(),
    ] {
        assert_eq!(parse_unit(text), None, "{text:?}");
    }
}

#[test]
fn dimensions_combine() {
    let (unit, _) = parse_unit("kN").unwrap();
    assert_eq!(unit.dimension, Dimension::FORCE);
    assert_eq!(unit.to_si, Rational::from_int(1_000));
    assert_eq!(Dimension::FORCE.div(Dimension::MASS), Dimension::ACCELERATION);
    assert_eq!(Dimension::FORCE.mul(Dimension::LENGTH), Dimension::ENERGY);
    assert_eq!(Dimension::ENERGY.div(Dimension::TIME), Dimension::POWER);
    assert_eq!(Dimension::MASS.mul(Dimension::SPEED), Dimension::IMPULSE);
    assert_eq!(Dimension::ACCELERATION.unit_ascii(), "m s^-2");
    assert_eq!(Dimension::of(1, 0, -1).unit(), "kg s⁻¹");
    assert_ne!(Dimension::ANGLE, Dimension::NONE);
}

proptest! {
    #[test]
    fn any_text_is_read_or_refused(text in "\\PC{0,24}") {
        if let Some((_, used)) = parse_unit(&text) {
            prop_assert!(used <= text.len() && text.is_char_boundary(used));
        }
    }

    #[test]
    fn unit_like_text_is_read_or_refused(text in "[mskgNhJWt/^{}\\-−⁻¹²~. rmathp\\\\]{0,16}") {
        if let Some((_, used)) = parse_unit(&text) {
            prop_assert!(used <= text.len() && text.is_char_boundary(used));
        }
    }
}
