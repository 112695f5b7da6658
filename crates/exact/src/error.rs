//! What can go wrong in exact arithmetic, as values.
use crate::dimension::Dimension;
use core::fmt;

/// Why an exact operation has no answer.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum ExactError {
    /// The divisor is zero.
    DivisionByZero,
    /// The square root of something below zero. Letters count as positive.
    NegativeRoot,
    /// No angle has this sine or cosine, or the angle has no tangent.
    NoSuchAngle,
    /// A number was needed and letters remain.
    HasLetters,
    /// Neither the form nor a narrow enclosure settles it.
    Undecided,
    /// The expression grew past the size that is worked with.
    TooLarge,
    /// Two quantities of different kinds were added or compared.
    Dimension {
        /// The dimension of the first.
        left: Dimension,
        /// The dimension of the second.
        right: Dimension,
    },
}

impl fmt::Display for ExactError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            ExactError::DivisionByZero => f.write_str("cannot divide by zero"),
            ExactError::NegativeRoot => f.write_str("a negative number has no square root"),
            ExactError::NoSuchAngle => f.write_str("there is no such angle"),
            ExactError::HasLetters => f.write_str("a number is needed, but letters remain"),
            ExactError::Undecided => f.write_str("the size or sign of this number cannot be decided"),
            ExactError::TooLarge => f.write_str("the expression is too large to work with"),
            ExactError::Dimension { left, right } => {
                write!(f, "cannot add or compare {} and {}", left.in_words(), right.in_words())
            }
        }
    }
}

impl std::error::Error for ExactError {}
