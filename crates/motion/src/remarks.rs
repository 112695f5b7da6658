//! Values that are unlikely outside an exercise.

use crate::judge::with_unit;
use crate::{LinkState, Solved};
use exact::{Rational, Sign, Value};
use model::{BodyId, Diagnostic, Form, Kind, Situation};

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
    if situation.stage(solved.stage).is_some_and(|s| s.state == model::State::Jerk) {
        found.push(Diagnostic::remark(
            "during the jerk only the impulses of the links count: weights and other finite forces do next to nothing in \
             so short a time",
        ));
    }
    found
}

/// Is this a number whose size is greater than that?
fn exceeds(value: &Value, most: &Rational) -> bool {
    let most = Value::rational(most.clone());
    [value - &most, -value - &most].iter().any(|gap| gap.sign() == Ok(Sign::Positive))
}
