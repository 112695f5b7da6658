//! The pool: every equation that a person could write for one stage, each term with its origin.

use crate::ForceId;
use exact::Rational;
use model::{BodyId, LinkId, PulleyId, QuantityId};

/// The number of an equation in its pool.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct EquationId(pub usize);

/// A factor of a term.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Factor {
    /// A quantity, as oriented in the solved stage.
    Quantity(QuantityId),
    /// The sine of an angle.
    Sin(QuantityId),
    /// The cosine of an angle.
    Cos(QuantityId),
    /// A plain number: the ½ of ½at².
    Number(Rational),
}

/// Where a term comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Origin {
    /// A force, or its share in the direction of the equation.
    Force(ForceId),
    /// Mass × acceleration of this body.
    Inertia(BodyId),
    /// Mass × velocity of this body, before or after a jerk.
    Momentum(BodyId),
    /// Part of a law, such as the μR of F = μR or the ½at² of s = ut + ½at².
    Law,
    /// Part of a fact that the question gives.
    Given,
}

/// One term: a sign and a product.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Term {
    /// +1 or −1.
    pub sign: i8,
    /// What is multiplied.
    pub factors: Vec<Factor>,
    /// Where it comes from.
    pub origin: Origin,
}

/// What sort of equation.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Law {
    /// F = ma along the line of a body, or of several that move together.
    Motion,
    /// Balance of the forces across the line of a body.
    Balance,
    /// Friction at its limit, F = μR.
    Friction,
    /// Impulse = change of momentum, along the line of a body or of several that jerk together.
    Impulse,
    /// Bodies that a link keeps together: their accelerations, or their speeds after a jerk.
    Together(LinkId),
    /// A constant-acceleration relation, by its usual form.
    Journey(JourneyLaw),
    /// A fact given in the question ([`Situation::relations`](model::Situation::relations)).
    Fact(usize),
    /// The resultant of a string's tensions on its pulley.
    PulleyForce(PulleyId),
}

/// The five constant-acceleration relations, each named by the quantity it leaves out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum JourneyLaw {
    /// v = u + at
    WithoutDistance,
    /// v² = u² + 2as
    WithoutTime,
    /// s = ut + ½at²
    WithoutEndSpeed,
    /// s = vt − ½at²
    WithoutStartSpeed,
    /// s = ½(u + v)t, written out as s = ½ut + ½vt
    WithoutAcceleration,
}

/// One equation of the pool: the sum of `left` equals the sum of `right`. An equation of motion has the
/// forces on the left and mass × acceleration on the right.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Equation {
    /// Its number.
    pub id: EquationId,
    /// What sort.
    pub law: Law,
    /// The bodies it is about, in order.
    pub system: Vec<BodyId>,
    /// Left side.
    pub left: Vec<Term>,
    /// Right side; empty means 0.
    pub right: Vec<Term>,
    /// Forces that act inside the system and cancel.
    pub internal: Vec<ForceId>,
}

impl Equation {
    /// All terms, those on the right with their sign as written there.
    pub fn terms(&self) -> impl Iterator<Item = &Term> {
        self.left.iter().chain(&self.right)
    }
    /// All quantities in it (angles of sines and cosines included), in order, each once.
    pub fn quantities(&self) -> Vec<QuantityId> {
        let mut found = Vec::new();
        for factor in self.terms().flat_map(|t| &t.factors) {
            if let Factor::Quantity(q) | Factor::Sin(q) | Factor::Cos(q) = factor
                && !found.contains(q)
            {
                found.push(*q);
            }
        }
        found
    }
}
