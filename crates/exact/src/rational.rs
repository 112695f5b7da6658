//! Fractions that stay exact: a machine word over a machine word, or a big
//! fraction when that is not enough.
use crate::big;
use crate::integers::gcd;
use core::cmp::Ordering;
use core::fmt;
use dashu_int::{IBig, UBig};
use dashu_ratio::RBig;

/// A fraction in lowest terms.
///
/// Inline while numerator and denominator fit `i64`, on the heap when they do
/// not, and back inline as soon as they fit again, so equal fractions are always
/// stored alike and `==` and `Hash` need no arithmetic.
///
/// ```
/// use exact::Rational;
/// let share = Rational::new(6, -8).unwrap();
/// assert_eq!(share.to_string(), "-3/4");
/// assert_eq!(&share + &Rational::ONE, Rational::new(1, 4).unwrap());
/// assert_eq!(Rational::new(1, 0), None);
/// ```
#[derive(Clone, PartialEq, Eq, Hash)]
pub struct Rational(pub(crate) Repr);

/// Small whenever |numerator| and denominator are at most `i64::MAX`.
#[derive(Clone, PartialEq, Eq, Hash)]
pub(crate) enum Repr {
    /// `num / den`, coprime, `den > 0`, `num` never `i64::MIN`.
    Small { num: i64, den: i64 },
    /// Anything that does not fit; also in lowest terms.
    Big(Box<RBig>),
}

impl Rational {
    /// Nought.
    pub const ZERO: Rational = Rational::small(0, 1);
    /// One.
    pub const ONE: Rational = Rational::small(1, 1);

    /// Parts that are already in lowest terms and in range.
    #[inline]
    pub(crate) const fn small(num: i64, den: i64) -> Rational {
        Rational(Repr::Small { num, den })
    }

    /// A whole number.
    #[inline]
    pub fn from_int(n: i64) -> Rational {
        if n == i64::MIN { big::from_i128(i128::from(n), 1) } else { Rational::small(n, 1) }
    }

    /// `num / den` in lowest terms; `None` if `den` is 0.
    pub fn new(num: i64, den: i64) -> Option<Rational> {
        if den == 0 {
            return None;
        }
        let divisor = i128::from(gcd(num.unsigned_abs(), den.unsigned_abs()));
        let sign = if den < 0 { -1 } else { 1 };
        Some(Rational::from_i128(sign * i128::from(num) / divisor, sign * i128::from(den) / divisor))
    }

    /// Coprime parts, `den > 0`, of any size.
    #[inline]
    pub(crate) fn from_i128(num: i128, den: i128) -> Rational {
        const MOST: i128 = i64::MAX as i128;
        if (-MOST..=MOST).contains(&num) && den <= MOST {
            Rational::small(num as i64, den as i64)
        } else {
            big::from_i128(num, den)
        }
    }

    /// Reads a decimal: digits, an optional point and an optional power of ten.
    ///
    /// Refuses spaces, units, more than 400 digits and powers beyond 10^±400.
    ///
    /// ```
    /// use exact::Rational;
    /// assert_eq!(Rational::parse_decimal("0.75"), Rational::new(3, 4));
    /// assert_eq!(Rational::parse_decimal("3.2e4"), Some(Rational::from_int(32_000)));
    /// assert_eq!(Rational::parse_decimal("12 kg"), None);
    /// ```
    pub fn parse_decimal(text: &str) -> Option<Rational> {
        let (negative, rest) = match text.strip_prefix(['-', '−']) {
            Some(rest) => (true, rest),
            None => (false, text.strip_prefix('+').unwrap_or(text)),
        };
        let (digits, power) = match rest.split_once(['e', 'E']) {
            Some((digits, power)) => {
                let bare = power.strip_prefix(['-', '+']).unwrap_or(power);
                if bare.is_empty() || bare.len() > 6 || !bare.bytes().all(|b| b.is_ascii_digit()) {
                    return None;
                }
                (digits, power.parse::<i64>().ok()?)
            }
            None => (rest, 0),
        };
        if power.abs() > 400 || digits.len() > 401 {
            return None;
        }
        let (whole, part) = match digits.split_once('.') {
            Some((_, "")) => return None,
            Some(parts) => parts,
            None => (digits, ""),
        };
        let all = [whole, part].concat();
        if all.is_empty() || all.len() > 400 || !all.bytes().all(|b| b.is_ascii_digit()) {
            return None;
        }
        let places = i64::try_from(part.len()).ok()?;
        let magnitude = big::decimal(&all, power - places)?;
        Some(if negative { -magnitude } else { magnitude })
    }

    /// Whether it is 0.
    #[inline]
    pub fn is_zero(&self) -> bool {
        matches!(self.0, Repr::Small { num: 0, .. })
    }

    /// Whether it is 1.
    #[inline]
    pub fn is_one(&self) -> bool {
        matches!(self.0, Repr::Small { num: 1, den: 1 })
    }

    /// Whether it is a whole number.
    pub fn is_integer(&self) -> bool {
        match &self.0 {
            Repr::Small { den, .. } => *den == 1,
            Repr::Big(b) => b.is_int(),
        }
    }

    /// −1, 0 or 1.
    #[inline]
    pub fn signum(&self) -> i32 {
        match &self.0 {
            Repr::Small { num, .. } => num.signum() as i32,
            Repr::Big(b) => {
                if *b.numerator() < IBig::ZERO {
                    -1
                } else {
                    1
                }
            }
        }
    }

    /// The size without the sign.
    pub fn abs(&self) -> Rational {
        if self.signum() < 0 { -self } else { self.clone() }
    }

    /// One over it; `None` for 0.
    #[inline]
    pub fn recip(&self) -> Option<Rational> {
        match &self.0 {
            Repr::Small { num: 0, .. } => None,
            Repr::Small { num, den } => {
                Some(Rational::small(if *num < 0 { -*den } else { *den }, num.wrapping_abs()))
            }
            Repr::Big(_) => {
                let (num, den) = self.big_parts();
                let (sign, size) = num.into_parts();
                Some(big::shrink(RBig::from_parts(IBig::from_parts(sign, den), size)))
            }
        }
    }

    /// The quotient; `None` when `by` is 0.
    #[inline]
    pub fn checked_div(&self, by: &Rational) -> Option<Rational> {
        match (&self.0, &by.0) {
            (_, Repr::Small { num: 0, .. }) => None,
            (Repr::Small { num: a, den: b }, Repr::Small { num: c, den: d }) => {
                let (c, d) = if *c < 0 { (-*d, -*c) } else { (*d, *c) };
                Some(mul_small(*a, *b, c, d))
            }
            _ => by.recip().map(|r| self * &r),
        }
    }

    /// A whole power; `None` for a negative power of 0, or when the result would
    /// run past about a million bits.
    pub fn pow(&self, exponent: i32) -> Option<Rational> {
        let base = if exponent < 0 { self.recip()? } else { self.clone() };
        let times = exponent.unsigned_abs();
        if base.is_zero() || base.abs().is_one() {
            let odd = times % 2 == 1;
            return Some(if times == 0 || (!odd && !base.is_zero()) { Rational::ONE } else { base });
        }
        if base.bits().saturating_mul(u64::from(times)) > 1 << 20 {
            return None;
        }
        let mut result = Rational::ONE;
        let mut square = base;
        let mut left = times;
        while left > 0 {
            if left & 1 == 1 {
                result = &result * &square;
            }
            left >>= 1;
            if left > 0 {
                square = &square * &square;
            }
        }
        Some(result)
    }

    /// The whole number at or below it.
    pub fn floor(&self) -> Rational {
        match &self.0 {
            Repr::Small { num, den } => Rational::small(num.div_euclid(*den), 1),
            Repr::Big(_) => {
                let (num, den) = self.big_parts();
                big::from_integer(big::div_floor(num, den))
            }
        }
    }

    /// The nearest double: for pixels and for JSON, never on the way to an answer.
    pub fn to_f64(&self) -> f64 {
        const EXACT: u64 = 1 << 53;
        match &self.0 {
            Repr::Small { num, den } if num.unsigned_abs() <= EXACT && den.unsigned_abs() <= EXACT => {
                *num as f64 / *den as f64
            }
            _ => self.to_rbig().to_f64().value(),
        }
    }

    /// The whole number, if it is one and fits.
    #[inline]
    pub fn as_i64(&self) -> Option<i64> {
        match &self.0 {
            Repr::Small { num, den: 1 } => Some(*num),
            Repr::Small { .. } => None,
            Repr::Big(b) if b.is_int() => i64::try_from(b.numerator()).ok(),
            Repr::Big(_) => None,
        }
    }

    /// The number above the line in lowest terms, with the sign.
    pub fn numerator(&self) -> Rational {
        match &self.0 {
            Repr::Small { num, .. } => Rational::small(*num, 1),
            Repr::Big(b) => big::from_integer(b.numerator().clone()),
        }
    }

    /// The number below the line in lowest terms, positive.
    pub fn denominator(&self) -> Rational {
        match &self.0 {
            Repr::Small { den, .. } => Rational::small(*den, 1),
            Repr::Big(b) => big::from_integer(IBig::from(b.denominator().clone())),
        }
    }

    /// The decimal to so many places (at most 1,000); an exact half goes away from zero.
    ///
    /// ```
    /// use exact::Rational;
    /// assert_eq!(Rational::new(-1, 8).unwrap().to_decimal(2), "-0.13");
    /// assert_eq!(Rational::from_int(3).to_decimal(1), "3.0");
    /// ```
    pub fn to_decimal(&self, places: u32) -> String {
        big::to_decimal(self, places.min(1_000))
    }

    /// The whole decimal, if it ends within 12 places.
    ///
    /// ```
    /// use exact::Rational;
    /// assert_eq!(Rational::new(49, 5).unwrap().terminating_decimal().as_deref(), Some("9.8"));
    /// assert_eq!(Rational::new(1, 3).unwrap().terminating_decimal(), None);
    /// ```
    pub fn terminating_decimal(&self) -> Option<String> {
        let mut scaled = self.clone();
        for places in 0..=12 {
            if scaled.is_integer() {
                return Some(self.to_decimal(places));
            }
            scaled = &scaled * &Rational::small(10, 1);
        }
        None
    }

    /// The square root, if it is a fraction itself.
    pub fn sqrt_exact(&self) -> Option<Rational> {
        if self.signum() < 0 {
            return None;
        }
        let (num, den) = self.big_parts();
        let num = big::whole_root(UBig::try_from(num).ok()?)?;
        let den = big::whole_root(den)?;
        Some(big::shrink(RBig::from_parts(IBig::from(num), den)))
    }

    /// The size in bits of the longer of numerator and denominator.
    pub(crate) fn bits(&self) -> u64 {
        match &self.0 {
            Repr::Small { num, den } => {
                u64::from(64 - (num.unsigned_abs() | den.unsigned_abs()).leading_zeros())
            }
            Repr::Big(b) => big::bits(b),
        }
    }

    pub(crate) fn to_rbig(&self) -> RBig {
        match &self.0 {
            Repr::Small { num, den } => RBig::from_parts(IBig::from(*num), UBig::from(den.unsigned_abs())),
            Repr::Big(b) => (**b).clone(),
        }
    }

    pub(crate) fn big_parts(&self) -> (IBig, UBig) {
        match &self.0 {
            Repr::Small { num, den } => (IBig::from(*num), UBig::from(den.unsigned_abs())),
            Repr::Big(b) => (**b).clone().into_parts(),
        }
    }
}

/// `a/b + c/d`, both in lowest terms: only what can cancel is divided out
/// (Knuth, The Art of Computer Programming 2, section 4.5.1).
#[inline]
pub(crate) fn add_small(a: i64, b: i64, c: i64, d: i64) -> Rational {
    if b == d {
        if b == 1 {
            return match a.checked_add(c) {
                Some(sum) if sum != i64::MIN => Rational::small(sum, 1),
                _ => big::from_i128(i128::from(a) + i128::from(c), 1),
            };
        }
        let sum = i128::from(a) + i128::from(c);
        let g = i128::from(gcd((sum.unsigned_abs() % b.unsigned_abs() as u128) as u64, b.unsigned_abs()));
        return Rational::from_i128(sum / g, i128::from(b) / g);
    }
    let g = if b == 1 || d == 1 { 1 } else { gcd(b.unsigned_abs(), d.unsigned_abs()) };
    if g == 1 {
        let sum = i128::from(a) * i128::from(d) + i128::from(c) * i128::from(b);
        return Rational::from_i128(sum, i128::from(b) * i128::from(d));
    }
    let g = g as i64;
    let (b_part, d_part) = (b / g, d / g);
    let sum = i128::from(a) * i128::from(d_part) + i128::from(c) * i128::from(b_part);
    let again = match i64::try_from(sum) {
        Ok(sum) => gcd(sum.unsigned_abs(), g.unsigned_abs()),
        Err(_) => gcd((sum.unsigned_abs() % g.unsigned_abs() as u128) as u64, g.unsigned_abs()),
    };
    if again == 1 {
        return Rational::from_i128(sum, i128::from(b_part) * i128::from(d));
    }
    let again = again as i64;
    let sum = match i64::try_from(sum) {
        Ok(sum) => i128::from(sum / again),
        Err(_) => sum / i128::from(again),
    };
    Rational::from_i128(sum, i128::from(b_part) * i128::from(d / again))
}

/// `a/b × c/d`, both in lowest terms: cancels across before multiplying.
#[inline]
pub(crate) fn mul_small(a: i64, b: i64, c: i64, d: i64) -> Rational {
    let (a, d) = if d == 1 { (a, d) } else { cancel(a, d) };
    let (c, b) = if b == 1 { (c, b) } else { cancel(c, b) };
    match (a.checked_mul(c), b.checked_mul(d)) {
        (Some(num), Some(den)) if num != i64::MIN => Rational::small(num, den),
        _ => Rational::from_i128(i128::from(a) * i128::from(c), i128::from(b) * i128::from(d)),
    }
}

#[inline]
fn cancel(num: i64, den: i64) -> (i64, i64) {
    match gcd(num.unsigned_abs(), den.unsigned_abs()) {
        1 => (num, den),
        g => (num / g as i64, den / g as i64),
    }
}

impl Ord for Rational {
    fn cmp(&self, other: &Rational) -> Ordering {
        match (&self.0, &other.0) {
            (Repr::Small { num: a, den: b }, Repr::Small { num: c, den: d }) => {
                if b == d {
                    a.cmp(c)
                } else {
                    (i128::from(*a) * i128::from(*d)).cmp(&(i128::from(*c) * i128::from(*b)))
                }
            }
            _ => self.to_rbig().cmp(&other.to_rbig()),
        }
    }
}

impl PartialOrd for Rational {
    fn partial_cmp(&self, other: &Rational) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl fmt::Display for Rational {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.0 {
            Repr::Small { num, den: 1 } => write!(f, "{num}"),
            Repr::Small { num, den } => write!(f, "{num}/{den}"),
            Repr::Big(b) => write!(f, "{b}"),
        }
    }
}

impl fmt::Debug for Rational {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}
