//! The figures of a question: the situation once, and force diagrams for every stage whose forces are new.

use figure::Figure;
use model::{BodyId, Situation};
use motion::Solved;

/// The situation first, then the force diagrams of the stages solved, in order.
pub(crate) fn figures(situation: &Situation, solved: &[Solved]) -> Vec<Figure> {
    let mut figures = vec![figure::scene(situation, solved.first())];
    let several = situation.stages.len() > 1;
    for stage in solved {
        for mut diagram in diagrams(situation, stage) {
            // The description says every force and its size: equal words, equal picture.
            if figures.iter().any(|f| f.title == diagram.title && f.description == diagram.description) {
                continue;
            }
            let name = situation.stage(stage.stage).map(|s| s.name.trim()).unwrap_or_default();
            if several && !name.is_empty() {
                diagram.caption = format!("{}, {name}", diagram.caption);
            }
            figures.push(diagram);
        }
    }
    figures
}

/// One diagram for each body, and one for all together where there are several.
fn diagrams(situation: &Situation, solved: &Solved) -> Vec<Figure> {
    let bodies: Vec<BodyId> = situation.body_ids().collect();
    let mut diagrams: Vec<Figure> =
        bodies.iter().map(|body| figure::forces(situation, solved, *body)).collect();
    if bodies.len() > 1 {
        diagrams.push(figure::system_forces(situation, solved, &bodies));
    }
    diagrams
}
