//! Arithmetic of values.
use crate::error::ExactError;
use crate::monomial::HIGHEST;
use crate::rational::Rational;
use crate::rational_ops::four_ways;
use crate::value::{Form, Fraction, Value};
use core::iter::Sum;
use core::ops::{Add, AddAssign, Mul, MulAssign, Neg, Sub, SubAssign};
use std::sync::Arc;

/// The longest plain number, in bits.
const LONGEST: u64 = 1 << 16;

fn bounded(number: Rational) -> Value {
    if number.bits() > LONGEST { Value(Form::TooLarge) } else { Value::rational(number) }
}

/// Hands a result on, marking one that cannot be worked out.
fn or_too_large(result: Result<Value, ExactError>) -> Value {
    result.unwrap_or(Value(Form::TooLarge))
}

fn add(a: &Value, b: &Value) -> Value {
    match (&a.0, &b.0) {
        (Form::Number(x), Form::Number(y)) => bounded(x + y),
        (Form::TooLarge, _) | (_, Form::TooLarge) => Value(Form::TooLarge),
        (Form::Number(x), _) if x.is_zero() => b.clone(),
        (_, Form::Number(y)) if y.is_zero() => a.clone(),
        _ => or_too_large(sum(a, b)),
    }
}

fn sum(a: &Value, b: &Value) -> Result<Value, ExactError> {
    let ((p, q), (r, s)) = (a.parts()?, b.parts()?);
    if q == s {
        return Value::simplest(p.add(&r).checked()?, q);
    }
    // The denominators hold no roots, so only the numerators need the relations,
    // and a denominator has none: no product here makes a new even power.
    let num = p.mul(&s)?.add(&r.mul(&q)?).checked()?;
    Value::simplest(num, q.mul(&s)?)
}

fn sub(a: &Value, b: &Value) -> Value {
    match (&a.0, &b.0) {
        (Form::Number(x), Form::Number(y)) => bounded(x - y),
        _ => add(a, &-b),
    }
}

fn mul(a: &Value, b: &Value) -> Value {
    match (&a.0, &b.0) {
        (Form::Number(x), Form::Number(y)) => bounded(x * y),
        (Form::TooLarge, _) | (_, Form::TooLarge) => Value(Form::TooLarge),
        (Form::Number(x), Form::Fraction(f)) | (Form::Fraction(f), Form::Number(x)) => scaled(f, x),
        _ => or_too_large(product(a, b)),
    }
}

fn scaled(f: &Fraction, by: &Rational) -> Value {
    if by.is_zero() {
        return Value::zero();
    }
    match f.num.scale(by).checked() {
        Ok(num) => Value(Form::Fraction(Arc::new(Fraction { num, den: f.den.clone() }))),
        Err(_) => Value(Form::TooLarge),
    }
}

fn product(a: &Value, b: &Value) -> Result<Value, ExactError> {
    let ((p, q), (r, s)) = (a.parts()?, b.parts()?);
    Value::simplest(p.mul_reduced(&r)?, q.mul(&s)?)
}

four_ways!(Value, Add, add, AddAssign, add_assign, add);
four_ways!(Value, Sub, sub, SubAssign, sub_assign, sub);
four_ways!(Value, Mul, mul, MulAssign, mul_assign, mul);

impl Neg for &Value {
    type Output = Value;
    fn neg(self) -> Value {
        match &self.0 {
            Form::Number(n) => Value::rational(-n),
            Form::Fraction(f) => {
                Value(Form::Fraction(Arc::new(Fraction { num: f.num.neg(), den: f.den.clone() })))
            }
            Form::TooLarge => Value(Form::TooLarge),
        }
    }
}

impl Neg for Value {
    type Output = Value;
    fn neg(self) -> Value {
        -&self
    }
}

impl Sum for Value {
    fn sum<I: Iterator<Item = Value>>(items: I) -> Value {
        items.fold(Value::zero(), |total, x| total + x)
    }
}

impl<'a> Sum<&'a Value> for Value {
    fn sum<I: Iterator<Item = &'a Value>>(items: I) -> Value {
        items.fold(Value::zero(), |total, x| total + x)
    }
}

impl Value {
    /// The quotient, in simplest form.
    ///
    /// # Errors
    /// [`ExactError::DivisionByZero`]; [`ExactError::Undecided`] if the divisor might be zero;
    /// [`ExactError::TooLarge`].
    pub fn checked_div(&self, by: &Value) -> Result<Value, ExactError> {
        match (&self.0, &by.0) {
            (Form::TooLarge, _) | (_, Form::TooLarge) => Err(ExactError::TooLarge),
            (Form::Number(a), Form::Number(b)) => {
                a.checked_div(b).map(Value::rational).ok_or(ExactError::DivisionByZero)
            }
            (Form::Fraction(f), Form::Number(b)) => {
                Ok(scaled(f, &b.recip().ok_or(ExactError::DivisionByZero)?))
            }
            (_, Form::Fraction(d)) => {
                if crate::zero::vanishes(&d.num)? {
                    return Err(ExactError::DivisionByZero);
                }
                let (p, q) = self.parts()?;
                Value::simplest(p.mul_reduced(&d.den)?, q.mul_reduced(&d.num)?)
            }
        }
    }

    /// A whole power.
    ///
    /// # Errors
    /// [`ExactError::DivisionByZero`] for a negative power of zero; [`ExactError::TooLarge`].
    pub fn pow(&self, exponent: i32) -> Result<Value, ExactError> {
        match &self.0 {
            Form::TooLarge => Err(ExactError::TooLarge),
            Form::Number(n) if n.is_zero() && exponent < 0 => Err(ExactError::DivisionByZero),
            Form::Number(n) => bounded(n.pow(exponent).ok_or(ExactError::TooLarge)?).checked(),
            Form::Fraction(_) if exponent < 0 => {
                Value::one().checked_div(self)?.pow_whole(exponent.unsigned_abs())
            }
            Form::Fraction(_) => self.pow_whole(exponent.unsigned_abs()),
        }
    }

    fn pow_whole(&self, exponent: u32) -> Result<Value, ExactError> {
        if exponent > HIGHEST {
            return Err(ExactError::TooLarge);
        }
        let (mut result, mut square, mut left) = (Value::one(), self.clone(), exponent);
        while left > 0 {
            if left & 1 == 1 {
                result = (result * &square).checked()?;
            }
            left >>= 1;
            if left > 0 {
                square = (&square * &square).checked()?;
            }
        }
        Ok(result)
    }
}
