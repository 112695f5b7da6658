//! Settings of the whole question: `take g = 10 m s⁻²`, `to 2 significant figures`, `where k is a constant`.

use crate::amount::plain_index;
use crate::reader::Reader;
use exact::{Dimension, Value};
use model::{Accuracy, Diagnostic, Refusal};

impl Reader<'_> {
    /// g, accuracy, conditions on letters: settings that may stand anywhere.
    pub(super) fn settings(&mut self, i: usize) -> Option<usize> {
        self.gravity(i)
            .or_else(|| self.share(i))
            .or_else(|| self.accuracy(i))
            .or_else(|| self.letter_condition(i))
    }

    /// `take g = 10 m s⁻²`, `g to be 9.81`, `g taken as 9.8`.
    pub(crate) fn gravity(&mut self, i: usize) -> Option<usize> {
        let start = i;
        let mut at = i;
        if let Some(e) = self
            .phrase(at, "take|taking|use|using|assume|assuming|let|where|with|and? that? the? value? of? g")
        {
            at = e - 1;
        }
        if let Some(e) = self.phrase(at, "take|taking|use|using|assume|with|where|let? that? the? acceleration due|of to|free gravity|gravity,|fall ,? g|as|to|is|=|of|be") {
            at = if self.w(e.wrapping_sub(1)) == "g" { e - 1 } else { e };
            if self.w(at) != "g" {
                self.phrase(at, "be|as|is|to|=")?;
            }
        }
        if self.tok(at).is_none_or(|t| t.text != "g") {
            return None;
        }
        let mut at = at + 1;
        let mut linked = false;
        for _ in 0..4 {
            if matches!(
                self.w(self.skip(at)),
                "=" | "to" | "be" | "as" | "is" | "taken" | "equal" | ":" | "has" | "the" | "value"
            ) {
                linked |= true;
                at = self.skip(at) + 1;
            }
        }
        if !linked {
            return None;
        }
        if let Some(e) = self
            .phrase(at, "acceleration due to gravity")
            .or_else(|| self.phrase(at, "acceleration of free fall"))
        {
            self.told(start, e, "g is the acceleration of free fall");
            return Some(e);
        }
        let (amount, e) = self.amount(at, false)?;
        if amount.dimension.is_some_and(|d| d != Dimension::ACCELERATION) {
            return None;
        }
        let given = self.given(&amount);
        if let Some(old) = &self.story.gravity
            && old.value != given.value
        {
            let (a, b) = (old.span, given.span);
            self.diagnostics.push(
                Diagnostic::refuse(Refusal::Contradictory, "two values of g are given")
                    .at(a)
                    .at(b)
                    .hint("keep one of them"),
            );
        }
        self.told(start, e, format!("g is {}", given.written));
        self.story.gravity = Some(given);
        Some(e)
    }

    /// `giving your answer to 3 significant figures`, `correct to two decimal places`.
    fn accuracy(&mut self, i: usize) -> Option<usize> {
        let mut at = i;
        let mut moved = false;
        for _ in 0..10 {
            if matches!(
                self.w(at),
                "give"
                    | "giving"
                    | "your"
                    | "answer"
                    | "answers"
                    | "each"
                    | "correct"
                    | "to"
                    | "an"
                    | "accuracy"
                    | "of"
                    | "where"
                    | "appropriate"
                    | "all"
                    | "both"
                    | "any"
                    | "numerical"
                    | "and"
                    | "final"
                    | "in"
                    | "the"
                    | "form"
            ) {
                at = self.skip(at + 1);
                moved = true;
            } else {
                break;
            }
        }
        if !moved {
            return None;
        }
        let (accuracy, e) =
            if let Some(e) = self.phrase(at, "nearest newton|n|metre|second|whole|degree? number?") {
                (Accuracy::Places(0), e)
            } else if let Some((n, e)) = self.number(at) {
                let n = u32::try_from(n.as_i64()?).ok()?;
                if n == 0 || n > 12 {
                    return None;
                }
                let e2 = self
                    .phrase(e, "significant figures|figure|digits")
                    .or_else(|| self.phrase(e, "s . f"))
                    .or_else(|| self.phrase(e, "sf|s.f"));
                if let Some(mut e2) = e2 {
                    if self.w(e2) == "." && self.w(e2.wrapping_sub(1)) == "f" {
                        e2 += 1;
                    }
                    (Accuracy::Significant(n), e2)
                } else {
                    let e2 = self
                        .phrase(e, "decimal places|place")
                        .or_else(|| self.phrase(e, "dp|d.p"))
                        .or_else(|| self.phrase(e, "d . p"))?;
                    (Accuracy::Places(n), e2)
                }
            } else {
                return None;
            };
        self.told(i, e, "how exactly the answer is wanted");
        let part = self.part;
        let mut some = false;
        for ask in self.story.asks.iter_mut().filter(|a| a.part == part) {
            ask.accuracy = Some(accuracy);
            some = true;
        }
        if !some {
            self.story.accuracy = Some(accuracy);
        }
        Some(e)
    }

    /// `where M < 4`, `where k > 1`, `k is a constant`.
    fn letter_condition(&mut self, i: usize) -> Option<usize> {
        let at = self.phrase(i, "where|with|and|given|,? that? ,?").unwrap_or(i);
        let t = self.tok(at)?;
        t.letter()?;
        if let Some(e) = self.phrase(at + 1, "is|are a? positive? constant|constants") {
            self.told(i, e, "a letter that stays as it is");
            return Some(e);
        }
        let next = self.w(at + 1);
        if !matches!(next, "<" | ">" | "≤" | "≥") {
            return None;
        }
        let (_, mut e) = self.amount(at + 2, true)?;
        if matches!(self.w(e), "<" | ">" | "≤" | "≥") {
            (_, e) = self.amount(e + 1, true)?;
        }
        self.told(i, e, "a condition on the letter");
        // M < 4: which of two bodies is the heavier.
        let symbol = Value::symbol(&plain_index(&t.text));
        let less = matches!(next, "<" | "≤");
        let (bound, _) = self.amount(at + 2, true)?;
        let mine = self.story.bodies.iter().position(|b| b.mass.as_ref().is_some_and(|m| m.value == symbol));
        let theirs =
            self.story.bodies.iter().any(|b| b.mass.as_ref().is_some_and(|m| m.value == bound.value));
        if let (Some(mine), true) = (mine, theirs)
            && let Some(b) = self.story.bodies.get_mut(mine)
        {
            b.heavier = Some(!less);
        }
        // Masses m and km with k < 1: the one of km is the lighter.
        if bound.value == Value::one() {
            let mass = |b: &crate::story::BodyTold| b.mass.as_ref().map(|m| m.value.clone());
            let times = |b: &crate::story::BodyTold| {
                let mine = mass(b)?;
                self.story.bodies.iter().filter_map(mass).any(|other| &other * &symbol == mine).then_some(())
            };
            let greater = self.story.bodies.iter().position(|b| times(b).is_some());
            if let Some(b) = greater.and_then(|n| self.story.bodies.get_mut(n)) {
                b.heavier = Some(!less);
            }
        }
        Some(e)
    }
}
