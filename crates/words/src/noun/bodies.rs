//! Bodies: `a crate of mass 40 kg`, `two trucks A and B`, `the heavier block`, `the engine of the lorry`.

use super::new::Naming;
use crate::adjective::{Tells, adjective};
use crate::amount::in_words;
use crate::lexicon::{self, Noun, plural, singular};
use crate::noun::{Front, Np, Ref};
use crate::quantity::quantity_word;
use crate::reader::Reader;
use crate::verbs;
use exact::Dimension;
use model::Form;

impl Reader<'_> {
    pub(super) fn body_np(&mut self, i: usize, f: &Front, form: Form) -> Option<Np> {
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
        // "carry bodies of mass 2 kg and 4 kg" brings new ones in.
        let new = new
            || !f.definite
                && plural(&word)
                && labels.is_empty()
                && self.masses_after(f.end, true).is_some_and(|m| m.0.len() > 1);
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
        self.new_bodies(i, f, Naming { form, word, labels, label_end, letter_mass })
    }

    /// Is this "mass" plainly a quantity? Only looks, so that a long text is not read on trial at every mass.
    pub(crate) fn mass_is_no_body(&self, i: usize) -> bool {
        let i = self.skip(i);
        let pronoun = matches!(
            self.w(i),
            "it" | "itself"
                | "they"
                | "them"
                | "themselves"
                | "both"
                | "these"
                | "his"
                | "her"
                | "each"
                | "either"
        );
        if pronoun || self.labels(i).is_some() {
            return false;
        }
        self.front(i).is_none_or(|f| {
            let generic = matches!(singular(&f.word).as_str(), "mass" | "weight" | "load");
            matches!(f.known, Some(Noun::Body(_))) && generic && !self.mass_is_body(&f)
        })
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
        let named = self.tok(after).is_some_and(|t| t.label())
            && (f.indefinite || f.count.is_some() || f.word == "load");
        let one_of = f.count == Some(1) && crate::verbs::starts_clause(self.w(after));
        let loaded = f.indefinite
            && matches!(f.word.as_str(), "load" | "weight")
            && self.masses_after(f.end, false).is_some();
        let known_label = self.tok(after).is_some_and(|t| t.label() && self.by_label(&t.text).is_some());
        let compound = f.head > 0
            && self
                .tok(f.head - 1)
                .is_some_and(|t| t.is_word() && !lexicon::glue(&t.lower) && adjective(&t.lower).is_none())
            && singular(&f.word) == "weight";
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
            || one_of
            || again
            || loaded
            || known_label
            || compound
            || whole
            || pronounced
            || (plural(&f.word) && f.count.is_some_and(|n| n > 1) && self.w(after) != "of")
            || (f.indefinite && f.word == "load" && self.w(after) != "of")
            || (of_amount && (f.indefinite || f.count.is_some() || plural(&f.word) && !f.definite))
            || (f.each && self.w(after) != "of")
    }

    /// `of timber`, `of fishing tackle`, `full of sand`: what is in it; no mechanics.
    pub(super) fn contents(&mut self, end: usize) -> Option<usize> {
        let full = self.phrase(end, "full|loaded|filled|laden|packed of|with");
        let of = self.skip(full.or_else(|| self.phrase(end, "of"))?);
        let mut at = of;
        while at < of + 3
            && self.tok(at).is_some_and(|t| {
                let making = at == of && t.lower.ends_with("ing");
                t.is_word()
                    && !lexicon::glue(&t.lower)
                    && !t.label()
                    && t.letter().is_none()
                    && !quantity_word(&t.lower)
                    && adjective(&t.lower).is_none_or(|a| a == Tells::Nothing)
                    && in_words(&t.lower).is_none()
                    && !matches!(
                        t.lower.as_str(),
                        "negligible" | "total" | "combined" | "unknown" | "magnitude"
                    )
                    && (at == of || !matches!(lexicon::noun(&t.lower), Some(Noun::Body(_))))
                    && (making || !verbs::is_verb(&t.lower))
            })
        {
            at += 1;
        }
        if at == of {
            return None;
        }
        self.scene(end, at);
        Some(at)
    }

    /// An unknown noun becomes a body where a mass follows it.
    pub(super) fn unknown_np(&mut self, i: usize, f: &Front) -> Option<Np> {
        let word = self.w(f.head).to_owned();
        if let Some(id) = self.story.bodies.iter().position(|b| b.noun == singular(&word)) {
            self.glue(i, f.end);
            return Some(self.bodies_np(vec![id], f.end));
        }
        let (_, after) = self.labels_after(f.end);
        let has_mass = self.masses_after(after, false).is_some()
            || self.masses_after(f.end, false).is_some()
            || (plural(&word) && self.listed(f.end, f.count).is_some())
            || self.phrase(f.end, "has|have a? mass").is_some();
        if (f.indefinite || f.count.is_some() || f.definite || plural(&word))
            && (has_mass || f.mass.is_some())
            && !lexicon::dangerous(&word)
        {
            return self.body_np(i, f, Form::Block);
        }
        None
    }
}
