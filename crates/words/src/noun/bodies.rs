//! Bodies: `a crate of mass 40 kg`, `two trucks A and B`, `the heavier block`, `the engine of the lorry`.

use super::Front;
use crate::adjective::{Tells, adjective};
use crate::amount::in_words;
use crate::lexicon::{self, Noun, plural, singular};
use crate::noun::{Np, Ref};
use crate::quantity::quantity_word;
use crate::reader::Reader;
use crate::story::BodyTold;
use exact::Dimension;
use model::{Diagnostic, Form, Refusal};

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
            || quantity_word(&t.lower)
            || adjective(&t.lower).is_some_and(|a| a == Tells::Identical)
        {
            return None;
        }
        if in_words(&t.lower).is_some()
            || matches!(t.lower.as_str(), "negligible" | "total" | "combined" | "unknown" | "magnitude")
            || t.letter().is_some()
        {
            return None;
        }
        self.scene(of, next + 1);
        Some(next + 1)
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
