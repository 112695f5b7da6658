//! Reading the pieces of a unit: names, powers, and what joins them.
use crate::unit_names::{Kind, NAMES, RATES};

/// A place in the text.
#[derive(Clone, Copy)]
pub(crate) struct Reader<'a> {
    text: &'a str,
    at: usize,
    /// Typeset brackets that were opened and are still to close.
    open: u8,
    /// Whether the last name was a word, which stands apart from the next.
    word: bool,
}

/// Words that open typeset letters, up to and with the bracket.
const OPENERS: [&str; 12] = [
    "\\mathrm{",
    "\\text{",
    "\\textrm{",
    "\\mathit{",
    "\\operatorname{",
    "\\rm{",
    "{\\rm",
    "{\\mathrm",
    "\\rm ",
    "\\unit{",
    "\\mbox{",
    "{",
];
/// Typeset spaces and signs of multiplication that mean no more than a space.
const SPACES: [&str; 15] = [
    " ",
    "\u{a0}",
    "\u{2009}",
    "\u{202f}",
    "\u{2006}",
    "\t",
    "~",
    "\\,",
    "\\ ",
    "\\;",
    "\\:",
    "\\!",
    "\\thinspace",
    "\\cdot",
    "\\quad",
];

impl<'a> Reader<'a> {
    pub(crate) fn new(text: &'a str) -> Reader<'a> {
        Reader { text, at: 0, open: 0, word: false }
    }

    fn rest(&self) -> &'a str {
        self.text.get(self.at..).unwrap_or("")
    }

    fn eat(&mut self, piece: &str) -> bool {
        let found = self.rest().starts_with(piece);
        if found {
            self.at += piece.len();
        }
        found
    }

    /// Skips spaces and typesetting brackets; whether there was a space.
    fn skip(&mut self) -> bool {
        let mut space = false;
        loop {
            if SPACES.iter().any(|s| self.eat(s)) {
                space = true;
            } else if self.open < 4 && OPENERS.iter().any(|s| self.eat(s)) {
                self.open += 1;
            } else if self.open > 0 && self.eat("}") {
                self.open -= 1;
            } else {
                return space;
            }
        }
    }

    /// How far it has read, with the brackets that close what was opened.
    pub(crate) fn used(&self) -> usize {
        let mut end = *self;
        while end.open > 0 && end.eat("}") {
            end.open -= 1;
        }
        end.at
    }

    /// Whether a unit may end here: not inside a word or a number.
    pub(crate) fn at_boundary(&self) -> bool {
        let mut end = *self;
        while end.open > 0 && end.eat("}") {
            end.open -= 1;
        }
        if end.open > 0 {
            return false;
        }
        let closed = end.at > self.at;
        match end.rest().chars().next() {
            None => true,
            Some('^' | '_' | '⁻' | '²' | '³' | '¹') => false,
            Some(c) => closed || !c.is_alphanumeric(),
        }
    }

    /// A name with its power: `s^{-2}`, `seconds squared`, or a rate such as `kph`.
    pub(crate) fn factor(&mut self, sign: i8) -> Option<Vec<(&'static str, i8)>> {
        self.skip();
        let rest = self.rest();
        if sign > 0 {
            for (text, factors) in RATES {
                if starts_with_word(rest, text) {
                    self.at += text.len();
                    self.word = true;
                    return Some(factors.to_vec());
                }
            }
        }
        // "square metre", "cubic metre".
        let mut raised = 1;
        for (word, power) in [("square ", 2), ("cubic ", 3)] {
            if rest.get(..word.len()).is_some_and(|start| start.eq_ignore_ascii_case(word)) {
                self.at += word.len();
                raised = power;
            }
        }
        let mut reader = *self;
        let symbol = reader.name(raised == 1)?;
        let power = match reader.power() {
            Some(power) => power,
            None if reader.word => reader.power_word().unwrap_or(1),
            None => 1,
        };
        *self = reader;
        Some(vec![(symbol, power.checked_mul(sign)?.checked_mul(raised)?)])
    }

    /// The longest name here after which something can follow that is not part
    /// of it: another name, a power, or the end of the word.
    fn name(&mut self, signs: bool) -> Option<&'static str> {
        let rest = self.rest();
        let mut best: Option<(usize, &'static str, bool)> = None;
        for name in NAMES {
            let whole = match name.kind {
                Kind::Word => starts_with_word(rest, name.text),
                _ if !signs => false,
                // Symbols may touch the next one: ms⁻², Ns, kmh⁻¹.
                _ => rest.starts_with(name.text) && follows(rest, name.text, name.symbol),
            };
            if whole && best.is_none_or(|(length, ..)| name.text.len() > length) {
                best = Some((name.text.len(), name.symbol, name.kind == Kind::Word));
            }
        }
        let (length, symbol, word) = best?;
        self.at += length;
        self.word = word;
        Some(symbol)
    }

    /// `^-2`, `^{-2}`, `⁻²`, `²`, `−2` and `-2` straight after a symbol.
    fn power(&mut self) -> Option<i8> {
        let mut reader = *self;
        let closes = reader.open > 0 && reader.eat("}");
        if closes {
            reader.open -= 1;
        }
        let power = reader.power_here();
        if power.is_some() {
            *self = reader;
        }
        power
    }

    fn power_here(&mut self) -> Option<i8> {
        let rest = self.rest();
        let mut chars = rest.char_indices().peekable();
        let mut braces = 0;
        let mut caret = false;
        while let Some((_, c)) = chars.peek() {
            match c {
                '^' if !caret => caret = true,
                '{' | '(' if caret && braces < 2 => braces += 1,
                ' ' if caret => {}
                _ => break,
            }
            chars.next();
        }
        let mut negative = false;
        if let Some((_, '-' | '−' | '–' | '⁻')) = chars.peek() {
            negative = true;
            chars.next();
        }
        while caret && matches!(chars.peek(), Some((_, ' '))) {
            chars.next();
        }
        let (_, digit) = chars.next()?;
        let size = match digit {
            '1' | '¹' => 1,
            '2' | '²' => 2,
            '3' | '³' => 3,
            _ => return None,
        };
        // A bare digit is a power only after a caret or a minus: "m2" is not a unit here.
        if digit.is_ascii_digit() && !caret && !negative {
            return None;
        }
        for _ in 0..braces {
            match chars.next() {
                Some((_, '}' | ')')) => {}
                _ => return None,
            }
        }
        if chars.peek().is_some_and(|(_, c)| c.is_ascii_digit()) {
            return None;
        }
        self.at += chars.peek().map_or(rest.len(), |(i, _)| *i);
        Some(if negative { -size } else { size })
    }

    /// A power that came loose, as when text is copied from a printed page:
    /// `m s –2`. Only for what is no unit without it.
    pub(crate) fn spaced_power(&mut self) -> Option<i8> {
        let mut reader = *self;
        if !reader.eat(" ") || !reader.rest().starts_with(['-', '−', '–', '⁻']) {
            return None;
        }
        let power = reader.power_here()?;
        *self = reader;
        Some(power)
    }

    /// `squared` or `cubed` after a word.
    fn power_word(&mut self) -> Option<i8> {
        let mut reader = *self;
        reader.skip();
        for (text, power) in [("squared", 2), ("cubed", 3)] {
            if starts_with_word(reader.rest(), text) {
                reader.at += text.len();
                *self = reader;
                return Some(power);
            }
        }
        None
    }

    /// What stands between two names: 1 for side by side, −1 for `/` or `per`.
    pub(crate) fn join(&mut self) -> Option<i8> {
        let start = *self;
        let space = self.skip();
        if self.eat("/") || self.eat("\\/") {
            return Some(-1);
        }
        if space && starts_with_word(self.rest(), "per") {
            self.at += "per".len();
            self.skip();
            return Some(-1);
        }
        if self.eat(".") || self.eat("·") || self.eat("⋅") || self.eat("-") {
            // A dot or hyphen joins only what follows straight on: N·s, newton-seconds.
            return if self.rest().starts_with(|c: char| c.is_alphabetic()) { Some(1) } else { None };
        }
        if start.word && !space {
            return None;
        }
        Some(1)
    }
}

/// Whether the text starts with this word, in any case, and the word ends there.
fn starts_with_word(text: &str, word: &str) -> bool {
    match text.get(..word.len()) {
        Some(start) if start.eq_ignore_ascii_case(word) => {
            !text.get(word.len()..).is_some_and(|rest| rest.starts_with(|c: char| c.is_alphanumeric()))
        }
        _ => false,
    }
}

/// Whether a symbol may end here: no letter follows, or what follows is a
/// symbol with a power or one that is written close: `ms⁻²`, `Ns`, `kmh⁻¹`.
fn follows(text: &str, name: &str, symbol: &str) -> bool {
    let rest = text.get(name.len()..).unwrap_or("");
    let Some(next) = rest.chars().next() else { return true };
    if symbol == "°" {
        // "30°C" is not an angle; a typeset sign may be followed by anything.
        return name != "°" || !next.is_alphabetic();
    }
    if symbol == "ms" && power_comes(rest) {
        // "ms⁻¹" is metres per second, not "per millisecond".
        return false;
    }
    if !next.is_alphanumeric() {
        return true;
    }
    if next.is_numeric() && !next.is_ascii_digit() {
        return true;
    }
    for after in ["s", "h", "m", "min"] {
        let Some(more) = rest.strip_prefix(after) else { continue };
        let raised = more.starts_with(['^', '⁻', '-', '−', '–', '²', '}']) && power_comes(more);
        let close = matches!((symbol, after), ("N" | "kN", "s" | "m"))
            && !more.starts_with(|c: char| c.is_alphanumeric());
        if raised || close {
            return true;
        }
    }
    // "kgms⁻¹": the middle name itself stands before a raised one.
    rest.strip_prefix("ms").is_some_and(power_comes)
}

/// Whether a negative power or a bracketed one stands here.
fn power_comes(text: &str) -> bool {
    let mut rest = text.trim_start_matches('}');
    rest = rest.strip_prefix('^').unwrap_or(rest);
    rest = rest.trim_start_matches(['{', '(', ' ']);
    let Some(digits) = rest.strip_prefix(['-', '−', '–', '⁻']) else { return false };
    digits.trim_start().starts_with(['1', '2', '3', '¹', '²', '³'])
}
