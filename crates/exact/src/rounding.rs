//! Decimals that are proved: an enclosure narrows until the rounding is beyond doubt.
use crate::big::{place_point, scaled_half_up, ten_to};
use crate::enclosure::Enclosure;
use crate::error::ExactError;
use crate::rational::Rational;
use crate::value::Value;
use dashu_int::UBig;

/// The most figures or places that may be asked for.
const MOST_FIGURES: u32 = 300;
/// The enclosures that are tried, in bits, until one settles the rounding.
const TRIES: [u32; 6] = [64, 160, 400, 1_000, 2_500, 4_200];

/// A decimal as it is shown.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Decimal {
    /// The digits: `0.750`, `16900`, `-3.27` (a plain hyphen for minus, no spaces between digits).
    pub digits: String,
    /// Whether the digits are the value itself, nothing rounded.
    pub exact: bool,
    /// Whether the value lay exactly half-way and went away from zero.
    pub half: bool,
}

/// How closely to round.
#[derive(Clone, Copy)]
enum To {
    Figures(u32),
    Places(u32),
}

impl To {
    fn within_limits(self) -> Result<To, ExactError> {
        match self {
            To::Figures(n) | To::Places(n) if n > MOST_FIGURES => Err(ExactError::TooLarge),
            To::Figures(n) => Ok(To::Figures(n.max(1))),
            To::Places(n) => Ok(To::Places(n)),
        }
    }
}

/// Rounds to so many significant figures (at least 1, at most 300); halves go away from zero.
///
/// ```
/// use exact::{Rational, Value, round_significant};
/// let shown = |text: &str| -> Option<String> {
///     let value = Value::rational(Rational::parse_decimal(text)?);
///     round_significant(&value, 3).ok().map(|d| d.digits)
/// };
/// assert_eq!(shown("1234567").as_deref(), Some("1230000"));
/// assert_eq!(shown("0.00012345").as_deref(), Some("0.000123"));
/// assert_eq!(shown("9.996").as_deref(), Some("10.0"));
/// ```
///
/// # Errors
/// [`ExactError::HasLetters`]; [`ExactError::Undecided`] if no enclosure settles it;
/// [`ExactError::TooLarge`].
pub fn round_significant(v: &Value, figures: u32) -> Result<Decimal, ExactError> {
    round_value(v, To::Figures(figures).within_limits()?)
}

/// Rounds to so many decimal places (at most 300); halves go away from zero.
///
/// ```
/// use exact::{Rational, Value, round_places};
/// let half = round_places(&Value::rational(Rational::new(-1, 8).unwrap()), 2)?;
/// assert_eq!((half.digits.as_str(), half.half), ("-0.13", true));
/// # Ok::<(), exact::ExactError>(())
/// ```
///
/// # Errors
/// As [`round_significant`].
pub fn round_places(v: &Value, places: u32) -> Result<Decimal, ExactError> {
    round_value(v, To::Places(places).within_limits()?)
}

/// [`round_significant`] for a number known by its enclosures: `f(bits)` gives one
/// about 2^−bits wide, as [`crate::Angle::degrees_enclosure`] does.
///
/// # Errors
/// Those of `f`, and as [`round_significant`].
pub fn round_significant_with(
    f: impl Fn(u32) -> Result<Enclosure, ExactError>,
    figures: u32,
) -> Result<Decimal, ExactError> {
    narrowing(&f, To::Figures(figures).within_limits()?, |_| Ok(false))
}

/// [`round_places`] for a number known by its enclosures.
///
/// # Errors
/// Those of `f`, and as [`round_significant`].
pub fn round_places_with(
    f: impl Fn(u32) -> Result<Enclosure, ExactError>,
    places: u32,
) -> Result<Decimal, ExactError> {
    narrowing(&f, To::Places(places).within_limits()?, |_| Ok(false))
}

fn round_value(v: &Value, to: To) -> Result<Decimal, ExactError> {
    if let Some(n) = v.as_rational() {
        return round_rational(n, to);
    }
    if v.is_number() && v.is_zero() {
        return round_rational(&Rational::ZERO, to);
    }
    let equals = |x: &Rational| Ok((v - &Value::rational(x.clone())).sign()? == crate::value::Sign::Zero);
    narrowing(&|bits| v.enclose(bits), to, equals)
}

/// Narrows until both ends round alike. `equals` proves that the number is a
/// given fraction, for numbers that are fractions in disguise.
fn narrowing(
    f: &dyn Fn(u32) -> Result<Enclosure, ExactError>,
    to: To,
    equals: impl Fn(&Rational) -> Result<bool, ExactError>,
) -> Result<Decimal, ExactError> {
    for bits in TRIES {
        let range = f(bits)?;
        let (lo, hi) = (round_rational(range.lo(), to)?, round_rational(range.hi(), to)?);
        if range.lo() == range.hi() {
            return Ok(lo);
        }
        if lo.digits == hi.digits {
            let exact = match Rational::parse_decimal(&lo.digits) {
                Some(shown) if range.contains(&shown) => equals(&shown).unwrap_or(false),
                _ => false,
            };
            return Ok(Decimal { digits: lo.digits, exact, half: false });
        }
        if bits >= 160
            && let Some(between) = boundary(&range, &lo, &hi)
            && equals(&between)?
        {
            return round_rational(&between, to);
        }
    }
    Err(ExactError::Undecided)
}

/// The fraction half-way between the two decimals, if the number may be it.
fn boundary(range: &Enclosure, lo: &Decimal, hi: &Decimal) -> Option<Rational> {
    let (a, b) = (Rational::parse_decimal(&lo.digits)?, Rational::parse_decimal(&hi.digits)?);
    let middle = (a + b) * Rational::new(1, 2)?;
    range.contains(&middle).then_some(middle)
}

fn round_rational(value: &Rational, to: To) -> Result<Decimal, ExactError> {
    let digits = match to {
        To::Places(places) => at_places(value, places),
        To::Figures(_) if value.is_zero() => "0".to_owned(),
        To::Figures(figures) => at_figures(value, figures)?,
    };
    // What is shown, compared with the value: nothing lost, or exactly half a
    // unit of the last figure that is kept.
    let shown = Rational::parse_decimal(&digits).ok_or(ExactError::TooLarge)?;
    let lost = (value - &shown).abs();
    let unit = match to {
        To::Places(places) => ten_power(-i64::from(places)),
        To::Figures(figures) => ten_power(leading_power(value) + 1 - i64::from(figures)),
    };
    let half = !lost.is_zero() && &lost + &lost == unit;
    Ok(Decimal { digits, exact: lost.is_zero(), half })
}

fn ten_power(power: i64) -> Rational {
    let size = ten_to(usize::try_from(power.unsigned_abs()).unwrap_or(0));
    let whole = crate::big::from_integer(size.into());
    if power >= 0 { whole } else { whole.recip().unwrap_or(Rational::ONE) }
}

fn signed(value: &Rational, digits: String, zero: bool) -> String {
    if value.signum() < 0 && !zero { format!("-{digits}") } else { digits }
}

fn at_places(value: &Rational, places: u32) -> String {
    let whole = scaled_half_up(value, places);
    signed(value, place_point(&whole, places), whole.is_zero())
}

/// k with 10^k ≤ |value| < 10^(k+1); 0 for 0.
fn leading_power(value: &Rational) -> i64 {
    if value.is_zero() {
        return 0;
    }
    let (num, den) = value.abs().big_parts();
    let (n, d) = (num.to_string().len(), den.to_string().len());
    // Between 10^(n−d−1) and 10^(n−d+1).
    let guess = i64::try_from(n).unwrap_or(0) - i64::try_from(d).unwrap_or(0);
    if value.abs() < ten_power(guess) { guess - 1 } else { guess }
}

fn at_figures(value: &Rational, figures: u32) -> Result<String, ExactError> {
    let top = leading_power(value);
    if top.unsigned_abs() > 350 {
        return Err(ExactError::TooLarge);
    }
    let places = i64::from(figures) - 1 - top;
    let whole = round_to_power(value, places);
    // Rounding up may bring in a figure: 9.996 becomes 10.0, not 10.00.
    let limit = ten_to(figures as usize);
    let (whole, places) = if whole >= limit { (whole / 10u8, places - 1) } else { (whole, places) };
    let digits = match u32::try_from(places) {
        Ok(places) => place_point(&whole, places),
        Err(_) => (whole * ten_to(usize::try_from(-places).unwrap_or(0))).to_string(),
    };
    Ok(signed(value, digits, false))
}

/// |value| × 10^places to the nearest whole number, half up; `places` may be negative.
fn round_to_power(value: &Rational, places: i64) -> UBig {
    match u32::try_from(places) {
        Ok(places) => scaled_half_up(value, places),
        Err(_) => scaled_half_up(&(value * &ten_power(places)), 0),
    }
}
