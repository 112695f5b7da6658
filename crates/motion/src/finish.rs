//! From the case that holds to the solved stage: orients forces so that their sizes are positive and
//! writes the whole pool.

use crate::attempt::{Accepted, Mode, Trial};
use crate::setting::Setting;
use crate::sign::sign_with_positive_letters;
use crate::stack::{self, Top};
use crate::write::{Writer, places};
use crate::{
    Case, Equation, EquationId, Factor, Force, ForceId, ForceKind, LinkState, Solved, forces, runs, sharing,
};
use exact::{Sign, Value};
use model::{Holds, Kind, QuantityId, State};
use std::collections::{BTreeMap, BTreeSet};

/// Why something has no value, where that is not for want of givens.
pub(crate) const TOO_LONG: &str = "the equations become too long to be followed";

/// How much of the pool is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Extent {
    /// One equation of motion for each body, as it was solved: grows with the number of bodies.
    Bodies,
    /// And one for each system that a person might choose, which are many in a long chain.
    Systems,
}

/// Writes the solved stage.
pub(crate) fn finish(setting: &Setting, forces: &[Force], accepted: Accepted, extent: Extent) -> Solved {
    let Accepted { mut trial, frictions, mut values, angles, conditions, too_long, .. } = accepted;
    let mut forces = acting(forces, &trial.links);
    let mut turned = BTreeSet::new();
    turn_towards_tendency(setting, &forces, &mut trial, &mut values, &mut turned);
    forces::against(setting, &mut forces, &trial.senses, &trial.tops);
    positive_sizes(setting, &mut forces, &mut values, &mut turned);
    let still = trial.still();
    let places = places(setting.bodies(), &forces);
    let writer = Writer {
        setting,
        forces: &forces,
        places: &places,
        groups: &trial.groups,
        senses: &trial.senses,
        links: &trial.links,
        frictions: &frictions,
        still: &still,
    };
    let equations = pool(&writer, &trial.tops, &turned, extent);
    let accelerations = (0..setting.bodies()).filter_map(|b| writer.acceleration(b)).collect();
    let moves = moves(setting, &trial, &values);
    let mut undetermined = undetermined(setting, &trial, &equations, &values);
    undetermined.retain(|(id, _)| !angles.contains_key(id));
    if too_long {
        undetermined.iter_mut().for_each(|(_, why)| TOO_LONG.clone_into(why));
    }
    Solved {
        stage: setting.id,
        part: setting.part,
        case: Case { links: trial.links, frictions, moves },
        senses: trial.senses,
        accelerations,
        forces,
        equations,
        values,
        angles,
        undetermined,
        conditions,
    }
}

fn moves(setting: &Setting, trial: &Trial, values: &BTreeMap<QuantityId, Value>) -> bool {
    let from_rest = setting.stage.state == State::Released;
    (0..setting.bodies()).any(|b| match trial.mode(b) {
        Mode::Rest | Mode::Limiting => false,
        Mode::Steady => true,
        Mode::Sliding => {
            let a = setting.stage.accelerations.get(b).and_then(|id| values.get(id));
            !from_rest || a.is_none_or(|a| !a.is_zero())
        }
    })
}

/// The forces that act, numbered anew.
fn acting(forces: &[Force], links: &[LinkState]) -> Vec<Force> {
    let mut numbers = vec![None; forces.len()];
    let mut kept: Vec<Force> = Vec::with_capacity(forces.len());
    for force in forces {
        let slack = matches!(force.kind, ForceKind::Link(id) if links.get(id.0) != Some(&LinkState::Holding));
        if slack {
            continue;
        }
        if let Some(number) = numbers.get_mut(force.id.0) {
            *number = Some(ForceId(kept.len()));
        }
        kept.push(force.clone());
    }
    for (i, force) in kept.iter_mut().enumerate() {
        force.id = ForceId(i);
        force.partner = force.partner.and_then(|p| numbers.get(p.0).copied().flatten());
    }
    kept
}

/// The quantity that is the size of a force of a link, of friction or of a named force.
fn size(force: &Force) -> Option<QuantityId> {
    if force.kind == ForceKind::Weight {
        return None;
    }
    force.size.iter().find_map(|f| if let Factor::Quantity(id) = f { Some(*id) } else { None })
}

fn is_negative(value: Option<&Value>) -> bool {
    value.is_some_and(|v| sign_with_positive_letters(v) == Some(Sign::Negative))
}

fn negate(id: QuantityId, values: &mut BTreeMap<QuantityId, Value>, turned: &mut BTreeSet<QuantityId>) {
    if let Some(value) = values.get_mut(&id) {
        *value = -&*value;
    }
    if !turned.remove(&id) {
        turned.insert(id);
    }
}

/// A group at rest without a given direction is oriented the way it would move, so that friction acts
/// against that.
fn turn_towards_tendency(
    setting: &Setting,
    forces: &[Force],
    trial: &mut Trial,
    values: &mut BTreeMap<QuantityId, Value>,
    turned: &mut BTreeSet<QuantityId>,
) {
    if setting.stage.heading.is_some() {
        return;
    }
    let groups = trial.groups.members.clone();
    for (group, members) in groups.iter().enumerate() {
        if trial.modes.get(group) != Some(&Mode::Rest) {
            continue;
        }
        let opposing = |f: &&Force| members.contains(&f.on.0) && forces::opposes_motion(setting, f);
        if !forces.iter().filter(opposing).filter_map(size).any(|id| is_negative(values.get(&id))) {
            continue;
        }
        // Friction that sticks on a top turns with its body; the two forces of a pair have one size.
        let turns = |f: &&Force| {
            let owner = stack::owner(forces, f);
            let slides =
                f.kind == ForceKind::Friction && trial.tops.get(owner).is_some_and(|t| t.sense().is_some());
            members.contains(&owner) && forces::opposes(setting, f) && !slides
        };
        let turning: BTreeSet<QuantityId> = forces.iter().filter(turns).filter_map(size).collect();
        for id in turning {
            negate(id, values, turned);
        }
        for body in members {
            if let Some(sense) = trial.senses.get_mut(*body) {
                *sense = -*sense;
            }
        }
    }
}

/// Turns every force whose size came out negative.
fn positive_sizes(
    setting: &Setting,
    forces: &mut [Force],
    values: &mut BTreeMap<QuantityId, Value>,
    turned: &mut BTreeSet<QuantityId>,
) {
    let negative: BTreeSet<QuantityId> =
        forces.iter().filter_map(size).filter(|id| is_negative(values.get(id))).collect();
    for id in &negative {
        negate(*id, values, turned);
    }
    for force in forces {
        if !size(force).is_some_and(|id| negative.contains(&id)) {
            continue;
        }
        force.along = forces::opposite(force.along);
        force.across = forces::opposite(force.across);
        let ForceKind::Link(id) = force.kind else { continue };
        if let Some(link) = setting.situation.link(id).filter(|l| l.holds == Holds::PullOrPush) {
            force.thrust = true;
            if !setting.is_jerk() {
                force.name = format!("thrust in {}", link.name);
            }
        }
    }
}

/// Every equation that a person could write.
fn pool(writer: &Writer, tops: &[Top], turned: &BTreeSet<QuantityId>, extent: Extent) -> Vec<Equation> {
    let setting = writer.setting;
    let bodies = setting.bodies();
    let mut equations: Vec<Equation> = Vec::new();
    if setting.is_jerk() {
        equations.extend(writer.jerk_pool());
    } else {
        equations.extend((0..bodies).filter(|b| setting.has_motion(*b)).map(|b| writer.motion(&[b])));
        if extent == Extent::Systems {
            // What holds a body takes up whatever the other forces leave.
            let held = |b: usize| setting.is_held(b);
            let systems = runs::together(setting.situation, writer.links, tops, writer.groups, held);
            equations.extend(systems.iter().map(|s| writer.motion(s)));
        }
        equations.extend((0..bodies).filter_map(|b| writer.balance(b)));
        equations.extend((0..bodies).filter_map(|b| writer.friction(b)));
        equations.extend(writer.groups.explicit.iter().filter_map(|id| writer.together(*id)));
        equations.extend(setting.stage.journeys.iter().flat_map(|j| writer.journey(j)));
    }
    let facts = setting.situation.relations.iter().enumerate();
    let facts = facts.filter(|(_, r)| r.from_part <= setting.part);
    equations.extend(facts.filter_map(|(i, _)| writer.fact(i, |id| turned.contains(&id))));
    for (i, equation) in equations.iter_mut().enumerate() {
        equation.id = EquationId(i);
    }
    equations
}

/// What the pool speaks of and the givens do not fix.
fn undetermined(
    setting: &Setting,
    trial: &Trial,
    equations: &[Equation],
    values: &BTreeMap<QuantityId, Value>,
) -> Vec<(QuantityId, String)> {
    let mut open: BTreeSet<QuantityId> = equations.iter().flat_map(Equation::quantities).collect();
    open.retain(|id| {
        let angle = setting.kind(*id) == Kind::Angle && setting.sin_cos(*id).is_some();
        !values.contains_key(id) && !angle
    });
    // A resistance that is given and yet open is one that holds, as much as needed.
    let is_missing = |id: &&QuantityId| is_input(setting.kind(**id)) && setting.value(**id).is_none();
    let missing: Vec<&str> = open.iter().filter(is_missing).map(|id| setting.name(*id)).collect();
    if !missing.is_empty() {
        let why = format!("not given: {}", missing.join(", "));
        return open.into_iter().map(|id| (id, why.clone())).collect();
    }
    let sharing = sharing::by_group(setting, trial, &open);
    let why = |id: &QuantityId| {
        let shared = sharing::group_of(setting, trial, *id).and_then(|g| sharing.get(&g)).cloned();
        shared.unwrap_or_else(|| "the givens do not fix it".to_owned())
    };
    open.iter().map(|id| (*id, why(id))).collect()
}

/// Is this something that a question gives, rather than something that follows?
pub(crate) fn is_input(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Mass
            | Kind::Force
            | Kind::Resistance
            | Kind::Coefficient
            | Kind::Angle
            | Kind::Gravity
            | Kind::Number
    )
}
