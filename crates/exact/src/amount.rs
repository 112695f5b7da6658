//! Values with dimensions.
use crate::dimension::Dimension;
use crate::error::ExactError;
use crate::value::Value;
use core::cmp::Ordering;
use core::fmt;

/// A value in SI units (degrees for angles) together with its dimension.
///
/// ```
/// use exact::{Amount, Dimension, ExactError, Value};
/// let weight = Amount::new(Value::from_int(49), Dimension::FORCE);
/// let mass = Amount::new(Value::from_int(5), Dimension::MASS);
/// assert_eq!(weight.div(&mass)?.dimension, Dimension::ACCELERATION);
/// assert_eq!(
///     weight.add(&mass).unwrap_err().to_string(),
///     "cannot add or compare newtons and kilograms"
/// );
/// # Ok::<(), ExactError>(())
/// ```
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Amount {
    /// How many SI units.
    pub value: Value,
    /// Of what.
    pub dimension: Dimension,
}

/// The same as [`Amount`].
pub type Quantity = Amount;

impl Amount {
    /// So many SI units of a dimension.
    pub fn new(value: Value, dimension: Dimension) -> Amount {
        Amount { value, dimension }
    }

    /// A pure number.
    pub fn pure(value: Value) -> Amount {
        Amount::new(value, Dimension::NONE)
    }

    fn same_kind(&self, other: &Amount) -> Result<(), ExactError> {
        if self.dimension == other.dimension {
            Ok(())
        } else {
            Err(ExactError::Dimension { left: self.dimension, right: other.dimension })
        }
    }

    /// Sum.
    ///
    /// # Errors
    /// [`ExactError::Dimension`] if the two are of different kinds; [`ExactError::TooLarge`].
    pub fn add(&self, other: &Amount) -> Result<Amount, ExactError> {
        self.same_kind(other)?;
        Ok(Amount::new((&self.value + &other.value).checked()?, self.dimension))
    }

    /// Difference.
    ///
    /// # Errors
    /// As [`Amount::add`].
    pub fn sub(&self, other: &Amount) -> Result<Amount, ExactError> {
        self.same_kind(other)?;
        Ok(Amount::new((&self.value - &other.value).checked()?, self.dimension))
    }

    /// Product.
    ///
    /// # Errors
    /// [`ExactError::TooLarge`].
    pub fn mul(&self, other: &Amount) -> Result<Amount, ExactError> {
        Ok(Amount::new((&self.value * &other.value).checked()?, self.dimension.mul(other.dimension)))
    }

    /// Quotient.
    ///
    /// # Errors
    /// As [`Value::checked_div`].
    pub fn div(&self, by: &Amount) -> Result<Amount, ExactError> {
        Ok(Amount::new(self.value.checked_div(&by.value)?, self.dimension.div(by.dimension)))
    }

    /// Which is greater.
    ///
    /// # Errors
    /// As [`Amount::add`] and [`Value::sign`].
    pub fn cmp_exact(&self, other: &Amount) -> Result<Ordering, ExactError> {
        self.same_kind(other)?;
        self.value.cmp_exact(&other.value)
    }
}

/// The value and its SI unit: `3/4 m s⁻²`.
impl fmt::Display for Amount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.dimension.unit().as_str() {
            "" => write!(f, "{}", self.value),
            "°" => write!(f, "{}°", self.value),
            unit => write!(f, "{} {unit}", self.value),
        }
    }
}
