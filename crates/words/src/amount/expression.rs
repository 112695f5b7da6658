//! Sizes written as algebra: `2m`, `3mg/5`, `√3`, `2(m + M)`, `x^2`.

use super::{letters, plain_index};
use crate::lexicon;
use crate::reader::Reader;
use crate::story::Amount;
use exact::Value;

impl Reader<'_> {
    /// A product of numbers, letters, roots and bracketed sums, with `/`: `7√10/5`, `(k − 1)g/(k + 1)`.
    pub(super) fn product(&self, i: usize, letters_too: bool) -> Option<(Value, usize)> {
        let (mut value, mut at) = self.factor(i, letters_too, 0)?;
        for _ in 0..12 {
            let next = self.w(at);
            if matches!(next, "×" | "·" | "*") {
                let (f, e) = self.factor(at + 1, true, 0)?;
                value = &value * &f;
                at = e;
            } else if next == "/"
                && value.as_rational().is_some()
                && self.tok(at + 1).is_some_and(|t| matches!(t.lower.as_str(), "s" | "m" | "h" | "kg" | "n"))
            {
                // A unit that has lost its front.
                return None;
            } else if next == "/" {
                let (f, e) = self.factor(at + 1, true, 0)?;
                value = value.checked_div(&f).ok()?;
                at = e;
            } else {
                // A factor that follows at once: `6√2`, `)mg`, `2g`.
                let close = self.tok(at).is_some_and(|t| {
                    !t.spaced
                        || t.is("√")
                        || (t.letter().is_some()
                            && !matches!(t.lower.as_str(), "a" | "s" | "m" | "n" | "i")
                            && letters_too
                            && self.unit(at).is_none()
                            && value.as_rational().is_none()
                            && !t.label())
                });
                if !close || next == "(" && self.tok(at).is_some_and(|t| t.spaced) {
                    break;
                }
                match self.factor(at, true, 0) {
                    Some((f, e)) => {
                        value = &value * &f;
                        at = e;
                    }
                    None => break,
                }
            }
        }
        Some((value, at))
    }

    fn factor(&self, i: usize, letters_too: bool, depth: usize) -> Option<(Value, usize)> {
        if depth > 6 {
            return None;
        }
        let t = self.tok(i)?;
        let (base, at) = if let Some(n) = t.number() {
            (Value::rational(n.clone()), i + 1)
        } else if t.is("√") {
            let (inside, e) = self.factor(i + 1, true, depth + 1)?;
            (inside.sqrt().ok()?, e)
        } else if t.is("(") {
            let (inside, e) = self.sum(i + 1, depth + 1)?;
            if self.w(e) != ")" {
                return None;
            }
            (inside, e + 1)
        } else if letters_too && !lexicon::glue(&t.text) {
            if t.label() && self.by_label(&plain_index(&t.text)).is_some() {
                return None;
            }
            (letters(t)?, i + 1)
        } else {
            return None;
        };
        if self.w(at) == "^" {
            let n = self.tok(at + 1)?.number()?.as_i64()?;
            return Some((base.pow(i32::try_from(n).ok()?).ok()?, at + 2));
        }
        if self.w(at) == "²" {
            return Some((&base * &base, at + 1));
        }
        Some((base, at))
    }

    fn sum(&self, i: usize, depth: usize) -> Option<(Value, usize)> {
        if depth > 6 {
            return None;
        }
        let negative = self.w(i) == "-";
        let (first, mut at) = self.product_in(if negative { i + 1 } else { i }, depth)?;
        let mut value = if negative { -first } else { first };
        for _ in 0..12 {
            match self.w(at) {
                "+" => {
                    let (f, e) = self.product_in(at + 1, depth)?;
                    value = &value + &f;
                    at = e;
                }
                "-" => {
                    let (f, e) = self.product_in(at + 1, depth)?;
                    value = &value - &f;
                    at = e;
                }
                _ => break,
            }
        }
        Some((value, at))
    }

    fn product_in(&self, i: usize, depth: usize) -> Option<(Value, usize)> {
        let (mut value, mut at) = self.factor(i, true, depth)?;
        for _ in 0..12 {
            let next = self.w(at);
            if matches!(next, "×" | "·" | "*") {
                let (f, e) = self.factor(at + 1, true, depth)?;
                value = &value * &f;
                at = e;
            } else if next == "/" {
                let (f, e) = self.factor(at + 1, true, depth)?;
                value = value.checked_div(&f).ok()?;
                at = e;
            } else if matches!(next, "" | ")" | "+" | "-") {
                break;
            } else {
                match self.factor(at, true, depth) {
                    Some((f, e)) => {
                        value = &value * &f;
                        at = e;
                    }
                    None => break,
                }
            }
        }
        Some((value, at))
    }

    /// An expression that a show-that part gives: a sum or a product, with its unit.
    pub(crate) fn expression(&self, i: usize) -> Option<(Amount, usize)> {
        let i = self.skip(i);
        let simple = self.amount(i, true);
        let (mut value, mut at) = self.sum(i, 0)?;
        let mut dimension = None;
        if let Some((d, s, e)) = self.unit(at) {
            value = &value * &Value::rational(s);
            dimension = Some(d);
            at = e;
        }
        match simple {
            Some((a, e)) if e >= at => Some((a, e)),
            _ => Some((self.made(value, dimension, None, i, at), at)),
        }
    }
}
