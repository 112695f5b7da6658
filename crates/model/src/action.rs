//! Forces that the question names: driving forces, resistances, pulls.
//! Weight, reactions, friction and tensions of links need no naming: they follow.

use crate::{BodyId, QuantityId, Span};

/// The number of a named force in its situation.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ActionId(pub usize);

/// What sort of force; decides its name and drawing, never the mechanics.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Role {
    /// The driving (tractive) force of an engine.
    Driving,
    /// The force of brakes.
    Braking,
    /// A force applied from outside: a pull or push.
    Applied,
    /// The pull of a cable whose other end is not part of the situation (a lift's cable, a winch's rope).
    Cable,
    /// A constant resistance, or a frictional force given as a number.
    Resistance,
    /// Any other named force.
    Other,
}

/// A force that the question names. Its size may differ from stage to stage
/// ([`Stage::forces`](crate::Stage::forces)).
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Action {
    /// What sort.
    pub role: Role,
    /// In words, with its article: `the driving force`.
    pub name: String,
    /// The body on which it acts.
    pub on: BodyId,
    /// Its direction.
    pub direction: Direction,
    /// Where the question speaks of it.
    pub span: Option<Span>,
}

/// The direction of a named force.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Direction {
    /// Along the body's line: +1 in its positive sense, −1 against.
    Along(i8),
    /// Against the body's motion, whichever way that is; while at rest it balances up to its size.
    Opposing,
    /// At an angle to the body's line: along it in the sense `sense`, and lifting the body from
    /// its surface (`lifts`) or pressing it on.
    At {
        /// +1 or −1 along the line.
        sense: i8,
        /// The angle to the line.
        angle: QuantityId,
        /// Away from the surface (true) or towards it (false).
        lifts: bool,
    },
}
