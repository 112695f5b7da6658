//! The sign of an expression when every letter in it stands for something positive.

use exact::{Rational, Sign, Value};

/// The sign of a value, all its letters taken to be positive; `None` where it depends on them.
///
/// ```
/// use exact::{Sign, Value};
/// use motion::sign_with_positive_letters;
/// let (m, k) = (Value::symbol("m"), Value::symbol("k"));
/// assert_eq!(sign_with_positive_letters(&(&m * &k + &m)), Some(Sign::Positive));
/// assert_eq!(sign_with_positive_letters(&(&m - &k)), None);
/// ```
pub fn sign_with_positive_letters(value: &Value) -> Option<Sign> {
    if let Some(number) = value.as_rational() {
        return Some(Sign::of(number));
    }
    if value.is_number() {
        return value.sign().ok();
    }
    if value.is_zero() {
        return Some(Sign::Zero);
    }
    polynomial(value, 0).unwrap_or_else(|| written(value))
}

/// More letters than any question has.
const MOST_LETTERS: usize = 24;

/// The sign of a polynomial in letters: that of all its coefficients. `None`: it is no polynomial.
fn polynomial(value: &Value, depth: usize) -> Option<Option<Sign>> {
    if value.is_number() {
        return Some(value.sign().ok());
    }
    if depth > MOST_LETTERS {
        return None;
    }
    let letter = value.symbols().into_iter().next()?;
    let mut all = Some(Sign::Zero);
    for coefficient in value.coefficients_in(&letter)? {
        let sign = polynomial(&coefficient, depth + 1)?;
        all = all.zip(sign).and_then(|(a, b)| plus(a, b));
    }
    Some(all)
}

/// The sign of a sum, where the signs of its terms settle it.
fn plus(a: Sign, b: Sign) -> Option<Sign> {
    match (a, b) {
        (Sign::Zero, other) | (other, Sign::Zero) => Some(other),
        (a, b) if a == b => Some(a),
        _ => None,
    }
}

fn times(a: Sign, b: Sign) -> Sign {
    match (a, b) {
        (Sign::Zero, _) | (_, Sign::Zero) => Sign::Zero,
        (a, b) if a == b => Sign::Positive,
        _ => Sign::Negative,
    }
}

/// With letters below the line: reads the signs off the way the fraction is written, in which
/// numerator and denominator stand in lowest terms.
fn written(value: &Value) -> Option<Sign> {
    let text = value.to_string();
    let mut reader = Reader { rest: &text, depth: 0 };
    let sign = reader.sum();
    if reader.rest.trim().is_empty() { sign } else { None }
}

/// Reads plain algebra: sums of products of numbers, letters, powers, roots and brackets.
struct Reader<'a> {
    rest: &'a str,
    depth: u32,
}

/// Brackets inside brackets beyond this are left undecided.
const DEEPEST: u32 = 64;

impl Reader<'_> {
    fn take(&mut self, mark: char) -> bool {
        let rest = self.rest.trim_start();
        match rest.strip_prefix(mark) {
            Some(after) => {
                self.rest = after;
                true
            }
            None => false,
        }
    }
    fn sum(&mut self) -> Option<Sign> {
        let mut total = Some(Sign::Zero);
        let mut negative = self.take('-');
        loop {
            let term = self.product();
            let term = term.map(|s| if negative { times(s, Sign::Negative) } else { s });
            total = total.zip(term).and_then(|(a, b)| plus(a, b));
            negative = if self.take('+') {
                false
            } else if self.take('-') {
                true
            } else {
                return total;
            };
        }
    }
    fn product(&mut self) -> Option<Sign> {
        let mut total = self.power();
        while self.take('*') || self.take('/') {
            let factor = self.power();
            total = total.zip(factor).map(|(a, b)| times(a, b));
        }
        total
    }
    fn power(&mut self) -> Option<Sign> {
        let base = self.atom();
        if !self.take('^') {
            return base;
        }
        let digits: String = self.rest.chars().take_while(char::is_ascii_digit).collect();
        self.rest = self.rest.get(digits.len()..).unwrap_or("");
        match digits.parse::<u32>().ok()? % 2 {
            0 if base == Some(Sign::Negative) => Some(Sign::Positive),
            _ => base,
        }
    }
    fn atom(&mut self) -> Option<Sign> {
        if self.take('(') {
            return self.bracketed();
        }
        let rest = self.rest.trim_start();
        let end = rest.find(|c: char| "+-*/^() ".contains(c)).unwrap_or(rest.len());
        let (word, after) = rest.split_at_checked(end)?;
        self.rest = after;
        if matches!(word, "sqrt" | "sin" | "cos") && self.take('(') {
            // Roots are positive, and so are sines and cosines of the angles that are kept as they are.
            self.bracketed();
            return Some(Sign::Positive);
        }
        match Rational::parse_decimal(word) {
            Some(number) => Some(Sign::of(&number)),
            None if word.is_empty() => None,
            None => Some(Sign::Positive),
        }
    }
    fn bracketed(&mut self) -> Option<Sign> {
        self.depth += 1;
        if self.depth > DEEPEST {
            self.rest = "(";
            return None;
        }
        let inside = self.sum();
        self.depth -= 1;
        if self.take(')') { inside } else { None }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_below_the_line_count_as_positive() {
        let (m, k, g) = (Value::symbol("m"), Value::symbol("k"), Value::symbol("g"));
        let tension = (Value::from_int(2) * &k * &m * &g).checked_div(&(&k + Value::one())).unwrap();
        assert_eq!(sign_with_positive_letters(&tension), Some(Sign::Positive));
        assert_eq!(sign_with_positive_letters(&-tension), Some(Sign::Negative));
        let excess = ((&k - Value::one()) * &g).checked_div(&(&k + Value::one())).unwrap();
        assert_eq!(sign_with_positive_letters(&excess), None, "it depends on whether k > 1");
    }

    #[test]
    fn surds_among_the_letters_are_weighed_exactly() {
        let m = Value::symbol("m");
        let narrow = (Value::from_int(2) - Value::from_int(3).sqrt().unwrap()) * &m;
        assert_eq!(sign_with_positive_letters(&narrow), Some(Sign::Positive), "2 > √3");
    }
}
