//! Directions and systems in words.

use crate::view::View;
use model::{BodyId, Line};

/// How the positive direction of a body is spoken of.
pub(crate) struct Ways {
    /// After "taking": `up the slope`, `the direction of travel`.
    pub(crate) positive: &'static str,
    /// Of a force: `forwards`, `up the slope`.
    pub(crate) with: &'static str,
    /// Of a force the other way.
    pub(crate) against: &'static str,
}

/// The positive direction of a body.
pub(crate) fn ways(view: &View<'_>, body: BodyId) -> Ways {
    let ways = |positive, with, against| Ways { positive, with, against };
    let sense = view.solved.senses.get(body.0).copied().unwrap_or(1);
    match view.situation.body(body).map(|b| b.line) {
        Some(Line::Vertical) if sense > 0 => ways("up", "upwards", "downwards"),
        Some(Line::Vertical) => ways("down", "downwards", "upwards"),
        Some(Line::Slope { .. }) if sense > 0 => ways("up the slope", "up the slope", "down the slope"),
        Some(Line::Slope { .. }) => ways("down the slope", "down the slope", "up the slope"),
        _ => match pulley_sense(view, body) {
            Some(towards) if towards == sense => {
                ways("towards the pulley", "towards the pulley", "away from the pulley")
            }
            Some(_) => ways("away from the pulley", "away from the pulley", "towards the pulley"),
            None if view.solved.case.moves => ways("direction of travel", "forwards", "backwards"),
            None if sense > 0 => ways("to the right", "to the right", "to the left"),
            None => ways("to the left", "to the left", "to the right"),
        },
    }
}

/// The sense in which a string over a pulley pulls the body, if just one does.
fn pulley_sense(view: &View<'_>, body: BodyId) -> Option<i8> {
    let mut found = None;
    for (_, link) in view.situation.links_in(view.solved.stage) {
        for end in link.ends.iter().filter(|e| e.body == body && !link.pulleys.is_empty()) {
            if found.is_some_and(|f| f != end.sense) {
                return None;
            }
            found = Some(end.sense);
        }
    }
    // With a string on either side there are two pulleys: "the pulley" would not say which.
    let strings = view.situation.links_in(view.solved.stage);
    let over =
        strings.filter(|(_, l)| !l.pulleys.is_empty() && l.ends.iter().any(|e| e.body == body)).count();
    found.filter(|_| over == 1)
}

/// The positive direction of a system, in words.
pub(crate) fn of_system(view: &View<'_>, system: &[BodyId]) -> String {
    let mut all: Vec<&str> = system.iter().map(|b| ways(view, *b).positive).collect();
    all.dedup();
    match all.as_slice() {
        [] => String::new(),
        [one] => format!("{one} positive"),
        _ if view.solved.case.moves => "along the string, in the direction of motion".to_owned(),
        _ => "along the string".to_owned(),
    }
}

/// A system in words: `whole system`, `the trailer`, `the van and the trailer`.
pub(crate) fn system_name(view: &View<'_>, system: &[BodyId]) -> String {
    let name = |b: &BodyId| view.body_name(*b).to_owned();
    match system {
        [one] => name(one),
        _ if system.len() == view.situation.bodies.len() => "whole system".to_owned(),
        [one, other] => format!("{} and {}", name(one), name(other)),
        [one, .., last] => format!("the {} bodies from {} to {}", system.len(), name(one), name(last)),
        [] => "the facts given".to_owned(),
    }
}

/// The same inside a sentence.
pub(crate) fn system_in_sentence(view: &View<'_>, system: &[BodyId]) -> String {
    let name = system_name(view, system);
    if name == "whole system" { format!("the {name}") } else { name }
}

/// A list in words: `a, b and c`.
pub(crate) fn list(items: &[String]) -> String {
    match items {
        [] => String::new(),
        [one] => one.clone(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}

/// With a capital letter in front.
pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |c| c.to_uppercase().chain(letters).collect())
}
