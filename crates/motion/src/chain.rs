//! Stages that follow one another: each must begin the way the one before ends.

use crate::Solved;
use crate::story::Story;
use model::{Diagnostic, Refusal, Situation, StageId};

/// Is this stage no part of a story: follows none, and none follows it?
pub(crate) fn stands_alone(situation: &Situation, stage: StageId) -> bool {
    let begins = |s: &model::Stage| s.begins.as_ref().map(|b| b.after);
    situation.stage(stage).is_none_or(|s| begins(s).is_none())
        && !situation.stages.iter().any(|s| begins(s) == Some(stage))
}

/// What the story says of the beginning of a stage and the stage before contradicts.
pub(crate) fn broken(
    _story: &Story,
    _before: &[Result<Solved, Vec<Diagnostic>>],
    _solved: &Solved,
) -> Vec<Diagnostic> {
    Vec::new()
}

/// The first stage of the story to which this one belongs.
fn beginning(situation: &Situation, stage: usize) -> usize {
    let mut at = stage;
    while let Some(before) = situation.stages.get(at).and_then(|s| s.begins.as_ref()).map(|b| b.after.0) {
        if before >= at {
            break;
        }
        at = before;
    }
    at
}

/// A story in which one stage cannot be as it is told has no answers: the others say so too.
pub(crate) fn all_or_none(
    situation: &Situation,
    mut found: Vec<Result<Solved, Vec<Diagnostic>>>,
) -> Vec<Result<Solved, Vec<Diagnostic>>> {
    let wrong = |d: &Diagnostic| {
        matches!(d.refusal, Some(Refusal::Contradictory | Refusal::Impossible | Refusal::Unread))
    };
    let mut faults: Vec<(usize, Vec<Diagnostic>)> = Vec::new();
    for (at, result) in found.iter().enumerate() {
        let start = beginning(situation, at);
        if let Err(why) = result
            && why.iter().any(wrong)
            && !faults.iter().any(|(s, _)| *s == start)
        {
            faults.push((start, why.clone()));
        }
    }
    for (at, result) in found.iter_mut().enumerate() {
        let start = beginning(situation, at);
        if let (Ok(_), Some((_, why))) = (&result, faults.iter().find(|(s, _)| *s == start)) {
            *result = Err(why.clone());
        }
    }
    found
}
