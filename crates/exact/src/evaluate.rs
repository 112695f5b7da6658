//! Enclosures of polynomials without letters.
use crate::atoms::Atom;
use crate::error::ExactError;
use crate::fixed::Fixed;
use crate::poly::Poly;
use crate::rational::Rational;
use crate::trig;
use crate::value::{Form, Value};
use std::collections::BTreeMap;

/// The narrowest enclosure that may be asked for, in bits.
pub(crate) const MOST_BITS: u32 = 20_000;

/// An enclosure of width about 2^−bits.
pub(crate) fn enclose_poly(poly: &Poly, bits: u32) -> Result<Fixed, ExactError> {
    let guard = 32 + room(poly);
    let scale =
        usize::try_from(u64::from(bits.min(2 * MOST_BITS)) + guard).map_err(|_| ExactError::TooLarge)?;
    if scale > 200_000 {
        return Err(ExactError::TooLarge);
    }
    at_scale(poly, scale, &mut BTreeMap::new())
}

/// Bits before the point that the terms may need.
fn room(poly: &Poly) -> u64 {
    let of_atom = |atom: &Atom| match atom {
        Atom::Sqrt(radicand) => room(radicand).div_ceil(2),
        _ => 0,
    };
    let of_term = |(m, c): &(crate::monomial::Monomial, Rational)| {
        c.bits() + m.0.iter().map(|(a, e)| of_atom(a) * u64::from(*e)).sum::<u64>()
    };
    poly.0.iter().map(of_term).max().unwrap_or(0) + u64::from(usize::BITS - poly.0.len().leading_zeros())
}

fn at_scale(poly: &Poly, scale: usize, known: &mut BTreeMap<Atom, Fixed>) -> Result<Fixed, ExactError> {
    let mut sum = Fixed::whole(0, scale);
    for (m, c) in &poly.0 {
        let mut term = Fixed::rational(c, scale);
        for (atom, e) in &m.0 {
            let factor = atom_at(atom, scale, known)?;
            for _ in 0..*e {
                term = term.mul(&factor);
            }
        }
        sum = sum.add(&term);
    }
    Ok(sum)
}

fn atom_at(atom: &Atom, scale: usize, known: &mut BTreeMap<Atom, Fixed>) -> Result<Fixed, ExactError> {
    if let Some(found) = known.get(atom) {
        return Ok(found.clone());
    }
    let range = match atom {
        Atom::Symbol(_) => return Err(ExactError::HasLetters),
        Atom::Sin(angle) => trig::sin_of_small(angle, scale),
        Atom::Cos(angle) => trig::cos_of_small(angle, scale),
        Atom::Sqrt(radicand) => at_scale(radicand, scale, known)?.sqrt().ok_or(ExactError::NegativeRoot)?,
    };
    known.insert(atom.clone(), range.clone());
    Ok(range)
}

/// An enclosure of a number at most 2^−bits wide.
pub(crate) fn enclose_value(value: &Value, bits: u32) -> Result<Fixed, ExactError> {
    if bits > MOST_BITS {
        return Err(ExactError::TooLarge);
    }
    let f = match &value.0 {
        Form::TooLarge => return Err(ExactError::TooLarge),
        Form::Number(n) => return Ok(Fixed::rational(n, bits as usize + 1)),
        Form::Fraction(f) => f,
    };
    let mut working = bits;
    for _ in 0..12 {
        let num = enclose_poly(&f.num, working)?;
        let range = if f.den.is_one() {
            Some(num)
        } else {
            let den = enclose_poly(&f.den, working)?;
            let scale = num.scale.min(den.scale);
            num.coarser(scale).div(&den.coarser(scale))
        };
        if let Some(range) = range.filter(|r| r.within(bits)) {
            return Ok(range);
        }
        working = working.saturating_add(64).saturating_add(working / 2);
        if working > 2 * MOST_BITS {
            break;
        }
    }
    Err(ExactError::Undecided)
}
