//! Noun phrases: introduces the things of the question and finds again those already named.
//!
//! A phrase is read in two steps: its [front](front) (articles, numbers, adjectives, the head noun) without touching the
//! story, then by the sort of its head a reader that makes the thing or finds it.

mod bodies;
mod ends;
mod find;
mod front;
mod labels;
mod links;
pub(crate) mod listed;
mod masses;
mod new;
mod pronouns;
mod slopes;
mod surfaces;

use crate::adjective::{Tells, adjective};
use crate::lexicon::{Noun, noun, singular};
use crate::reader::{DEEPEST, Reader};
use crate::story::Amount;
use crate::verbs;
use exact::Dimension;
use model::Form;

/// What a noun phrase points at.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Ref {
    Bodies(Vec<usize>),
    Links(Vec<usize>),
    Pulleys(Vec<usize>),
    Surface(usize),
    /// One or both ends of links.
    Ends(Vec<usize>),
    /// The floor of a lift.
    Floor(usize),
    /// Everything together.
    System,
    /// Something that the lexicon does not know: its last word.
    Thing,
}

/// A noun phrase.
#[derive(Clone, Debug)]
pub(crate) struct Np {
    pub what: Ref,
    /// The place after it.
    pub end: usize,
}

/// The words before the head of a noun phrase.
#[derive(Default, Clone)]
struct Front {
    definite: bool,
    indefinite: bool,
    each: bool,
    count: Option<usize>,
    tells: Vec<(usize, Tells)>,
    mass: Option<Amount>,
    angle: Option<Amount>,
    head: usize,
    known: Option<Noun>,
    end: usize,
    word: String,
}

impl Front {
    /// A train that is introduced as a body with a mass of its own.
    fn is_new_train(&self) -> bool {
        self.indefinite && self.word == "train"
    }
}

impl Reader<'_> {
    /// Noun phrases joined by commas and "and", as one reference if they are of one sort. With `object`,
    /// a phrase that starts a clause of its own is left alone.
    pub(crate) fn nps(&mut self, i: usize, object: bool) -> Option<Np> {
        let first = self.np(i)?;
        let Ref::Bodies(mut all) = first.what.clone() else { return Some(first) };
        let mut end = first.end;
        let mut group = all.clone();
        for _ in 0..8 {
            if let Some(e) = self.mass_within(&all, end) {
                end = e;
            }
            let mut next = self.skip(end);
            let comma = self.w(next) == ",";
            if comma {
                next = self.skip(next + 1);
            }
            let and = matches!(self.w(next), "and" | "&");
            if and {
                next = self.skip(next + 1);
            }
            let again = and && matches!(self.w(next), "of" | "on" | "to");
            if again && self.body_starts(self.skip(next + 1)) {
                next = self.skip(next + 1);
            }
            if !(and || comma) || !self.body_starts(next) {
                break;
            }
            if object && comma && and && all.len() == 1 {
                break;
            }
            if and
                && (next..next + 4).any(|k| {
                    matches!(self.w(k), "it" | "they" | "he" | "she")
                        && matches!(self.w(k + 1), "carries" | "carry" | "holds" | "contains" | "wears")
                })
            {
                break;
            }
            if self.w(next) == "its"
                || self.w(next) == "the" && self.phrase(next, "the other").is_some() && object
            {
                break;
            }
            // Look before creating anything.
            let label_alone = |f: &Front| again && f.known.is_none() && self.labels(next).is_some();
            let Some(peek) = self.front(next).filter(|f| !label_alone(f)) else {
                if let Some((labels, e)) = self.labels(next) {
                    if object && verbs::starts_clause(self.w(self.skip(e))) {
                        break;
                    }
                    let known: Vec<usize> = labels.iter().filter_map(|l| self.by_label(l)).collect();
                    if known.len() != labels.len() {
                        break;
                    }
                    self.glue(end, next);
                    all.extend(known);
                    end = e;
                    self.glue(next, e);
                    continue;
                }
                break;
            };
            let peek_end = self.labels_after(peek.end).1;
            // "rests in the pan, and a block Y of mass 1 kg rests on": a clause of its own.
            let peek_end = self.masses_after(peek_end, false).map_or(peek_end, |(_, e, _)| e);
            if !matches!(peek.known, Some(Noun::Body(_)))
                || (object && !again && verbs::starts_clause(self.w(self.skip(peek_end))))
            {
                break;
            }
            if comma && !and && object {
                break;
            }
            let Some(np) = self.np(next) else { break };
            if np.what == Ref::Thing
                && self.story.included.contains(&singular(self.w(np.end.wrapping_sub(1))))
            {
                self.glue(end, np.end);
                end = np.end;
                continue;
            }
            let Ref::Bodies(more) = np.what else { break };
            self.glue(end, next);
            group.clone_from(&more);
            for b in more {
                if !all.contains(&b) {
                    all.push(b);
                }
            }
            end = np.end;
        }
        // The mass of the last of them, where those before have theirs: ", and two coaches, each of mass 2000 kg".
        let told = |r: &Self, b: usize| r.story.bodies.get(b).is_some_and(|b| b.mass.is_some());
        if all.len() > group.len()
            && !group.iter().any(|&b| told(self, b))
            && all.iter().any(|&b| told(self, b))
            && let Some((amounts, e, each)) =
                self.masses_after(end, false).filter(|m| m.0.len() == 1 || m.0.len() == group.len() && !m.2)
            && (group.len() > 1 || !each)
        {
            self.set_mass(&group, &amounts);
            let names = self.names(&group);
            self.told(end, e, format!("the mass of {names}"));
            end = e;
            if self.w(self.skip(e)) == "," && verbs::starts_clause(self.w(self.skip(self.skip(e) + 1))) {
                end = self.skip(e) + 1;
            }
        }
        if let [x, y] = all.as_slice() {
            self.pair = Some((*x, *y));
        }
        self.latest.clone_from(&all);
        Some(Np { what: Ref::Bodies(all), end })
    }

    /// `a particle P of mass 4 kg and a particle Q of mass 3 kg`: the mass before the "and".
    fn mass_within(&mut self, bodies: &[usize], end: usize) -> Option<usize> {
        let last = *bodies.last()?;
        if self.story.bodies.get(last)?.mass.is_some() {
            return None;
        }
        let (amounts, mut e, _) = self.masses_after(end, false)?;
        if amounts.len() != 1 {
            return None;
        }
        if self.w(self.skip(end)) == "," && self.w(self.skip(e)) == "," {
            e = self.skip(e) + 1;
        }
        let next = self.skip(e);
        if !matches!(self.w(next), "and" | "&") || !self.body_starts(self.skip(next + 1)) {
            return None;
        }
        self.set_mass(&[last], &amounts);
        let name = self.name(last);
        self.told(end, e, format!("the mass of {name}"));
        Some(e)
    }

    /// May a phrase about a body start here?
    pub(crate) fn body_starts(&self, i: usize) -> bool {
        let w = self.w(i);
        matches!(w, "a" | "an" | "the" | "each" | "another" | "its" | "that" | "his")
            || self.tok(i).is_some_and(|t| t.label())
            || adjective(w).is_some()
            || noun(w).is_some()
    }

    /// A noun phrase at `i`; things it introduces join the story.
    pub(crate) fn np(&mut self, i: usize) -> Option<Np> {
        if self.depth >= DEEPEST {
            return None;
        }
        self.depth += 1;
        let np = self.np_at(self.skip(i));
        self.depth -= 1;
        np
    }

    fn np_at(&mut self, i: usize) -> Option<Np> {
        if let Some(np) = self.pronoun(i) {
            return Some(np);
        }
        if let Some(np) = self.ends(i) {
            return Some(np);
        }
        if let Some(np) = self.floor(i) {
            return Some(np);
        }
        if let Some(np) = self.by_masses(i) {
            return Some(np);
        }
        if let Some((labels, end)) = self.labels(i) {
            let known: Vec<usize> = labels.iter().filter_map(|l| self.by_label(l)).collect();
            if known.len() == labels.len() {
                self.glue(i, end);
                return Some(self.bodies_np(known, end));
            }
            // P, Q and R where only the first is known: take what is known.
            if let Some(&first) = known.first()
                && self.by_label(labels.first().map_or("", String::as_str)) == Some(first)
            {
                self.glue(i, i + 1);
                return Some(self.bodies_np(vec![first], i + 1));
            }
            return None;
        }
        let front = self.front(i)?;
        match front.known {
            Some(Noun::Body(form)) => self.body_np(i, &front, form),
            Some(Noun::Link(holds)) => self.link_np(i, &front, holds),
            Some(Noun::Pulley) => self.pulley_np(i, &front),
            Some(Noun::Surface { slopes }) => self.surface_np(i, &front, slopes),
            Some(Noun::System)
                if (front.is_new_train() || self.story.bodies.iter().any(|b| b.noun == front.word))
                    && (self.masses_after(front.end, false).is_some()
                        || self.story.bodies.iter().any(|b| b.noun == front.word)) =>
            {
                self.body_np(i, &front, Form::Trailer)
            }
            Some(Noun::System) => {
                self.glue(i, front.end);
                Some(Np { what: Ref::System, end: front.end })
            }
            None => self.unknown_np(i, &front),
        }
    }

    /// `the 2 kg and 3 kg masses`: bodies told by their masses.
    fn by_masses(&mut self, i: usize) -> Option<Np> {
        let at = self.phrase(i, "the")?;
        let (amounts, end) = self.amounts(at, Some(Dimension::MASS))?;
        let end = if self.w(end) == "-" { end + 1 } else { end };
        if amounts.len() < 2 || !matches!(noun(self.w(end)), Some(Noun::Body(_))) {
            return None;
        }
        let ids: Vec<usize> = amounts
            .iter()
            .filter_map(|a| {
                self.story.bodies.iter().position(|b| b.mass.as_ref().is_some_and(|m| m.value == a.value))
            })
            .collect();
        if ids.len() != amounts.len() {
            return None;
        }
        self.told(i, end + 1, "told apart by their masses");
        Some(self.bodies_np(ids, end + 1))
    }

    fn bodies_np(&mut self, bodies: Vec<usize>, end: usize) -> Np {
        if let [x, y] = bodies.as_slice() {
            self.pair = Some((*x, *y));
        }
        if let (Some(&old), [new]) = (self.latest.first(), bodies.as_slice())
            && old != *new
            && self.latest.len() == 1
        {
            self.pair = Some((old, *new));
        }
        self.latest.clone_from(&bodies);
        Np { what: Ref::Bodies(bodies), end }
    }
}
