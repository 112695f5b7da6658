//! What reading a question gives.

use model::{Diagnostic, Situation, Span};

/// A question, read: the situation it describes and an account of every word. There is always a
/// reading, and it carries all the diagnostics, not only the first.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Reading {
    /// The situation, as far as it was understood.
    pub situation: Situation,
    /// All that is to be said, in order of place; any of severity `Error` stops the answer.
    pub diagnostics: Vec<Diagnostic>,
    /// Phrases and what each told us, in order of place, none overlapping another.
    pub notes: Vec<Note>,
    /// Words that were not understood and may carry mechanics.
    pub unread: Vec<Span>,
    /// Where the question is only laid out: labels of parts, marks, its own number, full stops.
    pub layout: Vec<Span>,
    /// Words that only set the scene.
    pub scene: Vec<Span>,
    /// Words that were not understood and that whoever asks wants to be ignored.
    pub ignored: Vec<Span>,
    /// The parts: the stem first (label `""`), then the lettered ones.
    pub parts: Vec<PartRead>,
}

/// A phrase and what it told us.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Note {
    /// Where.
    pub span: Span,
    /// In the teacher's words: `light: ignore its mass`.
    pub means: String,
}

/// A part of the question.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PartRead {
    /// Its label without brackets.
    pub label: String,
    /// Marks allowed, where the question says so.
    pub marks: Option<u32>,
}

impl Reading {
    /// Can the question be answered as far as reading goes?
    pub fn is_sound(&self) -> bool {
        self.diagnostics.iter().all(|d| d.severity < model::Severity::Error)
    }
    /// The same reading with changes of the text beside its refusals: other words for what was not understood, each
    /// tried and found to be read further. The text and what is to be ignored must be those that were read. Costs at most some
    /// sixteen readings.
    ///
    /// ```
    /// let text = "A crate of mass 5 kg is pulled along a horizontal floor by a horizontal force of 20 N. The floor is \
    ///             greasy. Find the acceleration of the crate.";
    /// let reading = words::read(text).mended(text, &[]);
    /// let change = reading.diagnostics.iter().flat_map(|d| &d.suggestions).next().unwrap();
    /// assert_eq!((change.span.of(text), change.replacement.as_str()), ("greasy", "smooth"));
    /// ```
    #[must_use]
    pub fn mended(mut self, text: &str, ignored: &[String]) -> Reading {
        crate::mending::mend(text, &mut self, &|text| crate::read_ignoring(text, ignored));
        self
    }
}
