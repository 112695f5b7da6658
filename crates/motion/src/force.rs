//! The forces on each body in one stage, each with its direction and its origin.

use crate::Factor;
use model::{ActionId, BodyId, LinkId, Span};

/// The number of a force in its [`Solved`](crate::Solved) stage.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ForceId(pub usize);

/// What a force is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ForceKind {
    /// The weight of the body.
    Weight,
    /// The normal reaction of its surface.
    Reaction,
    /// Friction of its surface.
    Friction,
    /// The force of a link: tension, thrust, or the push of a contact.
    Link(LinkId),
    /// A force that the question names.
    Action(ActionId),
}

/// One force on one body. Its size is the product of `size`, positive in the solved stage;
/// its direction is the sum of a part along the body's line and a part across it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Force {
    /// Its number.
    pub id: ForceId,
    /// The body on which it acts.
    pub on: BodyId,
    /// What it is.
    pub kind: ForceKind,
    /// In words: `tension in the tow-bar`.
    pub name: String,
    /// Its size: `T`, or `m g`.
    pub size: Vec<Factor>,
    /// The share of it along the line, counted in the line's own positive sense (right, up, up the slope).
    pub along: Share,
    /// The share of it across the line, away from the surface counted positive.
    pub across: Share,
    /// True for a rod's force that pushes.
    pub thrust: bool,
    /// The other force of the pair (Newton's third law), where it acts on a body of the situation.
    pub partner: Option<ForceId>,
    /// The phrase that put it there.
    pub span: Option<Span>,
}

/// How much of a force acts in one direction: nothing, all of it, or its sine or cosine share, with a sign.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Share {
    /// Nothing.
    None,
    /// All of it, in this sense.
    All(i8),
    /// × sin of the angle, in this sense.
    Sin(i8, model::QuantityId),
    /// × cos of the angle, in this sense.
    Cos(i8, model::QuantityId),
}

impl Share {
    /// Its sense: −1, 0 or 1.
    pub fn sense(self) -> i8 {
        match self {
            Share::None => 0,
            Share::All(s) | Share::Sin(s, _) | Share::Cos(s, _) => s,
        }
    }
}
