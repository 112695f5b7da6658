//! A body that comes to rest before it has gone as far, or moved as long, as the question says.

use crate::forces;
use crate::judge::with_unit;
use crate::search::{Verdict, search};
use crate::setting::Setting;
use crate::sign::sign_with_positive_letters;
use exact::{Sign, Value};
use model::{Basis, Diagnostic, Journey, Kind, Refusal, Span};

/// The journey of this stage that is told of and comes to its end too early, if that is what is the matter.
pub(crate) fn stops_short(setting: &Setting) -> Option<Diagnostic> {
    setting
        .stage
        .journeys
        .iter()
        .filter(|j| setting.kind(j.distance) == Kind::Distance)
        .find_map(|j| one(setting, j))
}

fn one(setting: &Setting, journey: &Journey) -> Option<Diagnostic> {
    let (distance, time) = (setting.value(journey.distance), setting.value(journey.time));
    if distance.is_none() && time.is_none() {
        return None;
    }
    let mut without = setting.clone();
    for id in [journey.distance, journey.time, journey.end_speed] {
        if let Some(slot) = without.known.get_mut(id.0) {
            *slot = None;
        }
    }
    let mut forces = forces::gather(&without);
    let Verdict::Holds(cases) = search(&without, &mut forces) else { return None };
    let [case] = cases.as_slice() else { return None };
    let slowing = -case.values.get(setting.stage.accelerations.get(journey.body.0)?)?;
    let speed = case.values.get(&journey.start_speed)?;
    if [&slowing, speed].iter().any(|v| sign_with_positive_letters(v) != Some(Sign::Positive)) {
        return None;
    }
    let least_time = speed.checked_div(&slowing).ok()?;
    let least_distance = (speed * &least_time).checked_div(&Value::from_int(2)).ok()?;
    let beyond =
        |told: &Value, end: &Value| sign_with_positive_letters(&(told - end)) == Some(Sign::Positive);
    let name = setting.body_name(journey.body.0);
    let (id, says) = match (distance, time) {
        (Some(s), _) if beyond(s, &least_distance) => {
            let (end, told) = (with_unit(&least_distance, Kind::Distance), with_unit(s, Kind::Distance));
            (journey.distance, format!("{name} comes to rest after {end}, before it has moved {told}"))
        }
        (_, Some(t)) if beyond(t, &least_time) => {
            let (end, told) = (with_unit(&least_time, Kind::Time), with_unit(t, Kind::Time));
            (journey.time, format!("{name} comes to rest after {end}, before {told} have passed"))
        }
        _ => return None,
    };
    let mut d = Diagnostic::refuse(Refusal::Contradictory, says);
    let known = setting.situation.quantity(id).and_then(|q| q.known.as_ref());
    match known.map(|k| &k.basis) {
        Some(Basis::Given(span) | Basis::Implied(span, _)) if *span != Span::default() => d.spans.push(*span),
        _ => d.spans.extend(setting.stage.span),
    }
    Some(d.hint("ask about the motion before that, or say what happens when it has come to rest"))
}
