//! The words before the head of a noun phrase, and the head: `two small smooth`, `the 3 kg`, `a light inextensible`.

use super::Front;
use crate::adjective::{Tells, adjective};
use crate::amount::in_words;
use crate::lexicon::{self, Noun, noun};
use crate::quantity::quantity_word;
use crate::reader::Reader;
use crate::verbs;
use exact::Dimension;
use model::Form;

impl Reader<'_> {
    /// The determiner, adjectives and head of a noun phrase. Changes nothing.
    pub(super) fn front(&self, i: usize) -> Option<Front> {
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
                if matches!(self.w(at), "the" | "these" | "those") {
                    at += 1;
                    if in_words(self.w(self.skip(at))).is_some() {
                        at = self.skip(at) + 1;
                    }
                }
                // "each of mass 4 kg" tells the mass of things named before.
                if matches!(self.w(at), "mass" | "masses") && self.w(at - 1) == "of" {
                    return None;
                }
            }
            // All three trucks
            "all" if in_words(self.w(self.skip(at + 1))).is_some_and(|n| n > 1) => {
                f.definite = true;
                at += 1;
            }
            _ => {}
        }
        let mut head = None;
        for _ in 0..9 {
            at = self.skip(at);
            let w = self.w(at);
            // "the heavy one", "the light sack", of two: the heavier and the lighter.
            let tells = match w {
                "heavy" => Some(Tells::Heavier),
                "light" => Some(Tells::Lighter),
                "back" => Some(Tells::Last),
                _ => None,
            };
            if let Some(tells) = tells.filter(|t| {
                f.definite
                    && head.is_none()
                    && (self.compares(at + 1) || *t == Tells::Last && self.names_body(at + 1))
            }) {
                f.tells.push((at, tells));
                at += 1;
                continue;
            }
            let Some(t) = self.tok(at) else { break };
            if let Some(n) = in_words(w).filter(|_| head.is_none() && f.count.is_none()) {
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
            // a train of two wagons, a pair of blocks, a row of crates
            if matches!(w, "train" | "pair" | "couple" | "row" | "line" | "set" | "rake" | "series")
                && self.w(at + 1) == "of"
                && head.is_none()
                && (in_words(self.w(at + 2)).is_some_and(|n| n > 1)
                    || matches!(noun(self.w(at + 2)), Some(Noun::Body(_))) && lexicon::plural(self.w(at + 2)))
            {
                f.indefinite = false;
                if matches!(w, "pair" | "couple") {
                    f.count = Some(2);
                }
                at += 2;
                continue;
            }
            // A line of greatest slope of the plane is the plane, as far as ways go; alone it is the slope.
            if let Some(e) = self.phrase(at, "line|lines of greatest slope").filter(|_| head.is_none()) {
                f = Front { tells: f.tells, ..Front::default() };
                let inner = self.phrase(e, "of").map(|k| self.skip(k));
                let article = inner.map(|k| self.w(k));
                match inner.filter(|&k| self.surface_ahead(k)) {
                    Some(k) => {
                        f.definite = !matches!(article, Some("a" | "an"));
                        f.indefinite = !f.definite;
                        at = if matches!(article, Some("a" | "an" | "the" | "this" | "each")) {
                            k + 1
                        } else {
                            k
                        };
                    }
                    None => {
                        f.definite = true;
                        f.word = "slope".to_owned();
                        f.known = noun("slope");
                        f.head = e - 1;
                        f.end = e;
                        return Some(f);
                    }
                }
                continue;
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
            if matches!(w, "lifts" | "hoists")
                && matches!(self.w(self.skip(at + 1)), "a" | "an" | "the" | "two" | "both" | "it")
            {
                break;
            }
            if let Some(n) = noun(w) {
                // "the string runs", "a lift carries": a noun; "it lifts" is no noun here.
                head = Some(at);
                f.known = Some(n);
                f.word = w.to_owned();
                at += 1;
                continue;
            }
            if lexicon::glue(w)
                || verbs::is_verb(w)
                || quantity_word(w)
                || matches!(
                    w,
                    "no" | "not" | "nor" | "none" | "without" | "except" | "half" | "double" | "twice"
                )
            {
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
                        | Tells::Upper
                        | Tells::Lower
                        | Tells::Nth(_)
                        | Tells::Leading
                        | Tells::Last
                        | Tells::Hanging,
                    )),
                ) = (
                    f.definite
                        && (!matches!(only, Some((_, Tells::Nth(_)))) || self.story.bodies.len() > 1)
                        && (self.one(only)
                            || !matches!(only, Some((_, Tells::Leading | Tells::Last | Tells::Hanging)))),
                    only,
                ) {
                    f.head = p;
                    f.end = if self.one(only) { p + 2 } else { p + 1 };
                    f.known = Some(Noun::Body(Form::Particle));
                    return Some(f);
                }
                return None;
            }
            f.end = f.head + 1;
        }
        Some(f)
    }

    /// Does "one" stand for the noun after an adjective: `the front one`?
    fn one(&self, only: Option<(usize, Tells)>) -> bool {
        only.is_some_and(|(p, _)| self.w(p + 1) == "one")
    }

    /// "one", or the noun of bodies that are known.
    fn names_body(&self, i: usize) -> bool {
        let one = lexicon::singular(self.w(i));
        self.w(i) == "one" || self.story.bodies.iter().any(|b| b.noun == one)
    }

    /// Of two bodies of which one may be called the heavy one: does their noun, or "one", stand here?
    fn compares(&self, i: usize) -> bool {
        self.story.bodies.len() == 2
            && (self.w(i) == "one"
                || self.story.bodies.iter().all(|b| b.noun == lexicon::singular(self.w(i))))
    }

    /// Is the next noun, adjectives apart, a surface?
    pub(crate) fn surface_ahead(&self, i: usize) -> bool {
        let mut at = self.skip(i);
        if matches!(self.w(at), "the" | "a" | "an" | "this") {
            at = self.skip(at + 1);
        }
        for _ in 0..6 {
            if self.w(at) == "," {
                at = self.skip(at + 1);
            }
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
    pub(super) fn note_front(&mut self, i: usize, f: &Front, about: &str) {
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
                    format!("{about} does not stretch: what it joins has the same size of acceleration")
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

    pub(super) fn has(f: &Front, tells: Tells) -> bool {
        f.tells.iter().any(|(_, t)| *t == tells)
    }
}
