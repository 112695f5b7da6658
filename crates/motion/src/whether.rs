//! Whether it moves, in words: what moves, what does not, and the friction that decides it.

use crate::answer::View;
use crate::judge::with_unit;
use crate::{About, FrictionState};
use exact::{Sign, Value};
use model::{BodyId, Grip, Kind, State};
use std::collections::BTreeSet;

impl View<'_> {
    /// What the stage as a whole does, with its reasons.
    pub(crate) fn says_whether_it_moves(&self) -> String {
        let bodies = 0..self.situation.bodies.len();
        if !self.solved.case.moves {
            let needs: Vec<String> = bodies.filter_map(|b| self.needs(b, self.name(b))).collect();
            let because = if needs.is_empty() { String::new() } else { format!(": {}", needs.join("; ")) };
            return format!("it stays at rest{because}");
        }
        let still: Vec<usize> = bodies.clone().filter(|b| self.stays(*b)).collect();
        let moving: Vec<&str> = bodies.clone().filter(|b| !still.contains(b)).map(|b| self.name(b)).collect();
        let mut says = match (moving.as_slice(), still.is_empty()) {
            ([one], false) => format!("{one} moves"),
            _ => "it moves".to_owned(),
        };
        let exceeded = self.exceeded();
        if let Some(because) = &exceeded {
            says = format!("{says}: {because}");
        }
        let on_others =
            bodies.filter_map(|b| if still.contains(&b) { self.at_rest(b) } else { self.on_top(b) });
        for (i, other) in on_others.enumerate() {
            let join = if i == 0 && exceeded.is_none() { ", and " } else { "; " };
            says = format!("{says}{join}{other}");
        }
        says
    }

    fn name(&self, body: usize) -> &str {
        self.situation.bodies.get(body).map_or("the body", |b| b.name.as_str())
    }
    fn friction(&self, body: usize) -> Option<FrictionState> {
        self.solved.case.frictions.get(body).copied()
    }
    fn below(&self, body: usize) -> Option<usize> {
        Some(self.situation.bodies.get(body)?.surface.as_ref()?.under?.0)
    }

    /// Does this body stay at rest while others move? It was released and has no acceleration.
    pub(crate) fn stays(&self, body: usize) -> bool {
        let released = self.stage.is_some_and(|s| s.state == State::Released);
        released && self.solved.acceleration(BodyId(body)).is_some_and(Value::is_zero)
    }

    /// How much friction keeps this body where it is on its surface, and how much there is.
    fn needs(&self, body: usize, who: &str) -> Option<String> {
        let condition = self.solved.conditions.iter().find(|c| c.about == About::Friction(BodyId(body)))?;
        let needed = with_unit(&condition.left, Kind::Friction);
        let limit = with_unit(&condition.right, Kind::Friction);
        Some(format!("{who} needs {needed} of friction, and up to {limit} is to be had"))
    }
    pub(crate) fn at_rest(&self, body: usize) -> Option<String> {
        Some(format!("{} stays at rest: {}", self.name(body), self.needs(body, "it")?))
    }
    /// What a body does on the one that it stands on, while that moves.
    fn on_top(&self, body: usize) -> Option<String> {
        let (name, below) = (self.name(body), self.name(self.below(body)?));
        match self.friction(body)? {
            FrictionState::Sliding => Some(format!("{name} slips on {below}")),
            FrictionState::Static => {
                Some(format!("{name} does not slip on {below}: {}", self.needs(body, "it")?))
            }
            FrictionState::NoFriction | FrictionState::Limiting => None,
        }
    }

    /// What was released moves because one friction with the ground is not enough: how much it would take to hold
    /// everything that moves with that body, and μR. `None` where the ground rubs on more bodies than one, or where
    /// not all that moves has one acceleration, so that no single sum says it.
    fn exceeded(&self) -> Option<String> {
        let stage = self.stage.filter(|s| s.state == State::Released)?;
        let moving: Vec<usize> = (0..self.situation.bodies.len()).filter(|b| !self.stays(*b)).collect();
        let rubs = |b: &&usize| self.friction(**b) == Some(FrictionState::Sliding);
        let mut rough = moving.iter().filter(rubs);
        let (Some(&body), None) = (rough.next(), rough.next()) else { return None };
        let shared: BTreeSet<_> = moving.iter().map(|b| self.solved.accelerations.get(*b)).collect();
        if shared.len() != 1 || self.below(body).is_some() {
            return None;
        }
        let surface = self.situation.bodies.get(body)?.surface.as_ref()?;
        let Grip::Rough(mu) = surface.grip else { return None };
        let reaction = stage.reactions.get(body).copied().flatten()?;
        let limit = self.solved.value(mu)? * self.solved.value(reaction)?;
        // The whole drives with Σma more than friction takes away.
        let mut drive = self.solved.value(stage.frictions.get(body).copied().flatten()?)?.clone();
        for b in moving {
            let mass = self.solved.value(self.situation.bodies.get(b)?.mass)?;
            drive += mass * self.solved.acceleration(BodyId(b))?;
        }
        // In letters it may depend on them which is greater; then this is no reason.
        if crate::sign::sign_with_positive_letters(&(&drive - &limit)) == Some(Sign::Negative) {
            return None;
        }
        Some(format!(
            "{} would need {} of friction to stay at rest, and only {} is to be had",
            self.name(body),
            with_unit(&drive, Kind::Friction),
            with_unit(&limit, Kind::Friction)
        ))
    }
}
