//! The things that a value is built from besides fractions: letters, square
//! roots, and sines and cosines of given angles.
use crate::poly::Poly;
use crate::rational::Rational;
use std::collections::BTreeSet;
use std::sync::Arc;

/// One building block. The order is the order of variables in polynomials.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) enum Atom {
    /// A letter, taken to stand for something positive.
    Symbol(Arc<str>),
    /// The sine of an angle in degrees, strictly between 0 and 45.
    Sin(Rational),
    /// The cosine of such an angle; its square is 1 − sin².
    Cos(Rational),
    /// The positive root of a polynomial; its square is the polynomial.
    Sqrt(Arc<Poly>),
}

/// Roots inside roots beyond this are refused.
pub(crate) const DEEPEST: u32 = 4;

impl Atom {
    /// Whether its square is known by a relation.
    pub(crate) fn is_quadratic(&self) -> bool {
        matches!(self, Atom::Cos(_) | Atom::Sqrt(_))
    }

    /// What its square is, if there is a relation.
    pub(crate) fn square(&self) -> Option<Poly> {
        match self {
            Atom::Symbol(_) | Atom::Sin(_) => None,
            Atom::Cos(angle) => {
                let sine = Poly::atom(Atom::Sin(angle.clone()));
                sine.mul(&sine).ok().map(|squared| Poly::constant(Rational::ONE).sub(&squared))
            }
            Atom::Sqrt(radicand) => Some((**radicand).clone()),
        }
    }

    /// How deep the roots nest: 0 for letters and sines.
    pub(crate) fn depth(&self) -> u32 {
        match self {
            Atom::Symbol(_) | Atom::Sin(_) => 0,
            Atom::Cos(_) => 1,
            Atom::Sqrt(radicand) => 1 + radicand.depth(),
        }
    }

    /// Adds the letters that it contains.
    pub(crate) fn collect_symbols(&self, into: &mut BTreeSet<String>) {
        match self {
            Atom::Symbol(name) => {
                if !into.contains(&**name) {
                    into.insert(name.to_string());
                }
            }
            Atom::Sin(_) | Atom::Cos(_) => {}
            Atom::Sqrt(radicand) => radicand.collect_symbols(into),
        }
    }

    /// Whether it contains any letter.
    pub(crate) fn has_letters(&self) -> bool {
        match self {
            Atom::Symbol(_) => true,
            Atom::Sin(_) | Atom::Cos(_) => false,
            Atom::Sqrt(radicand) => radicand.has_letters(),
        }
    }

    /// Whether it contains this letter.
    pub(crate) fn mentions(&self, symbol: &str) -> bool {
        match self {
            Atom::Symbol(name) => &**name == symbol,
            Atom::Sin(_) | Atom::Cos(_) => false,
            Atom::Sqrt(radicand) => radicand.mentions(symbol),
        }
    }

    /// Whether it obeys no relation with other atoms that the form does not show:
    /// letters, and roots of single primes or letters, are independent; sines of
    /// two angles, or nested roots, may be tied by hidden identities.
    pub(crate) fn is_plain(&self) -> bool {
        match self {
            Atom::Symbol(_) => true,
            Atom::Sin(_) | Atom::Cos(_) => false,
            Atom::Sqrt(radicand) => radicand.is_prime_or_letter(),
        }
    }
}
