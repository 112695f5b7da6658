//! Pronouns and their like: `it`, `they`, `each`, `the one behind`, `her feet`.

use crate::amount::in_words;
use crate::lexicon::{Noun, noun, plural};
use crate::noun::{Np, Ref};
use crate::reader::Reader;
use crate::verbs;
use model::Form;

impl Reader<'_> {
    pub(super) fn pronoun(&mut self, i: usize) -> Option<Np> {
        if let Some(np) = self.string_pronoun(i) {
            return Some(np);
        }
        let w = self.w(i);
        let people = || -> Vec<usize> {
            let found: Vec<usize> = self
                .story
                .bodies
                .iter()
                .enumerate()
                .filter(|(_, b)| b.form == Form::Person)
                .map(|(n, _)| n)
                .collect();
            found
        };
        if w == "it"
            && !self.link.is_empty()
            && matches!(self.w(i + 1), "is" | "was" | "then")
            && verbs::frame(self.w(i + 2)) == Some(verbs::Frame::Pass)
        {
            self.glue(i, i + 1);
            return Some(Np { what: Ref::Links(self.link.clone()), end: i + 1 });
        }
        let (bodies, end) = match w {
            "it" | "itself" => {
                let one = if self.latest.len() == 1 {
                    self.latest.clone()
                } else if self.subject.len() == 1 {
                    self.subject.clone()
                } else {
                    return None;
                };
                (one, i + 1)
            }
            "they" | "them" | "themselves" | "both" | "these" => {
                if w == "these" && !self.w(i + 1).is_empty() && !verbs::starts_clause(self.w(i + 1)) {
                    return None;
                }
                if w == "both" {
                    if let Some(e) = self.phrase(
                        i,
                        "both of? these|the? particles|blocks|bodies|masses|trucks|crates|objects|boxes",
                    ) {
                        self.glue(i, e);
                        return Some(self.all_np(e));
                    }
                    if !verbs::starts_clause(self.w(i + 1)) && !matches!(self.w(i + 1), "," | "" | ".") {
                        return None;
                    }
                }
                let many = if self.latest.len() > 1 {
                    self.latest.clone()
                } else {
                    (0..self.story.bodies.len()).collect()
                };
                if many.is_empty() {
                    return None;
                }
                (many, i + 1)
            }
            "the"
                if self
                    .phrase(i, "the two|three|four")
                    .is_some_and(|e| verbs::starts_clause(self.w(e)) || self.w(e) == "being") =>
            {
                let many = if self.latest.len() > 1 {
                    self.latest.clone()
                } else {
                    self.pair
                        .map(|(x, y)| vec![x, y])
                        .unwrap_or_else(|| (0..self.story.bodies.len()).collect())
                };
                (many, i + 2)
            }
            "that" | "the"
                if self
                    .phrase(i, "that which follows")
                    .or_else(|| self.phrase(i, "the one which follows|behind"))
                    .or_else(|| self.phrase(i, "the one behind"))
                    .is_some() =>
            {
                let end = self
                    .phrase(i, "that which follows")
                    .or_else(|| self.phrase(i, "the one which follows|behind"))
                    .or_else(|| self.phrase(i, "the one behind"))?;
                (vec![self.story.bodies.len().checked_sub(1)?], end)
            }
            "his" | "her" if matches!(self.w(i + 1), "feet" | "shoes" | "body") => {
                let found = people();
                if found.len() != 1 {
                    return None;
                }
                (found, i + 2)
            }
            "he" | "she" | "him" | "her" => {
                let found = people();
                if found.len() != 1 {
                    return None;
                }
                (found, i + 1)
            }
            "each" | "either"
                if verbs::starts_clause(self.w(i + 1))
                    || matches!(self.w(i + 1), "of" | "" | "," | "has" | "other") =>
            {
                if self.w(i + 1) == "other"
                    || self.w(i + 1) == "of" && matches!(self.w(i + 2), "mass" | "masses" | "total")
                {
                    return None;
                }
                let mut end = i + 1;
                if let Some(e) = self.phrase(i + 1, "of the|these|those|them") {
                    // Each of the three trucks; each of the strings is no body.
                    let k = self.skip(e);
                    let k = if in_words(self.w(k)).is_some() { self.skip(k + 1) } else { k };
                    end = match noun(self.w(k)) {
                        Some(Noun::Body(_)) if plural(self.w(k)) => k + 1,
                        Some(_) if plural(self.w(k)) => return None,
                        _ => e,
                    };
                }
                let many = if self.latest.len() > 1 {
                    self.latest.clone()
                } else {
                    (0..self.story.bodies.len()).collect()
                };
                (many, end)
            }
            _ => return None,
        };
        self.glue(i, end);
        Some(Np { what: Ref::Bodies(bodies), end })
    }

    /// `One passes over ..., the other passes over ...`, `each passes over`: said of strings, as the verb shows.
    fn string_pronoun(&mut self, i: usize) -> Option<Np> {
        let end = self
            .phrase(i, "one|each|both|they|these")
            .or_else(|| self.phrase(i, "the other|first|second"))?;
        if verbs::frame(self.w(end)) != Some(verbs::Frame::Pass) {
            return None;
        }
        let noun = self.story.links.last()?.noun.clone();
        let alike: Vec<usize> =
            self.story.links.iter().enumerate().filter(|(_, l)| l.noun == noun).map(|(n, _)| n).collect();
        let [first, second] = alike.as_slice() else { return None };
        let links = match self.w(end - 1) {
            "each" | "both" | "they" | "these" => alike.clone(),
            "one" | "first" => vec![*first],
            _ => vec![*second],
        };
        self.link.clone_from(&links);
        self.glue(i, end);
        Some(Np { what: Ref::Links(links), end })
    }

    fn all_np(&mut self, end: usize) -> Np {
        Np { what: Ref::Bodies((0..self.story.bodies.len()).collect()), end }
    }
}
