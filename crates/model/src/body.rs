//! Bodies and what they stand on.

use crate::{QuantityId, Span};

/// The number of a body in its situation.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct BodyId(pub usize);

/// What a body looks like; decides the drawing and some wording, never the mechanics.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Form {
    /// A particle with a letter.
    Particle,
    /// A block, crate, box, sledge: anything that lies.
    Block,
    /// Something with an engine: car, van, locomotive, tractor.
    Vehicle,
    /// Something on wheels that is towed: trailer, truck, wagon, caravan.
    Trailer,
    /// Lift, hoist cage, pan: something that carries others on its floor.
    Lift,
    /// A person.
    Person,
    /// A load that hangs: bucket, weight, ball.
    Load,
    /// A pulley that moves with its string; the only body that may have no mass.
    Pulley,
}

/// A body, treated as a particle.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Body {
    /// How to speak of it, with its article: `the trailer`, `particle A`, `A`.
    pub name: String,
    /// A short label for diagrams and indices: `A`, `trailer`.
    pub label: String,
    /// What it looks like.
    pub form: Form,
    /// Its mass.
    pub mass: QuantityId,
    /// The line along which it moves.
    pub line: Line,
    /// What it stands on, unless it hangs or rests on another body.
    pub surface: Option<Surface>,
    /// Where the question introduces it.
    pub span: Option<Span>,
}

/// The line along which a body moves, with the sense that counts as positive:
/// level, to the right (forwards); vertical, up; slope, up the slope.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Line {
    /// Level ground or table.
    Level,
    /// Straight up and down.
    Vertical,
    /// A slope at this angle to the horizontal. `rises_right` is for the drawing.
    Slope {
        /// The angle to the horizontal.
        angle: QuantityId,
        /// Does the slope rise to the right in the drawing?
        rises_right: bool,
    },
}

/// What a body stands on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Surface {
    /// Table, road, plane, track ...
    pub name: String,
    /// Its roughness.
    pub grip: Grip,
    /// The body whose top it is, where that is a body of the situation (a block on a truck): reaction and
    /// friction act on that body too, the other way round. Both move along the same kind of line.
    pub under: Option<BodyId>,
    /// The coefficient while sliding, where the question tells it apart from that of [`Grip::Rough`].
    pub sliding: Option<QuantityId>,
    /// Where the question says so.
    pub span: Option<Span>,
}

impl Surface {
    /// A surface that is no body's top, with one coefficient of friction if any.
    pub fn new(name: &str, grip: Grip) -> Surface {
        Surface { name: name.to_owned(), grip, under: None, sliding: None, span: None }
    }
}

/// Roughness of a surface.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grip {
    /// No friction.
    Smooth,
    /// Friction up to μR.
    Rough(QuantityId),
    /// Nothing said: wheels, or resistances named as forces. No friction is modelled.
    Unsaid,
}
