//! Is a number zero, and which side of zero does it lie? Proved either way.
//!
//! A number other than zero shows itself once its enclosure is narrow enough.
//! Zero is proved through conjugates: scaled to an algebraic integer of degree at
//! most d whose conjugates are all at most 2^b in size, a number other than zero
//! has a norm of at least 1, so it is itself at least 2^(−b(d−1)); an enclosure
//! within that is zero. (The root separation argument of Mignotte, Mathematics
//! for Computer Algebra, chapter 4, in its simplest form.)
use crate::atoms::Atom;
use crate::error::ExactError;
use crate::evaluate::enclose_poly;
use crate::integers::gcd;
use crate::poly::Poly;
use crate::rational::{Rational, Repr};
use crate::value::{Fraction, Sign};
use std::collections::BTreeSet;

/// The narrowest enclosure that is tried to show a number apart from zero.
const NARROW: u32 = 1_024;
/// The narrowest that is tried to prove a zero.
const NARROWEST: u64 = 16_384;

/// Whether a polynomial with its relations used is zero.
pub(crate) fn vanishes(poly: &Poly) -> Result<bool, ExactError> {
    if poly.is_zero() {
        return Ok(true);
    }
    if poly.atoms().all(Atom::is_plain) {
        return Ok(false);
    }
    if !poly.has_letters() {
        return Ok(number_sign(poly)? == Sign::Zero);
    }
    // Letters are free: every coefficient would have to be zero.
    let lettered = |a: &Atom| a.has_letters();
    for part in poly.grouped(lettered).values() {
        if part.atoms().all(Atom::is_plain) || number_sign(part)? != Sign::Zero {
            return Ok(false);
        }
    }
    Ok(true)
}

/// The sign of a fraction.
pub(crate) fn sign_of(f: &Fraction) -> Result<Sign, ExactError> {
    if f.num.has_letters() || f.den.has_letters() {
        return Err(ExactError::HasLetters);
    }
    let (num, den) = (number_sign(&f.num)?, number_sign(&f.den)?);
    Ok(match den {
        Sign::Zero => return Err(ExactError::DivisionByZero),
        _ if num == Sign::Zero => Sign::Zero,
        _ if num == den => Sign::Positive,
        _ => Sign::Negative,
    })
}

/// The sign of a polynomial without letters.
fn number_sign(poly: &Poly) -> Result<Sign, ExactError> {
    if let Some(c) = poly.as_constant() {
        return Ok(Sign::of(c));
    }
    let plain = poly.atoms().all(Atom::is_plain);
    let smallest = if plain { None } else { least_size_bits(poly) };
    let mut bits = 64;
    loop {
        let range = enclose_poly(poly, bits)?;
        if let Some(sign) = range.sign() {
            return Ok(sign);
        }
        if smallest.is_some_and(|least| range.magnitude_below(least)) {
            return Ok(Sign::Zero);
        }
        let enough = smallest.filter(|least| *least <= NARROWEST);
        let limit = enough.and_then(|least| u32::try_from(least + 64).ok()).unwrap_or(NARROW);
        if bits >= limit {
            return Err(ExactError::Undecided);
        }
        bits = bits.saturating_mul(4).min(limit);
    }
}

/// k such that the number is zero if it is smaller than 2^−k.
fn least_size_bits(poly: &Poly) -> Option<u64> {
    let mut facts = Facts { roots: BTreeSet::new(), circle: 4 };
    facts.note(poly)?;
    let lcm = poly.0.iter().try_fold(0u64, |sum, (_, c)| sum.checked_add(c.denominator().bits()))?;
    let scale = scale_bits(poly).checked_add(lcm)?;
    let conjugate = size_bits(poly)?.checked_add(scale)?;
    let degree = facts.degree()?;
    conjugate.checked_mul(degree - 1)?.checked_add(scale)
}

struct Facts {
    roots: BTreeSet<Atom>,
    /// Every sine lies in the field of the roots of unity of this order.
    circle: u64,
}

impl Facts {
    fn note(&mut self, poly: &Poly) -> Option<()> {
        for atom in poly.atom_set() {
            match &atom {
                Atom::Symbol(_) => return None,
                Atom::Sin(angle) | Atom::Cos(angle) => {
                    let Repr::Small { num, den } = angle.0 else { return None };
                    // num/den degrees is this part of a turn, in lowest terms.
                    let turn = den.unsigned_abs().checked_mul(360)?;
                    let order = turn / gcd(num.unsigned_abs() % turn, turn).max(1);
                    self.circle = (self.circle / gcd(self.circle, order)).checked_mul(order)?;
                }
                Atom::Sqrt(radicand) => {
                    self.note(radicand)?;
                    self.roots.insert(atom.clone());
                }
            }
        }
        Some(())
    }

    /// A bound on the degree of the field, at least 1.
    fn degree(&self) -> Option<u64> {
        let sines = self.circle > 4;
        // The real part of the field of roots of unity has half its degree.
        let mut degree = if sines { (totient(self.circle) / 2).max(1) } else { 1 };
        for root in &self.roots {
            let Atom::Sqrt(radicand) = root else { continue };
            let within = sines
                && radicand.as_constant().and_then(Rational::as_i64).is_some_and(|p| {
                    // The root of a prime p lies among the 4p-th roots of unity (8th for 2).
                    p > 0 && self.circle.is_multiple_of(p.unsigned_abs().saturating_mul(4))
                });
            if !within {
                degree = degree.checked_mul(2)?;
            }
        }
        Some(degree)
    }
}

fn totient(n: u64) -> u64 {
    let (mut rest, mut result, mut p) = (n, n, 2u64);
    while p <= 100_000 && p * p <= rest {
        if rest.is_multiple_of(p) {
            while rest.is_multiple_of(p) {
                rest /= p;
            }
            result -= result / p;
        }
        p += 1;
    }
    // If a factor was not found this only makes the bound larger.
    if rest > 1 && p * p > rest { result - result / rest } else { result }
}

/// s such that 2^s times the value (of whole coefficients) is an algebraic integer.
fn scale_bits(poly: &Poly) -> u64 {
    let of_atom = |atom: &Atom| match atom {
        Atom::Symbol(_) => 0,
        Atom::Sin(_) | Atom::Cos(_) => 1,
        Atom::Sqrt(radicand) => scale_bits(radicand),
    };
    let terms = poly.0.iter().map(|(m, _)| m.0.iter().map(|(a, e)| of_atom(a) * u64::from(*e)).sum());
    terms.max().unwrap_or(0)
}

/// b such that every conjugate is at most 2^b in size.
fn size_bits(poly: &Poly) -> Option<u64> {
    let mut largest = 0u64;
    for (m, c) in &poly.0 {
        let mut bits = c.numerator().bits();
        for (atom, e) in &m.0 {
            if let Atom::Sqrt(radicand) = atom {
                bits = bits.checked_add(size_bits(radicand)?.div_ceil(2).checked_mul(u64::from(*e))?)?;
            }
        }
        largest = largest.max(bits);
    }
    largest.checked_add(u64::from(usize::BITS - poly.0.len().leading_zeros()))
}
