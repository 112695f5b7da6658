//! Solving: a stage by itself where its givens fix it, else together with the stages that it belongs to; then
//! what the question says of the motion is held against what was found.

use crate::finish::Extent;
use crate::search::{Verdict, search};
use crate::setting::Setting;
use crate::story::Story;
use crate::{Solved, chain, claims, forces, jerk, reasons, several};
use model::{Diagnostic, Direction, Refusal, Situation, StageId};
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
    solve_in(situation, stage, part, Extent::Systems, &mut BTreeMap::new())
}

/// Solves one stage as [`solve`] does, for its values alone: of the pool only what was solved is written, one equation of
/// motion for each body and none for systems. It takes a time that grows with the number of bodies, where the pool of a
/// long chain grows with its square.
///
/// ```
/// use model::{Builder, Form, Line, State};
/// let mut b = Builder::new();
/// let p = b.body("P", "P", Form::Particle, Line::Vertical, Some(3.into()));
/// let q = b.body("Q", "Q", Form::Particle, Line::Vertical, Some(5.into()));
/// b.over_pulley("the string", p, q);
/// let stage = b.stage(State::Released);
/// let situation = b.finish();
/// let solved = motion::values(&situation, stage, 0).unwrap();
/// assert_eq!(solved.acceleration(p).unwrap().to_string(), "49/20");
/// assert_eq!(solved.equations.len(), 2);
/// ```
///
/// # Errors
/// As [`solve`].
pub fn values(situation: &Situation, stage: StageId, part: usize) -> Result<Solved, Vec<Diagnostic>> {
    solve_in(situation, stage, part, Extent::Bodies, &mut BTreeMap::new())
}

/// Solves several stages, each with the givens of a part, as [`solve`] would one by one; what they have in
/// common is worked out once.
pub fn solve_each(
    situation: &Situation,
    wanted: impl IntoIterator<Item = (StageId, usize)>,
) -> Vec<Result<Solved, Vec<Diagnostic>>> {
    let mut stories = BTreeMap::new();
    wanted
        .into_iter()
        .map(|(stage, part)| solve_in(situation, stage, part, Extent::Systems, &mut stories))
        .collect()
}

/// All stages of a situation, by stage, as solved with the givens of one part.
type Told = Vec<Result<Solved, Vec<Diagnostic>>>;

fn solve_in(
    situation: &Situation,
    stage: StageId,
    part: usize,
    extent: Extent,
    stories: &mut BTreeMap<usize, Told>,
) -> Result<Solved, Vec<Diagnostic>> {
    if !has_sense(situation, stage) {
        return Err(situation.check());
    }
    if chain::stands_alone(situation, stage) {
        let alone = solve_alone(situation, stage, part, extent);
        let settled = situation.stages.len() < 2 || alone.as_ref().is_ok_and(|s| s.undetermined.is_empty());
        if settled {
            return alone.and_then(|solved| agrees(situation, solved));
        }
    }
    let told = stories.entry(part).or_insert_with(|| tell(situation, part, extent));
    match told.get(stage.0) {
        Some(found) => found.clone(),
        None => Err(vec![Diagnostic::refuse(Refusal::Incomplete, "nothing is said of this stage")]),
    }
}

/// Solves all stages at once, by stage: what one of them finds, the others know. Quicker than [`solve`] for each.
///
/// Stages that follow one another ([`model::Stage::begins`]) are one story: where one of its stages cannot be as
/// it is told, the others have no answer either, and the reason says which.
///
/// ```
/// use model::{Builder, Form, Happening, Line, State};
/// let mut b = Builder::new();
/// let p = b.body("P", "P", Form::Particle, Line::Vertical, Some(2.into()));
/// let q = b.body("Q", "Q", Form::Particle, Line::Vertical, Some(3.into()));
/// let string = b.over_pulley("the string", p, q);
/// let falls = b.stage(State::Released);
/// let down = b.journey(falls, q).unwrap();
/// b.know(down.start_speed, 0.into());
/// b.know(down.time, 1.into());
/// let free = b.then(falls, Happening::Breaks(string), State::Moving);
/// let up = b.journey_from(free, p, down.end_speed, false).unwrap();
/// b.know(up.end_speed, 0.into());
/// let situation = b.finish();
/// let solved: Vec<_> = motion::solve_story(&situation, 0).into_iter().map(Result::unwrap).collect();
/// // v = a = g/5 after a second, and then a further rise of v²/(2g) = g/50.
/// assert_eq!(solved[1].value(up.distance).unwrap().to_string(), "49/250");
/// ```
pub fn solve_story(situation: &Situation, part: usize) -> Vec<Result<Solved, Vec<Diagnostic>>> {
    tell(situation, part, Extent::Systems)
}

fn tell(situation: &Situation, part: usize, extent: Extent) -> Told {
    let sound = situation.stage_ids().all(|id| has_sense(situation, id));
    let story = if sound { Story::tell(situation, part) } else { None };
    let Some(story) = story else {
        return situation.stage_ids().map(|_| Err(situation.check())).collect();
    };
    let mut found: Vec<_> = situation.stage_ids().map(|id| story.result(id.0, extent)).collect();
    for at in 0..found.len() {
        let (before, rest) = found.split_at_mut(at);
        let Some(slot) = rest.first_mut() else { break };
        if let Ok(solved) = slot {
            let mut broken = claims::broken(situation, solved);
            broken.extend(chain::broken(&story, before, solved));
            if !broken.is_empty() {
                *slot = Err(broken);
            }
        }
    }
    for at in 0..found.len() {
        if let (Some(why), Some(slot)) = (chain::too_far(situation, &found, at), found.get_mut(at)) {
            *slot = Err(vec![why]);
        }
    }
    chain::all_or_none(situation, found)
}

fn agrees(situation: &Situation, solved: Solved) -> Result<Solved, Vec<Diagnostic>> {
    let broken = claims::broken(situation, &solved);
    if broken.is_empty() { Ok(solved) } else { Err(broken) }
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

/// A stage by itself.
fn solve_alone(
    situation: &Situation,
    stage: StageId,
    part: usize,
    extent: Extent,
) -> Result<Solved, Vec<Diagnostic>> {
    let Some(setting) = Setting::new(situation, stage, part, &BTreeMap::new()) else {
        return Err(vec![Diagnostic::refuse(Refusal::Incomplete, "nothing is said of this stage")]);
    };
    if let Some(refused) = jerk::incomplete(&setting) {
        return Err(vec![refused]);
    }
    let mut forces = forces::gather(&setting);
    match search(&setting, &mut forces) {
        Verdict::Holds(cases) => several::solved(&setting, &forces, cases, extent).map_err(|why| vec![why]),
        Verdict::Fails(why) => Err(vec![reasons::refusal(&setting, &why)]),
    }
}
