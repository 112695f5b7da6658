//! The pages, as templates filled in.

use askama::Template;
use axum::http::{StatusCode, header};
use axum::response::{Html, IntoResponse, Response};
use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, utf8_percent_encode};

use crate::mend::{Trouble, Wishes};
use crate::numbers::{NotANumber, numbers};
use crate::routes::LONGEST_QUESTION;
use crate::shelf::{Sample, Shelf};

/// What became of a question, in a line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Outcome {
    pub(crate) kind: Kind,
    pub(crate) says: String,
}

/// How it went.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Kind {
    /// There is no question yet.
    Waiting,
    /// Every part has its answer.
    Answered,
    /// Not every part has.
    Refused,
}

impl Outcome {
    pub(crate) fn new(kind: Kind, says: impl Into<String>) -> Outcome {
        Outcome { kind, says: says.into() }
    }
    fn class(&self) -> &'static str {
        match self.kind {
            Kind::Waiting => "waiting",
            Kind::Answered => "answered",
            Kind::Refused => "refused",
        }
    }
    fn word(&self) -> &'static str {
        match self.kind {
            Kind::Waiting => "No question yet.",
            Kind::Answered => "Answered.",
            Kind::Refused => "Not answered.",
        }
    }
}

/// A number of the question as an input. Offsets are in UTF-16 units, as the page's script counts.
pub(crate) struct Row {
    place: usize,
    start: usize,
    end: usize,
    before: String,
    value: String,
    after: String,
    fault: String,
}

/// The rows for a question's numbers; what the teacher wrote stays in the inputs, right or wrong.
pub(crate) fn rows(question: &str, written: &[&str], wrong: &[(usize, NotANumber)]) -> Vec<Row> {
    let mut units = Utf16::new(question);
    let row = |(i, number): (usize, crate::Number)| Row {
        place: i + 1,
        start: units.at(number.span.start),
        end: units.at(number.span.end),
        before: number.before,
        value: written.get(i).map_or(number.text, |text| (*text).to_owned()),
        after: number.after,
        fault: wrong.iter().find(|(at, _)| *at == i).map(|(_, why)| why.to_string()).unwrap_or_default(),
    };
    numbers(question).into_iter().enumerate().map(row).collect()
}

/// Turns byte offsets, given in rising order, into UTF-16 offsets in one pass over the text.
pub(crate) struct Utf16<'a> {
    text: &'a str,
    byte: usize,
    unit: usize,
}

impl<'a> Utf16<'a> {
    pub(crate) fn new(text: &'a str) -> Utf16<'a> {
        Utf16 { text, byte: 0, unit: 0 }
    }
    pub(crate) fn at(&mut self, byte: usize) -> usize {
        self.unit += self.text.get(self.byte..byte).unwrap_or_default().encode_utf16().count();
        self.byte = byte;
        self.unit
    }
}

/// Questions of one arrangement.
pub(crate) struct Group {
    name: &'static str,
    entries: Vec<Entry>,
}

struct Entry {
    address: String,
    title: String,
    open: bool,
}

/// The shelf by arrangement, in the order in which arrangements first come up.
pub(crate) fn groups(shelf: &Shelf, find: &str, open: Option<&str>) -> Vec<Group> {
    let mut groups: Vec<Group> = Vec::new();
    for sample in shelf.find(find) {
        let entry = entry(sample, open);
        match groups.iter_mut().find(|group| group.name == sample.arrangement) {
            Some(group) => group.entries.push(entry),
            None => groups.push(Group { name: sample.arrangement, entries: vec![entry] }),
        }
    }
    groups
}

/// What is written as `%..` in an address: all but the unreserved characters of RFC 3986, section 2.3.
const RESERVED: &AsciiSet = &NON_ALPHANUMERIC.remove(b'-').remove(b'.').remove(b'_').remove(b'~');

fn entry(sample: &Sample, open: Option<&str>) -> Entry {
    Entry {
        address: utf8_percent_encode(&sample.name, RESERVED).to_string(),
        title: sample.title.clone(),
        open: open == Some(sample.name.as_str()),
    }
}

/// The whole desk.
#[derive(Template)]
#[template(path = "desk.html")]
pub(crate) struct DeskPage {
    pub(crate) title: String,
    pub(crate) question: String,
    pub(crate) find: String,
    pub(crate) groups: Vec<Group>,
    pub(crate) own: bool,
    pub(crate) outcome: Outcome,
    pub(crate) troubles: Vec<Trouble>,
    pub(crate) wishes: Wishes,
    pub(crate) rows: Vec<Row>,
    pub(crate) leaf: String,
    pub(crate) longest: usize,
}

/// The parts of the desk that follow the question.
#[derive(Template)]
#[template(path = "work.html")]
pub(crate) struct WorkParts {
    pub(crate) title: String,
    pub(crate) outcome: Outcome,
    pub(crate) troubles: Vec<Trouble>,
    pub(crate) wishes: Wishes,
    pub(crate) rows: Vec<Row>,
    pub(crate) leaf: String,
}

/// The list on the shelf.
#[derive(Template)]
#[template(path = "shelf.html")]
pub(crate) struct ShelfList {
    pub(crate) groups: Vec<Group>,
    pub(crate) own: bool,
}

/// A page that says why something was not done.
#[derive(Template)]
#[template(path = "notice.html")]
struct Notice<'a> {
    heading: &'a str,
    says: &'a str,
}

/// Answers with a page that says why something was not done.
pub(crate) fn notice(status: StatusCode, heading: &str, says: &str) -> Response {
    (status, page(&Notice { heading, says })).into_response()
}

/// A question too long for the desk, or for one request.
pub(crate) fn too_long() -> Response {
    let says = format!(
        "The question is too long: at most {LONGEST_QUESTION} characters fit on the desk. \
         Go back in your browser; what you wrote is still there."
    );
    notice(StatusCode::PAYLOAD_TOO_LARGE, "Too long", &says)
}

/// A filled-in template as an answer. Templates write into memory and so can't fail; should one all the same, it is said.
pub(crate) fn page(template: &impl Template) -> Response {
    match template.render() {
        Ok(text) => Html(text).into_response(),
        Err(why) => {
            let plain = [(header::CONTENT_TYPE, "text/plain; charset=utf-8")];
            (StatusCode::INTERNAL_SERVER_ERROR, plain, why.to_string()).into_response()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_are_counted_as_the_script_counts() {
        // U+1F686 is four bytes in UTF-8 and two units in UTF-16 (Unicode Standard, section 3.9).
        let rows = rows("🚆 é 12 kg", &[], &[]);
        assert_eq!(rows.iter().map(|r| (r.start, r.end)).collect::<Vec<_>>(), [(5, 7)]);
    }

    #[test]
    fn a_strangers_text_stays_text() {
        let parts = WorkParts {
            title: "<b>".into(),
            outcome: Outcome::new(Kind::Refused, "<script>\"'&"),
            troubles: vec![Trouble {
                says: "<b>".into(),
                changes: Vec::new(),
                ignore: "\"><img src=x>".into(),
            }],
            wishes: Wishes { ignored: vec!["\"><i>".into()], before: "\"><script>".into() },
            rows: rows("\"><img src=x> 12 kg", &["\"><i>"], &[]),
            leaf: String::new(),
        };
        let html = parts.render().unwrap();
        for raw in ["<b>", "<script>", "<img", "<i>"] {
            assert!(!html.contains(raw), "{html}");
        }
    }
}
