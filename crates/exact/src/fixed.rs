//! Intervals of whole multiples of 2^−scale, every operation rounded outward.
use crate::big;
use crate::rational::Rational;
use crate::value::Sign;
use dashu_int::ops::{BitTest, SquareRoot, SquareRootRem, UnsignedAbs};
use dashu_int::{IBig, UBig};

/// All numbers from `lo × 2^−scale` to `hi × 2^−scale`. Both operands of an
/// operation have the same scale; the result has it too.
#[derive(Clone, Debug)]
pub(crate) struct Fixed {
    pub(crate) lo: IBig,
    pub(crate) hi: IBig,
    pub(crate) scale: usize,
}

/// ⌊n / 2^bits⌋.
fn shift_down(n: &IBig, bits: usize) -> IBig {
    n >> bits
}

/// ⌈n / 2^bits⌉.
fn shift_up(n: &IBig, bits: usize) -> IBig {
    -(-n >> bits)
}

fn floor_over(n: IBig, by: &UBig) -> IBig {
    big::div_floor(n, by.clone())
}

fn ceil_over(n: IBig, by: &UBig) -> IBig {
    -big::div_floor(-n, by.clone())
}

impl Fixed {
    pub(crate) fn whole(n: i64, scale: usize) -> Fixed {
        let n = IBig::from(n) << scale;
        Fixed { lo: n.clone(), hi: n, scale }
    }

    pub(crate) fn rational(r: &Rational, scale: usize) -> Fixed {
        let (num, den) = r.big_parts();
        let num = num << scale;
        if den.is_one() {
            return Fixed { lo: num.clone(), hi: num, scale };
        }
        let lo = floor_over(num.clone(), &den);
        Fixed { lo, hi: ceil_over(num, &den), scale }
    }

    pub(crate) fn between(lo: &Rational, hi: &Rational, scale: usize) -> Fixed {
        Fixed { lo: Fixed::rational(lo, scale).lo, hi: Fixed::rational(hi, scale).hi, scale }
    }

    pub(crate) fn add(&self, other: &Fixed) -> Fixed {
        Fixed { lo: &self.lo + &other.lo, hi: &self.hi + &other.hi, scale: self.scale }
    }

    pub(crate) fn sub(&self, other: &Fixed) -> Fixed {
        Fixed { lo: &self.lo - &other.hi, hi: &self.hi - &other.lo, scale: self.scale }
    }

    /// Between the least and the greatest of the four products of ends.
    pub(crate) fn mul(&self, other: &Fixed) -> Fixed {
        let scale = self.scale;
        if self.lo >= IBig::ZERO && other.lo >= IBig::ZERO {
            let (lo, hi) = (&self.lo * &other.lo, &self.hi * &other.hi);
            return Fixed { lo: shift_down(&lo, scale), hi: shift_up(&hi, scale), scale };
        }
        let (a, b) = (&self.lo * &other.lo, &self.lo * &other.hi);
        let (c, d) = (&self.hi * &other.lo, &self.hi * &other.hi);
        let lo = (&a).min(&b).min((&c).min(&d));
        let hi = (&a).max(&b).max((&c).max(&d));
        Fixed { lo: shift_down(lo, scale), hi: shift_up(hi, scale), scale }
    }

    /// Over a positive whole number.
    pub(crate) fn over(&self, n: u64) -> Fixed {
        let n = UBig::from(n.max(1));
        Fixed { lo: floor_over(self.lo.clone(), &n), hi: ceil_over(self.hi.clone(), &n), scale: self.scale }
    }

    /// The quotient, unless the divisor may be zero.
    pub(crate) fn div(&self, by: &Fixed) -> Option<Fixed> {
        let scale = self.scale;
        let (top, by) = match by.sign()? {
            Sign::Zero => return None,
            Sign::Positive => (self.clone(), by.clone()),
            Sign::Negative => (self.neg(), by.neg()),
        };
        let (near, far) = ((&by.lo).unsigned_abs(), (&by.hi).unsigned_abs());
        let lo = if top.lo < IBig::ZERO { &near } else { &far };
        let hi = if top.hi < IBig::ZERO { &far } else { &near };
        Some(Fixed { lo: floor_over(top.lo << scale, lo), hi: ceil_over(top.hi << scale, hi), scale })
    }

    pub(crate) fn neg(&self) -> Fixed {
        Fixed { lo: -&self.hi, hi: -&self.lo, scale: self.scale }
    }

    /// The root of what is known not to be negative; `None` if all of it is.
    pub(crate) fn sqrt(&self) -> Option<Fixed> {
        if self.hi < IBig::ZERO {
            return None;
        }
        let lo =
            if self.lo < IBig::ZERO { UBig::ZERO } else { ((&self.lo).unsigned_abs() << self.scale).sqrt() };
        let (mut hi, over) = ((&self.hi).unsigned_abs() << self.scale).sqrt_rem();
        if !over.is_zero() {
            hi += UBig::ONE;
        }
        Some(Fixed { lo: IBig::from(lo), hi: IBig::from(hi), scale: self.scale })
    }

    /// Wider by so many units on both sides.
    pub(crate) fn widened(self, units: u64) -> Fixed {
        let units = IBig::from(units);
        Fixed { lo: self.lo - &units, hi: self.hi + &units, scale: self.scale }
    }

    /// With fewer bits, rounded outward.
    pub(crate) fn coarser(&self, scale: usize) -> Fixed {
        match self.scale.checked_sub(scale) {
            Some(drop) => Fixed { lo: shift_down(&self.lo, drop), hi: shift_up(&self.hi, drop), scale },
            None => self.clone(),
        }
    }

    /// The sign, if all of it has the same.
    pub(crate) fn sign(&self) -> Option<Sign> {
        if self.lo > IBig::ZERO {
            Some(Sign::Positive)
        } else if self.hi < IBig::ZERO {
            Some(Sign::Negative)
        } else if self.lo.is_zero() && self.hi.is_zero() {
            Some(Sign::Zero)
        } else {
            None
        }
    }

    /// Whether all of it is smaller than 2^−bits in size.
    pub(crate) fn magnitude_below(&self, bits: u64) -> bool {
        let longest = (&self.lo).unsigned_abs().max((&self.hi).unsigned_abs());
        (longest.bit_len() as u64).saturating_add(bits) <= self.scale as u64
    }

    /// Whether it is at most 2^−bits wide.
    pub(crate) fn within(&self, bits: u32) -> bool {
        let width = (&self.hi - &self.lo).unsigned_abs();
        width <= (UBig::ONE << self.scale.saturating_sub(bits as usize))
    }

    pub(crate) fn ends(&self) -> (Rational, Rational) {
        let one = UBig::ONE << self.scale;
        (big::fraction(self.lo.clone(), one.clone()), big::fraction(self.hi.clone(), one))
    }
}
