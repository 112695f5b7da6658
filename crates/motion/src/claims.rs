//! Holds what the question says of the motion against the solution.

use crate::{Factor, ForceKind, Solved, sign_with_positive_letters};
use exact::{Sign, Value};
use model::{BodyId, Claimed, Diagnostic, LinkId, Refusal, Situation, Stage, State};

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
        let wrong = match (&claim.says, moves, acceleration) {
            (Claimed::Heads(_), Some(0), _) => {
                Some(format!("the question says that {} moves, but it stays at rest", body.name))
            }
            (Claimed::Heads(sense), Some(moves), _) if moves != *sense => {
                Some(format!("the question says which way {} moves, but it moves the other way", body.name))
            }
            (Claimed::Accelerates(sense), _, Some(sign))
                if (sign == Sign::Positive && *sense != positive)
                    || (sign == Sign::Negative && *sense == positive)
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
            (Claimed::Heavier(other), ..) => lighter(situation, solved, claim.body, *other)
                .map(|name| format!("{name} is called the heavier, but its mass comes out smaller")),
            (Claimed::Within(limit), ..) if goes_further(stage, solved, limit) => Some(format!(
                "{} would have come to the end of its way before; what happens then is not followed here",
                body.name
            )),
            (Claimed::Thrusts(link), ..) if pulls(solved, *link) => {
                let name = situation.link(*link).map_or("it", |l| l.name.as_str());
                Some(format!("the question speaks of a thrust, but {name} is in tension"))
            }
            _ => None,
        };
        if let Some(says) = wrong {
            let (kind, hint) = match claim.says {
                Claimed::Within(_) => (Refusal::Unread, "ask about the motion before that"),
                _ => (Refusal::Contradictory, "check the direction and the numbers in the question"),
            };
            found.push(Diagnostic::refuse(kind, says).at(claim.span).hint(hint));
        }
    }
    found
}

/// The name of the first body, if its mass comes out smaller than the other's.
fn lighter(situation: &Situation, solved: &Solved, body: BodyId, other: BodyId) -> Option<String> {
    let mass = |b: BodyId| solved.value(situation.body(b)?.mass);
    let difference = mass(body)? - mass(other)?;
    let smaller = sign_with_positive_letters(&difference) == Some(Sign::Negative);
    if smaller { situation.body(body).map(|b| b.name.clone()) } else { None }
}

/// Does any journey of the stage go further than this?
fn goes_further(stage: &Stage, solved: &Solved, limit: &Value) -> bool {
    stage
        .journeys
        .iter()
        .filter_map(|j| solved.value(j.distance))
        .any(|distance| sign_with_positive_letters(&(distance - limit)) == Some(Sign::Positive))
}

/// Does the link pull?
fn pulls(solved: &Solved, link: LinkId) -> bool {
    solved.forces.iter().any(|f| {
        f.kind == ForceKind::Link(link)
            && !f.thrust
            && f.size.iter().any(|factor| match factor {
                Factor::Quantity(q) => {
                    solved.value(*q).and_then(sign_with_positive_letters) == Some(Sign::Positive)
                }
                _ => false,
            })
    })
}
