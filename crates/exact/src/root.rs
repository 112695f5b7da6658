//! Square roots of values.
use crate::atoms::{Atom, DEEPEST};
use crate::big;
use crate::denest;
use crate::error::ExactError;
use crate::integers::split_square;
use crate::monomial::Monomial;
use crate::poly::Poly;
use crate::rational::Rational;
use crate::value::{Form, Fraction, Sign, Value};
use dashu_int::{IBig, UBig};
use std::sync::Arc;

impl Value {
    /// The square root that is not negative.
    ///
    /// Square factors come out of numbers and letters, perfect squares are
    /// recognised, and no root is left below the line. Letters count as positive.
    ///
    /// ```
    /// use exact::{ExactError, Rational, Value};
    /// assert_eq!(Value::from_int(12).sqrt()?.to_string(), "2*sqrt(3)");
    /// let speed_squared = Value::rational(Rational::new(98, 5).unwrap());
    /// assert_eq!(speed_squared.sqrt()?.to_string(), "7*sqrt(10)/5");
    /// assert_eq!(Value::from_int(-1).sqrt(), Err(ExactError::NegativeRoot));
    /// # Ok::<(), exact::ExactError>(())
    /// ```
    ///
    /// # Errors
    /// [`ExactError::NegativeRoot`]; [`ExactError::Undecided`] when the sign of the
    /// root of a perfect square depends on the letters, as for (a − b)².
    pub fn sqrt(&self) -> Result<Value, ExactError> {
        match &self.0 {
            Form::TooLarge => Err(ExactError::TooLarge),
            Form::Number(n) => root_of_number(n),
            Form::Fraction(f) => {
                if self.is_number() {
                    match self.sign()? {
                        Sign::Negative => return Err(ExactError::NegativeRoot),
                        Sign::Zero => return Ok(Value::zero()),
                        Sign::Positive => {}
                    }
                    if let Some(root) = denest::root(self)? {
                        return Ok(root);
                    }
                }
                root_of_fraction(f)
            }
        }
    }
}

/// √(n/d) = √(nd)/d, with square factors taken out of n and d apart.
fn root_of_number(n: &Rational) -> Result<Value, ExactError> {
    if n.signum() < 0 {
        return Err(ExactError::NegativeRoot);
    }
    if n.is_zero() {
        return Ok(Value::zero());
    }
    let (num, den) = n.big_parts();
    let num = split_square(&UBig::try_from(num).map_err(|_| ExactError::NegativeRoot)?);
    let den = split_square(&den);
    let mut below = den.root;
    let mut roots = Vec::new();
    for part in den.odd {
        below *= &part;
        roots.push(part);
    }
    roots.extend(num.odd);
    roots.sort();
    let coefficient = big::fraction(IBig::from(num.root), below);
    let factors = roots.into_iter().map(|p| {
        let radicand = Poly::constant(big::from_integer(IBig::from(p)));
        (Atom::Sqrt(Arc::new(radicand)), 1)
    });
    let mut factors: Vec<_> = factors.collect();
    factors.sort();
    Ok(Value::from_poly(Poly::monomial(Monomial(factors), coefficient)))
}

/// √(N/D) = √(ND)/D when D is positive, else √(ND³)/D².
fn root_of_fraction(f: &Fraction) -> Result<Value, ExactError> {
    let (radicand, below) = if f.den.is_one() {
        (f.num.clone(), f.den.clone())
    } else if is_positive(&f.den)? {
        (f.num.mul(&f.den)?, f.den.clone())
    } else if is_positive(&f.den.neg())? {
        (f.num.mul(&f.den)?, f.den.neg())
    } else {
        let square = f.den.mul(&f.den)?;
        (f.num.mul(&f.den)?.mul(&square)?, square)
    };
    let root = root_of_poly(&radicand)?;
    root.checked_div(&Value::from_poly(below))
}

/// Whether it is plainly positive: all coefficients are, or it is a number that is.
fn is_positive(p: &Poly) -> Result<bool, ExactError> {
    if p.all_signs(1) && !p.is_zero() {
        return Ok(true);
    }
    if p.has_letters() {
        return Ok(false);
    }
    Ok(Value::from_poly(p.clone()).sign()? == Sign::Positive)
}

fn root_of_poly(radicand: &Poly) -> Result<Value, ExactError> {
    let (content, mut part) = radicand.primitive();
    if content.signum() < 0 {
        part = part.neg();
    }
    let mut root = root_of_number(&content.abs())?;
    // Letters and sines are positive, so they may leave the root one by one.
    let common = part.common_monomial().partition(|a| matches!(a, Atom::Symbol(_) | Atom::Sin(_))).0;
    let mut rest = part.over_monomial(&common).ok_or(ExactError::Undecided)?;
    if rest.all_signs(-1) && rest.has_letters() | (rest.0.len() == 1) {
        return Err(ExactError::NegativeRoot);
    }
    for (atom, e) in &common.0 {
        let outside = Poly::monomial(Monomial(vec![(atom.clone(), e / 2)]), Rational::ONE);
        if e / 2 > 0 {
            root = (root * Value::from_poly(outside)).checked()?;
        }
        if e % 2 == 1 {
            let single = Poly::atom(atom.clone());
            root = (root * Value::from_poly(Poly::atom(Atom::Sqrt(Arc::new(single))))).checked()?;
        }
    }
    if rest.is_one() {
        return Ok(root);
    }
    if let Some(cosine) = as_cosine(&rest) {
        return Ok(root * Value::from_poly(Poly::atom(cosine)));
    }
    if let Some(exact) = perfect_root(&rest) {
        let exact = if is_positive(&exact)? {
            exact
        } else if is_positive(&exact.neg())? {
            exact.neg()
        } else {
            return Err(ExactError::Undecided);
        };
        return (root * Value::from_poly(exact)).checked();
    }
    if rest.depth() >= DEEPEST {
        return Err(ExactError::TooLarge);
    }
    // A root of one term with a root in it, such as √(3√2), needs no care; others
    // stand as they are.
    rest = rest.checked()?;
    (root * Value::from_poly(Poly::atom(Atom::Sqrt(Arc::new(rest))))).checked()
}

/// 1 − sin² is the square of the cosine.
fn as_cosine(p: &Poly) -> Option<Atom> {
    p.atoms().find_map(|a| match a {
        Atom::Sin(angle) => {
            let cosine = Atom::Cos(angle.clone());
            (cosine.square().as_ref() == Some(p)).then_some(cosine)
        }
        _ => None,
    })
}

/// The polynomial whose square this is, without roots in it, term by term from the greatest.
fn perfect_root(p: &Poly) -> Option<Poly> {
    if p.atoms().any(Atom::is_quadratic) {
        return None;
    }
    let (m, c) = p.leading()?;
    let (first, size) = (m.root()?, c.sqrt_exact()?);
    let twice = (&size * &Rational::from_int(2)).recip()?;
    let mut root = Poly::monomial(first.clone(), size);
    let mut rest = p.sub(&root.mul(&root).ok()?);
    while let Some((m, c)) = rest.leading() {
        if root.0.len() > p.0.len() {
            return None;
        }
        let next = Poly::monomial(m.divide(&first)?, c * &twice);
        let doubled = root.scale(&Rational::from_int(2)).add(&next);
        rest = rest.sub(&next.mul(&doubled).ok()?);
        root = root.add(&next);
    }
    Some(root)
}
