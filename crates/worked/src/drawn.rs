//! The figures of a question: each situation of its story once, and force diagrams for every stage whose forces are new.

use figure::Figure;
use model::{Situation, StageId};
use motion::Solved;

/// The situation first, then the force diagrams of the stages solved, in order; a stage that follows another one has
/// a picture of its situation too.
pub(crate) fn figures(situation: &Situation, solved: &[Solved]) -> Vec<Figure> {
    let mut figures = vec![figure::scene(situation, solved.first())];
    for (i, stage) in solved.iter().enumerate() {
        let scene = (i > 0 && follows(situation, stage.stage)).then(|| figure::scene(situation, Some(stage)));
        for figure in scene.into_iter().chain(figure::diagrams(situation, stage)) {
            if !figures.iter().any(|f| f.shows_the_same_as(&figure)) {
                figures.push(figure);
            }
        }
    }
    figures
}

/// Does this stage follow another one in a story?
fn follows(situation: &Situation, stage: StageId) -> bool {
    situation.stage(stage).is_some_and(|s| s.begins.is_some())
}
