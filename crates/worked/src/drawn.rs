//! The figures of a question: each situation of its story once, and force diagrams for every stage whose forces are new.

use figure::Figure;
use model::{QuantityId, Situation, StageId};
use motion::Solved;
use std::collections::BTreeMap;

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

/// The situation with the letters of the working, so that the figures beside it write the same.
pub(crate) fn with_letters(situation: &Situation, letters: &BTreeMap<QuantityId, String>) -> Situation {
    let mut renamed = situation.clone();
    for (id, letter) in letters {
        if let Some(quantity) = renamed.quantities.get_mut(id.0) {
            quantity.letter = letter.clone();
        }
    }
    renamed
}

/// Does this stage follow another one in a story?
fn follows(situation: &Situation, stage: StageId) -> bool {
    situation.stage(stage).is_some_and(|s| s.begins.is_some())
}
