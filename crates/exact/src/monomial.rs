//! Products of powers of atoms.
use crate::atoms::Atom;
use crate::error::ExactError;
use core::cmp::Ordering;

/// The highest power of an atom that is worked with.
pub(crate) const HIGHEST: u32 = 256;

/// A product of powers: atoms in increasing order, powers at least 1.
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub(crate) struct Monomial(pub(crate) Vec<(Atom, u32)>);

impl Monomial {
    /// The empty product.
    pub(crate) fn one() -> Monomial {
        Monomial(Vec::new())
    }

    pub(crate) fn is_one(&self) -> bool {
        self.0.is_empty()
    }

    /// The power of an atom.
    pub(crate) fn power_of(&self, atom: &Atom) -> u32 {
        self.0.iter().find(|(a, _)| a == atom).map_or(0, |(_, e)| *e)
    }

    /// Splits off every factor that satisfies `keep`: (kept, others).
    pub(crate) fn partition(&self, keep: impl Fn(&Atom) -> bool) -> (Monomial, Monomial) {
        let (kept, others) = self.0.iter().cloned().partition(|(a, _)| keep(a));
        (Monomial(kept), Monomial(others))
    }

    /// The same with one atom taken out.
    pub(crate) fn without(&self, atom: &Atom) -> Monomial {
        Monomial(self.0.iter().filter(|(a, _)| a != atom).cloned().collect())
    }

    /// Product.
    pub(crate) fn mul(&self, other: &Monomial) -> Result<Monomial, ExactError> {
        let mut out = Vec::with_capacity(self.0.len() + other.0.len());
        let (mut left, mut right) = (self.0.iter().peekable(), other.0.iter().peekable());
        loop {
            match (left.peek(), right.peek()) {
                (None, None) => return Ok(Monomial(out)),
                (Some(_), None) => out.extend(left.by_ref().cloned()),
                (None, Some(_)) => out.extend(right.by_ref().cloned()),
                (Some((a, e)), Some((b, f))) => match a.cmp(b) {
                    Ordering::Less => out.extend(left.next().cloned()),
                    Ordering::Greater => out.extend(right.next().cloned()),
                    Ordering::Equal => {
                        let power = e.saturating_add(*f);
                        if power > HIGHEST {
                            return Err(ExactError::TooLarge);
                        }
                        out.push((a.clone(), power));
                        left.next();
                        right.next();
                    }
                },
            }
        }
    }

    /// Quotient, if it divides.
    pub(crate) fn divide(&self, by: &Monomial) -> Option<Monomial> {
        let mut out = Vec::with_capacity(self.0.len());
        let mut rest = by.0.iter().peekable();
        for (atom, power) in &self.0 {
            match rest.peek() {
                Some((b, f)) if b == atom => {
                    let left = power.checked_sub(*f)?;
                    if left > 0 {
                        out.push((atom.clone(), left));
                    }
                    rest.next();
                }
                _ => out.push((atom.clone(), *power)),
            }
        }
        rest.next().is_none().then_some(Monomial(out))
    }

    /// Greatest common divisor.
    pub(crate) fn common(&self, other: &Monomial) -> Monomial {
        let shared = self.0.iter().filter_map(|(atom, e)| match other.power_of(atom) {
            0 => None,
            f => Some((atom.clone(), (*e).min(f))),
        });
        Monomial(shared.collect())
    }

    /// The root, if every power is even.
    pub(crate) fn root(&self) -> Option<Monomial> {
        let halves = self.0.iter().map(|(a, e)| e.is_multiple_of(2).then(|| (a.clone(), e / 2)));
        halves.collect::<Option<Vec<_>>>().map(Monomial)
    }
}

/// Lexicographic: the first atom counts most, a higher power is greater. It is
/// compatible with products, as division of polynomials needs.
impl Ord for Monomial {
    fn cmp(&self, other: &Monomial) -> Ordering {
        for ((a, e), (b, f)) in self.0.iter().zip(&other.0) {
            match b.cmp(a).then(e.cmp(f)) {
                Ordering::Equal => {}
                decided => return decided,
            }
        }
        self.0.len().cmp(&other.0.len())
    }
}

impl PartialOrd for Monomial {
    fn partial_cmp(&self, other: &Monomial) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}
