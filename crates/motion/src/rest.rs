//! Can a group of bodies stay at rest? Where several frictions share the holding, statics alone does not
//! fix them, but whether they suffice is fixed: every link hands on a range of forces that its far side
//! can take, from the ends of the tree to its root.

use crate::attempt::{Arithmetic, Mode};
use crate::least::{Opposes, Question, least};
use crate::setting::signed;
use crate::sign::sign_with_positive_letters;
use crate::stack;
use crate::write::{rough, while_sliding};
use crate::{Factor, Force, ForceKind, FrictionState, LinkState, Share, forces};
use exact::{Sign, Value};
use model::{Holds, QuantityId};
use std::collections::BTreeMap;

/// A range of forces; `None` for no bound.
#[derive(Clone, Debug)]
struct Range {
    least: Option<Value>,
    most: Option<Value>,
}

impl Range {
    fn around(middle: Value, half: &Value) -> Range {
        Range { least: Some(&middle - half), most: Some(middle + half) }
    }
    fn plus(self, other: Range) -> Range {
        let add = |a: Option<Value>, b: Option<Value>| Some(a? + b?);
        Range { least: add(self.least, other.least), most: add(self.most, other.most) }
    }
    /// The range times a number other than zero.
    fn times(self, by: i64) -> Range {
        let scale = |v: Option<Value>| v.map(|v| v * Value::from_int(by));
        let (least, most) = (scale(self.least), scale(self.most));
        if by < 0 { Range { least: most, most: least } } else { Range { least, most } }
    }
    fn over(self, by: i64) -> Option<Range> {
        let by_value = Value::from_int(by);
        let scale = |v: Option<Value>| v.map(|v| v.checked_div(&by_value)).transpose().ok();
        let (least, most) = (scale(self.least)?, scale(self.most)?);
        Some(if by < 0 { Range { least: most, most: least } } else { Range { least, most } })
    }
    /// Only forces that are not negative. `None` where letters leave it open.
    fn not_negative(self) -> Option<Range> {
        let least = match self.least {
            Some(v) if sign_with_positive_letters(&v)? == Sign::Positive => Some(v),
            _ => Some(Value::zero()),
        };
        Some(Range { least, most: self.most })
    }
    fn is_empty(&self) -> Option<bool> {
        match (&self.least, &self.most) {
            (Some(a), Some(b)) => Some(sign_with_positive_letters(&(b - a))? == Sign::Negative),
            _ => Some(false),
        }
    }
}

impl Arithmetic<'_> {
    /// Can the bodies of this group, supposed at rest, be held by their frictions and links? `None`
    /// where something is not known, or where the links form a ring.
    pub(crate) fn can_rest(&self, group: usize, values: &BTreeMap<QuantityId, Value>) -> Option<bool> {
        let members = self.trial.groups.members.get(group)?;
        let stacked = |b: &usize| stack::under(self.setting, *b).is_some_and(|u| members.contains(&u));
        let held = |b: &usize| self.setting.is_held(*b);
        if self.trial.mode(*members.first()?) != Mode::Rest || members.iter().any(|b| stacked(b) || held(b)) {
            return None;
        }
        let mut ranges: BTreeMap<usize, Range> = BTreeMap::new();
        for &body in members {
            ranges.insert(body, self.own_range(body, values)?);
        }
        let mut links: Vec<&model::Link> = self
            .setting
            .situation
            .links
            .iter()
            .enumerate()
            .filter(|(i, l)| {
                self.trial.links.get(*i) == Some(&LinkState::Holding)
                    && l.ends.iter().any(|e| members.contains(&e.body.0))
            })
            .map(|(_, l)| l)
            .collect();
        if links.len() + 1 != members.len() {
            return None;
        }
        // An end of the tree: a body with one link left. What it can take, its neighbour feels.
        while !links.is_empty() {
            let uses = |b: usize| links.iter().filter(|l| l.ends.iter().any(|e| e.body.0 == b)).count();
            let (at, leaf, other) = links.iter().enumerate().find_map(|(at, l)| {
                let [one, two] = l.ends.as_slice() else { return None };
                if uses(one.body.0) == 1 {
                    Some((at, one, two))
                } else if uses(two.body.0) == 1 {
                    Some((at, two, one))
                } else {
                    None
                }
            })?;
            // own + sense × times × T = 0
            let pull = |end: &model::End| i64::from(end.sense) * i64::from(end.times);
            let mut tension = ranges.remove(&leaf.body.0)?.over(-pull(leaf))?;
            if links.get(at)?.holds != Holds::PullOrPush {
                tension = tension.not_negative()?;
            }
            if tension.is_empty()? {
                return Some(false);
            }
            let felt = tension.times(pull(other));
            let own = ranges.remove(&other.body.0)?;
            ranges.insert(other.body.0, own.plus(felt));
            links.remove(at);
        }
        let root = ranges.into_values().next()?;
        let below =
            root.least.map_or(Some(true), |v| Some(sign_with_positive_letters(&v)? != Sign::Positive))?;
        let above =
            root.most.map_or(Some(true), |v| Some(sign_with_positive_letters(&v)? != Sign::Negative))?;
        Some(below && above)
    }

    /// The same by the principle of least constraint, for bodies on one another and for rings of links: can all
    /// that is supposed to stay together do so? `None` where something is not a known number.
    pub(crate) fn can_stay(&self, group: usize, values: &BTreeMap<QuantityId, Value>) -> Option<bool> {
        let (setting, trial) = (self.setting, self.trial);
        let opposes = |force: &Force| {
            let within = match force.kind {
                ForceKind::Friction => self.frictions.get(force.on.0) == Some(&FrictionState::Static),
                ForceKind::Action(id) => self.limits.iter().any(|l| l.0 == id),
                _ => trial.mode(force.on.0) == Mode::Rest,
            };
            if within { Opposes::Within } else { Opposes::Fully(force.along.sense()) }
        };
        let coefficient = |body: usize| {
            let (mu, _, _) = rough(setting, body)?;
            let slides = self.frictions.get(body) == Some(&FrictionState::Sliding);
            while_sliding(setting, body).filter(|_| slides).or(Some(mu))
        };
        let resistance = |force: &Force| {
            let ForceKind::Action(id) = force.kind else { return None };
            let limit = self.limits.iter().find(|l| l.0 == id).map(|l| l.2.clone());
            limit.or_else(|| values.get(setting.stage.forces.get(id.0)?).cloned())
        };
        let motion = least(&Question {
            setting,
            forces: self.forces,
            value: &|id| values.get(&id).cloned(),
            link: &|id| trial.links.get(id.0) == Some(&LinkState::Holding),
            opposes: &opposes,
            coefficient: &coefficient,
            resistance: &resistance,
        })?;
        let members = trial.groups.members.get(group)?;
        let as_supposed = |b: &usize| {
            let supposed = values.get(setting.stage.accelerations.get(*b)?)?;
            let found = motion.accelerations.get(*b)?.as_ref();
            Some(found.is_none_or(|a| (a - signed(trial.sense(*b), supposed)).is_zero()))
        };
        members.iter().map(as_supposed).try_fold(true, |all, one| Some(all && one?))
    }

    /// The forces along the line of a body, links apart: what drives it, give or take what can hold it.
    fn own_range(&self, body: usize, values: &BTreeMap<QuantityId, Value>) -> Option<Range> {
        let mut drive = Value::zero();
        let mut holding = Value::zero();
        let mut grounded = false;
        if self.frictions.get(body) == Some(&FrictionState::Static) {
            let (mu, reaction, _) = rough(self.setting, body)?;
            holding += values.get(&mu)? * values.get(&reaction)?;
        }
        for force in self.forces.iter().filter(|f| f.on.0 == body) {
            match force.kind {
                ForceKind::Link(_) | ForceKind::Friction => continue,
                ForceKind::Reaction if force.along == Share::None => continue,
                // The ground under a body on a vertical line pushes upwards as much as needed.
                ForceKind::Reaction => {
                    grounded = true;
                    continue;
                }
                ForceKind::Action(id) if forces::opposes(self.setting, force) => {
                    holding += self.limits.iter().find(|l| l.0 == id).map(|l| &l.2)?;
                    continue;
                }
                ForceKind::Action(_) | ForceKind::Weight => {}
            }
            let mut size = match force.along {
                Share::None => continue,
                Share::All(sense) => Value::from_int(i64::from(sense)),
                Share::Sin(sense, angle) => signed(sense, &self.setting.sin_cos(angle)?.0),
                Share::Cos(sense, angle) => signed(sense, &self.setting.sin_cos(angle)?.1),
            };
            for factor in &force.size {
                size = match factor {
                    Factor::Number(r) => size * Value::rational(r.clone()),
                    Factor::Quantity(id) => size * values.get(id)?,
                    Factor::Sin(_) | Factor::Cos(_) => return None,
                };
            }
            drive += size;
        }
        let range = Range::around(drive, &holding);
        Some(if grounded { Range { most: None, ..range } } else { range })
    }
}
