//! Masses that belong to bodies: `of mass 5 kg`, `of masses m and 2m respectively`, `each of mass 600 kg`.

use crate::reader::Reader;
use crate::story::Amount;
use exact::Dimension;
use model::{Diagnostic, Refusal};

impl Reader<'_> {
    /// `of mass 5 kg`, `, of masses 3 kg and 4 kg respectively`, `each of mass 600 kg`, `whose mass is 3 tonnes`,
    /// `having masses m and 2m`, `with mass M kg`. Gives the amounts, the place after, and whether "each" stands there.
    pub(crate) fn masses_after(&self, i: usize, bare: bool) -> Option<(Vec<Amount>, usize, bool)> {
        let mut at = self.skip(i);
        // A car (1200 kg), two carts (m1 = 3 kg, m2 = 4 kg)
        if self.w(at) == "("
            && let Some((a, e)) = self.amounts(at + 1, Some(Dimension::MASS))
            && a.iter().all(|a| a.dimension == Some(Dimension::MASS))
            && self.w(e) == ")"
        {
            return Some((a, e + 1, false));
        }
        let bracket = self.w(at) == "(";
        if matches!(self.w(at), "," | "(") {
            at = self.skip(at + 1);
        }
        // Loco 5000 kg pulling two trucks, 2000 kg each
        if let Some((a, e)) = self.amounts(at, Some(Dimension::MASS)).filter(|_| !bracket)
            && a.iter().all(|a| a.dimension == Some(Dimension::MASS))
            && let next = self.w(self.skip(e))
            && (matches!(next, "" | "," | ";" | ":" | "and" | "each" | "on" | "in")
                || crate::verbs::frame(next).is_some())
        {
            let each = next == "each";
            return Some((a, if each { self.skip(e) + 1 } else { e }, each));
        }
        if self.w(at) == "also" {
            at = self.skip(at + 1);
        }
        let each = self.w(at) == "each";
        if each {
            at = self.skip(at + 1);
        }
        const WAYS: [&str; 8] = [
            "and mass|masses of|equal?",
            "of|having|with|has|have? equal|total|combined|a|an|the? equal|total|combined|unknown? mass|masses of|equal|is|are? to?",
            "of negligible? mass|masses",
            "whose own|total|combined? mass|masses with|together|including? with? its|their|his|her? contents|load|equipment|passengers? is|are|being",
            "the? mass|masses of which|whom with|together|including? with? its|their|his|her? contents|load|equipment? is|are|being",
            "mass|masses =|:?",
            "which|who has|have a? total? mass|masses of?",
            "of",
        ];
        let found = WAYS.iter().enumerate().find_map(|(n, way)| {
            let start = self.phrase(at, way)?;
            let found = self.amounts(start, Some(Dimension::MASS))?;
            // "a load of 40 kg": without the word, the unit must say that it is a mass.
            let said = n < 7 || bare || found.0.iter().all(|a| a.dimension == Some(Dimension::MASS));
            said.then_some(found)
        });
        let (mut amounts, mut end) = found?;
        if amounts.iter().any(|a| a.dimension.is_some_and(|d| d != Dimension::MASS)) {
            return None;
        }
        // A letter with no unit: "mass M, where M < 4". Keep it.
        for a in amounts.iter_mut() {
            if a.dimension.is_none() && a.value.as_rational().is_some() {
                return None;
            }
        }
        if let Some(e) = self.phrase(end, ",? respectively") {
            end = e;
        }
        if let Some(e) = self.phrase(end, "each") {
            end = e;
        }
        if self.w(self.skip(i)) == "(" && self.w(end) == ")" {
            end += 1;
        }
        Some((amounts, end, each))
    }

    /// Does "total" or "combined" stand just before this amount?
    fn total_said(&self, amounts: &[Amount]) -> bool {
        let Some(at) =
            amounts.first().and_then(|a| self.toks.iter().position(|t| t.span.start == a.span.start))
        else {
            return false;
        };
        (at.saturating_sub(4)..at).any(|k| matches!(self.w(k), "total" | "combined" | "together"))
    }

    /// Gives bodies their masses: one for each, or one for all.
    pub(crate) fn set_mass(&mut self, bodies: &[usize], amounts: &[Amount]) {
        let spread = amounts.len() == 1 && bodies.len() > 1 && !self.total_said(amounts);
        if amounts.len() != bodies.len() && !spread {
            if let (Some(first), Some(last)) = (amounts.first(), amounts.last()) {
                let d = Diagnostic::refuse(
                    Refusal::Incomplete,
                    format!("{} masses are given for {} bodies", amounts.len(), bodies.len()),
                )
                .at(first.span.join(last.span))
                .hint("give one mass for each body, in the same order");
                self.diagnostics.push(d);
            }
            return;
        }
        for (k, &b) in bodies.iter().enumerate() {
            let Some(amount) = (if spread { amounts.first() } else { amounts.get(k) }) else { continue };
            let given = self.given(amount);
            let name = self.name(b);
            let Some(body) = self.story.bodies.get_mut(b) else { continue };
            match &body.mass {
                Some(old) if old.value != given.value => {
                    let d = Diagnostic::refuse(
                        Refusal::Contradictory,
                        format!("two masses are given for {name}: {} and {}", old.written, given.written),
                    )
                    .at(old.span)
                    .at(given.span)
                    .hint("keep one of them");
                    self.diagnostics.push(d);
                }
                Some(_) => {}
                None => body.mass = Some(given),
            }
        }
    }
}
