//! From a situation to its pool of equations, its cases and its values.
//!
//! [`solve`] supposes what holds (which strings are taut, what rests, which way the rest moves), likeliest
//! first; writes one equation of motion for each body and all the other laws; eliminates exactly; and keeps
//! the supposition whose inequalities hold. Then it orients everything so that sizes are positive and writes
//! the whole pool, each term with the force or the fact that it comes from. [`check`] puts the values back
//! into all of it, [`answer`] reads off what is asked, [`remarks`] says what is unlikely.
//!
//! There is one mechanism and no list of kinds of question: a mass, a force, a coefficient, a time or an
//! angle is found by the same elimination as an acceleration or a tension.

mod answer;
mod attempt;
mod bounds;
mod carry;
mod chain;
mod check;
mod choice;
mod claims;
mod effect;
mod ends;
mod finish;
mod force;
mod forces;
mod general;
mod groups;
mod in_general;
mod jerk;
mod joint;
mod judge;
mod least;
mod lower;
mod matter;
mod pool;
mod pulley;
mod range;
mod reasons;
mod remarks;
mod rest;
mod runs;
mod search;
mod setting;
mod several;
mod sharing;
mod short;
mod sign;
mod solve;
mod solved;
mod sparse;
mod stack;
mod story;
mod system;
mod told;
mod whether;
mod write;

pub use answer::{Answer, answer, shown_agrees};
pub use bounds::Bound;
pub use check::check;
pub use effect::{Changed, Effect, effect};
pub use ends::{begins, ends};
pub use force::{Force, ForceId, ForceKind, Share};
pub use in_general::in_general;
pub use matter::{Finding, Side, Supposed, Test, stage_of, whether};
pub use pool::{Equation, EquationId, Factor, JourneyLaw, Law, Origin, Term};
pub use pulley::pulley_force;
pub use range::{End, Interval, Range, range};
pub use remarks::remarks;
pub use sign::sign_with_positive_letters;
pub use solve::{solve, solve_each, solve_story, values};
pub use solved::{About, Case, Condition, FrictionState, LinkState, Solved};
