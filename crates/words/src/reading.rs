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

/// What became of a phrase.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sort {
    /// It told us something.
    Told,
    /// It only sets the scene.
    Scene,
    /// It was not understood, and is ignored at the wish of whoever asks.
    Ignored,
    /// It was not understood and may carry mechanics.
    Unread,
}

impl Sort {
    /// One word for it.
    pub fn word(self) -> &'static str {
        match self {
            Sort::Told => "told",
            Sort::Scene => "scene",
            Sort::Ignored => "ignored",
            Sort::Unread => "unread",
        }
    }
}

/// A phrase of the question with what became of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Phrase {
    /// Where.
    pub span: Span,
    /// What became of it.
    pub sort: Sort,
    /// What it told us, or what is to be said of it otherwise.
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
    /// Every phrase in order of place: what it told, or that it sets the scene, is ignored or was not understood. What
    /// only holds sentences together or lays the question out is none of these.
    ///
    /// ```
    /// let text = "At Marram Quay a crate of mass 5 kg is pulled along a smooth floor by a horizontal force of 20 N. \
    ///             Find the acceleration of the crate.";
    /// let phrases = words::read(text).phrases();
    /// assert_eq!(phrases[0].means, "only sets the scene");
    /// assert!(phrases.iter().any(|p| p.sort == words::Sort::Told && p.span.of(text).contains("smooth")));
    /// ```
    pub fn phrases(&self) -> Vec<Phrase> {
        let told =
            self.notes.iter().map(|n| Phrase { span: n.span, sort: Sort::Told, means: n.means.clone() });
        let others = [
            (&self.scene, Sort::Scene, "only sets the scene"),
            (&self.ignored, Sort::Ignored, "ignored at your wish"),
            (&self.unread, Sort::Unread, "not understood, and may matter"),
        ];
        let others = others.into_iter().flat_map(|(spans, sort, means)| {
            spans.iter().map(move |&span| Phrase { span, sort, means: means.to_owned() })
        });
        let mut all: Vec<Phrase> = told.chain(others).collect();
        all.sort_by_key(|p| p.span);
        all
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
