//! A marked question as lines for the page: part labels in the margin, notes numbered.

use crate::document::{Marked, Reading};
use crate::escape::clean;

/// One line of the question's own text.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct QuestionLine {
    /// The part label that opens the line, such as `(a)`; empty for none.
    pub(crate) label: String,
    /// The runs of text after the label.
    pub(crate) runs: Vec<Run>,
}

/// A run of text read in one way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Run {
    pub(crate) text: String,
    pub(crate) reading: Reading,
    /// The phrase ends in this run and has the note with this number, from 1.
    pub(crate) note: Option<usize>,
    /// The phrase ends in this run (a phrase can run over a line's end).
    pub(crate) ends: bool,
    pub(crate) tie: String,
}

/// A numbered note on a phrase.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Note {
    pub(crate) number: usize,
    pub(crate) phrase: String,
    pub(crate) means: String,
    pub(crate) tie: String,
}

/// Cuts a question into lines and gathers its notes.
pub(crate) fn lines_and_notes(phrases: &[Marked]) -> (Vec<QuestionLine>, Vec<Note>) {
    let mut lines = vec![QuestionLine::default()];
    let mut notes: Vec<Note> = Vec::new();
    for phrase in phrases {
        let note = (!phrase.means.trim().is_empty()).then_some(notes.len() + 1);
        if let Some(number) = note {
            notes.push(Note {
                number,
                phrase: phrase.text.split_whitespace().collect::<Vec<_>>().join(" "),
                means: phrase.means.clone(),
                tie: phrase.tie.clone(),
            });
        }
        let text = clean(&phrase.text);
        let mut pieces = text.split('\n').peekable();
        let mut first = true;
        while let Some(piece) = pieces.next() {
            if !std::mem::take(&mut first) {
                lines.push(QuestionLine::default());
            }
            let ends = pieces.peek().is_none();
            let Some(line) = lines.last_mut() else { continue };
            if !piece.is_empty() || (ends && note.is_some()) {
                line.runs.push(Run {
                    text: piece.to_owned(),
                    reading: phrase.reading,
                    note: if ends { note } else { None },
                    ends,
                    tie: phrase.tie.clone(),
                });
            }
        }
    }
    lines.retain(|line| !line.runs.iter().all(|run| run.text.trim().is_empty() && run.note.is_none()));
    for line in &mut lines {
        take_label(line);
    }
    (lines, notes)
}

/// Moves a label such as `(a)` or `(a)(ii)` from the start of a line into its margin.
fn take_label(line: &mut QuestionLine) {
    let Some(run) = line.runs.first_mut() else { return };
    if run.reading != Reading::Plain {
        return;
    }
    let mut rest = run.text.trim_start();
    let mut label = String::new();
    while let Some((one, after)) = label_at_start(rest) {
        label.push_str(one);
        rest = after.trim_start();
    }
    if !label.is_empty() {
        run.text = rest.to_owned();
        line.label = label;
    }
}

fn label_at_start(text: &str) -> Option<(&str, &str)> {
    let inner = text.strip_prefix('(')?;
    let (letters, _) = inner.split_once(')')?;
    let short = (1..=4).contains(&letters.len()) && letters.chars().all(|c| c.is_ascii_alphanumeric());
    short.then(|| text.split_at(letters.len() + 2))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_stand_in_the_margin_and_notes_are_numbered() {
        let (lines, notes) = lines_and_notes(&[
            Marked::plain("A "),
            Marked::told("light", "ignore the string's mass"),
            Marked::plain(" string. Find\n(a) (i) the "),
            Marked::told("tension", "asked"),
            Marked::plain(".\n\n"),
        ]);
        let labels: Vec<&str> = lines.iter().map(|line| line.label.as_str()).collect();
        assert_eq!(labels, ["", "(a)(i)"]);
        assert_eq!(lines[1].runs[0].text, "the ");
        assert_eq!(
            notes.iter().map(|n| (n.number, n.phrase.as_str())).collect::<Vec<_>>(),
            [(1, "light"), (2, "tension")]
        );
    }

    #[test]
    fn a_phrase_over_two_lines_is_noted_once_at_its_end() {
        let (lines, _) = lines_and_notes(&[Marked::told("released\nfrom rest", "u = 0")]);
        let notes: Vec<Option<usize>> = lines.iter().flat_map(|l| l.runs.iter().map(|r| r.note)).collect();
        assert_eq!(notes, [None, Some(1)]);
    }
}
