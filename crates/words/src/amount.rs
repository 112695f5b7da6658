//! Reads numbers, letters and sizes with their units: `12 000 N`, `3 tonnes`, `2m kg`.

mod expression;

use crate::lexicon;
use crate::reader::Reader;
use crate::story::Amount;
use crate::token::{Sort, Token};
use exact::{Dimension, Rational, Value};

/// Small numbers in words.
pub(crate) fn in_words(word: &str) -> Option<i64> {
    Some(match word {
        "one" => 1,
        "two" => 2,
        "three" => 3,
        "four" => 4,
        "five" => 5,
        "six" => 6,
        "seven" => 7,
        "eight" => 8,
        "nine" => 9,
        "ten" => 10,
        "eleven" => 11,
        "twelve" => 12,
        "fifteen" => 15,
        "twenty" => 20,
        "thirty" => 30,
        "forty" => 40,
        "fifty" => 50,
        "hundred" => 100,
        _ => return None,
    })
}

/// Letters that may be a quantity: one letter, or a product such as `km`, `mg`, `kM`.
fn letters(token: &Token) -> Option<Value> {
    if !token.is_word() {
        return None;
    }
    let chars: Vec<char> = token.text.chars().collect();
    let index =
        token.text.contains('_') || chars.iter().any(|c| "₀₁₂₃₄₅₆₇₈₉".contains(*c) || c.is_ascii_digit());
    if index {
        return Some(Value::symbol(&plain_index(&token.text)));
    }
    match chars.as_slice() {
        [one] if *one != 'a' || token.text == "a" => Some(Value::symbol(&one.to_string())),
        [x, y] if "kλ".contains(*x) && "mMW".contains(*y) => {
            Some(&Value::symbol(&x.to_string()) * &Value::symbol(&y.to_string()))
        }
        [x, y] if "mMWkgh".contains(*x) && *y == 'g' && token.text != "kg" => {
            Some(&Value::symbol(&x.to_string()) * &Value::symbol("g"))
        }
        ['k', 'm', 'g'] => Some(&(&Value::symbol("k") * &Value::symbol("m")) * &Value::symbol("g")),
        ['g', 'h'] => Some(&Value::symbol("g") * &Value::symbol("h")),
        _ => None,
    }
}

/// `T₁` and `T1` as `T_1`.
pub(crate) fn plain_index(text: &str) -> String {
    let mut out = String::new();
    for c in text.chars() {
        let digit = "₀₁₂₃₄₅₆₇₈₉"
            .chars()
            .position(|s| s == c)
            .and_then(|d| char::from_digit(d as u32, 10))
            .or(c.is_ascii_digit().then_some(c));
        match digit {
            Some(d) => {
                if !out.contains('_') {
                    out.push('_');
                }
                out.push(d);
            }
            None => out.push(c),
        }
    }
    out
}

impl Reader<'_> {
    /// A unit at this token (after an optional hyphen): its dimension, its size in SI and the place after it.
    pub(crate) fn unit(&self, i: usize) -> Option<(Dimension, Rational, usize)> {
        let mut at = self.skip(i);
        if self.w(at) == "-" && self.tok(at + 1).is_some_and(Token::is_word) {
            at += 1;
        }
        // The tail as plain text, without typeset commands, with the length of each token in it.
        let mut tail = String::new();
        let mut ends = Vec::new();
        for k in at..(at + 14).min(self.hi) {
            let t = self.tok(k)?;
            if t.sort == Sort::Newline {
                tail.push(' ');
            } else {
                if t.spaced && !tail.is_empty() {
                    tail.push(' ');
                }
                tail.push_str(&t.text);
            }
            ends.push(tail.len());
        }
        let (unit, used) = exact::parse_unit(&tail)?;
        let count = ends.iter().position(|&e| e >= used)?;
        Some((unit.dimension, unit.to_si, at + count + 1))
    }

    /// A number (`1200`, `two`, `1/20`), without its unit.
    pub(crate) fn number(&self, i: usize) -> Option<(Rational, usize)> {
        let i = self.skip(i);
        let t = self.tok(i)?;
        if let Some(n) = t.number() {
            return Some((n.clone(), i + 1));
        }
        in_words(&t.lower).map(|n| (Rational::from_int(n), i + 1))
    }

    /// An amount: a number with its unit, a letter with or without a unit, `3m`, `5g N`, `(6√2/5)mg`.
    /// With `letters_too`, a letter alone will do.
    pub(crate) fn amount(&self, i: usize, letters_too: bool) -> Option<(Amount, usize)> {
        let i = self.skip(i);
        let first = self.tok(i)?;
        let plain_number = first.number().is_some();
        if let Some((n, after)) = self.number(i).filter(|_| plain_number) {
            // 1 in 20 is no amount; it is read where slopes are read.
            if let Some((dimension, size, end)) = self.unit(after) {
                // Two millimetres can be 2m: keep both readings where nothing stands between.
                let next = self.tok(after);
                let both = next
                    .filter(|t| !t.spaced && after + 1 == end)
                    .and_then(letters)
                    .map(|l| &Value::rational(n.clone()) * &l);
                let value = Value::rational(&n * &size);
                return Some((self.made(value, Some(dimension), both, i, end), end));
            }
        } else if let Some(n) = in_words(&first.lower) {
            if let Some((dimension, size, end)) = self.unit(i + 1) {
                return Some((
                    self.made(Value::rational(&Rational::from_int(n) * &size), Some(dimension), None, i, end),
                    end,
                ));
            }
            return None;
        }
        let (value, mut end) = self.product(i, letters_too)?;
        let mut dimension = None;
        let mut size = Rational::ONE;
        if let Some((d, s, e)) = self.unit(end) {
            // "M m" would be a strange distance; a unit after letters must be set off.
            if self.tok(end).is_some_and(|t| t.spaced) || value.as_rational().is_some() {
                dimension = Some(d);
                size = s;
                end = e;
            }
        }
        let value = &value * &Value::rational(size);
        Some((self.made(value, dimension, None, i, end), end))
    }

    fn made(
        &self,
        value: Value,
        dimension: Option<Dimension>,
        letters: Option<Value>,
        a: usize,
        b: usize,
    ) -> Amount {
        let span = self.span(a, b);
        Amount {
            value,
            dimension,
            letters,
            span,
            written: span.of(self.text).split_whitespace().collect::<Vec<_>>().join(" "),
        }
    }

    /// A list of amounts: `3 kg and 5 kg`, `m, 2m and 3m`, `3 and 5 kg` (the last unit serves all).
    pub(crate) fn amounts(&self, i: usize, wanted: Option<Dimension>) -> Option<(Vec<Amount>, usize)> {
        let mut list = Vec::new();
        // m1 = 4.0 kg: the letter only names it.
        let named = |r: &Self, k: usize| -> usize {
            let k = r.skip(k);
            if r.tok(k).is_some_and(|t| {
                t.is_word()
                    && t.text.chars().next().is_some_and(|c| "mMTRFDXab".contains(c))
                    && t.text.chars().count() < 4
            }) && r.w(k + 1) == "="
            {
                k + 2
            } else {
                k
            }
        };
        let (first, mut at) = self.amount(named(self, i), true)?;
        list.push(first);
        loop {
            let mut next = self.skip(at);
            let mut separated = false;
            while matches!(self.w(next), "," | "and" | "&") {
                separated = true;
                next = self.skip(next + 1);
            }
            if !separated {
                break;
            }
            next = named(self, next);
            // A letter followed by a verb or a noun is the next body's label, not an amount.
            let letter_only = self.tok(next).is_some_and(|t| t.number().is_none());
            let Some((amount, end)) = self.amount(next, true) else { break };
            let follows = self.w(self.skip(end));
            if letter_only
                && amount.dimension.is_none()
                && (lexicon::glue(follows)
                    && !matches!(
                        follows,
                        "," | "and"
                            | "."
                            | ""
                            | ")"
                            | "("
                            | "respectively"
                            | "where"
                            | ";"
                            | "\n"
                            | "are"
                            | "is"
                    ))
            {
                break;
            }
            if letter_only
                && amount.dimension.is_none()
                && list.iter().any(|a| a.dimension.is_some() && a.letters.is_none())
            {
                break;
            }
            if amount.dimension.is_some()
                && list.first().and_then(|a| a.dimension).is_some_and(|d| Some(d) != amount.dimension)
                && amount.letters.is_none()
            {
                break;
            }
            list.push(amount);
            at = end;
        }
        // 3 and 5 kg: the unit of the last.
        if let Some(d) = list.last().and_then(|a| a.dimension) {
            let size = list.last().and_then(|a| self.unit_size(a));
            for a in list.iter_mut() {
                if a.dimension.is_none() && a.value.as_rational().is_some() {
                    a.dimension = Some(d);
                    if let Some(s) = &size {
                        a.value = &a.value * &Value::rational(s.clone());
                    }
                }
            }
        }
        if let Some(wanted) = wanted {
            for a in list.iter_mut() {
                settle(a, wanted);
            }
        }
        Some((list, at))
    }

    /// The size in SI of the unit that stands in an amount's own words.
    fn unit_size(&self, amount: &Amount) -> Option<Rational> {
        let i = self.toks.iter().position(|t| t.span.start == amount.span.start)?;
        let (_, after) = self.number(i)?;
        self.unit(after).map(|(_, size, _)| size)
    }
}

/// Takes the reading of `3m` that fits what is wanted.
pub(crate) fn settle(amount: &mut Amount, wanted: Dimension) {
    if amount.dimension != Some(wanted)
        && let Some(l) = amount.letters.take()
    {
        amount.value = l;
        amount.dimension = None;
    }
}
