//! Whether something is so: the comparison that decides it, and what has to be found before it can be made.

use crate::direction::{capital, of_system};
use crate::route::Findings;
use crate::shown::{Style, equals, signed, unit};
use crate::single::line;
use crate::view::{View, same};
use crate::work::{Line, LineKind, Step};
use exact::{Math, Sign, Value};
use model::{Ask, BodyId, Matter, QuantityId, Situation, Wanted};
use motion::{Factor, Side, Test, sign_with_positive_letters};

/// Is the truth of something asked?
pub(crate) fn asks(ask: &Ask) -> bool {
    matches!(ask.wanted, Wanted::Whether { .. })
}
/// Is it asked whether anything stays at rest, or moves?
pub(crate) fn asks_rest(ask: &Ask) -> bool {
    matches!(ask.wanted, Wanted::WhetherItMoves | Wanted::Whether { matter: Matter::StaysAtRest(_), .. })
}
/// Is it decided by a comparison of its own, and not by whether the bodies stay at rest?
pub(crate) fn decides_otherwise(ask: &Ask) -> bool {
    asks(ask) && !asks_rest(ask)
}

/// The comparison that decides an ask.
pub(crate) fn test(findings: &Findings, ask: usize) -> Option<&Test> {
    findings.get(ask)?.as_ref()?.as_ref().ok()?.test.as_ref()
}

/// What has to be found in the ask's own view.
pub(crate) fn needs(view: &View<'_>, test: Option<&Test>) -> Vec<QuantityId> {
    let of_another =
        |q: &QuantityId| motion::stage_of(view.situation, *q).is_some_and(|s| s != view.solved.stage);
    let all = test.into_iter().flat_map(Test::needs).filter(|q| !of_another(q));
    open(view, all)
}

/// What has to be found in other stages, by view.
pub(crate) fn elsewhere(
    situation: &Situation,
    views: &[View<'_>],
    ask: &Ask,
    own: usize,
    test: Option<&Test>,
) -> Vec<(usize, Vec<QuantityId>)> {
    let home = views.get(own).map(|v| v.solved.stage);
    let mut found = Vec::new();
    for id in test.into_iter().flat_map(Test::needs) {
        let stage = motion::stage_of(situation, id).filter(|s| Some(*s) != home);
        let fits =
            |v: &View<'_>| Some(v.solved.stage) == stage && v.solved.part <= ask.part_index && !v.apart;
        let latest = views.iter().enumerate().filter(|(_, v)| fits(v)).max_by_key(|(_, v)| v.solved.part);
        if let Some((place, view)) = latest {
            let needed = open(view, [id]);
            if !needed.is_empty() {
                found.push((place, needed));
            }
        }
    }
    found
}

fn open(view: &View<'_>, all: impl IntoIterator<Item = QuantityId>) -> Vec<QuantityId> {
    let standing = all.into_iter().map(|q| view.standing_for(q));
    standing.filter(|q| !view.known.contains(q) && view.solved.value(*q).is_some()).collect()
}

/// The step that makes the comparison.
pub(crate) fn step(view: &View<'_>, place: usize, ask: &Ask, test: &Test, style: Style<'_>) -> Step {
    let body = match &ask.wanted {
        Wanted::Whether { matter: Matter::Slips(b) | Matter::LiftsOff(b), .. } => Some(*b),
        Wanted::Whether { matter: Matter::Reaches { body, .. }, .. } => Some(*body),
        _ => None,
    };
    let system: Vec<BodyId> = body.into_iter().collect();
    let mut lines: Vec<Line> = Vec::new();
    let told = match &ask.wanted {
        Wanted::Whether { told: Some(_), .. } => ", as required",
        _ => "",
    };
    for side in [&test.left, &test.right] {
        lines.extend(product(view, side, test, style));
    }
    let sign = match sign_with_positive_letters(&(&test.left.value - &test.right.value)) {
        Some(Sign::Negative) => "<",
        Some(Sign::Positive) => ">",
        _ => "=",
    };
    let left = match test.left.factors.as_slice() {
        [Factor::Quantity(q)] => Some(*q).filter(|q| is_shown_so(view, *q, &test.left.value)),
        _ => None,
    };
    let (number, exact) = signed(&test.left.value, style);
    let mut row = Vec::new();
    if let Some(q) = left {
        row.extend([Math::quantity(view.letter(view.standing_for(q))), equals(exact)]);
    }
    row.extend([number, Math::op(sign), signed(&test.right.value, style).0]);
    let mut result = line(LineKind::Result, Math::row(row), Vec::new());
    result.after = format!(", so {}{told}", test.says);
    lines.push(result);
    Step {
        part: ask.part.clone(),
        ask: Some(place),
        system_name: body.map_or("comparison", |b| view.body_name(b)).to_owned(),
        direction: if system.is_empty() { String::new() } else { of_system(view, &system) },
        system,
        reason: reason(view, ask),
        lines,
        equations: Vec::new(),
        gives: Vec::new(),
        is_check: false,
    }
}

/// Does the quantity stand in the view with this value?
fn is_shown_so(view: &View<'_>, id: QuantityId, value: &Value) -> bool {
    view.solved.value(view.standing_for(id)).is_some_and(|v| same(v, value))
}

/// `μR = 0.4 × 490 = 196 N`, where a side is a product.
fn product(view: &View<'_>, side: &Side, test: &Test, style: Style<'_>) -> Option<Line> {
    if side.factors.len() < 2 {
        return None;
    }
    let mut letters = Vec::new();
    let mut numbers = Vec::new();
    let mut exact = true;
    for (n, factor) in side.factors.iter().enumerate() {
        let value = match factor {
            Factor::Quantity(q) => {
                let q = view.standing_for(*q);
                letters.push(Math::quantity(view.letter(q)));
                view.solved.value(q).cloned()?
            }
            Factor::Number(number) => {
                let value = Value::from(number);
                letters.push(signed(&value, style).0);
                value
            }
            Factor::Sin(_) | Factor::Cos(_) => return None,
        };
        let (number, full) = signed(&value, style);
        exact &= full;
        if n > 0 {
            numbers.push(Math::op("×"));
        }
        numbers.push(number);
    }
    let (total, full) = signed(&side.value, style);
    let mut row = letters;
    row.push(equals(exact));
    row.extend(numbers);
    row.extend([equals(exact && full), total]);
    let unit = unit(test.kind).1;
    if !unit.is_empty() {
        row.push(Math::unit(unit));
    }
    Some(line(LineKind::Numbers, Math::row(row), Vec::new()))
}

fn reason(view: &View<'_>, ask: &Ask) -> String {
    let Wanted::Whether { matter, .. } = &ask.wanted else { return String::new() };
    let body = |b: &BodyId| capital(view.body_name(*b));
    let link = |l: &model::LinkId| capital(view.situation.link(*l).map_or("it", |l| l.name.as_str()));
    match matter {
        Matter::Slips(b) => {
            format!(
                "{} slips only if not slipping would take more friction than μR, the most there can be.",
                body(b)
            )
        }
        Matter::Bears(l) => format!("{} breaks if its tension is more than it can bear.", link(l)),
        Matter::Taut(l) => match view.situation.link(*l).map(|l| l.holds) {
            Some(model::Holds::Push) => "Bodies in contact can push each other, but not pull.".to_owned(),
            _ => format!("{} can pull, but not push.", link(l)),
        },
        Matter::LiftsOff(b) => {
            format!("{} is lifted off only if the reaction on it would have to pull it down.", body(b))
        }
        Matter::Reaches { .. } => "How far it goes before it stops is compared with the way.".to_owned(),
        Matter::Compares { .. } => "The two are compared.".to_owned(),
        Matter::StaysAtRest(_) => String::new(),
    }
}
