//! Greatest common divisors and exact division of polynomials without roots.
//!
//! Primitive remainders, one variable at a time (Knuth, The Art of Computer
//! Programming 2, section 4.6.1), with a count of work so that nothing blows up.
use crate::atoms::Atom;
use crate::error::ExactError;
use crate::poly::Poly;
use crate::rational::Rational;
use crate::shadow::highest_common_power;
use std::collections::BTreeSet;

/// Term operations allowed in one common divisor.
const WORK: usize = 2_000_000;
/// Variables within variables beyond this are refused.
const DEEPEST: usize = 24;

/// A common divisor with coprime whole coefficients and a positive leading one.
/// Neither may contain roots or cosines.
pub(crate) fn common_divisor(a: &Poly, b: &Poly) -> Result<Poly, ExactError> {
    let mut work = WORK;
    divisor(a, b, &mut work, 0)
}

fn spend(work: &mut usize, amount: usize) -> Result<(), ExactError> {
    *work = work.checked_sub(amount.max(1)).ok_or(ExactError::TooLarge)?;
    Ok(())
}

fn one() -> Poly {
    Poly::constant(Rational::ONE)
}

fn divisor(a: &Poly, b: &Poly, work: &mut usize, depth: usize) -> Result<Poly, ExactError> {
    spend(work, a.0.len() + b.0.len())?;
    if depth > DEEPEST {
        return Err(ExactError::TooLarge);
    }
    if a.is_zero() {
        return Ok(b.primitive().1);
    }
    if b.is_zero() {
        return Ok(a.primitive().1);
    }
    if a.as_constant().is_some() || b.as_constant().is_some() {
        return Ok(one());
    }
    let (ma, mb) = (a.common_monomial(), b.common_monomial());
    let shared = Poly::monomial(ma.common(&mb), Rational::ONE);
    if a.0.len() == 1 || b.0.len() == 1 {
        return Ok(shared);
    }
    let (Some(a), Some(b)) = (a.over_monomial(&ma), b.over_monomial(&mb)) else {
        return Err(ExactError::Undecided);
    };
    let (a, b) = (a.primitive().1, b.primitive().1);
    if a == b {
        return shared.mul(&a);
    }
    let (in_a, in_b) = (a.atom_set(), b.atom_set());
    let rest = match in_a.symmetric_difference(&in_b).next() {
        Some(only) if in_a.contains(only) => against_coefficients(&a, only, &b, work, depth)?,
        Some(only) => against_coefficients(&b, only, &a, work, depth)?,
        None => same_variables(&a, &b, &in_a, work, depth)?,
    };
    shared.mul(&rest)
}

/// `only` stands in `a` but not in `b`, so a common divisor divides every
/// coefficient of `a`.
fn against_coefficients(
    a: &Poly,
    only: &Atom,
    b: &Poly,
    work: &mut usize,
    depth: usize,
) -> Result<Poly, ExactError> {
    let mut common = b.clone();
    for coefficient in a.in_powers_of(only) {
        if coefficient.is_zero() {
            continue;
        }
        common = divisor(&common, &coefficient, work, depth + 1)?;
        if common.as_constant().is_some() {
            return Ok(one());
        }
    }
    Ok(common)
}

fn content_in(parts: &[Poly], work: &mut usize, depth: usize) -> Result<Poly, ExactError> {
    let mut content = Poly::zero();
    for part in parts {
        if part.is_zero() {
            continue;
        }
        content = divisor(&content, part, work, depth + 1)?;
        if content.as_constant().is_some() {
            return Ok(one());
        }
    }
    Ok(content)
}

fn over_content(parts: Vec<Poly>, content: &Poly) -> Result<Vec<Poly>, ExactError> {
    if content.is_one() {
        return Ok(parts);
    }
    parts.iter().map(|p| quotient(p, content).ok_or(ExactError::Undecided)).collect()
}

fn same_variables(
    a: &Poly,
    b: &Poly,
    variables: &BTreeSet<Atom>,
    work: &mut usize,
    depth: usize,
) -> Result<Poly, ExactError> {
    let mut highest = Vec::with_capacity(variables.len());
    for x in variables {
        spend(work, a.0.len() + b.0.len())?;
        highest.push((highest_common_power(a, b, x, variables), x));
    }
    if highest.iter().all(|(power, _)| *power == 0) {
        return Ok(one());
    }
    // The whole of one may divide the other.
    for (whole, part) in [(a, b), (b, a)] {
        let degree = |x: &Atom| part.0.iter().map(|(m, _)| m.power_of(x) as usize).max().unwrap_or(0);
        if highest.iter().all(|(power, x)| *power == degree(x)) {
            spend(work, whole.0.len().saturating_mul(part.0.len()))?;
            if quotient(whole, part).is_some() {
                return Ok(part.clone());
            }
        }
    }
    let Some((power, x)) = highest.into_iter().min() else {
        return Ok(one());
    };
    if power == 0 {
        // Free of x, so it divides every coefficient of both.
        let common = content_in(&a.in_powers_of(x), work, depth)?;
        return against_coefficients(b, x, &common, work, depth);
    }
    let (a, b) = (a.in_powers_of(x), b.in_powers_of(x));
    let (content_a, content_b) = (content_in(&a, work, depth)?, content_in(&b, work, depth)?);
    let shared = divisor(&content_a, &content_b, work, depth + 1)?;
    let (mut high, mut low) = (over_content(a, &content_a)?, over_content(b, &content_b)?);
    if high.len() < low.len() {
        core::mem::swap(&mut high, &mut low);
    }
    loop {
        if low.len() <= 1 {
            // A remainder free of x: nothing in x is shared, unless it is 0.
            return match low.first() {
                Some(p) if !p.is_zero() => Ok(shared),
                _ => Poly::from_powers_of(x, &high)?.primitive().1.mul(&shared).map(|p| p.primitive().1),
            };
        }
        let rest = pseudo_remainder(high, &low, work)?;
        let content = content_in(&rest, work, depth)?;
        high = low;
        low = if content.is_zero() {
            Vec::new()
        } else {
            let whole = Poly::from_powers_of(x, &over_content(rest, &content)?)?.primitive().1;
            whole.in_powers_of(x)
        };
    }
}

/// The remainder of a multiple of `high` on division by `low`, both by powers.
fn pseudo_remainder(mut high: Vec<Poly>, low: &[Poly], work: &mut usize) -> Result<Vec<Poly>, ExactError> {
    let Some(lead) = low.last() else { return Ok(high) };
    while high.len() >= low.len() {
        let Some(top) = high.pop() else { break };
        if !top.is_zero() {
            let shift = high.len() + 1 - low.len();
            for (i, p) in high.iter_mut().enumerate() {
                spend(work, p.0.len() * lead.0.len())?;
                let mut next = p.mul(lead)?;
                if let Some(q) = i.checked_sub(shift).and_then(|j| low.get(j)) {
                    spend(work, q.0.len() * top.0.len())?;
                    next = next.sub(&q.mul(&top)?);
                }
                *p = next;
            }
        }
        while high.last().is_some_and(Poly::is_zero) {
            high.pop();
        }
    }
    Ok(high)
}

/// `a / b` if it leaves no remainder.
pub(crate) fn quotient(a: &Poly, b: &Poly) -> Option<Poly> {
    let (lead, coefficient) = b.leading()?;
    let inverse = coefficient.recip()?;
    if b.0.len() == 1 {
        return a.over_monomial(lead).map(|p| p.scale(&inverse));
    }
    let mut rest = a.clone();
    let mut terms = Vec::new();
    while let Some((m, c)) = rest.leading() {
        let m = m.divide(lead)?;
        let c = c * &inverse;
        rest = rest.sub(&b.times_term(&m, &c).ok()?);
        terms.push((m, c));
        if terms.len() > crate::poly::MOST_TERMS {
            return None;
        }
    }
    Some(Poly(terms))
}
