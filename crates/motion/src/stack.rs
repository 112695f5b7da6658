//! Bodies that stand on bodies: what the surface between them does.

use crate::groups::Groups;
use crate::setting::Setting;
use crate::{Force, ForceKind};
use exact::Sign;
use model::{BodyId, Grip, Line, State};

/// What is supposed of the surface between a body and the body that it stands on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Top {
    /// It stands on no body, or on a smooth top: nothing keeps the two together.
    Free,
    /// One lies on the other on a vertical line: they move together, whatever the surface.
    Rides,
    /// They move together; friction as much as that needs.
    Sticks,
    /// They move together, friction at its limit: about to slip this way over the lower one.
    Limit(i8),
    /// It begins to slip this way over the lower one, as the accelerations must bear out.
    Slips(i8),
    /// It is known to slide this way over the lower one.
    Slides(i8),
}

impl Top {
    /// Do the two move together?
    pub(crate) fn joins(self) -> bool {
        matches!(self, Top::Rides | Top::Sticks | Top::Limit(_))
    }
    /// The way in which it slides, or is about to, over the lower one.
    pub(crate) fn sense(self) -> Option<i8> {
        match self {
            Top::Limit(s) | Top::Slips(s) | Top::Slides(s) => Some(s),
            Top::Free | Top::Rides | Top::Sticks => None,
        }
    }
}

/// The body that a body stands on, if that is one of the situation.
pub(crate) fn under(setting: &Setting, body: usize) -> Option<usize> {
    let under = setting.situation.body(BodyId(body))?.surface.as_ref()?.under?;
    (under.0 < setting.bodies() && under.0 != body).then_some(under.0)
}

/// Is this the force that a body exerts, downwards or by friction, on the one it stands on? The pair is
/// gathered together, that on the upper body first.
pub(crate) fn is_on_lower(force: &Force) -> bool {
    matches!(force.kind, ForceKind::Reaction | ForceKind::Friction)
        && force.partner.is_some_and(|p| p < force.id)
}

/// The body whose surface a reaction or friction belongs to: the upper of the two.
pub(crate) fn owner(forces: &[Force], force: &Force) -> usize {
    match force.partner.filter(|_| is_on_lower(force)).and_then(|p| forces.get(p.0)) {
        Some(on_upper) => on_upper.on.0,
        None => force.on.0,
    }
}

/// What is supposed of every body's top at first.
pub(crate) fn at_first(setting: &Setting) -> Vec<Top> {
    let of = |body: usize| {
        if under(setting, body).is_none() {
            return Top::Free;
        }
        let it = setting.situation.body(BodyId(body));
        if it.is_some_and(|b| b.line == Line::Vertical) {
            return Top::Rides;
        }
        let rough = it.and_then(|b| b.surface.as_ref()).is_some_and(|s| matches!(s.grip, Grip::Rough(_)));
        let friction = setting.stage.frictions.get(body).copied().flatten();
        match (rough && friction.is_some(), known_slide(setting, body)) {
            // In the instant of a jerk nothing presses the two together that could rub.
            (false, _) => Top::Free,
            _ if setting.is_jerk() => Top::Free,
            (true, Some(sense)) => Top::Slides(sense),
            (true, None) => Top::Sticks,
        }
    };
    (0..setting.bodies()).map(of).collect()
}

/// Does a body surely slide over the one that it stands on: because that is held while it moves, or because
/// they set out with different speeds?
fn known_slide(setting: &Setting, body: usize) -> Option<i8> {
    let below = under(setting, body)?;
    let said = |b: usize| setting.stage.heading.filter(|h| h.body.0 == b).map(|h| h.sense);
    let sense = |b: usize| said(b).or(setting.moving.get(b).copied().flatten());
    let start = |b: usize| {
        let journey = setting.stage.journeys.iter().find(|j| j.body.0 == b)?;
        setting.value(journey.start_speed)
    };
    let rests = |b: usize| setting.is_held(b) || start(b).is_some_and(exact::Value::is_zero);
    let moves = |b: usize| start(b).and_then(|v| v.sign().ok()) == Some(Sign::Positive);
    if !matches!(setting.stage.state, State::Moving | State::Steady) {
        return None;
    }
    if let Some(sense) = sent_back(setting, body, below) {
        return Some(sense);
    }
    if setting.stage.state != State::Moving {
        return None;
    }
    match (sense(body), sense(below)) {
        (Some(s), _) if rests(below) && !rests(body) => Some(s),
        (_, Some(s)) if rests(body) && !rests(below) => Some(-s),
        (Some(s), None) | (None, Some(s)) if moves(body) && moves(below) => {
            // Both go the same way, at speeds that are given.
            let gap = start(body)? - start(below)?;
            match gap.sign().ok()? {
                Sign::Positive => Some(s),
                Sign::Negative => Some(-s),
                Sign::Zero => None,
            }
        }
        _ => None,
    }
}

/// The way of a body that links drive against the one that it stands on (a string round a pulley at the wall).
fn sent_back(setting: &Setting, body: usize, below: usize) -> Option<i8> {
    let heading = setting.stage.heading?;
    let joined = Groups::new(setting.situation, |id| !setting.stage.without_links.contains(&id), &[]);
    let of = |b: usize| {
        let along = joined.group(b) == joined.group(heading.body.0);
        along.then(|| heading.sense * joined.sense_of(heading.body.0) * joined.sense_of(b))
    };
    let (top, lower) = (of(body)?, of(below)?);
    (top != lower).then_some(top)
}
