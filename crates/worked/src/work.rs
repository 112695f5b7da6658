//! The assembly: read, solve, explain, draw.

use crate::{Settings, caution, drawn, merge, stages};
use figure::Figure;
use model::{Diagnostic, QuantityId, Refusal, Severity};
use motion::Solved;
use std::collections::BTreeMap;
use words::Reading;
use working::Work;

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
    /// The situation first, then the force diagrams; empty where the question was not understood.
    pub figures: Vec<Figure>,
    /// Everything to be said, from every room, in order of place.
    pub diagnostics: Vec<Diagnostic>,
    /// A word of caution, where the question is about lifting, towing or hauling.
    pub caution: Option<&'static str>,
}

impl Worked {
    /// Was every part answered?
    pub fn answered(&self) -> bool {
        self.work.is_some() && self.refusal().is_none()
    }

    /// Why there is no answer: the first error, words that were not understood before all else, because the other
    /// troubles may only follow from them. `None` for a question that is answered.
    pub fn refusal(&self) -> Option<&Diagnostic> {
        let errors = self.diagnostics.iter().filter(|d| d.severity == Severity::Error);
        errors.min_by_key(|d| merge::weight(d))
    }

    /// The same with changes of the text beside what was not understood, each tried and found to be read further. The
    /// settings must be those of the work. Costs a few readings, and only where the question is refused.
    ///
    /// ```
    /// let question = "A crate of mass 5 kg is pulled along a horizontal floor by a horizontal force of 20 N. The floor \
    ///                 is greasy. Find the acceleration of the crate.";
    /// let settings = worked::Settings::default();
    /// let worked = worked::work(question, &settings).mended(&settings);
    /// let change = worked.diagnostics.iter().flat_map(|d| &d.suggestions).next().unwrap();
    /// assert_eq!(change.replacement, "smooth");
    /// ```
    #[must_use]
    pub fn mended(mut self, settings: &Settings) -> Worked {
        if self.answered() || self.reading.is_sound() {
            return self;
        }
        self.reading = std::mem::take(&mut self.reading).mended(&self.question, &settings.ignored);
        for mended in self.reading.diagnostics.iter().filter(|d| !d.suggestions.is_empty()) {
            let same = |d: &&mut Diagnostic| {
                d.message == mended.message
                    && d.spans.first() == mended.spans.first()
                    && d.suggestions.is_empty()
            };
            if let Some(d) = self.diagnostics.iter_mut().find(same) {
                d.hint.clone_from(&mended.hint);
                d.suggestions.clone_from(&mended.suggestions);
            }
        }
        self
    }

    /// The drawing of the situation, if the question was understood.
    pub fn scene(&self) -> Option<&Figure> {
        self.figures.first()
    }

    /// The force diagrams, if the question was solved.
    pub fn force_diagrams(&self) -> &[Figure] {
        self.figures.get(1..).unwrap_or_default()
    }
}

/// Works a question out: reads, solves, explains and draws it.
pub fn work(question: &str, settings: &Settings) -> Worked {
    work_situation(question, words::read_ignoring(question, &settings.ignored), settings)
}

/// Works out a question that has been read already. The reading must be of this question: its places are
/// places in it.
///
/// ```
/// use model::{Builder, Form, Line, State};
/// let mut b = Builder::new();
/// let p = b.body("P", "P", Form::Particle, Line::Vertical, Some(3.into()));
/// let q = b.body("Q", "Q", Form::Particle, Line::Vertical, Some(5.into()));
/// b.over_pulley("the string", p, q);
/// let stage = b.stage(State::Released);
/// b.ask_acceleration("", stage, q);
/// let reading = words::Reading { situation: b.finish(), ..words::Reading::default() };
/// let worked = worked::work_situation("", reading, &worked::Settings::default());
/// assert_eq!(worked.work.unwrap().answers[0].exact, "49/20");
/// ```
pub fn work_situation(question: &str, reading: Reading, settings: &Settings) -> Worked {
    let mut worked = Worked {
        question: question.to_owned(),
        diagnostics: reading.diagnostics.clone(),
        caution: None,
        reading,
        solved: Vec::new(),
        work: None,
        figures: Vec::new(),
    };
    if worked.refusal().is_none() {
        worked.look_over();
    }
    if worked.refusal().is_none() {
        worked.caution = caution::caution(&worked.reading.situation);
        worked.solve();
        let letters = if worked.refusal().is_none() { worked.explain(settings) } else { BTreeMap::new() };
        let situation = drawn::with_letters(&worked.reading.situation, &letters);
        worked.figures = drawn::figures(&situation, &worked.solved);
    }
    merge::in_order(&mut worked.diagnostics);
    worked
}

impl Worked {
    /// Is there a sound situation, with every word understood, and something asked of it?
    fn look_over(&mut self) {
        if !self.reading.unread.is_empty() {
            let unread = Diagnostic::refuse(Refusal::Unread, "these words were not understood")
                .at_all(self.reading.unread.iter().copied())
                .hint("say it in other words, or leave it out if it does not matter");
            self.diagnostics.push(unread);
            return;
        }
        self.diagnostics.extend(self.reading.situation.check());
        if self.reading.situation.asks.is_empty() && self.refusal().is_none() {
            let nothing = Diagnostic::refuse(Refusal::Incomplete, "nothing is asked")
                .hint("say what is to be found, such as: Find the acceleration of the truck.");
            self.diagnostics.push(nothing);
        }
    }

    /// Solves each stage that an answer may rest on with each set of givens that matters.
    fn solve(&mut self) {
        let situation = &self.reading.situation;
        let needed = stages::needed(situation);
        let found = motion::solve_each(situation, needed.iter().map(|n| (n.stage, n.part)));
        for (needed, found) in needed.iter().zip(found) {
            match found {
                Ok(solved) => match motion::check(situation, &solved) {
                    Ok(()) => self.solved.push(solved),
                    Err(why) => {
                        let message = format!("no answer can be vouched for: {why}");
                        self.diagnostics.push(Diagnostic::refuse(Refusal::Undetermined, message));
                    }
                },
                Err(why) if needed.must => self.diagnostics.extend(why),
                Err(_) => {}
            }
        }
    }

    /// Sets out the working; one thing asked without an answer withholds them all. Gives the letters that it writes
    /// otherwise than the situation does.
    fn explain(&mut self, settings: &Settings) -> BTreeMap<QuantityId, String> {
        let mut work = working::work(&self.reading.situation, &self.solved, &settings.working);
        self.diagnostics.append(&mut work.diagnostics);
        let letters = work.letters.clone();
        let refused = work.answers.iter().filter_map(|answer| {
            let place = self.reading.situation.asks.get(answer.ask).map(|ask| ask.span);
            let mut why = answer.refused.clone()?;
            why.severity = Severity::Error;
            if why.spans.is_empty() {
                why.spans.extend(place);
            }
            Some(why)
        });
        self.diagnostics.extend(refused);
        if self.refusal().is_none() {
            self.work = Some(work);
        }
        letters
    }
}
