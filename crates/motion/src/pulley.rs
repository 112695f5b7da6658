//! The force of a string on a pulley.

use crate::check::sin_cos;
use crate::{LinkState, Solved};
use exact::Value;
use model::{End, Line, PulleyId, Situation};

/// The size of the resultant force of a string on its fixed pulley: the string pulls along both of its
/// straight parts with T, so it is T√(2 + 2 cos φ), φ being the angle between them. 2T for parallel
/// parts, T√2 at a right angle.
///
/// `None` if no string of two ends runs over this pulley alone, or if its tension is not determined.
///
/// ```
/// use model::{Builder, Form, Line, PulleyId, State};
/// let mut b = Builder::new();
/// let a = b.body("A", "A", Form::Block, Line::Level, Some(5.into()));
/// let c = b.body("C", "C", Form::Load, Line::Vertical, Some(2.into()));
/// b.over_pulley("the string", a, c);
/// let stage = b.stage(State::Released);
/// let situation = b.finish();
/// let solved = motion::solve(&situation, stage, 0).unwrap();
/// let force = motion::pulley_force(&situation, &solved, PulleyId(0)).unwrap();
/// assert_eq!(force.to_string(), "14*sqrt(2)");
/// ```
pub fn pulley_force(situation: &Situation, solved: &Solved, pulley: PulleyId) -> Option<Value> {
    let (index, link) = situation.links.iter().enumerate().find(|(_, l)| l.pulleys.contains(&pulley))?;
    let tension = situation.stage(solved.stage)?.links.get(index)?;
    let tension = match solved.case.links.get(index)? {
        LinkState::Holding => solved.value(*tension)?.clone(),
        LinkState::Loose => Value::zero(),
        LinkState::Absent => return None,
    };
    let [one, other] = link.ends.as_slice() else { return None };
    if link.pulleys.len() > 1 {
        return None;
    }
    if one.times > 1 || other.times > 1 {
        // A movable pulley hangs in two parallel strands.
        return Some(Value::from_int(2) * tension);
    }
    let (out, down) = direction(situation, solved, one)?;
    let (out_too, down_too) = direction(situation, solved, other)?;
    // The two parts leave the pulley on opposite sides.
    let cosine = down * down_too - out * out_too;
    let ratio = (Value::from_int(2) + Value::from_int(2) * cosine).sqrt().ok()?;
    Some(tension * ratio)
}

/// The direction from the pulley to a body: outwards and downwards.
fn direction(situation: &Situation, solved: &Solved, end: &End) -> Option<(Value, Value)> {
    let below = Value::from_int(i64::from(end.sense));
    Some(match situation.body(end.body)?.line {
        Line::Level => (Value::one(), Value::zero()),
        Line::Vertical => (Value::zero(), below),
        Line::Slope { angle, .. } => {
            let (sin, cos) = sin_cos(situation, solved, angle)?;
            (cos, sin * below)
        }
    })
}
