//! Why a step is the next one, in words, from the plan and the pool.

use crate::direction::{capital, list, system_in_sentence};
use crate::search::Move;
use crate::view::{Entry, View};
use exact::Math;
use model::{Kind, QuantityId, State};
use motion::{FrictionState, JourneyLaw, Law};
use std::collections::BTreeSet;

/// The letter of a quantity as text.
pub(crate) fn letter(view: &View<'_>, id: QuantityId) -> String {
    Math::quantity(view.letter(id)).plain()
}

fn letters(view: &View<'_>, ids: &[QuantityId]) -> String {
    let mut all: Vec<String> = Vec::new();
    for id in ids {
        let letter = letter(view, *id);
        if !all.contains(&letter) {
            all.push(letter);
        }
    }
    list(&all)
}

/// The reason of a step, when the quantities of `known` are known or found.
pub(crate) fn reason(
    view: &View<'_>,
    entries: &[&Entry<'_>],
    step: &Move,
    known: &BTreeSet<QuantityId>,
) -> String {
    match (entries, step.gives.as_slice()) {
        ([entry], [x]) => one(view, entry, *x, known),
        _ if entries.iter().any(|e| e.equation.law == Law::Impulse) => jerk(view, entries, &step.gives),
        _ if step.views().len() > 1 => format!(
            "No stage by itself gives {}: the {} equations of the stages are solved together.",
            letters(view, &step.gives).replace(" and ", " or "),
            entries.len()
        ),
        ([_, _], [_, _]) => format!(
            "Two unknowns, {}, stand in both equations: solve them together.",
            letters(view, &step.gives)
        ),
        _ => format!(
            "The {} unknowns {} stand together in {} equations: solve them together.",
            step.gives.len(),
            letters(view, &step.gives),
            entries.len()
        ),
    }
}

fn one(view: &View<'_>, entry: &Entry<'_>, x: QuantityId, known: &BTreeSet<QuantityId>) -> String {
    let equation = entry.equation;
    let body = equation.system.first().copied();
    let name = body.map(|b| view.body_name(b)).unwrap_or("the body");
    match &equation.law {
        Law::Motion => motion(view, entry, x, known),
        Law::Impulse if entry.equation.system.len() > 1 => {
            "The impulses on the bodies cancel, so the momentum along the string is conserved.".to_owned()
        }
        Law::Impulse => format!("For {name}, impulse = change of momentum."),
        Law::Balance => match body.and_then(|b| view.situation.body(b)).map(|b| b.line) {
            Some(model::Line::Slope { .. }) => {
                format!("{} does not move across the slope, so the forces across it balance.", capital(name))
            }
            _ => format!("{} does not move up or down, so the forces up and down balance.", capital(name)),
        },
        Law::Friction => {
            let state = body.and_then(|b| view.solved.case.frictions.get(b.0)).copied();
            match state {
                Some(FrictionState::Limiting) => {
                    format!("{} is about to slide, so friction is at its limit, F = μR.", capital(name))
                }
                _ => format!("{} slides, so friction is at its limit, F = μR.", capital(name)),
            }
        }
        Law::Together(link) => {
            let link = view.situation.link(*link).map(|l| l.name.as_str()).unwrap_or("the string");
            let what = if view.stage().is_some_and(|s| s.state == model::State::Jerk) {
                "speeds after the jerk"
            } else {
                "accelerations"
            };
            format!("{} does not stretch, which ties the {what} of its ends.", capital(link))
        }
        Law::Journey(law) => journey(view, entry, *law, x),
        Law::Fact(n) => match view.situation.relations.get(*n).map(|r| r.name.trim()) {
            Some(fact) if is_total(view, *n, fact) && entry.size() == 2 => {
                format!("{} is the same, counted the other way.", capital(fact))
            }
            Some(fact) if is_total(view, *n, fact) => format!("{} is found from its parts.", capital(fact)),
            Some(_) if is_energy(view, *n) => {
                "Each body has the kinetic energy ½mv²: what is lost is what there was before, less what is left after."
                    .to_owned()
            }
            Some(fact) if !fact.is_empty() && is_said(view, *n) => format!("The question says that {fact}."),
            Some(fact) if !fact.is_empty() => format!("{}.", capital(fact)),
            _ => "The question says so.".to_owned(),
        },
        Law::PulleyForce(_) => "The string pulls on the pulley along both of its parts.".to_owned(),
    }
}

/// A jerk worked out from several equations together.
fn jerk(view: &View<'_>, entries: &[&Entry<'_>], gives: &[QuantityId]) -> String {
    let whole = entries.iter().any(|e| e.equation.law == Law::Impulse && e.equation.system.len() > 1);
    let first = if whole {
        "The impulses on the bodies cancel, so the momentum along the string is conserved"
    } else {
        "For each body, impulse = change of momentum"
    };
    let link = entries.iter().find_map(|e| match e.equation.law {
        Law::Together(link) => view.situation.link(link),
        _ => None,
    });
    let tied = link
        .map(|l| format!("; {} does not stretch, which ties the speeds after the jerk", l.name))
        .unwrap_or_default();
    format!("{first}{tied}. Solve together for {}.", letters(view, gives))
}

/// Does the question say so itself, rather than ask something for which this law is needed?
fn is_said(view: &View<'_>, number: usize) -> bool {
    let span = view.situation.relations.get(number).and_then(|r| r.span);
    span.is_some_and(|span| view.situation.asks.iter().all(|a| a.span != span))
}

/// Does the fact speak of energy?
fn is_energy(view: &View<'_>, number: usize) -> bool {
    let ids = view.situation.relations.get(number).into_iter().flat_map(|r| &r.terms).flat_map(|t| &t.1);
    ids.filter_map(|id| view.situation.quantity(*id)).any(|q| q.kind == Kind::Energy)
}

/// Is the fact a sum that bears the name of what it gives?
fn is_total(view: &View<'_>, number: usize, name: &str) -> bool {
    let ids = view.situation.relations.get(number).into_iter().flat_map(|r| &r.terms).flat_map(|t| &t.1);
    ids.filter_map(|id| view.situation.quantity(*id)).any(|q| q.name.trim() == name)
}

fn motion(view: &View<'_>, entry: &Entry<'_>, x: QuantityId, known: &BTreeSet<QuantityId>) -> String {
    let said = motion_alone(view, entry, x, known);
    match entry.cancelled {
        Some(mass) => format!("{said} {} stands in every term and cancels.", letter(view, mass)),
        None => said,
    }
}

fn motion_alone(view: &View<'_>, entry: &Entry<'_>, x: QuantityId, known: &BTreeSet<QuantityId>) -> String {
    let system = &entry.equation.system;
    let spoken = system_in_sentence(view, system);
    let wanted = letter(view, x);
    let mut inside: Vec<String> = Vec::new();
    for id in &entry.equation.internal {
        if let Some(force) = view.solved.force(*id) {
            let name = force.name.strip_prefix("the ").unwrap_or(&force.name).to_owned();
            if !inside.contains(&name) {
                inside.push(name);
            }
        }
    }
    let still = still(view, entry);
    let fact = entry.fact.and_then(|n| view.situation.relations.get(n)).map(|r| r.name.trim());
    let given = match fact.filter(|f| !f.is_empty()) {
        Some(fact) => format!(" {}, so only that sum is needed.", capital(fact)),
        None => String::new(),
    };
    if system.len() > 1 {
        let cancels = match inside.as_slice() {
            [] => String::new(),
            [one] => format!("The {one} is inside {spoken}, so it cancels"),
            few if few.len() <= 3 => {
                format!("The {} are inside {spoken}, so they cancel", list(few).replace(" and ", " and the "))
            }
            _ => format!("The forces of the links between are inside {spoken}, so they cancel"),
        };
        let balance =
            still.map(|s| format!(" {} {s}, so the forces balance.", capital(&spoken))).unwrap_or_default();
        return format!("{cancels}: the only unknown is {wanted}.{balance}{given}");
    }
    if let Some(still) = still {
        return format!(
            "{} {still}, so the forces along its line balance: the only unknown is {wanted}.",
            capital(&spoken)
        );
    }
    let compare = match other_body(view, entry, x, known) {
        Some((other, true)) => format!(", and fewer forces act than on {other}"),
        _ => String::new(),
    };
    format!("On {spoken} the only unknown is {wanted}{compare}.{given}")
}

/// Does the system stay at rest or keep its speed? Then how to say so.
fn still(view: &View<'_>, entry: &Entry<'_>) -> Option<&'static str> {
    if !entry.right.is_empty() {
        return None;
    }
    match view.stage().map(|s| s.state) {
        Some(State::Steady) => Some("moves at constant speed"),
        Some(State::Limiting) => Some("is on the point of moving"),
        _ if !view.solved.case.moves => Some("stays at rest"),
        _ => Some("does not accelerate"),
    }
}

/// Another body whose equation would give the same unknown now, and whether more forces act there.
fn other_body(
    view: &View<'_>,
    entry: &Entry<'_>,
    x: QuantityId,
    known: &BTreeSet<QuantityId>,
) -> Option<(String, bool)> {
    view.entries
        .iter()
        .filter(|e| e.is_motion() && e.equation.id != entry.equation.id && e.open.contains(&x))
        .filter(|e| e.equation.system.len() == 1)
        .filter(|e| e.open.iter().all(|q| *q == x || known.contains(q)))
        .map(|e| (system_in_sentence(view, &e.equation.system), e.left.len() > entry.left.len()))
        .max_by_key(|(_, more)| *more)
}

fn journey(view: &View<'_>, entry: &Entry<'_>, law: JourneyLaw, x: QuantityId) -> String {
    let body = entry.equation.system.first().copied();
    let used: Vec<QuantityId> = entry.quantities().into_iter().filter(|q| *q != x).collect();
    let found =
        view.stage().and_then(|s| s.journeys.iter().find(|j| Some(j.body) == body && touches(j, entry)));
    let left_out = found.and_then(|j| match law {
        JourneyLaw::WithoutDistance => Some(j.distance),
        JourneyLaw::WithoutTime => Some(j.time),
        JourneyLaw::WithoutEndSpeed => Some(j.end_speed),
        JourneyLaw::WithoutStartSpeed => Some(j.start_speed),
        JourneyLaw::WithoutAcceleration => view.acceleration_of(j.body),
    });
    let known = match used.as_slice() {
        [one] => format!("{} is known", letter(view, *one)),
        _ => format!("{} are known", letters(view, &used)),
    };
    match left_out {
        Some(out) => format!("Constant acceleration: {known}, and {} is not needed.", letter(view, out)),
        None => format!("Constant acceleration: {known}."),
    }
}

fn touches(journey: &model::Journey, entry: &Entry<'_>) -> bool {
    let own = [journey.start_speed, journey.end_speed, journey.distance, journey.time];
    entry.quantities().iter().any(|q| own.contains(q))
}
