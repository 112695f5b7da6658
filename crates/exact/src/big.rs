//! Where a fraction goes when it outgrows two machine words, and how it comes back.
use crate::integers;
use crate::rational::{Rational, Repr};
use dashu_int::ops::{Gcd, SquareRootRem, UnsignedAbs};
use dashu_int::{IBig, UBig};
use dashu_ratio::RBig;

/// Coprime parts, `den > 0`.
#[cold]
pub(crate) fn from_i128(num: i128, den: i128) -> Rational {
    shrink(RBig::from_parts(IBig::from(num), UBig::from(den.unsigned_abs())))
}

/// Back inline if it fits.
pub(crate) fn shrink(b: RBig) -> Rational {
    match (i64::try_from(b.numerator()), i64::try_from(b.denominator())) {
        (Ok(num), Ok(den)) if num != i64::MIN => Rational::small(num, den),
        _ => Rational(Repr::Big(Box::new(b))),
    }
}

pub(crate) fn from_integer(n: IBig) -> Rational {
    match i64::try_from(&n) {
        Ok(n) if n != i64::MIN => Rational::small(n, 1),
        _ => Rational(Repr::Big(Box::new(RBig::from(n)))),
    }
}

/// `num / den`, not necessarily in lowest terms; `den` must not be zero (1 is used if it is).
pub(crate) fn fraction(num: IBig, den: UBig) -> Rational {
    let den = if den.is_zero() { UBig::ONE } else { den };
    shrink(RBig::from_parts(num, den))
}

/// The whole number at or below `num / den`, for `den > 0`.
pub(crate) fn div_floor(num: IBig, den: UBig) -> IBig {
    use dashu_int::ops::DivEuclid;
    if den.is_zero() {
        return num;
    }
    num.div_euclid(IBig::from(den))
}

pub(crate) fn bits(b: &RBig) -> u64 {
    use dashu_int::ops::BitTest;
    b.numerator().bit_len().max(b.denominator().bit_len()) as u64
}

pub(crate) fn ten_to(power: usize) -> UBig {
    UBig::from(10u8).pow(power)
}

/// `digits × 10^power` for ASCII digits.
pub(crate) fn decimal(digits: &str, power: i64) -> Option<Rational> {
    if digits.len() <= 18 && (-18..=0).contains(&power) {
        let den = 10i64.pow(u32::try_from(-power).ok()?);
        return Rational::new(digits.parse().ok()?, den);
    }
    let whole = UBig::from_str_radix(digits, 10).ok()?;
    let scale = ten_to(usize::try_from(power.unsigned_abs()).ok()?);
    Some(if power >= 0 {
        from_integer(IBig::from(whole * scale))
    } else {
        shrink(RBig::from_parts(IBig::from(whole), scale))
    })
}

/// The exact root of a perfect square.
pub(crate) fn whole_root(n: UBig) -> Option<UBig> {
    let (root, over) = n.sqrt_rem();
    over.is_zero().then_some(root)
}

/// |value| × 10^places, rounded to a whole number, half up.
pub(crate) fn scaled_half_up(value: &Rational, places: u32) -> UBig {
    let (num, den) = value.big_parts();
    let scaled = num.unsigned_abs() * ten_to(places as usize);
    (scaled * 2u8 + &den) / (den * 2u8)
}

/// `digits` of a whole number of units in the last of `places` decimal places.
pub(crate) fn place_point(whole: &UBig, places: u32) -> String {
    let mut digits = whole.to_string();
    let places = places as usize;
    if places > 0 {
        if digits.len() <= places {
            digits.insert_str(0, &"0".repeat(places + 1 - digits.len()));
        }
        digits.insert(digits.len() - places, '.');
    }
    digits
}

pub(crate) fn to_decimal(value: &Rational, places: u32) -> String {
    let whole = scaled_half_up(value, places);
    let sign = if value.signum() < 0 && !whole.is_zero() { "-" } else { "" };
    format!("{sign}{}", place_point(&whole, places))
}

/// The largest fraction that divides both a whole number of times: the content
/// of a polynomial is folded with this. Positive unless both are 0.
pub(crate) fn common_content(a: &Rational, b: &Rational) -> Rational {
    if a.is_zero() {
        return b.abs();
    }
    if b.is_zero() {
        return a.abs();
    }
    if let (Repr::Small { num: a, den: b }, Repr::Small { num: c, den: d }) = (&a.0, &b.0) {
        let num = integers::gcd(a.unsigned_abs(), c.unsigned_abs());
        let part = b / integers::gcd(b.unsigned_abs(), d.unsigned_abs()) as i64;
        return Rational::from_i128(i128::from(num), i128::from(part) * i128::from(*d));
    }
    let ((a, b), (c, d)) = (a.big_parts(), b.big_parts());
    let lcm = &b / (&b).gcd(&d) * &d;
    fraction(IBig::from(a.gcd(c)), lcm)
}
