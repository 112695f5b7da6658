//! Linear equations with few unknowns each: exact elimination that takes the shortest row first, so
//! that a train of any length is solved from its end, one coupling at a time.

use exact::{Rational, Value};

/// The arithmetic that elimination needs.
pub(crate) trait Number: Clone {
    fn zero() -> Self;
    fn vanishes(&self) -> bool;
    fn plus(&self, other: &Self) -> Self;
    fn times(&self, other: &Self) -> Self;
    fn minus(&self) -> Self;
    /// `None` if the divisor is zero or too large to work with.
    fn over(&self, by: &Self) -> Option<Self>;
}

impl Number for Rational {
    fn zero() -> Rational {
        Rational::ZERO
    }
    fn vanishes(&self) -> bool {
        self.is_zero()
    }
    fn plus(&self, other: &Rational) -> Rational {
        self + other
    }
    fn times(&self, other: &Rational) -> Rational {
        self * other
    }
    fn minus(&self) -> Rational {
        -self
    }
    fn over(&self, by: &Rational) -> Option<Rational> {
        self.checked_div(by)
    }
}

impl Number for Value {
    fn zero() -> Value {
        Value::zero()
    }
    fn vanishes(&self) -> bool {
        self.is_zero()
    }
    fn plus(&self, other: &Value) -> Value {
        self + other
    }
    fn times(&self, other: &Value) -> Value {
        self * other
    }
    fn minus(&self) -> Value {
        -self
    }
    fn over(&self, by: &Value) -> Option<Value> {
        self.checked_div(by).ok()
    }
}

/// One equation: the sum of coefficient × unknown, and the constant, is zero.
#[derive(Clone, Debug)]
pub(crate) struct Row<N> {
    /// By unknown, each once, in increasing order.
    pub(crate) terms: Vec<(usize, N)>,
    pub(crate) constant: N,
    /// Which equation it comes from.
    pub(crate) tag: usize,
}

impl<N: Number> Row<N> {
    pub(crate) fn new(tag: usize) -> Row<N> {
        Row { terms: Vec::new(), constant: N::zero(), tag }
    }
    /// Adds coefficient × unknown.
    pub(crate) fn add(&mut self, unknown: usize, coefficient: N) {
        match self.terms.binary_search_by_key(&unknown, |t| t.0) {
            Ok(at) => {
                let sum = self.terms.get(at).map(|t| t.1.plus(&coefficient));
                match (sum, self.terms.get_mut(at)) {
                    (Some(sum), Some(_)) if sum.vanishes() => {
                        self.terms.remove(at);
                    }
                    (Some(sum), Some(slot)) => slot.1 = sum,
                    _ => {}
                }
            }
            Err(at) if !coefficient.vanishes() => self.terms.insert(at, (unknown, coefficient)),
            Err(_) => {}
        }
    }
    fn coefficient(&self, unknown: usize) -> Option<&N> {
        let at = self.terms.binary_search_by_key(&unknown, |t| t.0).ok()?;
        self.terms.get(at).map(|t| &t.1)
    }
    /// Takes `factor` times another row away.
    fn subtract(&mut self, factor: &N, other: &Row<N>) {
        let factor = factor.minus();
        for (unknown, c) in &other.terms {
            self.add(*unknown, c.times(&factor));
        }
        self.constant = self.constant.plus(&other.constant.times(&factor));
    }
}

/// What the linear equations come to.
#[derive(Clone, Debug)]
pub(crate) struct Reduced<N> {
    /// The unknowns that are fixed.
    pub(crate) fixed: Vec<(usize, N)>,
    /// What remains between unknowns that are not.
    pub(crate) left: Vec<Row<N>>,
}

/// Solves.
///
/// # Errors
/// The tag of an equation that the others contradict.
pub(crate) fn solve<N: Number>(mut rows: Vec<Row<N>>) -> Result<Reduced<N>, usize> {
    let unknowns = rows.iter().filter_map(|r| r.terms.last()).map(|t| t.0 + 1).max().unwrap_or(0);
    let mut uses = vec![0usize; unknowns];
    for row in &rows {
        count(&mut uses, row, true);
    }
    let mut pivots: Vec<(usize, Row<N>)> = Vec::with_capacity(rows.len());
    loop {
        let mut shortest: Option<(usize, usize)> = None;
        let mut at = 0;
        while let Some(row) = rows.get(at) {
            if row.terms.is_empty() {
                if !row.constant.vanishes() {
                    return Err(row.tag);
                }
                rows.swap_remove(at);
                continue;
            }
            if shortest.is_none_or(|(_, length)| row.terms.len() < length) {
                shortest = Some((at, row.terms.len()));
            }
            at += 1;
        }
        let Some((at, _)) = shortest else { break };
        let pivot_row = rows.swap_remove(at);
        count(&mut uses, &pivot_row, false);
        let Some((pivot, c)) =
            pivot_row.terms.iter().min_by_key(|t| uses.get(t.0).copied().unwrap_or(0)).cloned()
        else {
            break;
        };
        for row in &mut rows {
            let Some(factor) = row.coefficient(pivot).and_then(|x| x.over(&c)) else { continue };
            count(&mut uses, row, false);
            row.subtract(&factor, &pivot_row);
            // What is left of it is nothing, or nothing that could be told from nothing.
            row.terms.retain(|t| t.0 != pivot);
            count(&mut uses, row, true);
        }
        pivots.push((pivot, pivot_row));
    }
    Ok(read_back(pivots, unknowns))
}

fn count<N>(uses: &mut [usize], row: &Row<N>, add: bool) {
    for (unknown, _) in &row.terms {
        if let Some(n) = uses.get_mut(*unknown) {
            *n = if add { *n + 1 } else { n.saturating_sub(1) };
        }
    }
}

/// Back substitution: each pivot in terms of the unknowns that stay free.
fn read_back<N: Number>(pivots: Vec<(usize, Row<N>)>, unknowns: usize) -> Reduced<N> {
    let mut as_free: Vec<Option<Row<N>>> = vec![None; unknowns];
    let mut reduced = Reduced { fixed: Vec::with_capacity(pivots.len()), left: Vec::new() };
    for (pivot, row) in pivots.into_iter().rev() {
        let Some(c) = row.coefficient(pivot).map(Number::minus) else { continue };
        let mut found = Row::new(row.tag);
        let Some(constant) = row.constant.over(&c) else { continue };
        found.constant = constant;
        for (unknown, x) in row.terms.iter().filter(|t| t.0 != pivot) {
            let Some(x) = x.over(&c) else { continue };
            match as_free.get(*unknown).and_then(Option::as_ref) {
                Some(known) => found.subtract(&x.minus(), known),
                None => found.add(*unknown, x),
            }
        }
        if found.terms.is_empty() {
            reduced.fixed.push((pivot, found.constant.clone()));
        } else {
            reduced.left.push(row);
        }
        if let Some(slot) = as_free.get_mut(pivot) {
            *slot = Some(found);
        }
    }
    reduced
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(tag: usize, terms: &[(usize, i64)], constant: i64) -> Row<Rational> {
        let mut row = Row::new(tag);
        for (unknown, c) in terms {
            row.add(*unknown, Rational::from_int(*c));
        }
        row.constant = Rational::from_int(constant);
        row
    }

    #[test]
    fn two_bodies_and_one_string() {
        // T − 30 = 3a, 50 − T = 5a.
        let found = solve(vec![row(0, &[(0, 1), (1, -3)], -30), row(1, &[(0, -1), (1, -5)], 50)]).unwrap();
        let mut fixed = found.fixed;
        fixed.sort_by_key(|f| f.0);
        assert_eq!(fixed[0], (0, Rational::new(75, 2).unwrap()));
        assert_eq!(fixed[1], (1, Rational::new(5, 2).unwrap()));
    }

    #[test]
    fn what_is_fixed_is_found_beside_what_is_not() {
        // x + y + z = 6, x + y = 2: z is fixed, x and y are not.
        let found =
            solve(vec![row(0, &[(0, 1), (1, 1), (2, 1)], -6), row(1, &[(0, 1), (1, 1)], -2)]).unwrap();
        assert_eq!(found.fixed, vec![(2, Rational::from_int(4))]);
        assert_eq!(found.left.len(), 1);
    }

    #[test]
    fn a_contradiction_names_its_equation() {
        let rows = vec![row(0, &[(0, 1)], -1), row(7, &[(0, 2)], -3)];
        assert!(matches!(solve(rows), Err(0 | 7)));
    }
}
