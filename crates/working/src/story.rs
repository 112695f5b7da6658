//! The stages of a story in words.

use crate::direction::capital;
use model::{Begins, Happening, Situation, StageId, State};
use std::collections::BTreeSet;

/// Of which stage a step speaks, as a sentence of its own with a blank behind it; empty where there is one stage only.
/// `told`: the stages of which something has been said before.
pub(crate) fn when(situation: &Situation, stage: StageId, told: &BTreeSet<StageId>) -> String {
    let Some(here) = situation.stage(stage) else { return String::new() };
    let first = told.is_empty();
    let start = match (first, told.contains(&stage)) {
        (true, _) => "First,",
        (_, true) => "Back to",
        (_, false) => "Now",
    };
    if let Some(begins) = &here.begins {
        let after = begun(situation, begins);
        return match here.state {
            State::Jerk => format!("{start} the jerk as {}. ", jerks(situation, begins)),
            _ => format!("{start} the motion after {after}. "),
        };
    }
    let next = situation.stages.iter().filter_map(|s| s.begins.as_ref()).find(|b| b.after == stage);
    match next {
        Some(begins) => format!("{start} the motion {}. ", until(situation, begins)),
        None if situation.stages.len() > 1 && !first && !here.name.trim().is_empty() => {
            format!("Now for the state “{}”. ", here.name.trim())
        }
        None => String::new(),
    }
}

/// `Until the string breaks:` in front of an equation of this stage.
pub(crate) fn heading(situation: &Situation, stage: StageId) -> String {
    let Some(here) = situation.stage(stage) else { return String::new() };
    let next = situation.stages.iter().filter_map(|s| s.begins.as_ref()).find(|b| b.after == stage);
    let said = match (&here.begins, next) {
        (Some(begins), _) if here.state == State::Jerk => format!("as {}", jerks(situation, begins)),
        (Some(begins), _) => format!("after {}", begun(situation, begins)),
        (None, Some(begins)) => until(situation, begins),
        (None, None) if !here.name.trim().is_empty() => here.name.trim().to_owned(),
        (None, None) => return String::new(),
    };
    format!("{}:", capital(&said))
}

/// `before the string breaks`: what ends a stage.
fn until(situation: &Situation, begins: &Begins) -> String {
    let link = |id: &model::LinkId| situation.link(*id).map_or("the string", |l| l.name.as_str()).to_owned();
    let body = |id: &model::BodyId| situation.body(*id).map_or("the body", |b| b.name.as_str()).to_owned();
    let action =
        |id: &model::ActionId| situation.action(*id).map_or("the force", |a| a.name.as_str()).to_owned();
    match &begins.with {
        Happening::Breaks(l) => format!("until {} breaks", link(l)),
        Happening::Slackens(l) => format!("while {} is taut", link(l)),
        Happening::Tightens(l) => format!("while {} is slack", link(l)),
        Happening::Stops { body: b, at } => format!("until {} reaches {at}", body(b)),
        Happening::Rests(b) => format!("until {} comes to rest", body(b)),
        Happening::Ends(a) => format!("while {} acts", action(a)),
        Happening::Starts(a) => format!("before {} acts", action(a)),
        Happening::Changes => "at the start".to_owned(),
    }
}

/// `the string has broken`: what has begun a stage.
fn begun(situation: &Situation, begins: &Begins) -> String {
    let link = |id: &model::LinkId| situation.link(*id).map_or("the string", |l| l.name.as_str()).to_owned();
    let body = |id: &model::BodyId| situation.body(*id).map_or("the body", |b| b.name.as_str()).to_owned();
    let action =
        |id: &model::ActionId| situation.action(*id).map_or("the force", |a| a.name.as_str()).to_owned();
    if situation.stage(begins.after).is_some_and(|s| s.state == State::Jerk) {
        return "the jerk".to_owned();
    }
    match &begins.with {
        Happening::Breaks(l) => format!("{} has broken", link(l)),
        Happening::Slackens(l) => format!("{} has gone slack", link(l)),
        Happening::Tightens(l) => format!("{} has become taut", link(l)),
        Happening::Stops { body: b, at } => format!("{} has reached {at}", body(b)),
        Happening::Rests(b) => format!("{} has come to rest", body(b)),
        Happening::Ends(a) => format!("{} has stopped acting", action(a)),
        Happening::Starts(a) => format!("{} has begun to act", action(a)),
        Happening::Changes => "the change".to_owned(),
    }
}

/// `the string becomes taut`: what makes a jerk.
fn jerks(situation: &Situation, begins: &Begins) -> String {
    match &begins.with {
        Happening::Tightens(l) => {
            format!("{} becomes taut", situation.link(*l).map_or("the string", |l| l.name.as_str()))
        }
        _ => "the bodies are brought to a common speed".to_owned(),
    }
}
