//! Exact numbers: rationals, expressions, enclosures, units and rounding.
mod notation;
pub use notation::Math;
