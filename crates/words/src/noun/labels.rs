//! Letters that stand for bodies: `A`, `P and Q`, `A, B and C`.

use crate::amount::plain_index;
use crate::lexicon;
use crate::reader::Reader;
use crate::token::Token;
use crate::verbs;

impl Token {
    /// Is this letter the label of a body?
    pub(crate) fn label_of(&self, reader: &Reader<'_>) -> bool {
        self.label() && reader.by_label(&plain_index(&self.text)).is_some()
    }
}

impl Reader<'_> {
    /// Labels at `i`: `A`, `P and Q`, `A, B and C`. The article `A` is told apart by what follows.
    pub(super) fn labels(&self, i: usize) -> Option<(Vec<String>, usize)> {
        let first = self.tok(i)?;
        if !first.label() || !self.label_here(i) {
            return None;
        }
        // "the tension in the string joining A and B is": a link has two ends.
        let ends = i > 0
            && matches!(
                self.w(i - 1),
                "joining" | "connecting" | "linking" | "between" | "joins" | "connects"
            );
        let mut list = vec![plain_index(&first.text)];
        let mut at = i + 1;
        for _ in 0..10 {
            let mut next = self.skip(at);
            let mut joined = false;
            while matches!(self.w(next), "," | "and" | "&") {
                joined = true;
                next = self.skip(next + 1);
            }
            let Some(t) = self.tok(next) else { break };
            if !joined || !t.label() || !self.label_here(next) {
                break;
            }
            // "A and B is joined" cannot be: a lone verb after the second label starts its own clause.
            if self.w(at) == ","
                && self.w(self.skip(at + 1)) == "and"
                && list.len() == 1
                && matches!(
                    self.w(self.skip(next + 1)),
                    "is" | "has" | "hangs" | "lies" | "rests" | "moves" | "carries"
                )
            {
                break;
            }
            if list.len() == 1
                && !ends
                && self.w(at) == "and"
                && matches!(
                    self.w(self.skip(next + 1)),
                    "is" | "has" | "hangs" | "lies" | "rests" | "moves" | "carries"
                )
            {
                break;
            }
            let label = plain_index(&t.text);
            // "to Q, and P and Q move together": the same letter again belongs to a clause of its own.
            if list.contains(&label) {
                list.truncate(1);
                return Some((list, i + 1));
            }
            list.push(label);
            at = next + 1;
        }
        Some((list, at))
    }

    fn label_here(&self, i: usize) -> bool {
        let Some(t) = self.tok(i) else { return false };
        if t.text != "A" && t.text != "I" {
            return true;
        }
        let next = self.w(self.skip(i + 1));
        next.is_empty()
            || lexicon::glue(next) && !matches!(next, "same" | "other" | "-")
            || verbs::starts_clause(next)
            || matches!(
                next,
                "of" | "rises"
                    | "when"
                    | "up"
                    | "respectively"
                    | "horizontally"
                    | "vertically"
                    | "directly"
                    | "before"
                    | "after"
                    | "until"
                    | "as"
            )
    }

    pub(crate) fn by_label(&self, label: &str) -> Option<usize> {
        self.story.bodies.iter().position(|b| b.label.as_deref() == Some(label))
    }

    /// Labels right after a noun, perhaps set off by a comma: `particles, P and Q,`.
    pub(super) fn labels_after(&self, i: usize) -> (Vec<String>, usize) {
        let mut at = self.skip(i);
        let comma = matches!(self.w(at), "," | "(");
        let bracket = self.w(at) == "(";
        if comma {
            at = self.skip(at + 1);
        }
        if matches!(self.w(at), "called" | "labelled" | "labeled" | "named") {
            at = self.skip(at + 1);
        }
        let Some((labels, mut end)) = self.labels(at) else { return (Vec::new(), i) };
        // ", A is joined" starts a clause.
        if comma && !bracket && labels.len() == 1 && !matches!(self.w(self.skip(end)), "," | "") {
            return (Vec::new(), i);
        }
        if bracket && self.w(end) == ")" {
            end += 1;
        }
        (labels, end)
    }
}
