//! The equations to be solved together: the linear ones by the short way, the rest by the general one.

use crate::attempt::is_size;
use crate::general::{self, Branch, Clash};
use crate::lower::{Lowered, Unknown, Unknowns};
use crate::sparse;
use crate::write::Writer;
use exact::{Rational, Value};
use model::Kind;
use std::collections::BTreeMap;

/// Equations of one stage, or of several.
#[derive(Clone, Debug, Default)]
pub(crate) struct System {
    rows: Vec<sparse::Row<Rational>>,
    /// Values that are to be zero, each with the number of its equation.
    pub(crate) general: Vec<(Value, usize)>,
}

impl System {
    /// Adds an equation.
    pub(crate) fn add(&mut self, lowered: Lowered) {
        match lowered {
            Lowered::Plain(row) => self.rows.push(row),
            Lowered::General(value, tag) => self.general.push((value, tag)),
        }
    }

    /// Adds a given fact, as one stage sees it.
    pub(crate) fn fact(&mut self, unknowns: &Unknowns, writer: &Writer, index: usize, tag: usize) {
        match writer.fact(index, |_| false) {
            Some(equation) => self.add(unknowns.lower(&equation, tag)),
            None => {
                let value = unknowns.relation(index, |id| writer.oriented(id));
                self.general.extend(value.map(|v| (v, tag)));
            }
        }
    }

    /// All ways to satisfy them.
    pub(crate) fn solve(self, names: &Names) -> Result<Vec<Branch>, Clash> {
        let reduced = sparse::solve(self.rows).map_err(Clash::at)?;
        let as_value = |n: &Rational| Value::rational(n.clone());
        let values: BTreeMap<usize, Value> = reduced.fixed.iter().map(|(u, v)| (*u, as_value(v))).collect();
        if self.general.is_empty() {
            return Ok(vec![Branch { values, given_up: false }]);
        }
        let mut general = self.general;
        general.extend(reduced.left.iter().map(|row| {
            let terms =
                row.terms.iter().map(|(u, c)| Value::symbol(&names.unknowns.symbol(*u)) * as_value(c));
            (terms.sum::<Value>() + as_value(&row.constant), row.tag)
        }));
        general::solve(general, values, names)
    }
}

/// The unknowns as the elimination sees them.
pub(crate) struct Names<'a> {
    pub(crate) unknowns: Unknowns<'a>,
    pub(crate) by_symbol: BTreeMap<String, usize>,
}

impl general::Unknown for Names<'_> {
    fn number(&self, symbol: &str) -> Option<usize> {
        self.by_symbol.get(symbol).copied()
    }
    fn symbol(&self, number: usize) -> String {
        self.unknowns.symbol(number)
    }
    fn is_size(&self, number: usize) -> bool {
        match self.unknowns.what(number) {
            Unknown::Quantity(id) => is_size(self.unknowns.setting.kind(id)),
            Unknown::Sin(_) | Unknown::Cos(_) => true,
        }
    }
    fn may_write(&self, terms: usize) -> bool {
        self.unknowns.setting.may_write(terms)
    }
    fn is_positive(&self, number: usize) -> bool {
        matches!(self.unknowns.what(number), Unknown::Quantity(id)
            if self.unknowns.setting.kind(id) == Kind::Mass)
    }
}
