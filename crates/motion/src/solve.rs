//! Solving a stage: the search for the case that holds, what other stages can tell, and why there is
//! no answer when there is none.

use crate::attempt::Rejected;
use crate::judge::with_unit;
use crate::search::{Verdict, search};
use crate::setting::Setting;
use crate::{Solved, finish, forces};
use exact::Value;
use model::{Basis, Diagnostic, Direction, Kind, QuantityId, Refusal, Situation, Span, StageId};
use std::collections::BTreeMap;

/// Solves one stage with the givens of one part (counting from 0) and those before it.
///
/// ```
/// use model::{Builder, Form, Line, State};
/// let mut b = Builder::new();
/// let p = b.body("P", "P", Form::Particle, Line::Vertical, Some(3.into()));
/// let q = b.body("Q", "Q", Form::Particle, Line::Vertical, Some(5.into()));
/// let string = b.over_pulley("the string", p, q);
/// let stage = b.stage(State::Released);
/// let situation = b.finish();
/// let solved = motion::solve(&situation, stage, 0).unwrap();
/// assert_eq!(solved.acceleration(p).unwrap().to_string(), "49/20");
/// let tension = situation.stages[0].links[string.0];
/// assert_eq!(solved.value(tension).unwrap().to_string(), "147/4");
/// ```
///
/// # Errors
/// Why there is no answer: incomplete, contradictory, undetermined or impossible givens, with their places.
pub fn solve(situation: &Situation, stage: StageId, part: usize) -> Result<Solved, Vec<Diagnostic>> {
    let solved = solve_without_claims(situation, stage, part)?;
    let broken = crate::claims::broken(situation, &solved);
    if broken.is_empty() { Ok(solved) } else { Err(broken) }
}

fn solve_without_claims(
    situation: &Situation,
    stage: StageId,
    part: usize,
) -> Result<Solved, Vec<Diagnostic>> {
    if !has_sense(situation, stage) {
        return Err(situation.check());
    }
    let alone = solve_alone(situation, stage, part, &BTreeMap::new());
    if situation.stages.len() < 2 {
        return alone;
    }
    let open = match &alone {
        Ok(solved) => !solved.undetermined.is_empty(),
        Err(_) => true,
    };
    if !open {
        return alone;
    }
    let imported = told_by_others(situation, stage, part);
    if imported.is_empty() { alone } else { solve_alone(situation, stage, part, &imported).or(alone) }
}

/// Are all senses +1 or −1, and no more bodies than anyone draws? The rest of soundness is for
/// [`Situation::check`]; what is missing is merely not found here.
fn has_sense(situation: &Situation, stage: StageId) -> bool {
    let one = |sense: i8| sense == 1 || sense == -1;
    let ends = situation.links.iter().flat_map(|l| &l.ends).all(|e| one(e.sense) && e.times > 0);
    let actions = situation.actions.iter().all(|a| match a.direction {
        Direction::Along(sense) | Direction::At { sense, .. } => one(sense),
        Direction::Opposing => true,
    });
    let heading = situation.stage(stage).and_then(|s| s.heading).is_none_or(|h| one(h.sense));
    ends && actions && heading && (1..=MOST_BODIES).contains(&situation.bodies.len())
}

/// More bodies than any question has, as [`Situation::check`] holds too.
const MOST_BODIES: usize = 60;

/// How often stages may hand on what they have found.
const ROUNDS: usize = 4;

/// What the other stages fix of quantities that belong to more than one stage.
fn told_by_others(situation: &Situation, stage: StageId, part: usize) -> BTreeMap<QuantityId, Value> {
    let mut told: BTreeMap<QuantityId, Value> = BTreeMap::new();
    for _ in 0..ROUNDS.min(situation.stages.len()) {
        let before = told.len();
        for other in situation.stage_ids().filter(|s| *s != stage) {
            let Ok(solved) = solve_alone(situation, other, part, &told) else { continue };
            for (id, value) in solved.values {
                let hands_on = situation.quantity(id).is_some_and(|q| q.kind != Kind::Acceleration)
                    && situation.known(id, part).is_none();
                if hands_on {
                    told.entry(id).or_insert(value);
                }
            }
        }
        if told.len() == before {
            break;
        }
    }
    told
}

fn solve_alone(
    situation: &Situation,
    stage: StageId,
    part: usize,
    imported: &BTreeMap<QuantityId, Value>,
) -> Result<Solved, Vec<Diagnostic>> {
    let Some(setting) = Setting::new(situation, stage, part, imported) else {
        return Err(vec![Diagnostic::refuse(Refusal::Incomplete, "nothing is said of this stage")]);
    };
    let mut forces = forces::gather(&setting);
    match search(&setting, &mut forces) {
        Verdict::Holds(mut cases) => {
            if cases.len() > 1 {
                return Err(vec![several(&setting, &cases)]);
            }
            match cases.pop() {
                Some(accepted) => Ok(finish::finish(&setting, &forces, accepted)),
                None => Err(vec![Diagnostic::refuse(Refusal::Impossible, "no motion fits the givens")]),
            }
        }
        Verdict::Fails(why) => Err(vec![refusal(&setting, &why)]),
    }
}

/// Several motions fit: names what differs.
fn several(setting: &Setting, cases: &[crate::attempt::Accepted]) -> Diagnostic {
    let mut differs = Vec::new();
    if let [one, two, ..] = cases {
        for (id, value) in &one.values {
            let Some(other) = two.values.get(id).filter(|o| !(*o - value).is_zero()) else { continue };
            if setting.body_of_acceleration(*id).is_some() && (other + value).is_zero() {
                continue;
            }
            let kind = setting.kind(*id);
            differs.push(format!(
                "the {} could be {} or {}",
                setting.name(*id).trim_start_matches("the "),
                with_unit(value, kind),
                with_unit(other, kind)
            ));
        }
    }
    differs.sort_by_key(|d| d.len());
    differs.truncate(2);
    let mut says = "more than one motion fits the givens".to_owned();
    if !differs.is_empty() {
        says = format!("{says}: {}", differs.join("; "));
    }
    let mut d = Diagnostic::refuse(Refusal::Undetermined, says).hint("say which way the bodies move");
    d.spans.extend(setting.stage.span);
    d
}

/// No motion fits: an inequality that fails, or givens that contradict each other.
fn refusal(setting: &Setting, why: &Rejected) -> Diagnostic {
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
        let mut d = Diagnostic::refuse(
            Refusal::Contradictory,
            format!(
                "the {name} is given as {}, but {} follows from the other givens",
                with_unit(&known.value, quantity.kind),
                with_unit(&value, quantity.kind)
            ),
        );
        if let Basis::Given(span) | Basis::Implied(span, _) = known.basis {
            d.spans.extend((span != Span::default()).then_some(span));
        }
        return Some(d.hint("check which of the givens is meant"));
    }
    None
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
