//! What the story says of a stage, as far as it is drawn: which it is, what is gone or slack, what is held or has landed.

use crate::wording;
use model::{BodyId, Happening, Link, LinkId, Situation, Stage, StageId, State};
use motion::{LinkState, Solved};
use std::collections::BTreeSet;

/// How the stages of a story are told apart: by name, else by what begins or ends them (`after the string breaks`).
/// Empty where there is one stage only, and for nameless states that are only compared.
pub(crate) fn phrase(situation: &Situation, stage: StageId) -> String {
    let Some(this) = situation.stage(stage) else { return String::new() };
    let name = this.name.trim();
    if situation.stages.len() < 2 {
        return String::new();
    }
    if !name.is_empty() {
        return name.to_owned();
    }
    if let Some(begins) = &this.begins {
        let when = if this.state == State::Jerk { "at the instant when" } else { "after" };
        return match happening(situation, &begins.with) {
            Some(words) => format!("{when} {words}"),
            None => format!("in the {} stage", ordinal(stage.0)),
        };
    }
    let next = situation.stages.iter().filter_map(|s| s.begins.as_ref()).find(|b| b.after == stage);
    next.map_or_else(String::new, |begins| match happening(situation, &begins.with) {
        Some(words) => format!("until {words}"),
        None => "in the first stage".to_owned(),
    })
}

/// What happens, in words; `None` for a change that has no name.
fn happening(situation: &Situation, with: &Happening) -> Option<String> {
    let link = |id: LinkId| situation.link(id).map_or("the string", |l| l.name.as_str());
    let action = |id| situation.action(id).map_or("the force", |a: &model::Action| a.name.as_str());
    Some(match with {
        Happening::Breaks(id) => format!("{} breaks", link(*id)),
        Happening::Slackens(id) => format!("{} becomes slack", link(*id)),
        Happening::Tightens(id) => format!("{} becomes taut", link(*id)),
        Happening::Stops { body, at } => format!("{} reaches {at}", wording::name(situation, *body)),
        Happening::Rests(body) => format!("{} comes to rest", wording::name(situation, *body)),
        Happening::Ends(id) => format!("{} stops acting", action(*id)),
        Happening::Starts(id) => format!("{} begins to act", action(*id)),
        Happening::Changes => return None,
    })
}

fn ordinal(index: usize) -> String {
    let words = ["first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth"];
    words.get(index).map_or_else(|| "last".to_owned(), |w| (*w).to_owned())
}

/// A stage and those before it, latest first.
fn so_far(situation: &Situation, stage: StageId) -> Vec<&Stage> {
    let mut stages = Vec::new();
    let mut at = situation.stage(stage);
    while let Some(this) = at.filter(|_| stages.len() < situation.stages.len()) {
        stages.push(this);
        at = this.begins.as_ref().and_then(|b| situation.stage(b.after));
    }
    stages
}

/// The links that are drawn in a stage, and which of them are drawn slack. What was cut is gone; a string that the
/// story only leaves out still lies there.
pub(crate) fn links<'a>(
    situation: &'a Situation,
    stage: StageId,
    solved: Option<&Solved>,
) -> (Vec<(LinkId, &'a Link)>, BTreeSet<LinkId>) {
    let before = so_far(situation, stage);
    let broken = |id: LinkId| {
        let broke = |s: &&Stage| s.begins.as_ref().is_some_and(|b| b.with == Happening::Breaks(id));
        before.len() < 2 || before.iter().any(broke)
    };
    let left_out = |id: LinkId| situation.stage(stage).is_some_and(|s| s.without_links.contains(&id));
    let state = |id: LinkId| solved.and_then(|s| s.case.links.get(id.0)).copied();
    let (mut drawn, mut loose) = (Vec::new(), BTreeSet::new());
    for (id, link) in situation.link_ids().zip(&situation.links) {
        let out = left_out(id);
        // A contact that the story leaves out has parted.
        let gone = if out { broken(id) || link.is_contact } else { state(id) == Some(LinkState::Absent) };
        if gone {
            continue;
        }
        drawn.push((id, link));
        if out || state(id) == Some(LinkState::Loose) {
            loose.insert(id);
        }
    }
    (drawn, loose)
}

/// How a body is kept where it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Kept {
    /// By a hand, or by something of which nothing is said.
    Held,
    /// It lies on this floor or platform.
    Landed(String),
    /// It has come up against this.
    Stopped(String),
}

/// How a body is kept where it is in a stage, if it is.
pub(crate) fn kept(situation: &Situation, stage: StageId, body: BodyId) -> Option<Kept> {
    if !situation.stage(stage)?.held.contains(&body) {
        return None;
    }
    let upright = situation.body(body).is_some_and(|b| b.line == model::Line::Vertical);
    let stops = so_far(situation, stage).into_iter().find_map(|s| match &s.begins.as_ref()?.with {
        Happening::Stops { body: which, at } if *which == body => Some(at.clone()),
        _ => None,
    });
    Some(match stops {
        // What moves upwards is stopped by a pulley or a roof, what moves downwards by whatever lies below.
        Some(at) if upright && !["pulley", "ceiling", "roof"].iter().any(|s| at.contains(s)) => {
            Kept::Landed(at)
        }
        Some(at) => Kept::Stopped(at),
        None => Kept::Held,
    })
}

/// Is this the instant of a jerk, in which impulses are drawn and not forces?
pub(crate) fn is_jerk(situation: &Situation, stage: StageId) -> bool {
    situation.stage(stage).is_some_and(|s| s.state == State::Jerk)
}
