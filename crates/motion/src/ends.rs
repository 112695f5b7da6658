//! How a stage begins and ends, in words.

use crate::Solved;
use crate::judge::with_unit;
use exact::Value;
use model::{Begins, Happening, Journey, Kind, QuantityId, Situation, StageId};

/// What begins a stage, in words: `Q reaches the floor`; `None` for a first stage.
pub fn begins(situation: &Situation, stage: StageId) -> Option<String> {
    situation.stage(stage)?.begins.as_ref().map(|b| happening(situation, b))
}

/// What ends a stage, in words, with the time that it took, the way covered and the speed then, as far as they
/// are known: `Q reaches the floor, after 0.714 s, when it has moved 0.5 m and moves at 1.4 m s^-1`. Exact values where
/// they are short, else 3 significant figures. `None` where nothing ends it.
///
/// `solved` may hold any stages in any order; the one meant is looked up.
pub fn ends(situation: &Situation, stage: StageId, solved: &[Solved]) -> Option<String> {
    let this = situation.stage(stage)?;
    let found = solved.iter().rev().find(|s| s.stage == stage);
    let next = situation.stages.iter().find(|s| s.begins.as_ref().is_some_and(|b| b.after == stage));
    let taken_up =
        |j: &&Journey| next.is_some_and(|n| n.journeys.iter().any(|l| l.start_speed == j.end_speed));
    let whose = next.and_then(|n| n.begins.as_ref()).and_then(|b| match &b.with {
        Happening::Rests(body) | Happening::Stops { body, .. } => Some(*body),
        _ => None,
    });
    let journeys = || this.journeys.iter();
    let last = journeys()
        .find(|j| whose == Some(j.body))
        .or_else(|| journeys().find(taken_up))
        .or_else(|| journeys().next_back());
    let details = last.zip(found).map(|(j, s)| of_journey(situation, s, j, whose)).unwrap_or_default();
    let event = next.and_then(|n| n.begins.as_ref()).map(|b| happening(situation, b));
    let told = last.is_some_and(|j| {
        [j.time, j.distance, j.end_speed]
            .iter()
            .any(|id| situation.quantity(*id).is_some_and(|q| q.known.is_some()))
    });
    match event {
        Some(event) if details.is_empty() => Some(event),
        Some(event) => Some(format!("{event}, {details}")),
        None => (told && !details.is_empty()).then_some(details),
    }
}

fn happening(situation: &Situation, begins: &Begins) -> String {
    let body = |id: model::BodyId| situation.body(id).map_or("the body", |b| b.name.as_str());
    let link = |id: model::LinkId| situation.link(id).map_or("the string", |l| l.name.as_str());
    let action = |id: model::ActionId| situation.action(id).map_or("the force", |a| a.name.as_str());
    match &begins.with {
        Happening::Breaks(id) => format!("{} breaks", link(*id)),
        Happening::Slackens(id) => format!("{} goes slack", link(*id)),
        Happening::Tightens(id) => format!("{} becomes taut", link(*id)),
        Happening::Stops { body: id, at } => format!("{} reaches {at}", body(*id)),
        Happening::Rests(id) => format!("{} comes to rest", body(*id)),
        Happening::Ends(id) => format!("{} stops acting", action(*id)),
        Happening::Starts(id) => format!("{} begins to act", action(*id)),
        Happening::Changes => "the motion changes".to_owned(),
    }
}

/// Time, distance and speed at the end of a journey, as far as they are known.
fn of_journey(
    situation: &Situation,
    solved: &Solved,
    journey: &Journey,
    whose: Option<model::BodyId>,
) -> String {
    let kind = |id: QuantityId| situation.quantity(id).map_or(Kind::Number, |q| q.kind);
    let shown = |id: QuantityId| solved.value(id).map(|v| with_unit(v, kind(id)));
    let name = match whose {
        Some(body) if body == journey.body => "it",
        _ => situation.body(journey.body).map_or("it", |b| b.name.as_str()),
    };
    let mut parts: Vec<String> = Vec::new();
    parts.extend(shown(journey.time).map(|t| format!("after {t}")));
    let zero = |id| solved.value(id).is_some_and(Value::is_zero);
    let mut then: Vec<String> = Vec::new();
    match (shown(journey.distance), kind(journey.distance)) {
        (Some(_), Kind::Displacement) if zero(journey.distance) => {
            then.push("is back where it was".to_owned())
        }
        (Some(s), Kind::Displacement) => then.push(format!("is {s} from where it was")),
        (Some(s), _) => then.push(format!("has moved {s}")),
        (None, _) => {}
    }
    if let Some(v) = solved.value(journey.end_speed) {
        let size =
            if exact::Sign::Negative == crate::sign_with_positive_letters(v).unwrap_or(exact::Sign::Zero) {
                -v
            } else {
                v.clone()
            };
        then.push(if v.is_zero() {
            "is at rest".to_owned()
        } else {
            format!("moves at {}", with_unit(&size, Kind::Speed))
        });
    }
    if !then.is_empty() {
        parts.push(format!("when {name} {}", then.join(" and ")));
    }
    parts.join(", ")
}
