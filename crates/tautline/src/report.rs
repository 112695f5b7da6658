//! Why a question is not answered, with the places in it, for a terminal.

use crate::wrap::{folded, safe};
use miette::{GraphicalReportHandler, GraphicalTheme, LabeledSpan, NamedSource, Severity};
use model::{Diagnostic, Refusal};
use std::fmt;

/// A longer list helps nobody.
const MOST: usize = 12;
/// Places shown for one reason.
const MOST_PLACES: usize = 8;
/// A place that is longer than this is shown by its beginning.
const LONGEST_PLACE: usize = 160;
/// Lines of the question are shown in at most so many bytes.
const LINE: usize = 68;

/// All diagnostics, one below the other.
pub(crate) fn report<'a>(
    name: &str,
    question: &str,
    diagnostics: impl IntoIterator<Item = &'a Diagnostic>,
    colour: bool,
) -> String {
    let theme = if colour { GraphicalTheme::unicode() } else { GraphicalTheme::unicode_nocolor() };
    let handler = GraphicalReportHandler::new_themed(theme).with_width(80).with_links(false);
    let shown = folded(&safe(question), LINE);
    let mut all: Vec<&Diagnostic> = diagnostics.into_iter().collect();
    let more = all.len().saturating_sub(MOST);
    all.truncate(MOST);
    let mut out = String::new();
    for d in all {
        let told = Told::new(name, question, &shown, d);
        let mut one = String::new();
        if handler.render_report(&mut one, &told).is_err() {
            one = format!("{}\n", told.message);
        }
        out.push_str(&one);
        if !one.ends_with('\n') {
            out.push('\n');
        }
    }
    if more > 0 {
        out.push_str(&format!("... and {more} more\n"));
    }
    out
}

/// One diagnostic in the form that the report asks for.
#[derive(Debug)]
struct Told {
    message: String,
    kind: &'static str,
    severity: Severity,
    hint: Option<String>,
    labels: Vec<LabeledSpan>,
    source: NamedSource<String>,
}

impl Told {
    fn new(name: &str, question: &str, shown: &str, d: &Diagnostic) -> Told {
        let label = match d.refusal {
            Some(Refusal::Unread) => "not understood",
            _ => "here",
        };
        let places = d.spans.iter().filter(|s| !s.of(question).trim().is_empty()).take(MOST_PLACES);
        let labels = places
            .map(|span| {
                let text = span.of(question);
                if text.len() <= LONGEST_PLACE {
                    LabeledSpan::new(Some(label.to_owned()), span.start, text.len())
                } else {
                    let word = text.split_whitespace().next().map_or(1, str::len);
                    LabeledSpan::new(Some(format!("{label}, from this word on")), span.start, word)
                }
            })
            .collect();
        Told {
            message: safe(&d.message),
            kind: d.refusal.map_or("remark", Refusal::word),
            severity: match d.severity {
                model::Severity::Error => Severity::Error,
                model::Severity::Warning => Severity::Warning,
                model::Severity::Remark => Severity::Advice,
            },
            hint: d.hint.as_deref().map(safe),
            labels,
            source: NamedSource::new(safe(name).replace('\n', " "), shown.to_owned()),
        }
    }
}

impl fmt::Display for Told {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for Told {}

impl miette::Diagnostic for Told {
    fn code<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        Some(Box::new(self.kind))
    }
    fn severity(&self) -> Option<Severity> {
        Some(self.severity)
    }
    fn help<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        self.hint.as_ref().map(|hint| Box::new(hint) as Box<dyn fmt::Display>)
    }
    fn source_code(&self) -> Option<&dyn miette::SourceCode> {
        (!self.labels.is_empty()).then_some(&self.source as &dyn miette::SourceCode)
    }
    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        (!self.labels.is_empty())
            .then(|| Box::new(self.labels.iter().cloned()) as Box<dyn Iterator<Item = _>>)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::Span;

    #[test]
    fn the_place_stands_under_the_words_of_the_question() {
        let question =
            "A truck of mass 300 kg is pulled by a magnet \u{1b}[2J whose force doubles every second.";
        let start = question.find("doubles").unwrap();
        let d = Diagnostic::refuse(Refusal::Unread, "these words were not understood")
            .at(Span::new(start, start + 20))
            .hint("say it in other words");
        let told = report("trucks.txt", question, [&d], false);
        for words in
            ["these words were not understood", "doubles every second", "not understood", "say it in"]
        {
            assert!(told.contains(words), "{words:?} is missing in\n{told}");
        }
        assert!(!told.contains('\u{1b}'), "no escape reaches the terminal:\n{told}");
        assert!(told.lines().all(|l| l.chars().count() <= 80), "{told}");
    }

    #[test]
    fn places_outside_the_text_do_no_harm() {
        let d = Diagnostic::refuse(Refusal::Unread, "lost").at(Span::new(90, 95)).at(Span::new(1, 2));
        assert!(report("-", "aé", [&d], false).contains("lost"));
    }
}
