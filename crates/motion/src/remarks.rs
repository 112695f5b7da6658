//! Values that are unlikely outside an exercise.

use crate::judge::with_unit;
use crate::{LinkState, Solved};
use exact::{Rational, Sign, Value};
use model::{BodyId, Diagnostic, Form, Happening, Kind, Matter, Situation, Wanted};

/// Above this no vehicle or lift accelerates, m s⁻² (common practice, no source).
const MOST_ACCELERATION: i64 = 20;

/// Remarks on values that are right by the givens and yet unlikely: accelerations of vehicles and lifts
/// above 20 m s⁻², coefficients of friction above 1.5, strings gone slack; and on what is left out in a jerk.
pub fn remarks(situation: &Situation, solved: &Solved) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    let mut seen = Vec::new();
    for (i, body) in situation.bodies.iter().enumerate() {
        let Some(id) = solved.accelerations.get(i).filter(|id| !seen.contains(*id)) else { continue };
        let Some(a) = solved.acceleration(BodyId(i)) else { continue };
        let ridden = matches!(body.form, Form::Vehicle | Form::Trailer | Form::Lift | Form::Person);
        if ridden && exceeds(a, &Rational::from_int(MOST_ACCELERATION)) {
            seen.push(*id);
            found.push(Diagnostic::remark(format!(
                "an acceleration of {} is unlikely for {}",
                with_unit(a, Kind::Acceleration),
                body.name
            )));
        }
    }
    for (i, quantity) in situation.quantities.iter().enumerate() {
        if quantity.kind != Kind::Coefficient {
            continue;
        }
        let (Some(value), Some(most)) = (solved.value(model::QuantityId(i)), Rational::new(3, 2)) else {
            continue;
        };
        if exceeds(value, &most) {
            found.push(Diagnostic::remark(format!(
                "a coefficient of friction of {} is unlikely",
                with_unit(value, Kind::Coefficient)
            )));
        }
    }
    for (link, state) in situation.links.iter().zip(&solved.case.links) {
        if *state == LinkState::Loose {
            let what = if link.is_contact {
                "the bodies part".to_owned()
            } else {
                format!("{} is slack", link.name)
            };
            found.push(Diagnostic::remark(what));
        }
    }
    found.extend(over_loaded(situation, solved));
    if situation.stage(solved.stage).is_some_and(|s| s.state == model::State::Jerk) {
        found.push(Diagnostic::remark(
            "during the jerk only the impulses of the links count: weights and other finite forces do next to nothing in \
             so short a time",
        ));
    }
    found
}

/// Links that bear more than they can, where the question does not go on to say so itself.
fn over_loaded(situation: &Situation, solved: &Solved) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    let Some(stage) = situation.stage(solved.stage) else { return found };
    for (i, link) in situation.links.iter().enumerate() {
        let id = model::LinkId(i);
        let asked = situation
            .asks
            .iter()
            .any(|a| matches!(&a.wanted, Wanted::Whether { matter: Matter::Bears(l), .. } if *l == id));
        let breaks = |s: &model::Stage| s.begins.as_ref().is_some_and(|b| b.with == Happening::Breaks(id));
        if asked
            || situation.stages.iter().any(breaks)
            || solved.case.links.get(i) != Some(&LinkState::Holding)
        {
            continue;
        }
        let force = stage.links.get(i).and_then(|q| solved.value(*q));
        let most = link.bears.and_then(|q| solved.value(q));
        let (Some(force), Some(most)) = (force, most) else { continue };
        let over = [force - most, -force - most].iter().any(|gap| gap.sign() == Ok(Sign::Positive));
        if over {
            found.push(Diagnostic::remark(format!(
                "{} would break: its tension would be {}, and it can bear only {}",
                link.name,
                with_unit(force, Kind::Tension),
                with_unit(most, Kind::Tension)
            )));
        }
    }
    found
}

/// Is this a number whose size is greater than that?
fn exceeds(value: &Value, most: &Rational) -> bool {
    let most = Value::rational(most.clone());
    [value - &most, -value - &most].iter().any(|gap| gap.sign() == Ok(Sign::Positive))
}
