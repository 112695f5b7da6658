//! How a group of bodies may move: the likeliest way first.

use crate::attempt::Mode;
use crate::groups::Groups;
use crate::setting::{Setting, signed};
use crate::sign::sign_with_positive_letters;
use crate::stack::{self, Top};
use crate::{Factor, Force, ForceKind, Share, forces};
use exact::{Sign, Value};
use model::{QuantityId, State};

/// How one group might move: how, in which sense of its first body, and whether that sense is only supposed.
pub(crate) type Choice = (Mode, i8, bool);

/// What decides how groups may move.
pub(crate) struct Choosing<'a> {
    pub(crate) setting: &'a Setting<'a>,
    /// By body: the direction of motion, where the question gives it.
    pub(crate) heading: Vec<Option<i8>>,
    /// Are all masses, sizes and coefficients known, so that there is but one way to move?
    pub(crate) complete: bool,
}

impl<'a> Choosing<'a> {
    pub(crate) fn new(setting: &'a Setting<'a>) -> Choosing<'a> {
        Choosing { setting, heading: headings(setting), complete: is_complete(setting) }
    }

    /// The ways in which a group may move, the likeliest first; none if one of its bodies is held while
    /// another is said to move.
    pub(crate) fn choices(&self, groups: &Groups, group: usize, forces: &[Force]) -> Vec<Choice> {
        let members = groups.members.get(group).map_or(&[][..], Vec::as_slice);
        let given = members
            .iter()
            .find_map(|b| self.heading.get(*b).copied().flatten().map(|h| h * groups.sense_of(*b)));
        let held = members.iter().any(|b| self.may_hold(forces, *b));
        let likely = given.unwrap_or_else(|| self.likely_sense(groups, members, forces));
        let both = |mode, supposed| vec![(mode, likely, supposed), (mode, -likely, supposed)];
        let fixed = !self.setting.is_jerk()
            && (members.iter().any(|b| self.setting.is_held(*b))
                || groups.jammed.get(group).copied().unwrap_or(false));
        let slips = members
            .iter()
            .any(|b| self.setting.is_about_to_slip(*b) && stack::under(self.setting, *b).is_none() && held);
        match (self.setting.stage.state, given) {
            (State::Moving, Some(_)) if fixed => Vec::new(),
            (State::Released | State::Moving, Some(_)) if slips => vec![(Mode::Limiting, likely, false)],
            (State::Released | State::Moving, None) if slips => both(Mode::Limiting, false),
            (State::Released | State::Moving, _) if fixed => vec![(Mode::Rest, likely, false)],
            (State::AtRest, _) => vec![(Mode::Rest, likely, false)],
            (State::Limiting, Some(_)) => vec![(Mode::Limiting, likely, false)],
            (State::Limiting, None) if held => both(Mode::Limiting, false),
            (State::Limiting, None) => vec![(Mode::Limiting, likely, false)],
            (State::Steady, None) if held => both(Mode::Steady, false),
            (State::Steady, _) => vec![(Mode::Steady, likely, false)],
            (State::Jerk | State::Released | State::Moving, Some(_)) => vec![(Mode::Sliding, likely, false)],
            (State::Jerk, None) => both(Mode::Sliding, false),
            (State::Released | State::Moving, None) => {
                let mut list = both(Mode::Sliding, true);
                if held {
                    // Where sliding friction is smaller than static friction, what can rest does rest.
                    let at = if members.iter().any(|b| self.has_two_coefficients(*b)) { 0 } else { 1 };
                    list.insert(at, (Mode::Rest, likely, false));
                }
                list
            }
        }
    }

    /// May this body be kept at rest by friction of the ground, a resistance, or the floor under it?
    fn may_hold(&self, forces: &[Force], body: usize) -> bool {
        forces.iter().any(|f| {
            let floor = f.kind == ForceKind::Reaction && f.along != Share::None && f.partner.is_none();
            f.on.0 == body && (forces::opposes_motion(self.setting, f) || floor)
        })
    }
    /// Is the coefficient while sliding told apart?
    fn has_two_coefficients(&self, body: usize) -> bool {
        crate::write::while_sliding(self.setting, body).is_some()
    }

    /// The sense in which known forces drive a group, or in which it is given to accelerate.
    fn likely_sense(&self, groups: &Groups, members: &[usize], forces: &[Force]) -> i8 {
        for &body in members {
            let given = self.setting.stage.accelerations.get(body).and_then(|id| self.setting.value(*id));
            match given.and_then(sign_with_positive_letters) {
                Some(Sign::Positive) => return groups.sense_of(body),
                Some(Sign::Negative) => return -groups.sense_of(body),
                _ => {}
            }
        }
        let mut drive = Value::zero();
        for force in forces.iter().filter(|f| members.contains(&f.on.0)) {
            let counts = matches!(force.kind, ForceKind::Weight | ForceKind::Action(_));
            if !counts || forces::opposes(self.setting, force) {
                continue;
            }
            if let Some(value) = self.along(force) {
                drive += signed(groups.sense_of(force.on.0), &value);
            }
        }
        match sign_with_positive_letters(&drive) {
            Some(Sign::Negative) => -1,
            Some(_) => 1,
            // It depends on the letters: the way that is written without a leading minus.
            None if drive.to_string().starts_with('-') => -1,
            None => 1,
        }
    }
    /// The share of a known force along its body's line.
    fn along(&self, force: &Force) -> Option<Value> {
        let mut value = match force.along {
            Share::None => return None,
            Share::All(sense) => Value::from_int(i64::from(sense)),
            Share::Sin(sense, angle) => signed(sense, &self.setting.sin_cos(angle)?.0),
            Share::Cos(sense, angle) => signed(sense, &self.setting.sin_cos(angle)?.1),
        };
        for factor in &force.size {
            value = match factor {
                Factor::Number(r) => value * Value::rational(r.clone()),
                Factor::Quantity(id) => value * self.setting.value(*id)?,
                Factor::Sin(_) | Factor::Cos(_) => return None,
            };
        }
        Some(value)
    }
}

/// The direction of motion of each body, as far as the links hand it on; those that have just come
/// loose included, since what they joined was moving together. While bodies move, one that stands on another
/// moves along with it, unless it is known to slide or to set out from rest.
pub(crate) fn headings(setting: &Setting) -> Vec<Option<i8>> {
    let mut headings = setting.moving.clone();
    let Some(given) = setting.stage.heading else { return headings };
    let carries = |body: usize| {
        let below = stack::under(setting, body)?;
        let apart = |b: usize| {
            let journey = setting.stage.journeys.iter().find(|j| j.body.0 == b);
            let start = journey.and_then(|j| setting.value(j.start_speed));
            setting.is_held(b) || start.is_some_and(Value::is_zero)
        };
        let moving = setting.stage.state == State::Moving;
        (moving && !apart(body) && !apart(below)).then_some(Top::Sticks)
    };
    let tops: Vec<Top> = (0..setting.bodies()).map(|b| carries(b).unwrap_or(Top::Free)).collect();
    // In a story the bodies bring their own directions along.
    let own = headings.iter().any(Option::is_some);
    let all = Groups::new(setting.situation, |id| !own || !setting.stage.without_links.contains(&id), &tops);
    let from = given.sense * all.sense_of(given.body.0);
    for (body, heading) in headings.iter_mut().enumerate() {
        if all.group(body) == all.group(given.body.0) && !setting.is_held(body) {
            *heading = Some(from * all.sense_of(body));
        }
    }
    headings
}

/// Are all masses, forces and coefficients known that bear on the motion?
fn is_complete(setting: &Setting) -> bool {
    let known =
        |id: QuantityId| setting.value(id).is_some_and(|v| v.is_number() || is_in_letters(setting, v));
    let masses = setting.situation.bodies.iter().all(|b| {
        let mu = b.surface.as_ref().and_then(|s| match s.grip {
            model::Grip::Rough(mu) => Some(mu),
            _ => None,
        });
        let sliding = b.surface.as_ref().and_then(|s| s.sliding);
        known(b.mass) && mu.is_none_or(known) && sliding.is_none_or(known)
    });
    let actions = setting
        .situation
        .actions_in(setting.id)
        .all(|(id, _)| setting.stage.forces.get(id.0).is_some_and(|q| known(*q)));
    masses && actions
}

/// Are all symbols of this value letters of the question, none of them an unknown?
fn is_in_letters(setting: &Setting, value: &Value) -> bool {
    value.symbols().iter().all(|s| {
        !setting
            .situation
            .quantities
            .iter()
            .enumerate()
            .any(|(i, q)| &q.symbol == s && setting.value(QuantityId(i)).is_none())
    })
}
