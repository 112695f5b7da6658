//! The situation that a question describes: pure data and its soundness rules.
//!
//! Bodies are particles on lines; links join them; named forces act on them; stages
//! say how they move. [`Builder`] makes a situation in a few lines, and
//! [`Situation::check`] says what is unsound about one.
//!
//! Nothing here reads text, solves or draws: this crate is the plain value that
//! passes between those that do.

mod action;
mod ask;
mod body;
mod builder;
mod diagnostic;
mod letters;
mod link;
mod matter;
mod quantity;
mod situation;
mod soundness;
mod span;
mod stage;

pub use action::{Action, ActionId, Direction, Role};
pub use ask::{Accuracy, Ask, Change, Topic, Wanted};
pub use body::{Body, BodyId, Form, Grip, Line, Surface};
pub use builder::Builder;
pub use diagnostic::{Diagnostic, Refusal, Severity, Suggestion};
pub use link::{End, Holds, Link, LinkId, Pulley, PulleyId};
pub use matter::{Comparison, Matter};
pub use quantity::{Basis, Kind, Known, Quantity, QuantityId};
pub use situation::{Claim, Claimed, Letter, Relation, Situation};
pub use span::Span;
pub use stage::{Begins, Happening, Heading, Journey, Stage, StageId, State};
