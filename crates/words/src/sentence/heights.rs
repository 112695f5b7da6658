//! How far bodies are from the ground or the pulley: `P is 1.5 m above the floor`, `with both particles 2 m above
//! the ground`, `A is 3 m from the pulley`.

use crate::noun::Ref;
use crate::reader::Reader;
use exact::Dimension;

impl Reader<'_> {
    /// `with both particles 2 m above the ground`, `at a height of 2 m above the ground`.
    pub(super) fn height_phrase(&mut self, i: usize) -> Option<usize> {
        if self.asking {
            return None;
        }
        let i = self.skip(i);
        if let Some(e) = self.height_at(i) {
            return Some(e);
        }
        let with = self.phrase(i, ",? with|and")?;
        let end = (with + 1..with + 8).find(|&k| self.height_words(k).is_some())?;
        let mut name = end;
        while name > with
            && matches!(self.w(name - 1), "is" | "are" | "being" | "initially" | "each" | "both" | "still")
            && name - 1 > with
        {
            name -= 1;
        }
        let before = self.about.clone();
        let what = self.known_between(with, name)?;
        if !matches!(what, Ref::Bodies(_) | Ref::System) {
            return None;
        }
        self.about = Some(what);
        let e = self.height_at(end);
        self.about = before;
        let e = e?;
        self.glue(i, end);
        Some(e)
    }

    /// `1.5 m above the floor`, of those spoken of.
    pub(crate) fn height_at(&mut self, i: usize) -> Option<usize> {
        if !matches!(self.about, Some(Ref::Bodies(_) | Ref::System)) {
            return None;
        }
        let (amount, e, ground) = self.height_words(i)?;
        let given = self.given(&amount);
        self.clear(given, ground);
        self.told(i, e, if ground { "how far it can fall" } else { "how far it can move" });
        Some(e)
    }

    pub(crate) fn height_words(&self, i: usize) -> Option<(crate::story::Amount, usize, bool)> {
        let k = self
            .phrase(i, "then|now|initially|still|each|both|hanging|suspended|held? at? a|the? vertical? height|distance? of?")
            .unwrap_or(i);
        let (amount, e) = self.amount(k, true)?;
        let letter = amount.dimension.is_none() && amount.value.as_rational().is_none();
        if amount.dimension != Some(Dimension::LENGTH) && !letter {
            return None;
        }
        let e = self.phrase(e, "vertically|directly").unwrap_or(e);
        if let Some((_, true, e)) = self.phrase(e, "above|from|off").and_then(|e| self.landing_place(e)) {
            return Some((amount, e, true));
        }
        let e = self
            .phrase(e, "from|below|away|short from|of? the|a pulley|edge|peg|buffer|buffers|stop")
            .map(|e| self.phrase(e, "of the table|bench|quay|slope|deck").unwrap_or(e))?;
        Some((amount, e, false))
    }
}
