//! From a situation to its pool of equations, its cases and its values.

mod force;
mod pool;
mod solved;

pub use force::{Force, ForceId, ForceKind, Share};
pub use pool::{Equation, EquationId, Factor, JourneyLaw, Law, Origin, Term};
pub use solved::{About, Case, Condition, FrictionState, LinkState, Solved};

use model::{Diagnostic, Situation, StageId};

/// Solves one stage with the givens of one part (counting from 0) and those before it.
///
/// # Errors
/// Why there is no answer: incomplete, contradictory, undetermined or impossible givens, with their places.
pub fn solve(situation: &Situation, stage: StageId, part: usize) -> Result<Solved, Vec<Diagnostic>> {
    let _ = (situation, stage, part);
    Err(Vec::new())
}
