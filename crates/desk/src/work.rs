//! One question worked, for the page or for paper.

use model::Severity;
use paper::Document;
use worked::Worked;
use worked::Settings;

use crate::pages::{Kind, Outcome};

/// What a page shows of a worked question.
pub(crate) struct Product {
    pub(crate) title: String,
    pub(crate) outcome: Outcome,
    /// HTML.
    pub(crate) leaf: String,
}

/// What to say where the desk itself fails; the page keeps the text.
pub(crate) const FAILED: &str =
    "The desk failed on this question, which is a fault of the program. Your text is kept as it is.";

/// Works a question away from the thread that serves the pages, so that a long one holds up nobody.
pub(crate) async fn product(question: String, settings: Settings) -> Product {
    if question.trim().is_empty() {
        let outcome = Outcome::new(Kind::Waiting, "Type one, or take one from the shelf.");
        return Product { title: String::new(), outcome, leaf: String::new() };
    }
    let worked = tokio::task::spawn_blocking(move || {
        let worked = worked::work(&question, &settings);
        let document = paper::page::document(&worked);
        let leaf = paper::html_fragment_under(&document, 1);
        Product { title: document.title, outcome: outcome(&worked), leaf }
    });
    worked.await.unwrap_or_else(|_| Product {
        title: String::new(),
        outcome: Outcome::new(Kind::Refused, FAILED),
        leaf: String::new(),
    })
}

/// The worked page as PDF and its title; what failed in words.
pub(crate) async fn pdf(question: String, settings: Settings) -> Result<(Vec<u8>, Document), String> {
    let printed = tokio::task::spawn_blocking(move || {
        let document = paper::page::document(&worked::work(&question, &settings));
        paper::pdf(&document).map(|bytes| (bytes, document)).map_err(|why| why.to_string())
    });
    printed.await.unwrap_or_else(|_| Err(FAILED.to_owned()))
}

/// The answers in a line, or the first reason why there are none.
fn outcome(worked: &Worked) -> Outcome {
    if worked.answered() {
        let answers = worked.work.iter().flat_map(|work| &work.answers).map(|answer| {
            let label = if answer.part.is_empty() { String::new() } else { format!("({}) ", answer.part) };
            let value = if answer.value.is_some() { answer.shown_math.plain() } else { answer.text.clone() };
            format!("{label}{}", if value.is_empty() { &answer.shown } else { &value })
        });
        return Outcome::new(Kind::Answered, answers.collect::<Vec<_>>().join("; "));
    }
    let mut reasons = worked.diagnostics.iter().filter(|d| d.severity >= Severity::Error);
    let Some(first) = reasons.next() else {
        return Outcome::new(Kind::Refused, "The question was not understood.");
    };
    let mut says = sentence(&first.message);
    if let Some(hint) = &first.hint {
        says.push(' ');
        says.push_str(&sentence(hint));
    }
    match reasons.count() {
        0 => {}
        1 => says.push_str(" The page names one more point."),
        more => says.push_str(&format!(" The page names {more} more points.")),
    }
    Outcome::new(Kind::Refused, says)
}

/// A capital at the start and a full stop at the end.
fn sentence(text: &str) -> String {
    let text = text.trim();
    let mut letters = text.chars();
    let mut out: String =
        letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default();
    if !out.ends_with(['.', '!', '?']) {
        out.push('.');
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_message_becomes_a_sentence() {
        assert_eq!(sentence("no mass is given "), "No mass is given.");
        assert_eq!(sentence("Which pulley?"), "Which pulley?");
    }
}
