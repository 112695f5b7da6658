//! Set phrases that lay down a condition: `in the limiting case`, `throughout the motion`, `does not reach the pulley`.

use crate::adjective::adjective;
use crate::lexicon;
use crate::reader::Reader;

impl Reader<'_> {
    /// Phrases that keep the model simple, or say what is plain: `until it reaches the pulley`, `in the motion that follows`.
    pub(super) fn conditions(&mut self, i: usize) -> Option<usize> {
        if let Some(e) = self.tight(i) {
            return Some(e);
        }
        // The parts of the string that are not in contact with the pulleys are vertical.
        if let Some(e) = self
            .phrase(i, "all|any? of? the? parts|part|portions|sections|lengths of the? string|rope|cable|cord ,? which|that? is|are? not in|touching contact? with?")
            .and_then(|e| self.phrase(e, "a|the|either|any? fixed|movable? pulley|pulleys ,? is|are|being|hang|hangs? all? vertical|vertically"))
        {
            self.told(i, e, "forces act straight up and down");
            return Some(e);
        }
        if let Some(e) = self.left_out(i) {
            return Some(e);
        }
        // A body that does not get to the pulley or floor: the stage lasts.
        let mut at = i;
        if let Some(e) = self.phrase(
            at,
            "you|it? may? be? assume|assumed|assuming|given|supposed|suppose|being|provided that|also?",
        ) {
            at = self.skip(e);
        }
        if let Some(e) = self.phrase(at, "and|that|also? that|it?") {
            at = self.skip(e);
        }
        let saved = (self.latest.clone(), self.pair);
        let negated = {
            let mut k = self.skip(at);
            let mut found = None;
            for _ in 0..7 {
                if matches!(self.w(k), "not" | "nor" | "neither" | "without") || self.w(k) == "before" {
                    found = Some(k);
                    break;
                }
                let t = self.tok(k);
                let harmless = t.is_some_and(|t| {
                    t.is_word()
                        && (lexicon::glue(&t.lower)
                            || t.label()
                            || matches!(lexicon::noun(&t.lower), Some(lexicon::Noun::Body(_)))
                            || adjective(&t.lower).is_some()
                            || matches!(t.lower.as_str(), "system"))
                });
                if !harmless {
                    break;
                }
                k = self.skip(k + 1);
            }
            found
        };
        (self.latest, self.pair) = saved;
        let k = negated?;
        if self.w(k) == "before" {
            return None;
        }
        // ... not (by then) reach(ed)/hit(s)/leave the pulley/floor/ground/top
        let mut v = self.skip(k + 1);
        for _ in 0..6 {
            if matches!(
                self.w(v),
                "by" | "then"
                    | "yet"
                    | "at"
                    | "this"
                    | "time"
                    | "have"
                    | "has"
                    | "during"
                    | "it"
                    | "the"
                    | "motion"
                    | "hanging"
                    | "body"
                    | "block"
                    | "particle"
            ) {
                v = self.skip(v + 1);
            }
        }
        if !matches!(
            self.w(v),
            "reach"
                | "reached"
                | "reaching"
                | "hit"
                | "hitting"
                | "touch"
                | "leave"
                | "strike"
                | "rise"
                | "ground"
        ) {
            return None;
        }
        let mut e = v + 1;
        for _ in 0..14 {
            let w = self.w(self.skip(e));
            if matches!(
                w,
                "the"
                    | "pulley"
                    | "pulleys"
                    | "floor"
                    | "ground"
                    | "top"
                    | "bottom"
                    | "edge"
                    | "of"
                    | "slope"
                    | "plane"
                    | "table"
                    | "it"
                    | "nor"
                    | "hanging"
                    | "body"
                    | "in"
                    | "subsequent"
                    | "motion"
                    | "and"
                    | "does"
                    | "that"
                    | "by"
                    | "then"
                    | "has"
                    | "not"
                    | "either"
                    | "peg"
                    | "during"
                    | "this"
                    | "end"
                    | "surface"
                    | "has-not"
                    | "any"
                    | "quay"
                    | "deck"
            ) || (matches!(w, "reach" | "reaches" | "reached" | "hit" | "hits"))
                || self.tok(self.skip(e)).is_some_and(|t| t.label())
            {
                // "and the string breaks": stop where something else begins.
                if w == "and" && !(self.skip(e)..self.skip(e) + 7).any(|n| matches!(self.w(n), "not" | "nor"))
                {
                    break;
                }
                e = self.skip(e) + 1;
            } else {
                break;
            }
        }
        self.told(i, e, "so the motion goes on as it is for as long as the question needs");
        Some(e)
    }
}
