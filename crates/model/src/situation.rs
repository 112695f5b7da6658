//! The situation that a question describes.

use crate::*;
use exact::{Angle, Value};
use std::collections::BTreeMap;

/// Everything that a question tells, as plain data: what there is, how it is joined, what acts,
/// how it moves, what is known and what is asked. Solution, drawing, page and marking all come from it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Situation {
    /// The bodies.
    pub bodies: Vec<Body>,
    /// What joins them.
    pub links: Vec<Link>,
    /// Pulleys that strings run over.
    pub pulleys: Vec<Pulley>,
    /// Named forces.
    pub actions: Vec<Action>,
    /// All quantities, by [`QuantityId`].
    pub quantities: Vec<Quantity>,
    /// Angles that are given, exactly as given (degrees, or a sine, cosine or tangent).
    pub angles: BTreeMap<QuantityId, Angle>,
    /// Facts that tie quantities together (`total resistance 900 N`, `three times as heavy`).
    pub relations: Vec<Relation>,
    /// Stages, or states compared; at least one in a sound situation.
    pub stages: Vec<Stage>,
    /// What the question says of the motion beyond what the solving needs; the solution must agree.
    pub claims: Vec<Claim>,
    /// What is asked, in order.
    pub asks: Vec<Ask>,
    /// The acceleration of free fall.
    pub gravity: Option<QuantityId>,
    /// Letters that stand for themselves in the answers (`m` in masses m and 3m); all positive.
    pub letters: Vec<Letter>,
    /// What was taken for granted, in words: `g = 9.8 m s^-2`.
    pub assumed: Vec<String>,
}

/// A letter that the question leaves open.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Letter {
    /// The letter.
    pub symbol: String,
    /// What it measures.
    pub kind: Kind,
}

/// Something that the question says of the motion, to be held against the solution: `P moves up the plane`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Claim {
    /// The stage of which it speaks.
    pub stage: StageId,
    /// The body.
    pub body: BodyId,
    /// What is said.
    pub says: Claimed,
    /// Where.
    pub span: Span,
}

/// What a claim says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Claimed {
    /// It moves in this sense of its line.
    Heads(i8),
    /// Its acceleration points in this sense of its line.
    Accelerates(i8),
    /// It gets faster.
    SpeedsUp,
    /// It gets slower.
    SlowsDown,
    /// It is heavier than this one.
    Heavier(BodyId),
    /// It goes no further than this, in metres: so far is the floor, or the pulley.
    Within(Value),
    /// This link pushes.
    Thrusts(LinkId),
}

/// A given fact that ties quantities together: the sum of the terms is zero.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Relation {
    /// The terms: each a coefficient and the quantities multiplied; no quantities for a plain constant.
    pub terms: Vec<(Value, Vec<QuantityId>)>,
    /// In words: `the total resistance is 900 N`.
    pub name: String,
    /// Where the question says so.
    pub span: Option<Span>,
    /// The first part in which it holds, counting from 0.
    pub from_part: usize,
}

impl Situation {
    /// The quantity with this number, if there is one.
    pub fn quantity(&self, id: QuantityId) -> Option<&Quantity> {
        self.quantities.get(id.0)
    }
    /// The body with this number, if there is one.
    pub fn body(&self, id: BodyId) -> Option<&Body> {
        self.bodies.get(id.0)
    }
    /// The link with this number, if there is one.
    pub fn link(&self, id: LinkId) -> Option<&Link> {
        self.links.get(id.0)
    }
    /// The action with this number, if there is one.
    pub fn action(&self, id: ActionId) -> Option<&Action> {
        self.actions.get(id.0)
    }
    /// The stage with this number, if there is one.
    pub fn stage(&self, id: StageId) -> Option<&Stage> {
        self.stages.get(id.0)
    }
    /// The value of a quantity where it is known in this part.
    pub fn known(&self, id: QuantityId, part: usize) -> Option<&Value> {
        let known = self.quantity(id)?.known.as_ref()?;
        (known.from_part <= part).then_some(&known.value)
    }
    /// All bodies' numbers.
    pub fn body_ids(&self) -> impl Iterator<Item = BodyId> + use<> {
        (0..self.bodies.len()).map(BodyId)
    }
    /// All links' numbers.
    pub fn link_ids(&self) -> impl Iterator<Item = LinkId> + use<> {
        (0..self.links.len()).map(LinkId)
    }
    /// All stages' numbers.
    pub fn stage_ids(&self) -> impl Iterator<Item = StageId> + use<> {
        (0..self.stages.len()).map(StageId)
    }
    /// The links in force in a stage, with their numbers.
    pub fn links_in(&self, stage: StageId) -> impl Iterator<Item = (LinkId, &Link)> {
        let without = self.stage(stage).map(|s| s.without_links.as_slice()).unwrap_or(&[]);
        self.links
            .iter()
            .enumerate()
            .map(|(i, link)| (LinkId(i), link))
            .filter(move |(id, _)| !without.contains(id))
    }
    /// The named forces that act in a stage, with their numbers.
    pub fn actions_in(&self, stage: StageId) -> impl Iterator<Item = (ActionId, &Action)> {
        let without = self.stage(stage).map(|s| s.without_actions.as_slice()).unwrap_or(&[]);
        self.actions
            .iter()
            .enumerate()
            .map(|(i, action)| (ActionId(i), action))
            .filter(move |(id, _)| !without.contains(id))
    }
}
