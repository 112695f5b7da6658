//! What can be done about words that were not understood: take other words, or say that they do not matter.

use model::{Diagnostic, Refusal, Severity, Suggestion};
use worked::Worked;

use crate::form::Form;
use crate::pages::Utf16;

/// The most phrases that a page ignores.
const MOST_IGNORED: usize = 20;
/// The most characters of the question that a button or a line quotes.
const QUOTED: usize = 60;

/// A reason why the question is not answered, with what can be done about it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Trouble {
    pub(crate) says: String,
    pub(crate) changes: Vec<Change>,
    /// The phrase that may be ignored; empty for none.
    pub(crate) ignore: String,
}

impl Trouble {
    pub(crate) fn ignore_label(&self) -> String {
        format!("Ignore “{}”", short(&self.ignore))
    }
}

/// Other words for a stretch of the question.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Change {
    /// What stands on the button.
    pub(crate) label: String,
    /// What it does to the text.
    pub(crate) place: String,
    /// What the form sends: see [`taken`].
    pub(crate) value: String,
    /// Where, in UTF-16 units, as the page's script counts.
    pub(crate) start: usize,
    pub(crate) end: usize,
    pub(crate) words: String,
}

/// The troubles of a question about which something can be done.
pub(crate) fn troubles(worked: &Worked) -> Vec<Trouble> {
    let errors = worked.diagnostics.iter().filter(|d| d.severity == Severity::Error);
    let mut found: Vec<Trouble> = errors.map(|d| trouble(worked, d)).collect();
    found.retain(|t| !t.changes.is_empty() || !t.ignore.is_empty());
    let mut seen: Vec<(String, Vec<Change>)> = Vec::new();
    found.retain(|t| {
        let key = (t.ignore.clone(), t.changes.clone());
        let new = !seen.contains(&key);
        seen.push(key);
        new
    });
    found
}

fn trouble(worked: &Worked, d: &Diagnostic) -> Trouble {
    let question = &worked.question;
    let unread =
        d.spans.first().filter(|s| d.refusal == Some(Refusal::Unread) && worked.reading.unread.contains(s));
    Trouble {
        says: crate::work::sentence(&d.message),
        changes: d.suggestions.iter().map(|s| change(question, s)).collect(),
        ignore: unread.map(|s| words(s.of(question))).unwrap_or_default(),
    }
}

fn change(question: &str, s: &Suggestion) -> Change {
    let (there, new) = (words(s.span.of(question)), words(&s.replacement));
    let (label, place) = if new.is_empty() {
        (format!("Leave out “{}”", short(&there)), String::new())
    } else {
        (format!("Write “{new}”"), format!("in the place of “{}”", short(&there)))
    };
    let mut units = Utf16::new(question);
    Change {
        label,
        place,
        value: format!("{}:{}:{}", s.span.start, s.span.end, s.replacement),
        start: units.at(s.span.start),
        end: units.at(s.span.end),
        words: s.replacement.clone(),
    }
}

/// The question with the change that a button sent as `start:end:words`, places in bytes.
fn taken(question: &str, value: &str) -> Option<String> {
    let mut pieces = value.splitn(3, ':');
    let (start, end) = (pieces.next()?.parse().ok()?, pieces.next()?.parse().ok()?);
    let words = pieces.next()?;
    (start <= end)
        .then(|| model::Suggestion::new(model::Span::new(start, end), words, "").applied(question))?
}

/// The question as the buttons leave it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Wishes {
    /// What is to be ignored.
    pub(crate) ignored: Vec<String>,
    /// The question before the last change that a button made; empty for none.
    pub(crate) before: String,
}

impl Wishes {
    /// Does what the buttons of a form ask for, to the question that came with it. A change is made only to the text
    /// that its button was made for.
    pub(crate) fn of(form: &Form, question: &mut String) -> Wishes {
        let mut wishes = Wishes { ignored: Vec::new(), before: form.get("before").to_owned() };
        let untouched = form.get("numbered") == question.as_str();
        if let Some(changed) = taken(question, form.get("mend")).filter(|_| untouched) {
            wishes.before = std::mem::replace(question, changed);
        } else if !form.get("undo").is_empty() && !wishes.before.is_empty() {
            *question = std::mem::take(&mut wishes.before);
        }
        if wishes.before == *question {
            wishes.before.clear();
        }
        let heeded = words(form.get("heed"));
        let text = words(question).to_lowercase();
        for phrase in form.all("ignored").chain(form.all("ignore")).map(words) {
            let stands = !phrase.is_empty() && text.contains(&phrase.to_lowercase());
            let room = wishes.ignored.len() < MOST_IGNORED && !wishes.ignored.contains(&phrase);
            if stands && room && phrase != heeded {
                wishes.ignored.push(phrase);
            }
        }
        wishes
    }
}

/// The words with one space between them.
fn words(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The beginning of a long text.
fn short(text: &str) -> String {
    if text.chars().count() <= QUOTED {
        return text.to_owned();
    }
    let cut: String = text.chars().take(QUOTED - 1).collect();
    format!("{}…", cut.rsplit_once(' ').map_or(cut.as_str(), |(whole, _)| whole))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sent(body: &str, question: &str) -> (Wishes, String) {
        let mut question = question.to_owned();
        let wishes = Wishes::of(&Form::read(body.as_bytes()).unwrap(), &mut question);
        (wishes, question)
    }

    #[test]
    fn a_change_is_made_to_its_own_text_and_can_be_undone() {
        let (wishes, text) = sent("numbered=a+greasy+floor&mend=2:8:smooth", "a greasy floor");
        assert_eq!((text.as_str(), wishes.before.as_str()), ("a smooth floor", "a greasy floor"));
        let (wishes, text) = sent("numbered=a+smooth+floor&before=a+greasy+floor&undo=1", "a smooth floor");
        assert_eq!((text.as_str(), wishes.before.as_str()), ("a greasy floor", ""));
        let (_, text) = sent("numbered=a+greasy+floor&mend=2:8:smooth", "the greasy floor");
        assert_eq!(text, "the greasy floor", "the text went on meanwhile");
    }

    #[test]
    fn odd_changes_are_survived() {
        for odd in ["", ":", "1:2", "2:1:x", "0:99:x", "1:2:x", "-1:2:x", "x:y:z"] {
            let (wishes, text) = sent(&format!("numbered=%C3%A9&mend={odd}"), "é");
            assert_eq!((text.as_str(), wishes), ("é", Wishes::default()), "{odd}");
        }
    }

    #[test]
    fn a_phrase_is_ignored_until_it_is_heeded_again_or_gone() {
        let (wishes, _) =
            sent("ignored=by+magic&ignore=in++blue&ignore=in+blue&ignored=gone", "moved by\nmagic In blue");
        assert_eq!(wishes.ignored, ["by magic", "in blue"]);
        let (wishes, _) = sent("ignored=by+magic&ignored=in+blue&heed=by+magic", "moved by magic in blue");
        assert_eq!(wishes.ignored, ["in blue"]);
    }

    #[test]
    fn what_can_be_done_is_offered() {
        let question = "A crate of mass 5 kg is pulled along a horizontal floor by a horizontal force of 20 N. The floor is \
                        greasy. Find the acceleration of the crate.";
        let settings = worked::Settings::default();
        let found = troubles(&worked::work(question, &settings).mended(&settings));
        let greasy = found.iter().find(|t| t.ignore == "greasy").unwrap();
        assert_eq!(greasy.changes[0].label, "Write “smooth”");
        assert_eq!(
            taken(question, &greasy.changes[0].value).as_deref(),
            Some(question.replace("greasy", "smooth").as_str())
        );
    }
}
