//! Divides the tokens into the lettered parts of the question and these into sentences,
//! and takes out part labels and mark allowances.

use crate::token::{Sort, Token};

/// A part of the question, or what stands before the first part (label `""`).
#[derive(Clone, Debug)]
pub(crate) struct Part {
    /// The label without brackets; `a(ii)` for a part of a part.
    pub label: String,
    /// Marks allowed, if the question says so.
    pub marks: Option<u32>,
    /// Its sentences, as ranges of tokens.
    pub sentences: Vec<Sentence>,
}

/// A sentence: a range of tokens, and whether it ends as a question.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Sentence {
    pub lo: usize,
    pub hi: usize,
    pub question: bool,
}

/// The parts and the numbers of the tokens that only lay the question out.
pub(crate) fn divide(tokens: &[Token]) -> (Vec<Part>, Vec<usize>) {
    let mut d = Divider {
        tokens,
        parts: vec![Part { label: String::new(), marks: None, sentences: Vec::new() }],
        layout: Vec::new(),
        outer: String::new(),
        outer_style: Style::None,
        inner: 0,
        start: 0,
    };
    d.run();
    (d.parts, d.layout)
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Style {
    None,
    Letters,
    Romans,
    /// `3.1`, `3.2`: the question's own number before the point.
    Dotted,
}

struct Divider<'a> {
    tokens: &'a [Token],
    parts: Vec<Part>,
    layout: Vec<usize>,
    outer: String,
    outer_style: Style,
    inner: usize,
    start: usize,
}

const ROMANS: [&str; 8] = ["i", "ii", "iii", "iv", "v", "vi", "vii", "viii"];
const LETTERS: [&str; 8] = ["a", "b", "c", "d", "e", "f", "g", "h"];

impl Divider<'_> {
    fn lower(&self, i: usize) -> &str {
        self.tokens.get(i).map_or("", |t| t.lower.as_str())
    }
    fn sort(&self, i: usize) -> Option<&Sort> {
        self.tokens.get(i).map(|t| &t.sort)
    }

    fn run(&mut self) {
        let mut i = 0;
        if let Some(used) = self.headed().or_else(|| self.numbered(0)) {
            self.layout.extend(0..used);
            i = used;
            self.start = used;
        }
        while i < self.tokens.len() {
            if let Some((label, used)) = self.label_at(i) {
                self.close(i, false);
                self.layout.extend(i..i + used);
                i += used;
                self.start = i;
                self.begin(label);
            } else if let Some((marks, used)) = self.marks_at(i) {
                self.close(i, false);
                if let Some(part) = self.parts.last_mut() {
                    part.marks = Some(part.marks.unwrap_or(0) + marks);
                }
                self.layout.extend(i..i + used);
                i += used;
                self.start = i;
            } else if self.lower(i) == "."
                && i > 0
                && matches!(self.lower(i - 1), "fig" | "no")
                && self.tokens.get(i + 1).is_some_and(|t| t.number().is_some())
            {
                i += 1;
            } else if matches!(self.lower(i), "." | "?" | "!") {
                self.layout.push(i);
                let question = self.lower(i) == "?";
                self.close(i, question);
                i += 1;
                self.start = i;
            } else if self.sort(i) == Some(&Sort::Newline) {
                self.layout.push(i);
                if let Some(used) = self.numbered(i + 1) {
                    self.close(i, false);
                    self.layout.extend(i + 1..i + 1 + used);
                    i += used;
                    self.start = i + 1;
                } else if self.begins_sentence(i + 1) {
                    self.close(i, false);
                    self.start = i + 1;
                }
                if self.sort(i + 1) == Some(&Sort::Newline) {
                    self.close(i, false);
                    self.start = i + 1;
                }
                i += 1;
            } else {
                i += 1;
            }
        }
        self.close(self.tokens.len(), false);
    }

    fn close(&mut self, hi: usize, question: bool) {
        let lo = self.start;
        let says_something = self.tokens.get(lo..hi).unwrap_or(&[]).iter().any(|t| t.sort != Sort::Newline);
        if says_something && let Some(part) = self.parts.last_mut() {
            part.sentences.push(Sentence { lo, hi, question });
        }
        self.start = hi;
    }

    fn begin(&mut self, label: Label) {
        let label = match label {
            Label::Outer(name, style) => {
                self.outer.clone_from(&name);
                self.outer_style = style;
                self.inner = 0;
                name
            }
            Label::Inner(name) => {
                self.inner += 1;
                format!("{}({name})", self.outer)
            }
        };
        // A letter that only heads its sub-parts is no part of its own, unless it says something.
        self.parts.push(Part { label, marks: None, sentences: Vec::new() });
    }

    /// The question's own number at the very beginning: `Q8.`, `Question 3`, `QUESTION 3:`. How many tokens.
    fn headed(&self) -> Option<usize> {
        let first = self.lower(0);
        let number =
            |k: usize| self.tokens.get(k).is_some_and(|t| t.number().is_some_and(|n| n.is_integer()));
        let joined = first
            .strip_prefix('q')
            .is_some_and(|n| !n.is_empty() && n.len() < 3 && n.chars().all(|c| c.is_ascii_digit()));
        let used = match (first, joined) {
            (_, true) => 1,
            ("question" | "q" | "problem" | "exercise" | "example", _) if number(1) => 2,
            ("q" | "question", _) if self.lower(1) == "." && number(2) => 3,
            _ => return None,
        };
        let sign = matches!(self.lower(used), "." | ")" | ":");
        Some(if sign { used + 1 } else { used })
    }

    /// The number or bullet of a listed statement at the start of a line: `1.`, `(2)`, `3)`, `-`. How many tokens.
    fn numbered(&self, i: usize) -> Option<usize> {
        if matches!(self.lower(i), "-" | "•" | "*") {
            return Some(1);
        }
        let number = |k: usize| {
            self.tokens.get(k).is_some_and(|t| t.number().is_some_and(|n| n.is_integer()) && t.text.len() < 3)
        };
        if self.lower(i) == "(" && number(i + 1) && self.lower(i + 2) == ")" {
            return Some(3);
        }
        (number(i)
            && matches!(self.lower(i + 1), "." | ")")
            && self.tokens.get(i + 2).is_some_and(|t| t.spaced || t.sort == Sort::Newline))
        .then_some(2)
    }

    /// Does a line start here with a word that starts sentences, the line before having ended without a stop?
    fn begins_sentence(&self, i: usize) -> bool {
        let starts = self.tokens.get(i).is_some_and(|t| {
            matches!(
                t.text.as_str(),
                "The"
                    | "An"
                    | "It"
                    | "They"
                    | "Find"
                    | "Calculate"
                    | "Show"
                    | "State"
                    | "Determine"
                    | "Given"
                    | "When"
                    | "In"
                    | "At"
                    | "Take"
                    | "This"
                    | "These"
                    | "Hence"
                    | "Throughout"
                    | "While"
                    | "During"
                    | "If"
            )
        });
        starts && i >= 2 && self.tokens.get(i - 2).is_some_and(|t| !crate::lexicon::glue(&t.lower))
    }

    /// A part label at this token: `(a)`, `(ii)`, or at the start of a line `a.` and `b)`.
    fn label_at(&self, i: usize) -> Option<(Label, usize)> {
        let line_start = i == 0 || self.sort(i - 1) == Some(&Sort::Newline);
        let (name, used) = if self.lower(i) == "(" && self.lower(i + 2) == ")" {
            let before = if i == 0 { "" } else { self.lower(i - 1) };
            if matches!(before, "part" | "parts" | "from" | "in" | "using" | "to" | "of") && !line_start {
                return None;
            }
            // "a 5 kg block (A)": a capital within a sentence is a name.
            let capital = self.tokens.get(i + 1).is_some_and(Token::label);
            if capital && !line_start && !matches!(before, "." | "?" | ":" | ";") {
                return None;
            }
            (self.lower(i + 1).to_owned(), 3)
        } else if line_start && matches!(self.lower(i + 1), "." | ")") {
            (self.lower(i).to_owned(), 2)
        } else if line_start && let Some(name) = self.dotted(i) {
            return Some((Label::Outer(name, Style::Dotted), 1));
        } else {
            return None;
        };
        self.tokens.get(i + used)?;
        Some((self.next_in_order(&name)?, used))
    }

    /// `3.1` at the start of a line where `3.2` follows at another, or where it follows `3.1` itself.
    fn dotted(&self, i: usize) -> Option<String> {
        let text = |k: usize| self.tokens.get(k).filter(|t| t.number().is_some()).map(|t| t.text.as_str());
        let (whole, n) = text(i)?.split_once('.')?;
        let n: u32 = n.parse().ok()?;
        let fits = |s: &str| s.parse::<u32>().is_ok_and(|w| (1..40).contains(&w));
        if !fits(whole)
            || !(1..20).contains(&n)
            || !self.tokens.get(i + 1).is_some_and(|t| t.is_word() && t.spaced)
        {
            return None;
        }
        let before = (self.outer_style == Style::Dotted).then(|| format!("{whole}.{}", n - 1));
        match self.outer_style {
            Style::None if n == 1 => {
                let next = format!("{whole}.2");
                let later = (i + 1..self.tokens.len())
                    .any(|k| self.sort(k - 1) == Some(&Sort::Newline) && text(k) == Some(next.as_str()));
                later.then(|| format!("{whole}.1"))
            }
            Style::Dotted if before.as_deref() == Some(self.outer.as_str()) => Some(format!("{whole}.{n}")),
            _ => None,
        }
    }

    /// Accepts a label only where it is the next in its order.
    fn next_in_order(&self, name: &str) -> Option<Label> {
        let roman = ROMANS.iter().position(|r| *r == name);
        let letter = LETTERS.iter().position(|l| *l == name);
        let place = |list: &[&str], of: &str| list.iter().position(|x| *x == of);
        match self.outer_style {
            Style::None if letter == Some(0) => Some(Label::Outer(name.to_owned(), Style::Letters)),
            Style::None if roman == Some(0) => Some(Label::Outer(name.to_owned(), Style::Romans)),
            Style::None => None,
            Style::Letters => {
                if letter.is_some() && letter == place(&LETTERS, &self.outer).map(|p| p + 1) {
                    Some(Label::Outer(name.to_owned(), Style::Letters))
                } else if roman == Some(self.inner) {
                    Some(Label::Inner(name.to_owned()))
                } else {
                    None
                }
            }
            Style::Dotted => None,
            Style::Romans => (roman.is_some() && roman == place(&ROMANS, &self.outer).map(|p| p + 1))
                .then(|| Label::Outer(name.to_owned(), Style::Romans)),
        }
    }

    /// A mark allowance at this token, at the end of a line: `(3)`, `[2]`, `[3 marks]`, `(Total 9 marks)`.
    fn marks_at(&self, i: usize) -> Option<(u32, usize)> {
        let close = match self.lower(i) {
            "(" => ")",
            "[" => "]",
            _ => return self.bare_marks(i),
        };
        let total = self.lower(i + 1) == "total";
        let at = if total {
            // (Total for question 7 is 12 marks): the last number before "marks" or the bracket.
            (i + 2..i + 10).find(|&k| {
                self.tokens.get(k).is_some_and(|t| t.number().is_some())
                    && matches!(self.lower(k + 1), "mark" | "marks" | ")" | "]")
            })?
        } else {
            i + 1
        };
        let mut n = self.tokens.get(at)?.number()?.as_i64()?;
        let mut at = at;
        // [3 + 3 marks]
        while self.lower(at + 1) == "+" && n < 100 {
            n = n.checked_add(self.tokens.get(at + 2)?.number()?.as_i64()?)?;
            at += 2;
        }
        let after = if matches!(self.lower(at + 1), "mark" | "marks") { at + 2 } else { at + 1 };
        if self.lower(after) != close || !(1..=30).contains(&n) {
            return None;
        }
        let ends = match self.sort(after + 1) {
            None | Some(Sort::Newline) => true,
            Some(_) => after > at + 1 || self.label_at(after + 1).is_some(),
        };
        ends.then_some((if total { 0 } else { u32::try_from(n).unwrap_or(0) }, after + 1 - i))
    }
}

impl Divider<'_> {
    /// Marks without brackets, set off at the end of a line after a full stop: `Find its acceleration.    3`.
    fn bare_marks(&self, i: usize) -> Option<(u32, usize)> {
        let n = u32::try_from(self.tokens.get(i)?.number()?.as_i64()?).ok()?;
        let before = self.tokens.get(i.checked_sub(1)?)?;
        let gap = self.tokens.get(i)?.span.start.saturating_sub(before.span.end);
        let stopped = matches!(before.lower.as_str(), "." | "?");
        let ends = matches!(self.sort(i + 1), None | Some(Sort::Newline));
        (stopped && gap > 1 && ends && (1..=30).contains(&n)).then_some((n, 1))
    }
}

enum Label {
    Outer(String, Style),
    Inner(String),
}
