//! Stretches of motion: what is told of them in the stem, and how they are asked about.

use super::scene::capital;
use super::{Said, Writer, cannot};
use exact::Value;
use model::{Ask, Journey, Kind, QuantityId, StageId, State};

/// Which of the quantities of a journey.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Which {
    Start,
    End,
    Distance,
    Time,
}

fn which(j: &Journey, id: QuantityId) -> Option<Which> {
    [
        (j.end_speed, Which::End),
        (j.distance, Which::Distance),
        (j.time, Which::Time),
        (j.start_speed, Which::Start),
    ]
    .into_iter()
    .find(|(q, _)| *q == id)
    .map(|(_, w)| w)
}

impl Writer<'_> {
    /// The journeys that no question asks about: they tell of the motion, so they stand in the stem.
    pub(super) fn told_journeys(&mut self, id: StageId) -> Said<Vec<String>> {
        let Some(stage) = self.s.stage(id) else { return Ok(Vec::new()) };
        let mut sentences: Vec<String> = Vec::new();
        for j in &stage.journeys {
            let name = self.name(j.body).again();
            let who = capital(&name);
            if let Some(u) = self.known(j.start_speed).cloned() {
                let fresh = self.said.insert(j.start_speed);
                match (stage.state, u.is_zero()) {
                    (State::Released, true) => {}
                    (State::Moving, true) if fresh => {
                        let sentence = format!("{who} starts from rest.");
                        if !sentences.contains(&sentence) {
                            sentences.push(sentence);
                        }
                    }
                    (_, false) if fresh => {
                        let size = self.size(&u, Kind::Speed)?;
                        sentences.push(format!("The initial speed of {name} is {size}."));
                    }
                    _ => {}
                }
            }
            // What ends a stage of a story is told with what happens then.
            if self.asked_of(j) || self.is_story() {
                continue;
            }
            let told = |q: QuantityId| self.known(q).cloned();
            let (v, s, t) = (told(j.end_speed), told(j.distance), told(j.time));
            if v.is_none() && s.is_none() && t.is_none() {
                continue;
            }
            self.said.extend([j.end_speed, j.distance, j.time]);
            let like = |k: &Journey| {
                let parts = |j: &Journey| {
                    [j.start_speed, j.end_speed, j.distance, j.time].map(|q| self.known(q).cloned())
                };
                k.body == j.body && self.asked_of(k) && parts(k) == parts(j)
            };
            if stage.journeys.iter().any(like) {
                continue;
            }
            let v = v.map(|v| self.size(&v, Kind::Speed)).transpose()?;
            let s = s.map(|s| self.stretch(&s)).transpose()?;
            let t = t.map(|t| self.size(&t, Kind::Time)).transpose()?;
            let rests = self.is_zero(j.end_speed);
            sentences.push(match (v, s, t) {
                (Some(_), Some(s), None) if rests => format!("{who} comes to rest after moving {s}."),
                (Some(_), None, Some(t)) if rests => format!("{who} comes to rest in {t}."),
                (Some(v), Some(s), None) => format!("{who} reaches a speed of {v} after moving {s}."),
                (Some(v), None, Some(t)) => format!("{who} reaches a speed of {v} in {t}."),
                (None, Some(s), Some(t)) => format!("{who} moves {s} in the first {t}."),
                _ => return Err(cannot("a journey of which so much is told")),
            });
        }
        Ok(sentences)
    }

    /// `0.5 m`, `a distance h`.
    pub(super) fn stretch(&self, value: &Value) -> Said<String> {
        let size = self.size(value, Kind::Distance)?;
        Ok(if size.ends_with(" m") { size } else { format!("a distance {size}") })
    }

    fn asked_of(&self, j: &Journey) -> bool {
        [j.end_speed, j.distance, j.time, j.start_speed]
            .into_iter()
            .any(|q| self.is_asked(q) && self.known(q).is_none())
    }

    /// A quantity of a journey as a question has it: `the speed of B when it has moved 0.5 m`.
    pub(super) fn journey_phrase(&mut self, id: QuantityId, ask: &Ask) -> Said<Option<String>> {
        let own = std::iter::once(ask.stage.0).chain((0..self.s.stages.len()).filter(|n| *n != ask.stage.0));
        let found = own
            .filter_map(|n| Some((n, self.s.stages.get(n)?)))
            .find_map(|(n, stage)| stage.journeys.iter().find_map(|j| Some((j, which(j, id)?, StageId(n)))));
        let Some((j, which, stage)) = found else { return self.sum_phrase(id) };
        if self.is_story()
            && let Some(phrase) = self.story_phrase(j, which, stage)?
        {
            return Ok(Some(phrase));
        }
        let who = self.name(j.body).again();
        let told = |w: &Self, q: QuantityId| w.known(q).cloned();
        let (v, s, t) = (told(self, j.end_speed), told(self, j.distance), told(self, j.time));
        self.said.extend([j.end_speed, j.distance, j.time]);
        let rests = self.is_zero(j.end_speed);
        let v = v.map(|v| self.size(&v, Kind::Speed)).transpose()?;
        let s = s.map(|s| self.stretch(&s)).transpose()?;
        let t = t.map(|t| self.size(&t, Kind::Time)).transpose()?;
        Ok(Some(match (which, v, s, t) {
            (Which::End, None, Some(s), None) => format!("the speed of {who} when it has moved {s}"),
            (Which::End, None, None, Some(t)) => format!("the speed of {who} after {t}"),
            (Which::Distance, Some(_), None, None) if rests => {
                format!("the distance moved by {who} before it comes to rest")
            }
            (Which::Distance, Some(v), None, None) => {
                format!("the distance moved by {who} before it reaches a speed of {v}")
            }
            (Which::Distance, None, None, Some(t)) => format!("the distance moved by {who} in the first {t}"),
            (Which::Time, Some(_), None, None) if rests => {
                format!("the time taken for {who} to come to rest")
            }
            (Which::Time, Some(v), None, None) => format!("the time taken for {who} to reach a speed of {v}"),
            (Which::Time, None, Some(s), None) => format!("the time taken for {who} to move {s}"),
            _ => return Err(cannot("a journey asked about in this way")),
        }))
    }
}
