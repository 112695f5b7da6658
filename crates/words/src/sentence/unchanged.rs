//! What goes on as before: `the resistances are unchanged`, `the driving force stays the same`.

use crate::lexicon::{self, Noun};
use crate::noun::Ref;
use crate::reader::Reader;
use crate::story::Target;

/// What keeps its size, as [`Reader::phrase`] reads it.
const KEEPS: &[&str] = &[
    "is|are|remain|remains|stay|stays|being|remaining|staying|both|all|still unchanged|unaltered|constant",
    "is|are|remain|remains|stay|stays|being|remaining|staying the same as|throughout? before|throughout?",
    "remain|remains|stay|stays|are|is as they|it was|were",
    "remain|remains|stay|stays|are|is what they|it was|were",
    "remain|remains|stay|stays|are|is as before",
    "do|does|did not change|alter|vary",
    "is|are not changed|altered|affected",
    "keep|keeps|have|has|retain|retains the|their|its same|original|old? value|values|magnitude|magnitudes|size|sizes as? before?",
    "continue|continues to act as|unchanged? before?",
    "continue|continues unchanged|as before?",
];

impl Reader<'_> {
    /// Said of forces once something has happened: they go on as they were. The place after it.
    pub(super) fn unchanged(&mut self, i: usize) -> Option<usize> {
        if !self.story.events.iter().any(|e| e.told) {
            return None;
        }
        let start = self
            .phrase(i, "assume|assuming|given|suppose|supposing|provided|and|but|while|though that?")
            .or_else(|| self.phrase(i, "you may assume that?"))
            .or_else(|| self.phrase(i, "with"))
            .unwrap_or(i);
        if let Some(e) = self.pull_unchanged(i, start) {
            return Some(e);
        }
        let mut forces = false;
        let mut k = self.skip(start);
        for _ in 0..18 {
            if forces && let Some(e) = KEEPS.iter().filter_map(|p| self.phrase(k, p)).max() {
                let e = self.phrase(e, "in magnitude|size|value").unwrap_or(e);
                self.told(i, e, "these forces go on as they were");
                return Some(e);
            }
            let w = self.w(k);
            let t = self.tok(k)?;
            forces |= matches!(w, "force" | "forces" | "resistance" | "resistances" | "friction" | "drag");
            let fits = matches!(
                w,
                "the"
                    | "and"
                    | "of"
                    | "to"
                    | "on"
                    | "other"
                    | "all"
                    | "both"
                    | "each"
                    | "driving"
                    | "tractive"
                    | "braking"
                    | "pulling"
                    | "force"
                    | "forces"
                    | "resistance"
                    | "resistances"
                    | "resistive"
                    | "frictional"
                    | "friction"
                    | "drag"
                    | "motion"
                    | "its"
                    | "their"
                    | "engine"
                    | "engine's"
                    | "'s"
                    | "acting"
                    | "magnitude"
                    | "magnitudes"
                    | "value"
                    | "values"
                    | "size"
                    | "sizes"
                    | "these"
                    | "this"
                    | "external"
                    | "air"
                    | "rolling"
                    | "coefficient"
                    | "any"
                    | "from"
                    | "in"
            ) || t.label()
                || matches!(lexicon::noun(w), Some(Noun::Body(_)));
            if !fits {
                return None;
            }
            k = self.skip(k + 1);
        }
        None
    }

    /// `The tension in the winch cable does not change`: what was given of it holds from now on too.
    fn pull_unchanged(&mut self, i: usize, start: usize) -> Option<usize> {
        let e = self.phrase(start, "the tension|pull in|of")?;
        let k = (e + 1..e + 6).find(|&k| KEEPS.iter().any(|p| self.phrase(k, p).is_some()))?;
        let end = KEEPS.iter().filter_map(|p| self.phrase(k, p)).max()?;
        let Ref::Links(links) = self.known_between(e, k)? else { return None };
        let chapter = self.chapter;
        let old = self
            .story
            .values
            .iter()
            .rfind(|v| v.chapter < chapter && v.what == Target::Link(links.clone()))
            .cloned()?;
        self.told(i, end, "this force goes on as it was");
        self.story.values.push(crate::story::ValueTold { chapter, ..old });
        Some(end)
    }
}
