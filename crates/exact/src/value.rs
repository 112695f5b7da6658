//! Exact values: fractions of polynomials in letters, square roots, sines and cosines.
use crate::atoms::Atom;
use crate::divisor::{common_divisor, quotient};
use crate::error::ExactError;
use crate::poly::Poly;
use crate::rational::Rational;
use crate::trig;
use core::cmp::Ordering;
use core::fmt;
use std::collections::BTreeSet;
use std::sync::Arc;

/// An exact value: a number such as `3/4` or `7*sqrt(10)/5`, or an expression
/// in letters such as `2*m*g/5`, always in simplest form.
///
/// **Simplest form.** No root stands below the line, numerator and denominator
/// have no common factor, and the denominator has coprime whole coefficients
/// with a positive leading one. So `==` compares values as long as they are made
/// of fractions, letters, and roots of whole numbers and letters. Sines of several
/// angles and nested roots may be tied by identities that no form shows; for
/// those, [`Value::cmp_exact`] and [`Value::is_zero`] decide, and `==` only says
/// that two values are written alike.
///
/// **Letters are positive.** Roots are taken with every letter standing for
/// something above zero, as masses, lengths and g do: `sqrt(m^2) = m`.
///
/// **Size.** Past about 4,000 terms the checked operations give
/// [`ExactError::TooLarge`]; the operators `+ − ×` then give a marked value that
/// every further operation hands on, and whose sign, enclosure and quotients are
/// that same error. See [`Value::is_too_large`].
///
/// ```
/// use exact::Value;
/// let (m, g) = (Value::symbol("m"), Value::symbol("g"));
/// let tension = (Value::from_int(2) * &m * &g).checked_div(&Value::from_int(5))?;
/// assert_eq!(tension.to_string(), "2*m*g/5");
/// assert_eq!(tension.checked_div(&m)?.substitute("g", &Value::from_int(10))?, Value::from_int(4));
/// # Ok::<(), exact::ExactError>(())
/// ```
#[derive(Clone, PartialEq, Eq, Hash)]
pub struct Value(pub(crate) Form);

#[derive(Clone, PartialEq, Eq, Hash)]
pub(crate) enum Form {
    /// A plain fraction.
    Number(Rational),
    /// Anything else, in simplest form.
    Fraction(Arc<Fraction>),
    /// The mark of an expression that grew too large.
    TooLarge,
}

/// `num / den`: `den` has no roots, coprime whole coefficients, the leading one positive.
#[derive(Clone, PartialEq, Eq, Hash)]
pub(crate) struct Fraction {
    pub(crate) num: Poly,
    pub(crate) den: Poly,
}

/// Which side of zero.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Sign {
    /// Below zero.
    Negative,
    /// Exactly zero.
    Zero,
    /// Above zero.
    Positive,
}

impl Sign {
    /// The sign of a fraction.
    pub fn of(number: &Rational) -> Sign {
        match number.signum() {
            ..=-1 => Sign::Negative,
            0 => Sign::Zero,
            1.. => Sign::Positive,
        }
    }
}

impl Value {
    /// Nought.
    pub const fn zero() -> Value {
        Value(Form::Number(Rational::ZERO))
    }

    /// One.
    pub const fn one() -> Value {
        Value(Form::Number(Rational::ONE))
    }

    /// A whole number.
    pub fn from_int(n: i64) -> Value {
        Value(Form::Number(Rational::from_int(n)))
    }

    /// A fraction.
    pub const fn rational(number: Rational) -> Value {
        Value(Form::Number(number))
    }

    /// A letter, such as `m`, `T_1` or `μ`: the same name is the same letter.
    pub fn symbol(name: &str) -> Value {
        Value::from_poly(Poly::atom(Atom::Symbol(Arc::from(name))))
    }

    /// The sine of an angle in degrees: a surd where it is one (0°, 15°, 30°, 45°, 60°, ...),
    /// otherwise kept as it is, brought to an angle below 45° so that
    /// sin 70° and cos 20° are the same value.
    ///
    /// ```
    /// use exact::{Rational, Value};
    /// assert_eq!(Value::sin_deg(&Rational::from_int(60)).to_string(), "sqrt(3)/2");
    /// assert_eq!(Value::sin_deg(&Rational::from_int(70)), Value::cos_deg(&Rational::from_int(20)));
    /// ```
    pub fn sin_deg(angle: &Rational) -> Value {
        trig::exact_sin(angle)
    }

    /// The cosine of an angle in degrees; see [`Value::sin_deg`].
    pub fn cos_deg(angle: &Rational) -> Value {
        trig::exact_sin(&(angle + &Rational::from_int(90)))
    }

    /// The fraction, if it is one.
    pub fn as_rational(&self) -> Option<&Rational> {
        match &self.0 {
            Form::Number(n) => Some(n),
            _ => None,
        }
    }

    /// Whether this is the mark of an expression that grew too large.
    pub fn is_too_large(&self) -> bool {
        matches!(self.0, Form::TooLarge)
    }

    /// The same, or the error if it is too large.
    pub fn checked(self) -> Result<Value, ExactError> {
        if self.is_too_large() { Err(ExactError::TooLarge) } else { Ok(self) }
    }

    /// Whether it is zero: by its form, or proved from an enclosure and a bound on its conjugates.
    ///
    /// `false` also stands for "not proved", which happens only to nested roots
    /// and sines with very large parts; [`Value::sign`] tells these apart.
    pub fn is_zero(&self) -> bool {
        match &self.0 {
            Form::Number(n) => n.is_zero(),
            Form::TooLarge => false,
            Form::Fraction(f) => crate::zero::vanishes(&f.num) == Ok(true),
        }
    }

    /// Whether it is zero, an error when that cannot be settled.
    pub(crate) fn proved_zero(&self) -> Result<bool, ExactError> {
        match &self.0 {
            Form::Number(n) => Ok(n.is_zero()),
            Form::TooLarge => Err(ExactError::TooLarge),
            Form::Fraction(f) => crate::zero::vanishes(&f.num),
        }
    }

    /// Whether it holds no letters (and is not too large).
    pub fn is_number(&self) -> bool {
        match &self.0 {
            Form::Number(_) => true,
            Form::TooLarge => false,
            Form::Fraction(f) => !f.num.has_letters() && !f.den.has_letters(),
        }
    }

    /// The letters in it, in order of the alphabet.
    pub fn symbols(&self) -> BTreeSet<String> {
        let mut names = BTreeSet::new();
        if let Form::Fraction(f) = &self.0 {
            f.num.collect_symbols(&mut names);
            f.den.collect_symbols(&mut names);
        }
        names
    }

    /// How many terms it is written with, above and below the line: a measure of size.
    pub fn terms(&self) -> usize {
        match &self.0 {
            Form::Fraction(f) if f.den.is_one() => f.num.0.len(),
            Form::Fraction(f) => f.num.0.len() + f.den.0.len(),
            _ => 1,
        }
    }

    /// Which side of zero it lies, proved; [`ExactError::HasLetters`] if letters remain.
    pub fn sign(&self) -> Result<Sign, ExactError> {
        match &self.0 {
            Form::Number(n) => Ok(Sign::of(n)),
            Form::TooLarge => Err(ExactError::TooLarge),
            Form::Fraction(f) => crate::zero::sign_of(f),
        }
    }

    /// Which of two numbers is greater, proved.
    pub fn cmp_exact(&self, other: &Value) -> Result<Ordering, ExactError> {
        if let (Form::Number(a), Form::Number(b)) = (&self.0, &other.0) {
            return Ok(a.cmp(b));
        }
        Ok(match (self - other).sign()? {
            Sign::Negative => Ordering::Less,
            Sign::Zero => Ordering::Equal,
            Sign::Positive => Ordering::Greater,
        })
    }

    /// The coefficients c₀, c₁, ... of the powers of a letter, if the value is a
    /// polynomial in it: the letter may stand neither below the line nor under a root.
    ///
    /// ```
    /// use exact::Value;
    /// let (a, b) = (Value::symbol("a"), Value::symbol("b"));
    /// let line = Value::from_int(3) * &a + &b;
    /// assert_eq!(line.coefficients_in("a"), Some(vec![b, Value::from_int(3)]));
    /// ```
    pub fn coefficients_in(&self, symbol: &str) -> Option<Vec<Value>> {
        let f = match &self.0 {
            Form::Number(_) => return Some(vec![self.clone()]),
            Form::TooLarge => return None,
            Form::Fraction(f) => f,
        };
        let hidden = |a: &Atom| matches!(a, Atom::Sqrt(p) if p.mentions(symbol));
        if f.den.mentions(symbol) || f.num.atoms().any(hidden) {
            return None;
        }
        let powers = f.num.in_powers_of(&Atom::Symbol(Arc::from(symbol)));
        powers.into_iter().map(|p| Value::simplest(p, f.den.clone()).ok()).collect()
    }

    /// What stands above and below the line of the fraction, in lowest terms; `None` if it grew too large.
    ///
    /// ```
    /// use exact::Value;
    /// let k = Value::symbol("k");
    /// let share = (&k - Value::one()).checked_div(&(&k + Value::one()))?;
    /// assert_eq!(share.over_and_under(), Some((&k - Value::one(), &k + Value::one())));
    /// # Ok::<(), exact::ExactError>(())
    /// ```
    pub fn over_and_under(&self) -> Option<(Value, Value)> {
        let (over, under) = self.parts().ok()?;
        Some((Value::from_poly(over), Value::from_poly(under)))
    }

    /// Puts a value in the place of a letter everywhere, under roots too.
    pub fn substitute(&self, symbol: &str, by: &Value) -> Result<Value, ExactError> {
        match &self.0 {
            Form::Number(_) => Ok(self.clone()),
            Form::TooLarge => Err(ExactError::TooLarge),
            Form::Fraction(f) => {
                if by.is_too_large() {
                    return Err(ExactError::TooLarge);
                }
                if !f.num.mentions(symbol) && !f.den.mentions(symbol) {
                    return Ok(self.clone());
                }
                let den = substitute_in(&f.den, symbol, by)?;
                substitute_in(&f.num, symbol, by)?.checked_div(&den)
            }
        }
    }

    /// A polynomial over one, without roots to reduce.
    pub(crate) fn from_poly(num: Poly) -> Value {
        match num.as_constant() {
            Some(c) => Value::rational(c.clone()),
            None => Value(Form::Fraction(Arc::new(Fraction { num, den: Poly::constant(Rational::ONE) }))),
        }
    }

    /// Numerator and denominator.
    pub(crate) fn parts(&self) -> Result<(Poly, Poly), ExactError> {
        match &self.0 {
            Form::Number(n) => Ok((Poly::constant(n.clone()), Poly::constant(Rational::ONE))),
            Form::Fraction(f) => Ok((f.num.clone(), f.den.clone())),
            Form::TooLarge => Err(ExactError::TooLarge),
        }
    }

    /// The simplest form of `num / den`, both with the relations of roots used.
    pub(crate) fn simplest(num: Poly, den: Poly) -> Result<Value, ExactError> {
        if den.is_zero() {
            return Err(ExactError::DivisionByZero);
        }
        if num.is_zero() {
            return Ok(Value::zero());
        }
        let (mut num, mut den) = clear_roots(num, den)?;
        if den.as_constant().is_none() {
            (num, den) = cancelled(num, den)?;
        }
        let (content, den) = den.primitive();
        let scale = content.recip().ok_or(ExactError::DivisionByZero)?;
        let num = num.scale(&scale).checked()?;
        match num.as_constant() {
            Some(c) if den.is_one() => Ok(Value::rational(c.clone())),
            _ => Ok(Value(Form::Fraction(Arc::new(Fraction { num, den })))),
        }
    }
}

/// Without the common factor; `den` has no roots, so the factor divides what
/// stands beside each product of roots in `num`.
fn cancelled(num: Poly, den: Poly) -> Result<(Poly, Poly), ExactError> {
    let divide = |p: &Poly, by: &Poly| quotient(p, by).ok_or(ExactError::Undecided);
    if !num.atoms().any(Atom::is_quadratic) {
        let common = common_divisor(&den, &num)?;
        if common.as_constant().is_some() {
            return Ok((num, den));
        }
        return Ok((divide(&num, &common)?, divide(&den, &common)?));
    }
    let groups = num.grouped(Atom::is_quadratic);
    let mut common = den.clone();
    for part in groups.values() {
        common = common_divisor(&common, part)?;
        if common.as_constant().is_some() {
            return Ok((num, den));
        }
    }
    let mut terms = Vec::with_capacity(num.0.len());
    for (roots, part) in groups {
        terms.extend(divide(&part, &common)?.times_term(&roots, &Rational::ONE)?.0);
    }
    Ok((Poly::gather(terms), divide(&den, &common)?))
}

/// Multiplies above and below by conjugates until no root stands below the line,
/// the deepest roots first.
fn clear_roots(mut num: Poly, mut den: Poly) -> Result<(Poly, Poly), ExactError> {
    for _ in 0..64 {
        let Some(root) = den.atoms().filter(|a| a.is_quadratic()).max_by_key(|a| a.depth()).cloned() else {
            return Ok((num, den));
        };
        let parts = den.in_powers_of(&root);
        let (free, with) = (parts.first(), parts.get(1));
        let conjugate = match (free, with) {
            (Some(free), Some(with)) if !free.is_zero() => {
                Poly::from_powers_of(&root, &[free.clone(), with.neg()])?
            }
            _ => Poly::atom(root),
        };
        num = num.mul_reduced(&conjugate)?;
        den = den.mul_reduced(&conjugate)?;
        if den.is_zero() {
            // The roots are tied by an identity that the form does not show.
            return Err(ExactError::Undecided);
        }
    }
    Err(ExactError::TooLarge)
}

fn substitute_in(poly: &Poly, symbol: &str, by: &Value) -> Result<Value, ExactError> {
    let mut sum = Value::zero();
    for (m, c) in &poly.0 {
        let mut term = Value::rational(c.clone());
        for (atom, e) in &m.0 {
            let factor = match atom {
                Atom::Symbol(name) if &**name == symbol => by.clone(),
                Atom::Sqrt(radicand) if radicand.mentions(symbol) => {
                    substitute_in(radicand, symbol, by)?.sqrt()?
                }
                other => Value::from_poly(Poly::atom(other.clone())),
            };
            let power = factor.pow(i32::try_from(*e).map_err(|_| ExactError::TooLarge)?)?;
            term = (term * power).checked()?;
        }
        sum = (sum + term).checked()?;
    }
    Ok(sum)
}

impl From<Rational> for Value {
    fn from(number: Rational) -> Value {
        Value::rational(number)
    }
}

impl From<&Rational> for Value {
    fn from(number: &Rational) -> Value {
        Value::rational(number.clone())
    }
}

impl From<i64> for Value {
    fn from(n: i64) -> Value {
        Value::from_int(n)
    }
}

impl fmt::Debug for Value {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}
