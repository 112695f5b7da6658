//! One question in, everything that the core makes of it out.

use figure::Figure;
use model::{Diagnostic, Severity};
use motion::Solved;
use words::Reading;
use working::{Settings, Work};

/// A question with all that the core makes of it.
#[derive(Clone, Debug)]
pub struct Worked {
    /// The question as it was given.
    pub question: String,
    /// Its reading.
    pub reading: Reading,
    /// The stages solved, one for each stage and set of givens.
    pub solved: Vec<Solved>,
    /// Answers, routes, checks; `None` where there is no answer.
    pub work: Option<Work>,
    /// The situation and the force diagrams.
    pub figures: Vec<Figure>,
    /// Everything to be said, from every room, in order of place.
    pub diagnostics: Vec<Diagnostic>,
}

impl Worked {
    /// Was every part answered?
    pub fn answered(&self) -> bool {
        self.work.is_some() && self.diagnostics.iter().all(|d| d.severity < Severity::Error)
    }
}

/// Works a question out: reads, solves, explains and draws it.
pub fn work(question: &str, settings: &Settings) -> Worked {
    let _ = settings;
    Worked {
        question: question.to_owned(),
        reading: words::read(question),
        solved: Vec::new(),
        work: None,
        figures: Vec::new(),
        diagnostics: Vec::new(),
    }
}
