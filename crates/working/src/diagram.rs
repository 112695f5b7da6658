//! Forces on bodies in words, where the question asks for a diagram of them: each with its letter and its direction.

use crate::direction::{capital, list};
use crate::reason::letter;
use crate::statement::Told;
use crate::view::View;
use model::{BodyId, Line};
use motion::{Factor, Force, ForceKind, Share};

/// The forces on a body, or on each of them: `On P: its weight, downwards; the tension in the string, T, up; ...`.
pub(crate) fn forces(told: &Told<'_, '_>, on: Option<BodyId>) -> String {
    let Some((_, view)) = told.view(|_| true) else { return String::new() };
    let bodies: Vec<BodyId> = match on {
        Some(one) => vec![one],
        None => (0..told.situation.bodies.len()).map(BodyId).collect(),
    };
    let lines: Vec<String> = bodies.into_iter().filter_map(|b| on_body(told, view, b)).collect();
    format!("{} The figure shows each as an arrow.", lines.join(" "))
}

fn on_body(told: &Told<'_, '_>, view: &View<'_>, body: BodyId) -> Option<String> {
    let it = told.situation.body(body)?;
    let said: Vec<String> = view
        .solved
        .forces
        .iter()
        .filter(|f| f.on == body)
        .map(|f| format!("{}, {}", named(view, f), direction(&it.line, f)))
        .collect();
    (!said.is_empty()).then(|| format!("{}: {}.", capital(&format!("on {}", it.name)), said.join("; ")))
}

fn named(view: &View<'_>, force: &Force) -> String {
    if force.kind == ForceKind::Weight {
        return "its weight".to_owned();
    }
    let the = if force.name.starts_with("the ") { "" } else { "the " };
    match force.size.as_slice() {
        [Factor::Quantity(q)] => format!("{the}{}, {}", force.name, letter(view, *q)),
        _ => format!("{the}{}", force.name),
    }
}

/// Where it points, in the words for the line on which the body moves.
fn direction(line: &Line, force: &Force) -> String {
    if force.kind == ForceKind::Weight {
        return "vertically downwards".to_owned();
    }
    let (ahead, back, off, on) = match line {
        Line::Level => ("to the right", "to the left", "upwards", "downwards"),
        Line::Vertical => ("upwards", "downwards", "sideways", "sideways"),
        Line::Slope { .. } => (
            "up the slope",
            "down the slope",
            "away from the slope at right angles",
            "into the slope at right angles",
        ),
    };
    let part = |share: Share, plus: &'static str, minus: &'static str| match share.sense() {
        1 => Some(plus.to_owned()),
        -1 => Some(minus.to_owned()),
        _ => None,
    };
    let parts: Vec<String> =
        [part(force.along, ahead, back), part(force.across, off, on)].into_iter().flatten().collect();
    match parts.as_slice() {
        [_, _] => format!("at an angle, {}", list(&parts)),
        _ => list(&parts),
    }
}
