//! One letter, one meaning: in a story what differs from stage to stage gets an index or a prime.

use crate::scope::depth;
use crate::view::{View, same};
use model::{QuantityId, Situation, Stage};
use std::collections::{BTreeMap, BTreeSet};

/// Gives letters that would mean two things in the stages of one story an index (`a` → `a_1`, `a_2`) or, where they
/// have one, a prime.
pub(crate) fn tell_apart(situation: &Situation, views: &mut [View<'_>]) {
    if situation.stages.iter().all(|s| s.begins.is_none()) {
        return;
    }
    let mut order: Vec<usize> = (0..views.len()).collect();
    order.sort_by_key(|v| {
        views.get(*v).map(|v| (depth(situation, v.solved.stage), v.solved.stage, v.solved.part))
    });
    let mut users: BTreeMap<String, Vec<(QuantityId, usize)>> = BTreeMap::new();
    let mut in_order: Vec<QuantityId> = Vec::new();
    for place in order {
        let Some(view) = views.get(place) else { continue };
        for id in own(view) {
            if !in_order.contains(&id) {
                in_order.push(id);
            }
            let list = users.entry(view.letter(id).to_owned()).or_default();
            if !list.iter().any(|(known, _)| *known == id) {
                list.push((id, place));
            }
        }
    }
    let clash = |list: &[(QuantityId, usize)]| {
        let stages: BTreeSet<_> =
            list.iter().filter_map(|(_, v)| views.get(*v)).map(|v| v.solved.stage).collect();
        stages.len() > 1 && !all_alike(views, list)
    };
    let mut renamed: Vec<(QuantityId, String)> = Vec::new();
    let mut bases: BTreeMap<String, Vec<QuantityId>> = BTreeMap::new();
    for (letter, list) in &users {
        match letter.split_once('_') {
            Some((_, index)) if !index.chars().all(|c| c.is_ascii_digit()) => {
                for (n, (id, _)) in list.iter().enumerate().filter(|_| clash(list)) {
                    renamed.push((*id, format!("{letter}{}", "′".repeat(n))));
                }
            }
            parts if clash(list) => {
                bases.entry(parts.map_or(letter.as_str(), |p| p.0).to_owned()).or_default();
            }
            _ => {}
        }
    }
    // Where a letter clashes, all that bear it are numbered anew in the order of the story.
    for id in in_order {
        let letter = letter_of(&users, id);
        let base = letter.split_once('_').map_or(letter, |p| p.0);
        let numbered = letter.split_once('_').is_none_or(|p| p.1.chars().all(|c| c.is_ascii_digit()));
        if let Some(list) = bases.get_mut(base).filter(|_| numbered) {
            list.push(id);
        }
    }
    for (base, list) in bases {
        for (n, id) in list.into_iter().enumerate() {
            renamed.push((id, format!("{base}_{}", n + 1)));
        }
    }
    for view in views.iter_mut() {
        view.letters.extend(renamed.iter().cloned());
    }
}

fn letter_of(users: &BTreeMap<String, Vec<(QuantityId, usize)>>, id: QuantityId) -> &str {
    let found = users.iter().find(|(_, list)| list.iter().any(|(q, _)| *q == id));
    found.map_or("", |(letter, _)| letter.as_str())
}

/// Have they all one value? Then one letter does no harm.
fn all_alike(views: &[View<'_>], list: &[(QuantityId, usize)]) -> bool {
    let value = |(id, place): &(QuantityId, usize)| views.get(*place).and_then(|v| v.solved.value(*id));
    let mut values = list.iter().map(value);
    let Some(first) = values.next().flatten() else { return false };
    values.all(|v| v.is_some_and(|v| same(v, first)))
}

/// What belongs to this stage and stands in one of its equations.
fn own(view: &View<'_>) -> Vec<QuantityId> {
    let Some(stage) = view.stage() else { return Vec::new() };
    let written: BTreeSet<QuantityId> = view.entries.iter().flat_map(|e| e.quantities()).collect();
    let mut found = of_stage(stage);
    found.extend(&view.solved.accelerations);
    let mut seen = BTreeSet::new();
    found.retain(|id| written.contains(id) && !view.is_own_letter(*id) && seen.insert(*id));
    found
}

fn of_stage(stage: &Stage) -> Vec<QuantityId> {
    let mut found = stage.accelerations.clone();
    found.extend(stage.links.iter().chain(&stage.forces));
    found.extend(stage.reactions.iter().chain(&stage.frictions).flatten());
    for journey in &stage.journeys {
        found.extend([journey.start_speed, journey.end_speed, journey.distance, journey.time]);
    }
    found
}
