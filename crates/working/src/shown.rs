//! How a value is written: in full where that is short, else rounded, and then said to be rounded.

use exact::{Math, Sign, Value, round_significant};
use model::Kind;
use std::cell::RefCell;

/// The most figures with which a value is written in full inside the working.
const IN_FULL: usize = 6;

/// What has been rounded so far: the same few values stand on many lines, and a proved rounding is dear.
#[derive(Debug, Default)]
pub(crate) struct Memo(RefCell<Vec<(Value, u32, bool, Seen)>>);

/// The most values that are kept.
const MOST_KEPT: usize = 200;

/// How values are written in the working.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Style<'m> {
    /// What has been rounded so far.
    pub(crate) memo: &'m Memo,
    /// Figures of a value that is not written in full.
    pub(crate) figures: u32,
    /// Fractions and roots stay as they are.
    pub(crate) exact: bool,
}

/// A value's size as it is written, and its sign apart.
#[derive(Clone, Debug)]
pub(crate) struct Seen {
    pub(crate) math: Math,
    /// Nothing was rounded.
    pub(crate) exact: bool,
    pub(crate) negative: bool,
    /// Several terms: wants brackets in a product.
    pub(crate) sum: bool,
    /// Starts with a letter, so that it may follow a number without a sign between.
    pub(crate) lettered: bool,
}

/// The sign and the size. The sign of an expression in letters is the one it is written with.
pub(crate) fn split(value: &Value) -> (bool, Value) {
    let negative = match value.sign() {
        Ok(sign) => sign == Sign::Negative,
        Err(_) => value.to_string().starts_with('-'),
    };
    (negative, if negative { -value } else { value.clone() })
}

/// The significant figures of a decimal.
pub(crate) fn figures(digits: &str) -> usize {
    let digits = digits.trim_start_matches('-');
    let bare: String = digits.chars().filter(char::is_ascii_digit).collect();
    let bare = bare.trim_start_matches('0');
    if digits.contains('.') { bare.len() } else { bare.trim_end_matches('0').len() }
}

/// The decimal that is the value itself, if it has at most so many figures.
pub(crate) fn in_full(value: &Value, most: usize) -> Option<String> {
    let decimal = value.as_rational()?.terminating_decimal()?;
    (figures(&decimal) <= most).then_some(decimal)
}

/// A value as it stands in the working.
pub(crate) fn seen(value: &Value, style: Style<'_>) -> Seen {
    if value.as_rational().is_some() {
        return look(value, style);
    }
    let key = |k: &&(Value, u32, bool, Seen)| k.1 == style.figures && k.2 == style.exact && k.0 == *value;
    if let Some(kept) = style.memo.0.borrow().iter().find(key) {
        return kept.3.clone();
    }
    let seen = look(value, style);
    let mut kept = style.memo.0.borrow_mut();
    if kept.len() < MOST_KEPT {
        kept.push((value.clone(), style.figures, style.exact, seen.clone()));
    }
    seen
}

fn look(value: &Value, style: Style<'_>) -> Seen {
    let (negative, size) = split(value);
    let plain = |math: Math, exact: bool| Seen { math, exact, negative, sum: false, lettered: false };
    if let Some(decimal) = in_full(&size, IN_FULL) {
        return plain(Math::number(decimal), true);
    }
    if size.is_number()
        && !style.exact
        && let Ok(rounded) = round_significant(&size, style.figures)
    {
        return plain(Math::number(rounded.digits), rounded.exact);
    }
    if !style.exact
        && let Some((digits, letter, exact)) = times_letter(&size, style.figures)
    {
        let math = Math::row([Math::number(digits), Math::quantity(&letter)]);
        return plain(math, exact);
    }
    let math = size.math();
    let lettered = matches!(first(&math), Math::Quantity(_) | Math::Sub(..));
    Seen { sum: is_sum(&math), lettered, ..plain(math, true) }
}

/// `9.5487m`: a number that is no short fraction, times one letter.
fn times_letter(size: &Value, figures: u32) -> Option<(String, String, bool)> {
    let symbols = size.symbols();
    let letter = symbols.iter().next().filter(|s| symbols.len() == 1 && *s != "g")?;
    let coefficients = size.coefficients_in(letter)?;
    let [zero, number] = coefficients.as_slice() else { return None };
    if !zero.is_zero() || !number.is_number() {
        return None;
    }
    if let Some(digits) = in_full(number, IN_FULL).filter(|d| d != "1") {
        return Some((digits, letter.clone(), true));
    }
    let rounded =
        number.as_rational().is_none().then(|| round_significant(number, figures).ok()).flatten()?;
    Some((rounded.digits, letter.clone(), rounded.exact))
}

fn first(math: &Math) -> &Math {
    match math {
        Math::Row(pieces) => pieces.first().map(first).unwrap_or(math),
        Math::Tagged(_, inside) => first(inside),
        Math::Power(base, _) => first(base),
        _ => math,
    }
}

/// Several terms?
pub(crate) fn is_sum(math: &Math) -> bool {
    match math {
        Math::Row(pieces) => {
            pieces.iter().skip(1).any(|p| matches!(p, Math::Op(s) if s == "+" || s == "−"))
                || matches!(pieces.as_slice(), [one] if is_sum(one))
        }
        Math::Tagged(_, inside) => is_sum(inside),
        _ => false,
    }
}

/// A sum of signed pieces, a positive one in front where there is one.
pub(crate) fn sum(mut pieces: Vec<(bool, Math)>) -> Math {
    if let Some(place) = pieces.iter().position(|(negative, _)| !negative) {
        let front = pieces.remove(place);
        pieces.insert(0, front);
    }
    let mut row = Vec::new();
    for (n, (negative, math)) in pieces.into_iter().enumerate() {
        if negative {
            row.push(Math::op("−"));
        } else if n > 0 {
            row.push(Math::op("+"));
        }
        row.push(math);
    }
    if row.is_empty() { Math::number("0") } else { Math::Row(row) }
}

/// A value with its sign, as one piece.
pub(crate) fn signed(value: &Value, style: Style<'_>) -> (Math, bool) {
    let seen = seen(value, style);
    let math = if seen.negative && seen.sum { Math::paren(seen.math) } else { seen.math };
    (sum(vec![(seen.negative, math)]), seen.exact)
}

/// `=`, or `≈` where something on the line is rounded.
pub(crate) fn equals(exact: bool) -> Math {
    Math::op(if exact { "=" } else { "≈" })
}

/// The unit of a kind of quantity, in plain letters and as printed; empty where there is none.
pub(crate) fn unit(kind: Kind) -> (&'static str, &'static str) {
    match kind {
        Kind::Mass => ("kg", "kg"),
        Kind::Acceleration | Kind::Gravity => ("m s^-2", "m s⁻²"),
        Kind::Tension
        | Kind::Reaction
        | Kind::Friction
        | Kind::Force
        | Kind::Resistance
        | Kind::PulleyForce => ("N", "N"),
        Kind::Speed | Kind::Velocity => ("m s^-1", "m s⁻¹"),
        Kind::Distance | Kind::Displacement => ("m", "m"),
        Kind::Impulse => ("N s", "N s"),
        Kind::Energy => ("J", "J"),
        Kind::Time => ("s", "s"),
        Kind::Angle => ("degrees", "°"),
        Kind::Coefficient | Kind::Number => ("", ""),
    }
}

/// A number as it is written in plain letters, with its unit.
pub(crate) fn with_unit(digits: &str, kind: Kind) -> (String, Math) {
    let (ascii, printed) = unit(kind);
    let (negative, size) = match digits.strip_prefix('-') {
        Some(size) => (true, size),
        None => (false, digits),
    };
    let mut row = Vec::new();
    if negative {
        row.push(Math::op("−"));
    }
    row.push(Math::number(size));
    if ascii.is_empty() {
        return (digits.to_owned(), Math::Row(row));
    }
    row.push(Math::unit(printed));
    (format!("{digits} {ascii}"), Math::Row(row))
}
