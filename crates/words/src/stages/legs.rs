//! Journeys within a story: through a whole chapter, up to a moment of rest, until the string is taut again.

use crate::assemble::Assembly;
use crate::story::{Fact, Given};
use crate::timeline::Occurs;
use exact::Value;
use model::{BodyId, Direction, Grip, Journey, Kind, Line, QuantityId, Relation, StageId};

/// How far a leg goes.
#[derive(Clone, Debug)]
pub(super) enum Goal<'a> {
    /// Until it is at rest.
    Rest,
    /// Until it is back where the chapter began.
    Back,
    /// Until it is back where the story began.
    Origin,
    /// As far or as long as these facts say.
    Facts(&'a [Fact]),
}

impl Assembly<'_> {
    /// Are two bodies held together in a chapter, so that they move equally fast?
    pub(super) fn together(&self, k: usize, one: usize, other: usize) -> bool {
        let Some(chapter) = self.chapters.get(k) else { return false };
        let situation = self.b.situation();
        let mut group = vec![BodyId(one)];
        for _ in 0..situation.links.len() {
            for (_, link) in situation.links_in(chapter.stage) {
                if link.ends.iter().any(|e| group.contains(&e.body)) && link.ends.iter().all(|e| e.times == 1)
                {
                    let more: Vec<BodyId> =
                        link.ends.iter().map(|e| e.body).filter(|b| !group.contains(b)).collect();
                    group.extend(more);
                }
            }
        }
        group.contains(&BodyId(other))
    }

    /// The speed of a body as a chapter begins.
    pub(super) fn start(&mut self, k: usize, body: usize) -> Option<QuantityId> {
        if let Some(q) = self.chapters.get(k)?.starts.get(&body) {
            return Some(*q);
        }
        let others: Vec<(usize, QuantityId)> =
            self.chapters.get(k)?.starts.iter().map(|(b, q)| (*b, *q)).collect();
        let shared = others.iter().find(|(b, _)| k == 0 || self.together(k, *b, body)).map(|x| x.1);
        let q = match (shared, k) {
            (Some(q), _) => q,
            (None, 0) => {
                let name = self.b.situation().body(*self.bodies.get(body)?)?.name.clone();
                let q = self.b.quantity(Kind::Speed, "u", &format!("initial speed of {name}"));
                if let Some(g) = self.chapters.first()?.motion.start.clone() {
                    self.give(q, &g, Kind::Speed);
                }
                q
            }
            (None, _)
                if matches!(self.chapters.get(k - 1)?.motion.state, Some((model::State::Steady, _))) =>
            {
                self.start(k - 1, body)?
            }
            (None, _) => {
                let q = self.whole(k - 1, body)?.end_speed;
                // A body may have turned back before: then it begins anew the other way, which is not followed here.
                if self.b.situation().quantity(q)?.kind == Kind::Velocity {
                    return None;
                }
                if let Some(g) = self.chapters.get(k)?.motion.start.clone() {
                    self.give(q, &g, Kind::Speed);
                }
                q
            }
        };
        self.chapters.get_mut(k)?.starts.insert(body, q);
        Some(q)
    }

    /// The journey of a body through a whole chapter.
    pub(super) fn whole(&mut self, k: usize, body: usize) -> Option<Journey> {
        if let Some(j) = self.chapters.get(k)?.whole.get(&body) {
            return Some(j.clone());
        }
        let known: Vec<(usize, Journey)> =
            self.chapters.get(k)?.whole.iter().map(|(b, j)| (*b, j.clone())).collect();
        if let Some((_, j)) = known.iter().find(|(b, _)| self.together(k, *b, body)) {
            return Some(j.clone());
        }
        let lead = self.lead(k)?;
        if known.is_empty() && lead != body {
            // First the one whose journey ends the chapter.
            self.whole(k, lead)?;
            return self.whole(k, body);
        }
        let id = *self.bodies.get(body)?;
        let start = self.start(k, body)?;
        let chapter = self.chapters.get(k)?.clone();
        let falls = k > 0 && self.free(k, body) && chapter.senses.get(body).copied().flatten() == Some(1);
        let j = match known.first() {
            // As long as the one that ends the chapter.
            Some((_, first)) => {
                if falls {
                    return None;
                }
                self.journey_taking(chapter.stage, id, start, first.time)?
            }
            None => {
                let rest = chapter.motion.end.as_ref().is_some_and(|g| g.value.is_zero());
                let turns = falls && !rest && chapter.motion.distance.is_none();
                let j = self.b.journey_from(chapter.stage, id, start, turns)?;
                for (q, g, kind) in [
                    (j.end_speed, chapter.motion.end.clone(), Kind::Speed),
                    (j.distance, chapter.motion.distance.clone().map(|d| d.1), Kind::Distance),
                    (j.time, chapter.motion.time.clone(), Kind::Time),
                ] {
                    if let Some(g) = g {
                        self.give(q, &g, kind);
                    }
                }
                j
            }
        };
        self.chapters.get_mut(k)?.whole.insert(body, j.clone());
        if known.is_empty() && chapter.motion.distance.is_none() {
            self.down_to_ground(k, body, &j);
        }
        Some(j)
    }

    /// A journey that takes as long as another.
    fn journey_taking(
        &mut self,
        stage: StageId,
        body: BodyId,
        start: QuantityId,
        time: QuantityId,
    ) -> Option<Journey> {
        let mut j = self.b.journey_from(stage, body, start, false)?;
        j.time = time;
        if let Some(last) = self.b.situation_mut().stages.get_mut(stage.0)?.journeys.last_mut() {
            last.time = time;
        }
        Some(j)
    }

    /// A body that lands in a later chapter falls from where it has got to by then.
    fn down_to_ground(&mut self, k: usize, body: usize, j: &Journey) -> Option<()> {
        let crate::timeline::Occurs::Lands { ground: true, .. } = self.story.events.get(k)?.occurs else {
            return None;
        };
        let at = self
            .story
            .clearances
            .iter()
            .rfind(|c| c.ground && c.chapter <= k && c.of.contains(&body))?
            .clone();
        if at.chapter == k && !matches!(self.b.situation().quantity(j.distance)?.kind, Kind::Displacement) {
            return None;
        }
        let sense = self.chapters.get(k)?.senses.get(body).copied().flatten()?;
        let height = self.height_told(&at.given);
        // height + what it rose before + what it rises now = 0
        let mut terms = vec![(Value::one(), vec![height])];
        for before in at.chapter..k {
            let rise = self.chapters.get(before)?.senses.get(body).copied().flatten()?;
            let d = self.whole(before, body)?.distance;
            terms.push((Value::from_int(rise.into()), vec![d]));
        }
        terms.push((Value::from_int(sense.into()), vec![j.distance]));
        let name = "it comes down to the ground".to_owned();
        self.b.situation_mut().relations.push(Relation {
            terms,
            name,
            span: Some(at.given.span),
            from_part: at.given.part,
        });
        Some(())
    }

    /// A height told, as a quantity.
    pub(super) fn height_told(&mut self, given: &Given) -> QuantityId {
        if let Some((_, q)) = self.heights.iter().find(|(span, _)| *span == given.span) {
            return *q;
        }
        let q = self.b.quantity(Kind::Distance, "h", "height above the ground");
        self.give(q, given, Kind::Distance);
        self.heights.push((given.span, q));
        q
    }

    /// Does nothing but its weight (and a smooth surface) act on it, so that it may rise and fall back in one stage?
    pub(super) fn free(&self, k: usize, body: usize) -> bool {
        let Some(chapter) = self.chapters.get(k) else { return false };
        let situation = self.b.situation();
        let id = BodyId(body);
        let alone = situation.links_in(chapter.stage).all(|(_, l)| l.ends.iter().all(|e| e.body != id));
        let rough = situation
            .body(id)
            .and_then(|b| b.surface.as_ref())
            .is_some_and(|s| matches!(s.grip, Grip::Rough(_)));
        let resisted = situation
            .actions_in(chapter.stage)
            .any(|(_, a)| a.on == id && a.direction == Direction::Opposing);
        let level = matches!(self.lines.get(body), Some(Line::Level));
        alone && !rough && !resisted && !level
    }

    /// A leg of a body from the start of a chapter.
    pub(super) fn leg(&mut self, k: usize, body: usize, goal: &Goal) -> Option<Journey> {
        let chapter = self.chapters.get(k)?.clone();
        let rests = chapter.motion.end.as_ref().is_some_and(|g| g.value.is_zero());
        if matches!(goal, Goal::Rest) && rests {
            return self.whole(k, body);
        }
        let key = (k, body, format!("{goal:?}"));
        if let Some(j) = self.legs.get(&key) {
            return Some(j.clone());
        }
        let id = *self.bodies.get(body)?;
        let start = self.start(k, body)?;
        let up = chapter.senses.get(body).copied().flatten() == Some(1);
        let turns = match goal {
            Goal::Rest => false,
            Goal::Back | Goal::Origin => true,
            // Where a slack string or the ground may end the fall, only the way up is followed.
            Goal::Facts(_) => {
                let checked = self.story.clearances.iter().any(|c| c.ground && c.of.contains(&body));
                let torn = k > 0
                    && matches!(self.story.events.get(k - 1).map(|e| &e.occurs), Some(Occurs::Breaks(_)));
                torn && !checked && up && self.free(k, body)
            }
        };
        let origin = matches!(goal, Goal::Origin);
        let rested = matches!(
            k.checked_sub(1).and_then(|p| self.story.events.get(p)).map(|e| &e.occurs),
            Some(Occurs::Rests(_))
        );
        if origin && rested {
            // Back from where it came to rest: as far as it had gone.
            if k != 1 {
                return None;
            }
            let way = self.whole(k - 1, body)?.distance;
            let mut j = self.b.journey_from(chapter.stage, id, start, false)?;
            j.distance = way;
            if let Some(last) = self.b.situation_mut().stages.get_mut(chapter.stage.0)?.journeys.last_mut() {
                last.distance = way;
            }
            self.legs.insert(key, j.clone());
            return Some(j);
        }
        if matches!(goal, Goal::Back | Goal::Origin) && !self.free(k, body) {
            return None;
        }
        // How far it is from where the story began, as this chapter begins.
        let mut off = Vec::new();
        for before in 0..if origin { k } else { 0 } {
            let sense = self.chapters.get(before)?.senses.get(body).copied().flatten()?;
            off.push((Value::from_int(sense.into()), vec![self.whole(before, body)?.distance]));
        }
        let j = self.b.journey_from(chapter.stage, id, start, turns)?;
        match goal {
            Goal::Rest => self.b.know(j.end_speed, Value::zero()),
            Goal::Origin if !off.is_empty() => {
                let sense = chapter.senses.get(body).copied().flatten()?;
                off.push((Value::from_int(sense.into()), vec![j.distance]));
                let name = "it is back where it began".to_owned();
                self.b.situation_mut().relations.push(Relation {
                    terms: off,
                    name,
                    span: None,
                    from_part: 0,
                });
            }
            Goal::Back | Goal::Origin => self.b.know(j.distance, Value::zero()),
            Goal::Facts(facts) => {
                for fact in *facts {
                    match fact {
                        Fact::StartSpeed(g) => self.give(start, g, Kind::Speed),
                        Fact::EndSpeed(g) => self.give(j.end_speed, g, Kind::Speed),
                        Fact::Distance(g) => self.give(j.distance, g, Kind::Distance),
                        Fact::Time(g) => self.give(j.time, g, Kind::Time),
                        _ => {}
                    }
                }
            }
        }
        self.legs.insert(key, j.clone());
        Some(j)
    }
}
