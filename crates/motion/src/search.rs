//! Finds the case that holds: tries what is likeliest first, and goes on only where it must.

use crate::attempt::{Accepted, Mode, Rejected, Trial, attempt};
use crate::groups::{Groups, holding};
use crate::setting::{Setting, signed};
use crate::sign::sign_with_positive_letters;
use crate::{Factor, Force, ForceKind, LinkState, Share, forces};
use exact::{Sign, Value};
use model::{Holds, Kind, LinkId, QuantityId, State};

/// More attempts than this are not made.
const MOST_ATTEMPTS: usize = 400;
/// Up to so many strings and contacts, every combination of taut and slack is tried.
const MOST_FREE_LINKS: usize = 5;

/// What the search comes to.
pub(crate) enum Verdict {
    /// The cases that hold, all different; the first is the likeliest.
    Holds(Vec<Accepted>),
    /// None does: why the likeliest does not.
    Fails(Rejected),
}

/// Searches for the cases that hold; of those that merely may hold, the likeliest.
pub(crate) fn search(setting: &Setting, forces: &mut [Force]) -> Verdict {
    search_with(setting, forces, false)
}

/// As [`search`], with every case that may hold.
pub(crate) fn search_all(setting: &Setting, forces: &mut [Force]) -> Verdict {
    search_with(setting, forces, true)
}

fn search_with(setting: &Setting, forces: &mut [Force], all_that_may: bool) -> Verdict {
    let mut search = Search::new(setting);
    search.all = all_that_may;
    let all: Vec<LinkState> =
        setting
            .situation
            .link_ids()
            .map(|id| {
                if setting.stage.without_links.contains(&id) { LinkState::Absent } else { LinkState::Holding }
            })
            .collect();
    let mut tried = vec![all.clone()];
    let mut next = 0;
    while let Some(links) = tried.get(next).cloned() {
        next += 1;
        let why = match search.with_links(&links, forces) {
            Ok(found) if !found.is_empty() => {
                return Verdict::Holds(found);
            }
            Ok(_) => continue,
            Err(why) => why,
        };
        // The strings that would have to push go slack first.
        let mut looser = links.clone();
        for id in &why.links {
            if let Some(state) = looser.get_mut(id.0).filter(|s| **s == LinkState::Holding) {
                *state = LinkState::Loose;
            }
        }
        if !tried.contains(&looser) {
            tried.push(looser);
        } else if next == tried.len() && tried.len() < 2 + MOST_FREE_LINKS {
            let free = search.free_links(&all);
            if free.len() <= MOST_FREE_LINKS && !why.clash {
                tried.extend(
                    combinations(&all, &free).into_iter().filter(|c| !tried.contains(c)).collect::<Vec<_>>(),
                );
            }
        }
        search.first_failure.get_or_insert(why);
        if search.attempts > MOST_ATTEMPTS {
            break;
        }
    }
    Verdict::Fails(search.first_failure.unwrap_or_else(|| Rejected::clash("no motion fits the givens")))
}

/// Every way to loosen some of the links that can go loose.
fn combinations(all: &[LinkState], free: &[LinkId]) -> Vec<Vec<LinkState>> {
    (1..1usize << free.len())
        .map(|mask| {
            let mut states = all.to_vec();
            for (bit, id) in free.iter().enumerate() {
                if let Some(state) = states.get_mut(id.0).filter(|_| mask >> bit & 1 == 1) {
                    *state = LinkState::Loose;
                }
            }
            states
        })
        .collect()
}

struct Search<'a> {
    setting: &'a Setting<'a>,
    /// By body: the direction of motion, where the question gives it.
    heading: Vec<Option<i8>>,
    /// Are all masses, sizes and coefficients known, so that there is but one way to move?
    complete: bool,
    attempts: usize,
    first_failure: Option<Rejected>,
    /// Keep every case that may hold, not the likeliest alone?
    all: bool,
}

/// How one group might move.
type Choice = (Mode, i8, bool);

impl<'a> Search<'a> {
    fn new(setting: &'a Setting<'a>) -> Search<'a> {
        Search {
            setting,
            heading: headings(setting),
            complete: is_complete(setting),
            attempts: 0,
            first_failure: None,
            all: false,
        }
    }

    fn free_links(&self, all: &[LinkState]) -> Vec<LinkId> {
        let free = |id: &LinkId| {
            all.get(id.0) == Some(&LinkState::Holding)
                && self.setting.situation.link(*id).is_some_and(|l| l.holds != Holds::PullOrPush)
        };
        self.setting.situation.link_ids().filter(free).collect()
    }

    /// Tries every way to move with these links holding; stops at the first that holds where the data
    /// leave no room for another.
    fn with_links(&mut self, links: &[LinkState], forces: &mut [Force]) -> Result<Vec<Accepted>, Rejected> {
        let groups = holding(self.setting.situation, links);
        let choices: Vec<Vec<Choice>> =
            (0..groups.members.len()).map(|g| self.choices(&groups, g, forces)).collect();
        let mut found: Vec<Accepted> = Vec::new();
        let mut open: Vec<Accepted> = Vec::new();
        let mut why: Option<Rejected> = None;
        let mut pick = vec![0usize; choices.len()];
        loop {
            let trial = self.trial(links, &groups, &choices, &pick);
            self.attempts += 1;
            match attempt(self.setting, forces, &trial) {
                Ok(accepted) => {
                    for one in accepted {
                        let list = if one.open { &mut open } else { &mut found };
                        if !list.iter().any(|other| self.alike(other, &one)) {
                            list.push(one);
                        }
                    }
                    if self.complete && !found.is_empty() {
                        break;
                    }
                }
                Err(rejected) => {
                    // An inequality that fails says more than equations that clash.
                    if why.as_ref().is_none_or(|w| w.clash && !rejected.clash) {
                        why = Some(rejected);
                    }
                }
            }
            if self.attempts > MOST_ATTEMPTS || !advance(&mut pick, &choices) {
                break;
            }
        }
        if found.is_empty() {
            // Nothing is sure: the likeliest of what may be.
            if !self.all {
                open.truncate(1);
            }
            found = open;
        }
        match why {
            Some(why) if found.is_empty() => Err(why),
            _ => Ok(found),
        }
    }

    fn trial(&self, links: &[LinkState], groups: &Groups, choices: &[Vec<Choice>], pick: &[usize]) -> Trial {
        let chosen: Vec<Choice> = choices
            .iter()
            .zip(pick)
            .map(|(list, at)| list.get(*at).copied().unwrap_or((Mode::Sliding, 1, true)))
            .collect();
        let senses = (0..self.setting.bodies())
            .map(|b| groups.sense_of(b) * chosen.get(groups.group(b)).map_or(1, |c| c.1))
            .collect();
        Trial {
            links: links.to_vec(),
            groups: groups.clone(),
            modes: chosen.iter().map(|c| c.0).collect(),
            senses,
            supposed: chosen.iter().map(|c| c.2).collect(),
        }
    }

    /// The ways in which a group may move, the likeliest first: how, in which sense of its first body,
    /// and whether that sense is only supposed.
    fn choices(&self, groups: &Groups, group: usize, forces: &[Force]) -> Vec<Choice> {
        let members = groups.members.get(group).map_or(&[][..], Vec::as_slice);
        let given = members
            .iter()
            .find_map(|b| self.heading.get(*b).copied().flatten().map(|h| h * groups.sense_of(*b)));
        let held = forces.iter().any(|f| members.contains(&f.on.0) && forces::opposes(self.setting, f));
        let likely = given.unwrap_or_else(|| self.likely_sense(groups, members, forces));
        let both = |mode, supposed| vec![(mode, likely, supposed), (mode, -likely, supposed)];
        if members.iter().any(|b| self.setting.is_held(*b)) && !self.setting.is_jerk() {
            return vec![(Mode::Rest, likely, false)];
        }
        match (self.setting.stage.state, given) {
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
                    list.insert(1, (Mode::Rest, likely, false));
                }
                list
            }
        }
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

    /// Do two cases agree in everything that has no direction?
    fn alike(&self, one: &Accepted, other: &Accepted) -> bool {
        let signed_kind = |id: &QuantityId| {
            matches!(
                self.setting.kind(*id),
                Kind::Acceleration | Kind::Friction | Kind::Force | Kind::Resistance | Kind::Tension
            )
        };
        one.values.keys().eq(other.values.keys())
            && one
                .values
                .iter()
                .zip(&other.values)
                .all(|((id, a), (_, b))| (a - b).is_zero() || (signed_kind(id) && (a + b).is_zero()))
    }
}

/// The next combination of choices; false after the last.
fn advance(pick: &mut [usize], choices: &[Vec<Choice>]) -> bool {
    for (at, list) in pick.iter_mut().zip(choices) {
        *at += 1;
        if *at < list.len() {
            return true;
        }
        *at = 0;
    }
    false
}

/// The direction of motion of each body, as far as the links hand it on; those that have just come
/// loose included, since what they joined was moving together.
pub(crate) fn headings(setting: &Setting) -> Vec<Option<i8>> {
    let mut headings = setting.moving.clone();
    let Some(given) = setting.stage.heading else { return headings };
    // In a story the bodies bring their own directions along.
    let own = headings.iter().any(Option::is_some);
    let all = Groups::new(setting.situation, |id| !own || !setting.stage.without_links.contains(&id));
    let from = given.sense * all.sense_of(given.body.0);
    for (body, heading) in headings.iter_mut().enumerate() {
        if all.group(body) == all.group(given.body.0) {
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
        known(b.mass) && mu.is_none_or(known)
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
