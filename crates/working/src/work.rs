//! What `work` hands on: answers, routes, steps and lines, as plain data.

use exact::{Math, Value};
use model::{BodyId, Diagnostic, QuantityId};
use motion::{EquationId, ForceId};
use std::collections::BTreeMap;

/// Settings of the house.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Settings {
    /// Significant figures of an answer that is not exact and for which the question says nothing.
    pub figures: u32,
    /// How many figures more are shown of a value that is carried on. The carried value itself is exact.
    pub carried: u32,
    /// The most routes that are worked out.
    pub routes: usize,
}

impl Default for Settings {
    fn default() -> Settings {
        Settings { figures: 3, carried: 2, routes: 3 }
    }
}

/// The answers of a question, with every route to them.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Work {
    /// One for each thing asked, in order.
    pub answers: Vec<Answered>,
    /// The routes, the cheapest first. One only where the pool holds no other; none where nothing is to be worked out.
    pub routes: Vec<Route>,
    /// On each body: do the forces agree with its acceleration?
    pub sense: Vec<SenseCheck>,
    /// The letters of quantities that are not written with their own, because that would mean two things at once:
    /// accelerations that are not equal, speeds of several stages. Whoever draws beside the working writes these.
    pub letters: BTreeMap<QuantityId, String>,
    /// What could not be set out, and anything else worth saying.
    pub diagnostics: Vec<Diagnostic>,
}

/// One answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Answered {
    /// Which of [`Situation::asks`](model::Situation::asks).
    pub ask: usize,
    /// The part's label without brackets.
    pub part: String,
    /// What is asked, in words.
    pub asked: String,
    /// The word for the quantity (`acceleration`); `statement` for words.
    pub quantity: String,
    /// Its value in SI units, degrees for an angle; `None` for words.
    pub value: Option<Value>,
    /// The value as plain algebra; empty for words.
    pub exact: String,
    /// Its unit in plain letters: `m s^-2`; empty where there is none.
    pub unit_ascii: String,
    /// As it is to be given: `0.75 m s^-2`.
    pub shown: String,
    /// The same as a formula.
    pub shown_math: Math,
    /// Words: a direction, a statement; empty where there is nothing to add.
    pub text: String,
    /// Why there is no answer, when there is none.
    pub refused: Option<Diagnostic>,
}

/// One way through the pool to everything asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Route {
    /// What is particular to it: `whole system first`.
    pub name: String,
    /// Its steps, in order.
    pub steps: Vec<Step>,
}

/// One step: one equation that brings one unknown, or several that are solved together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Step {
    /// The part of the question, without brackets.
    pub part: String,
    /// Which thing asked it finds, if it finds one.
    pub ask: Option<usize>,
    /// The bodies that it treats as one.
    pub system: Vec<BodyId>,
    /// In words: `whole system`, `the trailer`.
    pub system_name: String,
    /// The positive direction, in words: `up the slope positive`; empty where there is none.
    pub direction: String,
    /// Why this equation, in words.
    pub reason: String,
    /// Its lines.
    pub lines: Vec<Line>,
    /// The equations of the pool that it uses.
    pub equations: Vec<EquationId>,
    /// What it finds.
    pub gives: Vec<QuantityId>,
    /// Is it a check of something found before?
    pub is_check: bool,
}

/// What a line of working is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum LineKind {
    /// The equation in letters.
    Symbols,
    /// With the known values put in.
    Numbers,
    /// Collected or rearranged.
    Rearranged,
    /// What the step finds.
    Result,
    /// A remark.
    Remark,
}

/// One line. Everything in it has been proved with the exact values.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// What it is.
    pub kind: LineKind,
    /// Words before the formula: `Adding (1) and (2):`; mostly empty.
    pub before: String,
    /// The formula. Terms that come from a force are tagged `force-N` with its number.
    pub math: Math,
    /// Words after the formula: `(3 s.f.)`, `as required`; mostly empty.
    pub after: String,
    /// The forces in it.
    pub forces: Vec<ForceId>,
}

/// A sense check: which way the forces on a body pull, and whether its acceleration agrees.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SenseCheck {
    /// The part of the question, without brackets.
    pub part: String,
    /// The body.
    pub body: BodyId,
    /// The sum of the forces in its positive direction, N.
    pub with: Value,
    /// The sum of the forces the other way, N.
    pub against: Value,
    /// In words.
    pub says: String,
}

impl Line {
    /// The line as text, words included.
    pub fn plain(&self) -> String {
        let mut out = self.before.clone();
        let math = self.math.plain();
        for piece in [math.trim(), &self.after] {
            if !piece.is_empty() {
                if !out.is_empty() && !piece.starts_with(',') {
                    out.push(' ');
                }
                out.push_str(piece);
            }
        }
        out
    }
}

impl Work {
    /// Everything as plain text, for a terminal.
    pub fn plain(&self) -> String {
        let mut out = String::new();
        for (n, route) in self.routes.iter().enumerate() {
            out.push_str(&format!("Route {}: {}\n", n + 1, route.name));
            for step in &route.steps {
                out.push_str(&step.plain());
            }
        }
        for check in &self.sense {
            out.push_str(&format!("Sense: {}\n", check.says));
        }
        for answer in &self.answers {
            out.push_str(&answer.plain());
        }
        for d in &self.diagnostics {
            out.push_str(&format!("! {}\n", d.message));
        }
        out
    }
}

impl Step {
    fn plain(&self) -> String {
        let mut head = String::new();
        if !self.part.is_empty() {
            head.push_str(&format!("({}) ", self.part));
        }
        head.push_str(if self.is_check { "check on " } else { "" });
        head.push_str(&self.system_name);
        if !self.direction.is_empty() {
            head.push_str(&format!(", {}", self.direction));
        }
        let mut out = format!("  {head}\n    {}\n", self.reason);
        for line in &self.lines {
            out.push_str(&format!("      {}\n", line.plain()));
        }
        out
    }
}

impl Answered {
    fn plain(&self) -> String {
        let part = if self.part.is_empty() { String::new() } else { format!("({}) ", self.part) };
        let said = match &self.refused {
            Some(d) => format!("not answered: {}", d.message),
            None if self.text.is_empty() => self.shown.clone(),
            None if self.shown.is_empty() => self.text.clone(),
            None => format!("{}. {}", self.shown, self.text),
        };
        format!("Answer {part}{}: {said}\n", self.asked)
    }
}
