//! What happens in each stage solved, in words.

use model::{Journey, Situation};
use motion::{FrictionState, LinkState, Solved};

/// What holds in a stage: whether the bodies move, which strings are taut, what slides.
pub(crate) fn regime(situation: &Situation, solved: &Solved) -> String {
    let mut says = Vec::new();
    let name = situation.stage(solved.stage).map(|s| s.name.trim()).unwrap_or_default();
    says.extend((!name.is_empty()).then(|| name.to_owned()));
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

/// What ends a stage, where the question tells of an end: a time, a distance, a speed.
pub(crate) fn ends(situation: &Situation, solved: &Solved) -> String {
    let journeys = situation.stage(solved.stage).map(|s| s.journeys.as_slice()).unwrap_or_default();
    journeys.iter().find_map(|j| end(situation, solved, j)).unwrap_or_default()
}

fn end(situation: &Situation, solved: &Solved, journey: &Journey) -> Option<String> {
    let written = |id| {
        let known = situation.quantity(id)?.known.as_ref()?;
        (known.from_part <= solved.part).then(|| known.written.clone())
    };
    let name = situation.body(journey.body).map(|b| b.name.as_str()).unwrap_or("the body");
    if let Some(time) = written(journey.time) {
        return Some(format!("after {time}"));
    }
    if let Some(distance) = written(journey.distance) {
        return Some(format!("when {name} has moved {distance}"));
    }
    let speed = written(journey.end_speed)?;
    let rest = situation.known(journey.end_speed, solved.part).is_some_and(exact::Value::is_zero);
    Some(if rest {
        format!("when {name} comes to rest")
    } else {
        format!("when the speed of {name} is {speed}")
    })
}
