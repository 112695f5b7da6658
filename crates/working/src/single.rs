//! The lines of a step that finds one unknown from one equation. Every line is proved with the exact values:
//! both sides are worked out and must be equal.

use crate::form::Form;
use crate::shown::{Style, equals, seen, signed, split, sum, unit};
use crate::view::{Entry, View, same};
use crate::work::{Line, LineKind};
use crate::write::{Writer, forces, tag};
use exact::{Math, Sign, Value};
use model::{Kind, QuantityId};
use motion::{ForceId, Origin};

/// What the lines of a step need to know of the house and of the unknown.
#[derive(Clone)]
pub(crate) struct Manner<'m> {
    /// How carried values are written.
    pub(crate) style: Style<'m>,
    /// How the unknown is given, if it is asked for.
    pub(crate) answer: Option<Form>,
}

/// A line with nothing around its formula.
pub(crate) fn line(kind: LineKind, math: Math, forces: Vec<ForceId>) -> Line {
    Line { kind, before: String::new(), math, after: String::new(), forces }
}

/// The equation in letters and with numbers. `None` if it does not hold: then nothing is shown of it.
pub(crate) fn stated(
    view: &View<'_>,
    entry: &Entry<'_>,
    unknown: &[QuantityId],
    style: Style<'_>,
) -> Option<Vec<Line>> {
    if !view.holds(entry) {
        return None;
    }
    let acting = forces(entry.left.iter().chain(&entry.right));
    let symbols = Writer { view, style, unknown: None }.equation(entry);
    let numbers = Writer { view, style, unknown: Some(unknown) }.equation(entry);
    let alike = symbols.math.plain() == numbers.math.plain();
    let mut lines = vec![line(LineKind::Symbols, symbols.math, acting.clone())];
    if !alike {
        lines.push(line(LineKind::Numbers, numbers.math, acting));
    }
    Some(lines)
}

/// All lines from the equation to its unknown.
pub(crate) fn lines(
    view: &View<'_>,
    entry: &Entry<'_>,
    x: QuantityId,
    manner: &Manner<'_>,
) -> Option<Vec<Line>> {
    let mut lines = stated(view, entry, &[x], manner.style)?;
    lines.extend(from_numbers(view, entry, x, manner, lines.last().map(|l| l.math.plain()))?);
    Some(lines)
}

/// The lines from the equation with its numbers to the unknown.
pub(crate) fn from_numbers(
    view: &View<'_>,
    entry: &Entry<'_>,
    x: QuantityId,
    manner: &Manner<'_>,
    before: Option<String>,
) -> Option<Vec<Line>> {
    if entry.sided().any(|(_, p)| p.has_trig(x)) {
        return crate::angles::lines(view, entry, x, manner);
    }
    let style = manner.style;
    let value = view.value(x)?;
    let [zero, one, two] = view.polynomial(entry, x)?;
    if !same(&(&zero + &(&one * value) + &two * value * value), &Value::zero()) {
        return None;
    }
    let acting = forces(entry.left.iter().chain(&entry.right));
    let letter = Math::quantity(view.letter(x));
    let mut lines = Vec::new();
    let rearranged = if !two.is_zero() {
        Some(quadratic(&letter, [&zero, &one, &two], style))
    } else {
        let holding: Vec<_> = entry.sided().filter(|(_, p)| p.degree(x) > 0).collect();
        let others = entry.size().saturating_sub(holding.len());
        let plain = one.as_rational().is_some_and(|c| c.abs().is_one()) && holding.len() == 1;
        match (plain, others) {
            (true, 0 | 1) => None,
            (true, _) => Some(moved_over(view, entry, x, &letter, style)),
            (false, _) => Some(collected(&letter, &zero, &one, style)),
        }
    };
    if let Some(math) = rearranged
        && before.as_deref() != Some(math.plain().as_str())
    {
        lines.push(line(LineKind::Rearranged, math, acting));
    }
    let mut found = results(view, x, manner)?;
    if let (Some(first), true) = (found.first_mut(), !two.is_zero() && !one.is_zero()) {
        let other = -one.checked_div(&two).ok()? - value;
        lines.extend(roots(view, x, &other, style));
        first.before = chosen(view, x, &other);
    }
    lines.extend(found);
    Some(lines)
}

/// Both roots of a quadratic, where they are numbers.
pub(crate) fn roots(view: &View<'_>, x: QuantityId, other: &Value, style: Style<'_>) -> Option<Line> {
    let value = view.value(x)?;
    let one = result(&Math::quantity(view.letter(x)), value, Kind::Number, style);
    let two = result(&Math::quantity(view.letter(x)), other, Kind::Number, style);
    let both = Math::row([one.0, Math::upright("or"), two.0]);
    let different = value.is_number() && other.is_number() && !same(value, other);
    different.then(|| line(LineKind::Rearranged, both, Vec::new()))
}

/// Why this root and not the other.
pub(crate) fn chosen(view: &View<'_>, x: QuantityId, other: &Value) -> String {
    let letter = Math::quantity(view.letter(x)).plain();
    let size = view.situation.quantity(x).is_some_and(|q| {
        !matches!(q.kind, Kind::Velocity | Kind::Displacement | Kind::Acceleration | Kind::Friction)
    });
    match motion::sign_with_positive_letters(other) {
        Some(Sign::Negative) if size => format!("{letter} > 0, so"),
        Some(Sign::Zero) if view.situation.quantity(x).is_some_and(|q| q.kind == Kind::Time) => {
            format!("{letter} = 0 is the start, so")
        }
        _ => "The root that agrees with the other equations:".to_owned(),
    }
}

/// x = the other terms, each worked out.
fn moved_over(view: &View<'_>, entry: &Entry<'_>, x: QuantityId, letter: &Math, style: Style<'_>) -> Math {
    let turn = entry.sided().find(|(_, p)| p.degree(x) > 0).map_or(1, |(side, p)| side * p.term.sign);
    let mut exact = true;
    let mut pieces = Vec::new();
    let inertia =
        entry.sided().filter(|(_, p)| p.degree(x) == 0 && matches!(p.term.origin, Origin::Inertia(_)));
    let mut together: Option<Value> = None;
    for (side, piece) in inertia {
        let value = if side * turn > 0 { -piece.value(view) } else { piece.value(view).clone() };
        together = Some(together.map_or(value.clone(), |t| t + value));
    }
    for (side, piece) in entry.sided().filter(|(_, p)| p.degree(x) == 0) {
        let value = if matches!(piece.term.origin, Origin::Inertia(_)) {
            // Mass × acceleration of all bodies as one number.
            let Some(total) = together.take() else { continue };
            total
        } else if side * turn > 0 {
            -piece.value(view)
        } else {
            piece.value(view).clone()
        };
        let seen = seen(&value, style);
        exact &= seen.exact;
        let math = if seen.negative && seen.sum { Math::paren(seen.math) } else { seen.math };
        let math = match piece.term.origin {
            Origin::Force(id) => Math::tagged(tag(id), math),
            _ => math,
        };
        pieces.push((seen.negative, math));
    }
    Math::row([letter.clone(), equals(exact), sum(pieces)])
}

/// A coefficient in front of a letter.
pub(crate) fn times(coefficient: &Value, letter: &Math, style: Style<'_>) -> (bool, Math, bool) {
    let (negative, size) = split(coefficient);
    if size == Value::one() {
        return (negative, letter.clone(), true);
    }
    let seen = seen(&size, style);
    let number = if seen.sum { Math::paren(seen.math) } else { seen.math };
    (negative, Math::row([number, letter.clone()]), seen.exact)
}

/// `2250 = 3000a`: the constants on one side, the unknown with a positive coefficient on the other.
pub(crate) fn collected(letter: &Math, zero: &Value, one: &Value, style: Style<'_>) -> Math {
    let (negative, _) = split(one);
    let (constant, coefficient) = if negative { (zero.clone(), -one) } else { (-zero, one.clone()) };
    let (_, term, exact) = times(&coefficient, letter, style);
    let (number, exact_too) = signed(&constant, style);
    let op = equals(exact && exact_too);
    if negative { Math::row([number, op, term]) } else { Math::row([term, op, number]) }
}

pub(crate) fn quadratic(letter: &Math, [zero, one, two]: [&Value; 3], style: Style<'_>) -> Math {
    let (negative, _) = split(two);
    let turn = |v: &Value| if negative { -v } else { v.clone() };
    let (zero, one, two) = (turn(zero), turn(one), turn(two));
    let square = Math::power(letter.clone(), Math::number("2"));
    let (_, first, exact) = times(&two, &square, style);
    if one.is_zero() {
        let (number, exact_too) = signed(&-zero, style);
        return Math::row([first, equals(exact && exact_too), number]);
    }
    let (minus, second, exact_two) = times(&one, letter, style);
    let third = seen(&zero, style);
    let mut pieces = vec![(false, first), (minus, second)];
    if !zero.is_zero() {
        pieces.push((third.negative, third.math));
    }
    let left = sum(pieces);
    Math::row([left, equals(exact && exact_two && third.exact), Math::number("0")])
}

/// The result with its unit, and once more as the answer if it is one and is rounded further.
pub(crate) fn results(view: &View<'_>, x: QuantityId, manner: &Manner<'_>) -> Option<Vec<Line>> {
    let kind = view.situation.quantity(x)?.kind;
    if kind == Kind::Angle {
        return crate::angles::results(view, x, manner);
    }
    let value = view.value(x)?;
    let letter = Math::quantity(view.letter(x));
    let (carried, exact) = result(&letter, value, kind, manner.style);
    let carried = line(LineKind::Result, carried, Vec::new());
    let Some(form) = &manner.answer else { return Some(vec![carried]) };
    let mut answer =
        line(LineKind::Result, Math::row([letter, equals(form.exact), form.math.clone()]), Vec::new());
    answer.after.clone_from(&form.note);
    let rounded_further = !form.exact && (exact || carried.math.plain() != answer.math.plain());
    Some(if rounded_further { vec![carried, answer] } else { vec![answer] })
}

fn result(letter: &Math, value: &Value, kind: Kind, style: Style<'_>) -> (Math, bool) {
    let (number, exact) = signed(value, style);
    let mut row = vec![letter.clone(), equals(exact), number];
    let printed = unit(kind).1;
    if !printed.is_empty() && takes_unit(value) {
        row.push(Math::unit(printed));
    }
    (Math::Row(row), exact)
}

/// A value in letters is not followed by a unit, unless g is its only letter.
pub(crate) fn takes_unit(value: &Value) -> bool {
    value.is_number() || value.symbols().iter().all(|s| s == "g")
}
