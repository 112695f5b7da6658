//! √(a + b√c) as √x + √y where it can be: (√x + √y)² = x + y + 2√(xy).
use crate::atoms::Atom;
use crate::error::ExactError;
use crate::rational::Rational;
use crate::value::{Form, Value};

/// The root of a positive number a + b√c with fractions a, b, c, if a² − b²c is a square.
pub(crate) fn root(value: &Value) -> Result<Option<Value>, ExactError> {
    let Form::Fraction(f) = &value.0 else { return Ok(None) };
    if !f.den.is_one() || f.num.0.len() != 2 || !f.num.atoms().all(Atom::is_plain) {
        return Ok(None);
    }
    let [(surd, b), (rest, a)] = f.num.0.as_slice() else { return Ok(None) };
    if !rest.is_one() {
        return Ok(None);
    }
    // b²c: the square of the surd term is a fraction.
    let term = Value::from_poly(crate::poly::Poly::monomial(surd.clone(), b.clone()));
    let square = &term * &term;
    let Some(square) = square.as_rational() else { return Ok(None) };
    let Some(d) = (a * a - square).sqrt_exact() else { return Ok(None) };
    let half = Rational::small(1, 2);
    let (x, y) = (&(a + &d) * &half, &(a - &d) * &half);
    if x.signum() < 0 || y.signum() < 0 {
        return Ok(None);
    }
    let (x, y) = (Value::rational(x).sqrt()?, Value::rational(y).sqrt()?);
    Ok(Some(if b.signum() < 0 { x - y } else { x + y }))
}
