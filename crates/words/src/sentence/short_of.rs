//! The motion goes on for as long as the question needs: `A does not reach the pulley`, `Q never gets as far as the
//! pulley`, `the string is long enough for Q not to reach it`.
//!
//! In a pattern `@` stands for somebody (`Q`, `the 3 kg crate`, `neither particle`) and `#` for a place (`the pulley`,
//! `the floor`, `it`); the rest is read as by [`Reader::phrase`].

use crate::adjective::adjective;
use crate::lexicon::{self, Noun};
use crate::reader::Reader;

/// What may lead it in.
const LEADS: &[&str] = &[
    "you may|can|should? assume that?",
    "it may|can|should be assumed that?",
    "it is assumed|given that",
    "assume|assuming|suppose|supposing|given|provided that?",
    "in the subsequent|ensuing motion ,?",
    "throughout the subsequent|ensuing|whole? motion ,?",
    "at this|that instant|moment|time|stage ,?",
    "and|but|also|so|where|while|although|though|which|that|that also?",
];

const SHAPES: &[&str] = &[
    "@ never reaches|reach|hits|hit|touches|strikes|leaves|leave|meets #",
    "@ never gets|comes|goes|get as far as #",
    "@ never gets|get to #",
    "neither @ reaches|hits|touches|strikes|reach|hit|leaves #",
    "@ does|do|did|will|has|have|had|must never|not ever|yet|then|actually? collide|collided|reach|reached|get|hit|come|touch|strike|leave|meet|arrive with|to|at|as|into? far? as? #",
    "@ stops|stop before|short it|they? reaches|reaching|reach|hits|hitting|of #",
    "@ comes|come to instantaneous|momentary? rest before it|they? reaches|reaching|reach|hits|hitting #",
    "the string|rope|cord|cable|plane|table|slope|bench|ramp|track is|are sufficiently? long enough? for @ not to reach|hit #",
    "the string|rope|cord|cable|plane|table|slope|bench|ramp|track is|are so|sufficiently? long enough? that|so @ does|do|will not reach|hit #",
    "the pulley is so|sufficiently? high enough? for|that @ does? not to? reach|hit #",
    "@ stays|remains|stay|remain|is|are still|always? well? below|above the pulley|floor|ground",
    "the pulley is fixed? well|high above a|the horizontal? floor|ground|table",
];

/// One of these stands in each of the shapes.
const CUES: &[&str] = &[
    "never", "not", "neither", "stops", "stop", "rest", "stays", "remains", "stay", "remain", "still",
    "above", "below",
];

/// What may follow.
const TAILS: &[&str] = &[
    "in|during|throughout the|its|this subsequent|ensuing|whole? motion",
    "in|during the|its motion that follows",
    "at|by this|that time|instant|moment|stage",
    "by then",
    "afterwards",
    "throughout",
    "or|nor the|either pulley|floor|ground",
];

impl Reader<'_> {
    /// A body that does not get to the pulley or the floor: the stage lasts. The place after it.
    pub(super) fn short_of(&mut self, i: usize) -> Option<usize> {
        // Asked at every word: first, whether anything here says so.
        if !(i..(i + 16).min(self.hi)).any(|k| CUES.contains(&self.w(k))) {
            return None;
        }
        let mut at = self.skip(i);
        for _ in 0..3 {
            match LEADS.iter().filter_map(|p| self.phrase(at, p)).max() {
                Some(e) => at = self.skip(e),
                None => break,
            }
        }
        let mut end = None;
        for _ in 0..4 {
            // P, which never gets to the pulley: of the one just named.
            let who = self.phrase(i, "which|who").is_some_and(|e| self.skip(e) == at);
            let bare =
                |p: &&str| if who { p.strip_prefix("@ ").and_then(|p| self.shape(at, p)) } else { None };
            let found = SHAPES.iter().filter_map(|p| self.shape(at, p).or_else(|| bare(p))).max();
            let Some(e) = found else { break };
            let mut e = e;
            for _ in 0..3 {
                match TAILS.iter().filter_map(|p| self.phrase(e, p)).max() {
                    Some(more) => e = more,
                    None => break,
                }
            }
            end = Some(e);
            let Some(next) = self.phrase(e, ",? and|nor|or|but ,? that? ,?") else { break };
            at = next;
        }
        let end = end?;
        self.told(i, end, "so the motion goes on as it is for as long as the question needs");
        Some(end)
    }

    /// Reads a pattern with somebody and a place in it.
    fn shape(&self, i: usize, pattern: &str) -> Option<usize> {
        let mut at = i;
        for item in pattern.split(' ') {
            at = match item {
                "@" => self.somebody(at)?,
                "#" => self
                    .phrase(at, "it|them")
                    .or_else(|| self.phrase(at, "the top|end|bottom|edge|foot of the slope|plane|table|bench|ramp|string|rope|incline"))
                    .or_else(|| self.landing_place(at).map(|p| p.2))?,
                _ => self.phrase(at, item)?,
            };
        }
        Some(at)
    }

    /// Somebody named, without asking who: the place after the name.
    pub(super) fn somebody(&self, i: usize) -> Option<usize> {
        let mut k = self.skip(i);
        if let Some(e) = self.phrase(k, "it|they|both|neither of? them?") {
            let more = self.somebody_named(e);
            return Some(more.unwrap_or(e));
        }
        if let Some(e) = self.phrase(k, "the system") {
            return Some(e);
        }
        k = self.somebody_named(k)?;
        if let Some(e) = self.phrase(k, "and|or|nor|,").and_then(|e| self.somebody_named(e)) {
            k = e;
        }
        Some(k)
    }

    fn somebody_named(&self, i: usize) -> Option<usize> {
        let mut k = self.skip(i);
        for _ in 0..5 {
            let t = self.tok(k)?;
            if t.label() {
                return Some(k + 1);
            }
            if matches!(lexicon::noun(&t.lower), Some(Noun::Body(_))) {
                let next = self.tok(k + 1).is_some_and(|t| t.label());
                return Some(if next { k + 2 } else { k + 1 });
            }
            let fits =
                matches!(self.w(k), "the" | "either" | "other" | "of" | "each" | "kg" | "first" | "second")
                    || t.number().is_some()
                    || adjective(self.w(k)).is_some();
            if !fits {
                return None;
            }
            k = self.skip(k + 1);
        }
        None
    }
}
