//! What joins bodies: strings, rods, and one body resting on another.

use crate::{BodyId, QuantityId, Span};

/// The number of a link in its situation.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct LinkId(pub usize);

/// The number of a pulley in its situation.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PulleyId(pub usize);

/// What a link can do.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Holds {
    /// A string: pulls or goes slack.
    Pull,
    /// A contact: pushes or parts.
    Push,
    /// A rod: pulls (tension) or pushes (thrust).
    PullOrPush,
}

/// A light link. One rule covers them all: with `T` the size of its force, it acts on
/// each end's body with `T × times` along the body's line in the sense `sense`, and while it
/// holds, the sum over its ends of `sense × times × acceleration` is zero. A string may go slack
/// (and a contact part) with that sum positive and `T = 0`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Link {
    /// String, tow-bar, contact ... as the question calls it, with its article: `the tow-bar`.
    pub name: String,
    /// What it can do.
    pub holds: Holds,
    /// Is it the floor under a load (drawn as a normal reaction), not a line between two bodies?
    pub is_contact: bool,
    /// Its ends.
    pub ends: Vec<End>,
    /// The pulleys that it runs over.
    pub pulleys: Vec<PulleyId>,
    /// The greatest force that it can bear without breaking, where the question speaks of one.
    pub bears: Option<QuantityId>,
    /// Where the question speaks of it.
    pub span: Option<Span>,
}

/// One end of a link.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct End {
    /// The body at this end.
    pub body: BodyId,
    /// +1 or −1: the sense, on the body's line, of the force of a positive `T` on the body.
    pub sense: i8,
    /// How many strands act on the body: 1, or 2 for the load of a movable pulley.
    pub times: u8,
}

/// A pulley, smooth and light.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pulley {
    /// As the question calls it: `the pulley`, `P`.
    pub name: String,
    /// Where the question speaks of it.
    pub span: Option<Span>,
}
