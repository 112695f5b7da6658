//! The worked solution as plain text for a terminal.

use crate::wrap::wrapped;
use model::Severity;
use worked::Worked;
use working::{Answered, LineKind, Route, Step, Work};

/// Everything about a question that was answered.
pub(crate) fn worked(worked: &Worked, bold: bool) -> String {
    let mut page = Page { out: String::new(), bold };
    let Some(work) = &worked.work else { return page.out };
    page.reading(worked);
    page.heading("Answers");
    for answer in &work.answers {
        page.answer(answer);
    }
    if let Some((first, others)) = work.routes.split_first() {
        page.heading("Working");
        page.route(first);
        for route in others {
            page.another(first, route);
        }
    }
    page.checks(work);
    page.remarks(worked);
    if let Some(caution) = worked.caution {
        page.heading("Caution");
        page.paragraph(caution);
    }
    page.out
}

struct Page {
    out: String,
    bold: bool,
}

impl Page {
    fn heading(&mut self, title: &str) {
        if !self.out.is_empty() {
            self.out.push('\n');
        }
        let (on, off) = if self.bold { ("\u{1b}[1m", "\u{1b}[0m") } else { ("", "") };
        self.out.push_str(&format!("{on}{title}{off}\n"));
    }

    fn paragraph(&mut self, text: &str) {
        self.out.push_str(&wrapped(text, "  ", "  "));
    }

    /// What each phrase told us, and what was taken for granted.
    fn reading(&mut self, worked: &Worked) {
        let read = &worked.reading;
        let phrases = read.phrases();
        if phrases.is_empty() && read.situation.assumed.is_empty() {
            return;
        }
        self.heading("Reading");
        for phrase in &phrases {
            let words = phrase.span.of(&worked.question);
            self.out.push_str(&wrapped(&format!("“{}”: {}", words.trim(), phrase.means), "  ", "      "));
        }
        for assumed in &read.situation.assumed {
            self.out.push_str(&wrapped(&format!("Taken for granted: {assumed}"), "  ", "      "));
        }
    }

    fn answer(&mut self, answer: &Answered) {
        let label = label(&answer.part);
        let asked = capital(&answer.asked);
        let value = answer.shown_math.plain();
        let said = match (value.trim(), answer.text.trim()) {
            ("", words) => words.to_owned(),
            (value, "") => format!("{asked}: {value}"),
            (value, words) => format!("{asked}: {value} ({})", inside(words)),
        };
        self.out.push_str(&wrapped(&format!("{label}{said}"), "  ", "      "));
    }

    fn route(&mut self, route: &Route) {
        let mut part = "";
        let mut number = 0;
        for step in route.steps.iter().filter(|s| !s.is_check) {
            if step.part != part {
                part = &step.part;
                number = 0;
                self.out.push_str(&format!("  Part ({part})\n"));
            }
            number += 1;
            self.step(number, step, true);
        }
    }

    /// Another route: only those of its steps that the first does not have.
    fn another(&mut self, first: &Route, route: &Route) {
        let lines = |s: &Step| s.lines.iter().map(working::Line::plain).collect::<Vec<_>>();
        let known = |s: &Step| first.steps.iter().any(|f| f.system == s.system && lines(f) == lines(s));
        let new: Vec<&Step> =
            route.steps.iter().filter(|s| !s.is_check && !s.equations.is_empty() && !known(s)).collect();
        if new.is_empty() {
            return;
        }
        self.heading(&format!("Another route: {}", route.name));
        for (n, step) in new.into_iter().enumerate() {
            self.step(n + 1, step, false);
        }
    }

    fn step(&mut self, number: usize, step: &Step, in_full: bool) {
        let direction =
            if step.direction.is_empty() { String::new() } else { format!(", {}", step.direction) };
        let head = format!("{number}. {}{direction}", capital(&step.system_name));
        self.out.push_str(&wrapped(&head, "  ", "     "));
        if in_full && !step.reason.is_empty() {
            self.out.push_str(&wrapped(&step.reason, "     ", "     "));
        }
        for line in &step.lines {
            if in_full || !matches!(line.kind, LineKind::Rearranged | LineKind::Remark) {
                self.out.push_str(&wrapped(&line.plain(), "         ", "             "));
            }
        }
    }

    fn checks(&mut self, work: &Work) {
        let steps = work.routes.first().map(|r| r.steps.as_slice()).unwrap_or_default();
        let checks: Vec<&Step> = steps.iter().filter(|s| s.is_check).collect();
        if checks.is_empty() && work.sense.is_empty() {
            return;
        }
        self.heading("Checks");
        for (n, check) in checks.into_iter().enumerate() {
            self.step(n + 1, check, true);
        }
        for sense in &work.sense {
            self.paragraph(&sense.says);
        }
    }

    fn remarks(&mut self, worked: &Worked) {
        let remarks: Vec<_> = worked.diagnostics.iter().filter(|d| d.severity < Severity::Error).collect();
        if remarks.is_empty() {
            return;
        }
        self.heading("Worth a remark");
        for d in remarks {
            self.paragraph(&capital(&d.message));
        }
    }
}

fn label(part: &str) -> String {
    if part.is_empty() { String::new() } else { format!("({part}) ") }
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

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}
