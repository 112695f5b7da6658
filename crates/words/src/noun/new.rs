//! Introduces bodies: `two trucks A and B, each of mass 600 kg`, `masses of 2 kg and 4 kg`, `a block`.

use super::{Front, Np, Ref};
use crate::adjective::Tells;
use crate::lexicon::{plural, singular};
use crate::reader::Reader;
use crate::story::BodyTold;
use exact::Dimension;
use model::{Diagnostic, Form, Refusal};

/// How new bodies are named.
pub(super) struct Naming {
    pub(super) form: Form,
    pub(super) word: String,
    pub(super) labels: Vec<String>,
    /// The place after the labels.
    pub(super) label_end: usize,
    /// `a mass M`: the letter is the size of the mass.
    pub(super) letter_mass: bool,
}

impl Reader<'_> {
    /// Bodies that the story did not have before.
    pub(super) fn new_bodies(&mut self, i: usize, f: &Front, naming: Naming) -> Option<Np> {
        let Naming { form, word, mut labels, mut label_end, letter_mass } = naming;
        let one = singular(&word);
        let generic = matches!(one.as_str(), "mass" | "weight" | "load");
        let mut end = f.end;
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
        let listed = if f.mass.is_none() && (plural(&word) || f.count.is_some_and(|c| c > 1)) && !f.definite {
            self.listed(f.end, f.count).or_else(|| self.listed(end, f.count))
        } else {
            None
        };
        let mut ranks = Vec::new();
        if let Some(list) = listed {
            labels = list.labels;
            end = list.end;
            ranks = list.ranks;
            masses = Some((list.masses, end, false));
        } else if count == 0 && labels.is_empty() {
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
        let n = if let (Some(m), true) = (&masses, count < 2) {
            m.0.len().max(count)
        } else if count > 0 {
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
                grounded: false,
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
        // A person is called by name: the token keeps it.
        if labels.is_empty() && n == 1 && one == "person" {
            let named = self.tok(f.head).filter(|t| t.text.chars().next().is_some_and(char::is_uppercase));
            labels.extend(named.map(|t| t.text.clone()));
        }
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
                grounded: false,
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
        // The front one, the upper one: told apart by where they stand.
        if let ([a, b], [x, y]) = (ids.as_slice(), ranks.as_slice()) {
            match (x, y) {
                (Tells::Leading | Tells::Upper, Tells::Last | Tells::Lower) => {
                    self.story.order.push((*a, *b))
                }
                (Tells::Last | Tells::Lower, Tells::Leading | Tells::Upper) => {
                    self.story.order.push((*b, *a))
                }
                _ => {}
            }
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
}
