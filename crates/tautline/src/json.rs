//! The JSON of `tautline work --json`: our own copy of the data, so that it stays the same when the rooms change.
//! Every key is always there.

use crate::stages;
use exact::Value;
use model::{Diagnostic, Refusal, Span, Suggestion};
use serde::Serialize;
use words::Phrase;
use worked::Worked;
use working::{Answered, LineKind, Route, Step};

/// Figures of the decimal that a `value` is read from: so many more than a number of double precision holds that
/// rounding twice gives the nearest one.
const FIGURES: u32 = 40;

#[derive(Default, Serialize)]
struct Output {
    reading: ReadingOut,
    answers: Vec<AnswerOut>,
    routes: Vec<RouteOut>,
    stages: Vec<StageOut>,
    error: Option<ErrorOut>,
}

#[derive(Default, Serialize)]
struct ReadingOut {
    unread: Vec<Place>,
    assumed: Vec<String>,
    notes: Vec<NoteOut>,
    /// What is ignored at the wish of whoever asks.
    ignored: Vec<Place>,
    /// Every phrase in order, with what became of it.
    phrases: Vec<PhraseOut>,
    /// Changes of the text that are read further.
    suggestions: Vec<SuggestionOut>,
}

#[derive(Serialize)]
struct Place {
    start: usize,
    end: usize,
    text: String,
}

#[derive(Serialize)]
struct NoteOut {
    start: usize,
    end: usize,
    text: String,
    means: String,
}

#[derive(Serialize)]
struct PhraseOut {
    start: usize,
    end: usize,
    text: String,
    /// `told`, `scene`, `ignored` or `unread`.
    sort: &'static str,
    means: String,
}

#[derive(Serialize)]
struct SuggestionOut {
    start: usize,
    end: usize,
    text: String,
    replacement: String,
    why: String,
}

#[derive(Serialize)]
struct AnswerOut {
    part: String,
    asked: String,
    quantity: String,
    value: Option<f64>,
    exact: String,
    unit: String,
    shown: String,
    text: String,
}

#[derive(Serialize)]
struct RouteOut {
    name: String,
    steps: Vec<StepOut>,
}

#[derive(Serialize)]
struct StepOut {
    system: Vec<String>,
    direction: String,
    reason: String,
    equation: String,
    result: String,
}

#[derive(Serialize)]
struct StageOut {
    regime: String,
    ends: String,
}

#[derive(Serialize)]
struct ErrorOut {
    kind: &'static str,
    message: String,
    spans: Vec<Place>,
}

/// The object for a question, with a line break at its end.
pub(crate) fn worked(worked: &Worked) -> String {
    let question = worked.question.as_str();
    let read = &worked.reading;
    let suggestions = worked.diagnostics.iter().flat_map(|d| &d.suggestions);
    let mut out = Output {
        reading: ReadingOut {
            unread: read.unread.iter().map(|span| place(question, *span)).collect(),
            assumed: read.situation.assumed.clone(),
            notes: read.notes.iter().map(|note| note_out(question, note.span, &note.means)).collect(),
            ignored: read.ignored.iter().map(|span| place(question, *span)).collect(),
            suggestions: suggestions.map(|s| suggestion_out(question, s)).collect(),
            phrases: read.phrases().iter().map(|phrase| phrase_out(question, phrase)).collect(),
        },
        error: worked.refusal().map(|d| error(question, d)),
        ..Output::default()
    };
    if let Some(work) = worked.work.as_ref().filter(|_| worked.answered()) {
        out.answers = work.answers.iter().map(answer).collect();
        out.routes = work.routes.iter().map(|r| route(worked, r)).collect();
        let situation = &read.situation;
        let stage = |s| StageOut { regime: stages::regime(situation, s), ends: stages::ends(situation, s) };
        out.stages = worked.solved.iter().map(stage).collect();
    }
    written(&out)
}

/// The object for something that is no question, such as a file of noise.
pub(crate) fn refused(why: &Diagnostic) -> String {
    written(&Output { error: Some(error("", why)), ..Output::default() })
}

fn written(out: &Output) -> String {
    let mut json = serde_json::to_string_pretty(out).unwrap_or_else(|_| "{}".to_owned());
    json.push('\n');
    json
}

fn place(question: &str, span: Span) -> Place {
    Place { start: span.start, end: span.end, text: span.of(question).to_owned() }
}

fn note_out(question: &str, span: Span, means: &str) -> NoteOut {
    NoteOut { start: span.start, end: span.end, text: span.of(question).to_owned(), means: means.to_owned() }
}

fn phrase_out(question: &str, phrase: &Phrase) -> PhraseOut {
    PhraseOut {
        start: phrase.span.start,
        end: phrase.span.end,
        text: phrase.span.of(question).to_owned(),
        sort: phrase.sort.word(),
        means: phrase.means.clone(),
    }
}

fn suggestion_out(question: &str, s: &Suggestion) -> SuggestionOut {
    SuggestionOut {
        start: s.span.start,
        end: s.span.end,
        text: s.span.of(question).to_owned(),
        replacement: s.replacement.clone(),
        why: s.why.clone(),
    }
}

fn error(question: &str, d: &Diagnostic) -> ErrorOut {
    ErrorOut {
        kind: d.refusal.unwrap_or(Refusal::Undetermined).word(),
        message: d.message.clone(),
        spans: d.spans.iter().map(|span| place(question, *span)).collect(),
    }
}

fn answer(answer: &Answered) -> AnswerOut {
    let statement = answer.value.is_none();
    AnswerOut {
        part: answer.part.clone(),
        asked: answer.asked.clone(),
        quantity: answer.quantity.clone(),
        value: answer.value.as_ref().and_then(number),
        exact: algebra(&answer.exact),
        unit: answer.unit_ascii.clone(),
        shown: if statement && answer.shown.is_empty() { answer.text.clone() } else { answer.shown.clone() },
        text: answer.text.clone(),
    }
}

/// The nearest number of double precision, by way of a decimal that is proved; none for letters.
fn number(value: &Value) -> Option<f64> {
    exact::round_significant(value, FIGURES).ok()?.digits.parse().ok()
}

/// Plain algebra that other programs read: angles in radians, as they expect in `sin()` and `cos()`.
fn algebra(exact: &str) -> String {
    exact.replace("°)", "*pi/180)")
}

fn route(worked: &Worked, route: &Route) -> RouteOut {
    let steps = route.steps.iter().filter(|s| !s.is_check).map(|s| step(worked, s)).collect();
    RouteOut { name: route.name.clone(), steps }
}

fn step(worked: &Worked, step: &Step) -> StepOut {
    let labels = step.system.iter().filter_map(|id| worked.reading.situation.body(*id));
    let symbols = step.lines.iter().filter(|l| l.kind == LineKind::Symbols).map(working::Line::plain);
    let equations: Vec<String> = symbols.collect();
    let results = step.lines.iter().filter(|l| l.kind == LineKind::Result).map(working::Line::plain);
    let results: Vec<String> = results.collect();
    let last = || step.lines.last().map(working::Line::plain).unwrap_or_default();
    StepOut {
        system: labels.map(|b| b.label.clone()).collect(),
        direction: step.direction.clone(),
        reason: step.reason.clone(),
        equation: equations.join("; "),
        result: if results.is_empty() { last() } else { results.join("; ") },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn values_are_numbers_and_algebra_is_plain() {
        let root = Value::from_int(2).sqrt().ok();
        assert_eq!(root.as_ref().and_then(number), Some(std::f64::consts::SQRT_2));
        assert_eq!(number(&Value::symbol("m")), None);
        assert_eq!(algebra("49*sin(25°)/5"), "49*sin(25*pi/180)/5");
    }
}
