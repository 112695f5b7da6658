//! Fractions against big-number arithmetic, at and beyond the edge of a machine word.
#![allow(clippy::unwrap_used, clippy::panic, reason = "helpers of tests may fail loudly")]
use dashu_int::{IBig, UBig};
use dashu_ratio::RBig;
use exact::Rational;
use proptest::prelude::*;
use std::collections::hash_map::DefaultHasher;
use std::hash::{Hash, Hasher};

fn big(x: &Rational) -> RBig {
    let num: IBig = x.numerator().to_string().parse().unwrap();
    let den: UBig = x.denominator().to_string().parse().unwrap();
    RBig::from_parts(num, den)
}

fn hash(x: &Rational) -> u64 {
    let mut hasher = DefaultHasher::new();
    x.hash(&mut hasher);
    hasher.finish()
}

/// Small numbers, numbers at the edge of i64, and anything between.
fn number() -> impl Strategy<Value = i64> {
    prop_oneof![
        4 => -20i64..=20,
        2 => any::<i32>().prop_map(i64::from),
        2 => any::<i64>(),
        1 => (0i64..4).prop_map(|d| i64::MAX - d),
        1 => (0i64..4).prop_map(|d| i64::MIN + d),
    ]
}

fn fraction() -> impl Strategy<Value = Rational> {
    (number(), number()).prop_filter_map("denominator 0", |(n, d)| Rational::new(n, d))
}

/// Fractions that may have spilled: products of two.
fn any_fraction() -> impl Strategy<Value = Rational> {
    prop_oneof![3 => fraction(), 1 => (fraction(), fraction()).prop_map(|(a, b)| a * b)]
}

proptest! {
    #[test]
    fn arithmetic_agrees_with_big_numbers(a in any_fraction(), b in any_fraction()) {
        prop_assert_eq!(big(&(&a + &b)), big(&a) + big(&b));
        prop_assert_eq!(big(&(&a - &b)), big(&a) - big(&b));
        prop_assert_eq!(big(&(&a * &b)), big(&a) * big(&b));
        prop_assert_eq!(big(&-&a), -big(&a));
        prop_assert_eq!(a.cmp(&b), big(&a).cmp(&big(&b)));
        prop_assert_eq!(a.signum(), a.cmp(&Rational::ZERO) as i32);
        match a.checked_div(&b) {
            Some(q) => prop_assert_eq!(big(&q), big(&a) / big(&b)),
            None => prop_assert!(b.is_zero()),
        }
        prop_assert_eq!(a.to_string(), big(&a).to_string());
        prop_assert_eq!(big(&a.floor()), RBig::from(big(&a).floor()));
    }

    #[test]
    fn the_rules_of_a_field_hold(a in any_fraction(), b in any_fraction(), c in any_fraction()) {
        prop_assert_eq!(&a + &b, &b + &a);
        prop_assert_eq!((&a + &b) + &c, &a + (&b + &c));
        prop_assert_eq!((&a * &b) * &c, &a * (&b * &c));
        prop_assert_eq!(&a * (&b + &c), &a * &b + &a * &c);
        prop_assert_eq!(&a - &a, Rational::ZERO);
        if let Some(r) = a.recip() {
            prop_assert_eq!(&a * &r, Rational::ONE);
        }
        if let Some(q) = a.checked_div(&b) {
            prop_assert_eq!(q * &b, a);
        }
    }

    #[test]
    fn a_value_has_one_form(a in any_fraction(), b in any_fraction()) {
        let round_trip = (&a + &b) - &b;
        prop_assert_eq!(&round_trip, &a);
        prop_assert_eq!(hash(&round_trip), hash(&a));
        prop_assert_eq!(format!("{round_trip:?}"), format!("{a:?}"));
        prop_assert_eq!(round_trip.as_i64(), a.as_i64());
    }

    #[test]
    fn squares_have_roots(a in any_fraction()) {
        prop_assert_eq!((&a * &a).sqrt_exact(), Some(a.abs()));
    }

    #[test]
    fn decimals_round_half_away_from_zero(a in fraction(), places in 0u32..20) {
        // |a|·10^p + 1/2, floored: the same thing said in big fractions.
        let scaled = big(&a.abs()) * RBig::from(UBig::from(10u8).pow(places as usize));
        let expected = (scaled + RBig::from_parts(IBig::ONE, UBig::from(2u8))).floor();
        let shown = a.to_decimal(places).replace(['.', '-'], "");
        prop_assert_eq!(shown.parse::<IBig>().unwrap(), expected);
        prop_assert_eq!(a.to_decimal(places).split_once('.').map_or(0, |(_, d)| d.len()), places as usize);
    }

    #[test]
    fn a_decimal_is_read_back(whole in 0u64.., part in "[0-9]{0,15}", power in -20i32..20) {
        let text = if part.is_empty() { format!("{whole}e{power}") } else { format!("{whole}.{part}e{power}") };
        let digits: IBig = format!("{whole}{part}").parse().unwrap();
        let power = power - part.len() as i32;
        let ten = RBig::from(10u8);
        let scale = (0..power.abs()).fold(RBig::ONE, |s, _| s * &ten);
        let expected = if power < 0 { RBig::from(digits) / scale } else { RBig::from(digits) * scale };
        prop_assert_eq!(Rational::parse_decimal(&text).map(|r| big(&r)), Some(expected));
    }

    #[test]
    fn any_text_is_read_or_refused(text in "\\PC{0,30}") {
        let _ = Rational::parse_decimal(&text);
    }

    #[test]
    fn number_like_text_is_read_or_refused(text in "[-+−0-9.eE]{0,12}") {
        if let Some(number) = Rational::parse_decimal(&text) {
            prop_assert!(text.contains(|c: char| c.is_ascii_digit()), "{text} read as {number}");
        }
    }

    #[test]
    fn powers_are_repeated_products(a in fraction(), exponent in -6i32..=6) {
        match a.pow(exponent) {
            Some(power) => {
                let base = if exponent < 0 { a.recip().unwrap() } else { a };
                let product: Rational = (0..exponent.abs()).map(|_| base.clone()).product();
                prop_assert_eq!(power, product);
            }
            None => prop_assert!(a.is_zero() && exponent < 0),
        }
    }

    #[test]
    fn doubles_are_near(a in any_fraction()) {
        let exact = big(&a).to_f64().value();
        prop_assert_eq!(a.to_f64(), exact);
    }
}

#[test]
fn sums_spill_over_a_word_and_come_back() {
    let most = Rational::from_int(i64::MAX);
    let over = &most + &Rational::ONE;
    assert_eq!(over.to_string(), "9223372036854775808");
    assert_eq!(over.as_i64(), None);
    assert_eq!(&over - &Rational::ONE, most);
    assert_eq!((&over - &Rational::ONE).as_i64(), Some(i64::MAX));
    let least = Rational::from_int(i64::MIN);
    assert_eq!(least.as_i64(), Some(i64::MIN));
    assert_eq!(-&least, over);
    assert_eq!(&most * &most, "85070591730234615847396907784232501249".parse().map(integer).unwrap());
    let thin = Rational::new(1, i64::MAX).unwrap();
    assert_eq!((&thin * &thin).recip().unwrap(), &most * &most);
    assert_eq!(Rational::new(i64::MIN, i64::MIN), Some(Rational::ONE));
    assert_eq!(Rational::new(1, i64::MIN).unwrap().to_string(), "-1/9223372036854775808");
    assert_eq!(least.abs(), over);
}

fn integer(n: i128) -> Rational {
    Rational::parse_decimal(&n.to_string()).unwrap()
}

#[test]
fn absurd_numbers_are_refused() {
    assert_eq!(Rational::parse_decimal(&"9".repeat(401)), None);
    assert!(Rational::parse_decimal(&"9".repeat(400)).is_some());
    assert_eq!(Rational::parse_decimal("1e401"), None);
    assert_eq!(Rational::parse_decimal("1e99999999999999999999"), None);
    for text in
        ["", ".", "-", "+", "1.", "e5", "1e", "1e+", "--1", "1.2.3", "0x10", "1 000", "1,5", "½", "１"]
    {
        assert_eq!(Rational::parse_decimal(text), None, "{text:?}");
    }
    assert_eq!(Rational::from_int(2).pow(i32::MAX), None);
    assert_eq!(Rational::from_int(-1).pow(i32::MIN), Some(Rational::ONE));
    assert_eq!(Rational::ZERO.pow(0), Some(Rational::ONE));
}

#[test]
fn decimals_that_end() {
    let shown = |n, d| Rational::new(n, d).unwrap().terminating_decimal();
    assert_eq!(shown(3, 4).as_deref(), Some("0.75"));
    assert_eq!(shown(-49, 5).as_deref(), Some("-9.8"));
    assert_eq!(shown(12, 1).as_deref(), Some("12"));
    assert_eq!(shown(1, 7), None);
    assert_eq!(shown(1, 1 << 13), None, "thirteen places");
    assert_eq!(shown(1, 1 << 12).as_deref(), Some("0.000244140625"));
}
