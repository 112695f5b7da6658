//! The working: the first route part by part with the answers, then what checks it.

use super::{capital, sentence};
use crate::document::{Block, Inline, Line, Step};
use exact::Math;
use worked::Worked;
use working::{Answered, LineKind, Route, Work};

/// Everything from the first step to the last check.
pub(super) fn blocks(worked: &Worked) -> Vec<Block> {
    let Some(work) = &worked.work else { return Vec::new() };
    let mut blocks = vec![Block::heading(1, "Worked solution")];
    for part in parts(work) {
        if !part.is_empty() {
            blocks.push(Block::heading(2, format!("Part ({part})")));
        }
        let steps: Vec<Step> = work
            .routes
            .first()
            .map(|route| route.steps.iter().filter(|s| s.part == part && !s.is_check).map(in_full).collect())
            .unwrap_or_default();
        if !steps.is_empty() {
            blocks.push(Block::Steps(steps));
        }
        blocks.extend(work.answers.iter().filter(|a| a.part == part).map(answer));
    }
    blocks.extend(others(work));
    blocks.extend(checks(work));
    blocks
}

/// The labels of the parts, in order.
fn parts(work: &Work) -> Vec<&str> {
    let steps = work.routes.first().map(|r| r.steps.as_slice()).unwrap_or_default();
    let answers = work.answers.iter().map(|a| a.part.as_str());
    let mut parts: Vec<&str> = Vec::new();
    for part in answers.chain(steps.iter().map(|s| s.part.as_str())) {
        if !parts.contains(&part) {
            parts.push(part);
        }
    }
    parts
}

/// An answer, underlined: what was asked, and its value or its words.
fn answer(answer: &Answered) -> Block {
    let label = if answer.part.is_empty() { String::new() } else { format!("({})", answer.part) };
    let mut body = Vec::new();
    if !answer.shown.is_empty() {
        if !answer.asked.is_empty() {
            body.push(Inline::text(format!("{}: ", capital(&answer.asked))));
        }
        body.push(Inline::math(answer.shown_math.clone()));
        if !answer.text.is_empty() {
            body.push(Inline::text(format!(" ({})", inside(&answer.text))));
        }
    } else {
        body.push(Inline::text(sentence(&answer.text)));
    }
    Block::Answer { label, body }
}

/// A sentence as it stands within another: no capital unless it is a name of one letter, no full stop.
fn inside(sentence: &str) -> String {
    let mut letters = sentence.trim_end_matches('.').chars();
    match letters.next() {
        Some(first) if letters.clone().next().is_some_and(char::is_lowercase) => {
            first.to_lowercase().chain(letters).collect()
        }
        first => first.into_iter().chain(letters).collect(),
    }
}

/// A step with its reason and all its lines.
fn in_full(step: &working::Step) -> Step {
    let heading = if step.direction.is_empty() {
        capital(&step.system_name)
    } else {
        format!("{}, {}", capital(&step.system_name), step.direction)
    };
    let reason = if step.reason.is_empty() { Vec::new() } else { with_letters(&step.reason) };
    Step { heading, reason, lines: step.lines.iter().map(line).collect() }
}

/// A sentence in which letters with an index (`R_A`) are set as formulas.
fn with_letters(sentence: &str) -> Vec<Inline> {
    let mut pieces: Vec<Inline> = Vec::new();
    let mut plain = String::new();
    for (n, word) in sentence.split(' ').enumerate() {
        if n > 0 {
            plain.push(' ');
        }
        let bare = word.trim_end_matches([',', '.', ';', ':']);
        let indexed = bare.split_once('_').is_some_and(|(base, index)| {
            base.chars().count() == 1 && !index.is_empty() && index.chars().all(char::is_alphanumeric)
        });
        if indexed {
            if !plain.is_empty() {
                pieces.push(Inline::text(std::mem::take(&mut plain)));
            }
            pieces.push(Inline::math(Math::quantity(bare)));
            plain.push_str(word.get(bare.len()..).unwrap_or(""));
        } else {
            plain.push_str(word);
        }
    }
    if !plain.is_empty() {
        pieces.push(Inline::text(plain));
    }
    pieces
}

/// A step with its equation and what it gives.
fn in_short(step: &working::Step) -> Step {
    let mut short = in_full(step);
    short.reason.clear();
    let kept = step.lines.iter().filter(|l| !matches!(l.kind, LineKind::Rearranged | LineKind::Remark));
    short.lines = kept.map(line).collect();
    short
}

/// A line; words before and after the formula stand as its note.
fn line(line: &working::Line) -> Line {
    let words = [line.before.trim_end_matches(':'), line.after.trim_start_matches([',', ' '])];
    let note: Vec<&str> = words.into_iter().filter(|w| !w.is_empty()).collect();
    Line::new(line.math.clone()).noted(note.join("; "))
}

/// The other routes: only the steps that differ from the first.
fn others(work: &Work) -> Vec<Block> {
    let Some((first, others)) = work.routes.split_first() else { return Vec::new() };
    let mut blocks = Vec::new();
    for route in others {
        let new = differing(first, route);
        if new.is_empty() {
            continue;
        }
        blocks.push(Block::heading(1, "Another route"));
        if !route.name.is_empty() {
            blocks.push(Block::paragraph(sentence(&route.name)));
        }
        blocks.push(Block::Steps(new));
        blocks.push(Block::paragraph("The answers are the same."));
    }
    blocks
}

fn differing(first: &Route, route: &Route) -> Vec<Step> {
    let lines = |s: &working::Step| s.lines.iter().map(working::Line::plain).collect::<Vec<_>>();
    let known = |s: &working::Step| first.steps.iter().any(|f| f.system == s.system && lines(f) == lines(s));
    route.steps.iter().filter(|s| !s.is_check && !s.equations.is_empty() && !known(s)).map(in_short).collect()
}

/// Equations that were not needed, and which way the forces pull.
fn checks(work: &Work) -> Vec<Block> {
    let steps = work.routes.first().map(|r| r.steps.as_slice()).unwrap_or_default();
    let checks: Vec<Step> = steps.iter().filter(|s| s.is_check).map(in_full).collect();
    if checks.is_empty() && work.sense.is_empty() {
        return Vec::new();
    }
    let mut blocks = vec![Block::heading(1, "Checks")];
    if !checks.is_empty() {
        blocks.push(Block::Steps(checks));
    }
    if !work.sense.is_empty() {
        blocks.push(Block::heading(2, "Do the forces agree with the motion?"));
        let items = work.sense.iter().map(|s| vec![Inline::text(s.says.clone())]).collect();
        blocks.push(Block::List { numbered: false, items });
    }
    blocks
}
