//! A short line of text in several hands: upright or italic, on the line or lowered.

use crate::metrics;
use exact::Math;

/// How much smaller an index is than its letter.
pub(crate) const INDEX_SIZE: f64 = 0.7;
/// How far below the line an index stands, in parts of the type size.
pub(crate) const INDEX_DROP: f64 = 0.22;
/// How far above the line a power stands.
pub(crate) const POWER_RISE: f64 = 0.36;

/// Where a piece stands relative to the line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Level {
    On,
    Below,
    Above,
}

/// A piece of text in one hand.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Run {
    pub(crate) text: String,
    pub(crate) italic: bool,
    pub(crate) level: Level,
}

/// A line of text.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Text {
    pub(crate) runs: Vec<Run>,
}

impl Text {
    /// Upright words or numbers.
    pub(crate) fn upright(text: impl Into<String>) -> Text {
        let mut line = Text::default();
        line.push(text.into(), false, Level::On);
        line
    }
    /// A quantity's letter, italic; `T_1` gets a lower index.
    pub(crate) fn letter(letter: &str) -> Text {
        Text::of(&Math::quantity(letter))
    }
    /// A formula, set on one line.
    pub(crate) fn of(math: &Math) -> Text {
        let mut line = Text::default();
        line.write(math, Level::On);
        line
    }
    /// Adds a line behind this one.
    pub(crate) fn then(mut self, other: Text) -> Text {
        for run in other.runs {
            self.push(run.text, run.italic, run.level);
        }
        self
    }
    pub(crate) fn is_empty(&self) -> bool {
        self.runs.is_empty()
    }
    fn push(&mut self, text: String, italic: bool, level: Level) {
        match self.runs.last_mut() {
            _ if text.is_empty() => {}
            Some(last) if last.italic == italic && last.level == level => last.text.push_str(&text),
            _ => self.runs.push(Run { text, italic, level }),
        }
    }
    /// Its width at this type size, in pixels.
    pub(crate) fn width(&self, size: f64) -> f64 {
        self.runs
            .iter()
            .map(|r| {
                metrics::width(&r.text, r.italic)
                    * if r.level == Level::On { size } else { size * INDEX_SIZE }
            })
            .sum()
    }
    /// The bare words, for descriptions.
    pub(crate) fn plain(&self) -> String {
        self.runs.iter().map(|r| r.text.as_str()).collect()
    }
    /// Cut to fit this many ems, with an ellipsis.
    pub(crate) fn cut(text: &str, ems: f64) -> String {
        if metrics::width(text, false) <= ems {
            return text.to_owned();
        }
        let mut kept = String::new();
        let mut room = ems - metrics::width("…", false);
        for c in text.chars() {
            room -= metrics::width(c.encode_utf8(&mut [0; 4]), false);
            if room < 0.0 {
                break;
            }
            kept.push(c);
        }
        format!("{}…", kept.trim_end())
    }

    fn write(&mut self, math: &Math, level: Level) {
        match math {
            Math::Number(s) | Math::Upright(s) => self.push(s.clone(), false, level),
            Math::Quantity(s) => self.push(s.clone(), true, level),
            Math::Unit(s) => {
                let space = if s.starts_with('°') || self.is_empty() { "" } else { "\u{2009}" };
                self.push(format!("{space}{s}"), false, level);
            }
            Math::Op(s) => {
                let sign = self.is_empty() && matches!(s.as_str(), "−" | "+");
                self.push(if sign { s.clone() } else { format!("\u{2009}{s}\u{2009}") }, false, level);
            }
            Math::Sub(base, index) => {
                self.write(base, level);
                self.write(index, Level::Below);
            }
            Math::Power(base, exponent) => {
                self.write(base, level);
                self.write(exponent, Level::Above);
            }
            Math::Frac(over, under) => {
                self.operand(over, level);
                self.push("/".to_owned(), false, level);
                self.operand(under, level);
            }
            Math::Sqrt(inside) => {
                self.push("√".to_owned(), false, level);
                self.operand(inside, level);
            }
            Math::Paren(inside) => {
                self.push("(".to_owned(), false, level);
                self.write(inside, level);
                self.push(")".to_owned(), false, level);
            }
            Math::Row(pieces) => {
                for piece in pieces {
                    self.write(piece, level);
                }
            }
            Math::Tagged(_, inside) => self.write(inside, level),
        }
    }
    fn operand(&mut self, math: &Math, level: Level) {
        let compound = match math.untagged() {
            Math::Row(pieces) => pieces.len() > 1,
            Math::Frac(..) => true,
            _ => false,
        };
        if compound {
            self.push("(".to_owned(), false, level);
        }
        self.write(math, level);
        if compound {
            self.push(")".to_owned(), false, level);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_lean_and_indices_hang() {
        let t = Text::letter("T_1");
        assert_eq!(t.plain(), "T1");
        assert_eq!(
            t.runs.iter().map(|r| (r.italic, r.level)).collect::<Vec<_>>(),
            [(true, Level::On), (false, Level::Below)]
        );
        assert!(t.width(20.0) < Text::upright("T1").width(20.0));
    }

    #[test]
    fn long_names_are_cut() {
        assert_eq!(Text::cut("crate", 8.0), "crate");
        let cut = Text::cut("a very long name for a wagon indeed", 8.0);
        assert!(cut.ends_with('…') && crate::metrics::width(&cut, false) <= 8.0, "{cut}");
    }
}
