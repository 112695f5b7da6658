//! Cuts a question into tokens: words, numbers and signs, each with its place.
//!
//! Simple typeset maths is read here, so that nothing above sees a backslash: `$\tan\alpha=\frac{3}{4}$`
//! gives the same tokens as `tan α = 3/4`.

use exact::Rational;
use model::Span;

/// What a token is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Sort {
    /// A word in lower case; hyphens inside are kept (`tow-bar`).
    Word,
    /// A number.
    Number(Rational),
    /// Any other sign.
    Sign,
    /// The end of a line.
    Newline,
}

/// One token.
#[derive(Clone, Debug)]
pub(crate) struct Token {
    /// What it is.
    pub sort: Sort,
    /// In lower case.
    pub lower: String,
    /// As written (after typeset maths is taken away).
    pub text: String,
    /// Where.
    pub span: Span,
    /// Is there white space before it?
    pub spaced: bool,
}

impl Token {
    pub(crate) fn is(&self, word: &str) -> bool {
        self.lower == word
    }
    pub(crate) fn is_word(&self) -> bool {
        self.sort == Sort::Word
    }
    pub(crate) fn number(&self) -> Option<&Rational> {
        match &self.sort {
            Sort::Number(n) => Some(n),
            _ => None,
        }
    }
    /// A single letter, Latin or Greek.
    pub(crate) fn letter(&self) -> Option<char> {
        let mut chars = self.text.chars();
        let first = chars.next()?;
        (self.is_word() && chars.next().is_none() && first.is_alphabetic()).then_some(first)
    }
    /// A capital letter standing alone, with an index at the most: a label such as `A`, `P`, `Q_1`.
    pub(crate) fn label(&self) -> bool {
        let mut chars = self.text.chars();
        let capital = chars.next().is_some_and(|c| c.is_uppercase());
        let rest: String = chars.collect();
        let index = rest.trim_start_matches('_');
        self.is_word()
            && capital
            && (rest.is_empty()
                || (index.len() < 3 && index.chars().all(|c| c.is_ascii_digit() || "₀₁₂₃₄₅₆₇₈₉".contains(c))))
    }
}

/// The longest question that is read, in bytes. A page of print has about 3,000.
pub(crate) const LONGEST: usize = 20_000;

/// Cuts the text into tokens.
pub(crate) fn tokens(text: &str) -> Vec<Token> {
    let mut cutter =
        Cutter { text, at: 0, out: Vec::with_capacity(text.len() / 5), spaced: true, brackets: Vec::new() };
    while cutter.step() {}
    cutter.out
}

struct Cutter<'a> {
    text: &'a str,
    at: usize,
    out: Vec<Token>,
    spaced: bool,
    /// Braces of typeset maths that stand for brackets, and what is written for each.
    brackets: Vec<(usize, &'static [&'static str])>,
}

/// Typeset names that stand for a sign or a word.
const NAMES: &[(&str, &str)] = &[
    ("alpha", "α"),
    ("beta", "β"),
    ("theta", "θ"),
    ("phi", "φ"),
    ("mu", "μ"),
    ("lambda", "λ"),
    ("gamma", "γ"),
    ("sin", "sin"),
    ("cos", "cos"),
    ("tan", "tan"),
    ("arctan", "arctan"),
    ("arcsin", "arcsin"),
    ("times", "×"),
    ("cdot", "·"),
    ("circ", "°"),
    ("degree", "°"),
    ("sqrt", "√"),
    ("leq", "≤"),
    ("geq", "≥"),
    ("le", "≤"),
    ("ge", "≥"),
];

/// Typeset commands that only change the look.
const LOOKS: &[&str] = &[
    "mathrm",
    "text",
    "rm",
    "left",
    "right",
    "mathit",
    "displaystyle",
    "quad",
    "qquad",
    "textrm",
    "bf",
    "mathbf",
    "hspace",
    "dfrac",
    "tfrac",
    "textbf",
    "textit",
    "it",
];

impl Cutter<'_> {
    fn rest(&self) -> &str {
        self.text.get(self.at..).unwrap_or("")
    }
    fn push(&mut self, sort: Sort, text: &str, start: usize, end: usize) {
        self.out.push(Token {
            sort,
            lower: text.to_lowercase(),
            text: text.to_owned(),
            span: Span::new(start, end),
            spaced: self.spaced,
        });
        self.spaced = false;
    }
    fn step(&mut self) -> bool {
        let Some(c) = self.rest().chars().next() else { return false };
        let start = self.at;
        if c == '\n' {
            self.at += 1;
            self.push(Sort::Newline, "\n", start, start + 1);
            self.spaced = true;
        } else if c.is_whitespace() || matches!(c, '\u{200b}' | '\u{feff}' | '\u{ad}') {
            self.at += c.len_utf8();
            self.spaced = true;
        } else if c == '\\' {
            self.command();
        } else if let Some(n) = self.brackets.iter().position(|(at, _)| *at == start) {
            let (_, signs) = self.brackets.swap_remove(n);
            self.at += 1;
            for sign in signs {
                self.push(Sort::Sign, sign, start, start + 1);
            }
        } else if matches!(c, '$' | '{' | '}' | '~') {
            self.at += 1;
            self.spaced |= c == '~';
        } else if c.is_ascii_digit()
            || (c == '.' && self.rest().chars().nth(1).is_some_and(|d| d.is_ascii_digit()))
        {
            self.number();
        } else if c.is_alphabetic() {
            self.word();
        } else if let Some((n, d)) = vulgar(c) {
            self.at += c.len_utf8();
            let half = Rational::new(n, d).unwrap_or(Rational::ZERO);
            self.push(Sort::Number(half), &format!("{n}/{d}"), start, self.at);
        } else {
            self.at += c.len_utf8();
            let sign = match c {
                '−' | '–' | '—' | '‐' | '‑' => '-',
                '’' | '‘' => '\'',
                '“' | '”' => '"',
                '⁄' | '∕' => '/',
                '⋅' | '∙' => '·',
                'º' | '˚' => '°',
                other => other,
            };
            self.push(Sort::Sign, &sign.to_string(), start, self.at);
        }
        true
    }

    /// A typeset command: `\frac{3}{4}`, `\alpha`, `\mathrm`, `\,`.
    fn command(&mut self) {
        let start = self.at;
        let after = self.text.get(start + 1..).unwrap_or("");
        let name: String = after.chars().take_while(|c| c.is_ascii_alphabetic()).collect();
        if name.is_empty() {
            let skipped = after.chars().next().map_or(0, char::len_utf8);
            self.at = start + 1 + skipped;
            self.spaced = true;
            return;
        }
        self.at = start + 1 + name.len();
        if matches!(name.as_str(), "frac" | "dfrac" | "tfrac") {
            if let Some((n, d, used)) = fraction(self.rest()) {
                let end = self.at + used;
                self.push(Sort::Number(n), "n", start, end);
                self.spaced = true;
                self.push(Sort::Sign, "/", start, end);
                self.push(Sort::Number(d), "d", start, end);
                self.fold_fraction();
                self.at = end;
            } else if let Some((top, over)) = braced(self.text, self.at)
                && let Some((bottom, end)) = braced(self.text, over + 1)
            {
                self.brackets.extend([
                    (top, &["("][..]),
                    (over, &[")", "/"]),
                    (bottom, &["("]),
                    (end, &[")"]),
                ]);
            }
        } else if name == "sqrt"
            && let Some((open, close)) = braced(self.text, self.at)
        {
            self.push(Sort::Sign, "√", start, self.at);
            let one = self.text.get(open + 1..close).is_some_and(|s| s.chars().all(|c| c.is_ascii_digit()));
            if !one {
                self.brackets.extend([(open, &["("][..]), (close, &[")"])]);
            }
        } else if let Some((_, plain)) = NAMES.iter().find(|(n, _)| *n == name) {
            let sort = if plain.chars().all(char::is_alphabetic) { Sort::Word } else { Sort::Sign };
            self.push(sort, plain, start, self.at);
        } else if LOOKS.contains(&name.as_str()) {
            self.spaced = true;
        } else {
            // An unknown command stays visible as a word, so that it is reported as unread.
            let end = self.at;
            self.push(Sort::Word, &format!("\\{name}"), start, end);
        }
    }

    /// Turns `n / d`, just pushed, into one number.
    fn fold_fraction(&mut self) {
        let [.., top, slash, bottom] = self.out.as_slice() else { return };
        // 3/4/3/4/... would grow without end: what is longer than any size is left in pieces.
        if !slash.is("/") || top.text.len() > 60 {
            return;
        }
        let (Some(n), Some(d)) = (top.number(), bottom.number()) else { return };
        let Some(value) = n.checked_div(d) else { return };
        let (span, spaced) = (top.span.join(bottom.span), top.spaced);
        let text = format!("{n}/{d}");
        self.out.truncate(self.out.len().saturating_sub(3));
        self.out.push(Token { sort: Sort::Number(value), lower: text.clone(), text, span, spaced });
    }

    fn number(&mut self) {
        let start = self.at;
        let bytes = self.text.as_bytes();
        let digit = |i: usize| bytes.get(i).is_some_and(u8::is_ascii_digit);
        let mut end = start;
        let mut digits = String::new();
        loop {
            while digit(end) {
                digits.push(bytes.get(end).copied().unwrap_or(b'0') as char);
                end += 1;
            }
            // Groups of three: 12,000 and 12 000 (with a plain, thin or unbreakable space).
            let gap = self
                .text
                .get(end..)
                .and_then(|r| r.chars().next())
                .filter(|c| matches!(c, ',' | ' ' | '\u{a0}' | '\u{2009}' | '\u{202f}'));
            let Some(gap) = gap else { break };
            let after = end + gap.len_utf8();
            let grouped = digit(after) && digit(after + 1) && digit(after + 2) && !digit(after + 3);
            let short_head = digits.len() <= 3 || digits.len().is_multiple_of(3) || end - start > 3;
            if !(grouped && short_head && !digits.contains('.') && !digits.is_empty() && digits.len() < 13) {
                break;
            }
            end = after;
        }
        if bytes.get(end) == Some(&b'.') && digit(end + 1) {
            digits.push('.');
            end += 1;
            while digit(end) {
                digits.push(bytes.get(end).copied().unwrap_or(b'0') as char);
                end += 1;
            }
        }
        let rest = self.text.get(end..).unwrap_or("");
        // 0,25 is a decimal comma: no list of sizes begins with 0, and no thousands do.
        if digits == "0" && rest.starts_with(',') && digit(end + 1) {
            digits.push('.');
            end += 1;
            while digit(end) {
                digits.push(bytes.get(end).copied().unwrap_or(b'0') as char);
                end += 1;
            }
        }
        // 1,25 may be a decimal or two numbers: that is not guessed at.
        let rest = self.text.get(end..).unwrap_or("");
        if rest.starts_with(',') && rest.chars().nth(1).is_some_and(|c| c.is_ascii_digit()) {
            let more = rest.chars().skip(1).take_while(char::is_ascii_digit).count();
            self.at = end + 1 + more;
            let at = self.at;
            self.push(Sort::Sign, "…", start, at);
            return;
        }
        let mut value = Rational::parse_decimal(&digits);
        if let Some((power, used)) = power_of_ten(self.text.get(end..).unwrap_or("")) {
            let scale = Rational::parse_decimal(&format!("1e{power}"));
            if let (Some(v), Some(s)) = (&value, scale) {
                value = Some(v * &s);
                end += used;
            }
        }
        self.at = end;
        match value {
            Some(v) => {
                let text = self.text.get(start..end).unwrap_or("").to_owned();
                self.push(Sort::Number(v), &text, start, end);
                // A fraction such as 3/4, but not a date-like 3/4/5.
                let two_back = self.out.len().checked_sub(2).and_then(|i| self.out.get(i));
                let under_root =
                    self.out.len().checked_sub(4).and_then(|i| self.out.get(i)).is_some_and(|t| t.is("√"));
                if two_back.is_some_and(|t| t.is("/")) && !under_root {
                    self.fold_fraction();
                }
            }
            None => self.push(Sort::Sign, "…", start, end),
        }
    }

    fn word(&mut self) {
        let start = self.at;
        let mut end = start;
        let rest = self.rest();
        let mut chars = rest.char_indices().peekable();
        while let Some((i, c)) = chars.next() {
            let next = chars.peek().map(|&(_, c)| c);
            let joins = matches!(c, '-' | '\u{2010}' | '\u{2011}') && next.is_some_and(char::is_alphabetic);
            let first = rest.chars().next().unwrap_or(' ');
            let index = end - start == first.len_utf8()
                && ("₀₁₂₃₄₅₆₇₈₉".contains(c)
                    || (c == '_' && next.is_some_and(char::is_alphanumeric))
                    || (c.is_ascii_digit() && first.is_ascii_alphabetic()));
            let in_index = rest.get(..i).is_some_and(|w| w.contains('_')) && c.is_alphanumeric();
            if c.is_alphabetic() || index || in_index || (joins && i > 0) {
                end = start + i + c.len_utf8();
            } else {
                break;
            }
        }
        self.at = end.max(start + 1);
        let mut raw = self.text.get(start..self.at).unwrap_or("").to_owned();
        if let Some((joined, end)) = self.over_the_line(&raw) {
            raw = joined;
            self.at = end;
        }
        let plain: String = raw
            .chars()
            .flat_map(|c| match c {
                'ﬁ' => vec!['f', 'i'],
                'ﬂ' => vec!['f', 'l'],
                'ﬀ' => vec!['f', 'f'],
                'ﬃ' => vec!['f', 'f', 'i'],
                'ﬄ' => vec!['f', 'f', 'l'],
                'ﬅ' | 'ﬆ' => vec!['s', 't'],
                'µ' => vec!['μ'],
                '\u{2010}' | '\u{2011}' => vec!['-'],
                c => vec![c],
            })
            .collect();
        let end = self.at;
        self.push(Sort::Word, &plain, start, end);
        // The possessive ending goes with its word.
        let mut after = self.rest().chars();
        if matches!(after.next(), Some('\'' | '’'))
            && after.next() == Some('s')
            && !after.next().is_some_and(char::is_alphabetic)
        {
            let quote = self.rest().chars().next().map_or(1, char::len_utf8);
            let s = self.at;
            self.at += quote + 1;
            let end = self.at;
            self.push(Sort::Word, "'s", s, end);
        }
    }
}

impl Cutter<'_> {
    /// A word divided at the end of a line: `horizon-` and `tal` are one word; `tow-` and `bar` keep their hyphen.
    fn over_the_line(&self, front: &str) -> Option<(String, usize)> {
        let rest = self.rest();
        let after = rest.strip_prefix(['-', '\u{2010}', '\u{2011}', '\u{ad}'])?;
        let tail =
            after.trim_start_matches([' ', '\t', '\r']).strip_prefix('\n')?.trim_start_matches([' ', '\t']);
        let back: String = tail.chars().take_while(|c| c.is_alphabetic() || "-ﬁﬂﬀﬃﬄ".contains(*c)).collect();
        let lower = back.chars().next().is_some_and(char::is_lowercase);
        if !lower || front.chars().count() < 2 || back.chars().count() < 2 {
            return None;
        }
        let end = self.at + (rest.len() - tail.len()) + back.len();
        let hyphened = format!("{front}-{back}");
        let compound = crate::lexicon::noun(&hyphened.to_lowercase()).is_some()
            || crate::adjective::adjective(&hyphened.to_lowercase()).is_some();
        Some((if compound { hyphened } else { format!("{front}{back}") }, end))
    }
}

fn vulgar(c: char) -> Option<(i64, i64)> {
    Some(match c {
        '½' => (1, 2),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅓' => (1, 3),
        '⅔' => (2, 3),
        '⅕' => (1, 5),
        '⅖' => (2, 5),
        '⅗' => (3, 5),
        '⅘' => (4, 5),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        _ => return None,
    })
}

/// The braces that open at `at` (blanks apart) and where they close.
fn braced(text: &str, at: usize) -> Option<(usize, usize)> {
    let rest = text.get(at..)?;
    let open = at + (rest.len() - rest.trim_start_matches(' ').len());
    let mut depth = 0_usize;
    for (n, c) in text.get(open..)?.char_indices().take(200) {
        match c {
            '{' => depth += 1,
            '}' => depth = depth.checked_sub(1)?,
            _ if depth == 0 => return None,
            _ => {}
        }
        if depth == 0 {
            return Some((open, open + n));
        }
    }
    None
}

/// `{3}{4}` after `\frac`: the two numbers and the bytes used.
fn fraction(rest: &str) -> Option<(Rational, Rational, usize)> {
    let (n, after) = rest.strip_prefix('{')?.split_once('}')?;
    let (d, tail) = after.strip_prefix('{')?.split_once('}')?;
    Some((Rational::parse_decimal(n.trim())?, Rational::parse_decimal(d.trim())?, rest.len() - tail.len()))
}

/// ` × 10^4`, `e4`, `x 10⁴` after a number: the power and the bytes used.
fn power_of_ten(rest: &str) -> Option<(i32, usize)> {
    let trimmed = rest.trim_start_matches([' ', '\u{a0}', '$']);
    let (body, plain_e) = if let Some(b) = trimmed.strip_prefix(['e', 'E']) {
        if !rest.starts_with(['e', 'E'])
            || !b.trim_start_matches(['+', '-']).starts_with(|c: char| c.is_ascii_digit())
        {
            return None;
        }
        (b, true)
    } else {
        let b = trimmed
            .strip_prefix('×')
            .or_else(|| trimmed.strip_prefix("\\times"))
            .or_else(|| trimmed.strip_prefix('x'))
            .or_else(|| trimmed.strip_prefix('*'))?;
        (b.trim_start().strip_prefix("10")?, false)
    };
    let body = if plain_e { body } else { body.strip_prefix('^').unwrap_or(body) };
    let braced = body.strip_prefix('{');
    let body = braced.unwrap_or(body);
    let mut power = String::new();
    let mut used = 0;
    for c in body.chars() {
        let digit = match c {
            '0'..='9' => c,
            '-' | '−' | '⁻' if power.is_empty() => '-',
            '+' if power.is_empty() => {
                used += 1;
                continue;
            }
            _ => match "⁰¹²³⁴⁵⁶⁷⁸⁹".chars().position(|s| s == c) {
                Some(d) => char::from_digit(d as u32, 10)?,
                None => break,
            },
        };
        power.push(digit);
        used += c.len_utf8();
    }
    let n: i32 = power.parse().ok()?;
    if !(-30..=30).contains(&n) {
        return None;
    }
    let tail = body.get(used..)?;
    let tail = if braced.is_some() { tail.strip_prefix('}')? } else { tail };
    Some((n, rest.len() - tail.len()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cut(text: &str) -> Vec<String> {
        tokens(text).into_iter().map(|t| t.text).collect()
    }

    #[test]
    fn words_numbers_and_signs() {
        assert_eq!(
            cut("a horizon-\ntal tow-\nbar, coeﬃcient 0,25"),
            ["a", "horizontal", "tow-bar", ",", "coefficient", "0,25"]
        );
        assert_eq!(cut("A 4.0-kg block's mass"), ["A", "4.0", "-", "kg", "block", "'s", "mass"]);
        assert_eq!(cut("tow-bar, 12 000 N"), ["tow-bar", ",", "12 000", "N"]);
        assert_eq!(cut("$\\tan\\alpha=\\frac{3}{4}$"), ["tan", "α", "=", "3/4"]);
        assert_eq!(cut("sin α = 1/20"), ["sin", "α", "=", "1/20"]);
    }

    #[test]
    fn standard_form() {
        let t = tokens("8.00 × 10^5 kg");
        assert_eq!(t.first().and_then(|t| t.number().cloned()), Rational::parse_decimal("800000"));
        assert_eq!(t.len(), 2);
    }
}
