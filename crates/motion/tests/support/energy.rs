//! The energy balance: over any journey, the work of all forces on a body is the change of its kinetic energy.

use exact::Value;
use model::{BodyId, Journey, Situation, State};
use motion::{Factor, Share, Solved};

/// The resultant of the forces on a body along its line, in the body's positive sense of the stage.
fn resultant(situation: &Situation, solved: &Solved, body: BodyId) -> Option<Value> {
    let sine = |id| situation.angles.get(&id).or_else(|| solved.angles.get(&id))?.sin().ok();
    let cosine = |id| situation.angles.get(&id).or_else(|| solved.angles.get(&id))?.cos().ok();
    let mut sum = Value::zero();
    for force in solved.forces_on(body) {
        let mut share = match force.along {
            Share::None => continue,
            Share::All(s) => Value::from_int(i64::from(s)),
            Share::Sin(s, angle) => Value::from_int(i64::from(s)) * sine(angle)?,
            Share::Cos(s, angle) => Value::from_int(i64::from(s)) * cosine(angle)?,
        };
        for factor in &force.size {
            share *= match factor {
                Factor::Number(r) => Value::rational(r.clone()),
                Factor::Quantity(id) => solved.value(*id)?.clone(),
                Factor::Sin(id) => sine(*id)?,
                Factor::Cos(id) => cosine(*id)?,
            };
        }
        sum += share;
    }
    Some(sum * Value::from_int(i64::from(solved.senses[body.0])))
}

/// Work of all forces less change of kinetic energy, for every body that moves with the one whose journey it is.
/// `None` where a value is open or nothing but impulses acts.
pub fn imbalance(situation: &Situation, solved: &Solved, journey: &Journey) -> Option<Value> {
    let stage = &situation.stages[solved.stage.0];
    if stage.state == State::Jerk {
        return None;
    }
    let half = exact::Rational::new(1, 2).map(Value::rational)?;
    let mut gap = Value::zero();
    for (i, body) in situation.bodies.iter().enumerate() {
        let together = solved.accelerations[i] == solved.accelerations[journey.body.0];
        if !together || stage.held.contains(&BodyId(i)) {
            continue;
        }
        let work = resultant(situation, solved, BodyId(i))? * solved.value(journey.distance)?;
        let square = |id| solved.value(id).map(|v| v * v);
        let gain = square(journey.end_speed)? - square(journey.start_speed)?;
        gap += work - &half * solved.value(body.mass)? * gain;
    }
    Some(gap)
}

/// Checks the balance for every journey that has values; how many have.
#[track_caller]
pub fn balanced(situation: &Situation, stages: &[Solved]) -> usize {
    let mut journeys = 0;
    for solved in stages {
        for journey in &situation.stages[solved.stage.0].journeys {
            let Some(gap) = imbalance(situation, solved, journey) else { continue };
            assert!(gap.is_zero(), "work and kinetic energy differ by {gap} in stage {}", solved.stage.0);
            journeys += 1;
        }
    }
    journeys
}
