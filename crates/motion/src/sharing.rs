//! Forces that hold bodies at rest between them: two rough bodies on one string, each held as far as need be. The
//! givens fix that they suffice, but not how much of the holding falls to each.

use crate::attempt::{Mode, Trial};
use crate::setting::Setting;
use model::{Kind, QuantityId};
use std::collections::{BTreeMap, BTreeSet};

/// By group at rest: which of the open forces share its holding, in words. No entry where fewer than two do.
pub(crate) fn by_group(
    setting: &Setting,
    trial: &Trial,
    open: &BTreeSet<QuantityId>,
) -> BTreeMap<usize, String> {
    let mut holders: BTreeMap<usize, Vec<String>> = BTreeMap::new();
    let holds =
        |id: &&QuantityId| matches!(setting.kind(**id), Kind::Friction | Kind::Resistance | Kind::Reaction);
    for id in open.iter().filter(holds) {
        let Some(group) = group_of(setting, trial, *id) else { continue };
        if matches!(trial.modes.get(group), Some(Mode::Rest | Mode::Limiting)) {
            let name = setting.name(*id);
            let name = name.strip_prefix("the ").unwrap_or(name);
            holders.entry(group).or_default().push(name.to_owned());
        }
    }
    let says = |names: Vec<String>| {
        let (last, others) = names.split_last().filter(|(_, others)| !others.is_empty())?;
        let others = others.join(", ");
        Some(format!("{others} and {last} share the holding; the givens do not fix how"))
    };
    holders.into_iter().filter_map(|(group, names)| Some((group, says(names)?))).collect()
}

/// The group of bodies on which a force of this stage acts.
pub(crate) fn group_of(setting: &Setting, trial: &Trial, id: QuantityId) -> Option<usize> {
    let stage = setting.stage;
    let is = |q: &Option<QuantityId>| *q == Some(id);
    let on_link = || {
        let link = stage.links.iter().position(|q| *q == id)?;
        let ends = &setting.situation.links.get(link)?.ends;
        ends.iter().map(|e| e.body.0).find(|b| !setting.is_held(*b))
    };
    let acted_on = || {
        let action = stage.forces.iter().position(|q| *q == id)?;
        setting.situation.actions.get(action).map(|a| a.on.0)
    };
    let body = stage.frictions.iter().position(is);
    let body = body.or_else(|| stage.reactions.iter().position(is)).or_else(on_link).or_else(acted_on)?;
    trial.groups.of.get(body).copied()
}
