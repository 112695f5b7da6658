//! From written equations to arithmetic: the knowns put in, the unknowns numbered.

use crate::setting::{Setting, signed};
use crate::sparse::Row;
use crate::{Equation, Factor, Term};
use exact::{Rational, Value};
use model::QuantityId;
use std::collections::BTreeMap;

/// An equation with the knowns put in: all on one side.
#[derive(Clone, Debug)]
pub(crate) enum Lowered {
    /// Linear with plain fractions.
    Plain(Row<Rational>),
    /// Anything else: zero as a value in the symbols of the unknowns.
    General(Value, usize),
}

/// Numbers unknowns: a quantity by its own number, the sine and the cosine of an unknown angle after them.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Unknowns<'a> {
    pub(crate) setting: &'a Setting<'a>,
    /// The knowns of this trial: those of the setting, with accelerations oriented.
    pub(crate) known: &'a [Option<Value>],
}

/// What an unknown stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Unknown {
    /// A quantity.
    Quantity(QuantityId),
    /// The sine of an angle.
    Sin(QuantityId),
    /// The cosine of an angle.
    Cos(QuantityId),
}

impl Unknowns<'_> {
    fn count(&self) -> usize {
        self.setting.situation.quantities.len()
    }
    pub(crate) fn value(&self, id: QuantityId) -> Option<&Value> {
        self.known.get(id.0)?.as_ref()
    }
    pub(crate) fn what(&self, number: usize) -> Unknown {
        let n = self.count().max(1);
        let id = QuantityId(number % n);
        match number / n {
            0 => Unknown::Quantity(id),
            1 => Unknown::Sin(id),
            _ => Unknown::Cos(id),
        }
    }
    /// The name of an unknown in the algebra.
    pub(crate) fn symbol(&self, number: usize) -> String {
        let name = |id: QuantityId| match self.setting.situation.quantity(id) {
            Some(q) if !q.symbol.is_empty() => q.symbol.clone(),
            _ => format!("q#{}", id.0),
        };
        match self.what(number) {
            Unknown::Quantity(id) => name(id),
            Unknown::Sin(id) => format!("sine#{}", name(id)),
            Unknown::Cos(id) => format!("cosine#{}", name(id)),
        }
    }
    /// All unknowns by their names.
    pub(crate) fn by_symbol(&self) -> BTreeMap<String, usize> {
        let n = self.count();
        let mut map = BTreeMap::new();
        for i in 0..n {
            if self.value(QuantityId(i)).is_none() {
                map.insert(self.symbol(i), i);
            }
            let angle = self.setting.kind(QuantityId(i)) == model::Kind::Angle;
            if angle && self.setting.sin_cos(QuantityId(i)).is_none() {
                map.insert(self.symbol(n + i), n + i);
                map.insert(self.symbol(2 * n + i), 2 * n + i);
            }
        }
        map
    }

    /// One factor: its value, or the number of the unknown.
    fn factor(&self, factor: &Factor) -> Result<Value, usize> {
        let n = self.count();
        match factor {
            Factor::Number(r) => Ok(Value::rational(r.clone())),
            Factor::Quantity(id) => self.value(*id).cloned().ok_or(id.0),
            Factor::Sin(id) => self.setting.sin_cos(*id).map(|sc| sc.0.clone()).ok_or(n + id.0),
            Factor::Cos(id) => self.setting.sin_cos(*id).map(|sc| sc.1.clone()).ok_or(2 * n + id.0),
        }
    }

    /// A term as a plain coefficient and at most one unknown.
    fn plain(&self, term: &Term) -> Option<(Rational, Option<usize>)> {
        let mut coefficient = Rational::from_int(i64::from(term.sign));
        let mut unknown = None;
        for factor in &term.factors {
            let known = match factor {
                Factor::Number(r) => Some(r),
                Factor::Quantity(id) => match self.value(*id) {
                    Some(value) => Some(value.as_rational()?),
                    None => None,
                },
                Factor::Sin(id) => Some(self.setting.sin_cos(*id)?.0.as_rational()?),
                Factor::Cos(id) => Some(self.setting.sin_cos(*id)?.1.as_rational()?),
            };
            match (known, factor) {
                (Some(r), _) => coefficient = &coefficient * r,
                (None, Factor::Quantity(id)) if unknown.is_none() => unknown = Some(id.0),
                _ => return None,
            }
        }
        Some((coefficient, unknown))
    }

    /// A term as a value in the symbols of the unknowns.
    pub(crate) fn term(&self, term: &Term) -> Value {
        let mut product = Value::from_int(i64::from(term.sign));
        for factor in &term.factors {
            let value = self.factor(factor).unwrap_or_else(|u| Value::symbol(&self.symbol(u)));
            product *= value;
        }
        product
    }

    /// An equation with everything on one side.
    pub(crate) fn lower(&self, equation: &Equation, tag: usize) -> Lowered {
        let mut row = Row::new(tag);
        let sides = equation.left.iter().map(|t| (t, false)).chain(equation.right.iter().map(|t| (t, true)));
        for (term, turn) in sides {
            let Some((coefficient, unknown)) = self.plain(term) else {
                return Lowered::General(self.one_side(equation), tag);
            };
            let coefficient = if turn { -coefficient } else { coefficient };
            match unknown {
                Some(unknown) => row.add(unknown, coefficient),
                None => row.constant = &row.constant + &coefficient,
            }
        }
        Lowered::Plain(row)
    }

    /// Left side less right side.
    pub(crate) fn one_side(&self, equation: &Equation) -> Value {
        let left: Value = equation.left.iter().map(|t| self.term(t)).sum();
        let right: Value = equation.right.iter().map(|t| self.term(t)).sum();
        left - right
    }

    /// A fact whose coefficients are not plain numbers.
    pub(crate) fn relation(
        &self,
        index: usize,
        oriented: impl Fn(QuantityId) -> (QuantityId, i8),
    ) -> Option<Value> {
        let relation = self.setting.situation.relations.get(index)?;
        let mut sum = Value::zero();
        for (coefficient, quantities) in &relation.terms {
            let mut product = coefficient.clone();
            for id in quantities {
                let (id, sign) = oriented(*id);
                let value =
                    self.factor(&Factor::Quantity(id)).unwrap_or_else(|u| Value::symbol(&self.symbol(u)));
                product *= signed(sign, &value);
            }
            sum += product;
        }
        Some(sum)
    }
}
