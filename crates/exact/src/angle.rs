//! Angles as questions give them, and angles as answers.
use crate::enclosure::Enclosure;
use crate::error::ExactError;
use crate::rational::Rational;
use crate::value::{Sign, Value};

/// An angle as a question gives it.
///
/// From a sine or a tangent the angle is taken between −90° and 90°, from a
/// cosine between 0° and 180°.
///
/// ```
/// use exact::{Angle, Rational, Value};
/// let slope = Angle::Tan(Value::rational(Rational::new(3, 4).unwrap()));
/// assert_eq!(slope.sin()?.to_string(), "3/5");
/// assert_eq!(slope.cos()?.to_string(), "4/5");
/// # Ok::<(), exact::ExactError>(())
/// ```
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum Angle {
    /// In degrees.
    Degrees(Rational),
    /// The angle with this sine.
    Sin(Value),
    /// The angle with this cosine.
    Cos(Value),
    /// The angle with this tangent.
    Tan(Value),
}

/// √(1 − x²), an error if |x| > 1.
fn other_leg(x: &Value) -> Result<Value, ExactError> {
    (Value::one() - x * x).sqrt().map_err(|e| match e {
        ExactError::NegativeRoot => ExactError::NoSuchAngle,
        other => other,
    })
}

/// √(1 + t²).
fn secant(t: &Value) -> Result<Value, ExactError> {
    (Value::one() + t * t).sqrt()
}

impl Angle {
    /// The sine.
    ///
    /// # Errors
    /// [`ExactError::NoSuchAngle`] if the cosine given is beyond 1.
    pub fn sin(&self) -> Result<Value, ExactError> {
        match self {
            Angle::Degrees(angle) => Ok(Value::sin_deg(angle)),
            Angle::Sin(sine) => other_leg(sine).map(|_| sine.clone()),
            Angle::Cos(cosine) => other_leg(cosine),
            Angle::Tan(tan) => tan.checked_div(&secant(tan)?),
        }
    }

    /// The cosine.
    ///
    /// # Errors
    /// [`ExactError::NoSuchAngle`] if the sine given is beyond 1.
    pub fn cos(&self) -> Result<Value, ExactError> {
        match self {
            Angle::Degrees(angle) => Ok(Value::cos_deg(angle)),
            Angle::Sin(sine) => other_leg(sine),
            Angle::Cos(cosine) => other_leg(cosine).map(|_| cosine.clone()),
            Angle::Tan(tan) => Value::one().checked_div(&secant(tan)?),
        }
    }

    /// The tangent.
    ///
    /// # Errors
    /// [`ExactError::NoSuchAngle`] for a right angle.
    pub fn tan(&self) -> Result<Value, ExactError> {
        if let Angle::Tan(tan) = self {
            return Ok(tan.clone());
        }
        let cosine = self.cos()?;
        if cosine.is_zero() {
            return Err(ExactError::NoSuchAngle);
        }
        self.sin()?.checked_div(&cosine)
    }

    /// The angle in degrees, certified, about 2^−bits wide.
    ///
    /// ```
    /// use exact::{Angle, Value, round_significant_with};
    /// let slope = Angle::Sin(Value::one().checked_div(&Value::from_int(20))?);
    /// assert_eq!(round_significant_with(|bits| slope.degrees_enclosure(bits), 3)?.digits, "2.87");
    /// # Ok::<(), exact::ExactError>(())
    /// ```
    ///
    /// # Errors
    /// [`ExactError::HasLetters`]; [`ExactError::NoSuchAngle`].
    pub fn degrees_enclosure(&self, bits: u32) -> Result<Enclosure, ExactError> {
        let right = Rational::from_int(90);
        match self {
            Angle::Degrees(angle) => Ok(Enclosure::point(angle.clone())),
            Angle::Tan(tan) => degrees_of_tan(tan, bits),
            Angle::Sin(sine) => {
                let cosine = self.cos()?;
                if cosine.sign()? == Sign::Zero {
                    let down = sine.sign()? == Sign::Negative;
                    return Ok(Enclosure::point(if down { -right } else { right }));
                }
                degrees_of_tan(&sine.checked_div(&cosine)?, bits)
            }
            Angle::Cos(cosine) => {
                // arccos x = 90° − arcsin x.
                let arcsin = Angle::Sin(cosine.clone()).degrees_enclosure(bits)?;
                Ok(Enclosure::point(right).sub(&arcsin))
            }
        }
    }
}

/// The angle between −90° and 90° with this tangent, in degrees, certified; a
/// single point where it is a multiple of 15°.
///
/// ```
/// use exact::{Rational, Value, degrees_of_tan};
/// let angle = degrees_of_tan(&Value::from_int(3).sqrt()?, 20)?;
/// assert_eq!(angle.lo(), &Rational::from_int(60));
/// # Ok::<(), exact::ExactError>(())
/// ```
///
/// # Errors
/// [`ExactError::HasLetters`]; [`ExactError::TooLarge`] past 20,000 bits.
pub fn degrees_of_tan(tan: &Value, bits: u32) -> Result<Enclosure, ExactError> {
    for quarter_hours in -5..=5 {
        let angle = Rational::from_int(15 * quarter_hours);
        let (sine, cosine) = (Value::sin_deg(&angle), Value::cos_deg(&angle));
        if sine.checked_div(&cosine).as_ref() == Ok(tan) {
            return Ok(Enclosure::point(angle));
        }
    }
    // The arctangent in degrees is at most 180/π < 64 times as wide as the tangent.
    let within = tan.enclose(bits.saturating_add(8))?;
    Ok(within.atan_deg(bits.saturating_add(2)))
}
