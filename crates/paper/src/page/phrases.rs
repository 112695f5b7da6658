//! The question in its own words, each phrase marked with how it was read.

use super::trouble::quoted;
use super::{aside, sentence};
use crate::document::{Block, Marked, Reading};
use model::{Refusal, Severity, Span};
use worked::Worked;

/// The question with its phrases marked: what each told us, what only sets the scene, what was not
/// understood. Where the question is not answered, the places of trouble carry their message instead.
pub fn question(worked: &Worked) -> Block {
    let text = worked.question.as_str();
    let mut marks = Marks { text, placed: Vec::new() };
    let read = &worked.reading;
    for span in &read.unread {
        marks.place(*span, Reading::Unread, "");
    }
    for d in worked.diagnostics.iter().filter(|d| d.severity == Severity::Error) {
        for span in &d.spans {
            match d.refusal {
                // The whole of a text about something else is not marked.
                Some(Refusal::OffTopic) => {}
                Some(Refusal::Unread) => marks.place(*span, Reading::Unread, ""),
                _ => marks.place(*span, Reading::Told, &sentence(&d.message)),
            }
        }
    }
    for note in &read.notes {
        marks.place(note.span, Reading::Told, &note.means);
    }
    for span in &read.ignored {
        marks.place(*span, Reading::Ignored, "ignored at your wish");
    }
    for span in &read.scene {
        marks.place(*span, Reading::Scene, "");
    }
    marks.placed.sort_by_key(|m| m.span);
    let mut phrases = Vec::new();
    let mut done = 0;
    for mark in marks.placed {
        phrases.extend(plain(text, done, mark.span.start));
        done = mark.span.end;
        let phrase = Marked {
            text: mark.span.of(text).to_owned(),
            reading: mark.reading,
            means: mark.means,
            tie: tie(worked, mark.span),
        };
        phrases.push(phrase);
    }
    phrases.extend(plain(text, done, text.len()));
    Block::Question(phrases)
}

/// What is to be said of phrases that told nothing: those that were ignored at a wish, and those that only set the scene.
pub(super) fn untold(worked: &Worked) -> Vec<Block> {
    let read = &worked.reading;
    let mut blocks = Vec::new();
    let mut say = |heading: &str, spans: &[Span]| {
        let phrases: Vec<String> =
            spans.iter().map(|s| quoted(s.of(&worked.question))).filter(|p| !p.is_empty()).collect();
        if !phrases.is_empty() {
            blocks.push(aside(heading, [format!("{}.", phrases.join(", "))]));
        }
    };
    say("Ignored at your wish", &read.ignored);
    say("Only sets the scene", &read.scene);
    blocks
}

fn plain(text: &str, start: usize, end: usize) -> Option<Marked> {
    let between = text.get(start..end)?;
    (!between.is_empty()).then(|| Marked::plain(between))
}

/// The force that a phrase put there, in the first stage solved.
fn tie(worked: &Worked, phrase: Span) -> String {
    let mut forces = worked.solved.first().map(|s| s.forces.iter()).into_iter().flatten();
    let found = forces.find(|f| f.span.is_some_and(|span| span.overlaps(phrase)));
    found.map(|f| format!("force-{}", f.id.0)).unwrap_or_default()
}

struct Mark {
    span: Span,
    reading: Reading,
    means: String,
}

/// Phrases placed so far; none overlaps another, and the first to come has its place.
struct Marks<'a> {
    text: &'a str,
    placed: Vec<Mark>,
}

impl Marks<'_> {
    fn place(&mut self, span: Span, reading: Reading, means: &str) {
        let fits = !span.of(self.text).is_empty();
        if fits && !self.placed.iter().any(|m| m.span.overlaps(span)) {
            self.placed.push(Mark { span, reading, means: means.to_owned() });
        }
    }
}
