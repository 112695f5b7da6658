//! Draws a situation and its force diagrams as SVG.
//!
//! A drawing is first laid out as plain marks ([`overlaps`] measures them), then written as SVG. The layout
//! follows from the lines, links and pulleys of the situation; no sort of question has a picture of its own.
//!
//! Groups in the SVG carry `data-tie`: `force-3` for the force with that number in the solved stage, `body-0`, `link-1`
//! and `action-2` for the numbers of the situation, so that a page can light a term, its arrow
//! and its phrase together.
//!
//! ```
//! use model::{Builder, Form, Line, State, StageId};
//! let mut b = Builder::new();
//! let p = b.body("bucket P", "P", Form::Load, Line::Vertical, Some(3.into()));
//! let q = b.body("bucket Q", "Q", Form::Load, Line::Vertical, Some(5.into()));
//! b.over_pulley("the rope", p, q);
//! let stage = b.stage(State::Released);
//! b.ask_acceleration("a", stage, p);
//! let situation = b.finish();
//! let picture = figure::scene(&situation, None);
//! assert!(picture.svg.starts_with("<svg"));
//! assert!(figure::overlaps(&picture).is_empty());
//! if let Ok(solved) = motion::solve(&situation, StageId(0), 0) {
//!     let pictures = figure::all(&situation, &solved);
//!     assert_eq!(pictures.len(), 4, "the scene, two bodies, the whole system");
//!     assert_eq!(pictures[1].title, "Forces on bucket P");
//! }
//! ```

mod chain;
mod diagram;
mod drawing;
mod figure;
mod footing;
mod forces;
mod frame;
mod geometry;
mod glyph;
mod label;
mod metrics;
mod outline;
mod over;
mod overlap;
mod pile;
mod scene;
mod scenery;
mod story;
mod style;
mod svg;
mod system;
mod text;
mod told;
mod track;
mod wheel;
mod wording;

pub use figure::{Figure, overlaps};
pub use forces::forces;
pub use scene::scene;
pub use system::system_forces;

use model::{BodyId, Situation};
use motion::{ForceKind, Solved};
use system::{alike, are_joined, has_outside_forces};
use told::Kept;

/// All figures of a solved stage: the scene, then its [`diagrams`].
pub fn all(situation: &Situation, solved: &Solved) -> Vec<Figure> {
    let mut figures = vec![scene(situation, Some(solved))];
    figures.extend(diagrams(situation, solved));
    figures
}

/// The force diagrams of a solved stage: one for each body, and one for the whole system where several
/// bodies are joined and have accelerations of one size. Left out are bodies that a hand or a stop keeps still with a force that has no name, and in a jerk all
/// that no impulse acts on.
pub fn diagrams(situation: &Situation, solved: &Solved) -> Vec<Figure> {
    let kept = |body: BodyId| told::kept(situation, solved.stage, body);
    let acted_on = |body: BodyId| {
        let carried = solved.forces_on(body).any(|f| f.kind == ForceKind::Reaction);
        let whole = match kept(body) {
            Some(Kept::Landed(_)) => carried,
            Some(_) => false,
            None => true,
        };
        let jerk = told::is_jerk(situation, solved.stage);
        whole && !(jerk && solved.forces_on(body).next().is_none())
    };
    let shown: Vec<BodyId> = situation.body_ids().filter(|b| acted_on(*b)).collect();
    let mut figures: Vec<Figure> = shown.iter().map(|body| forces(situation, solved, *body)).collect();
    let free: Vec<BodyId> = shown.into_iter().filter(|b| kept(*b).is_none()).collect();
    let system = free.len() > 1 && alike(solved, &free) && are_joined(situation, solved, &free);
    if system && has_outside_forces(situation, solved, &free) {
        figures.push(system_forces(situation, solved, &free));
    }
    figures
}
