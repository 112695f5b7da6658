//! Questions with a fault that their writer made on purpose: what is missing, or clashes, or cannot be.

use worked::Settings;

/// What became of a defective question.
pub(crate) enum Outcome {
    /// It was answered, which it never may be.
    Answered(String),
    /// Refused with the right kind of error and the words that name the fault.
    Named,
    /// Refused for another reason.
    Otherwise(String),
}

/// Works a text and holds its refusal against the expected: kinds with `|`; key words with commas, alternatives with `/`.
pub(crate) fn fault(text: &str, expect: &str) -> Outcome {
    let mut lines = expect.lines();
    let kinds: Vec<&str> = lines.next().unwrap_or_default().split('|').map(str::trim).collect();
    let words = lines.next().unwrap_or_default();
    let worked = worked::work(text, &Settings::default());
    let Some(first) = worked.refusal() else {
        let answers = worked.work.iter().flat_map(|w| &w.answers);
        let said: Vec<String> = answers.map(|a| format!("{} = {}", a.asked, a.exact)).collect();
        return Outcome::Answered(format!("answered: {}", said.join("; ")));
    };
    let errors = || worked.diagnostics.iter().filter(|d| d.severity == model::Severity::Error);
    let kind = errors().any(|d| d.refusal.is_some_and(|r| kinds.contains(&r.word())));
    let told = errors().map(|d| d.message.to_lowercase() + " ");
    let quoted = errors().flat_map(|d| d.spans.iter().map(|s| s.of(text).to_lowercase() + " "));
    let says: String = told.chain(quoted).collect();
    let named = words == "-"
        || words.split(',').all(|word| word.split('/').any(|w| says.contains(&w.trim().to_lowercase())));
    if kind && named { Outcome::Named } else { Outcome::Otherwise(first.message.clone()) }
}
