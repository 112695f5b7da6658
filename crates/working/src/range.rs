//! Ranges: the interval as it is given, and the steps to its ends, one for each inequality that sets an end.

use crate::direction::{capital, of_system, ways};
use crate::form::{Closeness, form};
use crate::shown::{Seen, Style, seen, sum, unit};
use crate::single::{line, times};
use crate::view::View;
use crate::work::{Answered, Line, LineKind, Step};
use exact::{Math, Value};
use model::{Ask, BodyId, Grip, Kind, QuantityId};
use motion::{About, Bound, End, Interval, Range};

/// The quantities that have to be found before the ends can be told.
pub(crate) fn needs(range: &Range) -> Vec<QuantityId> {
    let mut found = Vec::new();
    for bound in deciding(range) {
        let stage = range.situation.stage(range.solved.stage);
        if let (Some(About::Friction(body)), Some(stage)) = (bound.about, stage) {
            found.extend(stage.reactions.get(body.0).copied().flatten());
        }
        found.extend(bound.quantity.filter(|_| bound.about.is_some()));
    }
    found.retain(|q| range.solved.value(*q).is_some());
    found
}

/// The inequalities that set an end, each once, those that only say that a mass is a mass left out.
fn deciding(range: &Range) -> Vec<&Bound> {
    let ends = range.intervals.iter().flat_map(|i| i.low.iter().chain(&i.high));
    let mut numbers: Vec<usize> = ends.map(|e| e.bound).collect();
    numbers.sort_unstable();
    numbers.dedup();
    let all = numbers.into_iter().filter_map(|n| range.bounds.get(n));
    all.filter(|b| b.about.is_some() || b.quantity.is_none()).collect()
}

/// Fills in the answer.
pub(crate) fn answer(answer: &mut Answered, view: &View<'_>, range: &Range, ask: &Ask, figures: u32) {
    let kind = view.situation.quantity(range.quantity).map_or(Kind::Number, |q| q.kind);
    kind.word().clone_into(&mut answer.quantity);
    unit(kind).0.clone_into(&mut answer.unit_ascii);
    let letter = Math::quantity(&range.letter);
    let mut rows = Vec::new();
    let mut exact = Vec::new();
    for interval in &range.intervals {
        let value = |v: &Value| end_math(v, kind, Closeness::of(ask, figures, true));
        let mut row = written(interval, &letter, value);
        let in_numbers = interval.low.iter().chain(&interval.high).all(|e| e.value.is_number());
        let bounded = interval.low.iter().chain(&interval.high).any(|e| !e.value.is_zero());
        if in_numbers && bounded && !unit(kind).1.is_empty() {
            row.push(Math::unit(unit(kind).1));
        }
        rows.push(Math::Row(row));
        exact.push(in_algebra(interval, &range.letter));
    }
    answer.exact = exact.join(" or ");
    let mut row = Vec::new();
    for (n, math) in rows.into_iter().enumerate() {
        if n > 0 {
            row.push(Math::upright("or"));
        }
        row.push(math);
    }
    answer.shown_math = Math::Row(row);
    answer.shown = answer.shown_math.plain();
}

/// A plain number without a unit stays a fraction; a size is given as other answers are.
fn end_math(value: &Value, kind: Kind, close: Closeness) -> Math {
    let small = value.as_rational().is_some_and(|r| r.is_integer() || r.to_string().len() <= 7);
    if matches!(kind, Kind::Number | Kind::Coefficient) && small {
        return value.math();
    }
    form(value, Kind::Number, close).math
}

fn written(interval: &Interval, letter: &Math, value: impl Fn(&Value) -> Math) -> Vec<Math> {
    let sign = |end: &End, open: &str, closed: &str| Math::op(if end.closed { closed } else { open });
    match (&interval.low, &interval.high) {
        (None, None) => vec![letter.clone(), Math::upright("has any value")],
        (Some(low), None) => vec![letter.clone(), sign(low, ">", "≥"), value(&low.value)],
        (None, Some(high)) => vec![letter.clone(), sign(high, "<", "≤"), value(&high.value)],
        (Some(low), Some(high)) if low.value == high.value => {
            vec![letter.clone(), Math::op("="), value(&low.value)]
        }
        (Some(low), Some(high)) => vec![
            value(&low.value),
            sign(low, "<", "≤"),
            letter.clone(),
            sign(high, "<", "≤"),
            value(&high.value),
        ],
    }
}

fn in_algebra(interval: &Interval, letter: &str) -> String {
    let sign = |end: &End, open: &'static str, closed: &'static str| if end.closed { closed } else { open };
    match (&interval.low, &interval.high) {
        (None, None) => String::new(),
        (Some(low), None) => format!("{letter} {} {}", sign(low, ">", ">="), low.value),
        (None, Some(high)) => format!("{letter} {} {}", sign(high, "<", "<="), high.value),
        (Some(low), Some(high)) if low.value == high.value => format!("{letter} = {}", low.value),
        (Some(low), Some(high)) => format!(
            "{} {} {letter} {} {}",
            low.value,
            sign(low, "<", "<="),
            sign(high, "<", "<="),
            high.value
        ),
    }
}

/// One step for each inequality that sets an end, and one that puts them together.
pub(crate) fn steps(view: &View<'_>, place: usize, ask: &Ask, style: Style<'_>) -> Vec<Step> {
    let Some(range) = view.range else { return Vec::new() };
    let deciding = deciding(range);
    let several = deciding.len() > 1;
    let mut steps = Vec::new();
    for bound in deciding {
        let step = step(view, range, bound, ask, style);
        steps.extend(step);
    }
    let kind = view.situation.quantity(range.quantity).map_or(Kind::Number, |q| q.kind);
    if several {
        let letter = Math::quantity(&range.letter);
        let close = Closeness::of(ask, style.figures.saturating_sub(2).max(3), true);
        let lines = range.intervals.iter().map(|interval| {
            let row = written(interval, &letter, |v| end_math(v, kind, close));
            line(LineKind::Result, Math::Row(row), Vec::new())
        });
        steps.push(Step {
            part: ask.part.clone(),
            ask: Some(place),
            system: Vec::new(),
            system_name: "together".to_owned(),
            direction: String::new(),
            reason: "All of this must hold.".to_owned(),
            lines: lines.collect(),
            equations: Vec::new(),
            gives: Vec::new(),
            is_check: false,
        });
    } else if let Some(last) = steps.last_mut() {
        last.ask = Some(place);
    }
    steps
}

fn step(view: &View<'_>, range: &Range, bound: &Bound, ask: &Ask, style: Style<'_>) -> Option<Step> {
    let body = match bound.about {
        Some(About::Friction(b) | About::Contact(b) | About::Motion(b)) => Some(b),
        _ => None,
    };
    let system: Vec<BodyId> = body.into_iter().collect();
    let mut lines: Vec<Line> = Vec::new();
    let upper = bound.about.is_some_and(|a| matches!(a, About::Friction(_) | About::Bears(_)))
        && bound.quantity.and_then(|q| view.value(q)) == Some(&bound.smaller);
    if let Some(id) = bound.quantity {
        lines.extend(in_letters(view, bound, id, upper));
    }
    let sign = match (upper, bound.strict) {
        (true, _) => "≤",
        (false, true) => ">",
        (false, false) => "≥",
    };
    let (left, right) =
        if upper { (&bound.smaller, &bound.greater) } else { (&bound.greater, &bound.smaller) };
    let numbers =
        Math::row([spread(left, &range.letter, style), Math::op(sign), spread(right, &range.letter, style)]);
    lines.push(line(LineKind::Numbers, numbers, Vec::new()));
    lines.push(line(LineKind::Result, told(view, range, bound, style)?, Vec::new()));
    Some(Step {
        part: ask.part.clone(),
        ask: None,
        system_name: body.map_or("limit", |b| view.body_name(b)).to_owned(),
        direction: if system.is_empty() { String::new() } else { of_system(view, &system) },
        system,
        reason: reason(view, bound, upper),
        lines,
        equations: Vec::new(),
        gives: Vec::new(),
        is_check: false,
    })
}

/// `F ≤ μR`, `F ≥ −μR`, `T > 0`.
fn in_letters(view: &View<'_>, bound: &Bound, id: QuantityId, upper: bool) -> Option<Line> {
    let letter = |q: QuantityId| Math::quantity(view.letter(q));
    let row = match bound.about? {
        About::Bears(link) => {
            let most = view.situation.link(link)?.bears?;
            let mut row = vec![letter(id), Math::op(if upper { "≤" } else { "≥" })];
            if !upper {
                row.push(Math::op("−"));
            }
            row.push(letter(most));
            row
        }
        About::Friction(body) => {
            let Some(Grip::Rough(mu)) = view.situation.body(body)?.surface.as_ref().map(|s| s.grip) else {
                return None;
            };
            let reaction = view.stage()?.reactions.get(body.0).copied().flatten()?;
            if view.stage()?.frictions.get(body.0).copied().flatten() != Some(id) {
                return None;
            }
            let mut row = vec![letter(id), Math::op(if upper { "≤" } else { "≥" })];
            if !upper {
                row.push(Math::op("−"));
            }
            row.extend([letter(mu), letter(reaction)]);
            row
        }
        _ => vec![letter(id), Math::op(if bound.strict { ">" } else { "≥" }), Math::number("0")],
    };
    Some(line(LineKind::Symbols, Math::Row(row), Vec::new()))
}

/// The ends that the inequality sets, as inequalities of the letter.
fn told(view: &View<'_>, range: &Range, bound: &Bound, style: Style<'_>) -> Option<Math> {
    let kind = view.situation.quantity(range.quantity).map_or(Kind::Number, |q| q.kind);
    let close = Closeness { accuracy: None, figures: style.figures, from_g: true };
    let mut rows = Vec::new();
    for interval in &range.intervals {
        let own = |end: &Option<End>| end.clone().filter(|e| range.bounds.get(e.bound) == Some(bound));
        let here = Interval { low: own(&interval.low), high: own(&interval.high) };
        if here.low.is_some() || here.high.is_some() {
            let row = written(&here, &Math::quantity(&range.letter), |v| end_math(v, kind, close));
            if !rows.is_empty() {
                rows.push(Math::upright("or"));
            }
            rows.push(Math::Row(row));
        }
    }
    (!rows.is_empty()).then_some(Math::Row(rows))
}

fn reason(view: &View<'_>, bound: &Bound, upper: bool) -> String {
    match bound.about {
        Some(About::Friction(body)) => {
            let name = view.body_name(body);
            let way = ways(view, body);
            // In the orientation of the stage friction acts against the positive direction.
            let (acts, moves) = if upper { (way.against, way.with) } else { (way.with, way.against) };
            format!(
                "{} is kept from moving {moves} by friction that acts {acts} and can be no more than μR.",
                capital(name)
            )
        }
        Some(About::Bears(_)) => {
            format!("{} as long as its force is no more than it can bear.", capital(&bound.says))
        }
        Some(About::Link(_)) => format!("{} only while its force is there.", capital(&bound.says)),
        Some(About::Contact(_)) => format!("{} only while it is pressed on it.", capital(&bound.says)),
        Some(About::Motion(_)) => format!("{} only if it accelerates that way.", capital(&bound.says)),
        None => format!("{}, however the frictions share the holding.", capital(&bound.says)),
    }
}

/// A value that is linear in the letter, with its numbers as decimals where they are short.
fn spread(value: &Value, letter: &str, style: Style<'_>) -> Math {
    let parts = value.coefficients_in(letter);
    if let Some([constant, slope]) = parts.as_deref()
        && constant.is_number()
        && slope.is_number()
    {
        let (minus, term, _) = times(slope, &Math::quantity(letter), style);
        let mut pieces = vec![(minus, term)];
        if !constant.is_zero() {
            let Seen { math, negative, .. } = seen(constant, style);
            pieces.push((negative, math));
        }
        return sum(pieces);
    }
    let Seen { math, negative, .. } = seen(value, style);
    sum(vec![(negative, math)])
}
