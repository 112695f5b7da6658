//! What the tests beside the readers share: a text is read, and what was understood is told back in short lines.

use crate::reading::Reading;
use model::{BodyId, Direction, Line};

/// Reads a text.
pub(crate) fn told(text: &str) -> Reading {
    crate::read(text)
}

/// Who stands where, what joins whom, which named forces act, in what state: `A hangs`, `string: A - B over a pulley`,
/// `driving force on the car: along it`, `Released`.
pub(crate) fn in_short(reading: &Reading) -> Vec<String> {
    let situation = &reading.situation;
    let name = |id: BodyId| situation.body(id).map_or("?", |b| b.name.as_str());
    let mut lines = Vec::new();
    for body in &situation.bodies {
        let place = match (body.line, &body.surface) {
            (Line::Vertical, _) => "hangs",
            (Line::Level, _) => "moves on the level",
            (Line::Slope { .. }, _) => "moves on a slope",
        };
        lines.push(format!("{} {place}", body.name));
    }
    for link in &situation.links {
        let ends: Vec<&str> = link.ends.iter().map(|e| name(e.body)).collect();
        let over = if link.pulleys.is_empty() { "" } else { " over a pulley" };
        lines.push(format!("{}: {}{over}", link.name.trim_start_matches("the "), ends.join(" - ")));
    }
    for action in &situation.actions {
        let way = match action.direction {
            Direction::Along(1) => "along",
            Direction::Along(_) => "against",
            Direction::Opposing => "against the motion",
            _ => "at an angle",
        };
        lines.push(format!("{}: {way}", action.name.trim_start_matches("the ")));
    }
    lines.extend(situation.stages.iter().map(|s| format!("{:?}", s.state)));
    lines
}

/// What was told of the phrase, in the teacher's words; empty where nothing was.
pub(crate) fn means(text: &str, phrase: &str) -> String {
    let reading = told(text);
    let note = reading.notes.iter().find(|n| n.span.of(text).contains(phrase));
    note.map_or(String::new(), |n| n.means.clone())
}

/// The complaints that stop the answer.
pub(crate) fn refused(text: &str) -> Vec<String> {
    let sound = |d: &&model::Diagnostic| d.refusal.is_some();
    told(text).diagnostics.iter().filter(sound).map(|d| d.message.clone()).collect()
}
