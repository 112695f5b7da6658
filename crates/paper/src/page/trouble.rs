//! What is to be said besides the answers: why there are none, and what deserves a remark.

use super::{aside, sentence};
use crate::document::Block;
use model::{Diagnostic, Severity};
use worked::Worked;

/// At most so many words of a place are quoted.
const QUOTED: usize = 12;

/// Each reason why the question is not answered, with its places and what would help.
pub(super) fn refused(worked: &Worked) -> Vec<Block> {
    let mut blocks = vec![Block::heading(1, "Why it is not answered")];
    for d in worked.diagnostics.iter().filter(|d| d.severity == Severity::Error) {
        blocks.push(aside(d.refusal.map_or("not answered", |r| r.word()), paragraphs(worked, d)));
    }
    blocks
}

/// Warnings and remarks.
pub(super) fn remarks(worked: &Worked) -> Option<Block> {
    let said: Vec<String> = worked
        .diagnostics
        .iter()
        .filter(|d| d.severity < Severity::Error)
        .flat_map(|d| paragraphs(worked, d))
        .collect();
    (!said.is_empty()).then(|| aside("Worth a remark", said))
}

fn paragraphs(worked: &Worked, d: &Diagnostic) -> Vec<String> {
    let mut said = vec![sentence(&d.message)];
    let places: Vec<String> = d
        .spans
        .iter()
        .map(|span| quoted(span.of(&worked.question)))
        .filter(|place| !place.is_empty())
        .collect();
    if !places.is_empty() {
        said.push(format!("In the question: {}.", places.join(", ")));
    }
    if d.suggestions.is_empty() {
        said.extend(d.hint.as_deref().map(sentence));
    }
    for change in &d.suggestions {
        let there = quoted(change.span.of(&worked.question));
        said.push(match change.replacement.trim() {
            "" => format!("It would be read without {there}."),
            words => format!("It would be read with “{words}” in the place of {there}."),
        });
    }
    said
}

/// Words of the question between quotation marks, shortened in the middle where there are many.
pub(super) fn quoted(text: &str) -> String {
    let words: Vec<&str> = text.split_whitespace().collect();
    match (words.get(..QUOTED / 2), words.len().checked_sub(QUOTED / 2).and_then(|n| words.get(n..))) {
        _ if words.is_empty() => String::new(),
        (Some(start), Some(end)) if words.len() > QUOTED => {
            format!("“{} … {}”", start.join(" "), end.join(" "))
        }
        _ => format!("“{}”", words.join(" ")),
    }
}
