//! How an answer is given: in full, rounded as the question or the house asks, or in letters.

use crate::shown::{figures as count, in_full, unit, with_unit};
use crate::single::takes_unit;
use exact::{Math, Value, round_places, round_significant};
use model::{Accuracy, Ask, Kind};

/// The most figures of an answer that is given in full, where g has not come in.
const FULL_WITHOUT_G: usize = 5;

/// An answer as it is given.
#[derive(Clone, Debug)]
pub(crate) struct Form {
    /// In plain letters, unit included.
    pub(crate) ascii: String,
    /// As a formula, unit included.
    pub(crate) math: Math,
    /// Nothing was rounded.
    pub(crate) exact: bool,
    /// `(3 s.f.)` where it was.
    pub(crate) note: String,
}

/// How closely and from what an answer was worked out.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Closeness {
    /// What the question says.
    pub(crate) accuracy: Option<Accuracy>,
    /// What the house does otherwise.
    pub(crate) figures: u32,
    /// Did a decimal value of g come in? Then more figures would say more than is known.
    pub(crate) from_g: bool,
}

impl Closeness {
    /// For one ask: what it says, or else as many figures as the value has that is to be shown.
    pub(crate) fn of(ask: &Ask, figures: u32, from_g: bool) -> Closeness {
        let shown = || {
            let digits = ask.show.as_ref()?.as_rational()?.terminating_decimal()?;
            u32::try_from(count(&digits)).ok().map(|n| Accuracy::Significant(n.max(1)))
        };
        Closeness { accuracy: ask.accuracy.or_else(shown), figures, from_g }
    }
}

/// The form of an answer.
pub(crate) fn form(value: &Value, kind: Kind, close: Closeness) -> Form {
    let figures = usize::try_from(close.figures).unwrap_or(3);
    let exactly = close.accuracy == Some(Accuracy::Exact);
    if !value.is_number() || exactly {
        return as_it_is(value, kind);
    }
    let full = match close.accuracy {
        Some(Accuracy::Places(_)) => None,
        Some(Accuracy::Significant(n)) => in_full(value, usize::try_from(n).unwrap_or(figures)),
        _ => in_full(value, if close.from_g { figures } else { figures.max(FULL_WITHOUT_G) }).or_else(|| {
            value.as_rational().filter(|r| r.is_integer() && !close.from_g).map(|r| r.to_string())
        }),
    };
    if let Some(digits) = full {
        let (ascii, math) = with_unit(&digits, kind);
        return Form { ascii, math, exact: true, note: String::new() };
    }
    let (rounded, note) = match close.accuracy {
        Some(Accuracy::Places(n)) => (round_places(value, n), format!("({n} d.p.)")),
        Some(Accuracy::Significant(n)) => (round_significant(value, n), format!("({n} s.f.)")),
        _ => (round_significant(value, close.figures), format!("({} s.f.)", close.figures)),
    };
    match rounded {
        Ok(decimal) => {
            let (ascii, math) = with_unit(&decimal.digits, kind);
            let note = if decimal.exact { String::new() } else { note };
            Form { ascii, math, exact: decimal.exact, note }
        }
        Err(_) => as_it_is(value, kind),
    }
}

/// `2mg/5` for `2*m*g/5`; a star stays in front of what is more than one letter.
fn plain_algebra(value: &Value) -> String {
    let stars = value.to_string();
    let mut out = String::new();
    let mut rest = stars.as_str();
    while let Some((before, after)) = rest.split_once('*') {
        out.push_str(before);
        let word: Vec<char> = after.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
        let bracket = after.starts_with('(');
        let letter = matches!(word.as_slice(), [c] if c.is_alphabetic());
        if !letter && !bracket {
            out.push('*');
        }
        rest = after;
    }
    out.push_str(rest);
    out
}

/// In fractions, roots and letters.
fn as_it_is(value: &Value, kind: Kind) -> Form {
    let (ascii_unit, printed) = unit(kind);
    let math = value.math();
    let text = plain_algebra(value);
    if ascii_unit.is_empty() || !takes_unit(value) {
        return Form { ascii: text, math, exact: true, note: String::new() };
    }
    Form {
        ascii: format!("{text} {ascii_unit}"),
        math: Math::row([math, Math::unit(printed)]),
        exact: true,
        note: String::new(),
    }
}
