//! Linear equations over the field of exact values.
use crate::error::ExactError;
use crate::rational::Rational;
use crate::value::Value;

/// What a system of linear equations comes to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Outcome<T = Value> {
    /// One solution.
    Unique(Vec<T>),
    /// Infinitely many: some unknowns may still be fixed.
    Underdetermined {
        /// The unknowns that every solution agrees on.
        particular: Vec<Option<T>>,
        /// The columns that may be chosen freely.
        free: Vec<usize>,
    },
    /// No solution.
    Inconsistent {
        /// The first row that contradicts the rows above it.
        row: usize,
    },
}

/// The arithmetic that elimination needs.
trait Number: Clone {
    fn zero() -> Self;
    fn vanishes(&self) -> Result<bool, ExactError>;
    fn over(&self, by: &Self) -> Result<Self, ExactError>;
    fn minus_product(&self, a: &Self, b: &Self) -> Result<Self, ExactError>;
    fn size(&self) -> u64;
}

impl Number for Rational {
    #[inline]
    fn zero() -> Rational {
        Rational::ZERO
    }
    #[inline]
    fn vanishes(&self) -> Result<bool, ExactError> {
        Ok(self.is_zero())
    }
    #[inline]
    fn over(&self, by: &Rational) -> Result<Rational, ExactError> {
        self.checked_div(by).ok_or(ExactError::DivisionByZero)
    }
    #[inline]
    fn minus_product(&self, a: &Rational, b: &Rational) -> Result<Rational, ExactError> {
        Ok(self - a * b)
    }
    #[inline]
    fn size(&self) -> u64 {
        self.bits()
    }
}

impl Number for Value {
    fn zero() -> Value {
        Value::zero()
    }
    fn vanishes(&self) -> Result<bool, ExactError> {
        self.proved_zero()
    }
    fn over(&self, by: &Value) -> Result<Value, ExactError> {
        self.checked_div(by)
    }
    fn minus_product(&self, a: &Value, b: &Value) -> Result<Value, ExactError> {
        (self - a * b).checked()
    }
    fn size(&self) -> u64 {
        match self.as_rational() {
            Some(n) => n.bits(),
            None => 1_000 * self.terms() as u64,
        }
    }
}

/// Solves `matrix × x = rhs` for any shape, exactly.
///
/// Rows shorter than the longest count as filled with zeros, and so does a
/// missing right-hand side.
///
/// ```
/// use exact::{Value, linear::{Outcome, solve}};
/// let n = Value::from_int;
/// // T − 24 = 12a, 36 − T = 8a in the unknowns T, a.
/// let matrix = [vec![n(1), n(-12)], vec![n(-1), n(-8)]];
/// let Outcome::Unique(found) = solve(&matrix, &[n(24), n(-36)])? else { unreachable!() };
/// assert_eq!(found[1].to_string(), "3/5");
/// # Ok::<(), exact::ExactError>(())
/// ```
///
/// # Errors
/// [`ExactError::TooLarge`]; [`ExactError::Undecided`] if a pivot cannot be told from zero.
pub fn solve(matrix: &[Vec<Value>], rhs: &[Value]) -> Result<Outcome, ExactError> {
    if let Some((matrix, rhs)) = all_rational(matrix, rhs) {
        return Ok(match solve_rational(&matrix, &rhs)? {
            Outcome::Unique(x) => Outcome::Unique(x.into_iter().map(Value::rational).collect()),
            Outcome::Underdetermined { particular, free } => {
                let particular = particular.into_iter().map(|x| x.map(Value::rational)).collect();
                Outcome::Underdetermined { particular, free }
            }
            Outcome::Inconsistent { row } => Outcome::Inconsistent { row },
        });
    }
    eliminate(matrix, rhs)
}

/// As [`solve`], for fractions only.
///
/// # Errors
/// None in practice: fractions always can be told from zero.
pub fn solve_rational(matrix: &[Vec<Rational>], rhs: &[Rational]) -> Result<Outcome<Rational>, ExactError> {
    eliminate(matrix, rhs)
}

type Rows<T> = (Vec<Vec<T>>, Vec<T>);

fn all_rational(matrix: &[Vec<Value>], rhs: &[Value]) -> Option<Rows<Rational>> {
    let row = |row: &Vec<Value>| row.iter().map(|x| x.as_rational().cloned()).collect::<Option<Vec<_>>>();
    let matrix = matrix.iter().map(row).collect::<Option<Vec<_>>>()?;
    let rhs = rhs.iter().map(|x| x.as_rational().cloned()).collect::<Option<Vec<_>>>()?;
    Some((matrix, rhs))
}

/// One row for each equation: its coefficients and, last, its right-hand side.
fn augmented<T: Number>(matrix: &[Vec<T>], rhs: &[T], unknowns: usize) -> Vec<Vec<T>> {
    let mut rows = Vec::with_capacity(matrix.len());
    for (i, coefficients) in matrix.iter().enumerate() {
        let mut cells = Vec::with_capacity(unknowns + 1);
        cells.extend_from_slice(coefficients);
        cells.resize(unknowns, T::zero());
        cells.push(rhs.get(i).cloned().unwrap_or_else(T::zero));
        rows.push(cells);
    }
    rows
}

fn eliminate<T: Number>(matrix: &[Vec<T>], rhs: &[T]) -> Result<Outcome<T>, ExactError> {
    let unknowns = matrix.iter().map(Vec::len).max().unwrap_or(0);
    let mut rows = augmented(matrix, rhs, unknowns);
    let pivots = to_steps(&mut rows, unknowns)?;
    if contradicts(&rows, pivots.len())? {
        return Ok(Outcome::Inconsistent { row: first_contradiction(matrix, rhs, unknowns)? });
    }
    if pivots.len() == unknowns {
        return back_substitute(&rows, unknowns).map(Outcome::Unique);
    }
    read_off(&rows, &pivots, unknowns)
}

/// Brings the rows to steps; gives the column of each step.
fn to_steps<T: Number>(rows: &mut [Vec<T>], unknowns: usize) -> Result<Vec<usize>, ExactError> {
    let mut pivots: Vec<usize> = Vec::with_capacity(unknowns);
    for column in 0..unknowns {
        let done = pivots.len();
        let Some(chosen) = smallest_pivot(rows, done, column)? else { continue };
        rows.swap(done, chosen);
        clear_column(rows, done, column)?;
        pivots.push(column);
    }
    Ok(pivots)
}

/// Whether a row below the steps says 0 = something else.
fn contradicts<T: Number>(rows: &[Vec<T>], steps: usize) -> Result<bool, ExactError> {
    for row in rows.get(steps..).unwrap_or_default() {
        if let Some(last) = row.last()
            && !last.vanishes()?
        {
            return Ok(true);
        }
    }
    Ok(false)
}

/// The first row that contradicts those above it, by halving.
fn first_contradiction<T: Number>(
    matrix: &[Vec<T>],
    rhs: &[T],
    unknowns: usize,
) -> Result<usize, ExactError> {
    // The first `sound` rows agree; the first `broken` do not.
    let (mut sound, mut broken) = (0, matrix.len());
    while broken - sound > 1 {
        let middle = sound + (broken - sound) / 2;
        let mut rows = augmented(matrix.get(..middle).unwrap_or(matrix), rhs, unknowns);
        let steps = to_steps(&mut rows, unknowns)?.len();
        if contradicts(&rows, steps)? {
            broken = middle;
        } else {
            sound = middle;
        }
    }
    Ok(sound)
}

/// The row whose entry in this column is not zero and the least to write.
fn smallest_pivot<T: Number>(
    rows: &[Vec<T>],
    from: usize,
    column: usize,
) -> Result<Option<usize>, ExactError> {
    let mut best: Option<(u64, usize)> = None;
    for (i, row) in rows.iter().enumerate().skip(from) {
        let Some(cell) = row.get(column) else { continue };
        if cell.vanishes()? {
            continue;
        }
        let size = cell.size();
        if best.is_none_or(|(least, _)| size < least) {
            best = Some((size, i));
        }
    }
    Ok(best.map(|(_, i)| i))
}

/// Takes multiples of the pivot row from the rows below it.
fn clear_column<T: Number>(rows: &mut [Vec<T>], pivot: usize, column: usize) -> Result<(), ExactError> {
    let Some((top, below)) = rows.split_at_mut_checked(pivot + 1) else { return Ok(()) };
    let Some(source) = top.last() else { return Ok(()) };
    let Some(by) = source.get(column) else { return Ok(()) };
    for row in below {
        let Some(cell) = row.get(column) else { continue };
        if cell.vanishes()? {
            continue;
        }
        let times = cell.over(by)?;
        for (x, y) in row.iter_mut().zip(source).skip(column + 1) {
            if !y.vanishes()? {
                *x = x.minus_product(&times, y)?;
            }
        }
        if let Some(cell) = row.get_mut(column) {
            *cell = T::zero();
        }
    }
    Ok(())
}

/// From the last pivot up: an unknown is fixed if its row involves no free column.
fn read_off<T: Number>(rows: &[Vec<T>], pivots: &[usize], unknowns: usize) -> Result<Outcome<T>, ExactError> {
    // Clear upward too, so that a row shows which free unknowns it truly involves.
    let mut reduced: Vec<Vec<T>> = Vec::with_capacity(pivots.len());
    for (i, &column) in pivots.iter().enumerate() {
        let Some(row) = rows.get(i) else { continue };
        let Some(by) = row.get(column) else { continue };
        reduced.push(row.iter().map(|x| x.over(by)).collect::<Result<_, _>>()?);
    }
    for (i, &column) in pivots.iter().enumerate().rev() {
        let Some((above, rest)) = reduced.split_at_mut_checked(i) else { continue };
        let Some(source) = rest.first() else { continue };
        for row in above {
            let Some(times) = row.get(column).cloned() else { continue };
            if times.vanishes()? {
                continue;
            }
            for (x, y) in row.iter_mut().zip(source) {
                *x = x.minus_product(&times, y)?;
            }
        }
    }
    let free: Vec<usize> = (0..unknowns).filter(|c| !pivots.contains(c)).collect();
    let mut particular = vec![None; unknowns];
    for (row, &column) in reduced.iter().zip(pivots) {
        let mut fixed = true;
        for &c in &free {
            if let Some(cell) = row.get(c) {
                fixed &= cell.vanishes()?;
            }
        }
        if let (true, Some(slot)) = (fixed, particular.get_mut(column)) {
            *slot = row.last().cloned();
        }
    }
    Ok(Outcome::Underdetermined { particular, free })
}

/// Every column has its pivot on the diagonal.
fn back_substitute<T: Number>(rows: &[Vec<T>], unknowns: usize) -> Result<Vec<T>, ExactError> {
    let mut found: Vec<T> = vec![T::zero(); unknowns];
    for (i, row) in rows.iter().enumerate().take(unknowns).rev() {
        let Some((mut left, coefficients)) = row.split_last().map(|(l, c)| (l.clone(), c)) else {
            continue;
        };
        for (a, x) in coefficients.iter().zip(&found).skip(i + 1) {
            if !a.vanishes()? {
                left = left.minus_product(a, x)?;
            }
        }
        let Some(by) = coefficients.get(i) else { continue };
        if let Some(slot) = found.get_mut(i) {
            *slot = left.over(by)?;
        }
    }
    Ok(found)
}
