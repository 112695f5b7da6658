//! What the tests share.
#![allow(dead_code, unreachable_pub, reason = "each test file uses its own share of this")]

use exact::{Rational, Value};

/// A fraction.
pub fn ratio(num: i64, den: i64) -> Value {
    Value::rational(Rational::new(num, den).expect("a denominator other than zero"))
}

/// Checks an exact value.
#[track_caller]
pub fn assert_value(found: Option<&Value>, expected: &Value) {
    let found = found.expect("the value is found");
    assert!((found - expected).is_zero(), "found {found}, expected {expected}");
}
