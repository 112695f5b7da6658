//! Why there is no answer: an inequality that fails, or a given that does not go with the others.

use crate::attempt::Rejected;
use crate::finish::TOO_LONG;
use crate::forces;
use crate::judge::with_unit;
use crate::search::{Verdict, search};
use crate::setting::Setting;
use crate::short::stops_short;
use crate::sign::sign_with_positive_letters;
use exact::{Sign, Value};
use model::{Basis, Diagnostic, Kind, QuantityId, Refusal, Span};
use std::collections::BTreeMap;

/// No motion fits: an inequality that fails, or givens that contradict each other.
pub(crate) fn refusal(setting: &Setting, why: &Rejected) -> Diagnostic {
    if why.in_letters {
        let mut d =
            Diagnostic::refuse(Refusal::Undetermined, why.says.clone()).hint("give the letters values");
        d.spans.extend(setting.stage.span);
        return d;
    }
    if why.given_up {
        let says = format!("not all cases could be looked through: {}", why.says);
        let mut d = Diagnostic::refuse(Refusal::Undetermined, says);
        d.spans.extend(setting.stage.span);
        let hint = match why.says == TOO_LONG {
            true => "give more of the masses, forces and angles",
            false => "say which strings are taut and which bodies slide",
        };
        return d.hint(hint);
    }
    if let Some(found) = stops_short(setting) {
        return found;
    }
    if !why.clash {
        let mut d = Diagnostic::refuse(Refusal::Impossible, why.says.clone());
        d.spans.extend(setting.stage.span);
        return d;
    }
    if let Some(found) = odd_one_out(setting) {
        return found;
    }
    let mut d = Diagnostic::refuse(Refusal::Contradictory, why.says.clone());
    d.spans.extend(setting.stage.span);
    d
}

/// Leaves out one given at a time: one that the others already fix differently is named.
fn odd_one_out(setting: &Setting) -> Option<Diagnostic> {
    let order = |kind: Kind| match kind {
        Kind::Acceleration => 0,
        Kind::Speed | Kind::Distance | Kind::Time => 1,
        Kind::Tension | Kind::Reaction | Kind::Friction => 2,
        Kind::Force | Kind::Resistance => 3,
        Kind::Coefficient => 4,
        _ => 9,
    };
    let mut suspects: Vec<(i32, QuantityId)> = Vec::new();
    for (i, quantity) in setting.situation.quantities.iter().enumerate() {
        let Some(known) = quantity.known.as_ref().filter(|k| k.from_part <= setting.part) else { continue };
        let rank = order(quantity.kind);
        if rank < 9 && belongs(setting, QuantityId(i)) {
            let implied = if matches!(known.basis, Basis::Given(_)) { 0 } else { 10 };
            suspects.push((rank + implied, QuantityId(i)));
        }
    }
    suspects.sort();
    for (_, id) in suspects {
        let mut without = setting.clone();
        if let Some(slot) = without.known.get_mut(id.0) {
            *slot = None;
        }
        let mut forces = forces::gather(&without);
        let Verdict::Holds(cases) = search(&without, &mut forces) else { continue };
        let quantity = setting.situation.quantity(id)?;
        let known = quantity.known.as_ref()?;
        let Some((case, value)) = cases.first().and_then(|c| Some((c, c.values.get(&id)?))) else { continue };
        let value = match setting.body_of_acceleration(id) {
            Some(body) => crate::setting::signed(case.trial.sense(body), value),
            None => value.clone(),
        };
        let name = quantity.name.strip_prefix("the ").unwrap_or(&quantity.name);
        let says = never_rests(setting, id, &case.values).unwrap_or_else(|| {
            format!(
                "the {name} is given as {}, but {} follows from the other givens",
                with_unit(&known.value, quantity.kind),
                with_unit(&value, quantity.kind)
            )
        });
        let mut d = Diagnostic::refuse(Refusal::Contradictory, says);
        if let Basis::Given(span) | Basis::Implied(span, _) = known.basis {
            d.spans.extend((span != Span::default()).then_some(span));
        }
        return Some(d.hint("check which of the givens is meant"));
    }
    None
}

/// A body that is to come to rest and does not slow down.
fn never_rests(setting: &Setting, end: QuantityId, values: &BTreeMap<QuantityId, Value>) -> Option<String> {
    let journey = setting.stage.journeys.iter().find(|j| j.end_speed == end)?;
    let acceleration = setting.stage.accelerations.get(journey.body.0)?;
    let slows = sign_with_positive_letters(values.get(acceleration)?)? == Sign::Negative;
    (!slows && setting.value(end)?.is_zero()).then(|| {
        format!("{} does not slow down, so that it never comes to rest", setting.body_name(journey.body.0))
    })
}

/// Does a quantity have a place in this stage (or in all of them)?
fn belongs(setting: &Setting, id: QuantityId) -> bool {
    let stage = setting.stage;
    let here = stage.accelerations.contains(&id)
        || stage.links.contains(&id)
        || stage.forces.contains(&id)
        || stage.reactions.contains(&Some(id))
        || stage.frictions.contains(&Some(id))
        || stage.journeys.iter().any(|j| [j.start_speed, j.end_speed, j.distance, j.time].contains(&id));
    here || setting.kind(id) == Kind::Coefficient
}
