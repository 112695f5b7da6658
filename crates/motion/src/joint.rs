//! Several stages solved together: where each alone leaves something open that another speaks of too,
//! their equations go into one elimination, and each stage judges what comes out.

use crate::attempt::{Accepted, Arithmetic, Rejected, Trial, leave_out_idle};
use crate::general::{self, Branch};
use crate::lower::{Unknown, Unknowns};
use crate::setting::{Setting, signed};
use crate::story::{Outcome, Story};
use crate::system::{Names, System};
use crate::{Equation, Force, forces};
use exact::Value;
use model::QuantityId;
use std::collections::{BTreeMap, BTreeSet};

/// More combinations of cases than this are not tried.
const MOST_TOGETHER: usize = 64;
/// More stages than this are not solved together.
const MOST_STAGES: usize = 8;

/// What follows from the given facts alone.
pub(crate) fn facts(story: &Story) -> Vec<(QuantityId, Value)> {
    let Some(mut setting) = story.chapters.first().map(|c| c.setting.clone()) else { return Vec::new() };
    for (id, value) in &story.told {
        if let Some(slot) = setting.known.get_mut(id.0) {
            slot.get_or_insert_with(|| value.clone());
        }
    }
    let unknowns = Unknowns { setting: &setting, known: &setting.known };
    let relations = story.situation.relations.iter().enumerate().filter(|(_, r)| r.from_part <= story.part);
    let general = relations.filter_map(|(i, _)| Some((unknowns.relation(i, |id| (id, 1))?, i))).collect();
    let names = Names { unknowns, by_symbol: unknowns.by_symbol() };
    match general::solve(general, BTreeMap::new(), &names).as_deref() {
        Ok([one]) => values(&unknowns, one),
        _ => Vec::new(),
    }
}

fn values(unknowns: &Unknowns, branch: &Branch) -> Vec<(QuantityId, Value)> {
    let quantity = |(u, v): (&usize, &Value)| match unknowns.what(*u) {
        Unknown::Quantity(id) => Some((id, v.clone())),
        Unknown::Sin(_) | Unknown::Cos(_) => None,
    };
    branch.values.iter().filter_map(quantity).collect()
}

/// Solves together what hangs together; true if something new was found.
pub(crate) fn join(story: &mut Story) -> bool {
    for stages in open_together(story) {
        let Some(found) = together(story, &stages) else { continue };
        match found {
            Ok(ways) => {
                let news = agreed(story, &stages, &ways);
                if !news.is_empty() {
                    for (id, value) in news {
                        story.learn(id, value, None);
                    }
                    return true;
                }
            }
            // Each by itself may have told enough.
            Err(why) if why.given_up => story.too_long = true,
            Err(why) => {
                // What is told last does not go with what was told before.
                let last = stages.last().and_then(|at| story.chapters.get_mut(*at));
                if let Some(chapter) = last {
                    chapter.outcome = Outcome::Fails(why);
                    return true;
                }
            }
        }
    }
    false
}

/// The quantities that a stage speaks of and leaves open.
fn open(story: &Story, at: usize) -> BTreeSet<QuantityId> {
    let Some(chapter) = story.chapters.get(at) else { return BTreeSet::new() };
    let cases = chapter.cases();
    let Some((first, others)) = cases.split_first() else { return BTreeSet::new() };
    let agreed = |id: &QuantityId| {
        let value = first.values.get(id);
        value.is_some_and(|v| others.iter().all(|o| o.values.get(id).is_some_and(|w| (v - w).is_zero())))
    };
    let angle = |id: &QuantityId| {
        chapter.setting.sin_cos(*id).is_some() || cases.iter().all(|c| c.angles.contains_key(id))
    };
    let shared = |id: &QuantityId| story.places.takes(at, *id);
    story.places.spoken_of(at).filter(|id| shared(id) && !agreed(id) && !angle(id)).collect()
}

/// Sets of two stages or more that leave the same things open.
fn open_together(story: &Story) -> Vec<Vec<usize>> {
    let mut sets: Vec<(Vec<usize>, BTreeSet<QuantityId>)> = Vec::new();
    for at in 0..story.chapters.len() {
        let mut here = open(story, at);
        if here.is_empty() {
            continue;
        }
        let mut stages = Vec::new();
        let (near, far): (Vec<_>, Vec<_>) = sets.into_iter().partition(|(_, ids)| !ids.is_disjoint(&here));
        for (others, ids) in near {
            stages.extend(others);
            here.extend(ids);
        }
        stages.push(at);
        sets = far;
        sets.push((stages, here));
    }
    sets.into_iter().map(|(stages, _)| stages).filter(|s| (2..=MOST_STAGES).contains(&s.len())).collect()
}

/// All ways in which these stages hold together, each a case for each stage; `None` if there are too many
/// to try. `Err`: why there is none.
fn together(story: &Story, stages: &[usize]) -> Option<Result<Vec<Vec<Accepted>>, Rejected>> {
    let chapters: Vec<_> = stages.iter().filter_map(|at| story.chapters.get(*at)).collect();
    let combinations = chapters.iter().try_fold(1usize, |n, c| n.checked_mul(c.cases().len()))?;
    if combinations > MOST_TOGETHER || chapters.len() != stages.len() {
        return None;
    }
    let mut ways: Vec<Vec<Accepted>> = Vec::new();
    let mut rejected = None;
    let mut seen: Vec<Vec<(Vec<i8>, Vec<usize>)>> = Vec::new();
    for mut number in 0..combinations {
        let mut picked: Vec<(&Setting, Vec<Force>, &Trial)> = Vec::new();
        for chapter in &chapters {
            let cases = chapter.cases();
            let case = cases.get(number % cases.len().max(1))?;
            number /= cases.len().max(1);
            let mut forces = chapter.forces.clone();
            forces::against(&chapter.setting, &mut forces, &case.trial.senses, &case.trial.tops);
            picked.push((&chapter.setting, forces, &case.trial));
        }
        // Cases that differ by a root only suppose the same.
        let supposed = picked.iter().map(|(_, _, t)| (t.senses.clone(), modes(t))).collect();
        if seen.contains(&supposed) {
            continue;
        }
        seen.push(supposed);
        match combination(&picked) {
            Ok(found) => ways.extend(found),
            Err(why) if why.given_up => return Some(Err(why)),
            Err(why) => rejected = Some(why),
        }
    }
    match rejected {
        Some(why) if ways.is_empty() => Some(Err(why)),
        _ => Some(Ok(ways)),
    }
}

/// What a trial supposes of the groups and links, as plain numbers.
fn modes(trial: &Trial) -> Vec<usize> {
    let links = trial.links.iter().map(|l| *l as usize);
    let tops = trial.tops.iter().map(|t| t.sense().map_or(0, |s| if s > 0 { 1 } else { 2 }));
    trial.modes.iter().map(|m| *m as usize).chain(links).chain(tops).collect()
}

fn combination(picked: &[(&Setting, Vec<Force>, &Trial)]) -> Result<Vec<Vec<Accepted>>, Rejected> {
    let stages = picked
        .iter()
        .map(|(setting, forces, trial)| Arithmetic::new(setting, forces, trial))
        .collect::<Result<Vec<_>, _>>()?;
    let mut system = System::default();
    let mut equations: Vec<(usize, Vec<Equation>)> = Vec::new();
    let mut first = 0;
    for stage in &stages {
        let own = stage.equations();
        stage.lower(&own, first, &mut system);
        let next = first + own.len();
        equations.push((first, own));
        first = next;
    }
    let Some(lead) = stages.first() else { return Ok(Vec::new()) };
    for (i, _) in lead.facts() {
        if let Some(value) = fact(&stages, i) {
            system.general.push((value, first + i));
        }
    }
    system.general.extend(lead.unknown_angles());
    let unknowns = Unknowns { setting: lead.setting, known: &lead.known };
    let mut by_symbol = BTreeMap::new();
    for stage in &stages {
        by_symbol.extend(Unknowns { setting: stage.setting, known: &stage.known }.by_symbol());
    }
    let branches = system.solve(&Names { unknowns, by_symbol }).map_err(|clash| {
        if clash.given_up {
            return Rejected::too_long();
        }
        // The stage whose equation cannot hold.
        let place =
            equations.iter().position(|(first, own)| (*first..first + own.len()).contains(&clash.tag));
        let at = place.unwrap_or(0);
        let (stage, own) = (stages.get(at).unwrap_or(lead), equations.get(at));
        let says = match own.filter(|_| place.is_some()) {
            Some((first, own)) => stage.broken(own, clash.tag - first),
            None => stage.broken(&[], clash.tag.saturating_sub(first)),
        };
        Rejected::clash(says)
    })?;
    let mut ways: Vec<Vec<Accepted>> = Vec::new();
    let mut rejected = None;
    for branch in branches {
        let judged: Result<Vec<Accepted>, Rejected> =
            stages.iter().map(|stage| stage.judge(branch.clone())).collect();
        match judged {
            Ok(way) => ways.push(way),
            Err(why) => rejected = Some(why),
        }
    }
    for (at, stage) in stages.iter().enumerate() {
        let mut kept: Vec<Accepted> = ways.iter().filter_map(|w| w.get(at).cloned()).collect();
        let all = kept.len();
        leave_out_idle(stage.setting, &mut kept);
        if kept.len() < all {
            ways.retain(|w| w.get(at).is_some_and(|case| kept.iter().any(|k| k.values == case.values)));
        }
    }
    match rejected {
        Some(why) if ways.is_empty() => Err(why),
        _ => Ok(ways),
    }
}

/// A given fact, as all these stages see it.
fn fact(stages: &[Arithmetic], index: usize) -> Option<Value> {
    let lead = stages.first()?;
    let relation = lead.setting.situation.relations.get(index)?;
    let mut sum = Value::zero();
    for (coefficient, quantities) in &relation.terms {
        let mut product = coefficient.clone();
        for id in quantities {
            let own = stages.iter().find(|s| s.setting.body_of_acceleration(*id).is_some());
            let stage = own.unwrap_or(lead);
            let still = stage.trial.still();
            let (id, sign) = stage.writer(&still).oriented(*id);
            let unknowns = Unknowns { setting: stage.setting, known: &stage.known };
            let value = unknowns.value(id).cloned().unwrap_or_else(|| Value::symbol(&unknowns.symbol(id.0)));
            product *= signed(sign, &value);
        }
        sum += product;
    }
    Some(sum)
}

/// What all ways agree on and nobody knew.
fn agreed(story: &Story, stages: &[usize], ways: &[Vec<Accepted>]) -> Vec<(QuantityId, Value)> {
    let mut news = BTreeMap::new();
    let Some((first, others)) = ways.split_first() else { return Vec::new() };
    for (place, at) in stages.iter().enumerate() {
        let (Some(chapter), Some(case)) = (story.chapters.get(*at), first.get(place)) else { continue };
        for id in story.places.spoken_of(*at) {
            let known = story.told.contains_key(&id) || story.situation.known(id, story.part).is_some();
            if known || news.contains_key(&id) || story.places.is_oriented(id) {
                continue;
            }
            let tells = |case: &Accepted| story.places.tells(&chapter.setting, case, id);
            let Some(value) = tells(case) else { continue };
            let same = |other: &Vec<Accepted>| {
                other.get(place).and_then(tells).is_some_and(|v| (v - &value).is_zero())
            };
            if others.iter().all(same) {
                news.insert(id, value);
            }
        }
    }
    news.into_iter().collect()
}
