//! Two coefficients of one contact, static and kinetic, told together: `the coefficients of static and kinetic friction
//! are 0.4 and 0.3`, `0.40 (static) and 0.30 (kinetic)`, `take 0.25 as the coefficient of static friction`.

use crate::quantity::{Mention, Sort};
use crate::reader::Reader;
use crate::story::Amount;
use exact::Dimension;

/// A word for the friction that is meant: of a body that slides (true), or that does not yet.
pub(super) fn slides(word: &str) -> Option<bool> {
    match word {
        "kinetic" | "sliding" | "dynamic" => Some(true),
        "static" | "limiting" => Some(false),
        _ => None,
    }
}

impl Reader<'_> {
    /// Several coefficients told at once, or one whose size stands first. The place after them.
    pub(crate) fn coefficients(&mut self, i: usize) -> Option<usize> {
        if let Some(e) = self.once_sliding(i) {
            return Some(e);
        }
        let told = self.coefficients_named(i).or_else(|| self.coefficients_sized(i));
        let (mut mentions, end) = told?;
        // What holds before sliding comes first, so that the other is known to be the smaller.
        mentions.sort_by_key(|m| m.sliding);
        for m in &mentions {
            if !self.tell(m) {
                return None;
            }
        }
        self.glue(i, end);
        Some(end)
    }

    /// `once the crate slides,` before a coefficient of kinetic friction says nothing more.
    fn once_sliding(&mut self, i: usize) -> Option<usize> {
        let e = self.phrase(i, "once|when|while|after|if")?;
        let saved = (self.latest.clone(), self.pair, self.story.bodies.len());
        let np = self.nps(e, false).filter(|_| self.story.bodies.len() == saved.2);
        let end = np.and_then(|np| {
            self.phrase(np.end, "slides|slide|slips|slip|moves|move ,?").or_else(|| {
                self.phrase(np.end, "is|are|starts|start|begins|begin to? sliding|moving|slide|move|slip ,?")
            })
        });
        let m = end.and_then(|end| self.quantity_head(self.phrase(end, "the").unwrap_or(end)));
        (self.latest, self.pair) = (saved.0, saved.1);
        let end =
            end.filter(|_| m.is_some_and(|m| m.sort == Sort::Coefficient && m.sliding == Some(true)))?;
        self.scene(i, end);
        Some(end)
    }

    /// `the coefficients of static and kinetic friction between A and the floor are 0.4 and 0.3`.
    fn coefficients_named(&mut self, i: usize) -> Option<(Vec<Mention>, usize)> {
        let start = self.phrase(i, "the").unwrap_or(i);
        let (mut kinds, at) = self.kinds(start);
        let at = self.phrase(at, "coefficients|coefficient")?;
        let at = self.phrase(at, "of").unwrap_or(at);
        let (more, at) = self.kinds(at);
        kinds.extend(more);
        let at = self.phrase(at, "friction")?;
        let mut m = self.blank_coefficient(i, at);
        let mut at = at;
        while let Some(e) = self.parties(&mut m, at) {
            at = e;
        }
        let at = self.value_verb(at)?;
        let (amounts, said, end) = self.annotated(at)?;
        let kinds = if said.len() == amounts.len() { said } else { kinds };
        if amounts.len() != kinds.len() || kinds.len() < 2 {
            return None;
        }
        let end = self.phrase(end, ",? respectively").unwrap_or(end);
        m.end = end;
        Some((self.each_kind(&m, amounts, &kinds), end))
    }

    /// `take 0.25 as the coefficient of static friction and 0.20 as the coefficient of kinetic friction`.
    fn coefficients_sized(&mut self, i: usize) -> Option<(Vec<Mention>, usize)> {
        let mut at = self.phrase(i, "take|taking|use|using|with|assume|assuming")?;
        let mut mentions: Vec<Mention> = Vec::new();
        let mut end = i;
        for _ in 0..2 {
            let (amount, e) =
                self.amount(at, false).filter(|(a, _)| a.dimension.is_none_or(|d| d == Dimension::NONE))?;
            let head = self.phrase(e, "as|for")?;
            let mut m = self.quantity_head(head).filter(|m| m.sort == Sort::Coefficient)?;
            m.amounts.push(amount);
            end = m.head_end;
            while let Some(e) = self.parties(&mut m, end) {
                end = e;
            }
            (m.start, m.end) = (at, end);
            mentions.push(m);
            match self.phrase(end, ",? and") {
                Some(next) if self.amount(next, false).is_some() => at = next,
                _ => break,
            }
        }
        // Parties named once hold for both.
        if let Some(between) = mentions.iter().map(|m| m.between.clone()).find(|b| !b.is_empty()) {
            for m in mentions.iter_mut().filter(|m| m.between.is_empty()) {
                m.between.clone_from(&between);
            }
        }
        Some((mentions, end))
    }

    /// `static and kinetic`: the kinds of friction named, in order.
    fn kinds(&self, i: usize) -> (Vec<bool>, usize) {
        let mut kinds = Vec::new();
        let mut at = self.skip(i);
        while let Some(kind) = slides(self.w(at)) {
            kinds.push(kind);
            at = self.skip(at + 1);
            let next = if matches!(self.w(at), "and" | "," | "/" | "or") { self.skip(at + 1) } else { at };
            if slides(self.w(next)).is_some() {
                at = next;
            }
        }
        (kinds, at)
    }

    /// Sizes, each perhaps with its kind in brackets: `0.40 (static) and 0.30 (kinetic)`, `0.4 static and 0.3 kinetic`.
    fn annotated(&self, i: usize) -> Option<(Vec<Amount>, Vec<bool>, usize)> {
        let (mut amounts, mut kinds, mut at) = (Vec::new(), Vec::new(), i);
        for _ in 0..2 {
            let (amount, e) = self.amount(at, false)?;
            amounts.push(amount);
            at = e;
            let word = self.phrase(at, "(").or_else(|| self.phrase(at, "for")).unwrap_or(at);
            if let Some(kind) = slides(self.w(word)) {
                kinds.push(kind);
                at = self.phrase(word + 1, "friction").unwrap_or(word + 1);
                at = self.phrase(at, ")").unwrap_or(at);
            }
            match self.phrase(at, ",? and|;|,") {
                Some(next) if amounts.len() < 2 => at = next,
                _ => break,
            }
        }
        Some((amounts, kinds, at))
    }

    /// Between whom the friction acts: `between A and the floor`, `for each block`, `with the ground`, `in each case`.
    pub(super) fn parties(&mut self, m: &mut Mention, at: usize) -> Option<usize> {
        let i = self.skip(at);
        if let Some(e) = self
            .phrase(i, "at|in|for each|every|both|either contact|contacts|surface|surfaces|case|cases")
            .or_else(|| self.phrase(i, "at|between all|the two?|both? contacts|contact|surfaces"))
            .or_else(|| self.phrase(i, "for the|this contact|surfaces|surface"))
            .or_else(|| self.phrase(i, "in contact"))
        {
            return Some(e);
        }
        match self.w(i) {
            "between" if m.between.is_empty() => self.between(m, i + 1),
            "for" | "of" | "on" | "with" | "against" | "and" if m.between.len() < 2 => {
                let and = self.w(i) == "and";
                if and && m.between.is_empty() {
                    return None;
                }
                let saved = self.latest.clone();
                let np = self.nps(i + 1, true)?;
                if !matches!(
                    np.what,
                    crate::noun::Ref::Bodies(_) | crate::noun::Ref::Surface(_) | crate::noun::Ref::Floor(_)
                ) {
                    self.latest = saved;
                    return None;
                }
                m.between.push(np.what);
                self.glue(i, np.end);
                let mut end = np.end;
                // "for A and the table"
                if let Some(e) = self.phrase(end, "and|on|with")
                    && self.surface_ahead(e)
                    && let Some(np) = self.np(e)
                {
                    m.between.push(np.what);
                    end = np.end;
                }
                Some(end)
            }
            _ => None,
        }
    }

    fn blank_coefficient(&self, start: usize, end: usize) -> Mention {
        Mention { sort: Sort::Coefficient, start, head_end: end, end, ..Mention::blank(start) }
    }

    fn each_kind(&self, m: &Mention, amounts: Vec<Amount>, kinds: &[bool]) -> Vec<Mention> {
        let told = amounts.into_iter().zip(kinds);
        told.map(|(amount, kind)| Mention { amounts: vec![amount], sliding: Some(*kind), ..m.clone() })
            .collect()
    }
}
