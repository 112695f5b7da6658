//! What a question about a story wants: measured from one moment to another, chapter by chapter.

use crate::assemble::{Assembly, Became};
use crate::parts::Part;
use crate::stages::legs::Goal;
use crate::stages::makes_state;
use crate::story::{AskTold, Fact, Target};
use crate::timeline::{Moment, Occurs};
use exact::Value;
use model::{Claim, Claimed, Happening, Journey, Kind, QuantityId, Relation, StageId, State, Wanted};

impl Assembly<'_> {
    /// One question of a story.
    pub(super) fn tale_ask(&mut self, ask: &AskTold, parts: &[Part]) {
        let last = self.chapters.len().saturating_sub(1);
        let chapters: Vec<usize> =
            if ask.when.each { (0..=last).collect() } else { vec![ask.when.chapter.min(last)] };
        for k in chapters {
            let Some(stage) = self.chapters.get(k).map(|c| c.stage) else { return };
            let found = match &ask.target {
                Target::Speed { of, start } => self.speed_asked(ask, k, of, *start),
                Target::Distance { of } => self.stretch(ask, k, of, Kind::Distance),
                Target::Time => self.stretch(ask, k, &[], Kind::Time),
                Target::Height { of, ground } => self.highest(ask, of, *ground),
                Target::Impulse => self.jerk().and_then(|(s, _, q)| {
                    Some((s, Wanted::Quantity(self.b.situation().stage(s)?.links.get(q)?.to_owned())))
                }),
                Target::EnergyLost => self.energy_lost(),
                _ => {
                    self.plain(ask, k, stage, parts);
                    continue;
                }
            };
            match found {
                Some((stage, wanted)) => self.ask(ask, stage, vec![(ask.phrase.clone(), wanted)], parts),
                None => self.no_moment(ask),
            }
        }
    }

    /// A force, an acceleration, a mass ...: as in a question of one stage.
    fn plain(&mut self, ask: &AskTold, k: usize, stage: StageId, parts: &[Part]) {
        let at_once = ask
            .facts
            .iter()
            .any(|f| makes_state(f) || matches!(f, Fact::Time(_) | Fact::Distance(_) | Fact::EndSpeed(_)));
        // As the string breaks: is it before or after?
        let torn = matches!(ask.when.to, Some(Moment::Rest(_) | Moment::Taut | Moment::Back(_)));
        // In which chapter? Where nothing says so, only what was just changed is clear.
        let just = k.checked_sub(1).and_then(|p| self.story.events.get(p)).is_some_and(|e| {
            e.part == ask.part
                && matches!(e.occurs, Occurs::Off(_) | Occurs::Brakes | Occurs::Breaks(_) | Occurs::Rests(_))
        }) || self.told_between(k, ask) && self.makes_sense(ask, k);
        let placed = k == 0
            || just
            || ask.when.named
            || ask.when.each
            || ask.when.from.is_some()
            || ask.when.to.is_some();
        let passing = passing(&ask.target);
        // As the string breaks: only what is there just before, or just after, but not both.
        if let (true, true, Some(Moment::Event(n))) = (passing, ask.when.at_once, &ask.when.to) {
            let fits: Vec<usize> = [*n, n + 1]
                .into_iter()
                .filter(|k| *k < self.chapters.len() && self.makes_sense(ask, *k))
                .collect();
            let [only] = fits.as_slice() else { return self.no_moment(ask) };
            let mut own = ask.clone();
            own.when = crate::timeline::Moments { chapter: *only, named: true, ..Default::default() };
            let stage = self.chapters.get(*only).map_or(stage, |c| c.stage);
            return self.plain(&own, *only, stage, parts);
        }
        if passing && !placed && !at_once && !torn {
            // Nothing says when: clear only if it makes sense in one chapter alone.
            let quiet = |k: &usize| self.chapters.get(*k).is_some_and(|c| !self.is_jerk(c.stage));
            let mut fitting = (0..=k).filter(|k| quiet(k) && self.makes_sense(ask, *k));
            return match (fitting.next(), fitting.next()) {
                (Some(only), None) => {
                    let mut own = ask.clone();
                    own.when.named = true;
                    let stage = self.chapters.get(only).map_or(stage, |c| c.stage);
                    self.plain(&own, only, stage, parts)
                }
                _ => self.no_moment(ask),
            };
        }
        if at_once || torn || !self.makes_sense(ask, k) {
            return self.no_moment(ask);
        }
        self.thrust_claim(ask, stage);
        let motion = self.chapters.get(k).map(|c| c.motion.clone()).unwrap_or_default();
        let found = self.wanted(ask, stage, &motion);
        self.ask(ask, stage, found, parts);
    }

    /// Was the happening that begins this chapter told between the questions: after one, before this one? Then this one
    /// speaks of what follows from it.
    fn told_between(&self, k: usize, ask: &AskTold) -> bool {
        k.checked_sub(1).and_then(|p| self.story.events.get(p)).is_some_and(|e| {
            let asked_before = self.story.asks.iter().any(|a| a.part <= e.part && a.span.end <= e.span.start);
            let off = matches!(e.occurs, Occurs::Off(_) | Occurs::Brakes | Occurs::Breaks(_));
            e.told && off && e.part > 0 && asked_before && e.span.end <= ask.span.start
        })
    }

    fn is_jerk(&self, stage: StageId) -> bool {
        self.b.situation().stage(stage).is_some_and(|s| s.state == State::Jerk)
    }

    /// Are the strings of which this asks there in this chapter; are the bodies free to move, with one acceleration?
    fn makes_sense(&self, ask: &AskTold, k: usize) -> bool {
        let Some(stage) = self.chapters.get(k).and_then(|c| self.b.situation().stage(c.stage)) else {
            return false;
        };
        match &ask.target {
            Target::Link(links) => {
                links.iter().chain(links.is_empty().then_some(&0)).all(|&l| match self.links.get(l) {
                    Some(Became::Link(id)) => !stage.without_links.contains(id),
                    Some(Became::Cable(a)) => !stage.without_actions.contains(a),
                    _ => true,
                })
            }
            Target::Acceleration { of, .. } => {
                let held = |b: &usize| self.bodies.get(*b).is_some_and(|id| stage.held.contains(id));
                !of.iter().any(held)
                    && of.first().is_none_or(|&first| of.iter().all(|&b| self.together(k, first, b)))
            }
            _ => true,
        }
    }

    /// A body that moves in a chapter, of these or of all.
    fn mover(&self, k: usize, of: &[usize]) -> Option<usize> {
        let chapter = self.chapters.get(k)?;
        let moves = |b: &usize| {
            let held = self.bodies.get(*b).is_some_and(|id| {
                self.b.situation().stage(chapter.stage).is_some_and(|s| s.held.contains(id))
            });
            !held
        };
        let all: Vec<usize> = (0..self.lines.len()).collect();
        let of = if of.is_empty() { &all } else { of };
        let found: Vec<usize> = of.iter().copied().filter(moves).collect();
        let first = *found.first()?;
        found.iter().all(|&b| self.together(k, first, b)).then_some(first).or(if of.len() == 1 {
            Some(first)
        } else {
            None
        })
    }

    /// A speed at a moment.
    fn speed_asked(
        &mut self,
        ask: &AskTold,
        k: usize,
        of: &[usize],
        start: bool,
    ) -> Option<(StageId, Wanted)> {
        let of = if of.is_empty() || of.len() > 1 && of.len() == self.lines.len() { &[] } else { of };
        match (&ask.when.to, &ask.when.from) {
            (Some(Moment::Event(n)), _) => {
                let b = self.mover(*n, of)?;
                let j = self.whole(*n, b)?;
                Some((self.chapters.get(*n)?.stage, self.sized(j.end_speed)?))
            }
            (Some(Moment::Taut), _) => {
                let b = self.mover(k, of)?;
                let j = self.leg(k, b, &Goal::Back)?;
                Some((self.chapters.get(k)?.stage, self.sized(j.end_speed)?))
            }
            (Some(Moment::Back(who)), _) => {
                let b = self.mover(k, if who.is_empty() { of } else { who })?;
                let j = self.leg(k, b, &Goal::Origin)?;
                Some((self.chapters.get(k)?.stage, self.sized(j.end_speed)?))
            }
            (None, Some(Moment::Taut)) => {
                let (stage, journeys, _) = self.jerk()?;
                Some((stage, Wanted::Quantity(journeys.first()?.end_speed)))
            }
            (None, Some(Moment::Event(n))) if ask.facts.is_empty() => {
                let b = self.mover(n + 1, of)?;
                let q = self.start(n + 1, b)?;
                Some((self.chapters.get(*n)?.stage, Wanted::Quantity(q)))
            }
            (None, _) if !ask.facts.is_empty() => {
                let facts = ask.facts.clone();
                let b = self.mover(k, of)?;
                let j = self.stretch_to(ask, k, b, &facts)?;
                Some((self.chapters.get(k)?.stage, self.sized(j.end_speed)?))
            }
            (None, _) if start && k == 0 => {
                let b = self.mover(0, of)?;
                let q = self.start(0, b)?;
                Some((self.chapters.first()?.stage, Wanted::Quantity(q)))
            }
            // The greatest speed: as the driving ends.
            (None, _)
                if ["greatest", "maximum", "final", "steady", "constant"]
                    .iter()
                    .any(|w| ask.phrase.starts_with(w)) =>
            {
                let b = self.mover(0, of)?;
                let slows = matches!(
                    self.story.events.first()?.occurs,
                    Occurs::Lands { .. } | Occurs::Off(_) | Occurs::Changes | Occurs::Brakes
                );
                let j = slows.then(|| self.whole(0, b))??;
                Some((self.chapters.first()?.stage, Wanted::Quantity(j.end_speed)))
            }
            _ => None,
        }
    }

    /// A signed velocity is asked for by its size.
    fn sized(&self, q: QuantityId) -> Option<Wanted> {
        let signed = matches!(self.b.situation().quantity(q)?.kind, Kind::Velocity | Kind::Displacement);
        Some(if signed { Wanted::Magnitude(q) } else { Wanted::Quantity(q) })
    }

    /// A journey up to where the facts of a question say; through the whole chapter where they say the same of it.
    fn stretch_to(&mut self, ask: &AskTold, k: usize, body: usize, facts: &[Fact]) -> Option<Journey> {
        let chapter = self.chapters.get(k)?.clone();
        if facts.iter().any(makes_state) {
            return None;
        }
        if let ([Fact::Distance(g)], Some((_, d))) = (facts, &chapter.motion.distance)
            && g.value == d.value
        {
            return self.whole(k, body);
        }
        let timed: Vec<Fact> = facts
            .iter()
            .filter(|f| {
                matches!(f, Fact::StartSpeed(_) | Fact::EndSpeed(_) | Fact::Distance(_) | Fact::Time(_))
            })
            .cloned()
            .collect();
        if timed.len() != 1 {
            return None;
        }
        let rests = |f: &Fact| matches!(f, Fact::EndSpeed(g) if g.value.is_zero());
        if timed.iter().all(rests) && chapter.motion.start.as_ref().is_some_and(|g| g.value.is_zero()) {
            return None;
        }
        if timed.iter().all(rests)
            && matches!(self.story.events.get(k).map(|e| &e.occurs), Some(Occurs::Rests(_)))
        {
            return self.whole(k, body);
        }
        // So long after what? It must be said.
        let anchored = ask.when.from.is_some() || ask.when.further;
        let measured = timed.iter().any(|f| matches!(f, Fact::Time(_) | Fact::Distance(_)));
        if k > 0 && measured && !anchored {
            return None;
        }
        // A body that is told how high it is may have come down by then.
        if k > 0 && measured && self.falls_down(k, body) {
            return None;
        }
        // No further than the chapter goes.
        let ends = k < self.story.events.len();
        if ends {
            let Some((_, d)) = &chapter.motion.distance else {
                let (Some(t), [Fact::Time(g)]) = (&chapter.motion.time, timed.as_slice()) else {
                    return None;
                };
                let within = Self::less(&t.value, &g.value)?;
                if matches!(within.sign(), Ok(exact::Sign::Negative)) {
                    return None;
                }
                return self.leg(k, body, &Goal::Facts(&timed));
            };
            let claim = Claim {
                stage: chapter.stage,
                body: *self.bodies.get(body)?,
                says: Claimed::Within(d.value.clone()),
                span: d.span,
            };
            self.claim(claim);
        }
        self.leg(k, body, &Goal::Facts(&timed))
    }

    /// Does a body go down towards the ground in a later chapter, or may it?
    fn falls_down(&self, k: usize, body: usize) -> bool {
        let told = self.story.clearances.iter().any(|c| c.ground && c.of.contains(&body));
        let up = self.chapters.get(k).and_then(|c| c.senses.get(body).copied().flatten()) == Some(1);
        told && !up
    }

    /// A distance or a time from one moment to another.
    fn stretch(&mut self, ask: &AskTold, k: usize, of: &[usize], kind: Kind) -> Option<(StageId, Wanted)> {
        let last = self.chapters.len().checked_sub(1)?;
        let when = &ask.when;
        let of = if of.len() > 1 && of.len() == self.lines.len() { &[] } else { of };
        let rests = |k: usize| {
            self.chapters.get(k).is_some_and(|c| c.motion.end.as_ref().is_some_and(|g| g.value.is_zero()))
        };
        // Until when.
        let (end, goal) = match &when.to {
            Some(Moment::Event(n)) => (*n, None),
            Some(Moment::Rest(_)) => (k, Some(Goal::Rest)),
            Some(Moment::Taut) => (k, Some(Goal::Back)),
            Some(Moment::Back(_)) => (k, Some(Goal::Origin)),
            None if !ask.facts.is_empty() => (k, None),
            None if when.each => (k, None),
            None if when.total
                && (rests(last)
                    || self.chapters.get(last)?.motion.distance.is_some()
                    || self.chapters.get(last)?.motion.time.is_some()) =>
            {
                (last, None)
            }
            None if rests(k)
                || k < self.story.events.len() && self.chapters.get(k)?.motion.distance.is_some() =>
            {
                (k, None)
            }
            // How much further: until it is at rest, which the solution must bear out.
            None if kind == Kind::Distance
                && k + 1 == self.chapters.len()
                && self.slows_to_rest(ask, k, of) =>
            {
                (k, Some(Goal::Rest))
            }
            None => return None,
        };
        // Just told, in the same part or between the parts: from then on.
        let told_here = |a: &Self, n: usize| {
            let event = n.checked_sub(1).and_then(|n| a.story.events.get(n));
            event.is_some_and(|e| e.part == ask.part) || a.told_between(n, ask)
        };
        // From when.
        let begin = match &when.from {
            Some(Moment::Event(n)) => n + 1,
            Some(Moment::Taut | Moment::Rest(_) | Moment::Back(_)) => return None,
            None if when.each => k,
            None if when.total => 0,
            None if when.further && k > 0 => k,
            None if end == 0 => 0,
            None if !ask.facts.is_empty() => k,
            None => match self.story.events.get(end.checked_sub(1)?).map(|e| &e.occurs) {
                Some(Occurs::Off(_) | Occurs::Brakes | Occurs::Breaks(_))
                    if k == end && ask.part > 0 && told_here(self, end) =>
                {
                    end
                }
                // Nothing is told of how long it went on before: it is meant from then on.
                Some(Occurs::Off(_) | Occurs::Brakes | Occurs::Breaks(_)) if k == end && !self.begun(end) => {
                    end
                }
                _ => return None,
            },
        };
        if begin > end {
            return None;
        }
        let who: &[usize] = match &when.to {
            Some(Moment::Rest(b) | Moment::Back(b)) if of.is_empty() => b,
            _ => of,
        };
        let ends = match &when.to {
            Some(Moment::Event(n)) if who.is_empty() => self.lead(*n),
            _ => None,
        };
        let body = ends.or_else(|| self.mover(end, who))?;
        let mut parts = Vec::new();
        for c in begin..end {
            let j = self.whole(c, body)?;
            parts.push(if kind == Kind::Time { j.time } else { j.distance });
        }
        let j = match goal {
            Some(goal) => self.leg(end, body, &goal)?,
            None if !ask.facts.is_empty() => {
                let facts = ask.facts.clone();
                self.stretch_to(ask, end, body, &facts)?
            }
            None => self.whole(end, body)?,
        };
        if goal_is_rest(&when.to) {
            self.short_of_pulley(end, body, &j);
        }
        let q = if kind == Kind::Time { j.time } else { j.distance };
        // There and back: how far it went is not how far off it is.
        if kind == Kind::Distance && self.b.situation().quantity(q)?.kind == Kind::Displacement {
            return None;
        }
        parts.push(q);
        let stage = self.chapters.get(end)?.stage;
        if let [one] = parts.as_slice() {
            return Some((stage, Wanted::Quantity(*one)));
        }
        let terms: Vec<(i64, QuantityId)> = parts.into_iter().map(|q| (1, q)).collect();
        let letter = if kind == Kind::Time { "t" } else { "s" };
        let name = if kind == Kind::Time { "total time" } else { "total distance" };
        let q = self.b.total(kind, letter, name, &terms);
        Some((stage, Wanted::Quantity(q)))
    }

    /// Is it told how the motion before a chapter began, or how long or far it went?
    fn begun(&self, end: usize) -> bool {
        self.chapters.iter().take(end).any(|c| {
            let m = &c.motion;
            let released = matches!(m.state, Some((State::Released, _)));
            released || m.start.is_some() || m.distance.is_some() || m.time.is_some()
        })
    }

    /// Is a distance without an end meant up to where the body comes to rest: what it moves further, or altogether?
    fn slows_to_rest(&self, ask: &AskTold, k: usize, of: &[usize]) -> bool {
        let Some(body) = self.mover(k, of) else { return false };
        // What ends the chapter, if anything, must not touch it.
        let goes_on = match self.story.events.get(k).map(|e| &e.occurs) {
            None => true,
            Some(Occurs::Lands { body: other, .. }) => *other != body && !self.together(k, *other, body),
            Some(_) => false,
        };
        let told = goes_on && (ask.when.further || ask.when.total || ask.when.from.is_some());
        told && k > 0 && (ask.when.further || !self.free(k, body))
    }

    /// A body that is told how far it is from the pulley comes to rest before it.
    fn short_of_pulley(&mut self, k: usize, body: usize, _j: &Journey) -> Option<()> {
        let room = self
            .story
            .clearances
            .iter()
            .find(|c| !c.ground && c.chapter == 0 && c.of.contains(&body))?
            .clone();
        let mut left = room.given.value.clone();
        for c in 0..k {
            let d = self.chapters.get(c)?.motion.distance.clone()?.1;
            left = Self::less(&left, &d.value)?;
        }
        let stage = self.chapters.get(k)?.stage;
        let body = *self.bodies.get(body)?;
        self.claim(Claim { stage, body, says: Claimed::Within(left), span: room.given.span });
        Some(())
    }

    /// The greatest height of a body: above the ground, or above where it began.
    fn highest(&mut self, ask: &AskTold, of: &[usize], ground: bool) -> Option<(StageId, Wanted)> {
        let last = ask.when.chapter;
        let body = *of.first()?;
        if !matches!(self.lines.get(body)?, model::Line::Vertical) {
            return None;
        }
        let mut terms = Vec::new();
        if ground {
            let told =
                self.story.clearances.iter().find(|c| c.ground && c.chapter == 0 && c.of.contains(&body));
            let told = told.cloned();
            match told {
                Some(c) => terms.push((1, self.height_told(&c.given))),
                // It began on the ground.
                None if self.story.bodies.get(body)?.grounded => {}
                None => return None,
            }
        }
        for c in 0..last {
            let sense = self.chapters.get(c)?.senses.get(body).copied().flatten()?;
            let d = self.whole(c, body)?.distance;
            terms.push((sense.into(), d));
        }
        if self.chapters.get(last)?.senses.get(body).copied().flatten()? != 1 {
            return None;
        }
        let j = self.leg(last, body, &Goal::Rest)?;
        self.short_of_pulley(last, body, &j);
        terms.push((1, j.distance));
        let stage = self.chapters.get(last)?.stage;
        let q = self.b.total(Kind::Distance, "H", "greatest height", &terms);
        Some((stage, Wanted::Quantity(q)))
    }

    /// The stage of the jerk: made once. With it the journeys of those that it sets going, and the number of the string.
    fn jerk(&mut self) -> Option<(StageId, Vec<Journey>, usize)> {
        if let Some(done) = &self.jerked {
            return Some(done.clone());
        }
        let last = self.chapters.len().checked_sub(1)?;
        let Some(Occurs::Lands { body: down, .. }) =
            self.story.events.get(last.checked_sub(1)?).map(|e| e.occurs.clone())
        else {
            return None;
        };
        let (down_id, stage) = (*self.bodies.get(down)?, self.chapters.get(last)?.stage);
        let situation = self.b.situation();
        let string = situation.link_ids().find(|l| {
            situation.link(*l).is_some_and(|l| l.ends.len() == 2 && l.ends.iter().any(|e| e.body == down_id))
        })?;
        let up_id = situation.link(string)?.ends.iter().map(|e| e.body).find(|b| *b != down_id)?;
        if situation.links.len() != 1 {
            return None;
        }
        let sense = self.chapters.get(last)?.senses.get(up_id.0).copied().flatten()?;
        let before = self.leg(last, up_id.0, &Goal::Back)?;
        let jerk = self.b.then(stage, Happening::Tightens(string), State::Jerk);
        let name = self.b.situation().body(up_id)?.name.clone();
        let u = self.b.total(
            Kind::Speed,
            "u",
            &format!("speed of {name} as the string tightens"),
            &[(-1, before.end_speed)],
        );
        self.b.heading(jerk, up_id, -sense);
        let rest = self.b.quantity(
            Kind::Speed,
            "u",
            &format!(
                "speed of {} before the string tightens",
                self.b.situation().body(down_id)?.name.clone()
            ),
        );
        self.b.know(rest, Value::zero());
        let one = self.b.journey_from(jerk, up_id, u, false)?;
        let two = self.b.journey_from(jerk, down_id, rest, false)?;
        let done = (jerk, vec![one, two], string.0);
        self.jerked = Some(done.clone());
        Some(done)
    }

    /// Kinetic energy before the jerk less that after it.
    fn energy_lost(&mut self) -> Option<(StageId, Wanted)> {
        let (stage, journeys, _) = self.jerk()?;
        let q = self.b.quantity(Kind::Energy, "E", "kinetic energy lost");
        let half = Value::one().checked_div(&Value::from_int(2)).ok()?;
        let mut terms = vec![(-Value::one(), vec![q])];
        for j in &journeys {
            let m = self.b.situation().body(j.body)?.mass;
            terms.push((half.clone(), vec![m, j.start_speed, j.start_speed]));
            terms.push((-half.clone(), vec![m, j.end_speed, j.end_speed]));
        }
        let name = "kinetic energy is lost: that before the jerk, less that after it".to_owned();
        self.b.situation_mut().relations.push(Relation { terms, name, span: None, from_part: 0 });
        Some((stage, Wanted::Quantity(q)))
    }
}

/// Is this something that a happening may change at once?
pub(super) fn passing(target: &Target) -> bool {
    matches!(
        target,
        Target::Acceleration { .. }
            | Target::Link(_)
            | Target::Contact { .. }
            | Target::Friction { .. }
            | Target::GreatestFriction { .. }
            | Target::PulleyForce(_)
            | Target::TensionOrThrust(_)
            | Target::WhichWay(_)
            | Target::AccelerationWay(_)
    )
}

fn goal_is_rest(moment: &Option<Moment>) -> bool {
    matches!(moment, Some(Moment::Rest(_)))
}
