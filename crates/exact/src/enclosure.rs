//! Intervals with fractions as ends that certainly hold a number.
use crate::arctan;
use crate::error::ExactError;
use crate::evaluate::{MOST_BITS, enclose_value};
use crate::fixed::Fixed;
use crate::rational::Rational;
use crate::trig;
use crate::value::{Sign, Value};
use core::fmt;

/// A number that is certainly at least `lo` and at most `hi`.
///
/// ```
/// use exact::{Enclosure, Rational};
/// let two = Enclosure::point(Rational::from_int(2));
/// let root = two.sqrt(20).unwrap();
/// assert!(root.lo().to_decimal(5) == "1.41421" && root.hi().to_decimal(5) == "1.41421");
/// assert!(root.width() < Rational::parse_decimal("0.00001").unwrap());
/// ```
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Enclosure {
    lo: Rational,
    hi: Rational,
}

/// A scale for results about 2^−bits wide.
fn scale(bits: u32) -> usize {
    bits.min(MOST_BITS) as usize + 8
}

impl Enclosure {
    /// From `lo` to `hi`; `None` if they are the wrong way round.
    pub fn new(lo: Rational, hi: Rational) -> Option<Enclosure> {
        (lo <= hi).then_some(Enclosure { lo, hi })
    }

    /// One number, exactly.
    pub fn point(at: Rational) -> Enclosure {
        Enclosure { lo: at.clone(), hi: at }
    }

    pub(crate) fn from_fixed(range: &Fixed) -> Enclosure {
        let (lo, hi) = range.ends();
        Enclosure { lo, hi }
    }

    /// The lower end.
    pub fn lo(&self) -> &Rational {
        &self.lo
    }

    /// The upper end.
    pub fn hi(&self) -> &Rational {
        &self.hi
    }

    /// How far apart the ends are.
    pub fn width(&self) -> Rational {
        &self.hi - &self.lo
    }

    /// The number half-way between the ends.
    pub fn middle(&self) -> Rational {
        (&self.lo + &self.hi) * Rational::small(1, 2)
    }

    /// Whether this fraction lies in it.
    pub fn contains(&self, x: &Rational) -> bool {
        self.lo <= *x && *x <= self.hi
    }

    /// The sign, if all of it has the same.
    pub fn sign(&self) -> Option<Sign> {
        let (lo, hi) = (Sign::of(&self.lo), Sign::of(&self.hi));
        (lo == hi).then_some(lo)
    }

    /// With ends that are multiples of 2^−bits, rounded outward: keeps long sums short.
    pub fn rounded_outward(&self, bits: u32) -> Enclosure {
        Enclosure::from_fixed(&Fixed::between(&self.lo, &self.hi, bits.min(MOST_BITS) as usize))
    }

    /// Sum.
    pub fn add(&self, other: &Enclosure) -> Enclosure {
        Enclosure { lo: &self.lo + &other.lo, hi: &self.hi + &other.hi }
    }

    /// Difference.
    pub fn sub(&self, other: &Enclosure) -> Enclosure {
        Enclosure { lo: &self.lo - &other.hi, hi: &self.hi - &other.lo }
    }

    /// The same with the other sign.
    pub fn neg(&self) -> Enclosure {
        Enclosure { lo: -&self.hi, hi: -&self.lo }
    }

    /// Product.
    pub fn mul(&self, other: &Enclosure) -> Enclosure {
        let (a, b) = (&self.lo * &other.lo, &self.lo * &other.hi);
        let (c, d) = (&self.hi * &other.lo, &self.hi * &other.hi);
        let lo = (&a).min(&b).min((&c).min(&d)).clone();
        let hi = (&a).max(&b).max((&c).max(&d)).clone();
        Enclosure { lo, hi }
    }

    /// Quotient; `None` if zero lies in the divisor.
    pub fn div(&self, by: &Enclosure) -> Option<Enclosure> {
        if by.lo.signum() * by.hi.signum() <= 0 {
            return None;
        }
        let inverse = Enclosure { lo: by.hi.recip()?, hi: by.lo.recip()? };
        Some(self.mul(&inverse))
    }

    /// Square root of the part that is not below zero; `None` if all of it is.
    pub fn sqrt(&self, bits: u32) -> Option<Enclosure> {
        Some(Enclosure::from_fixed(&Fixed::between(&self.lo, &self.hi, scale(bits)).sqrt()?))
    }

    /// The sine of an angle in degrees.
    pub fn sin_deg(&self, bits: u32) -> Enclosure {
        let whole = Enclosure { lo: Rational::from_int(-1), hi: Rational::ONE };
        if self.width() >= Rational::from_int(360) {
            return whole;
        }
        let (lo, hi) = (trig::sin_of(&self.lo, scale(bits)), trig::sin_of(&self.hi, scale(bits)));
        let (lo, hi) = (Enclosure::from_fixed(&lo), Enclosure::from_fixed(&hi));
        let mut ends = Enclosure { lo: lo.lo.min(hi.lo), hi: lo.hi.max(hi.hi) };
        // Inside, a sine turns only at 90° and 270°.
        if self.passes(90) {
            ends.hi = Rational::ONE;
        }
        if self.passes(270) {
            ends.lo = Rational::from_int(-1);
        }
        ends
    }

    /// The cosine of an angle in degrees.
    pub fn cos_deg(&self, bits: u32) -> Enclosure {
        let quarter = Rational::from_int(90);
        Enclosure { lo: &self.lo + &quarter, hi: &self.hi + &quarter }.sin_deg(bits)
    }

    /// The arctangent in degrees.
    pub fn atan_deg(&self, bits: u32) -> Enclosure {
        let (lo, hi) = (arctan::degrees(&self.lo, scale(bits)), arctan::degrees(&self.hi, scale(bits)));
        Enclosure { lo: Enclosure::from_fixed(&lo).lo, hi: Enclosure::from_fixed(&hi).hi }
    }

    /// Whether this angle, or it and whole turns, lies between the ends.
    fn passes(&self, angle: i64) -> bool {
        let beyond = trig::within_turn(&(Rational::from_int(angle) - &self.lo));
        &self.lo + &beyond <= self.hi
    }
}

impl fmt::Display for Enclosure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "[{}, {}]", self.lo, self.hi)
    }
}

impl Value {
    /// An interval at most 2^−bits wide that certainly holds this number.
    ///
    /// ```
    /// use exact::{Rational, Value};
    /// let sine = Value::sin_deg(&Rational::from_int(20)).enclose(30)?;
    /// assert_eq!(sine.lo().to_decimal(6), "0.342020");
    /// assert_eq!(sine.hi().to_decimal(6), "0.342020");
    /// # Ok::<(), exact::ExactError>(())
    /// ```
    ///
    /// # Errors
    /// [`ExactError::HasLetters`]; [`ExactError::TooLarge`] past 20,000 bits.
    pub fn enclose(&self, bits: u32) -> Result<Enclosure, ExactError> {
        match self.as_rational() {
            Some(n) => Ok(Enclosure::point(n.clone())),
            None => Ok(Enclosure::from_fixed(&enclose_value(self, bits)?)),
        }
    }

    /// The nearest double, for pixels and JSON only; `None` if letters remain.
    pub fn to_f64(&self) -> Option<f64> {
        if let Some(n) = self.as_rational() {
            return Some(n.to_f64());
        }
        if !self.is_number() {
            return None;
        }
        let mut near = None;
        for bits in [96, 256, 1_100] {
            let range = self.enclose(bits).ok()?;
            let (lo, hi) = (range.lo.to_f64(), range.hi.to_f64());
            if lo == hi {
                return Some(lo);
            }
            near = Some(range.middle().to_f64());
        }
        if self.is_zero() { Some(0.0) } else { near }
    }
}
