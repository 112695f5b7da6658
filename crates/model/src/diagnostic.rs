//! What is to be said to the person who wrote the question, and where.

use crate::Span;

/// How much a diagnostic matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// Worth saying; the answer stands.
    Remark,
    /// The answer stands on something doubtful, which is named.
    Warning,
    /// There is no answer.
    Error,
}

/// Why a question is not answered. The names are those of the JSON contract.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Refusal {
    /// Some words that may carry mechanics were not understood.
    Unread,
    /// Something that is needed is not given.
    Incomplete,
    /// Two givens cannot both be true.
    Contradictory,
    /// The givens are fine but do not fix what is asked.
    Undetermined,
    /// No motion satisfies the givens and the laws.
    Impossible,
    /// This is no question about connected bodies.
    OffTopic,
}

impl Refusal {
    /// The word used in the JSON output.
    pub fn word(self) -> &'static str {
        match self {
            Refusal::Unread => "unread",
            Refusal::Incomplete => "incomplete",
            Refusal::Contradictory => "contradictory",
            Refusal::Undetermined => "undetermined",
            Refusal::Impossible => "impossible",
            Refusal::OffTopic => "off-topic",
        }
    }
}

/// One message about the question: lower case, no full stop, with a wording
/// that would work as its hint.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Diagnostic {
    /// How much it matters.
    pub severity: Severity,
    /// Why there is no answer, when there is none.
    pub refusal: Option<Refusal>,
    /// The places in the question that it speaks of.
    pub spans: Vec<Span>,
    /// What is the matter.
    pub message: String,
    /// What to write instead, or what to add.
    pub hint: Option<String>,
    /// Changes of the question's text that help; each stands for itself.
    pub suggestions: Vec<Suggestion>,
}

/// A change of the question's text that its writer may take up: other words for a stretch of it.
///
/// ```
/// let question = "The rope comes off.";
/// let change = model::Suggestion::new(model::Span::new(9, 18), "breaks", "this is read as the rope breaking");
/// assert_eq!(change.applied(question).as_deref(), Some("The rope breaks."));
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Suggestion {
    /// The stretch to be replaced.
    pub span: Span,
    /// What to write there.
    pub replacement: String,
    /// Why this would help, in a few words: lower case, no full stop.
    pub why: String,
}

impl Suggestion {
    /// To write `replacement` where `span` is.
    pub fn new(span: Span, replacement: impl Into<String>, why: impl Into<String>) -> Suggestion {
        Suggestion { span, replacement: replacement.into(), why: why.into() }
    }
    /// The question with the change made; `None` where the stretch does not lie in this text.
    pub fn applied(&self, question: &str) -> Option<String> {
        let before = question.get(..self.span.start)?;
        let after = question.get(self.span.end..)?;
        Some(format!("{before}{}{after}", self.replacement))
    }
}

impl Diagnostic {
    /// The question is not answered, for this reason.
    pub fn refuse(refusal: Refusal, message: impl Into<String>) -> Diagnostic {
        Diagnostic {
            severity: Severity::Error,
            refusal: Some(refusal),
            spans: Vec::new(),
            message: message.into(),
            hint: None,
            suggestions: Vec::new(),
        }
    }
    /// The question is answered, on something doubtful.
    pub fn warn(message: impl Into<String>) -> Diagnostic {
        Diagnostic {
            severity: Severity::Warning,
            refusal: None,
            spans: Vec::new(),
            message: message.into(),
            hint: None,
            suggestions: Vec::new(),
        }
    }
    /// Something worth saying.
    pub fn remark(message: impl Into<String>) -> Diagnostic {
        Diagnostic { severity: Severity::Remark, ..Diagnostic::warn(message) }
    }
    /// Adds a place.
    #[must_use]
    pub fn at(mut self, span: Span) -> Diagnostic {
        self.spans.push(span);
        self
    }
    /// Adds several places.
    #[must_use]
    pub fn at_all(mut self, spans: impl IntoIterator<Item = Span>) -> Diagnostic {
        self.spans.extend(spans);
        self
    }
    /// Adds a hint.
    #[must_use]
    pub fn hint(mut self, hint: impl Into<String>) -> Diagnostic {
        self.hint = Some(hint.into());
        self
    }
    /// Adds a change of the text that helps.
    #[must_use]
    pub fn suggest(mut self, suggestion: Suggestion) -> Diagnostic {
        self.suggestions.push(suggestion);
        self
    }
}
