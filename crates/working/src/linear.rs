//! Small exact systems of linear equations, as rows `Σ cᵢ xᵢ = k`.

use crate::view::{Entry, View};
use exact::Value;
use model::QuantityId;

/// One equation in the unknowns of a step.
#[derive(Clone, Debug)]
pub(crate) struct Row {
    /// The coefficients, in the order of the unknowns.
    pub(crate) coefficients: Vec<Value>,
    /// The constant on the other side.
    pub(crate) constant: Value,
}

impl Row {
    /// The equation as a row in these unknowns, all else known; `None` if it is not linear in them.
    pub(crate) fn of(view: &View<'_>, entry: &Entry<'_>, unknowns: &[QuantityId]) -> Option<Row> {
        let mut row = Row { coefficients: vec![Value::zero(); unknowns.len()], constant: Value::zero() };
        for (side, piece) in entry.sided() {
            if unknowns.iter().any(|u| piece.has_trig(*u)) {
                return None;
            }
            let mut here = unknowns.iter().enumerate().filter(|(_, u)| piece.degree(**u) > 0);
            match (here.next(), here.next()) {
                (None, _) => {
                    let value = piece.value(view);
                    row.constant = if side > 0 { row.constant - value } else { row.constant + value };
                }
                (Some((i, u)), None) if piece.degree(*u) == 1 => {
                    let value = view.product(&piece.term, |f| *f != motion::Factor::Quantity(*u));
                    let slot = row.coefficients.get_mut(i)?;
                    *slot = if side > 0 { &*slot + value } else { &*slot - value };
                }
                _ => return None,
            }
        }
        Some(row)
    }
    /// The coefficient of one unknown.
    pub(crate) fn at(&self, i: usize) -> Value {
        self.coefficients.get(i).cloned().unwrap_or(Value::zero())
    }
    /// This row plus a multiple of another.
    pub(crate) fn plus(&self, times: &Value, other: &Row) -> Row {
        let coefficients =
            self.coefficients.iter().zip(&other.coefficients).map(|(a, b)| a + times * b).collect();
        Row { coefficients, constant: &self.constant + times * &other.constant }
    }
    /// A multiple of the row.
    pub(crate) fn times(&self, by: &Value) -> Row {
        Row {
            coefficients: self.coefficients.iter().map(|c| c * by).collect(),
            constant: &self.constant * by,
        }
    }
    /// The unknowns that stand in it.
    pub(crate) fn present(&self) -> Vec<usize> {
        let all = self.coefficients.iter().enumerate();
        all.filter(|(_, c)| !c.is_zero()).map(|(i, _)| i).collect()
    }
}

/// Have the rows exactly one solution?
pub(crate) fn determined(mut rows: Vec<Row>, unknowns: usize) -> bool {
    for column in 0..unknowns {
        let Some(pivot) =
            (column..rows.len()).find(|&r| rows.get(r).is_some_and(|r| !r.at(column).is_zero()))
        else {
            return false;
        };
        rows.swap(column, pivot);
        let Some(pivot) = rows.get(column).cloned() else { return false };
        for row in rows.iter_mut().skip(column + 1) {
            let Ok(factor) = row.at(column).checked_div(&pivot.at(column)) else { return false };
            *row = row.plus(&-factor, &pivot);
        }
    }
    true
}
