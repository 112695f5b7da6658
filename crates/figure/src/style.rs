//! How each sort of force is drawn: told apart by line and point as well as by colour, so that print in
//! black and white loses nothing.

use crate::drawing::{BLUE, GREEN, Head, INK, Pen, STRING, VERMILLION};
use model::{Holds, Role, Situation};
use motion::{Force, ForceKind};

const SOLID: Option<&str> = None;
const DASHED: Option<&str> = Some("7 4");

/// The pen and the point of a force's arrow.
pub(crate) fn of(situation: &Situation, force: &Force) -> (Pen, Head) {
    let role = |id| situation.action(id).map(|a| a.role);
    let contact = |id| situation.link(id).is_some_and(|l| l.is_contact);
    match force.kind {
        ForceKind::Weight => (Pen { colour: INK, width: 1.6, dash: SOLID }, Head::Filled),
        ForceKind::Reaction => (Pen { colour: GREEN, width: 1.8, dash: SOLID }, Head::Open),
        ForceKind::Link(id) if contact(id) => (Pen { colour: GREEN, width: 1.8, dash: SOLID }, Head::Open),
        ForceKind::Link(_) => (Pen { colour: BLUE, width: 1.8, dash: SOLID }, Head::Filled),
        ForceKind::Friction => (Pen { colour: VERMILLION, width: 1.8, dash: DASHED }, Head::Filled),
        ForceKind::Action(id) => match role(id) {
            Some(Role::Resistance | Role::Braking) => {
                (Pen { colour: VERMILLION, width: 1.8, dash: DASHED }, Head::Filled)
            }
            Some(Role::Cable) => (Pen { colour: BLUE, width: 1.8, dash: SOLID }, Head::Filled),
            _ => (Pen { colour: INK, width: 2.6, dash: SOLID }, Head::Filled),
        },
    }
}

/// The pen of a string or rod in the scene.
pub(crate) fn link(is_loose: bool, holds: Holds) -> Pen {
    match (is_loose, holds) {
        (true, _) => Pen { dash: Some("3 4"), ..STRING },
        (false, Holds::PullOrPush) => Pen { width: 3.0, ..STRING },
        (false, _) => STRING,
    }
}
