//! Equations in which unknowns are multiplied: sums of products of unknowns, and of sines and cosines of unknown
//! angles, with exact coefficients.

use crate::shown::{Style, equals, seen, sum};
use crate::single::times;
use crate::view::{Entry, View};
use exact::{Math, Value};
use model::QuantityId;
use motion::Factor;
use std::collections::{BTreeMap, BTreeSet};

/// Longer sums are no help to a class.
const MOST_TERMS: usize = 12;

/// What is multiplied: an unknown, its square where it occurs in no other way, or the sine or cosine of an unknown angle.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Atom {
    Quantity(QuantityId),
    Square(QuantityId),
    Sin(QuantityId),
    Cos(QuantityId),
}

/// A product of unknowns, each with its power.
pub(crate) type Product = BTreeMap<Atom, usize>;

/// A sum of products that is nought.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Sum(BTreeMap<Product, Value>);

impl Atom {
    /// The quantity, or the angle.
    pub(crate) fn id(self) -> QuantityId {
        match self {
            Atom::Quantity(q) | Atom::Square(q) | Atom::Sin(q) | Atom::Cos(q) => q,
        }
    }
    pub(crate) fn value(self, view: &View<'_>) -> Option<Value> {
        if let Atom::Square(q) = self {
            return view.value(q).map(|v| v * v);
        }
        view.factor(&match self {
            Atom::Quantity(q) | Atom::Square(q) => Factor::Quantity(q),
            Atom::Sin(q) => Factor::Sin(q),
            Atom::Cos(q) => Factor::Cos(q),
        })
    }
    pub(crate) fn math(self, view: &View<'_>) -> Math {
        let letter = Math::quantity(view.letter(self.id()));
        match self {
            Atom::Quantity(_) => letter,
            Atom::Square(_) => Math::power(letter, Math::number("2")),
            Atom::Sin(_) => Math::row([Math::upright("sin"), letter]),
            Atom::Cos(_) => Math::row([Math::upright("cos"), letter]),
        }
    }
}

impl Sum {
    /// Left minus right of an equation, all but these unknowns worked out.
    pub(crate) fn of(view: &View<'_>, entry: &Entry<'_>, unknowns: &[QuantityId]) -> Sum {
        let atom = |f: &Factor| match f {
            Factor::Quantity(q) => Some(Atom::Quantity(*q)),
            Factor::Sin(q) => Some(Atom::Sin(*q)),
            Factor::Cos(q) => Some(Atom::Cos(*q)),
            Factor::Number(_) => None,
        };
        let open = |f: &Factor| atom(f).filter(|a| unknowns.contains(&a.id()));
        let mut total = Sum::default();
        for (side, piece) in entry.sided() {
            let mut product = Product::new();
            for found in piece.term.factors.iter().filter_map(open) {
                *product.entry(found).or_default() += 1;
            }
            let value = view.product(&piece.term, |f| open(f).is_none());
            total.add(product, if side > 0 { value } else { -value });
        }
        total
    }
    /// The same with the squares of these written as such.
    pub(crate) fn with_squares(&self, squares: &BTreeSet<QuantityId>) -> Sum {
        let whole = |(atom, n): (&Atom, &usize)| match (atom, n) {
            (Atom::Quantity(q), 2) if squares.contains(q) => (Atom::Square(*q), 1),
            _ => (*atom, *n),
        };
        Sum(self.0.iter().map(|(p, v)| (p.iter().map(whole).collect(), v.clone())).collect())
    }
    /// One product.
    pub(crate) fn one(product: Product, value: Value) -> Sum {
        let mut sum = Sum::default();
        sum.add(product, value);
        sum
    }
    fn add(&mut self, product: Product, value: Value) {
        let total = self.0.get(&product).map_or_else(|| value.clone(), |v| v + &value);
        if total.is_zero() {
            self.0.remove(&product);
        } else {
            self.0.insert(product, total);
        }
    }
    pub(crate) fn terms(&self) -> impl Iterator<Item = (&Product, &Value)> {
        self.0.iter()
    }
    pub(crate) fn len(&self) -> usize {
        self.0.len()
    }
    /// The sum of both.
    pub(crate) fn plus(&self, other: &Sum) -> Sum {
        let mut total = self.clone();
        for (product, value) in &other.0 {
            total.add(product.clone(), value.clone());
        }
        total
    }
    /// Each product of the one with each of the other; `None` if that grows too long.
    pub(crate) fn by(&self, other: &Sum) -> Option<Sum> {
        let mut total = Sum::default();
        for (one, c) in &self.0 {
            for (two, d) in &other.0 {
                let mut product = one.clone();
                for (atom, n) in two {
                    *product.entry(*atom).or_default() += n;
                }
                total.add(product, c * d);
            }
        }
        (total.len() <= MOST_TERMS).then_some(total)
    }
    pub(crate) fn negative(&self) -> Sum {
        Sum(self.0.iter().map(|(p, v)| (p.clone(), -v)).collect())
    }
    /// What stands with each power of an unknown.
    pub(crate) fn powers(&self, atom: Atom) -> Vec<Sum> {
        let mut found: Vec<Sum> = Vec::new();
        for (product, value) in &self.0 {
            let mut rest = product.clone();
            let power = rest.remove(&atom).unwrap_or(0);
            found.resize_with(found.len().max(power + 1), Sum::default);
            if let Some(slot) = found.get_mut(power) {
                slot.add(rest, value.clone());
            }
        }
        found
    }
    /// The unknowns in it.
    pub(crate) fn unknowns(&self) -> BTreeSet<QuantityId> {
        self.0.keys().flatten().map(|(a, _)| a.id()).collect()
    }
    /// The coefficient of a product.
    pub(crate) fn at(&self, product: &Product) -> Value {
        self.0.get(product).cloned().unwrap_or(Value::zero())
    }
    /// The number that it is, if no unknown stands in it.
    pub(crate) fn number(&self) -> Option<Value> {
        let all_alone = self.0.keys().all(Product::is_empty);
        (all_alone && self.len() == 1).then(|| self.at(&Product::new()))
    }
    /// Divided by a number.
    pub(crate) fn over(&self, by: &Value) -> Option<Sum> {
        let share = |(p, v): (&Product, &Value)| Some((p.clone(), v.checked_div(by).ok()?));
        self.0.iter().map(share).collect::<Option<_>>().map(Sum)
    }
    /// Without the factors that stand in every term; none of them may be nought.
    pub(crate) fn without_common(&self, view: &View<'_>) -> Sum {
        let mut common: Option<Product> = None;
        for product in self.0.keys() {
            let shared = |(a, n): (&Atom, &usize)| Some((*a, (*n).min(*product.get(a)?)));
            common = Some(match common {
                None => product.clone(),
                Some(before) => before.iter().filter_map(shared).collect(),
            });
        }
        let mut common = common.unwrap_or_default();
        common.retain(|a, _| a.value(view).is_some_and(|v| !v.is_zero()));
        let less = |product: &Product| -> Product {
            let left = product.iter().map(|(a, n)| (*a, n - common.get(a).copied().unwrap_or(0).min(*n)));
            left.filter(|(_, n)| *n > 0).collect()
        };
        Sum(self.0.iter().map(|(p, v)| (less(p), v.clone())).collect())
    }
    /// What it is with the values of the stage.
    pub(crate) fn value(&self, view: &View<'_>) -> Option<Value> {
        let mut total = Value::zero();
        for (product, coefficient) in &self.0 {
            let mut value = coefficient.clone();
            for (atom, n) in product {
                let one = atom.value(view)?;
                for _ in 0..*n {
                    value *= &one;
                }
            }
            total += value;
        }
        Some(total)
    }

    fn pieces(&self, view: &View<'_>, style: Style<'_>) -> (Vec<(bool, Math)>, bool) {
        let mut exact = true;
        let mut pieces = Vec::new();
        // Products first, the number last.
        for (product, value) in self.0.iter().rev() {
            if product.is_empty() {
                let seen = seen(value, style);
                exact &= seen.exact;
                let math = if seen.negative && seen.sum { Math::paren(seen.math) } else { seen.math };
                pieces.push((seen.negative, math));
            } else {
                let (negative, math, exact_too) = times(value, &written(view, product), style);
                exact &= exact_too;
                pieces.push((negative, math));
            }
        }
        (pieces, exact)
    }
    /// As a sum.
    pub(crate) fn math(&self, view: &View<'_>, style: Style<'_>) -> (Math, bool) {
        let (pieces, exact) = self.pieces(view, style);
        (sum(pieces), exact)
    }
    /// As an equation without minus signs: `49 sin θ = 36.75 cos θ`.
    pub(crate) fn equation(&self, view: &View<'_>, style: Style<'_>) -> Math {
        let (pieces, exact) = self.pieces(view, style);
        let (minus, plus): (Vec<_>, Vec<_>) = pieces.into_iter().partition(|(negative, _)| *negative);
        let minus: Vec<_> = minus.into_iter().map(|(_, math)| (false, math)).collect();
        let number_first = matches!(plus.as_slice(), [(_, Math::Number(_))]);
        let (left, right) = if plus.is_empty() || (number_first && !minus.is_empty()) {
            (minus, plus)
        } else {
            (plus, minus)
        };
        Math::row([sum(left), equals(exact), sum(right)])
    }
}

/// A product as it is written: letters, then sines and cosines.
pub(crate) fn written(view: &View<'_>, product: &Product) -> Math {
    let mut row: Vec<Math> = Vec::new();
    for (atom, n) in product {
        let math = atom.math(view);
        row.push(match (n, atom) {
            (2.., Atom::Square(q)) => {
                Math::power(Math::quantity(view.letter(*q)), Math::number((2 * n).to_string()))
            }
            (0 | 1, _) => math,
            (_, Atom::Quantity(_)) => Math::power(math, Math::number(n.to_string())),
            _ => Math::power(Math::paren(math), Math::number(n.to_string())),
        });
    }
    if row.len() == 1 { row.remove(0) } else { Math::Row(row) }
}
