//! Holds what the question says of the motion against the solution.

use crate::Solved;
use crate::sign_with_positive_letters;
use exact::Sign;
use model::{Claimed, Diagnostic, Refusal, Situation, State};

/// Everything that the question says of the motion in this stage and that the solution contradicts.
pub(crate) fn broken(situation: &Situation, solved: &Solved) -> Vec<Diagnostic> {
    let Some(stage) = situation.stage(solved.stage) else { return Vec::new() };
    let mut found = Vec::new();
    for claim in situation.claims.iter().filter(|c| c.stage == solved.stage) {
        let Some(body) = situation.body(claim.body) else { continue };
        let positive = solved.senses.get(claim.body.0).copied().unwrap_or(1);
        let acceleration = solved.acceleration(claim.body).and_then(sign_with_positive_letters);
        let from_rest = stage.state == State::Released;
        let moves = match (from_rest, acceleration) {
            // Released from rest, it goes where it accelerates.
            (true, Some(Sign::Positive)) => Some(positive),
            (true, Some(Sign::Negative)) => Some(-positive),
            (true, Some(Sign::Zero)) => Some(0),
            (true, None) => None,
            (false, _) => Some(positive),
        };
        let wrong = match (claim.says, moves, acceleration) {
            (Claimed::Heads(sense), Some(0), _) => {
                let _ = sense;
                Some(format!("the question says that {} moves, but it stays at rest", body.name))
            }
            (Claimed::Heads(sense), Some(moves), _) if moves != sense => {
                Some(format!("the question says which way {} moves, but it moves the other way", body.name))
            }
            (Claimed::Accelerates(sense), _, Some(sign))
                if (sign == Sign::Positive && sense != positive)
                    || (sign == Sign::Negative && sense == positive)
                    || sign == Sign::Zero =>
            {
                Some(format!(
                    "the question says which way {} accelerates, but it accelerates the other way",
                    body.name
                ))
            }
            (Claimed::SpeedsUp, _, Some(Sign::Negative)) if !from_rest => {
                Some(format!("the question says that {} gets faster, but it slows down", body.name))
            }
            (Claimed::SlowsDown, _, Some(Sign::Positive)) => {
                Some(format!("the question says that {} slows down, but it gets faster", body.name))
            }
            _ => None,
        };
        if let Some(says) = wrong {
            let hint = "check the direction and the numbers in the question";
            found.push(Diagnostic::refuse(Refusal::Contradictory, says).at(claim.span).hint(hint));
        }
    }
    found
}
