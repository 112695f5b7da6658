//! Stages and questions of the situation: what is known of the motion, and what is asked.

use crate::assemble::{Assembly, Became, known};
use crate::parts::Part;
use crate::story::*;
use exact::Value;
use model::{
    Ask, Basis, BodyId, Claim, Claimed, Diagnostic, Grip, Journey, Kind, Known, Line, QuantityId, Refusal,
    Relation, Role, StageId, State, Wanted,
};

/// What is told of the motion in one state.
#[derive(Clone, Debug, Default)]
struct Motion {
    state: Option<(State, model::Span)>,
    acceleration: Option<(Vec<usize>, Given, bool, Option<Way>)>,
    heading: Option<(Vec<usize>, Way)>,
    slowing: bool,
    start: Option<Given>,
    end: Option<Given>,
    distance: Option<(Vec<usize>, Given)>,
    time: Option<Given>,
}

impl Motion {
    fn take(&mut self, of: &[usize], fact: &Fact, span: model::Span) -> Option<(Given, Given)> {
        fn put(slot: &mut Option<Given>, g: &Given) -> Option<(Given, Given)> {
            match slot {
                Some(old) if old.value != g.value && old.part == g.part => {
                    return Some((old.clone(), g.clone()));
                }
                _ => *slot = Some(g.clone()),
            }
            None
        }
        match fact {
            Fact::State(s) => {
                // The last word on it holds: at rest, then released.
                self.state = Some((*s, span));
            }
            Fact::Acceleration { given, slowing, way } => {
                if let Some((_, old, ..)) = &self.acceleration
                    && old.value != given.value
                    && old.part == given.part
                {
                    return Some((old.clone(), given.clone()));
                }
                self.acceleration = Some((of.to_vec(), given.clone(), *slowing, *way));
            }
            Fact::Heading(way) => {
                if self.heading.is_none() {
                    self.heading = Some((of.to_vec(), *way));
                }
            }
            Fact::Slowing => self.slowing = true,
            Fact::Speeding | Fact::Accelerates(_) => {}
            Fact::StartSpeed(g) => return put(&mut self.start, g),
            Fact::EndSpeed(g) => return put(&mut self.end, g),
            Fact::Distance(g) => {
                if let Some((_, old)) = &self.distance
                    && old.value != g.value
                    && old.part == g.part
                {
                    return Some((old.clone(), g.clone()));
                }
                self.distance = Some((of.to_vec(), g.clone()));
            }
            Fact::Time(g) => return put(&mut self.time, g),
        }
        None
    }
}

/// Does this fact make a state of its own, rather than a journey within one?
fn makes_state(fact: &Fact) -> bool {
    matches!(fact, Fact::State(State::AtRest | State::Steady | State::Limiting) | Fact::Acceleration { .. })
}

impl Assembly<'_> {
    /// Stages, then questions.
    pub(crate) fn questions(&mut self, parts: &[Part]) {
        let story = self.story;
        let mut made: Vec<(String, StageId, Motion)> = Vec::new();
        let mut last_part_with_state: Option<usize> = None;
        for ask in &story.asks {
            // Statements in this part and before it; a later state replaces an earlier one.
            let own: Vec<&MotionTold> =
                story.motions.iter().filter(|m| m.part == ask.part && ask.part > 0).collect();
            if own.iter().any(|m| makes_state(&m.fact)) {
                last_part_with_state = Some(ask.part);
            }
            let mut motion = Motion::default();
            for m in story.motions.iter().filter(|m| {
                m.part == 0
                    || m.part == ask.part
                    || Some(m.part) == last_part_with_state && m.part < ask.part
                    || (m.part < ask.part && !makes_state(&m.fact))
            }) {
                if let Some((old, new)) = motion.take(&m.of, &m.fact, m.span) {
                    self.clash(&old, &new);
                }
            }
            if let (Some((State::Steady | State::AtRest | State::Limiting, span)), Some((_, given, ..))) =
                (motion.state, &motion.acceleration)
                && !given.value.is_zero()
            {
                let d = Diagnostic::refuse(
                    Refusal::Contradictory,
                    format!(
                        "an acceleration of {} does not go with what is said of the motion",
                        given.written
                    ),
                )
                .at(span)
                .at(given.span)
                .hint("say at which moment each of them holds, or keep one");
                if !self.diagnostics.contains(&d) {
                    self.diagnostics.push(d);
                }
            }
            let mut key_facts = motion.clone();
            if ask.facts.iter().any(makes_state) {
                // The state asked about takes the place of the one told before.
                key_facts.acceleration = None;
                key_facts.slowing = false;
                key_facts.state = None;
            }
            for fact in ask.facts.iter().filter(|f| makes_state(f) || matches!(f, Fact::Slowing)) {
                key_facts.take(&[], fact, ask.span);
            }
            if ask.facts.iter().any(makes_state) {
                // The direction that goes with it.
                for fact in &ask.facts {
                    if let Fact::Heading(_) = fact {
                        key_facts.heading = None;
                        key_facts.take(&[], fact, ask.span);
                    }
                }
            }
            if matches!(ask.target, Target::WhetherMoves)
                && key_facts.state.is_some_and(|s| s.0 == State::AtRest)
            {
                key_facts.state = motion.state;
            }
            let key = format!(
                "{:?}|{:?}|{:?}",
                key_facts.state.map(|s| s.0),
                key_facts.acceleration.as_ref().map(|a| (a.1.value.to_string(), a.2, a.3)),
                if ask.facts.iter().any(makes_state) {
                    key_facts.heading.as_ref().map(|h| h.1)
                } else {
                    None
                }
            );
            let stage = match made.iter().find(|(k, ..)| *k == key) {
                Some((_, id, _)) => *id,
                None => {
                    self.asked_anew =
                        if let Target::Force(f) = ask.target { Some((f, ask.part)) } else { None };
                    let replaced = ask.facts.iter().any(makes_state)
                        && (motion.state.is_some() || motion.acceleration.is_some());
                    self.values_from = if replaced { ask.part } else { 0 };
                    let id = self.stage(&key_facts);
                    self.asked_anew = None;
                    made.push((key, id, key_facts.clone()));
                    id
                }
            };
            self.claims(ask, stage);
            self.question(ask, stage, &key_facts, parts);
        }
        if made.is_empty() {
            let mut motion = Motion::default();
            for m in &story.motions {
                motion.take(&m.of, &m.fact, m.span);
            }
            self.stage(&motion);
        }
        self.relations();
    }

    /// What is said of the motion, for the solution to agree with.
    fn claims(&mut self, ask: &AskTold, stage: StageId) {
        let story = self.story;
        let all: Vec<usize> = (0..story.bodies.len()).collect();
        let own_state = ask.facts.iter().any(makes_state)
            || story.motions.iter().any(|m| m.part == ask.part && m.part > 0 && makes_state(&m.fact));
        let told = story
            .motions
            .iter()
            .filter(|m| (m.part == 0 && !own_state) || m.part == ask.part)
            .map(|m| (&m.of, &m.fact, m.span));
        let passing = story.claims.iter().filter(|c| c.2 == 0 || c.2 == ask.part).map(|c| (&c.0, &c.1, c.3));
        let about = match &ask.target {
            Target::Speed { of, .. } | Target::Distance { of } | Target::Acceleration { of, .. }
                if of.len() == 1 =>
            {
                of.clone()
            }
            _ => ask.of.clone(),
        };
        let own = ask.facts.iter().map(|f| (&about, f, ask.span));
        let list: Vec<(Vec<usize>, Fact, model::Span)> =
            told.chain(passing).chain(own).map(|(of, f, s)| (of.clone(), f.clone(), s)).collect();
        for (of, fact, span) in list {
            let of = if of.is_empty() { &all } else { &of };
            let says = match fact {
                Fact::Heading(way) => of.iter().find_map(|&b| Some((b, Claimed::Heads(self.sense(way, b)?)))),
                Fact::Accelerates(way) => {
                    of.iter().find_map(|&b| Some((b, Claimed::Accelerates(self.sense(way, b)?))))
                }
                Fact::Speeding => of.first().map(|&b| (b, Claimed::SpeedsUp)),
                Fact::Slowing => of.first().map(|&b| (b, Claimed::SlowsDown)),
                _ => None,
            };
            if says.is_none()
                && let Fact::Heading(_) = fact
            {
                let d = Diagnostic::refuse(
                    Refusal::Unread,
                    "this direction does not lie along the motion of any body",
                )
                .at(span)
                .hint("say up or down the slope, upwards or downwards, or forwards");
                if !self.diagnostics.contains(&d) {
                    self.diagnostics.push(d);
                }
            }
            let Some((b, says)) = says else { continue };
            let Some(&body) = self.bodies.get(b) else { continue };
            let claim = Claim { stage, body, says, span };
            let known = self
                .b
                .situation()
                .claims
                .iter()
                .any(|c| c.stage == stage && c.body == body && c.says == says);
            if !known {
                self.b.situation_mut().claims.push(claim);
            }
        }
    }

    fn clash(&mut self, old: &Given, new: &Given) {
        let d = Diagnostic::refuse(
            Refusal::Contradictory,
            format!("two values are given for one thing: {} and {}", old.written, new.written),
        )
        .at(old.span)
        .at(new.span)
        .hint("say at which moment each of them holds, or keep one");
        if !self.diagnostics.iter().any(|x| x.spans == d.spans) {
            self.diagnostics.push(d);
        }
    }

    /// The sense of a way on a body's own line.
    fn sense(&self, way: Way, body: usize) -> Option<i8> {
        let line = self.lines.get(body)?;
        Some(match (way, line) {
            (Way::Up, Line::Vertical | Line::Slope { .. }) | (Way::UpSlope, Line::Slope { .. }) => 1,
            (Way::Down, Line::Vertical | Line::Slope { .. }) | (Way::DownSlope, Line::Slope { .. }) => -1,
            (Way::Forward, Line::Level) => 1,
            (Way::Backward, Line::Level) => -1,
            (Way::ToPulley, _) => {
                let id = self.bodies.get(body)?;
                let situation = self.b.situation();
                situation
                    .links
                    .iter()
                    .filter(|l| !l.pulleys.is_empty())
                    .flat_map(|l| &l.ends)
                    .find(|e| e.body == *id)
                    .map(|e| e.sense)?
            }
            (Way::AwayFrom(_), _) => 1,
            (Way::Towards(_), _) => -1,
            _ => return None,
        })
    }

    /// Which way things move, as (body, sense), where it is told or plain.
    fn heading(&self, motion: &Motion) -> Option<(usize, i8)> {
        if let Some((of, way)) = &motion.heading {
            let all: Vec<usize> = (0..self.story.bodies.len()).collect();
            let of = if of.is_empty() { &all } else { of };
            for &b in of {
                if let Some(sense) = self.sense(*way, b) {
                    return Some((b, sense));
                }
            }
        }
        // Driven or braked on level ground: forwards. On a slope: the way the driving force acts.
        let story = self.story;
        let driven =
            story.forces.iter().find(|f| matches!(f.role, Role::Driving | Role::Braking) && f.on.is_some());
        if let Some(f) = driven {
            let b = f.on?;
            return match self.lines.get(b)? {
                Line::Level => Some((b, 1)),
                _ if f.role == Role::Driving => Some((b, 1)),
                _ => None,
            };
        }
        // Two hanging bodies: the heavier goes down.
        let situation = self.b.situation();
        for link in situation.links.iter().filter(|l| !l.pulleys.is_empty()) {
            let hanging =
                link.ends.iter().all(|e| situation.body(e.body).is_some_and(|b| b.line == Line::Vertical));
            for (n, end) in link.ends.iter().enumerate().filter(|_| hanging && link.ends.len() == 2) {
                let other = link.ends.get(1 - n.min(1)).map(|e| e.body.0);
                let heavier = story.bodies.get(end.body.0).and_then(|b| b.heavier);
                let unknown = [Some(end.body.0), other].into_iter().flatten().any(|b| {
                    story
                        .bodies
                        .get(b)
                        .is_none_or(|b| b.mass.as_ref().is_none_or(|m| m.value.as_rational().is_none()))
                });
                if let (Some(heavier), true) = (heavier, unknown) {
                    return Some((end.body.0, if heavier { -1 } else { 1 }));
                }
            }
        }
        // A train on level ground without friction laws moves forwards.
        let level = self.lines.iter().all(|l| matches!(l, Line::Level));
        let rough = self.coefficients.is_empty();
        if level && rough && !story.tows.is_empty() {
            return Some((0, 1));
        }
        None
    }

    fn stage(&mut self, motion: &Motion) -> StageId {
        let heading = self.heading(motion);
        let moving = motion.start.as_ref().is_some_and(|g| !g.value.is_zero());
        let free = self.lines.iter().all(|l| matches!(l, Line::Level)) && self.story.pulleys.is_empty();
        let heading = heading.or(if moving && free { Some((0, 1)) } else { None });
        if moving && heading.is_none() && motion.acceleration.is_none() {
            let span = motion.start.as_ref().map(|g| g.span).unwrap_or_default();
            let d =
                Diagnostic::refuse(Refusal::Incomplete, "it is not said which way it moves at this speed")
                    .at(span)
                    .hint("say upwards or downwards, up or down the slope, towards the pulley");
            if !self.diagnostics.contains(&d) {
                self.diagnostics.push(d);
            }
        }
        let state = match (&motion.acceleration, motion.state) {
            (None, Some((State::Released, _)) | None) if moving => State::Moving,
            (Some(_), _) => State::Moving,
            (None, Some((s, _))) => s,
            (None, None) if heading.is_some() => State::Moving,
            (None, None) => State::Released,
        };
        let id = self.b.stage(state);
        if let Some((b, sense)) = heading
            && let Some(&body) = self.bodies.get(b)
            && state != State::AtRest
        {
            self.b.heading(id, body, sense);
        }
        if let Some((_, span)) = motion.state
            && let Some(stage) = self.b.situation_mut().stages.get_mut(id.0)
        {
            stage.span = Some(span);
        }
        self.driven(motion);
        self.sizes(id);
        self.accelerations(id, motion, heading);
        self.values(id);
        id
    }

    /// On level ground something must drive, pull or brake the bodies, or the motion be told.
    fn driven(&mut self, motion: &Motion) {
        let level = self.lines.iter().all(|l| matches!(l, Line::Level));
        let acts = self.b.situation().actions.iter().any(|a| a.role != Role::Resistance);
        let told = motion.acceleration.is_some()
            || motion.slowing
            || motion.state.is_some_and(|s| s.0 != State::Released)
            || motion.end.is_some()
            || motion.distance.is_some()
            || motion.time.is_some()
            || self.story.engine_off;
        let moving = motion.start.as_ref().is_some_and(|g| !g.value.is_zero());
        if level && !acts && !told && !moving {
            let span = self.story.bodies.first().map(|b| b.span).unwrap_or_default();
            let d = Diagnostic::refuse(Refusal::Incomplete, "no force that drives the bodies is given")
                .at(span)
                .hint("add, for example: the driving force is 3000 N");
            if !self.diagnostics.contains(&d) {
                self.diagnostics.push(d);
            }
        }
    }

    /// Sizes of named forces.
    fn sizes(&mut self, id: StageId) {
        let story = self.story;
        let forces: Vec<QuantityId> =
            self.b.situation().stage(id).map(|s| s.forces.clone()).unwrap_or_default();
        for (n, f) in story.forces.iter().enumerate() {
            let Some(q) = self.forces.get(n).copied().flatten().and_then(|a| forces.get(a.0).copied()) else {
                continue;
            };
            let kind = if f.role == Role::Resistance { Kind::Resistance } else { Kind::Force };
            // A size given in an earlier part does not hold where this force is asked for in a new state.
            let anew = self.asked_anew.is_some_and(|(force, part)| {
                force == n && f.size.as_ref().is_some_and(|g| g.part > 0 && g.part < part)
            });
            if let Some(g) = f.size.as_ref().filter(|_| !anew) {
                self.give(q, g, kind);
            } else if let Some(l) = &f.letter {
                self.b.letter(q, l);
                self.letters.entry(l.clone()).or_insert(q);
            }
        }
        for (a, g) in self.extra_friction.clone() {
            if let Some(&q) = forces.get(a.0) {
                self.give(q, &g, Kind::Resistance);
            }
        }
        for (b, g) in &story.frictions {
            let q = self.b.situation().stage(id).and_then(|s| s.frictions.get(*b).copied().flatten());
            if let Some(q) = q {
                self.b.know_as(q, known(g));
            }
        }
        if let Some(per) = &story.per_mass {
            for (i, a) in self.shared.clone() {
                let Some(&q) = forces.get(a.0) else { continue };
                let mass = story.bodies.get(i).and_then(|b| b.mass.as_ref());
                if let Some(m) = mass {
                    let value = &per.value * &m.value;
                    self.b.know_as(
                        q,
                        Known {
                            value,
                            written: format!("{} per kilogram", per.written),
                            basis: Basis::Given(per.span),
                            from_part: per.part,
                        },
                    );
                }
            }
        }
    }

    fn accelerations(&mut self, id: StageId, motion: &Motion, heading: Option<(usize, i8)>) {
        let Some((of, given, slowing, way)) = &motion.acceleration else { return };
        let all: Vec<usize> = (0..self.story.bodies.len()).collect();
        let of = if of.is_empty() { &all } else { of };
        let Some(&first) = of.first() else { return };
        let slows = *slowing || motion.slowing;
        // On which body, and which way.
        let told = way.and_then(|w| of.iter().find_map(|&b| Some((b, self.sense(w, b)?))));
        let chosen = match (told, heading) {
            (Some((b, s)), _) => Some((b, if slows && way.is_none() { -s } else { s })),
            (None, Some((b, s))) => Some((b, if slows { -s } else { s })),
            (None, None) => self.plain_way(first).map(|s| (first, if slows { -s } else { s })),
        };
        let Some((body, sense)) = chosen else {
            let d = Diagnostic::refuse(Refusal::Incomplete, "it is not said which way the acceleration is")
                .at(given.span)
                .hint("say upwards or downwards, up or down the slope");
            self.diagnostics.push(d);
            return;
        };
        if let Some(q) = self.b.situation().stage(id).and_then(|s| s.accelerations.get(body).copied()) {
            let mut k = known(given);
            if sense < 0 {
                k.value = -k.value;
            }
            self.b.know_as(q, k);
        }
        if heading.is_none()
            && !slows
            && let Some(&b) = self.bodies.get(body)
        {
            self.b.heading(id, b, sense);
        }
    }

    /// The way that goes without saying: forwards on the level, towards the pulley off a table.
    fn plain_way(&self, body: usize) -> Option<i8> {
        match self.lines.get(body)? {
            Line::Level => Some(1),
            Line::Vertical | Line::Slope { .. } => {
                // The other end lies on a table: this one goes down.
                let id = self.bodies.get(body)?;
                let situation = self.b.situation();
                let link = situation
                    .links
                    .iter()
                    .find(|l| !l.pulleys.is_empty() && l.ends.iter().any(|e| e.body == *id))?;
                let other = link.ends.iter().find(|e| e.body != *id)?;
                if matches!(situation.body(other.body)?.line, Line::Level) {
                    return Some(-1);
                }
                // The heavier of two goes down.
                let told = self.story.bodies.get(body)?;
                let heavier =
                    told.heavier.or_else(|| self.story.bodies.get(other.body.0)?.heavier.map(|h| !h))?;
                if matches!(situation.body(other.body)?.line, Line::Vertical)
                    && matches!(self.lines.get(body)?, Line::Vertical)
                {
                    return Some(if heavier { -1 } else { 1 });
                }
                None
            }
        }
    }

    /// Tensions and pushes given by value.
    fn values(&mut self, id: StageId) {
        for v in &self.story.values {
            // A tension told in one state does not hold in another.
            if v.given.part < self.values_from {
                continue;
            }
            let q = match &v.what {
                Target::Link(l) => l.first().and_then(|&l| self.link_quantity(l, id)),
                Target::Contact { on, by } => self.contact_quantity(on, *by, id),
                Target::Friction { on } => on
                    .first()
                    .and_then(|&b| self.b.situation().stage(id)?.frictions.get(b).copied().flatten()),
                _ => None,
            };
            match q {
                Some(q) => self.give(q, &v.given, Kind::Tension),
                None => {
                    let d = Diagnostic::refuse(
                        Refusal::Unread,
                        "it is not clear which force this value belongs to",
                    )
                    .at(v.given.span)
                    .hint("name the force: the tension in the string is 24 N");
                    if !self.diagnostics.contains(&d) {
                        self.diagnostics.push(d);
                    }
                }
            }
        }
    }

    fn link_quantity(&self, l: usize, stage: StageId) -> Option<QuantityId> {
        let s = self.b.situation().stage(stage)?;
        match self.links.get(l)? {
            Became::Link(id) => s.links.get(id.0).copied(),
            Became::Cable(a) => s.forces.get(a.0).copied(),
            Became::Nothing => {
                // A rope that passes on a named pull.
                let end = *self.story.links.get(l)?.ends.first()?;
                let f =
                    self.story.forces.iter().position(|f| f.role == Role::Applied && f.on == Some(end))?;
                s.forces.get(self.forces.get(f).copied().flatten()?.0).copied()
            }
        }
    }

    fn contact_quantity(&self, on: &[usize], by: Option<By>, stage: StageId) -> Option<QuantityId> {
        let situation = self.b.situation();
        let s = situation.stage(stage)?;
        let contacts: Vec<usize> =
            situation.links.iter().enumerate().filter(|(_, l)| l.is_contact).map(|(i, _)| i).collect();
        let involved =
            |l: usize, b: BodyId| situation.links.get(l).is_some_and(|l| l.ends.iter().any(|e| e.body == b));
        let carried = |l: usize, b: BodyId| {
            situation.links.get(l).is_some_and(|l| l.ends.first().is_some_and(|e| e.body == b))
        };
        if let Some(&b) = on.first() {
            let id = *self.bodies.get(b)?;
            let found = match by {
                Some(By::Body(c)) => {
                    let c = *self.bodies.get(c)?;
                    contacts.iter().copied().find(|&l| involved(l, id) && involved(l, c))
                }
                Some(By::Floor) => contacts.iter().copied().find(|&l| carried(l, id)),
                Some(By::Surface) => None,
                None => contacts
                    .iter()
                    .copied()
                    .find(|&l| carried(l, id))
                    .or_else(|| contacts.iter().copied().find(|&l| involved(l, id))),
            };
            if let Some(l) = found {
                return s.links.get(l).copied();
            }
            if let Some(By::Body(c)) = by {
                // Through what joins them: the pull of the engine on the first truck.
                let c = *self.bodies.get(c)?;
                let l = situation.links.iter().position(|l| {
                    l.ends.iter().any(|e| e.body == id) && l.ends.iter().any(|e| e.body == c)
                })?;
                return s.links.get(l).copied();
            }
            // A person pressed by the lift: "the lift pushes on the person" names the lift itself.
            if let Some(r) = s.reactions.get(id.0).copied().flatten() {
                return Some(r);
            }
            return contacts.iter().copied().find(|&l| carried(l, id)).and_then(|l| s.links.get(l).copied());
        }
        if let [one] = contacts.as_slice() {
            return s.links.get(*one).copied();
        }
        let standing: Vec<QuantityId> = s.reactions.iter().copied().flatten().collect();
        match standing.as_slice() {
            [one] if contacts.is_empty() => Some(*one),
            _ => None,
        }
    }

    // ---------------------------------------------------------------- questions

    fn journey(&mut self, ask: &AskTold, stage: StageId, motion: &Motion, of: &[usize]) -> Option<Journey> {
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
            if let Some(j) = last.filter(|_| ask.same_journey) {
                return Some(j);
            }
            let base = self.base_journey(stage, motion, body)?;
            return Some(base);
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
    fn base_journey(&mut self, stage: StageId, motion: &Motion, body: usize) -> Option<Journey> {
        if let Some(j) = self.b.situation().stage(stage)?.journeys.first().cloned() {
            return Some(j);
        }
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

    fn question(&mut self, ask: &AskTold, stage: StageId, motion: &Motion, parts: &[Part]) {
        // A journey told in statements is there even if no question names it: accelerations may hang on it.
        let told =
            [motion.end.is_some(), motion.distance.is_some(), motion.time.is_some(), motion.start.is_some()]
                .iter()
                .filter(|x| **x)
                .count();
        if told >= 2 && (motion.end.is_some() || motion.distance.is_some() || motion.time.is_some()) {
            self.base_journey(stage, motion, 0);
        }
        if let (Some(end), true) = (&motion.end, told < 2) {
            let d = Diagnostic::refuse(Refusal::Unread, "it is not clear how this speed comes about")
                .at(end.span)
                .hint("give the speed at the start, a distance or a time with it");
            if !self.diagnostics.contains(&d) {
                self.diagnostics.push(d);
            }
        }
        for wanted in self.wanted(ask, stage, motion) {
            let (phrase, wanted) = wanted;
            let part = parts.get(ask.part);
            self.b.situation_mut().asks.push(Ask {
                part: part.map(|p| p.label.clone()).unwrap_or_default(),
                part_index: ask.part,
                phrase,
                wanted,
                show: ask.show.clone(),
                accuracy: ask.accuracy.or(self.story.accuracy),
                stage,
                span: ask.span,
                marks: part.and_then(|p| p.marks),
            });
        }
    }

    fn cannot(&mut self, ask: &AskTold, kind: Refusal, message: &str, hint: &str) -> Vec<(String, Wanted)> {
        self.diagnostics
            .push(Diagnostic::refuse(kind, message.to_owned()).at(ask.span).hint(hint.to_owned()));
        Vec::new()
    }

    fn wanted(&mut self, ask: &AskTold, stage: StageId, motion: &Motion) -> Vec<(String, Wanted)> {
        let phrase = ask.phrase.clone();
        let one = |q: Option<QuantityId>| q.map(|q| vec![(phrase.clone(), Wanted::Quantity(q))]);
        let unclear = "it is not clear what is asked here";
        let name_it = "name the body or the string that you mean";
        let found: Option<Vec<(String, Wanted)>> = match &ask.target {
            Target::Mass(of) => Some(
                of.iter()
                    .filter_map(|&b| {
                        Some((
                            if of.len() > 1 { format!("mass of {}", self.name(b)) } else { phrase.clone() },
                            Wanted::Quantity(self.b.situation().body(*self.bodies.get(b)?)?.mass),
                        ))
                    })
                    .collect(),
            ),
            Target::Acceleration { of, slowing, .. } => {
                let b = of.first().copied().unwrap_or(0);
                let id = self.bodies.get(b).copied();
                match (id, slowing) {
                    (Some(id), true) => Some(vec![(phrase.clone(), Wanted::Deceleration(id))]),
                    (Some(id), false) => {
                        let q =
                            self.b.situation().stage(stage).and_then(|s| s.accelerations.get(id.0).copied());
                        let size = phrase.starts_with("magnitude") || phrase.starts_with("size");
                        q.map(|q| {
                            vec![(
                                phrase.clone(),
                                if size { Wanted::Magnitude(q) } else { Wanted::Quantity(q) },
                            )]
                        })
                    }
                    _ => None,
                }
            }
            Target::Link(links) => {
                let mut ids = links.clone();
                if ids.is_empty() {
                    ids = (0..self.links.len())
                        .filter(|&l| self.links.get(l) != Some(&Became::Nothing))
                        .collect();
                    let plural = phrase.contains("tensions") || phrase.contains("each");
                    if ids.len() > 1 && !plural {
                        return self.cannot(
                            ask,
                            Refusal::Unread,
                            "there are several strings or bars, and it is not said which one is meant",
                            "say, for example: the tension in the string joining A and B",
                        );
                    }
                    if ids.is_empty() && !self.b.situation().links.is_empty() {
                        return one(self.b.situation().stage(stage).and_then(|s| s.links.first().copied()))
                            .unwrap_or_default();
                    }
                } else if ids.len() > 1
                    && !(phrase.contains("tensions")
                        || phrase.contains("each")
                        || phrase.contains("strings")
                        || phrase.contains("couplings")
                        || phrase.contains("ropes")
                        || phrase.contains("tow-bars")
                        || phrase.contains("both"))
                {
                    return self.cannot(
                        ask,
                        Refusal::Unread,
                        "there are several strings or bars, and it is not said which one is meant",
                        "say, for example: the tension in the string joining A and B",
                    );
                }
                let several = ids.len() > 1;
                let mut out = Vec::new();
                for l in ids {
                    if let Some(q) = self.link_quantity(l, stage) {
                        let name = self.b.situation().quantity(q).map(|q| q.name.clone()).unwrap_or_default();
                        out.push((if several { name } else { phrase.clone() }, Wanted::Quantity(q)));
                    }
                }
                (!out.is_empty()).then_some(out)
            }
            Target::Contact { on, by } => one(self.contact_quantity(on, *by, stage)),
            Target::Friction { on } => {
                if on.len() > 1 {
                    let s = self.b.situation().stage(stage);
                    return on
                        .iter()
                        .filter_map(|&b| {
                            Some((
                                format!("friction on {}", self.name(b)),
                                Wanted::Quantity(s?.frictions.get(b).copied().flatten()?),
                            ))
                        })
                        .collect();
                }
                let s = self.b.situation().stage(stage);
                let all: Vec<QuantityId> =
                    s.map(|s| s.frictions.iter().copied().flatten().collect()).unwrap_or_default();
                let q = match on.first() {
                    Some(&b) => s.and_then(|s| s.frictions.get(b).copied().flatten()),
                    None => match all.as_slice() {
                        [one] => Some(*one),
                        _ => None,
                    },
                };
                one(q)
            }
            Target::GreatestFriction { on } => {
                let rough: Vec<usize> = (0..self.bodies.len()).filter(|&b| self.grip(b).is_some()).collect();
                let b = on.iter().copied().find(|b| rough.contains(b)).or(if rough.len() == 1 {
                    rough.first().copied()
                } else {
                    None
                });
                b.and_then(|b| {
                    let mu = self.grip(b)?;
                    let r = self.b.situation().stage(stage)?.reactions.get(b).copied().flatten()?;
                    let q = self.b.quantity(Kind::Friction, "F_max", "greatest friction");
                    self.b.letter(q, "F_max");
                    self.b.situation_mut().relations.push(Relation {
                        terms: vec![(Value::one(), vec![q]), (-Value::one(), vec![mu, r])],
                        name: "friction is at most μR".to_owned(),
                        span: Some(ask.span),
                        from_part: ask.part,
                    });
                    one(Some(q))
                })
            }
            Target::Coefficient { of } => {
                let b = of
                    .iter()
                    .copied()
                    .find(|&b| self.grip(b).is_some())
                    .or_else(|| (0..self.bodies.len()).find(|&b| self.grip(b).is_some()));
                one(b.and_then(|b| self.grip(b)))
            }
            Target::Force(f) => one(self
                .forces
                .get(*f)
                .copied()
                .flatten()
                .and_then(|a| self.b.situation().stage(stage)?.forces.get(a.0).copied())),
            Target::Resistance(of) => {
                let mut out = Vec::new();
                let of: Vec<usize> =
                    if of.is_empty() { (0..self.bodies.len()).collect() } else { of.clone() };
                for &b in &of {
                    let q = self
                        .story
                        .forces
                        .iter()
                        .position(|f| f.role == Role::Resistance && f.on == Some(b))
                        .and_then(|f| self.forces.get(f).copied().flatten())
                        .or_else(|| self.shared.iter().find(|(i, _)| *i == b).map(|(_, a)| *a))
                        .and_then(|a| self.b.situation().stage(stage)?.forces.get(a.0).copied());
                    if let Some(q) = q {
                        out.push((
                            if of.len() > 1 {
                                format!("resistance on {}", self.name(b))
                            } else {
                                phrase.clone()
                            },
                            Wanted::Quantity(q),
                        ));
                    }
                }
                (!out.is_empty()).then_some(out)
            }
            Target::TotalResistance => one(Some(self.total_quantity())),
            Target::PulleyForce(p) => {
                let count = self.b.situation().pulleys.len();
                match p.or(if count == 1 { Some(0) } else { None }) {
                    Some(p) if p < count => {
                        Some(vec![(phrase.clone(), Wanted::PulleyForce(model::PulleyId(p)))])
                    }
                    _ => None,
                }
            }
            Target::Speed { of, start } => {
                let j = self.journey(ask, stage, motion, of);
                one(j.map(|j| if *start { j.start_speed } else { j.end_speed }))
            }
            Target::Distance { of } => {
                let j = self.journey(ask, stage, motion, of);
                one(j.map(|j| j.distance))
            }
            Target::Time => {
                let j = self.journey(ask, stage, motion, &[]);
                one(j.map(|j| j.time))
            }
            Target::Letter(l) => one(self.letters.get(l).copied().or_else(|| self.lettered(l, stage))),
            Target::Statement(t) => Some(vec![(phrase.clone(), Wanted::Statement(*t))]),
            Target::AccelerationWay(of) => self
                .bodies
                .get(of.first().copied().unwrap_or(0))
                .map(|&b| vec![(phrase.clone(), Wanted::AccelerationWay(b))]),
            Target::WhichWay(of) => self
                .bodies
                .get(of.first().copied().unwrap_or(0))
                .map(|&b| vec![(phrase.clone(), Wanted::WhichWay(b))]),
            Target::WhetherMoves => Some(vec![(phrase.clone(), Wanted::WhetherItMoves)]),
            Target::TensionOrThrust(l) => {
                let l = l.first().copied().or(if self.links.len() == 1 { Some(0) } else { None });
                match l.and_then(|l| self.links.get(l)) {
                    Some(Became::Link(id)) => Some(vec![(phrase.clone(), Wanted::TensionOrThrust(*id))]),
                    _ => None,
                }
            }
        };
        if let (Some([(_, Wanted::Quantity(q) | Wanted::Magnitude(q))]), None) = (found.as_deref(), &ask.show)
        {
            let given = self.b.situation().quantity(*q).is_some_and(|q| {
                matches!(q.kind, Kind::Mass | Kind::Force | Kind::Coefficient | Kind::Tension)
                    && q.known.as_ref().is_some_and(|k| {
                        k.value.as_rational().is_some()
                            && k.from_part <= ask.part
                            && matches!(k.basis, Basis::Given(_))
                    })
            });
            if given {
                return self.cannot(
                    ask,
                    Refusal::Unread,
                    "this is given already; it is not clear what is asked",
                    "name the body or the force that you mean",
                );
            }
        }
        match found {
            Some(list) if !list.is_empty() => list,
            _ => self.cannot(ask, Refusal::Unread, unclear, name_it),
        }
    }

    /// A quantity that the question calls by this letter, in this stage.
    fn lettered(&self, letter: &str, stage: StageId) -> Option<QuantityId> {
        let s = self.b.situation();
        let st = s.stage(stage)?;
        let base = |q: &QuantityId| s.quantity(*q).is_some_and(|q| q.letter == letter);
        if letter == "a" {
            return st.accelerations.first().copied();
        }
        st.links.iter().chain(&st.forces).find(|q| base(q)).copied()
    }

    /// The coefficient of friction of a body.
    fn grip(&self, body: usize) -> Option<QuantityId> {
        let b = self.b.situation().body(*self.bodies.get(body)?)?;
        match b.surface.as_ref()?.grip {
            Grip::Rough(q) => Some(q),
            _ => None,
        }
    }

    fn total_quantity(&mut self) -> QuantityId {
        match self.total {
            Some(q) => q,
            None => {
                let q = self.b.quantity(Kind::Resistance, "X", "total resistance");
                self.total = Some(q);
                q
            }
        }
    }

    /// Facts that tie quantities together: the total of the resistances, shares of it.
    fn relations(&mut self) {
        let story = self.story;
        if self.total.is_none() && story.total_resistance.is_none() {
            return;
        }
        let total = self.total_quantity();
        if let Some(g) = &story.total_resistance {
            self.b.know_as(total, known(g));
        }
        let mut actions: Vec<(usize, model::ActionId)> = story
            .forces
            .iter()
            .enumerate()
            .filter(|(_, f)| f.role == Role::Resistance)
            .filter_map(|(n, f)| Some((f.on?, self.forces.get(n).copied().flatten()?)))
            .collect();
        actions.extend(self.shared.iter().copied());
        for stage in self.b.situation().stage_ids().collect::<Vec<_>>() {
            let forces = self.b.situation().stage(stage).map(|s| s.forces.clone()).unwrap_or_default();
            let mut terms = vec![(Value::one(), vec![total])];
            for (_, a) in &actions {
                if let Some(q) = forces.get(a.0) {
                    terms.push((-Value::one(), vec![*q]));
                }
            }
            self.b.situation_mut().relations.push(Relation {
                terms,
                name: "the resistances add up to the total".to_owned(),
                span: None,
                from_part: 0,
            });
            for (b, share) in &story.shares {
                let of = self.name(*b);
                let Some(q) = actions.iter().find(|(i, _)| i == b).and_then(|(_, a)| forces.get(a.0)) else {
                    continue;
                };
                self.b.situation_mut().relations.push(Relation {
                    terms: vec![(Value::one(), vec![*q]), (-share.value.clone(), vec![total])],
                    name: format!("{} of the total resistance acts on {of}", share.written),
                    span: Some(share.span),
                    from_part: share.part,
                });
            }
        }
    }
}
