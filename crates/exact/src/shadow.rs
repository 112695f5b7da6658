//! A quick look at a common divisor through remainders modulo a prime.
//!
//! With every variable but one replaced by a number, modulo a prime, a
//! polynomial casts a shadow in one variable. If the leading coefficient
//! survives, the shadow of a divisor divides the shadow, so the common divisor of
//! two shadows is at least as high in that variable as the true one (Brown, 1971).
use crate::atoms::Atom;
use crate::poly::Poly;
use crate::rational::{Rational, Repr};
use std::collections::BTreeSet;

/// The Mersenne prime 2⁶¹ − 1.
const PRIME: u64 = (1 << 61) - 1;

fn times(a: u64, b: u64) -> u64 {
    (u128::from(a) * u128::from(b) % u128::from(PRIME)) as u64
}

fn power(mut base: u64, mut exponent: u64) -> u64 {
    let mut result = 1;
    while exponent > 0 {
        if exponent & 1 == 1 {
            result = times(result, base);
        }
        base = times(base, base);
        exponent >>= 1;
    }
    result
}

/// A fixed number for each variable: any will do, the same every time.
fn point(index: usize) -> u64 {
    let seed = (index as u64 + 1).wrapping_mul(0x9e37_79b9_7f4a_7c15);
    (seed ^ (seed >> 29)) % PRIME
}

/// A whole coefficient modulo the prime.
fn residue(c: &Rational) -> u64 {
    let size = match &c.0 {
        Repr::Small { num, .. } => num.unsigned_abs() % PRIME,
        Repr::Big(_) => {
            use dashu_int::ops::UnsignedAbs;
            c.big_parts().0.unsigned_abs() % PRIME
        }
    };
    if c.signum() < 0 && size > 0 { PRIME - size } else { size }
}

/// The shadow in one variable, lowest power first.
fn shadow(p: &Poly, x: &Atom, variables: &BTreeSet<Atom>) -> Vec<u64> {
    let mut out: Vec<u64> = Vec::new();
    for (m, c) in &p.0 {
        let (mut value, mut place) = (residue(c), 0);
        for (atom, e) in &m.0 {
            if atom == x {
                place = *e as usize;
            } else if let Some(index) = variables.iter().position(|v| v == atom) {
                value = times(value, power(point(index), u64::from(*e)));
            }
        }
        if out.len() <= place {
            out.resize(place + 1, 0);
        }
        if let Some(slot) = out.get_mut(place) {
            *slot = (*slot + value) % PRIME;
        }
    }
    out
}

fn trim(p: &mut Vec<u64>) {
    while p.last() == Some(&0) {
        p.pop();
    }
}

/// The degree of the common divisor of two shadows.
fn common_degree(mut a: Vec<u64>, mut b: Vec<u64>) -> usize {
    trim(&mut a);
    trim(&mut b);
    while let Some(lead) = b.last() {
        let inverse = power(*lead, PRIME - 2);
        while a.len() >= b.len() {
            let Some(top) = a.last() else { break };
            let factor = times(*top, inverse);
            let shift = a.len() - b.len();
            for (x, y) in a.iter_mut().skip(shift).zip(&b) {
                *x = (*x + PRIME - times(factor, *y)) % PRIME;
            }
            trim(&mut a);
        }
        core::mem::swap(&mut a, &mut b);
    }
    a.len().saturating_sub(1)
}

/// The highest power of `x` that a common divisor may have. Both polynomials
/// have whole coefficients.
pub(crate) fn highest_common_power(a: &Poly, b: &Poly, x: &Atom, variables: &BTreeSet<Atom>) -> usize {
    let degree = |p: &Poly| p.0.iter().map(|(m, _)| m.power_of(x) as usize).max().unwrap_or(0);
    let (in_a, in_b) = (degree(a), degree(b));
    let (shadow_a, shadow_b) = (shadow(a, x, variables), shadow(b, x, variables));
    let keeps = |s: &[u64], degree: usize| s.get(degree).is_some_and(|lead| *lead != 0);
    if keeps(&shadow_a, in_a) || keeps(&shadow_b, in_b) {
        common_degree(shadow_a, shadow_b)
    } else {
        in_a.min(in_b)
    }
}
