//! What the question asks.

use crate::{BodyId, LinkId, Matter, PulleyId, QuantityId, Span, StageId};
use exact::Value;

/// One thing asked. A part that asks two things has two.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ask {
    /// The part's own label without brackets (`a`, `b(ii)`), `""` where there is none.
    pub part: String,
    /// The part's place among the parts, counting from 0.
    pub part_index: usize,
    /// In words: `acceleration of the truck`.
    pub phrase: String,
    /// What is wanted.
    pub wanted: Wanted,
    /// A value that the question gives to be shown.
    pub show: Option<Value>,
    /// How exactly, where the question says.
    pub accuracy: Option<Accuracy>,
    /// The stage of which it speaks.
    pub stage: StageId,
    /// Where it stands.
    pub span: Span,
    /// Marks allowed in the question.
    pub marks: Option<u32>,
}

/// What is wanted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Wanted {
    /// The value of this quantity. Forces, speeds and accelerations are given as magnitudes,
    /// the acceleration with a sign only if the body is slowing down (negative, unless `Deceleration`).
    Quantity(QuantityId),
    /// The size of this quantity, whichever way it points.
    Magnitude(QuantityId),
    /// The size of the deceleration of this body.
    Deceleration(BodyId),
    /// The resultant force of the string on a pulley.
    PulleyForce(PulleyId),
    /// Which way a body moves or would move.
    WhichWay(BodyId),
    /// Which way the acceleration of a body points.
    AccelerationWay(BodyId),
    /// Whether a link is in tension or in thrust.
    TensionOrThrust(LinkId),
    /// Whether the bodies move at all.
    WhetherItMoves,
    /// Whether something is so: a body slips, a rope bears its tension, a string stays taut.
    Whether {
        /// What.
        matter: Matter,
        /// What the question says of it, to be shown: that it is so, that it is not so, or nothing.
        told: Option<bool>,
    },
    /// The set of values of this quantity, left open in the question, for which what is said of the stage holds
    /// (at rest, or moving the way given, strings taut).
    Range(QuantityId),
    /// How this quantity would be affected by a change of the model or of a given.
    Effect {
        /// What changes.
        change: Change,
        /// What is affected.
        on: QuantityId,
    },
    /// A statement about the model (how "light" or "inextensible" was used ...).
    Statement(Topic),
}

/// A change of the model, of which the question asks what it would do to an answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Change {
    /// Air resistance is taken into account.
    AirResistance,
    /// The string has weight.
    HeavyString,
    /// The pulley is rough, or its axle is.
    RoughPulley,
    /// The surfaces called smooth are rough.
    RoughSurface,
    /// This given is greater.
    More(QuantityId),
    /// This given is smaller.
    Less(QuantityId),
}

/// What a statement is to be about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Topic {
    /// The string does not stretch.
    Inextensible,
    /// The string or rod has no weight.
    Light,
    /// The pulley is smooth.
    SmoothPulley,
    /// Bodies are particles.
    Particle,
    /// A surface is smooth.
    SmoothSurface,
    /// A rod keeps its length.
    Rigid,
    /// Air resistance is neglected.
    NoAirResistance,
    /// The forces on this body, or on all of them, as on a diagram.
    Forces(Option<BodyId>),
    /// One limitation of the model or a refinement.
    Limitation,
    /// One assumption that has been made.
    Assumption,
}

/// How exactly an answer is to be given.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Accuracy {
    /// To this many significant figures.
    Significant(u32),
    /// To this many decimal places.
    Places(u32),
    /// Exactly, in surds, fractions or letters.
    Exact,
}
