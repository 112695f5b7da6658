//! What stages tell each other: which quantities belong to which stage, and what one stage finds that
//! another one may take as known.

use crate::attempt::Accepted;
use crate::setting::{Setting, signed};
use exact::Value;
use model::{Kind, QuantityId, Situation, Stage};
use std::collections::BTreeSet;

/// Which quantities belong where.
#[derive(Clone, Debug)]
pub(crate) struct Places {
    /// By stage: what its equations may speak of.
    speaks: Vec<BTreeSet<QuantityId>>,
    /// By stage: what belongs to no other and counts in the orientation of that stage.
    oriented: Vec<BTreeSet<QuantityId>>,
    in_facts: BTreeSet<QuantityId>,
}

impl Places {
    pub(crate) fn new(situation: &Situation, part: usize) -> Places {
        let own: Vec<BTreeSet<QuantityId>> = situation.stages.iter().map(own).collect();
        let of_a_stage: BTreeSet<QuantityId> = own.iter().flatten().copied().collect();
        let everywhere: BTreeSet<QuantityId> = situation
            .quantities
            .iter()
            .enumerate()
            .filter(|(_, q)| {
                matches!(q.kind, Kind::Mass | Kind::Coefficient | Kind::Angle | Kind::Gravity | Kind::Number)
            })
            .map(|(i, _)| QuantityId(i))
            .filter(|id| !of_a_stage.contains(id))
            .collect();
        let facts: Vec<BTreeSet<QuantityId>> = situation
            .relations
            .iter()
            .filter(|r| r.from_part <= part)
            .map(|r| r.terms.iter().flat_map(|(_, ids)| ids).copied().collect())
            .collect();
        let speaks = own
            .iter()
            .map(|own| {
                let near = facts.iter().filter(|f| f.iter().any(|id| own.contains(id)));
                own.iter().chain(&everywhere).chain(near.flatten()).copied().collect()
            })
            .collect();
        let oriented = situation.stages.iter().map(oriented).collect();
        Places { speaks, oriented, in_facts: facts.into_iter().flatten().collect() }
    }

    /// Do the equations of a stage speak of this quantity?
    pub(crate) fn speaks(&self, stage: usize, id: QuantityId) -> bool {
        self.speaks.get(stage).is_some_and(|s| s.contains(&id))
    }
    /// All that the equations of a stage speak of.
    pub(crate) fn spoken_of(&self, stage: usize) -> impl Iterator<Item = QuantityId> + '_ {
        self.speaks.get(stage).into_iter().flatten().copied()
    }
    /// Has this quantity a sign only in its own stage?
    pub(crate) fn is_oriented(&self, id: QuantityId) -> bool {
        self.oriented.iter().any(|own| own.contains(&id))
    }
    /// May a stage take this as known when others have found it?
    pub(crate) fn takes(&self, stage: usize, id: QuantityId) -> bool {
        !self.oriented.get(stage).is_some_and(|own| own.contains(&id))
    }

    /// What a case tells of a quantity, in a form that every stage understands: accelerations along the
    /// line of their body.
    pub(crate) fn tells(&self, setting: &Setting, case: &Accepted, id: QuantityId) -> Option<Value> {
        let known = setting.situation.known(id, setting.part).is_some();
        let shared = self.takes(setting.id.0, id) || self.in_facts.contains(&id);
        let value = case.values.get(&id).filter(|_| shared && !known)?;
        Some(match setting.body_of_acceleration(id) {
            Some(body) => signed(case.trial.sense(body), value),
            None => value.clone(),
        })
    }
}

/// All quantities of a stage.
fn own(stage: &Stage) -> BTreeSet<QuantityId> {
    let journeys = stage.journeys.iter().flat_map(|j| [j.start_speed, j.end_speed, j.distance, j.time]);
    let listed = stage.links.iter().chain(&stage.forces).copied();
    oriented(stage).into_iter().chain(listed).chain(journeys).collect()
}

/// Those of them that have a sign only in the stage itself.
fn oriented(stage: &Stage) -> BTreeSet<QuantityId> {
    let surfaces = stage.reactions.iter().chain(&stage.frictions).copied().flatten();
    stage.accelerations.iter().copied().chain(surfaces).collect()
}
