//! Polynomials in atoms with fractions as coefficients.
use crate::atoms::Atom;
use crate::big::common_content;
use crate::error::ExactError;
use crate::monomial::Monomial;
use crate::rational::Rational;
use core::cmp::Ordering;
use std::collections::{BTreeMap, BTreeSet};

/// The most terms that a polynomial may have.
pub(crate) const MOST_TERMS: usize = 4_000;
/// The most pairs of terms multiplied in one product.
const MOST_PRODUCTS: usize = 400_000;
static ZERO: Rational = Rational::ZERO;
/// The longest coefficient, in bits.
const LONGEST: u64 = 1 << 16;

/// A sum of terms, greatest monomial first, no coefficient 0.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) struct Poly(pub(crate) Vec<(Monomial, Rational)>);

impl Poly {
    pub(crate) fn zero() -> Poly {
        Poly(Vec::new())
    }

    pub(crate) fn constant(c: Rational) -> Poly {
        if c.is_zero() { Poly::zero() } else { Poly(vec![(Monomial::one(), c)]) }
    }

    pub(crate) fn atom(atom: Atom) -> Poly {
        Poly(vec![(Monomial(vec![(atom, 1)]), Rational::ONE)])
    }

    pub(crate) fn monomial(m: Monomial, c: Rational) -> Poly {
        if c.is_zero() { Poly::zero() } else { Poly(vec![(m, c)]) }
    }

    /// Sorts and gathers terms in any order.
    pub(crate) fn gather(mut terms: Vec<(Monomial, Rational)>) -> Poly {
        terms.sort_by(|a, b| b.0.cmp(&a.0));
        let mut out: Vec<(Monomial, Rational)> = Vec::with_capacity(terms.len());
        for (m, c) in terms {
            match out.last_mut() {
                Some((last, sum)) if *last == m => *sum += c,
                _ => out.push((m, c)),
            }
        }
        out.retain(|(_, c)| !c.is_zero());
        Poly(out)
    }

    pub(crate) fn is_zero(&self) -> bool {
        self.0.is_empty()
    }

    pub(crate) fn as_constant(&self) -> Option<&Rational> {
        match self.0.as_slice() {
            [] => Some(&ZERO),
            [(m, c)] if m.is_one() => Some(c),
            _ => None,
        }
    }

    pub(crate) fn is_one(&self) -> bool {
        self.as_constant().is_some_and(Rational::is_one)
    }

    pub(crate) fn leading(&self) -> Option<&(Monomial, Rational)> {
        self.0.first()
    }

    pub(crate) fn add(&self, other: &Poly) -> Poly {
        let mut out = Vec::with_capacity(self.0.len() + other.0.len());
        let (mut left, mut right) = (self.0.iter().peekable(), other.0.iter().peekable());
        loop {
            match (left.peek(), right.peek()) {
                (None, None) => return Poly(out),
                (Some(_), None) => out.extend(left.by_ref().cloned()),
                (None, Some(_)) => out.extend(right.by_ref().cloned()),
                (Some((a, x)), Some((b, y))) => match a.cmp(b) {
                    Ordering::Greater => out.extend(left.next().cloned()),
                    Ordering::Less => out.extend(right.next().cloned()),
                    Ordering::Equal => {
                        let sum = x + y;
                        if !sum.is_zero() {
                            out.push((a.clone(), sum));
                        }
                        left.next();
                        right.next();
                    }
                },
            }
        }
    }

    pub(crate) fn neg(&self) -> Poly {
        Poly(self.0.iter().map(|(m, c)| (m.clone(), -c)).collect())
    }

    pub(crate) fn sub(&self, other: &Poly) -> Poly {
        self.add(&other.neg())
    }

    pub(crate) fn scale(&self, by: &Rational) -> Poly {
        if by.is_zero() {
            return Poly::zero();
        }
        if by.is_one() {
            return self.clone();
        }
        Poly(self.0.iter().map(|(m, c)| (m.clone(), c * by)).collect())
    }

    /// Product with one term.
    pub(crate) fn times_term(&self, m: &Monomial, c: &Rational) -> Result<Poly, ExactError> {
        if c.is_zero() {
            return Ok(Poly::zero());
        }
        let terms = self.0.iter().map(|(n, d)| Ok((n.mul(m)?, d * c)));
        Ok(Poly(terms.collect::<Result<_, ExactError>>()?))
    }

    /// Product, without using the relations of square roots.
    pub(crate) fn mul(&self, other: &Poly) -> Result<Poly, ExactError> {
        match (self.0.as_slice(), other.0.as_slice()) {
            ([], _) | (_, []) => return Ok(Poly::zero()),
            ([(m, c)], _) => return other.times_term(m, c)?.checked(),
            (_, [(m, c)]) => return self.times_term(m, c)?.checked(),
            _ => {}
        }
        if self.0.len().saturating_mul(other.0.len()) > MOST_PRODUCTS {
            return Err(ExactError::TooLarge);
        }
        let mut out = Vec::with_capacity(self.0.len() * other.0.len());
        for (m, c) in &self.0 {
            for (n, d) in &other.0 {
                out.push((m.mul(n)?, c * d));
            }
        }
        Poly::gather(out).checked()
    }

    /// The same, unless it is too large to go on with.
    pub(crate) fn checked(self) -> Result<Poly, ExactError> {
        if self.0.len() > MOST_TERMS || self.0.iter().any(|(_, c)| c.bits() > LONGEST) {
            return Err(ExactError::TooLarge);
        }
        Ok(self)
    }

    /// Replaces even powers of roots and cosines by what they stand for.
    pub(crate) fn reduced(self) -> Result<Poly, ExactError> {
        let unreduced = |m: &Monomial| m.0.iter().any(|(a, e)| *e > 1 && a.is_quadratic());
        if !self.0.iter().any(|(m, _)| unreduced(m)) {
            return Ok(self);
        }
        let (pending, done): (Vec<_>, Vec<_>) = self.0.into_iter().partition(|(m, _)| unreduced(m));
        let mut sum = Poly(done);
        for (m, c) in pending {
            let mut rest = Vec::with_capacity(m.0.len());
            let mut factor = Poly::constant(c);
            for (atom, e) in m.0 {
                match atom.square() {
                    Some(square) if e > 1 => {
                        for _ in 0..e / 2 {
                            factor = factor.mul(&square)?.reduced()?;
                        }
                        if e % 2 == 1 {
                            rest.push((atom, 1));
                        }
                    }
                    _ => rest.push((atom, e)),
                }
            }
            sum = sum
                .add(&factor.times_term(&Monomial(rest), &Rational::ONE)?.sorted().reduced()?)
                .checked()?;
        }
        Ok(sum)
    }

    fn sorted(self) -> Poly {
        Poly::gather(self.0)
    }

    /// Product with the relations used.
    pub(crate) fn mul_reduced(&self, other: &Poly) -> Result<Poly, ExactError> {
        self.mul(other)?.reduced()
    }

    /// The largest fraction that divides every coefficient, positive.
    pub(crate) fn content(&self) -> Rational {
        self.0.iter().fold(Rational::ZERO, |g, (_, c)| common_content(&g, c))
    }

    /// Coprime whole coefficients, the leading one positive; and what was divided out.
    pub(crate) fn primitive(&self) -> (Rational, Poly) {
        let mut content = self.content();
        if self.leading().is_some_and(|(_, c)| c.signum() < 0) {
            content = -content;
        }
        match content.recip() {
            Some(by) => {
                let part = self.scale(&by);
                (content, part)
            }
            None => (Rational::ONE, Poly::zero()),
        }
    }

    /// The greatest monomial that divides every term.
    pub(crate) fn common_monomial(&self) -> Monomial {
        let mut terms = self.0.iter().map(|(m, _)| m);
        let Some(first) = terms.next() else { return Monomial::one() };
        let mut common = first.clone();
        for m in terms {
            if common.is_one() {
                break;
            }
            common = common.common(m);
        }
        common
    }

    /// Quotient by a monomial that divides every term.
    pub(crate) fn over_monomial(&self, by: &Monomial) -> Option<Poly> {
        if by.is_one() {
            return Some(self.clone());
        }
        self.0.iter().map(|(m, c)| Some((m.divide(by)?, c.clone()))).collect::<Option<_>>().map(Poly)
    }

    /// Coefficients of the powers of an atom, lowest first.
    pub(crate) fn in_powers_of(&self, atom: &Atom) -> Vec<Poly> {
        let mut powers: BTreeMap<u32, Vec<(Monomial, Rational)>> = BTreeMap::new();
        let mut highest = 0;
        for (m, c) in &self.0 {
            let power = m.power_of(atom);
            highest = highest.max(power);
            powers.entry(power).or_default().push((m.without(atom), c.clone()));
        }
        (0..=highest).map(|e| powers.remove(&e).map_or_else(Poly::zero, Poly::gather)).collect()
    }

    /// Puts `in_powers_of` together again.
    pub(crate) fn from_powers_of(atom: &Atom, coefficients: &[Poly]) -> Result<Poly, ExactError> {
        let mut terms = Vec::new();
        for (e, coefficient) in (0u32..).zip(coefficients) {
            let power = if e == 0 { Monomial::one() } else { Monomial(vec![(atom.clone(), e)]) };
            for (m, c) in &coefficient.0 {
                terms.push((m.mul(&power)?, c.clone()));
            }
        }
        Ok(Poly::gather(terms))
    }

    /// Groups the terms by the part of the monomial that satisfies `key`.
    pub(crate) fn grouped(&self, key: impl Fn(&Atom) -> bool) -> BTreeMap<Monomial, Poly> {
        let mut groups: BTreeMap<Monomial, Vec<(Monomial, Rational)>> = BTreeMap::new();
        for (m, c) in &self.0 {
            let (part, rest) = m.partition(&key);
            groups.entry(part).or_default().push((rest, c.clone()));
        }
        groups.into_iter().map(|(part, terms)| (part, Poly::gather(terms))).collect()
    }

    pub(crate) fn atoms(&self) -> impl Iterator<Item = &Atom> {
        self.0.iter().flat_map(|(m, _)| m.0.iter().map(|(a, _)| a))
    }

    /// Every atom once.
    pub(crate) fn atom_set(&self) -> BTreeSet<Atom> {
        self.atoms().cloned().collect()
    }

    pub(crate) fn depth(&self) -> u32 {
        self.atoms().map(Atom::depth).max().unwrap_or(0)
    }

    pub(crate) fn collect_symbols(&self, into: &mut BTreeSet<String>) {
        self.atoms().for_each(|a| a.collect_symbols(into));
    }

    pub(crate) fn has_letters(&self) -> bool {
        self.atoms().any(Atom::has_letters)
    }

    pub(crate) fn mentions(&self, symbol: &str) -> bool {
        self.atoms().any(|a| a.mentions(symbol))
    }

    /// Whether it is a whole number with no hidden square, or one letter: what a
    /// plain root may stand over.
    pub(crate) fn is_prime_or_letter(&self) -> bool {
        match self.0.as_slice() {
            [(m, c)] => match m.0.as_slice() {
                [] => c.as_i64().is_some_and(|n| n > 1 && crate::integers::is_prime(n.unsigned_abs())),
                [(Atom::Symbol(_), 1)] => c.is_one(),
                _ => false,
            },
            _ => false,
        }
    }

    /// Whether every coefficient has this sign.
    pub(crate) fn all_signs(&self, sign: i32) -> bool {
        self.0.iter().all(|(_, c)| c.signum() == sign)
    }
}
