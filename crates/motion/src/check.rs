//! Proves a solved stage: puts the values into every equation and every inequality.

use crate::sign::sign_with_positive_letters;
use crate::{Equation, Factor, Law, Solved, Term};
use exact::{Sign, Value};
use model::{QuantityId, Situation};

/// Puts the values of a solved stage into every equation of its pool and every condition, exactly.
/// Equations in quantities that are not determined are passed over.
///
/// # Errors
/// The first equation or condition that does not hold, in words.
pub fn check(situation: &Situation, solved: &Solved) -> Result<(), String> {
    for equation in &solved.equations {
        let Some(gap) = one_side(situation, solved, equation) else { continue };
        if !gap.is_zero() {
            return Err(format!(
                "equation {} ({}) does not hold: its sides differ by {gap}",
                equation.id.0,
                law_in_words(&equation.law)
            ));
        }
    }
    for condition in &solved.conditions {
        let gap = &condition.right - &condition.left;
        if sign_with_positive_letters(&gap) == Some(Sign::Negative) {
            return Err(format!("\"{}\" does not hold: it lacks {}", condition.says, -gap));
        }
    }
    Ok(())
}

/// Left side less right side, with the values put in; `None` if one of them is not determined.
fn one_side(situation: &Situation, solved: &Solved, equation: &Equation) -> Option<Value> {
    let mut sum = Value::zero();
    for term in &equation.left {
        sum += product(situation, solved, term)?;
    }
    for term in &equation.right {
        sum -= product(situation, solved, term)?;
    }
    Some(sum)
}

fn product(situation: &Situation, solved: &Solved, term: &Term) -> Option<Value> {
    let mut product = Value::from_int(i64::from(term.sign));
    for factor in &term.factors {
        product *= match factor {
            Factor::Number(r) => Value::rational(r.clone()),
            Factor::Quantity(id) => solved.value(*id)?.clone(),
            Factor::Sin(id) => sin_cos(situation, solved, *id)?.0,
            Factor::Cos(id) => sin_cos(situation, solved, *id)?.1,
        };
    }
    Some(product)
}

/// Sine and cosine of an angle: as the question gives it, or from its value in degrees.
pub(crate) fn sin_cos(situation: &Situation, solved: &Solved, id: QuantityId) -> Option<(Value, Value)> {
    if let Some(angle) = situation.angles.get(&id).or_else(|| solved.angles.get(&id)) {
        return Some((angle.sin().ok()?, angle.cos().ok()?));
    }
    let degrees = solved.value(id)?.as_rational()?;
    Some((Value::sin_deg(degrees), Value::cos_deg(degrees)))
}

fn law_in_words(law: &Law) -> &'static str {
    match law {
        Law::Motion => "F = ma",
        Law::Impulse => "impulse = change of momentum",
        Law::Balance => "balance across the line",
        Law::Friction => "F = μR",
        Law::Together(_) => "bodies kept together",
        Law::Journey(_) => "constant acceleration",
        Law::Fact(_) => "a given fact",
        Law::PulleyForce(_) => "force on a pulley",
    }
}
