//! The worked page of one question: the question as it was read, the figures, the working, the answers, the checks.
//!
//! A question that is not answered has a page too: its words with the places of trouble marked, and what to do
//! about each.

mod phrases;
mod steps;
mod trouble;

use crate::document::{Block, Document, Figure, Inline};
use model::Severity;
use worked::Worked;

pub use phrases::question;

/// The page of a question: worked out, or with the reasons why it is not.
///
/// ```
/// let worked = worked::work("Where is the harbour master?", &worked::Settings::default());
/// let page = paper::page::document(&worked);
/// assert!(paper::html_page(&page).contains("Why it is not answered"));
/// ```
pub fn document(worked: &Worked) -> Document {
    let mut page = Document::new(title(worked));
    page.blocks.push(Block::heading(1, "The question"));
    page.blocks.push(question(worked));
    page.blocks.extend(phrases::untold(worked));
    if worked.answered() {
        page.blocks.extend(assumed(worked));
        page.blocks.extend(figures(worked));
        page.blocks.extend(steps::blocks(worked));
    } else {
        page.blocks.extend(trouble::refused(worked));
        page.blocks.extend(figures(worked));
    }
    page.blocks.extend(trouble::remarks(worked));
    if let Some(caution) = worked.caution {
        page.blocks.push(aside("Caution", [caution.to_owned()]));
    }
    page
}

/// What the page is about, in the names of the bodies.
fn title(worked: &Worked) -> String {
    if worked.refusal().is_some_and(|d| d.severity == Severity::Error) {
        return "A question that is not answered yet".to_owned();
    }
    let names: Vec<&str> = worked.reading.situation.bodies.iter().map(|b| b.name.as_str()).collect();
    match names.as_slice() {
        [] => "Worked solution".to_owned(),
        [one] => format!("Worked solution: {one}"),
        [rest @ .., last] if names.len() <= 3 => format!("Worked solution: {} and {last}", rest.join(", ")),
        _ => format!("Worked solution: {} bodies", names.len()),
    }
}

fn assumed(worked: &Worked) -> Option<Block> {
    let assumed = &worked.reading.situation.assumed;
    (!assumed.is_empty()).then(|| aside("Taken for granted", assumed.iter().map(|a| sentence(&powers(a)))))
}

/// The situation, then the force diagrams, side by side.
fn figures(worked: &Worked) -> Vec<Block> {
    let heading = match (worked.figures.is_empty(), worked.force_diagrams().is_empty()) {
        (true, _) => return Vec::new(),
        (false, true) => "The situation",
        (false, false) => "The situation and the forces",
    };
    vec![Block::heading(1, heading), Block::Figures(worked.figures.iter().map(drawn).collect())]
}

fn drawn(figure: &figure::Figure) -> Figure {
    Figure {
        svg: figure.svg.clone(),
        caption: vec![Inline::text(figure.caption.clone())],
        title: figure.title.clone(),
        description: figure.description.clone(),
    }
}

fn aside(heading: &str, paragraphs: impl IntoIterator<Item = String>) -> Block {
    Block::Aside {
        heading: heading.to_owned(),
        body: paragraphs.into_iter().map(|p| vec![Inline::text(p)]).collect(),
    }
}

/// A message as a sentence: a capital first, unless it begins with a letter of the algebra, and a full stop.
fn sentence(message: &str) -> String {
    let message = message.trim();
    let one_letter = message.chars().nth(1).is_none_or(|c| !c.is_alphabetic());
    let mut said = if one_letter { message.to_owned() } else { capital(message) };
    if !said.is_empty() && !said.ends_with(['.', '?', '!', ':']) {
        said.push('.');
    }
    said
}

/// The same text with a capital letter first.
fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

/// Powers written as on paper: `m s^-2` is `m s⁻²`.
fn powers(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut raised = false;
    for c in text.chars() {
        let high = c.to_digit(10).and_then(|d| "⁰¹²³⁴⁵⁶⁷⁸⁹".chars().nth(d as usize));
        match (c, raised, high) {
            ('^', _, _) => raised = true,
            ('-', true, _) => out.push('⁻'),
            (_, true, Some(high)) => out.push(high),
            _ => {
                raised = false;
                out.push(c);
            }
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn messages_become_sentences() {
        assert_eq!(sentence("the mass of A is given twice"), "The mass of A is given twice.");
        assert_eq!(sentence("g = 9.8"), "g = 9.8.", "a letter of the algebra keeps its case");
        assert_eq!(sentence("which body?"), "Which body?");
        assert_eq!(powers("g = 9.8 m s^-2, exactly"), "g = 9.8 m s⁻², exactly");
    }
}
