//! What a diagram says, in words: for its title, its description and those who cannot see it.

use crate::{label, told};
use model::{BodyId, Line, Situation};
use motion::{Force, Share, Solved};

/// The direction of a force or an acceleration on the line of a body, in words.
pub(crate) fn direction(situation: &Situation, force: &Force) -> String {
    let line = situation.body(force.on).map_or(Line::Level, |b| b.line);
    match (force.along, force.across) {
        (along, Share::None) => along_line(line, f64::from(along.sense())).to_owned(),
        (Share::None, across) => match (line, across.sense() > 0) {
            (Line::Level, true) => "vertically upwards".to_owned(),
            (Line::Level, false) => "vertically downwards".to_owned(),
            (Line::Slope { .. }, true) => "perpendicular to the slope, away from it".to_owned(),
            (Line::Slope { .. }, false) => "perpendicular to the slope, into it".to_owned(),
            (Line::Vertical, _) => "horizontally".to_owned(),
        },
        (along, across) => {
            if let (Line::Slope { .. }, Share::Sin(-1, _), Share::Cos(-1, _)) = (line, along, across) {
                return "vertically downwards".to_owned();
            }
            let angle = match (along, across) {
                (Share::Cos(_, id), _) | (Share::Sin(_, id), _) => label::angle(situation, id).plain(),
                _ => String::new(),
            };
            let side = if across.sense() > 0 { "above" } else { "below" };
            let from = match line {
                Line::Level => "the horizontal",
                Line::Slope { .. } => "the line of the slope",
                Line::Vertical => "the vertical",
            };
            format!("{}, at {angle} {side} {from}", along_line(line, f64::from(along.sense())))
        }
    }
}

/// Along a line in one sense or the other.
pub(crate) fn along_line(line: Line, sense: f64) -> &'static str {
    match (line, sense >= 0.0) {
        (Line::Level, true) => "to the right",
        (Line::Level, false) => "to the left",
        (Line::Vertical, true) => "vertically upwards",
        (Line::Vertical, false) => "vertically downwards",
        (Line::Slope { .. }, true) => "up the slope",
        (Line::Slope { .. }, false) => "down the slope",
    }
}

/// One force in words: `Driving force 3000 N, to the right.`
pub(crate) fn force(situation: &Situation, solved: &Solved, force: &Force) -> String {
    let name = capital(&force.name);
    let size = label::force(situation, solved, force).plain();
    let stop = if name.is_empty() { capital(&size) } else { format!("{name}: {size}") };
    format!("{stop}, {}.", direction(situation, force))
}

/// What acts in a stage: forces, or impulses at the instant of a jerk.
pub(crate) fn what(situation: &Situation, solved: &Solved) -> &'static str {
    if told::is_jerk(situation, solved.stage) { "Impulses" } else { "Forces" }
}

/// The acceleration of a body in words; empty if it has none.
pub(crate) fn acceleration(situation: &Situation, solved: &Solved, body: BodyId) -> String {
    let Some(line) = situation.body(body).map(|b| b.line) else { return String::new() };
    match label::acceleration(situation, solved, body) {
        Some(a) => format!(" Acceleration {}, {}.", a.text.plain(), along_line(line, a.sense)),
        None if solved.acceleration(body).is_some_and(exact::Value::is_zero) => {
            " No acceleration.".to_owned()
        }
        None => String::new(),
    }
}

/// `the van, the trailer and the trailer`; long lists are cut in the middle.
pub(crate) fn list(names: &[String]) -> String {
    match names {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] if names.len() <= 6 => format!("{} and {last}", first.join(", ")),
        [one, two, .., last] => format!("{one}, {two}, … and {last} ({} in all)", names.len()),
        [one, ..] => one.clone(),
    }
}

/// With a capital first letter.
pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => String::new(),
    }
}

/// The body's name as the question speaks of it.
pub(crate) fn name(situation: &Situation, body: BodyId) -> String {
    situation.body(body).map_or_else(|| "the body".to_owned(), |b| b.name.clone())
}
