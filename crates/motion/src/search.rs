//! Finds the case that holds. Where everything is known, one likely guess is tried, and if it fails the
//! principle of [least constraint](crate::least) says what holds. Where something is to be found out by the
//! case itself, cases are tried, likeliest first, and it goes on only where it must.

use crate::attempt::{Accepted, Mode, Rejected, Switch, Trial, attempt};
use crate::choice::{Choice, Choosing};
use crate::groups::{Groups, holding};
use crate::least::{Least, Opposes, Question, least};
use crate::setting::Setting;
use crate::sign::sign_with_positive_letters;
use crate::stack::{self, Top};
use crate::write::{rough, while_sliding};
use crate::{Force, ForceKind, LinkState};
use exact::{Sign, Value};
use model::{BodyId, Holds, Kind, LinkId, QuantityId, State};
use std::collections::BTreeMap;

/// More attempts than this are not made.
const MOST_ATTEMPTS: usize = 400;
/// Up to so many combinations of taut and slack, sticking and slipping are tried one after the other.
const MOST_COMBINATIONS: usize = 128;
/// Up to so many bodies about to slip, either way is tried for each.
const MOST_ABOUT_TO_SLIP: usize = 4;

/// What the search comes to.
pub(crate) enum Verdict {
    /// The cases that hold, all different; the first is the likeliest.
    Holds(Vec<Accepted>),
    /// None does: why the likeliest does not.
    Fails(Rejected),
}

/// What is supposed of everything that can hold or let go.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Contacts {
    links: Vec<LinkState>,
    tops: Vec<Top>,
}

impl Contacts {
    fn at_first(setting: &Setting) -> Contacts {
        let absent = |id| setting.stage.without_links.contains(&id);
        let state = |id| if absent(id) { LinkState::Absent } else { LinkState::Holding };
        Contacts { links: setting.situation.link_ids().map(state).collect(), tops: stack::at_first(setting) }
    }
    fn switch(&mut self, switch: &Switch) {
        let link = |links: &mut Vec<LinkState>, id: LinkId, to: LinkState| {
            if let Some(state) = links.get_mut(id.0).filter(|s| **s != LinkState::Absent) {
                *state = to;
            }
        };
        let top = |tops: &mut Vec<Top>, body: BodyId, to: Top| {
            if let Some(top) = tops.get_mut(body.0).filter(|t| matches!(t, Top::Sticks | Top::Slips(_))) {
                *top = to;
            }
        };
        match *switch {
            Switch::Loosen(id) => link(&mut self.links, id, LinkState::Loose),
            Switch::Hold(id) => link(&mut self.links, id, LinkState::Holding),
            Switch::Slip(body, sense) => top(&mut self.tops, body, Top::Slips(sense)),
            Switch::Stick(body) => top(&mut self.tops, body, Top::Sticks),
        }
    }
    /// Everything that can be otherwise, each with the ways it can be.
    fn free(&self, setting: &Setting) -> Vec<Vec<Switch>> {
        let link = |(i, state): (usize, &LinkState)| {
            let id = LinkId(i);
            let loose = setting.situation.link(id).is_some_and(|l| l.holds != Holds::PullOrPush);
            (loose && *state != LinkState::Absent).then(|| vec![Switch::Hold(id), Switch::Loosen(id)])
        };
        let slips = matches!(setting.stage.state, State::Released | State::Moving);
        let top = |(i, top): (usize, &Top)| {
            let body = BodyId(i);
            let free = slips && matches!(top, Top::Sticks | Top::Slips(_));
            free.then(|| vec![Switch::Stick(body), Switch::Slip(body, 1), Switch::Slip(body, -1)])
        };
        let links = self.links.iter().enumerate().filter_map(link);
        links.chain(self.tops.iter().enumerate().filter_map(top)).collect()
    }
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
    if search.is_settled()
        && let Some(found) = search.by_least_constraint(forces)
    {
        return Verdict::Holds(found);
    }
    search.by_trial(forces)
}

struct Search<'a> {
    setting: &'a Setting<'a>,
    choosing: Choosing<'a>,
    attempts: usize,
    first_failure: Option<Rejected>,
    /// Did any attempt fail by an inequality alone?
    unequal: bool,
    /// Keep every case that may hold, not the likeliest alone?
    all: bool,
    /// Did the bounds of the search leave cases out?
    cut: bool,
}

impl<'a> Search<'a> {
    fn new(setting: &'a Setting<'a>) -> Search<'a> {
        let choosing = Choosing::new(setting);
        Search { setting, choosing, attempts: 0, first_failure: None, unequal: false, all: false, cut: false }
    }

    /// Do plain numbers fix how everything moves?
    fn is_settled(&self) -> bool {
        let stage = self.setting.stage;
        let moves = matches!(stage.state, State::Released | State::Moving);
        let number = |id: QuantityId| self.setting.value(id).is_none_or(Value::is_number);
        let bodies = &self.setting.situation.bodies;
        moves
            && self.choosing.complete
            && stage.about_to_slip.is_empty()
            && bodies.iter().all(|b| number(b.mass))
            && stage.forces.iter().all(|id| number(*id))
    }

    /// One likely guess, and if it does not hold, what the principle of least constraint says.
    fn by_least_constraint(&mut self, forces: &mut [Force]) -> Option<Vec<Accepted>> {
        let first = Contacts::at_first(self.setting);
        let bodies = 0..self.setting.bodies();
        let one_coefficient = bodies.clone().all(|b| while_sliding(self.setting, b).is_none());
        if one_coefficient
            && let Some(trial) = self.trial_by(&first, forces, |_, _, list| list.first().copied())
            && let Some(found) = self.surely(&trial, forces)
        {
            return Some(found);
        }
        let mut slipping: BTreeMap<usize, i8> = BTreeMap::new();
        for _ in bodies {
            let motion = self.least(&first, forces, &slipping)?;
            let along = |b: usize| motion.accelerations.get(b)?.clone();
            let gain = |b: usize| match stack::under(self.setting, b) {
                Some(under) => Some(along(b)? - along(under)?),
                None => along(b),
            };
            let sign = |b: usize| gain(b).and_then(|g| g.sign().ok());
            // What begins to slip against static friction goes on against the smaller friction of sliding.
            let two = |b: &usize| while_sliding(self.setting, *b).is_some() && !slipping.contains_key(b);
            let fresh: Vec<(usize, i8)> = (0..self.setting.bodies())
                .filter(two)
                .filter_map(|b| match sign(b)? {
                    Sign::Positive => Some((b, 1)),
                    Sign::Negative => Some((b, -1)),
                    Sign::Zero => None,
                })
                .collect();
            if !fresh.is_empty() {
                slipping.extend(fresh);
                continue;
            }
            let mut contacts = first.clone();
            for (state, together) in contacts.links.iter_mut().zip(&motion.together) {
                if *together == Some(false) {
                    *state = LinkState::Loose;
                }
            }
            for (b, top) in contacts.tops.iter_mut().enumerate().filter(|(_, t)| **t == Top::Sticks) {
                *top = match sign(b)? {
                    Sign::Zero => Top::Sticks,
                    Sign::Positive => Top::Slips(1),
                    Sign::Negative => Top::Slips(-1),
                };
            }
            let mut trial = self.trial_by(&contacts, forces, |groups, group, list| {
                let members = groups.members.get(group)?;
                let way = members.iter().find_map(|b| {
                    let a = along(*b)?;
                    Some(match a.sign().ok()? {
                        Sign::Zero => return None,
                        Sign::Positive => groups.sense_of(*b),
                        Sign::Negative => -groups.sense_of(*b),
                    })
                });
                let fits = |c: &&Choice| match way {
                    Some(sense) => c.0 == Mode::Sliding && c.1 == sense,
                    None => c.0 == Mode::Rest,
                };
                list.iter().find(fits).or(list.first()).copied()
            })?;
            trial.feasible = true;
            return self.surely(&trial, forces);
        }
        None
    }

    /// What an attempt finds, if it leaves nothing open.
    fn surely(&mut self, trial: &Trial, forces: &mut [Force]) -> Option<Vec<Accepted>> {
        self.attempts += 1;
        let found = attempt(self.setting, forces, trial).ok()?;
        if found.iter().any(|f| f.open || !(trial.feasible || self.fixes_forces(f))) {
            return None;
        }
        Some(self.different(found))
    }

    /// Has every string, contact and friction that can give way a value? Where some have none (strings in a ring,
    /// frictions that share the holding), looking at one after the other does not show that any set of them will do.
    fn fixes_forces(&self, found: &Accepted) -> bool {
        let situation = self.setting.situation;
        let one_way = |i: usize| situation.links.get(i).is_some_and(|l| l.holds != Holds::PullOrPush);
        let links = self.setting.stage.links.iter().enumerate();
        let mut pulls =
            links.filter(|(i, _)| one_way(*i) && found.trial.links.get(*i) == Some(&LinkState::Holding));
        let mut rubs = self.setting.stage.frictions.iter().flatten();
        pulls.all(|(_, id)| found.values.contains_key(id)) && rubs.all(|id| found.values.contains_key(id))
    }

    /// Asks the principle of least constraint, with these bodies already sliding.
    fn least(&self, contacts: &Contacts, forces: &[Force], slipping: &BTreeMap<usize, i8>) -> Option<Least> {
        let setting = self.setting;
        let opposes = |force: &Force| {
            let body = force.on.0;
            let known = match contacts.tops.get(body) {
                Some(top) if force.kind == ForceKind::Friction && *top != Top::Free => top.sense(),
                _ => self.choosing.heading.get(body).copied().flatten(),
            };
            let known = known.or(slipping.get(&body).copied().filter(|_| force.kind == ForceKind::Friction));
            known.map_or(Opposes::Within, |sense| Opposes::Fully(-sense))
        };
        let coefficient = |body: usize| {
            let slides = slipping.contains_key(&body)
                || matches!(contacts.tops.get(body), Some(Top::Slides(_)))
                || (contacts.tops.get(body) == Some(&Top::Free)
                    && self.choosing.heading.get(body).copied().flatten().is_some());
            let (mu, _, _) = rough(setting, body)?;
            while_sliding(setting, body).filter(|_| slides).or(Some(mu))
        };
        let resistance = |force: &Force| {
            let ForceKind::Action(id) = force.kind else { return None };
            setting.stage.forces.get(id.0).and_then(|q| setting.value(*q)).cloned()
        };
        least(&Question {
            setting,
            forces,
            value: &|id| setting.value(id).cloned(),
            link: &|id| contacts.links.get(id.0) == Some(&LinkState::Holding),
            opposes: &opposes,
            coefficient: &coefficient,
            resistance: &resistance,
        })
    }

    /// Tries cases, the likeliest first.
    fn by_trial(&mut self, forces: &mut [Force]) -> Verdict {
        let mut found = Vec::new();
        let Some(mut tried) = self.starts() else {
            let says = format!(
                "more than {MOST_ABOUT_TO_SLIP} of the bodies that stand on others may be about to slip, each either way"
            );
            return Verdict::Fails(Rejected { given_up: true, ..Rejected::failed(says) });
        };
        let starts = tried.len();
        let mut next = 0;
        let mut combined = false;
        while next < tried.len() || !combined {
            // Where something is to be found out by the case itself, another one may hold as well.
            let settled = |f: &Accepted| !f.open && self.fixes_forces(f);
            let others = !self.choosing.complete && found.iter().any(settled);
            if next >= starts && !found.is_empty() && !others {
                break;
            }
            let Some(contacts) = tried.get(next).cloned() else {
                combined = true;
                let more = self.combinations(&tried, !found.is_empty());
                tried.extend(more);
                continue;
            };
            next += 1;
            let why = match self.with_contacts(&contacts, forces) {
                Ok(more) => {
                    // After the first, only what is looked through to the end.
                    let first = found.is_empty() || next <= starts;
                    found.extend(more.into_iter().filter(|f| first || !f.open && self.fixes_forces(f)));
                    continue;
                }
                Err(why) => why,
            };
            self.unequal |= !why.clash;
            self.cut |= why.given_up;
            // What the inequalities would have otherwise: all of it at once, else one thing after the other.
            let mut all = contacts.clone();
            why.switches.iter().for_each(|s| all.switch(s));
            if tried.contains(&all) {
                let one = why.switches.iter().map(|s| {
                    let mut one = contacts.clone();
                    one.switch(s);
                    one
                });
                let fresh = one.into_iter().find(|c| !tried.contains(c));
                tried.extend(fresh);
            } else {
                tried.push(all);
            }
            self.first_failure.get_or_insert(why);
            if self.attempts > MOST_ATTEMPTS || !self.setting.may_write(0) {
                break;
            }
        }
        if !found.is_empty() {
            return Verdict::Holds(self.likeliest(found));
        }
        let why = self.first_failure.take().unwrap_or_else(|| Rejected::clash("no motion fits the givens"));
        Verdict::Fails(Rejected { given_up: self.cut || why.given_up || next < tried.len(), ..why })
    }

    /// What is supposed first: everything holds; what is about to slip may do so either way. `None` where these
    /// are too many ways to try.
    fn starts(&self) -> Option<Vec<Contacts>> {
        let mut starts = vec![Contacts::at_first(self.setting)];
        let limiting = self.setting.stage.state == State::Limiting;
        let mut count = 0;
        for body in 0..self.setting.bodies() {
            let sticks = starts.first().is_some_and(|c| c.tops.get(body) == Some(&Top::Sticks));
            let told = self.setting.is_about_to_slip(body);
            if !sticks || !(limiting || told) {
                continue;
            }
            count += 1;
            if count > MOST_ABOUT_TO_SLIP {
                return None;
            }
            let mut ways = vec![Top::Limit(1), Top::Limit(-1)];
            if !told {
                ways.push(Top::Sticks);
            }
            let with = |way: &Top| {
                let way = *way;
                starts.iter().cloned().map(move |mut c| {
                    if let Some(top) = c.tops.get_mut(body) {
                        *top = way;
                    }
                    c
                })
            };
            starts = ways.iter().flat_map(with).collect();
        }
        Some(starts)
    }

    /// Every way to hold or let go that is not tried yet; none if they are too many, or would be of no use.
    fn combinations(&mut self, tried: &[Contacts], others: bool) -> Vec<Contacts> {
        let Some(first) = tried.first().filter(|_| self.unequal || others) else { return Vec::new() };
        let free = first.free(self.setting);
        let count = free.iter().try_fold(1usize, |n, ways| n.checked_mul(ways.len()));
        if count.is_none_or(|n| n > MOST_COMBINATIONS) {
            self.cut = true;
            return Vec::new();
        }
        let mut all = vec![first.clone()];
        for ways in &free {
            let with = |switch: &Switch| {
                let switch = *switch;
                all.iter().cloned().map(move |mut c| {
                    c.switch(&switch);
                    c
                })
            };
            all = ways.iter().flat_map(with).collect();
        }
        all.retain(|c| !tried.contains(c));
        all
    }

    /// Of the cases found those to report: what leaves nothing open before what does, and of the ways to be
    /// about to slip those in which nothing is driven against the motion that the question gives.
    fn likeliest(&self, found: Vec<Accepted>) -> Vec<Accepted> {
        let odd = |a: &Accepted| {
            let negative = |id: QuantityId| {
                a.values.get(&id).and_then(sign_with_positive_letters) == Some(Sign::Negative)
            };
            let accelerations = self.setting.stage.accelerations.iter();
            let driven = self.setting.stage.forces.iter().chain(accelerations);
            (a.open, driven.filter(|id| negative(**id)).count())
        };
        let open = found.iter().all(|a| a.open);
        let alike = |a: &Accepted, b: &Accepted| a.trial.links == b.trial.links && slipping(a) == slipping(b);
        // Strings taut and strings slack are two things that the question may mean, however likely.
        let least = |one: &Accepted| found.iter().filter(|a| alike(a, one)).map(odd).min();
        let keeps: Vec<bool> = found.iter().map(|a| a.open == open && Some(odd(a)) == least(a)).collect();
        let mut keeps = keeps.into_iter();
        let mut kept = found;
        kept.retain(|_| keeps.next().unwrap_or(false));
        // Where sliding friction is smaller than static friction, what can stick does.
        let sticks = |b: usize| kept.iter().any(|a| !slipping(a).get(b).copied().unwrap_or(false));
        let two = |b: &usize| while_sliding(self.setting, *b).is_some() && sticks(*b);
        let sticking: Vec<usize> = (0..self.setting.bodies()).filter(two).collect();
        kept.retain(|a| !sticking.iter().any(|b| slipping(a).get(*b) == Some(&true)));
        if open && !self.all {
            // Nothing is sure: the likeliest of what may be.
            kept.truncate(1);
        }
        self.different(kept)
    }

    fn different(&self, found: Vec<Accepted>) -> Vec<Accepted> {
        let mut list: Vec<Accepted> = Vec::new();
        for one in found {
            if !list.iter().any(|other| self.alike(other, &one)) {
                list.push(one);
            }
        }
        list
    }

    /// Tries every way to move with these contacts; stops at the first that holds where the data
    /// leave no room for another.
    fn with_contacts(
        &mut self,
        contacts: &Contacts,
        forces: &mut [Force],
    ) -> Result<Vec<Accepted>, Rejected> {
        let groups = holding(self.setting.situation, &contacts.links, &contacts.tops);
        let choices: Vec<Vec<Choice>> =
            (0..groups.members.len()).map(|g| self.choosing.choices(&groups, g, forces)).collect();
        if let Some(fixed) = choices.iter().position(Vec::is_empty) {
            return Err(self.kept_still(&groups, fixed, contacts));
        }
        let mut found: Vec<Accepted> = Vec::new();
        let mut open: Vec<Accepted> = Vec::new();
        let mut why: Option<Rejected> = None;
        let mut pick = vec![0usize; choices.len()];
        loop {
            let chosen = choices.iter().zip(&pick).filter_map(|(list, at)| list.get(*at).copied()).collect();
            let trial = trial(self.setting, contacts, &groups, chosen);
            self.attempts += 1;
            match attempt(self.setting, forces, &trial) {
                Ok(accepted) => {
                    for one in accepted {
                        let list = if one.open { &mut open } else { &mut found };
                        if !list.iter().any(|other| self.alike(other, &one)) {
                            list.push(one);
                        }
                    }
                    if self.choosing.complete && !found.is_empty() {
                        break;
                    }
                }
                Err(rejected) => {
                    self.cut |= rejected.given_up;
                    // An inequality that fails says more than equations that clash.
                    if why.as_ref().is_none_or(|w| w.clash && !rejected.clash) {
                        why = Some(rejected);
                    }
                }
            }
            if !advance(&mut pick, &choices) {
                break;
            }
            if self.attempts > MOST_ATTEMPTS || !self.setting.may_write(0) {
                self.cut = true;
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

    /// A group that would have to move and cannot, because a body of it is held: its strings give way.
    fn kept_still(&self, groups: &Groups, group: usize, contacts: &Contacts) -> Rejected {
        let members = groups.members.get(group).map_or(&[][..], Vec::as_slice);
        let held = members.iter().find(|b| self.setting.is_held(**b)).or(members.first());
        let name = held.map_or("a body", |b| self.setting.body_name(*b));
        let mut why =
            Rejected::failed(format!("{name} is held, and yet what hangs on it would have to move"));
        for (i, link) in self.setting.situation.links.iter().enumerate() {
            let here = link.ends.iter().any(|e| members.contains(&e.body.0));
            let holds = contacts.links.get(i) == Some(&LinkState::Holding);
            if here && holds && link.holds != Holds::PullOrPush {
                why.switches.push(Switch::Loosen(LinkId(i)));
            }
        }
        why
    }

    /// A trial in which each group moves the way that is picked for it.
    fn trial_by(
        &self,
        contacts: &Contacts,
        forces: &[Force],
        pick: impl Fn(&Groups, usize, &[Choice]) -> Option<Choice>,
    ) -> Option<Trial> {
        let groups = holding(self.setting.situation, &contacts.links, &contacts.tops);
        let mut chosen = Vec::with_capacity(groups.members.len());
        for group in 0..groups.members.len() {
            let choices = self.choosing.choices(&groups, group, forces);
            chosen.push(pick(&groups, group, &choices)?);
        }
        Some(trial(self.setting, contacts, &groups, chosen))
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

/// By body: does it slip on the one it stands on?
fn slipping(case: &Accepted) -> Vec<bool> {
    case.trial.tops.iter().map(|t| matches!(t, Top::Slips(_))).collect()
}

/// What is tried, when each group moves as chosen.
fn trial(setting: &Setting, contacts: &Contacts, groups: &Groups, chosen: Vec<Choice>) -> Trial {
    let senses = (0..setting.bodies())
        .map(|b| groups.sense_of(b) * chosen.get(groups.group(b)).map_or(1, |c| c.1))
        .collect();
    Trial {
        links: contacts.links.clone(),
        tops: contacts.tops.clone(),
        groups: groups.clone(),
        modes: chosen.iter().map(|c| c.0).collect(),
        senses,
        supposed: chosen.iter().map(|c| c.2).collect(),
        feasible: false,
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
