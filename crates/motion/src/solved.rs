//! What solving one stage gives: the case that holds, the forces, the pool and the values.

use crate::{Equation, Force, ForceId, ForceKind};
use exact::{Angle, Value};
use model::{BodyId, LinkId, QuantityId, StageId};
use std::collections::BTreeMap;

/// One stage, solved with the givens that hold in one part of the question.
///
/// *Orientation.* Each body has a positive sense on its line (`senses`): its direction of motion where that is
/// known, else the direction of its acceleration, so that every acceleration is written `a`. Sizes of forces are
/// positive in the direction that [`Force`] gives. `values` are in this orientation.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Solved {
    /// The stage.
    pub stage: StageId,
    /// Givens of this part and of those before it were used.
    pub part: usize,
    /// What holds: which strings are taut, what slides.
    pub case: Case,
    /// The positive sense of each body, +1 or −1 on its own line.
    pub senses: Vec<i8>,
    /// The quantity that stands for the acceleration of each body: bodies that a link keeps together share one.
    pub accelerations: Vec<QuantityId>,
    /// All forces.
    pub forces: Vec<Force>,
    /// Every equation that a person could write.
    pub equations: Vec<Equation>,
    /// The value of every quantity that the givens and the pool determine, known ones included.
    pub values: BTreeMap<QuantityId, Value>,
    /// Angles that were not given and are found, by their sines.
    pub angles: BTreeMap<QuantityId, Angle>,
    /// Quantities that they do not determine, with the reason.
    pub undetermined: Vec<(QuantityId, String)>,
    /// The inequalities, each with the values that satisfy it.
    pub conditions: Vec<Condition>,
}

/// Which links hold and what the surfaces do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Case {
    /// By link.
    pub links: Vec<LinkState>,
    /// By body; `NoFriction` where there is none.
    pub frictions: Vec<FrictionState>,
    /// Do the bodies move in this stage (as opposed to staying at rest)?
    pub moves: bool,
}

/// What a link does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum LinkState {
    /// It pulls (or, a contact, pushes), or may: it keeps its ends together.
    Holding,
    /// A string gone slack, a contact parted.
    Loose,
    /// Not there in this stage.
    Absent,
}

/// What friction does on a body.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum FrictionState {
    /// There is none.
    NoFriction,
    /// Not at its limit: as much as balance needs.
    Static,
    /// At its limit, the body still at rest.
    Limiting,
    /// At its limit, against the sliding.
    Sliding,
}

/// An inequality that decided the case: `left` is at most `right`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Condition {
    /// In words: `the string is taut`.
    pub says: String,
    /// The smaller side.
    pub left: Value,
    /// The larger side.
    pub right: Value,
    /// What it is about.
    pub about: About,
}

/// What a condition is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum About {
    /// A link that can only pull or only push.
    Link(LinkId),
    /// A link that bears no more than a certain force.
    Bears(LinkId),
    /// A body that stays on its surface.
    Contact(BodyId),
    /// Friction on a body, at most μR.
    Friction(BodyId),
    /// A body that starts to move in the direction of its acceleration.
    Motion(BodyId),
}

impl Solved {
    /// The value of a quantity in this stage's orientation.
    pub fn value(&self, id: QuantityId) -> Option<&Value> {
        self.values.get(&id)
    }
    /// The acceleration of a body in its positive sense of this stage.
    pub fn acceleration(&self, body: BodyId) -> Option<&Value> {
        self.value(*self.accelerations.get(body.0)?)
    }
    /// The forces on a body.
    pub fn forces_on(&self, body: BodyId) -> impl Iterator<Item = &Force> {
        self.forces.iter().filter(move |f| f.on == body)
    }
    /// A force by number.
    pub fn force(&self, id: ForceId) -> Option<&Force> {
        self.forces.get(id.0)
    }
    /// The force of a link on a body.
    pub fn link_force(&self, link: LinkId, body: BodyId) -> Option<&Force> {
        self.forces.iter().find(|f| f.on == body && f.kind == ForceKind::Link(link))
    }
}
