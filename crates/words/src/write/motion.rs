//! How the bodies move in a stage.

use super::scene::capital;
use super::{Said, Writer, cannot};
use exact::{Sign, Value};
use model::{BodyId, Heading, Kind, Line, Stage, StageId, State, Wanted};

impl Writer<'_> {
    /// What is said of the motion in a stage.
    pub(super) fn motion(&mut self, id: StageId) -> Said<Vec<String>> {
        let Some(stage) = self.s.stage(id) else { return Ok(Vec::new()) };
        if !stage.held.is_empty() {
            return Err(cannot("a body that is held"));
        }
        let mut sentences = self.state(stage)?;
        for b in &stage.about_to_slip {
            let on = self.ground_of(*b).unwrap_or_default();
            sentences
                .push(format!("{} is on the point of slipping on {on}.", capital(&self.name(*b).again())));
        }
        Ok(sentences)
    }

    fn state(&mut self, stage: &Stage) -> Said<Vec<String>> {
        let heading = stage.heading;
        let goes = |w: &Self, h: Heading| w.way(h.body, h.sense);
        let all = self.all_bodies();
        Ok(match stage.state {
            State::Released => {
                let taut = self.taut();
                let on = match heading {
                    Some(h) => format!(" {} moves {}.", capital(&self.name(h.body).again()), goes(self, h)?),
                    None => String::new(),
                };
                if self.needs_no_release(stage) {
                    return Ok(Vec::new());
                }
                let mut said = vec![format!("{} released from rest{taut}.{on}", self.all_are())];
                said.extend(self.accelerations(stage)?);
                said
            }
            State::AtRest if self.asked_range(stage) => Vec::new(),
            State::AtRest if self.compares() => vec![format!("{} at rest.", self.all_are())],
            State::AtRest => vec![format!("{} in equilibrium.", self.all_are())],
            State::Limiting => match heading {
                Some(h) => vec![
                    format!("{} in limiting equilibrium.", self.all_are()),
                    format!(
                        "{} is on the point of moving {}.",
                        capital(&self.name(h.body).again()),
                        goes(self, h)?
                    ),
                ],
                None => vec![format!("{} in limiting equilibrium.", self.all_are())],
            },
            State::Steady => match heading {
                Some(h) => vec![format!(
                    "{} moves {} at a constant speed.",
                    capital(&self.name(h.body).again()),
                    goes(self, h)?
                )],
                None => vec![format!(
                    "{} at a constant speed.",
                    if self.s.bodies.len() == 1 {
                        format!("{} moves", capital(&all))
                    } else {
                        "The system moves".to_owned()
                    }
                )],
            },
            State::Moving => {
                let told = self.accelerations(stage)?;
                match (heading, told.is_empty()) {
                    (Some(h), true) => {
                        vec![format!("{} moves {}.", capital(&self.name(h.body).again()), goes(self, h)?)]
                    }
                    _ => told,
                }
            }
            State::Jerk => return Err(cannot("a jerk")),
        })
    }

    /// Does a question ask for which values the bodies stay at rest? It says so itself.
    fn asked_range(&self, stage: &Stage) -> bool {
        let here = |id: StageId| self.s.stage(id).is_some_and(|s| std::ptr::eq(s, stage));
        self.s.asks.iter().any(|a| matches!(a.wanted, Wanted::Range(_)) && here(a.stage))
    }

    /// Bodies on the level that a force begins to draw: that they start from rest is not said.
    fn needs_no_release(&self, stage: &Stage) -> bool {
        let level = self.s.bodies.iter().all(|b| b.line == Line::Level);
        level
            && self.s.links.iter().all(|l| l.pulleys.is_empty())
            && stage.journeys.is_empty()
            && self.s.body_ids().any(|b| self.drawn(b))
    }

    /// ` with the string taut`.
    fn taut(&self) -> String {
        let strings: Vec<String> =
            self.s.links.iter().filter(|l| !l.pulleys.is_empty()).map(|l| self.link_noun(l)).collect();
        match strings.as_slice() {
            [] => String::new(),
            [one] => format!(" with the {one} taut"),
            [one, ..] => format!(" with the {one}s taut"),
        }
    }

    /// `A` where it is alone, `the system` otherwise.
    pub(super) fn all_bodies(&self) -> String {
        match self.names.as_slice() {
            [one] => one.again(),
            _ => "the system".to_owned(),
        }
    }

    fn all_are(&self) -> String {
        format!("{} is", capital(&self.all_bodies()))
    }

    /// The accelerations that are given.
    fn accelerations(&mut self, stage: &Stage) -> Said<Vec<String>> {
        let mut sentences = Vec::new();
        for (i, &id) in stage.accelerations.iter().enumerate() {
            let Some(value) = self.known(id).cloned() else { continue };
            self.said.insert(id);
            let body = BodyId(i);
            let forwards = !is_negative(&value);
            let size = self.size(&if forwards { value } else { -value }, Kind::Acceleration)?;
            let who = capital(&self.name(body).again());
            let heading = stage.heading.filter(|h| h.body == body);
            sentences.push(match heading {
                Some(h) if (h.sense > 0) == forwards => {
                    format!("{who} moves {} with an acceleration of {size}.", self.way(body, h.sense)?)
                }
                Some(h) => format!("{who} moves {} with a deceleration of {size}.", self.way(body, h.sense)?),
                None => {
                    let sense = if forwards { 1 } else { -1 };
                    format!("{who} accelerates {} at {size}.", self.way(body, sense)?)
                }
            });
        }
        if let (Some(h), [_, ..]) = (stage.heading, sentences.as_slice()) {
            let own = stage.accelerations.get(h.body.0).is_some_and(|a| self.known(*a).is_some());
            if !own {
                sentences.push(format!(
                    "{} moves {}.",
                    capital(&self.name(h.body).again()),
                    self.way(h.body, h.sense)?
                ));
            }
        }
        Ok(sentences)
    }

    /// Which way a body goes, in the sense of its line: `up the plane`, `downwards`, `forwards`.
    pub(super) fn way(&self, id: BodyId, sense: i8) -> Said<String> {
        let Some(body) = self.s.body(id) else { return Err(cannot("a body that is not there")) };
        let ground = self.ground_root(id);
        let to_pulley =
            self.s.links.iter().any(|l| !l.pulleys.is_empty() && l.ends.iter().any(|e| e.body == id));
        Ok(match (body.line, sense > 0) {
            (Line::Vertical, true) => "upwards".to_owned(),
            (Line::Vertical, false) => "downwards".to_owned(),
            (Line::Slope { .. }, true) => format!("up {ground}"),
            (Line::Slope { .. }, false) => format!("down {ground}"),
            (Line::Level, true) if to_pulley => "towards the pulley".to_owned(),
            (Line::Level, true) => format!("forwards along {ground}"),
            (Line::Level, false) => return Err(cannot(format!("that {} moves backwards", body.name))),
        })
    }

    /// The ground on which a body stands, or on which the one that carries it stands.
    fn ground_root(&self, id: BodyId) -> String {
        let mut at = id;
        for _ in 0..self.s.bodies.len() {
            match self.s.body(at).and_then(|b| b.surface.as_ref()).and_then(|s| s.under) {
                Some(under) => at = under,
                None => break,
            }
        }
        self.ground_of(at).unwrap_or_default()
    }

    /// A value that is zero.
    pub(super) fn is_zero(&self, id: model::QuantityId) -> bool {
        self.known(id).is_some_and(Value::is_zero)
    }
}

/// Is a value below zero? Letters stand for what is positive.
fn is_negative(value: &Value) -> bool {
    match value.sign() {
        Ok(sign) => sign == Sign::Negative,
        Err(_) => value.to_string().starts_with('-'),
    }
}
