//! The lines of a step that solves several equations together: adding two of them so that one unknown cancels,
//! or putting one into the others.

use crate::linear::{Row, determined};
use crate::shown::{Style, equals, split, sum};
use crate::single::{Manner, collected, from_numbers, line, results, stated, times};
use crate::view::{Entry, View, same};
use crate::work::{Line, LineKind};
use crate::write::forces;
use exact::{Math, Rational, Value};
use model::QuantityId;

/// All lines of the step; `None` if one of them cannot be proved.
pub(crate) fn lines<'m>(
    view: &View<'_>,
    entries: &[&Entry<'_>],
    unknowns: &[QuantityId],
    manner: impl Fn(QuantityId) -> Manner<'m>,
) -> Option<Vec<Line>> {
    let style = manner(*unknowns.first()?).style;
    let rows: Option<Vec<Row>> = entries.iter().map(|e| Row::of(view, e, unknowns)).collect();
    let Some(rows) = rows else { return crate::eliminate::lines(view, entries, unknowns, &manner) };
    if !determined(rows.clone(), unknowns.len()) || !rows.iter().all(|row| holds(view, row, unknowns)) {
        return None;
    }
    let mut lines = numbered(view, entries, unknowns, style)?;
    match adding(view, entries, &rows, unknowns, &manner) {
        Some(more) => lines.extend(more),
        None => lines.extend(putting_in(view, &rows, unknowns, &manner)?),
    }
    Some(lines)
}

/// Does the row hold with the values of the stage?
fn holds(view: &View<'_>, row: &Row, unknowns: &[QuantityId]) -> bool {
    let mut total = Value::zero();
    for (c, u) in row.coefficients.iter().zip(unknowns) {
        let Some(value) = view.value(*u) else { return false };
        total += c * value;
    }
    same(&total, &row.constant)
}

/// Every equation in letters and in numbers, with its number behind it.
pub(crate) fn numbered(
    view: &View<'_>,
    entries: &[&Entry<'_>],
    unknowns: &[QuantityId],
    style: Style<'_>,
) -> Option<Vec<Line>> {
    let mut lines = Vec::new();
    for (n, entry) in entries.iter().enumerate() {
        let mut pair = stated(view, entry, unknowns, style)?;
        if let Some(last) = pair.last_mut() {
            last.after = format!("({})", n + 1);
        }
        lines.extend(pair);
    }
    Some(lines)
}

/// Two equations in which one unknown has the same coefficient but for its sign, or a whole multiple of it.
fn adding<'m>(
    view: &View<'_>,
    entries: &[&Entry<'_>],
    rows: &[Row],
    unknowns: &[QuantityId],
    manner: &impl Fn(QuantityId) -> Manner<'m>,
) -> Option<Vec<Line>> {
    let ([one, two], [_, _], [first, second]) = (rows, unknowns, entries) else { return None };
    // The unknown to cancel: one with coefficients that match, the first that does; forces before accelerations.
    let mut order: Vec<usize> = vec![0, 1];
    order.sort_by_key(|&i| {
        let kind = unknowns.get(i).and_then(|u| view.situation.quantity(*u)).map(|q| q.kind);
        kind == Some(model::Kind::Acceleration)
    });
    let (cancel, ratio) = order.into_iter().find_map(|i| Some((i, multiple(&one.at(i), &two.at(i))?)))?;
    let keep = 1 - cancel;
    let (x, y) = (*unknowns.get(keep)?, *unknowns.get(cancel)?);
    let (combined, before) = combine(one, two, &ratio, view.letter(y))?;
    if !holds(view, &combined, unknowns) || combined.at(keep).is_zero() {
        return None;
    }
    let letter = Math::quantity(view.letter(x));
    let math = collected(&letter, &-&combined.constant, &combined.at(keep), manner(x).style);
    let mut sum_line = line(LineKind::Rearranged, math, forces(first.left.iter().chain(&second.left)));
    sum_line.before = before;
    let mut lines = vec![sum_line];
    lines.extend(results(view, x, &manner(x))?);
    // Back into the equation in which the other unknown stands with a plus.
    let minus = |e: &Entry<'_>| e.left.iter().any(|p| p.term.sign < 0 && p.degree(y) > 0);
    let (place, entry) = if minus(first) && !minus(second) { (2, second) } else { (1, first) };
    let mut back = from_numbers(view, entry, y, &manner(y), None)?;
    if let Some(line) = back.first_mut() {
        line.before = format!("From ({place}):");
    }
    lines.extend(back);
    Some(lines)
}

/// How the second coefficient stands to the first, if one is a whole multiple of the other.
fn multiple(one: &Value, two: &Value) -> Option<Rational> {
    if one.is_zero() || two.is_zero() {
        return None;
    }
    let ratio = two.checked_div(one).ok()?.as_rational()?.clone();
    let size = ratio.abs();
    let inverse = size.recip()?;
    let small = |r: &Rational| r.is_integer() && r.as_i64().is_some_and(|n| n <= 4);
    (small(&size) || small(&inverse)).then_some(ratio)
}

/// The combination in which the unknown cancels, and how to say it.
fn combine(one: &Row, two: &Row, ratio: &Rational, letter: &str) -> Option<(Row, String)> {
    let letter = Math::quantity(letter).plain();
    let size = ratio.abs();
    let same_sign = ratio.signum() > 0;
    let (multiplied_one, multiplied_two) = if size.is_integer() {
        (Value::from(&size), Value::one())
    } else {
        (Value::one(), Value::from(&size.recip()?))
    };
    let sign = if same_sign { -Value::one() } else { Value::one() };
    let row = one.times(&multiplied_one).plus(&(sign * &multiplied_two), two);
    let name =
        |n: usize, by: &Value| if *by == Value::one() { format!("({n})") } else { format!("{by} × ({n})") };
    let (first, second) = (name(1, &multiplied_one), name(2, &multiplied_two));
    let says = if same_sign {
        format!("Taking {second} from {first}, {letter} cancels:")
    } else {
        format!("Adding {first} and {second}, {letter} cancels:")
    };
    Some((row, says))
}

/// One unknown after another is written in terms of the others and put into the equations that are left.
fn putting_in<'m>(
    view: &View<'_>,
    rows: &[Row],
    unknowns: &[QuantityId],
    manner: &impl Fn(QuantityId) -> Manner<'m>,
) -> Option<Vec<Line>> {
    let mut lines = Vec::new();
    let mut left: Vec<(usize, Row)> = rows.iter().cloned().enumerate().map(|(n, r)| (n + 1, r)).collect();
    let mut solved: Vec<(usize, Row)> = Vec::new();
    while left.len() > 1 {
        // The shortest equation first, and in it the unknown with the simplest coefficient.
        let place = (0..left.len()).min_by_key(|&i| left.get(i).map(|(_, r)| r.present().len()))?;
        let (number, row) = left.remove(place);
        let unknown = row.present().into_iter().min_by_key(|&i| {
            let one = split(&row.at(i)).1 == Value::one();
            let accelerates = unknowns.get(i).is_some_and(|u| is_acceleration(view, *u));
            (!one, accelerates, row.at(i).terms())
        })?;
        let by = Value::one().checked_div(&row.at(unknown)).ok()?;
        let unit_row = row.times(&by);
        if !holds(view, &unit_row, unknowns) {
            return None;
        }
        let mut shown = line(
            LineKind::Rearranged,
            expressed(view, &unit_row, unknown, unknowns, manner(*unknowns.get(unknown)?).style),
            Vec::new(),
        );
        shown.before = format!("From ({number}):");
        lines.push(shown);
        for (_, other) in &mut left {
            let factor = -other.at(unknown);
            *other = other.plus(&factor, &unit_row);
        }
        solved.push((unknown, unit_row));
    }
    let (number, last) = left.pop()?;
    let present = last.present();
    let [x] = present.as_slice() else { return None };
    let id = *unknowns.get(*x)?;
    if !holds(view, &last, unknowns) {
        return None;
    }
    let letter = Math::quantity(view.letter(id));
    let mut put = line(
        LineKind::Rearranged,
        collected(&letter, &-&last.constant, &last.at(*x), manner(id).style),
        Vec::new(),
    );
    put.before = format!("Putting {} into ({number}):", if solved.len() > 1 { "these" } else { "this" });
    lines.push(put);
    lines.extend(results(view, id, &manner(id))?);
    for (unknown, row) in solved.iter().rev() {
        let id = *unknowns.get(*unknown)?;
        if row.present().len() > 1 || row.constant != *view.value(id)? {
            lines.extend(results(view, id, &manner(id))?);
        }
    }
    Some(lines)
}

fn is_acceleration(view: &View<'_>, id: QuantityId) -> bool {
    view.situation.quantity(id).is_some_and(|q| q.kind == model::Kind::Acceleration)
}

/// `R = 39.2 − 0.5P`
fn expressed(view: &View<'_>, row: &Row, unknown: usize, unknowns: &[QuantityId], style: Style<'_>) -> Math {
    let letter = |i: usize| Math::quantity(unknowns.get(i).map_or("", |u| view.letter(*u)));
    let mut pieces = Vec::new();
    let mut exact = true;
    if !row.constant.is_zero() || row.present().len() == 1 {
        let seen = crate::shown::seen(&row.constant, style);
        exact &= seen.exact;
        pieces.push((seen.negative, seen.math));
    }
    for i in row.present().into_iter().filter(|i| *i != unknown) {
        let (negative, math, exact_too) = times(&-row.at(i), &letter(i), style);
        exact &= exact_too;
        pieces.push((negative, math));
    }
    Math::row([letter(unknown), equals(exact), sum(pieces)])
}
