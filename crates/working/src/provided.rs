//! The conditions under which an answer in letters holds: `provided that k > 1/2`.

use crate::direction::list;
use crate::view::View;
use exact::{Math, Sign, Value};
use motion::{About, sign_with_positive_letters};

/// More letters than any question has.
const MOST_LETTERS: usize = 24;

/// What must hold of the letters for the stage to be as it was worked out; empty if it always is.
pub(crate) fn provided(view: &View<'_>) -> String {
    let mut says: Vec<String> = Vec::new();
    for condition in &view.solved.conditions {
        let gap = &condition.right - &condition.left;
        if sign_with_positive_letters(&gap).is_some() {
            continue;
        }
        let strict = matches!(condition.about, About::Motion(_) | About::Link(_));
        if let Some(said) = told(&gap, strict)
            && !says.contains(&said)
        {
            says.push(said);
        }
    }
    if says.is_empty() { String::new() } else { format!("provided that {}", list(&says)) }
}

/// `gap > 0` (or ≥ 0) in its simplest form.
fn told(gap: &Value, strict: bool) -> Option<String> {
    let (over, under) = gap.over_and_under()?;
    let turned = match sign_with_positive_letters(&under)? {
        Sign::Negative => -over,
        _ => over,
    };
    let plain = without_common_factors(turned);
    let (more, less) = if strict { (">", "<") } else { ("≥", "≤") };
    let written = |v: &Value| v.math().plain();
    let mut best: Option<((bool, usize, bool), String)> = None;
    for letter in plain.symbols() {
        let Some(coefficients) = plain.coefficients_in(&letter) else { continue };
        let [constant, slope] = coefficients.as_slice() else { continue };
        let (Some(sign), Ok(end)) = (sign_with_positive_letters(slope), (-constant).checked_div(slope))
        else {
            continue;
        };
        if sign_with_positive_letters(&end) != Some(Sign::Positive) {
            continue;
        }
        let grows = sign == Sign::Positive;
        let in_letters = end.over_and_under().is_some_and(|(_, under)| !under.is_number());
        let rank = (in_letters, end.terms(), !grows);
        let name = Math::quantity(&letter).plain();
        let text = format!("{name} {} {}", if grows { more } else { less }, written(&end));
        if best.as_ref().is_none_or(|(known, _)| rank < *known) {
            best = Some((rank, text));
        }
    }
    Some(best.map_or_else(|| format!("{} {more} 0", written(&plain)), |(_, text)| text))
}

/// Without the letters that stand in every term: they are positive.
fn without_common_factors(mut value: Value) -> Value {
    for letter in value.symbols() {
        for _ in 0..MOST_LETTERS {
            let lowest = value.coefficients_in(&letter).and_then(|c| c.first().cloned());
            if !lowest.is_some_and(|c| c.is_zero()) {
                break;
            }
            match value.checked_div(&Value::symbol(&letter)) {
                Ok(less) => value = less,
                Err(_) => break,
            }
        }
    }
    value
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn conditions_are_solved_for_a_letter() {
        let [k, m, n, mu] = ["k", "m_1", "m_2", "μ"].map(Value::symbol);
        let half = Value::rational(exact::Rational::new(1, 2).unwrap_or(exact::Rational::ONE));
        assert_eq!(told(&((&k - &half) * &m), true).as_deref(), Some("k > 1/2"));
        assert_eq!(told(&((&n - &mu * &m) * &k), false).as_deref(), Some("m₂ ≥ μm₁"));
        let share = ((Value::one() - &k) * &m).checked_div(&(&k + Value::one())).unwrap_or(Value::zero());
        assert_eq!(told(&share, true).as_deref(), Some("k < 1"));
        let square = &k * &k - Value::from_int(2);
        assert_eq!(told(&square, true).as_deref(), Some("k² − 2 > 0"));
    }
}
