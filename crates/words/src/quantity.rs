//! Mentions of quantities: `the resistances to the motion of the car and the trailer are 300 N and 100 N`,
//! `a constant braking force of 4350 N acts on the lorry`, `the acceleration of Q`.
//!
//! The same phrase is a given in a statement (see [`tell`](crate::tell)) and a target in a question.

mod coefficient;
mod head;
mod parties;
mod rest;
mod sizes;
mod ways;

use crate::noun::Ref;
use crate::reader::Reader;
use crate::story::{Amount, Lean, Way};
use exact::Dimension;
use model::Role;

/// What sort of quantity a phrase names.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Sort {
    Mass,
    Acceleration {
        slowing: bool,
    },
    Tension,
    Reaction,
    Friction,
    Force(Role),
    /// "the force": which one, its place in the sentence tells.
    PlainForce,
    Resultant,
    Resistance,
    Coefficient,
    Speed,
    Distance,
    Time,
}

/// A mention of a quantity.
#[derive(Clone, Debug)]
pub(crate) struct Mention {
    pub sort: Sort,
    pub start: usize,
    pub end: usize,
    pub head_end: usize,
    pub amounts: Vec<Amount>,
    pub of: Option<Ref>,
    pub on: Option<Ref>,
    pub by: Option<Ref>,
    pub between: Vec<Ref>,
    pub pairs: Vec<(Amount, usize)>,
    pub way: Option<Way>,
    pub letter: Option<String>,
    pub greatest: bool,
    pub total: bool,
    /// What comes on top of what was before: a further distance.
    pub further: bool,
    pub start_speed: bool,
    pub per_mass: bool,
    pub plural: bool,
    pub opposing: bool,
    /// Called horizontal (true) or vertical (false).
    pub level: Option<bool>,
    /// The angle at which it acts.
    pub lean: Option<Lean>,
    /// Called a pull (true) or a push.
    pub pulls: Option<bool>,
    /// Several forces are said to act in opposite directions (true), or in the same (false).
    pub opposed: Option<bool>,
    /// A coefficient is called static (false) or kinetic (true).
    pub sliding: Option<bool>,
    /// Named with "a" or "another", not with "the".
    pub indefinite: bool,
}

impl Mention {
    /// A mention of which nothing is known yet.
    pub(crate) fn blank(start: usize) -> Self {
        Self {
            sort: Sort::Mass,
            start,
            end: start,
            head_end: start,
            amounts: Vec::new(),
            of: None,
            on: None,
            by: None,
            between: Vec::new(),
            pairs: Vec::new(),
            way: None,
            letter: None,
            greatest: false,
            total: false,
            further: false,
            start_speed: false,
            per_mass: false,
            plural: false,
            opposing: false,
            level: None,
            lean: None,
            pulls: None,
            opposed: None,
            sliding: None,
            indefinite: false,
        }
    }
}

/// Can the word be part of the name of a quantity? Such a word never belongs to a body's name.
pub(crate) fn quantity_word(word: &str) -> bool {
    matches!(
        word,
        "mass"
            | "masses"
            | "acceleration"
            | "accelerations"
            | "deceleration"
            | "retardation"
            | "tension"
            | "tensions"
            | "thrust"
            | "reaction"
            | "reactions"
            | "friction"
            | "force"
            | "forces"
            | "resistance"
            | "resistances"
            | "coefficient"
            | "speed"
            | "speeds"
            | "velocity"
            | "distance"
            | "distances"
            | "magnitude"
            | "magnitudes"
            | "angle"
            | "compression"
            | "pull"
            | "frictional"
            | "tractive"
            | "resistive"
            | "braking"
            | "air"
            | "pressure"
            | "drag"
            | "resultant"
            | "resisting"
            | "retarding"
            | "time"
            | "acceleratin"
            | "slope-angle"
            | "time-taken"
            | "value"
            | "values"
    )
}

impl Reader<'_> {
    /// A mention of a quantity at `i`, with all that belongs to it. Looks at things, creating those that
    /// the phrase introduces.
    pub(crate) fn mention(&mut self, i: usize) -> Option<Mention> {
        let mut m = match self.possessive(i) {
            Some(m) => m,
            None => self.quantity_head(i)?,
        };
        // "a mass of 3 kg" as a thing is read as a noun phrase.
        if m.sort == Sort::Mass && self.phrase(i, "the mass|masses of").is_none() && self.np_is_mass(i) {
            return None;
        }
        let start = m.head_end;
        m.end = self.posts(&mut m, start);
        // "the thrust of the string on the pulley": on something, so no tension but a force on it.
        if m.sort == Sort::Tension && matches!(m.on, Some(Ref::Pulleys(_))) {
            m.sort = Sort::PlainForce;
        }
        if m.sort == Sort::Tension && m.between.iter().any(|r| matches!(r, Ref::Floor(_) | Ref::Surface(_))) {
            m.sort = Sort::Reaction;
        }
        Some(m)
    }

    /// All that belongs to a mention from `at` on: the place after it.
    pub(crate) fn posts(&mut self, m: &mut Mention, at: usize) -> usize {
        let mut at = at;
        for _ in 0..16 {
            match self.post(m, at) {
                Some(next) if next > at => at = next,
                _ => break,
            }
        }
        at
    }

    /// Does a noun phrase that names bodies stand here? It is read on trial, and all that it told is taken back.
    fn np_is_mass(&mut self, i: usize) -> bool {
        if self.mass_is_no_body(i) {
            return false;
        }
        let saved_notes = self.notes.len();
        let saved =
            (self.uses.clone(), self.story.clone(), self.latest.clone(), self.pair, self.diagnostics.len());
        let is = matches!(self.np(i), Some(np) if matches!(np.what, Ref::Bodies(_)));
        self.notes.truncate(saved_notes);
        self.diagnostics.truncate(saved.4);
        (self.uses, self.story, self.latest, self.pair) = (saved.0, saved.1, saved.2, saved.3);
        is
    }

    pub(crate) fn wanted(sort: Sort) -> Option<Dimension> {
        Some(match sort {
            Sort::Mass => Dimension::MASS,
            Sort::Acceleration { .. } => Dimension::ACCELERATION,
            Sort::Tension
            | Sort::Reaction
            | Sort::Friction
            | Sort::Force(_)
            | Sort::PlainForce
            | Sort::Resultant
            | Sort::Resistance => Dimension::FORCE,
            Sort::Coefficient => Dimension::NONE,
            Sort::Speed => Dimension::SPEED,
            Sort::Distance => Dimension::LENGTH,
            Sort::Time => Dimension::TIME,
        })
    }
}
