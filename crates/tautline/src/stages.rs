//! What happens in each stage solved, in words.

use model::Situation;
use motion::{FrictionState, LinkState, Solved};

/// What holds in a stage: whether the bodies move, which strings are taut, what slides.
pub(crate) fn regime(situation: &Situation, solved: &Solved) -> String {
    let mut says = Vec::new();
    let name = situation.stage(solved.stage).map(|s| s.name.trim()).unwrap_or_default();
    says.extend((!name.is_empty()).then(|| name.to_owned()));
    says.extend(motion::begins(situation, solved.stage).map(|how| format!("begins as {how}")));
    says.push(if solved.case.moves { "the bodies move" } else { "the bodies stay at rest" }.to_owned());
    for (link, state) in situation.links.iter().zip(&solved.case.links) {
        match (state, link.is_contact) {
            (LinkState::Holding, false) => says.push(format!("{} holds", link.name)),
            (LinkState::Holding, true) => says.push(format!("{} lasts", link.name)),
            (LinkState::Loose, false) => says.push(format!("{} is slack", link.name)),
            (LinkState::Loose, true) => says.push(format!("{} is lost", link.name)),
            (LinkState::Absent, _) => {}
        }
    }
    for (body, state) in situation.bodies.iter().zip(&solved.case.frictions) {
        match state {
            FrictionState::Sliding => says.push(format!("{} slides", body.name)),
            FrictionState::Limiting => says.push(format!("{} is on the point of sliding", body.name)),
            FrictionState::Static => says.push(format!("friction holds {}", body.name)),
            FrictionState::NoFriction => {}
        }
    }
    says.join("; ")
}

/// What ends a stage, with its time, distance and speed, where something ends it; else empty.
pub(crate) fn ends(situation: &Situation, solved: &Solved) -> String {
    motion::ends(situation, solved.stage, std::slice::from_ref(solved)).unwrap_or_default()
}
