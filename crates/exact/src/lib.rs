//! Exact numbers: rationals, expressions, enclosures, units and rounding.
//!
//! Everything on the way to an answer is exact ([`Rational`], [`Value`]) or
//! certified ([`Enclosure`]); a decimal is shown only when its rounding is
//! proved ([`round_significant`]). Nothing here panics, reads a clock or keeps
//! global state, and the same input always gives the same output.
//!
//! ```
//! use exact::{Value, round_significant};
//! let speed = Value::from_int(12).sqrt()?;
//! assert_eq!(speed.to_string(), "2*sqrt(3)");
//! assert_eq!(round_significant(&speed, 3)?.digits, "3.46");
//! # Ok::<(), exact::ExactError>(())
//! ```
mod amount;
mod angle;
mod arctan;
mod atoms;
mod big;
mod denest;
mod dimension;
mod display;
mod divisor;
mod enclosure;
mod error;
mod evaluate;
mod fixed;
mod integers;
mod layout;
pub mod linear;
mod monomial;
mod notation;
mod poly;
mod rational;
mod rational_ops;
mod root;
mod rounding;
mod shadow;
mod trig;
mod unit_names;
mod unit_text;
mod units;
mod value;
mod value_ops;
mod zero;

pub use amount::{Amount, Quantity};
pub use angle::{Angle, degrees_of_tan};
pub use dimension::Dimension;
pub use enclosure::Enclosure;
pub use error::ExactError;
pub use notation::Math;
pub use rational::Rational;
pub use rounding::{Decimal, round_places, round_places_with, round_significant, round_significant_with};
pub use units::{Unit, parse_unit};
pub use value::{Sign, Value};
