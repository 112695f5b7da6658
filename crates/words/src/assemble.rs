//! Turns what was told into a situation: settles who stands where, who is in front, which way forces act.

mod aslant;
mod bodies;
mod contacts;
mod forces;
mod joins;
mod stacked;
mod strays;
mod surfaces;

use crate::names;
use crate::story::{Given, Story, Target};
use exact::Value;
use model::{
    ActionId, Basis, BodyId, Builder, Diagnostic, Kind, Known, Line, LinkId, QuantityId, Refusal, Span,
};
use std::collections::{BTreeMap, BTreeSet};

/// What a told thing became in the situation.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Became {
    Link(LinkId),
    /// A cable with one end outside the story.
    Cable(ActionId),
    Nothing,
}

/// The situation in the making.
pub(crate) struct Assembly<'a> {
    pub story: &'a Story,
    pub b: Builder,
    pub diagnostics: Vec<Diagnostic>,
    pub bodies: Vec<BodyId>,
    pub lines: Vec<Line>,
    pub links: Vec<Became>,
    pub forces: Vec<Option<ActionId>>,
    pub coefficients: BTreeMap<usize, QuantityId>,
    /// Letters asked for: they are unknowns, not open letters.
    pub asked: BTreeSet<String>,
    /// The quantity of a letter that is asked for.
    pub letters: BTreeMap<String, QuantityId>,
    pub total: Option<QuantityId>,
    /// A force asked for in a state of its own: (force, part).
    pub asked_anew: Option<(usize, usize)>,
    /// Tensions and pushes told before this part belong to another state.
    pub values_from: usize,
    /// The chapter of the story whose stage is being made, and what that stage follows.
    pub chapter: usize,
    pub follows: Option<(model::StageId, model::Happening)>,
    /// The chapters of a story, in order.
    pub chapters: Vec<crate::stages::Chapter>,
    /// Journeys asked about within chapters, by chapter, body and goal.
    pub legs: BTreeMap<(usize, usize, String), model::Journey>,
    /// Heights told, as quantities.
    pub heights: Vec<(Span, QuantityId)>,
    /// The stage in which a slack string tightens, the journeys in it, and the string.
    pub jerked: Option<(model::StageId, Vec<model::Journey>, usize)>,
    /// The journey that the statements tell of, by stage.
    pub bases: BTreeMap<model::StageId, usize>,
    /// Friction given as a number, as a named force.
    pub extra_friction: Vec<(ActionId, Given)>,
    /// Resistances that a rule gives to bodies: a share, or so much per kilogram.
    pub shared: Vec<(usize, ActionId)>,
}

pub(crate) fn known(given: &Given) -> Known {
    Known {
        value: given.value.clone(),
        written: given.written.clone(),
        basis: Basis::Given(given.span),
        from_part: given.part,
    }
}

impl<'a> Assembly<'a> {
    pub(crate) fn new(story: &'a Story) -> Assembly<'a> {
        let mut asked = BTreeSet::new();
        for ask in &story.asks {
            match &ask.target {
                Target::Letter(l) => {
                    asked.insert(l.clone());
                }
                // The set of values of a force or a mass: it is unknown. The k of a mass km stays a letter.
                Target::Range(l) => {
                    let itself = |g: Option<&Given>| g.is_some_and(|g| g.value == Value::symbol(l));
                    let whole = story.bodies.iter().any(|b| itself(b.mass.as_ref()))
                        || story
                            .forces
                            .iter()
                            .any(|f| itself(f.size.as_ref()) || f.letter.as_ref() == Some(l));
                    if whole {
                        asked.insert(l.clone());
                    }
                }
                Target::Mass(of) => {
                    for &b in of {
                        if let Some(m) = story.bodies.get(b).and_then(|b| b.mass.as_ref()) {
                            asked.extend(m.value.symbols());
                        }
                    }
                }
                Target::Force(f) => {
                    if let Some(l) = story.forces.get(*f).and_then(|f| f.letter.clone()) {
                        asked.insert(l);
                    }
                }
                Target::Coefficient { .. } => {
                    for c in &story.coefficients {
                        asked.extend(c.2.clone());
                    }
                }
                _ => {}
            }
        }
        Assembly {
            story,
            b: Builder::new(),
            diagnostics: Vec::new(),
            bodies: Vec::new(),
            lines: Vec::new(),
            links: Vec::new(),
            forces: Vec::new(),
            coefficients: BTreeMap::new(),
            asked,
            letters: BTreeMap::new(),
            total: None,
            asked_anew: None,
            values_from: 0,
            chapter: 0,
            follows: None,
            chapters: Vec::new(),
            legs: BTreeMap::new(),
            heights: Vec::new(),
            jerked: None,
            bases: BTreeMap::new(),
            extra_friction: Vec::new(),
            shared: Vec::new(),
        }
    }

    pub(crate) fn refuse(&mut self, kind: Refusal, message: String, span: Span, hint: &str) {
        self.diagnostics.push(Diagnostic::refuse(kind, message).at(span).hint(hint));
    }

    /// Bodies, surfaces, links and forces.
    pub(crate) fn things(&mut self) {
        self.gravity();
        self.place_bodies();
        self.surfaces();
        self.idle_coefficients();
        self.join();
        self.touch();
        self.act();
        self.drive_carriers();
        self.slung_alone();
        self.unused();
        self.strays();
    }

    pub(crate) fn gravity(&mut self) {
        let open = self.story.bodies.iter().any(|b| {
            b.mass.as_ref().is_some_and(|m| m.value.symbols().iter().any(|s| !self.asked.contains(s)))
        });
        let wants_letter = self.story.gravity_letter || open;
        let id = self.b.situation().gravity;
        match (&self.story.gravity, id) {
            (Some(given), Some(id)) => {
                let k = Known { from_part: 0, ..known(given) };
                self.b.know_as(id, k);
            }
            (None, Some(id)) if wants_letter => {
                self.b.know_as(
                    id,
                    Known {
                        value: Value::symbol("g"),
                        written: "g".to_owned(),
                        basis: Basis::Implied(Span::default(), "left as a letter".to_owned()),
                        from_part: 0,
                    },
                );
                self.b.open_letter("g", Kind::Gravity);
            }
            _ => {}
        }
    }

    /// Gives a quantity a told value: a number, a letter to be found, or a letter left open.
    pub(crate) fn give(&mut self, id: QuantityId, given: &Given, kind: Kind) {
        for s in given.value.symbols() {
            if s == "g" {
                continue;
            }
            if self.asked.contains(&s) {
                if given.value == Value::symbol(&s) && !self.letters.contains_key(&s) {
                    // This quantity is the letter asked for.
                    self.b.letter(id, &s);
                    self.letters.insert(s, id);
                    return;
                }
                if !self.letters.contains_key(&s) {
                    // A factor such as the k of km: an unknown number, unless some quantity is that letter itself.
                    let itself = self
                        .story
                        .bodies
                        .iter()
                        .any(|b| b.mass.as_ref().is_some_and(|m| m.value == Value::symbol(&s)));
                    if !itself {
                        // 1000M kilograms for M tonnes: the letter itself is a plain number.
                        let kind = if given.value == Value::symbol(&s) { kind } else { Kind::Number };
                        let q = self.b.quantity(kind, &s, &format!("value of {s}"));
                        self.b.letter(q, &s);
                        self.letters.insert(s.clone(), q);
                    }
                }
            } else {
                let of = if s == "k" || s == "λ" { Kind::Number } else { kind };
                self.b.open_letter(&s, of);
            }
        }
        let k = Known { value: self.with_g(&given.value), ..known(given) };
        self.b.know_as(id, k);
    }

    /// The value with g as the question has it, unless g is left as a letter.
    pub(crate) fn with_g(&self, value: &Value) -> Value {
        let situation = self.b.situation();
        let open = situation.letters.iter().any(|l| l.symbol == "g");
        let g = situation
            .gravity
            .and_then(|g| situation.quantity(g))
            .and_then(|q| q.known.as_ref())
            .map(|k| k.value.clone());
        match g {
            Some(g) if !open && value.symbols().contains("g") => {
                value.substitute("g", &g).unwrap_or_else(|_| value.clone())
            }
            _ => value.clone(),
        }
    }

    pub(crate) fn name(&self, i: usize) -> String {
        self.story.bodies.get(i).map_or_else(String::new, names::of_body)
    }
}
