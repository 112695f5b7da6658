//! From a situation to its pool of equations, its cases and its values.

mod answer;
mod attempt;
mod check;
mod finish;
mod force;
mod forces;
mod general;
mod groups;
mod judge;
mod lower;
mod pool;
mod pulley;
mod remarks;
mod rest;
mod runs;
mod search;
mod setting;
mod sign;
mod solve;
mod solved;
mod sparse;
mod write;

pub use answer::{Answer, answer, shown_agrees};
pub use check::check;
pub use force::{Force, ForceId, ForceKind, Share};
pub use pool::{Equation, EquationId, Factor, JourneyLaw, Law, Origin, Term};
pub use pulley::pulley_force;
pub use remarks::remarks;
pub use sign::sign_with_positive_letters;
pub use solve::solve;
pub use solved::{About, Case, Condition, FrictionState, LinkState, Solved};
