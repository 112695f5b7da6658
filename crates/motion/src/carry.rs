//! What the bodies bring along from one stage into the next: a body that moved some way at its end begins
//! the next stage moving that way, unless it stopped.

use crate::attempt::{Accepted, Mode};
use crate::setting::Setting;
use crate::sign::sign_with_positive_letters;
use exact::Sign;
use model::{BodyId, Happening, Journey, Kind, Stage, State};

/// By body: the way it moves when `later` begins, in the sense of its line, as the stage before left it.
/// `None` where it is at rest, or where that is not known.
pub(crate) fn brought(later: &Stage, before: &Setting, cases: &[Accepted]) -> Vec<Option<i8>> {
    let bodies = before.bodies();
    let at_rest = matches!(later.state, State::Released | State::AtRest | State::Limiting);
    let Some(begins) = later.begins.as_ref().filter(|_| !at_rest) else { return vec![None; bodies] };
    let way = |case: &Accepted, body: usize| {
        let groups = &case.trial.groups;
        let rests = matches!(begins.with, Happening::Rests(b) if groups.group(b.0) == groups.group(body));
        let stays = [later, before.stage].iter().any(|s| s.held.contains(&BodyId(body)));
        if rests || stays { None } else { Ending { later, before, case }.way(body) }
    };
    (0..bodies)
        .map(|body| {
            // Several cases may still be open: only what they agree on is brought along.
            let mut ways = cases.iter().map(|case| way(case, body));
            let first = ways.next().flatten();
            first.filter(|_| ways.all(|other| other == first))
        })
        .collect()
}

/// The way a body moves at the very end of the stage `before`, whatever becomes of it then.
pub(crate) fn way_at_end(later: &Stage, before: &Setting, case: &Accepted, body: usize) -> Option<i8> {
    Ending { later, before, case }.way(body)
}

/// The end of a stage.
struct Ending<'a> {
    later: &'a Stage,
    before: &'a Setting<'a>,
    case: &'a Accepted,
}

impl Ending<'_> {
    /// The way a body moves then.
    fn way(&self, body: usize) -> Option<i8> {
        let sense = self.case.trial.sense(body);
        match self.end_speed(body) {
            Some(Sign::Zero) => return None,
            Some(Sign::Negative) => return Some(-sense),
            Some(Sign::Positive) => return Some(sense),
            None => {}
        }
        match self.case.trial.mode(body) {
            Mode::Rest | Mode::Limiting => None,
            Mode::Steady => self.direction_was_said(body).then_some(sense),
            Mode::Sliding if self.before.stage.state == State::Released => {
                let id = self.before.stage.accelerations.get(body)?;
                match self.case.values.get(id).and_then(sign_with_positive_letters) {
                    Some(Sign::Positive) => Some(sense),
                    Some(Sign::Negative) => Some(-sense),
                    Some(Sign::Zero) => None,
                    None => self.direction_was_said(body).then_some(sense),
                }
            }
            // It may have turned back.
            Mode::Sliding => (!self.journeys(body).any(|j| self.is_signed(j))).then_some(sense),
        }
    }

    /// The journeys of the bodies that move with this one.
    fn journeys(&self, body: usize) -> impl Iterator<Item = &Journey> {
        let groups = &self.case.trial.groups;
        let group = groups.group(body);
        self.before.stage.journeys.iter().filter(move |j| groups.group(j.body.0) == group)
    }
    fn is_signed(&self, journey: &Journey) -> bool {
        self.before.kind(journey.end_speed) == Kind::Velocity
    }

    /// The sign of the speed at which the stage ends, where the next stage takes it up, or where all that is
    /// told of is a coming to rest.
    fn end_speed(&self, body: usize) -> Option<Sign> {
        let sign = |j: &Journey| self.case.values.get(&j.end_speed).and_then(sign_with_positive_letters);
        let taken_up =
            self.journeys(body).find(|j| self.later.journeys.iter().any(|l| l.start_speed == j.end_speed));
        if let Some(sign) = taken_up.and_then(sign) {
            return Some(sign);
        }
        let all_end = self.journeys(body).all(|j| sign(j) == Some(Sign::Zero));
        (all_end && self.journeys(body).next().is_some()).then_some(Sign::Zero)
    }

    fn direction_was_said(&self, body: usize) -> bool {
        let groups = &self.case.trial.groups;
        let members = groups.members.get(groups.group(body)).map_or(&[][..], Vec::as_slice);
        members.iter().any(|b| {
            let given = self.before.stage.heading.is_some_and(|h| h.body.0 == *b);
            given || self.before.moving.get(*b).copied().flatten().is_some()
        })
    }
}
