//! Rough situations against two laws that `motion` does not use to find its answers: Coulomb's conditions, put
//! as inequalities between exact values worked out here from the situation alone, and the balance of energy
//! over a journey (work of the forces = change of kinetic energy), body by body and for the whole.
//!
//! Coulomb: at rest |F| ≤ μR, whatever balance needs; in motion F = μR against it (any textbook of mechanics;
//! UP section 6.2). Newton's second law, the links' own conditions and these are necessary and sufficient.

#![allow(clippy::expect_used, reason = "a test that cannot be set up should stop")]

mod support;

use exact::{Sign, Value};
use model::{BodyId, Builder, Holds, State};
use motion::{ForceKind, FrictionState, LinkState, Solved};
use support::random::{
    Drawn, Loaded, Rules, acceleration, closing, describe, draw, force_of, loads, signed, solve,
};
use support::ratio;

fn sign(value: &Value) -> Sign {
    value.sign().expect("a number")
}

fn is_negative(value: &Value) -> bool {
    sign(value) == Sign::Negative
}

/// The sense in which each body moves, or begins to: +1, −1 or 0 in its own positive sense. What moves already does
/// so as the first body is said to, handed on by the links.
fn ways(drawn: &Drawn, accelerations: &[Value]) -> Vec<i8> {
    let situation = &drawn.situation;
    let Some(heading) = situation.stages[0].heading else {
        let way = |a: &Value| match sign(a) {
            Sign::Negative => -1,
            Sign::Zero => 0,
            Sign::Positive => 1,
        };
        return accelerations.iter().map(way).collect();
    };
    let mut ways = vec![0; situation.bodies.len()];
    ways[heading.body.0] = heading.sense;
    for _ in 0..situation.links.len() {
        for link in &situation.links {
            let [one, other] = link.ends.as_slice() else { continue };
            for (from, to) in [(one, other), (other, one)] {
                if ways[from.body.0] != 0 && ways[to.body.0] == 0 {
                    ways[to.body.0] = -ways[from.body.0] * from.sense * to.sense;
                }
            }
        }
    }
    ways
}

/// What of Newton's law, Coulomb's conditions and the links' conditions does not hold.
fn broken(drawn: &Drawn, solved: &Solved, loads: &[Loaded]) -> Option<String> {
    let situation = &drawn.situation;
    let n = situation.bodies.len();
    let accelerations: Option<Vec<Value>> = (0..n).map(|i| acceleration(solved, i)).collect();
    let Some(accelerations) = accelerations else { return Some("an acceleration is not found".into()) };
    for (i, link) in situation.links.iter().enumerate() {
        let gap = closing(link, &accelerations);
        let force = force_of(situation, solved, i);
        match (link.holds, solved.case.links[i]) {
            (_, LinkState::Holding) if !gap.is_zero() => {
                return Some(format!("link {i} holds and gives way"));
            }
            (Holds::PullOrPush, LinkState::Holding) => {}
            (_, LinkState::Holding) if force.as_ref().is_some_and(is_negative) => {
                return Some(format!("link {i} can only pull, or only push"));
            }
            (_, LinkState::Loose) if is_negative(&gap) => return Some(format!("link {i} is overstretched")),
            (_, LinkState::Loose) if force.is_none_or(|f| !f.is_zero()) => {
                return Some(format!("link {i} is loose and yet pulls"));
            }
            _ => {}
        }
    }
    let ways = ways(drawn, &accelerations);
    for (i, load) in loads.iter().enumerate() {
        // The friction that Newton's second law leaves over, in the body's own positive sense.
        let mut friction = &load.mass * &accelerations[i] - &load.drive;
        let mut open = false;
        for (j, link) in situation.links.iter().enumerate() {
            for end in link.ends.iter().filter(|e| e.body == BodyId(i)) {
                match force_of(situation, solved, j) {
                    Some(force) => {
                        friction -= signed(end.sense, &force) * Value::from_int(i64::from(end.times));
                    }
                    None => open = true,
                }
            }
        }
        let way = ways[i];
        if open {
            // Friction shares the holding in more than one way; that it is enough is the principle of least
            // constraint's to say (gauss.rs).
            if way != 0 {
                return Some(format!("the forces on {i} are not found, though it moves"));
            }
            continue;
        }
        if way == 0 {
            let most = if is_negative(&friction) { -&friction } else { friction.clone() };
            if is_negative(&(&load.limit - &most)) {
                return Some(format!("friction on {i} is {friction}, more than {}", load.limit));
            }
        } else if !(&friction + &signed(way, &load.limit)).is_zero() {
            return Some(format!("friction on {i} is {friction}, not {} against its motion", load.limit));
        }
        let state = solved.case.frictions[i];
        let rough = !load.limit.is_zero();
        let named = match state {
            FrictionState::NoFriction => !rough || load.reaction.is_zero(),
            FrictionState::Static | FrictionState::Limiting => way == 0,
            FrictionState::Sliding => true,
        };
        if !named {
            return Some(format!("{i} is called {state:?}"));
        }
    }
    None
}

/// Gives every body a journey of the same time, at the end of which none has turned back, and compares the work of
/// each body's forces with the change of its kinetic energy.
fn energy(drawn: &Drawn, solved: &Solved) -> Option<String> {
    let moving = drawn.situation.stages[0].state == State::Moving;
    let n = drawn.situation.bodies.len();
    let along = |i: usize| solved.acceleration(BodyId(i)).cloned();
    let start = Value::from_int(if moving { 6 } else { 0 });
    let mut time = ratio(3, 2);
    // Bodies joined by movable pulleys have different speeds; only those that all move alike are given one.
    let alike = drawn.situation.links.iter().all(|l| l.ends.iter().all(|e| e.times == l.ends[0].times));
    if moving && !alike {
        return None;
    }
    for i in 0..n {
        let a = along(i)?;
        if moving && is_negative(&a) {
            let stop = (-&start).checked_div(&a).ok()? * ratio(1, 2);
            if is_negative(&(&stop - &time)) {
                time = stop;
            }
        }
    }
    let mut b = Builder::new();
    *b.situation_mut() = drawn.situation.clone();
    let stage = model::StageId(0);
    for i in 0..n {
        let journey = b.journey(stage, BodyId(i))?;
        b.know(journey.start_speed, start.clone());
        b.know(journey.time, time.clone());
    }
    let journeys = Drawn { situation: b.finish(), ring: drawn.ring };
    let solved = match solve(&journeys) {
        Ok(solved) => solved,
        Err(why) => return Some(format!("with journeys: {why}")),
    };
    let mut whole = Value::zero();
    for (i, journey) in journeys.situation.stages[0].journeys.iter().enumerate() {
        let (Some(v), Some(s)) = (solved.value(journey.end_speed), solved.value(journey.distance)) else {
            return Some(format!("the journey of {i} is not found"));
        };
        let mass = solved.value(journeys.situation.bodies[i].mass)?;
        let kinetic = mass * &(v * v - &start * &start) * ratio(1, 2);
        let mut work = Value::zero();
        for force in solved.forces_on(BodyId(i)) {
            let Some(share) = share_along(&journeys, &solved, force) else {
                if kinetic.is_zero() && s.is_zero() {
                    continue;
                }
                return Some(format!("{} is not found", force.name));
            };
            let done = signed(solved.senses[i], &(share * s));
            // Links are light: what one body loses to them another gains.
            if !matches!(force.kind, ForceKind::Link(_)) {
                whole += done.clone();
            }
            work += done;
        }
        if !(&work - &kinetic).is_zero() {
            return Some(format!("body {i}: work {work}, kinetic energy {kinetic}"));
        }
        whole -= kinetic;
    }
    (!whole.is_zero()).then(|| format!("links do work: {whole}"))
}

/// The share of a force along its body's line, in the line's own positive sense.
fn share_along(drawn: &Drawn, solved: &Solved, force: &motion::Force) -> Option<Value> {
    use motion::{Factor, Share};
    let angle = |id| drawn.situation.angles.get(&id).cloned();
    let mut size = Value::one();
    for factor in &force.size {
        size *= match factor {
            Factor::Number(n) => Value::rational(n.clone()),
            Factor::Quantity(id) => solved.value(*id)?.clone(),
            Factor::Sin(id) => angle(*id)?.sin().ok()?,
            Factor::Cos(id) => angle(*id)?.cos().ok()?,
        };
    }
    Some(match force.along {
        Share::None => Value::zero(),
        Share::All(sense) => signed(sense, &size),
        Share::Sin(sense, id) => signed(sense, &(size * angle(id)?.sin().ok()?)),
        Share::Cos(sense, id) => signed(sense, &(size * angle(id)?.cos().ok()?)),
    })
}

/// What was seen: so many at rest throughout, so many with something sliding, so many with something slack.
#[derive(Default, Debug)]
struct Seen {
    at_rest: usize,
    sliding: usize,
    slack: usize,
    lifted: usize,
    journeys: usize,
}

#[track_caller]
fn hold(seeds: std::ops::Range<u64>, rules: Rules) -> Seen {
    let mut seen = Seen::default();
    let mut failures: Vec<(usize, u64, String)> = Vec::new();
    for seed in seeds {
        let drawn = draw(seed, rules);
        let loads = loads(&drawn.situation);
        if loads.iter().any(|l| is_negative(&l.reaction)) {
            seen.lifted += 1;
            continue;
        }
        let found = match solve(&drawn) {
            Ok(solved) => {
                seen.at_rest += usize::from(!solved.case.moves);
                seen.sliding += usize::from(solved.case.frictions.contains(&FrictionState::Sliding));
                seen.slack += usize::from(solved.case.links.contains(&LinkState::Loose));
                let why = broken(&drawn, &solved, &loads);
                if why.is_none() && seed % 2 == 0 {
                    seen.journeys += 1;
                    energy(&drawn, &solved)
                } else {
                    why
                }
            }
            Err(why) => Some(format!("refused: {why}")),
        };
        if let Some(why) = found {
            let size = drawn.situation.bodies.len() * 4 + drawn.situation.links.len() * 2;
            failures.push((size, seed, format!("{why}\n{}", describe(&drawn.situation))));
        }
    }
    failures.sort();
    let shown: Vec<_> = failures.iter().take(3).map(|(_, seed, why)| format!("seed {seed}: {why}")).collect();
    assert!(failures.is_empty(), "{} fail; the smallest:\n{}", failures.len(), shown.join("\n"));
    seen
}

#[test]
fn ten_thousand_rough_situations() {
    let seen = hold(100_000..110_000, Rules { bodies: 4, rough: 70, moving: 35, rings: 0, three_ends: 0 });
    // The lots are drawn so that every outcome is common.
    let least = [seen.at_rest, seen.sliding, seen.slack, seen.journeys].into_iter().min();
    assert!(least > Some(500), "{seen:?}");
}
