//! Looks whether what an attempt found agrees with the inequalities: strings only pull, contacts only
//! push, friction is at most μR, sizes are sizes, and what is released moves the way it accelerates.

use crate::attempt::{Accepted, Arithmetic, Mode, Rejected, Switch, is_size};
use crate::general::Branch;
use crate::lower::{Unknown, Unknowns};
use crate::setting::signed;
use crate::sign::sign_with_positive_letters;
use crate::stack::{self, Top};
use crate::write::rough;
use crate::{About, Condition, FrictionState, LinkState, forces};
use exact::{Angle, Sign, Value, round_significant};
use model::{BodyId, Direction, Holds, Kind, LinkId, QuantityId, Role, State};
use std::collections::BTreeMap;

/// A value as it is spoken of in a message.
pub(crate) fn shown(value: &Value) -> String {
    if value.as_rational().is_some_and(|r| r.is_integer()) {
        return value.to_string();
    }
    match round_significant(value, 3) {
        Ok(decimal) => decimal.digits,
        Err(_) => value.to_string(),
    }
}

/// A value with its unit.
pub(crate) fn with_unit(value: &Value, kind: Kind) -> String {
    let unit = kind.dimension().unit_ascii();
    if unit.is_empty() { shown(value) } else { format!("{} {unit}", shown(value)) }
}

struct Judging<'a, 'b> {
    arithmetic: &'a Arithmetic<'b>,
    values: BTreeMap<QuantityId, Value>,
    conditions: Vec<Condition>,
    failed: Option<Rejected>,
    /// Groups at rest in which several frictions share the holding.
    sharing: Vec<usize>,
    open: bool,
}

impl Arithmetic<'_> {
    /// Judges what one branch of the equations gives.
    pub(crate) fn judge(&self, branch: Branch) -> Result<Accepted, Rejected> {
        for angle in self.angles(&branch).values() {
            if let (Angle::Sin(sine), Err(_)) = (angle, angle.cos()) {
                let says = format!("the sine of the angle would have to be {}", shown(sine));
                return Err(Rejected::failed(says));
            }
        }
        self.acute(&branch)?;
        let mut judging = Judging {
            arithmetic: self,
            values: self.values(&branch),
            conditions: Vec::new(),
            failed: None,
            sharing: Vec::new(),
            open: false,
        };
        judging.links();
        judging.surfaces();
        judging.resting();
        judging.held_together();
        judging.sizes();
        judging.direction();
        judging.slipping();
        match judging.failed {
            Some(rejected) => Err(rejected),
            None => Ok(Accepted {
                trial: self.trial.clone(),
                frictions: self.frictions.clone(),
                values: judging.values,
                angles: self.angles(&branch),
                conditions: judging.conditions,
                open: judging.open,
                too_long: branch.given_up,
            }),
        }
    }
}

impl Arithmetic<'_> {
    /// An angle that is found lies between 0° and 90°: neither its sine nor its cosine is below zero.
    fn acute(&self, branch: &Branch) -> Result<(), Rejected> {
        let unknowns = Unknowns { setting: self.setting, known: &self.known };
        for (unknown, value) in &branch.values {
            let (id, beyond) = match unknowns.what(*unknown) {
                Unknown::Sin(id) => (id, "be below 0°"),
                Unknown::Cos(id) => (id, "be more than 90°"),
                Unknown::Quantity(_) => continue,
            };
            if sign_with_positive_letters(value) == Some(Sign::Negative) {
                let name = self.setting.name(id).trim_start_matches("the ");
                return Err(Rejected::failed(format!("the {name} would have to {beyond}")));
            }
        }
        let cosine = |id| branch.values.iter().find(|(u, _)| unknowns.what(**u) == Unknown::Cos(id));
        for (id, angle) in self.angles(branch) {
            let Some((_, cosine)) = cosine(id).filter(|(_, v)| !v.is_number()) else { continue };
            if !angle.cos().is_ok_and(|c| (c - cosine).is_zero()) {
                let name = self.setting.name(id).trim_start_matches("the ");
                let letters: Vec<String> = cosine.symbols().into_iter().collect();
                let says = format!("the {name} depends on {}", letters.join(" and "));
                return Err(Rejected { in_letters: true, ..Rejected::failed(says) });
            }
        }
        Ok(())
    }
}

impl Judging<'_, '_> {
    fn fail(&mut self, says: String, switch: Option<Switch>) {
        let failed = self.failed.get_or_insert_with(|| Rejected::failed(says));
        failed.switches.extend(switch);
    }
    fn value(&self, id: QuantityId) -> Option<&Value> {
        self.values.get(&id)
    }
    /// Requires that `left` is at most `right`; if not, says why, and what else may be supposed.
    fn require(
        &mut self,
        says: String,
        left: Value,
        right: Value,
        about: About,
        otherwise: impl Fn(&Value) -> (String, Option<Switch>),
    ) {
        let gap = &right - &left;
        if sign_with_positive_letters(&gap) == Some(Sign::Negative) {
            let (says, switch) = otherwise(&gap);
            self.fail(says, switch);
            return;
        }
        self.conditions.push(Condition { says, left, right, about });
    }

    fn links(&mut self) {
        let setting = self.arithmetic.setting;
        for (i, link) in setting.situation.links.iter().enumerate() {
            let id = LinkId(i);
            let name = &link.name;
            match self.arithmetic.trial.links.get(i) {
                Some(LinkState::Holding) if link.holds != Holds::PullOrPush => {
                    let Some(force) = setting.stage.links.get(i).and_then(|q| self.value(*q)).cloned() else {
                        continue;
                    };
                    let (says, verb) = if link.holds == Holds::Pull {
                        (format!("{name} is taut"), "push")
                    } else if link.is_contact {
                        ("the bodies stay in contact".to_owned(), "pull")
                    } else {
                        (format!("{name} pushes"), "pull")
                    };
                    self.require(says, Value::zero(), force, About::Link(id), |f| {
                        let kind = if setting.is_jerk() { Kind::Impulse } else { Kind::Tension };
                        let says = format!("{name} would have to {verb} with {}", with_unit(&-f, kind));
                        (says, Some(Switch::Loosen(id)))
                    });
                }
                Some(LinkState::Loose) => self.loose(id, link),
                _ => {}
            }
        }
    }
    /// A slack string does not want to be longer, a parted contact does not close.
    fn loose(&mut self, id: LinkId, link: &model::Link) {
        let mut closing = Value::zero();
        let setting = self.arithmetic.setting;
        for end in &link.ends {
            if setting.is_jerk() && setting.stage.held.contains(&end.body) {
                continue;
            }
            // After a jerk the speeds say whether it is slack, else the accelerations.
            let grows = match setting.is_jerk() {
                true => crate::jerk::journey(setting, end.body.0).map(|j| j.end_speed),
                false => setting.stage.accelerations.get(end.body.0).copied(),
            };
            let a = grows.and_then(|q| self.value(q));
            let Some(a) = a else {
                self.open = true;
                return;
            };
            let sense = end.sense * self.arithmetic.trial.sense(end.body.0);
            closing += signed(sense, a) * Value::from_int(i64::from(end.times));
        }
        let name = &link.name;
        let says =
            if link.holds == Holds::Pull { format!("{name} is slack") } else { "the bodies part".to_owned() };
        self.require(says, Value::zero(), closing, About::Link(id), |_| {
            let says = format!("{name} would not hold, and yet its ends would pull on it");
            (says, Some(Switch::Hold(id)))
        });
    }

    fn surfaces(&mut self) {
        let setting = self.arithmetic.setting;
        for (i, reaction) in setting.stage.reactions.iter().enumerate() {
            let Some(reaction) = reaction.and_then(|q| self.value(q)).cloned() else { continue };
            let name = setting.body_name(i);
            let says = format!("{name} stays on its surface");
            self.require(says, Value::zero(), reaction, About::Contact(BodyId(i)), |r| {
                let r = with_unit(r, Kind::Reaction);
                (format!("{name} would lift off: the reaction would have to be {r}"), None)
            });
        }
        for (i, state) in self.arithmetic.frictions.iter().enumerate() {
            let Some((mu, reaction, friction)) =
                rough(setting, i).filter(|_| *state == FrictionState::Static)
            else {
                continue;
            };
            let limit = self.value(mu).zip(self.value(reaction)).map(|(m, r)| m * r);
            match self.value(friction).cloned().zip(limit) {
                Some((force, limit)) => self.at_most(BodyId(i), force, limit),
                None => self.shares_holding(i),
            }
        }
    }
    /// A friction that the equations do not fix: whether all of the group together suffice is seen later.
    fn shares_holding(&mut self, body: usize) {
        let group = self.arithmetic.trial.groups.group(body);
        if !self.sharing.contains(&group) {
            self.sharing.push(group);
        }
    }
    fn held_together(&mut self) {
        for group in std::mem::take(&mut self.sharing) {
            if self.arithmetic.trial.feasible {
                continue;
            }
            let values = &self.values;
            let able = self.arithmetic.can_rest(group, values);
            match able.or_else(|| self.arithmetic.can_stay(group, values)) {
                Some(true) => {}
                Some(false) => {
                    let first = self.arithmetic.trial.groups.members.get(group).and_then(|m| m.first());
                    let name = first.map_or("the body", |b| self.arithmetic.setting.body_name(*b));
                    self.fail(format!("friction is not enough to hold {name} and what hangs on it"), None);
                }
                None => self.open = true,
            }
        }
    }
    /// A force that holds a body at rest, at most its limit either way.
    fn at_most(&mut self, body: BodyId, force: Value, limit: Value) {
        let turned = sign_with_positive_letters(&force) == Some(Sign::Negative);
        let size = if turned { -force } else { force };
        let setting = self.arithmetic.setting;
        let name = setting.body_name(body.0);
        let (needed, most) = (with_unit(&size, Kind::Friction), with_unit(&limit, Kind::Friction));
        let (says, stay, switch) = match stack::under(setting, body.0) {
            Some(under) => {
                let under = setting.body_name(under);
                let slips = self.arithmetic.trial.sense(body.0) * if turned { -1 } else { 1 };
                let says = format!("friction keeps {name} from slipping on {under}");
                (says, format!("keep from slipping on {under}"), Some(Switch::Slip(body, slips)))
            }
            None => (format!("friction can hold {name} at rest"), "stay at rest".to_owned(), None),
        };
        self.require(says, size, limit, About::Friction(body), |_| {
            let says = format!(
                "{name} would need {needed} of friction to {stay}, and no more than {most} is to be had"
            );
            (says, switch)
        });
    }
    /// Resistances on bodies at rest.
    fn resting(&mut self) {
        for (action, id, limit) in &self.arithmetic.limits {
            let on = self.arithmetic.setting.situation.action(*action).map(|a| a.on);
            match (self.value(*id).cloned(), on) {
                (Some(force), Some(on)) => self.at_most(on, force, limit.clone()),
                (None, Some(on)) => self.shares_holding(on.0),
                _ => self.open = true,
            }
        }
    }

    /// Quantities that are sizes, and forces that can act one way only.
    fn sizes(&mut self) {
        let setting = self.arithmetic.setting;
        let resting: Vec<QuantityId> = self.arithmetic.limits.iter().map(|l| l.1).collect();
        let mut negative = Vec::new();
        for (id, value) in &self.values {
            if setting.value(*id).is_some() || resting.contains(id) {
                continue;
            }
            let kind = setting.kind(*id);
            if is_size(kind) && sign_with_positive_letters(value) == Some(Sign::Negative) {
                negative.push((*id, value.clone()));
            }
            if kind == Kind::Mass && value.is_zero() {
                negative.push((*id, value.clone()));
            }
        }
        for (i, action) in setting.situation.actions.iter().enumerate() {
            let one_way = matches!(action.role, Role::Driving | Role::Braking | Role::Cable)
                || action.direction == Direction::Opposing;
            let Some(&id) = setting.stage.forces.get(i).filter(|_| one_way) else { continue };
            let known = setting.value(id).is_some() || resting.contains(&id);
            if let Some(value) = self.value(id).filter(|v| {
                !known && !is_size(setting.kind(id)) && sign_with_positive_letters(v) == Some(Sign::Negative)
            }) {
                negative.push((id, value.clone()));
            }
        }
        for (id, value) in negative {
            let (name, kind) = (setting.name(id), setting.kind(id));
            let name = name.strip_prefix("the ").unwrap_or(name);
            self.fail(format!("the {name} would have to be {}", with_unit(&value, kind)), None);
        }
    }

    /// Bodies whose direction is supposed move the way they accelerate.
    fn direction(&mut self) {
        let (setting, trial) = (self.arithmetic.setting, self.arithmetic.trial);
        let from_rest = setting.stage.state == State::Released;
        for (group, members) in trial.groups.members.iter().enumerate() {
            let Some(&body) = members.first() else { continue };
            let supposed = trial.is_supposed(body);
            if trial.modes.get(group) != Some(&Mode::Sliding) || !(supposed || from_rest) {
                continue;
            }
            let name = setting.body_name(body);
            let a = setting.stage.accelerations.get(body).and_then(|q| self.value(*q)).cloned();
            let Some(a) = a else {
                self.open = true;
                continue;
            };
            let held = members.iter().any(|b| {
                self.arithmetic.forces.iter().any(|f| f.on.0 == *b && forces::opposes_motion(setting, f))
            });
            match sign_with_positive_letters(&a) {
                Some(Sign::Positive) => {}
                Some(Sign::Zero) if !held || !from_rest => {}
                Some(_) => self.fail(format!("{name} would not start to move that way"), None),
                None => self.conditions.push(Condition {
                    says: format!("{name} moves this way"),
                    left: Value::zero(),
                    right: a,
                    about: About::Motion(BodyId(body)),
                }),
            }
        }
    }

    /// What begins to slip over the body it stands on does so the way it is driven.
    fn slipping(&mut self) {
        let (setting, trial) = (self.arithmetic.setting, self.arithmetic.trial);
        for body in 0..setting.bodies() {
            let (Top::Slips(sense), Some(under)) = (trial.top(body), stack::under(setting, body)) else {
                continue;
            };
            let along = |b: usize| {
                let a = setting.stage.accelerations.get(b).and_then(|q| self.value(*q))?;
                Some(signed(trial.sense(b), a))
            };
            let Some((upper, lower)) = along(body).zip(along(under)) else {
                self.open = true;
                continue;
            };
            let gain = signed(sense, &(upper - lower));
            let (name, below) = (setting.body_name(body), setting.body_name(under));
            match sign_with_positive_letters(&gain) {
                Some(Sign::Positive) => {}
                Some(_) => {
                    let says = format!("{name} would not begin to slip that way on {below}");
                    self.fail(says, Some(Switch::Stick(BodyId(body))));
                }
                None => self.conditions.push(Condition {
                    says: format!("{name} slips on {below}"),
                    left: Value::zero(),
                    right: gain,
                    about: About::Motion(BodyId(body)),
                }),
            }
        }
    }
}
