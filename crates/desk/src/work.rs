//! One question worked, for the page or for paper.

use model::Severity;
use paper::Document;
use worked::Settings;
use worked::Worked;

use crate::mend::{self, Trouble};
use crate::pages::{Kind, Outcome};

/// What a page shows of a worked question.
pub(crate) struct Product {
    pub(crate) title: String,
    pub(crate) outcome: Outcome,
    /// What can be done about what was not understood.
    pub(crate) troubles: Vec<Trouble>,
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
        return Product { title: String::new(), outcome, troubles: Vec::new(), leaf: String::new() };
    }
    let worked = tokio::task::spawn_blocking(move || {
        let worked = worked::work(&question, &settings).mended(&settings);
        let document = paper::page::document(&worked);
        let leaf = paper::html_fragment_under(&document, 1);
        Product { title: document.title, outcome: outcome(&worked), troubles: mend::troubles(&worked), leaf }
    });
    worked.await.unwrap_or_else(|_| Product {
        title: String::new(),
        outcome: Outcome::new(Kind::Refused, FAILED),
        troubles: Vec::new(),
        leaf: String::new(),
    })
}

/// The worked page as PDF and its title; what failed in words.
pub(crate) async fn pdf(question: String, settings: Settings) -> Result<(Vec<u8>, Document), String> {
    let printed = tokio::task::spawn_blocking(move || {
        let document = paper::page::document(&worked::work(&question, &settings).mended(&settings));
        paper::pdf(&document).map(|bytes| (bytes, document)).map_err(|why| why.to_string())
    });
    printed.await.unwrap_or_else(|_| Err(FAILED.to_owned()))
}

/// The answers in a line, or the first reason why there are none.
fn outcome(worked: &Worked) -> Outcome {
    if worked.answered() {
        return Outcome::new(Kind::Answered, answers(worked));
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

/// `(a) 2.8 m s⁻², 14 N; (b) 19.8 N`.
fn answers(worked: &Worked) -> String {
    let mut line = String::new();
    let mut part = None;
    for answer in worked.work.iter().flat_map(|work| &work.answers) {
        let value = if answer.value.is_some() { answer.shown_math.plain() } else { answer.text.clone() };
        let value = if value.is_empty() { answer.shown.clone() } else { value };
        if part == Some(&answer.part) {
            line.push_str(", ");
        } else {
            line.push_str(if line.is_empty() { "" } else { "; " });
            if !answer.part.is_empty() {
                line.push_str(&format!("({}) ", answer.part));
            }
        }
        line.push_str(&value);
        part = Some(&answer.part);
    }
    line
}

/// A capital at the start and a full stop at the end.
pub(crate) fn sentence(text: &str) -> String {
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
    fn answers_of_one_part_stand_together() {
        let question = "Two particles P and Q of masses 3 kg and 5 kg are joined by a light inextensible string that passes \
                        over a smooth fixed pulley. They hang freely and are released from rest. \
                        (a) Find the acceleration of Q and the tension in the string.";
        // a = (5 - 3)g/8 = 2.45, T = 2*3*5*g/8 = 36.75 (Atwood's machine, any mechanics textbook).
        assert_eq!(outcome(&worked::work(question, &Settings::default())).says, "(a) 2.45 m s⁻², 36.8 N");
    }

    #[test]
    fn a_message_becomes_a_sentence() {
        assert_eq!(sentence("no mass is given "), "No mass is given.");
        assert_eq!(sentence("Which pulley?"), "Which pulley?");
    }
}
