//! Journeys within a state: start and end speed, distance, time.

use crate::assemble::{Assembly, known};
use crate::stages::Motion;
use crate::story::{AskTold, Fact};
use model::{BodyId, Diagnostic, Journey, Kind, Refusal, StageId};

impl Assembly<'_> {
    pub(super) fn journey(
        &mut self,
        ask: &AskTold,
        stage: StageId,
        motion: &Motion,
        of: &[usize],
    ) -> Option<Journey> {
        let trips: Vec<&Fact> = ask
            .facts
            .iter()
            .filter(|f| {
                matches!(f, Fact::StartSpeed(_) | Fact::EndSpeed(_) | Fact::Distance(_) | Fact::Time(_))
            })
            .collect();
        let body =
            of.first().copied().or(motion.distance.as_ref().and_then(|d| d.0.first().copied())).unwrap_or(0);
        let body_id = *self.bodies.get(body)?;
        let asks_new = trips.iter().any(|f| !matches!(f, Fact::StartSpeed(_)));
        let last = self.b.situation().stage(stage)?.journeys.last().cloned();
        if ask.same_journey || !asks_new {
            if let Some(j) = last.clone().filter(|_| ask.same_journey) {
                return Some(j);
            }
            // Nothing told of a stretch: the one asked about just before.
            let bare = motion.end.is_none() && motion.distance.is_none() && motion.time.is_none();
            if let (true, Some(j)) = (bare, last) {
                return Some(j);
            }
            return self.base_journey(stage, motion, body);
        }
        // After 2 s and after 3 s: two stretches in one question.
        let times = trips.iter().filter(|f| matches!(f, Fact::Time(_))).count();
        let ways = trips.iter().filter(|f| matches!(f, Fact::Distance(_))).count();
        if times > 1 || ways > 1 {
            let d = Diagnostic::refuse(Refusal::Unread, "two times or distances stand in one question")
                .at(ask.span)
                .hint("ask for one after the other, each in a part of its own");
            self.diagnostics.push(d);
        }
        let zero = |g: Option<&crate::story::Given>| g.is_some_and(|g| g.value.is_zero());
        let ends = trips.iter().find_map(|f| if let Fact::EndSpeed(g) = f { Some(g) } else { None });
        if zero(motion.start.as_ref()) && zero(ends) {
            let d = Diagnostic::refuse(
                Refusal::Contradictory,
                "it starts from rest, and under constant forces it does not come to rest again",
            )
            .at(ask.span)
            .hint("ask about one stage of the motion at a time");
            self.diagnostics.push(d);
        }
        let j = self.new_journey(stage, body_id)?;
        let mut start = motion.start.clone();
        for fact in trips {
            let (q, g) = match fact {
                Fact::StartSpeed(g) => {
                    start = Some(g.clone());
                    continue;
                }
                Fact::EndSpeed(g) => (j.end_speed, g),
                Fact::Distance(g) => (j.distance, g),
                Fact::Time(g) => (j.time, g),
                _ => continue,
            };
            let kind = if matches!(fact, Fact::Distance(_)) {
                Kind::Distance
            } else if matches!(fact, Fact::Time(_)) {
                Kind::Time
            } else {
                Kind::Speed
            };
            self.give(q, g, kind);
        }
        if let Some(g) = start {
            self.b.know_as(j.start_speed, known(&g));
        }
        Some(j)
    }

    /// The journey that the statements tell of; made once for each stage.
    pub(super) fn base_journey(&mut self, stage: StageId, motion: &Motion, body: usize) -> Option<Journey> {
        if let Some(j) =
            self.bases.get(&stage).and_then(|n| self.b.situation().stage(stage)?.journeys.get(*n)).cloned()
        {
            return Some(j);
        }
        let number = self.b.situation().stage(stage)?.journeys.len();
        self.bases.insert(stage, number);
        let who = motion.distance.as_ref().and_then(|d| d.0.first().copied()).unwrap_or(body);
        let body_id = *self.bodies.get(who)?;
        let j = self.new_journey(stage, body_id)?;
        for (q, g, kind) in [
            (j.start_speed, motion.start.clone(), Kind::Speed),
            (j.end_speed, motion.end.clone(), Kind::Speed),
            (j.distance, motion.distance.clone().map(|d| d.1), Kind::Distance),
            (j.time, motion.time.clone(), Kind::Time),
        ] {
            if let Some(g) = g {
                self.give(q, &g, kind);
            }
        }
        Some(j)
    }

    fn new_journey(&mut self, stage: StageId, body: BodyId) -> Option<Journey> {
        let name = self.b.situation().body(body)?.name.clone();
        let j = Journey {
            body,
            start_speed: self.b.quantity(Kind::Speed, "u", &format!("initial speed of {name}")),
            end_speed: self.b.quantity(Kind::Speed, "v", &format!("speed of {name}")),
            distance: self.b.quantity(Kind::Distance, "s", &format!("distance moved by {name}")),
            time: self.b.quantity(Kind::Time, "t", "time taken"),
        };
        self.b.situation_mut().stages.get_mut(stage.0)?.journeys.push(j.clone());
        Some(j)
    }
}
