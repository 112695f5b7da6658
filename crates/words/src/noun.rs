//! Noun phrases: introduces the things of the question and finds again those already named.

use crate::adjective::{Tells, adjective};
use crate::lexicon::{self, Noun, noun, plural, singular};
use crate::reader::Reader;
use crate::story::*;
use crate::verbs;
use exact::Dimension;
use model::{Diagnostic, Form, Holds, Refusal};

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

/// A train that is introduced as a body with a mass of its own.
fn f_train(front: &Front) -> bool {
    front.indefinite && front.word == "train"
}

impl Reader<'_> {
    /// Noun phrases joined by commas and "and", as one reference if they are of one sort. With `object`,
    /// a phrase that starts a clause of its own is left alone.
    pub(crate) fn nps(&mut self, i: usize, object: bool) -> Option<Np> {
        let first = self.np(i)?;
        let Ref::Bodies(mut all) = first.what.clone() else { return Some(first) };
        let mut end = first.end;
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
            let Some(peek) = self.front(next) else {
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
            for b in more {
                if !all.contains(&b) {
                    all.push(b);
                }
            }
            end = np.end;
        }
        // The mass of the last of them, where those before have theirs.
        if let (Some(&last), true) = (all.last(), all.len() > 1) {
            let told = |b: usize| self.story.bodies.get(b).is_some_and(|b| b.mass.is_some());
            if !told(last)
                && all.iter().any(|&b| told(b))
                && let Some((amounts, e, false)) = self.masses_after(end, false).filter(|m| m.0.len() == 1)
            {
                self.set_mass(&[last], &amounts);
                let name = self.name(last);
                self.told(end, e, format!("the mass of {name}"));
                end = e;
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
    fn body_starts(&self, i: usize) -> bool {
        let w = self.w(i);
        matches!(w, "a" | "an" | "the" | "each" | "another" | "its" | "that" | "his")
            || self.tok(i).is_some_and(|t| t.label())
            || adjective(w).is_some()
            || noun(w).is_some()
    }

    /// A noun phrase at `i`; things it introduces join the story.
    pub(crate) fn np(&mut self, i: usize) -> Option<Np> {
        let i = self.skip(i);
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
                if (f_train(&front) || self.story.bodies.iter().any(|b| b.noun == front.word))
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

    fn pronoun(&mut self, i: usize) -> Option<Np> {
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
                if self.w(i + 1) == "other" {
                    return None;
                }
                let mut end = i + 1;
                if let Some(e) = self.phrase(
                    i + 1,
                    "of the|these|them particles|blocks|bodies|masses|trucks|crates|objects|boxes|wagons?",
                ) {
                    end = e;
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

    fn all_np(&mut self, end: usize) -> Np {
        Np { what: Ref::Bodies((0..self.story.bodies.len()).collect()), end }
    }

    /// `one end of the string`, `its other end`, `the ends`.
    fn ends(&mut self, i: usize) -> Option<Np> {
        let mut at = i;
        for _ in 0..4 {
            if matches!(
                self.w(at),
                "the"
                    | "one"
                    | "each"
                    | "either"
                    | "its"
                    | "other"
                    | "two"
                    | "opposite"
                    | "both"
                    | "free"
                    | "lower"
                    | "upper"
                    | "a"
                    | "second"
                    | "first"
                    | "far"
            ) {
                at = self.skip(at + 1);
            }
        }
        if !matches!(self.w(at), "end" | "ends" | "extremity" | "extremities") {
            return None;
        }
        at += 1;
        if self.w(self.skip(at)) == "of" {
            let of = self.skip(at) + 1;
            match self.front(self.skip(of)).map(|f| f.known) {
                Some(Some(Noun::Link(_))) => {
                    let np = self.np(of)?;
                    if let Ref::Links(links) = np.what {
                        self.glue(i, of);
                        return Some(Np { what: Ref::Ends(links), end: np.end });
                    }
                    return None;
                }
                // The end of a bench is a place.
                Some(Some(Noun::Surface { .. })) => return None,
                _ if self.phrase(of, "it|this").is_some() => {
                    self.glue(i, of + 1);
                    return Some(Np { what: Ref::Ends(self.link.clone()), end: of + 1 });
                }
                _ => return None,
            }
        }
        if self.link.is_empty() {
            return None;
        }
        self.glue(i, at);
        Some(Np { what: Ref::Ends(self.link.clone()), end: at })
    }

    /// `the floor of the lift`, `its floor`, `the floor` inside a lift.
    fn floor(&mut self, i: usize) -> Option<Np> {
        let mut at = i;
        while matches!(self.w(at), "the" | "its" | "a" | "horizontal" | "level" | "flat") {
            at = self.skip(at + 1);
        }
        let scale = self
            .phrase(at, "set of bathroom? scales")
            .or_else(|| self.phrase(at, "bathroom|spring|weighing? scale|scales|balance|machine"))
            .filter(|_| matches!(self.w(at), "scale" | "scales" | "bathroom" | "weighing" | "set"));
        if let Some(e) = scale {
            at = e - 1;
        } else if !matches!(self.w(at), "floor" | "base") {
            return None;
        }
        let after = self.skip(at + 1);
        let lifts: Vec<usize> = self
            .story
            .bodies
            .iter()
            .enumerate()
            .filter(|(_, b)| b.form == Form::Lift)
            .map(|(n, _)| n)
            .collect();
        if self.w(after) == "of" {
            let front = self.front(self.skip(after + 1))?;
            if front.known == Some(Noun::Body(Form::Lift)) {
                let np = self.np(after + 1)?;
                if let Ref::Bodies(b) = np.what {
                    let lift = *b.first()?;
                    self.told(i, after + 1, "the floor pushes up on what stands on it: a normal reaction");
                    return Some(Np { what: Ref::Floor(lift), end: np.end });
                }
            }
            return None;
        }
        let &lift = lifts.first()?;
        self.told(i, at + 1, "the floor pushes up on what stands on it: a normal reaction");
        Some(Np { what: Ref::Floor(lift), end: at + 1 })
    }

    /// Labels at `i`: `A`, `P and Q`, `A, B and C`. The article `A` is told apart by what follows.
    pub(crate) fn labels(&self, i: usize) -> Option<(Vec<String>, usize)> {
        let first = self.tok(i)?;
        if !first.label() || !self.label_here(i) {
            return None;
        }
        let mut list = vec![crate::amount::plain_index(&first.text)];
        let mut at = i + 1;
        for _ in 0..10 {
            let mut next = self.skip(at);
            let mut joined = false;
            while matches!(self.w(next), "," | "and" | "&") {
                joined = true;
                next = self.skip(next + 1);
            }
            let Some(t) = self.tok(next) else { break };
            if !joined || !t.label() || !self.label_here(next) {
                break;
            }
            // "A and B is joined" cannot be: a lone verb after the second label starts its own clause.
            if self.w(at) == ","
                && self.w(self.skip(at + 1)) == "and"
                && list.len() == 1
                && matches!(
                    self.w(self.skip(next + 1)),
                    "is" | "has" | "hangs" | "lies" | "rests" | "moves" | "carries"
                )
            {
                break;
            }
            if list.len() == 1
                && self.w(at) == "and"
                && matches!(
                    self.w(self.skip(next + 1)),
                    "is" | "has" | "hangs" | "lies" | "rests" | "moves" | "carries"
                )
            {
                break;
            }
            list.push(crate::amount::plain_index(&t.text));
            at = next + 1;
        }
        Some((list, at))
    }

    fn label_here(&self, i: usize) -> bool {
        let Some(t) = self.tok(i) else { return false };
        if t.text != "A" && t.text != "I" {
            return true;
        }
        let next = self.w(self.skip(i + 1));
        next.is_empty()
            || lexicon::glue(next) && !matches!(next, "same" | "other" | "-")
            || verbs::starts_clause(next)
            || matches!(next, "of" | "rises" | "when" | "up" | "respectively")
    }

    pub(crate) fn by_label(&self, label: &str) -> Option<usize> {
        self.story.bodies.iter().position(|b| b.label.as_deref() == Some(label))
    }

    /// The determiner, adjectives and head of a noun phrase. Changes nothing.
    fn front(&self, i: usize) -> Option<Front> {
        let mut f = Front::default();
        let mut at = self.skip(i);
        match self.w(at) {
            "the" | "its" | "their" | "this" | "these" | "his" | "her" | "your" => {
                f.definite = true;
                at += 1;
            }
            "that" | "those" => {
                f.definite = true;
                at += 1;
                if self.tok(self.skip(at)).is_some_and(|t| lexicon::glue(&t.lower)) {
                    return None;
                }
            }
            "a" | "an" => {
                f.indefinite = true;
                at += 1;
            }
            "another" => {
                f.indefinite = true;
                f.tells.push((at, Tells::Other));
                at += 1;
            }
            "each" | "every" | "either" | "both" => {
                f.each = true;
                at += 1;
                if self.w(at) == "of" {
                    at += 1;
                }
                if self.w(at) == "the" {
                    at += 1;
                }
            }
            _ => {}
        }
        let mut head = None;
        for _ in 0..9 {
            at = self.skip(at);
            let w = self.w(at);
            let Some(t) = self.tok(at) else { break };
            if let Some(n) = crate::amount::in_words(w).filter(|_| head.is_none() && f.count.is_none()) {
                if self.unit(at + 1).is_some() {
                    break;
                }
                f.count = usize::try_from(n).ok();
                at += 1;
                continue;
            }
            if t.number().is_some()
                && f.tells.last().is_some_and(|(_, t)| matches!(t, Tells::Former | Tells::Latter))
            {
                break;
            }
            if t.number().is_some() && head.is_none() {
                if let Some((amount, end)) = self.amount(at, false) {
                    if amount.dimension == Some(Dimension::ANGLE) {
                        f.angle = Some(amount);
                        at = if self.w(end) == "-" { end + 1 } else { end };
                        continue;
                    }
                    if amount.dimension == Some(Dimension::MASS) && f.mass.is_none() {
                        f.mass = Some(amount);
                        at = end;
                        continue;
                    }
                }
                break;
            }
            if matches!(
                w,
                "stretch" | "section" | "portion" | "length" | "piece" | "strip" | "reach" | "patch" | "line"
            ) && self.w(at + 1) == "of"
                && head.is_none()
                && self.phrase(at, "line of greatest").is_none()
            {
                let mut of = at + 2;
                if matches!(self.w(of), "the" | "a" | "an" | "this") {
                    of += 1;
                }
                if self.surface_ahead(of) {
                    at = of;
                    continue;
                }
            }
            if w == "'s" && head.is_some() {
                head = None;
                f.known = None;
                at += 1;
                continue;
            }
            if !t.is_word() || (t.label() && head.is_some()) {
                if w == ","
                    && head.is_none()
                    && f.tells.last().is_some_and(|(p, _)| p + 1 == at)
                    && adjective(self.w(self.skip(at + 1))).is_some()
                {
                    at += 1;
                    continue;
                }
                break;
            }
            if let Some(tells) = adjective(w).filter(|_| {
                noun(w).is_none()
                    || noun(self.w(self.skip(at + 1))).is_some()
                    || adjective(self.w(self.skip(at + 1))).is_some()
            }) {
                if head.is_some() {
                    break;
                }
                f.tells.push((at, tells));
                at += 1;
                // "light and inextensible"
                if self.w(at) == "and" && adjective(self.w(at + 1)).is_some() {
                    at += 1;
                }
                continue;
            }
            if w == "air" && self.w(at + 1) == "track" {
                f.tells.push((at, Tells::Smooth));
                at += 1;
                continue;
            }
            if matches!(w, "tow" | "towing")
                && matches!(self.w(at + 1), "bar" | "rod" | "rope" | "cable" | "hitch" | "chain" | "bars")
            {
                at += 1;
                continue;
            }
            if matches!(noun(w), Some(Noun::Body(_)))
                && crate::place_words::is_place(self.w(self.skip(at + 1)))
                && noun(self.w(self.skip(at + 1))).is_none()
            {
                // A boat shed is no boat.
                at += 1;
                continue;
            }
            if noun(w) == Some(Noun::Body(Form::Lift))
                && matches!(self.w(at + 1), "car" | "cab" | "cage" | "compartment")
            {
                head = Some(at + 1);
                f.known = noun(w);
                f.word = w.to_owned();
                at += 2;
                continue;
            }
            if let Some(n) = noun(w) {
                // "the string runs", "a lift carries": a noun; "it lifts" is no noun here.
                head = Some(at);
                f.known = Some(n);
                f.word = w.to_owned();
                at += 1;
                continue;
            }
            if lexicon::glue(w) || verbs::is_verb(w) || crate::quantity::quantity_word(w) {
                break;
            }
            if head.is_some() {
                // An unknown word after a known noun belongs to it only if another known noun follows.
                if noun(self.w(self.skip(at + 1))).is_some()
                    && !w.ends_with("ing")
                    && !w.ends_with("ed")
                    && !w.ends_with('s')
                {
                    at += 1;
                    continue;
                }
                break;
            }
            f.word = w.to_owned();
            at += 1;
            if f.known.is_none() {
                f.head = at - 1;
            }
        }
        if let Some(h) = head {
            f.head = h;
            f.end = h + 1;
        } else {
            if f.word.is_empty() {
                // "the former", "the heavier", "the other"
                let only = f.tells.last().copied();
                if let (
                    true,
                    Some((
                        p,
                        Tells::Former
                        | Tells::Latter
                        | Tells::Heavier
                        | Tells::Lighter
                        | Tells::Other
                        | Tells::Nth(_),
                    )),
                ) = (
                    f.definite && (!matches!(only, Some((_, Tells::Nth(_)))) || self.story.bodies.len() > 1),
                    only,
                ) {
                    f.head = p;
                    f.end = p + 1;
                    f.known = Some(Noun::Body(Form::Particle));
                    return Some(f);
                }
                return None;
            }
            f.end = f.head + 1;
        }
        Some(f)
    }

    /// Is the next noun, adjectives apart, a surface?
    pub(crate) fn surface_ahead(&self, i: usize) -> bool {
        let mut at = self.skip(i);
        if matches!(self.w(at), "the" | "a" | "an" | "this") {
            at = self.skip(at + 1);
        }
        for _ in 0..5 {
            match noun(self.w(at)) {
                Some(Noun::Surface { .. }) => return true,
                Some(_) => return false,
                None if self.tok(at).is_some_and(|t| t.is_word() && !lexicon::glue(&t.lower)) => {
                    at = self.skip(at + 1)
                }
                None => return false,
            }
        }
        false
    }

    /// Notes the adjectives of a phrase; those that tell the mechanics something are explained.
    fn note_front(&mut self, i: usize, f: &Front, about: &str) {
        self.glue(i, f.end);
        for (at, tells) in f.tells.clone() {
            let means = match tells {
                Tells::Light => {
                    format!("{about} is light: ignore its mass, so its tension is the same all along")
                }
                Tells::Smooth if about == "the pulley" => {
                    "the pulley is smooth: the tension is the same on both sides".to_owned()
                }
                Tells::Smooth => format!("{about} is smooth: no friction"),
                Tells::Rough => format!("{about} is rough: friction acts, up to μR"),
                Tells::Inextensible => {
                    format!("{about} does not stretch: what it joins has one size of acceleration")
                }
                Tells::Level => "level: the weight has no part along the motion".to_owned(),
                Tells::Vertical => "vertical: forces act straight up and down".to_owned(),
                Tells::Sloping => "on a slope: the weight has a part down the slope".to_owned(),
                Tells::Rigid => "rigid: it can push as well as pull".to_owned(),
                Tells::Fixed => "it does not move".to_owned(),
                _ => continue,
            };
            self.told(at, at + 1, means);
        }
    }

    fn has(f: &Front, tells: Tells) -> bool {
        f.tells.iter().any(|(_, t)| *t == tells)
    }

    // ---------------------------------------------------------------- bodies

    fn body_np(&mut self, i: usize, f: &Front, form: Form) -> Option<Np> {
        let word = if f.word.is_empty() { self.w(f.head).to_owned() } else { f.word.clone() };
        let generic = matches!(singular(&word).as_str(), "mass" | "weight" | "load");
        if generic && !self.mass_is_body(f) {
            return None;
        }
        let one = singular(&word);
        // The engine of the lorry is the lorry, as far as forces go.
        if one == "engine" && self.w(self.skip(f.end)) == "of" {
            let of = self.skip(f.end) + 1;
            if matches!(
                self.front(of).map(|g| g.known),
                Some(Some(Noun::Body(Form::Vehicle | Form::Trailer)))
            ) {
                self.glue(i, of);
                return self.np(of);
            }
            if let Some((labels, _)) = self.labels(of)
                && labels.iter().all(|l| self.by_label(l).is_some())
            {
                self.glue(i, of);
                return self.np(of);
            }
        }
        let mut f = f.clone();
        // The cage of a hoist, the cab of the elevator: one thing.
        if form == Form::Lift && self.w(self.skip(f.end)) == "of" {
            let of = self.skip(f.end) + 1;
            if let Some(g) = self.front(of).filter(|g| g.known == Some(Noun::Body(Form::Lift))) {
                self.glue(f.end, g.end);
                f.end = g.end;
            }
        }
        let f = &f;
        let mut end = f.end;
        let (mut labels, mut label_end) = self.labels_after(f.end);
        // "a mass M": the letter is the size of the mass, not a label.
        let letter_mass = one == "mass"
            && labels.len() == 1
            && f.indefinite
            && self.masses_after(label_end, false).is_none();
        if letter_mass {
            labels.clear();
            label_end = f.end;
        }
        let new = f.indefinite || f.count.is_some() && !f.definite;
        let known_labels: Vec<usize> = labels.iter().filter_map(|l| self.by_label(l)).collect();
        if !labels.is_empty() && known_labels.len() == labels.len() {
            self.note_front(i, f, "it");
            self.glue(f.end, label_end);
            return Some(self.bodies_np(known_labels, label_end));
        }
        if !new && !labels.is_empty() && known_labels.is_empty() {
            // "Two carts ... Cart A": the label is told only now.
            let bare: Vec<usize> = self
                .story
                .bodies
                .iter()
                .enumerate()
                .filter(|(_, b)| b.noun == one && b.label.is_none())
                .map(|(n, _)| n)
                .collect();
            if bare.len() >= labels.len() {
                let ids: Vec<usize> = bare.into_iter().take(labels.len()).collect();
                for (&id, l) in ids.iter().zip(&labels) {
                    if let Some(b) = self.story.bodies.get_mut(id) {
                        b.label = Some(l.clone());
                        b.order = None;
                    }
                }
                self.glue(i, label_end);
                return Some(self.bodies_np(ids, label_end));
            }
        }
        if !new && labels.is_empty() {
            if self.story.included.contains(&one) && !f.indefinite {
                self.glue(i, f.end);
                return Some(Np { what: Ref::Thing, end: f.end });
            }
            if one == "engine"
                && f.definite
                && !self.story.bodies.iter().any(|b| b.noun == "engine")
                && self.masses_after(f.end, false).is_none()
                && let Some(d) = self.driver()
            {
                self.glue(i, f.end);
                return Some(self.bodies_np(vec![d], f.end));
            }
            let told_apart = f.tells.iter().any(|(_, t)| matches!(t, Tells::Former | Tells::Latter));
            let mut found = self.find_bodies(f, &one, form);
            let told_weight = f.tells.iter().find_map(|(_, t)| match t {
                Tells::Heavier => Some(true),
                Tells::Lighter => Some(false),
                _ => None,
            });
            if let (None, Some(heavy), true) = (&found, told_weight, f.definite) {
                let pool: Vec<usize> = self
                    .story
                    .bodies
                    .iter()
                    .enumerate()
                    .filter(|(_, b)| {
                        (b.noun == one || f.word.is_empty() || generic)
                            && b.heavier.is_none()
                            && b.mass.is_none()
                    })
                    .map(|(n, _)| n)
                    .collect();
                if let ([a, b], 2) = (pool.as_slice(), self.story.bodies.len()) {
                    let (mine, other) = (*a, *b);
                    for (k, h) in [(mine, heavy), (other, !heavy)] {
                        if let Some(body) = self.story.bodies.get_mut(k) {
                            body.heavier = Some(h);
                            body.order = None;
                        }
                    }
                    found = Some(vec![mine]);
                }
            }
            if found.is_none() && (told_apart || f.word.is_empty()) {
                return None;
            }
            if let (Some(found), true) = (found.clone(), told_apart) {
                let pair = self.pair;
                self.glue(i, f.end);
                let np = self.bodies_np(found, f.end);
                self.pair = pair;
                return Some(np);
            }
            if let Some(found) = found {
                self.note_front(i, f, "it");
                if f.mass.is_some() {
                    let name = self.names(&found);
                    self.told(i, f.end, format!("told apart by its mass: {name}"));
                }
                let mut end = f.end;
                // The rope of sand: the sack of sand, named again with its contents.
                if let Some(e) = self.contents(end) {
                    end = e;
                }
                return Some(self.bodies_np(found, end));
            }
        }
        // "One bucket has ..., the other ...", of two that are there already.
        if f.count == Some(1) && labels.is_empty() && !f.indefinite && self.w(i) == "one" {
            let same: Vec<usize> = self
                .story
                .bodies
                .iter()
                .enumerate()
                .filter(|(_, b)| b.noun == one && b.label.is_none())
                .map(|(n, _)| n)
                .collect();
            if same.len() == 2 {
                self.glue(i, f.end);
                let end = self.contents(f.end).unwrap_or(f.end);
                return Some(self.bodies_np(vec![same.first().copied().unwrap_or(0)], end));
            }
        }
        // New bodies.
        let count = f.count.unwrap_or(if labels.len() > 1 {
            labels.len()
        } else if plural(&word) && f.mass.is_none() {
            0
        } else {
            1
        });
        if let Some(e) = self.contents(end) {
            end = e;
            if labels.is_empty() {
                let (l, e2) = self.labels_after(end);
                let fresh: Vec<String> = l.into_iter().filter(|x| self.by_label(x).is_none()).collect();
                if !fresh.is_empty() {
                    labels = fresh;
                    label_end = e2;
                }
            }
        }
        if !labels.is_empty() {
            end = label_end;
        }
        let mut masses = None;
        if count == 0 && labels.is_empty() {
            // "Masses of 2 kg and 4 kg", "Blocks of mass 0.3 kg and 0.6 kg", "Particles of mass m and km".
            masses = self.masses_after(end, true);
            if masses.as_ref().is_some_and(|m| m.2) {
                let d =
                    Diagnostic::refuse(Refusal::Incomplete, format!("how many {word} there are is not said"))
                        .at(self.span(i, end))
                        .hint("say, for example: two trucks, each of mass 600 kg");
                self.diagnostics.push(d);
            }
        } else if generic && self.w(end) == "of" {
            masses = self.amounts(end + 1, Some(Dimension::MASS)).map(|(a, e)| (a, e, false));
        } else if letter_mass {
            masses = self.amount(f.end, true).map(|(a, e)| (vec![a], e, false));
        }
        let n = if count > 0 {
            count.max(labels.len())
        } else {
            masses.as_ref().map_or(0, |m| m.0.len()).max(labels.len())
        };
        if n == 0 || n > 60 {
            // Bare plural with nothing to count: not a body we know.
            if f.each || generic || matches!(form, Form::Particle) {
                return None;
            }
            if !f.definite {
                self.glue(i, end);
                return Some(Np { what: Ref::Thing, end });
            }
            // The sacks, taken together as one body.
            let id = self.story.bodies.len();
            let span = self.span(i, end);
            self.story.bodies.push(BodyTold {
                noun: word,
                label: None,
                order: None,
                form,
                mass: None,
                on: None,
                hangs: false,
                span,
                heavier: None,
            });
            self.told(i, end, "taken together as one body");
            return Some(self.bodies_np(vec![id], end));
        }
        if f.count.is_some_and(|c| !labels.is_empty() && c != labels.len()) {
            let d = Diagnostic::refuse(
                Refusal::Contradictory,
                "the number of bodies and their letters do not agree",
            )
            .at(self.span(i, end))
            .hint("give each body a letter, or none");
            self.diagnostics.push(d);
        }
        let mut ids = Vec::new();
        let same_noun = self.story.bodies.iter().filter(|b| b.noun == one && b.label.is_none()).count();
        let span = self.span(i, end);
        for k in 0..n {
            let id = self.story.bodies.len();
            if id >= 60 {
                break;
            }
            let nth = f.tells.iter().find_map(|(_, t)| if let Tells::Nth(n) = t { Some(*n) } else { None });
            self.story.bodies.push(BodyTold {
                noun: one.clone(),
                label: labels.get(k).cloned(),
                order: (n > 1 && labels.is_empty())
                    .then_some(same_noun + k)
                    .or(nth)
                    .or((same_noun > 0 && labels.is_empty()).then_some(same_noun)),
                form,
                mass: None,
                on: None,
                hangs: Self::has(f, Tells::Hanging),
                span,
                heavier: if Self::has(f, Tells::Heavier) {
                    Some(true)
                } else if Self::has(f, Tells::Lighter) {
                    Some(false)
                } else {
                    None
                },
            });
            ids.push(id);
        }
        if labels.is_empty() && same_noun > 0 {
            for b in self.story.bodies.iter_mut() {
                if b.noun == one && b.label.is_none() && b.order.is_none() && b.heavier.is_none() {
                    b.order = Some(0);
                }
            }
        }
        let text = self.names(&ids);
        let plural_note = if ids.len() > 1 { "bodies" } else { "a body" };
        self.told(
            i,
            end,
            format!(
                "{text}: {plural_note}, treated as {}",
                if ids.len() > 1 { "particles" } else { "a particle" }
            ),
        );
        self.note_front(i, f, "it");
        if let Some(amount) = &f.mass {
            let g = self.given(amount);
            self.set_mass(&ids, std::slice::from_ref(amount));
            let m = amount.written.clone();
            let s = self.toks.iter().position(|t| t.span.start == g.span.start).unwrap_or(i);
            self.told(s, f.end, format!("mass {m}"));
        }
        if let Some((amounts, e, _)) = masses {
            let names = self.names(&ids);
            self.set_mass(&ids, &amounts);
            self.told(end, e, format!("the mass of {names}"));
            end = e;
        }
        let np = self.bodies_np(ids, end);
        Some(np)
    }

    /// Is this "mass" a thing, not a quantity?
    fn mass_is_body(&self, f: &Front) -> bool {
        let after = self.skip(f.end);
        let of_amount = self.w(after) == "of"
            && self.amount(after + 1, true).is_some_and(|(a, _)| {
                a.dimension.is_none_or(|d| d == Dimension::MASS) || a.letters.is_some()
            });
        let modified = f.mass.is_some()
            || f.tells.iter().any(|(_, t)| {
                matches!(
                    t,
                    Tells::Heavier
                        | Tells::Lighter
                        | Tells::Hanging
                        | Tells::Nth(_)
                        | Tells::Other
                        | Tells::Former
                        | Tells::Latter
                        | Tells::Identical
                )
            });
        let named = self.tok(after).is_some_and(|t| t.label()) && (f.indefinite || f.count.is_some());
        let loaded = f.indefinite
            && matches!(f.word.as_str(), "load" | "weight")
            && self.masses_after(f.end, false).is_some();
        let known_label = self.tok(after).is_some_and(|t| t.label() && self.by_label(&t.text).is_some());
        let compound = f.head > 0
            && self
                .tok(f.head - 1)
                .is_some_and(|t| t.is_word() && !lexicon::glue(&t.lower) && adjective(&t.lower).is_none())
            && f.word == "weight";
        let valued = self.value_verb(after).is_some_and(|e| self.amount(e, false).is_some());
        let whole = plural(&f.word)
            && f.definite
            && self.w(after) != "of"
            && !self.story.bodies.is_empty()
            && !valued;
        let again = f.definite
            && self.w(after) != "of"
            && !valued
            && self.story.bodies.iter().any(|b| b.noun == singular(&f.word));
        let pronounced = f.definite && f.each;
        modified
            || named
            || again
            || loaded
            || known_label
            || compound
            || whole
            || pronounced
            || (of_amount && (f.indefinite || f.count.is_some() || plural(&f.word) && !f.definite))
            || (f.each && self.w(after) != "of")
    }

    /// `of timber`, `of sand and water`: what is in it; no mechanics.
    fn contents(&mut self, end: usize) -> Option<usize> {
        let of = self.skip(end);
        if self.w(of) != "of" {
            return None;
        }
        let next = self.skip(of + 1);
        let t = self.tok(next)?;
        if !t.is_word()
            || lexicon::glue(&t.lower)
            || t.label()
            || crate::quantity::quantity_word(&t.lower)
            || adjective(&t.lower).is_some_and(|a| a == Tells::Identical)
        {
            return None;
        }
        if crate::amount::in_words(&t.lower).is_some()
            || matches!(t.lower.as_str(), "negligible" | "total" | "combined" | "unknown" | "magnitude")
            || t.letter().is_some()
        {
            return None;
        }
        self.scene(of, next + 1);
        Some(next + 1)
    }

    /// Labels right after a noun, perhaps set off by a comma: `particles, P and Q,`.
    fn labels_after(&self, i: usize) -> (Vec<String>, usize) {
        let mut at = self.skip(i);
        let comma = matches!(self.w(at), "," | "(");
        let bracket = self.w(at) == "(";
        if comma {
            at = self.skip(at + 1);
        }
        if matches!(self.w(at), "called" | "labelled" | "labeled" | "named") {
            at = self.skip(at + 1);
        }
        let Some((labels, mut end)) = self.labels(at) else { return (Vec::new(), i) };
        // ", A is joined" starts a clause.
        if comma && !bracket && labels.len() == 1 && !matches!(self.w(self.skip(end)), "," | "") {
            return (Vec::new(), i);
        }
        if bracket && self.w(end) == ")" {
            end += 1;
        }
        (labels, end)
    }

    /// Finds bodies that are already known.
    fn find_bodies(&self, f: &Front, one: &str, form: Form) -> Option<Vec<usize>> {
        let bodies = &self.story.bodies;
        if bodies.is_empty() {
            return None;
        }
        let all: Vec<usize> = (0..bodies.len()).collect();
        let generic =
            matches!(one, "mass" | "body" | "object" | "particle" | "block" | "weight" | "load" | "point");
        let word_only = self.tok(f.head).is_some_and(|t| adjective(&t.lower).is_some()) && f.word.is_empty();
        let mut pool: Vec<usize> = bodies
            .iter()
            .enumerate()
            .filter(|(_, b)| b.noun == one || b.noun == f.word)
            .map(|(i, _)| i)
            .collect();
        if pool.is_empty() || word_only {
            if generic || word_only {
                pool = all.clone();
            } else {
                let kin: Vec<usize> = bodies
                    .iter()
                    .enumerate()
                    .filter(|(_, b)| lexicon::same_sort(one, &b.noun, form, b.form))
                    .map(|(i, _)| i)
                    .collect();
                if f.definite && (kin.len() == 1 || plural(&f.word)) {
                    pool = kin;
                }
            }
        }
        if pool.is_empty() && one == "vehicle" && (f.each || plural(&f.word)) {
            pool.clone_from(&all);
        }
        if pool.is_empty() && one == "car" && f.definite {
            pool = bodies.iter().enumerate().filter(|(_, b)| b.form == Form::Lift).map(|(i, _)| i).collect();
        }
        if let Some(m) = &f.mass {
            let found: Vec<usize> = bodies
                .iter()
                .enumerate()
                .filter(|(_, b)| b.mass.as_ref().is_some_and(|g| g.value == m.value))
                .map(|(i, _)| i)
                .collect();
            return (found.len() == 1).then_some(found);
        }
        for (_, tells) in &f.tells {
            match tells {
                Tells::Former => return self.pair.map(|(x, _)| vec![x]),
                Tells::Latter => return self.pair.map(|(_, y)| vec![y]),
                Tells::Nth(n) if !pool.is_empty() => {
                    let found = pool
                        .iter()
                        .copied()
                        .find(|&i| bodies.get(i).is_some_and(|b| b.order == Some(*n)))
                        .or_else(|| pool.get(*n).copied());
                    return found.map(|b| vec![b]);
                }
                Tells::Leading => return pool.first().map(|&b| vec![b]),
                Tells::Last => return pool.last().map(|&b| vec![b]),
                Tells::Hanging => {
                    let found: Vec<usize> =
                        all.iter().copied().filter(|&i| bodies.get(i).is_some_and(|b| b.hangs)).collect();
                    return (found.len() == 1).then_some(found);
                }
                Tells::Other => {
                    let rest: Vec<usize> =
                        pool.iter().copied().filter(|i| !self.latest.contains(i)).collect();
                    if rest.len() == 1 {
                        return Some(rest);
                    }
                    return None;
                }
                Tells::Heavier | Tells::Lighter => {
                    let heavy = *tells == Tells::Heavier;
                    if let Some(i) =
                        all.iter().copied().find(|&i| bodies.get(i).is_some_and(|b| b.heavier == Some(heavy)))
                    {
                        return Some(vec![i]);
                    }
                    let mut known: Vec<(usize, &exact::Value)> = pool
                        .iter()
                        .filter_map(|&i| Some((i, &bodies.get(i)?.mass.as_ref()?.value)))
                        .collect();
                    if known.len() != pool.len() || pool.len() < 2 {
                        return None;
                    }
                    known.sort_by(|a, b| a.1.cmp_exact(b.1).unwrap_or(std::cmp::Ordering::Equal));
                    return if heavy { known.last() } else { known.first() }.map(|k| vec![k.0]);
                }
                _ => {}
            }
        }
        if pool.is_empty() {
            return None;
        }
        if plural(&f.word) || f.each {
            if let Some(n) = f.count
                && pool.len() != n
            {
                return (all.len() == n).then_some(all);
            }
            return Some(pool);
        }
        if pool.len() == 1 {
            return Some(pool);
        }
        // One of several: the one last spoken of.
        let recent: Vec<usize> = pool.iter().copied().filter(|i| self.latest.contains(i)).collect();
        if recent.len() == 1 && f.definite {
            return Some(recent);
        }
        let unordered: Vec<usize> = pool
            .iter()
            .copied()
            .filter(|&i| bodies.get(i).is_some_and(|b| b.order.is_none_or(|o| o == 0) && b.label.is_none()))
            .collect();
        (unordered.len() == 1 && f.definite && bodies.iter().filter(|b| b.noun == one).count() == 1)
            .then_some(unordered)
    }

    /// An unknown noun becomes a body where a mass follows it.
    fn unknown_np(&mut self, i: usize, f: &Front) -> Option<Np> {
        let word = self.w(f.head).to_owned();
        if let Some(id) = self.story.bodies.iter().position(|b| b.noun == singular(&word)) {
            self.glue(i, f.end);
            return Some(self.bodies_np(vec![id], f.end));
        }
        let (_, after) = self.labels_after(f.end);
        let has_mass = self.masses_after(after, false).is_some()
            || self.masses_after(f.end, false).is_some()
            || self.phrase(f.end, "has|have a? mass").is_some();
        if (f.indefinite || f.count.is_some() || f.definite || plural(&word))
            && (has_mass || f.mass.is_some())
            && !lexicon::dangerous(&word)
        {
            return self.body_np(i, f, Form::Block);
        }
        None
    }

    // ---------------------------------------------------------------- links

    fn link_np(&mut self, i: usize, f: &Front, holds: Holds) -> Option<Np> {
        let word = self.w(f.head).to_owned();
        let one = singular(&word);
        if Self::has(f, Tells::Sloping) {
            let d = Diagnostic::refuse(
                Refusal::Unread,
                "a string or bar at an angle to the motion is not followed yet",
            )
            .at(self.span(i, f.end))
            .hint("make it parallel to the motion");
            self.diagnostics.push(d);
        }
        if Self::has(f, Tells::Elastic) || Self::has(f, Tells::Heavy) {
            let what = if Self::has(f, Tells::Elastic) {
                "an elastic string stretches; this tool follows strings that do not"
            } else {
                "a string or rod with a mass of its own is not followed"
            };
            let d = Diagnostic::refuse(Refusal::Unread, what)
                .at(self.span(i, f.end))
                .hint("write: a light inextensible string");
            self.diagnostics.push(d);
        }
        // "tow bar", "tow rope" in two words.
        let noun = if f.head > 0 && matches!(self.w(f.head.wrapping_sub(1)), "tow" | "towing") {
            format!("tow-{one}")
        } else {
            one.clone()
        };
        let holds =
            if matches!(noun.as_str(), "tow-rope" | "tow-cable" | "tow-chain") { Holds::Pull } else { holds };
        let about = format!("the {noun}");
        let mut end = f.end;
        let found = if f.indefinite && !Self::has(f, Tells::Other) || (f.count.is_some() && !f.definite) {
            None
        } else {
            self.find_links(f, &noun)
        };
        if f.indefinite || found.is_none() {
            let count = f.count.unwrap_or(1).min(20);
            let count = if plural(&word) && f.count.is_none() && !f.each { 0 } else { count };
            let first = self.story.links.len();
            let span = self.span(i, f.end);
            // "by strings": as many as there are joins; made when the joins are read.
            let n = if count == 0 { 1 } else { count };
            for _ in 0..n {
                self.story.links.push(LinkTold {
                    noun: noun.clone(),
                    holds: if Self::has(f, Tells::Rigid) { Holds::PullOrPush } else { holds },
                    ends: Vec::new(),
                    pulleys: Vec::new(),
                    span,
                    light: Self::has(f, Tells::Light),
                    level: Self::has(f, Tells::Level),
                    vertical: Self::has(f, Tells::Vertical),
                });
            }
            let ids: Vec<usize> = (first..first + n).collect();
            let pulls = if holds == Holds::Pull { "it can pull, not push" } else { "it can pull or push" };
            self.told(i, end, format!("{about}: {pulls}"));
            self.note_front(i, f, &about);
            self.link.clone_from(&ids);
            return Some(Np { what: Ref::Links(ids), end });
        }
        self.note_front(i, f, &about);
        let mut ids = found.unwrap_or_default();
        if let Some((bodies, e)) = self.joined_pair(f.end) {
            let exact_match: Vec<usize> = ids
                .iter()
                .copied()
                .chain(0..self.story.links.len())
                .filter(|&l| {
                    self.story.links.get(l).is_some_and(|l| {
                        bodies.iter().all(|b| l.ends.contains(b)) && l.ends.len() == bodies.len()
                    })
                })
                .collect();
            if let Some(&l) = exact_match.first() {
                ids = vec![l];
            } else if let [l] = ids.as_slice() {
                // "the string joining A and B" may be what tells us so.
                if let Some(link) = self.story.links.get_mut(*l) {
                    if link.ends.is_empty() {
                        link.ends.clone_from(&bodies);
                    } else {
                        ids = Vec::new();
                    }
                }
            } else {
                let free =
                    ids.iter().copied().find(|&l| self.story.links.get(l).is_some_and(|l| l.ends.is_empty()));
                ids = free.into_iter().collect();
                if let Some(l) = free.and_then(|l| self.story.links.get_mut(l)) {
                    l.ends.clone_from(&bodies);
                }
            }
            self.told(f.end, e, format!("the {noun} between {}", self.names(&bodies)));
            end = e;
            if ids.is_empty() {
                return None;
            }
        }
        if end == f.end
            && ids.len() > 1
            && matches!(self.w(self.skip(end)), "joining" | "connecting" | "between" | "linking")
        {
            return None;
        }
        if let [one] = ids.as_slice() {
            self.link = vec![*one];
        }
        Some(Np { what: Ref::Links(ids), end })
    }

    /// `joining A and B`, `between the engine and wagon A`, `which joins them`, `connecting A to B`.
    fn joined_pair(&mut self, i: usize) -> Option<(Vec<usize>, usize)> {
        let mut at = self.skip(i);
        if self.w(at) == "," {
            return None;
        }
        if matches!(self.w(at), "which" | "that") {
            at += 1;
        }
        let w = self.w(at);
        if !matches!(
            w,
            "joining"
                | "connecting"
                | "between"
                | "joins"
                | "connects"
                | "linking"
                | "links"
                | "attaching"
                | "coupling"
        ) {
            return None;
        }
        at += 1;
        let saved = (self.latest.clone(), self.pair);
        let np = self.nps(at, false)?;
        let Ref::Bodies(mut bodies) = np.what else {
            (self.latest, self.pair) = saved;
            return None;
        };
        let mut end = np.end;
        if bodies.len() == 1
            && matches!(self.w(self.skip(end)), "to" | "with")
            && let Some(other) = self.np(self.skip(end) + 1)
            && let Ref::Bodies(b) = other.what
        {
            self.glue(end, self.skip(end) + 1);
            bodies.extend(b);
            end = other.end;
        }
        (bodies.len() == 2).then_some((bodies, end))
    }

    fn find_links(&self, f: &Front, noun: &str) -> Option<Vec<usize>> {
        let links = &self.story.links;
        let mut pool: Vec<usize> =
            links.iter().enumerate().filter(|(_, l)| l.noun == noun).map(|(i, _)| i).collect();
        if pool.is_empty() {
            let kin = |l: &LinkTold| {
                let bar = |n: &str| {
                    matches!(
                        n,
                        "tow-bar"
                            | "towbar"
                            | "bar"
                            | "rod"
                            | "coupling"
                            | "hitch"
                            | "drawbar"
                            | "link"
                            | "coupler"
                            | "tow-hitch"
                    )
                };
                bar(noun) && bar(&l.noun)
                    || matches!(
                        noun,
                        "string" | "rope" | "cord" | "thread" | "cable" | "tow-rope" | "chain" | "wire"
                    ) && l.holds == Holds::Pull
            };
            pool = links.iter().enumerate().filter(|(_, l)| kin(l)).map(|(i, _)| i).collect();
            if pool.len() != 1 || f.indefinite {
                return None;
            }
        }
        for (_, tells) in &f.tells {
            match tells {
                Tells::Nth(n) => return pool.get(*n).map(|&l| vec![l]).or(None),
                Tells::Leading => return pool.first().map(|&l| vec![l]),
                Tells::Last => return pool.last().map(|&l| vec![l]),
                Tells::Other => {
                    let rest: Vec<usize> = pool.iter().copied().filter(|l| !self.link.contains(l)).collect();
                    return (rest.len() == 1).then_some(rest);
                }
                _ => {}
            }
        }
        if f.indefinite {
            return None;
        }
        let many = plural(self.w(f.head)) || f.each || matches!(f.count, Some(n) if n > 1);
        if !many && pool.len() > 1 {
            // The string last spoken of, if it was spoken of alone; otherwise all that it may be.
            let recent: Vec<usize> = pool.iter().copied().filter(|l| self.link.contains(l)).collect();
            if recent.len() == 1 {
                return Some(recent);
            }
        }
        Some(pool)
    }

    // ---------------------------------------------------------------- pulleys and surfaces

    fn pulley_np(&mut self, i: usize, f: &Front) -> Option<Np> {
        let word = self.w(f.head).to_owned();
        for (bad, what) in [
            (Tells::Heavy, "a pulley with a mass of its own"),
            (Tells::Rough, "a rough pulley"),
            (Tells::Movable, "a movable pulley"),
        ] {
            if Self::has(f, bad) {
                let d = Diagnostic::refuse(Refusal::Unread, format!("{what} is not followed here"))
                    .at(self.span(i, f.end))
                    .hint("write: a smooth fixed pulley");
                self.diagnostics.push(d);
            }
        }
        let mut end = f.end;
        let (label, label_end) = match self.tok(end) {
            Some(t) if t.label() && !plural(&word) && f.indefinite && self.by_label(&t.text).is_none() => {
                (Some(t.text.clone()), end + 1)
            }
            _ => (None, end),
        };
        if label.is_some() {
            end = label_end;
        }
        self.note_front(i, f, "the pulley");
        let known = self.story.pulleys.len();
        let reuse = known > 0 && !f.indefinite && f.count.is_none();
        let ids: Vec<usize> = if reuse {
            if plural(&word) { (0..known).collect() } else { vec![known - 1] }
        } else {
            let n = f.count.unwrap_or(if plural(&word) { 2 } else { 1 }).min(8);
            let span = self.span(i, end);
            for _ in 0..n {
                self.story
                    .pulleys
                    .push(PulleyTold { noun: label.clone().unwrap_or_else(|| singular(&word)), span });
            }
            self.told(i, end, "a string over a pulley turns the pull round; its tension stays the same on both sides of a smooth, light pulley");
            (known..known + n).collect()
        };
        Some(Np { what: Ref::Pulleys(ids), end })
    }

    fn surface_np(&mut self, i: usize, f: &Front, slopes: bool) -> Option<Np> {
        let word = self.w(f.head).to_owned();
        let one = singular(&word);
        if one == "line"
            && (f.head > 0
                && matches!(
                    self.w(f.head.wrapping_sub(1)),
                    "straight" | "same" | "vertical" | "horizontal" | "this" | "a"
                ))
        {
            return None;
        }
        // A line of greatest slope is a direction.
        if one == "line" && self.phrase(f.head, "line|lines of greatest slope").is_some() {
            return None;
        }
        // The rails of a slipway: one surface.
        if matches!(one.as_str(), "rail" | "track" | "surface" | "line")
            && self.w(self.skip(f.end)) == "of"
            && self.surface_ahead(self.skip(f.end) + 1)
        {
            let of = self.skip(f.end) + 1;
            self.note_front(i, f, "it");
            self.glue(i, of);
            return self.np(of);
        }
        if f.head > 0 && self.w(f.head.wrapping_sub(1)) == "guide" {
            self.scene(i, f.end);
            return Some(Np { what: Ref::Thing, end: f.end });
        }
        let same = self.story.surfaces.iter().rposition(|s| s.noun == one);
        let any = self.story.surfaces.len().checked_sub(1);
        let level = Self::has(f, Tells::Level);
        let reuse = if f.indefinite && !level {
            None
        } else {
            same.or(if f.definite && !matches!(one.as_str(), "floor" | "ground") {
                any.filter(|&s| {
                    self.story.surfaces.get(s).is_some_and(|s| {
                        (!slopes || s.slope.is_some() || s.slopes)
                            && !(matches!(s.noun.as_str(), "table" | "bench") && slopes)
                    })
                })
            } else {
                None
            })
        };
        let id = match reuse.filter(|&s| {
            !(f.indefinite && self.story.surfaces.get(s).is_some_and(|s| s.slopes || s.slope.is_some()))
        }) {
            Some(id) => id,
            None => {
                let span = self.span(i, f.end);
                self.story.surfaces.push(SurfaceTold {
                    noun: one.clone(),
                    span,
                    slopes,
                    ..SurfaceTold::default()
                });
                self.story.surfaces.len() - 1
            }
        };
        if Self::has(f, Tells::Vertical) {
            let d = Diagnostic::refuse(Refusal::Unread, "bodies on a vertical surface are not followed")
                .at(self.span(i, f.end))
                .hint("say that the body hangs freely");
            self.diagnostics.push(d);
        }
        self.note_front(i, f, &format!("the {one}"));
        let span = self.span(i, f.end);
        if let Some(s) = self.story.surfaces.get_mut(id) {
            if f.tells.iter().any(|(_, t)| *t == Tells::Smooth) {
                s.smooth = Some(span);
            }
            if f.tells.iter().any(|(_, t)| *t == Tells::Rough) {
                s.rough = Some(span);
            }
            s.level |= level;
            if f.tells.iter().any(|(_, t)| *t == Tells::Sloping) {
                s.slopes = true;
            }
        }
        self.surface = Some(id);
        if let Some(a) = &f.angle {
            if let (Some(d), Some(s)) = (a.value.as_rational(), self.story.surfaces.get_mut(id)) {
                s.slope = Some(SlopeTold {
                    letter: None,
                    angle: Some(exact::Angle::Degrees(d.clone())),
                    written: a.written.clone(),
                    span: a.span,
                });
                s.slopes = true;
            }
            let at = self.toks.iter().position(|t| t.span.start == a.span.start).unwrap_or(i);
            self.told(
                at,
                f.end,
                "the angle of the slope: the weight has a part mg sin along it and a part mg cos across it",
            );
        }
        Some(Np { what: Ref::Surface(id), end: f.end })
    }

    // ---------------------------------------------------------------- masses

    /// `of mass 5 kg`, `, of masses 3 kg and 4 kg respectively`, `each of mass 600 kg`, `whose mass is 3 tonnes`,
    /// `having masses m and 2m`, `with mass M kg`. Gives the amounts, the place after, and whether "each" stands there.
    pub(crate) fn masses_after(&self, i: usize, bare: bool) -> Option<(Vec<Amount>, usize, bool)> {
        let mut at = self.skip(i);
        // A car (1200 kg)
        if self.w(at) == "("
            && let Some((a, e)) = self.amount(at + 1, false)
            && a.dimension == Some(Dimension::MASS)
            && self.w(e) == ")"
        {
            return Some((vec![a], e + 1, false));
        }
        if matches!(self.w(at), "," | "(") {
            at = self.skip(at + 1);
        }
        let each = self.w(at) == "each";
        if each {
            at = self.skip(at + 1);
        }
        const WAYS: [&str; 7] = [
            "of|having|with|has|have|and? equal|total|combined|a|an|the? equal|total|combined|unknown? mass|masses of|equal|is|are? to?",
            "of negligible? mass|masses",
            "whose own|total|combined? mass|masses with|together|including? with? its|their|his|her? contents|load|equipment|passengers? is|are|being",
            "the? mass|masses of which|whom with|together|including? with? its|their|his|her? contents|load|equipment? is|are|being",
            "mass|masses",
            "which|who has|have a? total? mass|masses of?",
            "of",
        ];
        let found = WAYS.iter().enumerate().filter(|(n, _)| *n < 6 || bare).find_map(|(_, way)| {
            let start = self.phrase(at, way)?;
            self.amounts(start, Some(Dimension::MASS))
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
