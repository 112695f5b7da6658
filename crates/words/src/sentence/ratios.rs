//! Angles by their size, their letter or their ratios: `30°`, `θ`, `arctan(3/4)`, `where tan θ = 3/4`, `1 in 20`.
//!
//! Slopes, ropes and forces at an angle all read their angle here. (`tan^-1` is put into `arctan` by the idioms.)

use crate::reader::Reader;
use exact::{Angle, Dimension, Value};

impl Reader<'_> {
    /// An angle by its size or its letter: `30°`, `θ`, `arctan(3/4)`, `1 in 20`. Gives letter, angle and the place after.
    pub(crate) fn plain_angle(&self, at: usize) -> Option<(Option<String>, Option<Angle>, usize)> {
        let at = self.skip(at);
        if let Some((amount, e)) = self.amount(at, false) {
            if amount.dimension == Some(Dimension::ANGLE) {
                return Some((None, Some(Angle::Degrees(amount.value.as_rational()?.clone())), e));
            }
            if let (Some(rise), Some(e)) = (amount.value.as_rational(), self.phrase(e, "in"))
                && let Some((run, e)) = self.number(e)
            {
                return Some((None, Some(Angle::Sin(Value::rational(rise.checked_div(&run)?))), e));
            }
            return None;
        }
        if let Some(e) = self.phrase(at, "arcsin|arctan|arccos") {
            let (amount, e2) = self.amount(e, false)?;
            return Some((None, Some(by_ratio(self.w(at).trim_start_matches("arc"), amount.value)), e2));
        }
        if let Some((angle, e)) = self.named_ratio(at) {
            return Some((None, Some(angle), e));
        }
        let t = self.tok(at).filter(|t| t.letter().is_some() && !t.is("a"))?;
        let end = if self.w(at + 1) == "°" { at + 2 } else { at + 1 };
        Some((Some(t.text.clone()), None, end))
    }

    /// `whose sine is 3/5`.
    fn named_ratio(&self, at: usize) -> Option<(Angle, usize)> {
        let e = self.phrase(at, ",? where? whose|its|the sine|cosine|tangent is|equals")?;
        let name = self.w(self.skip(e - 2)).to_owned();
        let (amount, end) = self.amount(e, false)?;
        Some((by_ratio(name.get(..3).unwrap_or("sin"), amount.value), end))
    }

    /// `tan θ = 3/4`, `sin(α) = 0.6`: the letter, the angle and the place after.
    pub(crate) fn ratio_of_letter(&self, at: usize) -> Option<(String, Angle, usize)> {
        let at = self.skip(at);
        let name = self.w(at);
        if !matches!(name, "sin" | "cos" | "tan") {
            return None;
        }
        let open = self.phrase(at + 1, "(").unwrap_or(at + 1);
        let letter = self.tok(open)?.letter()?.to_string();
        let close = self.phrase(open + 1, ")").unwrap_or(open + 1);
        let e = self.phrase(close, "=|is|equals")?;
        let (amount, end) = self.amount(e, false)?;
        Some((letter, by_ratio(name, amount.value), end))
    }

    /// What is told of an angle right after its letter: `, where tan θ = 3/4`, `such that sin θ = 0.6`, `(sin θ = 3/5)`,
    /// `whose tangent is 3/4`, `= 30°`.
    pub(crate) fn ratio_after(&self, letter: Option<&str>, at: usize) -> Option<(Angle, usize)> {
        if let Some(found) = self.named_ratio(at) {
            return Some(found);
        }
        let letter = letter?;
        if let Some(e) = self.phrase(at, "=")
            && let Some((None, Some(angle), end)) = self.plain_angle(e)
        {
            return Some((angle, end));
        }
        let bracket = self.phrase(at, "(");
        let from = self
            .phrase(at, ",? where|with|given|such|,|( that?")
            .or_else(|| self.phrase(at, ",? for which"))
            .or_else(|| self.phrase(at, ",? and"))
            .or(bracket)?;
        let from = self.phrase(from, "where|with").unwrap_or(from);
        let (l, angle, mut end) = self.ratio_of_letter(from)?;
        if l != letter {
            return None;
        }
        // (sin θ = 0.6, cos θ = 0.8): only if both are of one angle; else the second is left to be read by itself.
        if let Some((l, other, e)) = self.phrase(end, ",|and and?").and_then(|e| self.ratio_of_letter(e))
            && l == letter
            && super::angles::same_angle(&angle, &other)
        {
            end = e;
        }
        if bracket.is_some() {
            end = self.phrase(end, ")")?;
        }
        Some((angle, end))
    }
}

/// The angle with this ratio: `sin`, `cos` or `tan`.
fn by_ratio(name: &str, value: Value) -> Angle {
    match name {
        "cos" => Angle::Cos(value),
        "tan" => Angle::Tan(value),
        _ => Angle::Sin(value),
    }
}
