//! Stages: how the bodies move, and what is known of it, while the forces stay the same.

use crate::{ActionId, BodyId, LinkId, QuantityId, Span};

/// The number of a stage in its situation.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct StageId(pub usize);

/// What the question says of the motion.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum State {
    /// In equilibrium, at rest: no acceleration; friction as much as needed.
    AtRest,
    /// On the point of moving: no acceleration, friction at its limit on every rough surface.
    Limiting,
    /// Moving at constant speed.
    Steady,
    /// Released from rest: whether and which way it moves follows from the forces.
    Released,
    /// Moving; its acceleration is given or to be found.
    Moving,
    /// The instant of a jerk: strings that were slack tighten, or bodies meet. Only the impulses of the links
    /// count; [`Stage::links`] holds them, and each body's velocities before and after stand in a [`Journey`].
    Jerk,
}

/// One stage, or one of several states that the question compares
/// ("find the tension when the lift is (i) at rest, (ii) accelerating").
/// All signed quantities count along the bodies' lines.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stage {
    /// A name where there are several: `accelerating upwards`.
    pub name: String,
    /// What the question says of the motion.
    pub state: State,
    /// The direction of motion of one body, where the question gives it or it is plain
    /// (a driving force on level ground). With `Limiting`: the way it is about to move.
    pub heading: Option<Heading>,
    /// The acceleration of each body along its line, by body.
    pub accelerations: Vec<QuantityId>,
    /// The tension or push of each link, by link.
    pub links: Vec<QuantityId>,
    /// The size of each named force, by action.
    pub forces: Vec<QuantityId>,
    /// The normal reaction of each body's surface, by body; unused where there is no surface.
    pub reactions: Vec<Option<QuantityId>>,
    /// The friction on each body, along its line, by body; only on rough surfaces.
    pub frictions: Vec<Option<QuantityId>>,
    /// Journeys whose speeds, distances or times the question speaks of.
    pub journeys: Vec<Journey>,
    /// Links that are not there in this stage (cut, slack by the story).
    pub without_links: Vec<LinkId>,
    /// Named forces that do not act in this stage.
    pub without_actions: Vec<ActionId>,
    /// Bodies that stay where they are in this stage, whatever the forces: held, or lying where they landed.
    pub held: Vec<BodyId>,
    /// Bodies about to slip on their surface, though they do not yet: their friction is at its limit, and they
    /// move with what they stand on. ([`State::Limiting`] says so of all bodies, at rest.)
    pub about_to_slip: Vec<BodyId>,
    /// The stage that this one follows, and what happened in between; `None` for a first stage and for
    /// states that are only compared. What both stages speak of (the speed at which one ends and the other
    /// begins) is one and the same quantity in both.
    pub begins: Option<Begins>,
    /// Where the question describes it.
    pub span: Option<Span>,
}

/// How a stage comes about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Begins {
    /// The stage before.
    pub after: StageId,
    /// What ends that one and begins this one.
    pub with: Happening,
    /// Where the question says so.
    pub span: Option<Span>,
}

/// What ends one stage and begins the next.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Happening {
    /// A link is cut, breaks or is let go.
    Breaks(LinkId),
    /// A string goes slack.
    Slackens(LinkId),
    /// A slack string becomes taut.
    Tightens(LinkId),
    /// A body comes to the end of its way and stays there.
    Stops {
        /// Which.
        body: BodyId,
        /// Where: `the floor`, `the buffer`.
        at: String,
    },
    /// A body comes to rest, perhaps for an instant only.
    Rests(BodyId),
    /// A named force stops acting.
    Ends(ActionId),
    /// A named force begins to act.
    Starts(ActionId),
    /// The way of moving changes, or a force changes its size.
    Changes,
}

/// The direction of motion of a body.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Heading {
    /// The body.
    pub body: BodyId,
    /// +1 in the positive sense of its line, −1 against.
    pub sense: i8,
}

/// A stretch of constant acceleration: u, v, s, t of one body, all counted in its positive sense of the
/// stage, which is its direction of motion where that is known. [`Kind::Speed`](crate::Kind::Speed) and
/// [`Kind::Distance`](crate::Kind::Distance) are never negative; a journey on which the body turns back has
/// [`Kind::Velocity`](crate::Kind::Velocity) and [`Kind::Displacement`](crate::Kind::Displacement). A body may
/// have several journeys in one stage (to its highest point, and to the end). In a jerk only the two speeds count.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Journey {
    /// Whose.
    pub body: BodyId,
    /// Speed at its start.
    pub start_speed: QuantityId,
    /// Speed at its end.
    pub end_speed: QuantityId,
    /// Distance travelled.
    pub distance: QuantityId,
    /// Time taken.
    pub time: QuantityId,
}
