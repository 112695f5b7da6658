//! States and questions: which facts hold together, and in which state each question is asked.

mod chapters;
mod journeys;
mod legs;
mod measure;
mod relations;
mod state;
mod wanted;
mod ways;

pub(crate) use chapters::Chapter;

use crate::assemble::{Assembly, Became};
use crate::parts::Part;
use crate::story::{AskTold, Fact, Given, MotionTold, Target, Truth, Way};
use model::{Claim, Claimed, Diagnostic, Refusal, Span, StageId, State};

/// What is told of the motion in one state.
#[derive(Clone, Debug, Default)]
pub(crate) struct Motion {
    state: Option<(State, Span)>,
    acceleration: Option<(Vec<usize>, Given, bool, Option<Way>)>,
    heading: Option<(Vec<usize>, Way)>,
    slowing: bool,
    start: Option<Given>,
    end: Option<Given>,
    distance: Option<(Vec<usize>, Given)>,
    time: Option<Given>,
    /// Loads that are said not to slip on what carries them.
    pub(crate) sticks: Vec<usize>,
    /// Loads whose friction on what carries them is at its limit.
    pub(crate) about_to_slip: Vec<usize>,
}

impl Motion {
    pub(crate) fn take(&mut self, of: &[usize], fact: &Fact, span: Span) -> Option<(Given, Given)> {
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
            Fact::Sticks(loads) => self.sticks.extend(loads),
            Fact::AboutToSlip(loads) => self.about_to_slip.clone_from(loads),
        }
        None
    }
}

/// Does this fact make a state of its own, rather than a journey within one?
fn makes_state(fact: &Fact) -> bool {
    matches!(
        fact,
        Fact::State(State::AtRest | State::Steady | State::Limiting)
            | Fact::Acceleration { .. }
            | Fact::AboutToSlip(_)
    )
}

impl Assembly<'_> {
    /// Stages, then questions.
    pub(crate) fn questions(&mut self, parts: &[Part]) {
        let story = self.story;
        if !story.events.is_empty() {
            return self.tale(parts);
        }
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
                // The way told before, in the stem or in another part, does not hold where this part tells its own.
                let other = m.part < ask.part && matches!(m.fact, Fact::Heading(_));
                let elsewhere = m.part > 0 && m.part != ask.part;
                if elsewhere && matches!(m.fact, Fact::Sticks(_)) {
                    continue;
                }
                if other && own.iter().any(|m| matches!(m.fact, Fact::Heading(_))) {
                    continue;
                }
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
                self.refuse_once(d);
            }
            let mut key_facts = motion.clone();
            if ask.facts.iter().any(makes_state) {
                // The state asked about takes the place of the one told before.
                key_facts.acceleration = None;
                key_facts.slowing = false;
                key_facts.state = None;
                key_facts.about_to_slip.clear();
                key_facts.sticks.clear();
            }
            for fact in
                ask.facts.iter().filter(|f| makes_state(f) || matches!(f, Fact::Slowing | Fact::Sticks(_)))
            {
                key_facts.take(&[], fact, ask.span);
            }
            if ask.facts.iter().any(makes_state) {
                // The direction that goes with it.
                for fact in &ask.facts {
                    if let Fact::Heading(_) = fact {
                        key_facts.heading = None;
                        key_facts.take(&ask.of, fact, ask.span);
                    }
                }
            }
            if matches!(ask.target, Target::WhetherMoves)
                && key_facts.state.is_some_and(|s| s.0 == State::AtRest)
            {
                key_facts.state = motion.state;
            }
            // Whether it stays where it is: it is let go to see.
            if matches!(ask.target, Target::Whether(Truth::Stays(_), _)) {
                key_facts.state = key_facts.state.filter(|s| s.0 != State::AtRest);
            }
            // Whether it slips is not told.
            if let Target::Whether(Truth::Slips(load), _) = ask.target {
                key_facts.sticks.retain(|b| *b != load);
                key_facts.about_to_slip.clear();
            }
            let key = format!(
                "{:?}|{:?}|{:?}|{:?}|{:?}",
                key_facts.state.map(|s| s.0),
                key_facts.acceleration.as_ref().map(|a| (a.1.value.to_string(), a.2, a.3)),
                if ask.facts.iter().any(makes_state)
                    || key_facts.state.is_some_and(|s| s.0 == State::Limiting)
                {
                    key_facts.heading.as_ref().map(|h| h.1)
                } else {
                    None
                },
                key_facts.sticks,
                key_facts.about_to_slip
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
        // From rest it cannot slow down on its way.
        let from_rest = story
            .motions
            .iter()
            .any(|m| matches!(&m.fact, Fact::StartSpeed(g) if g.value.is_zero()) && m.part <= ask.part);
        if let (true, false, Some(h)) =
            (from_rest, own_state, self.b.situation().stage(stage).and_then(|s| s.heading))
        {
            self.claim(Claim { stage, body: h.body, says: Claimed::SpeedsUp, span: ask.span });
        }
        let about = if ask.of.is_empty() { about } else { ask.of.clone() };
        let own = ask.facts.iter().map(|f| (&about, f, ask.span));
        if let (Some((way, _)), Some(&body)) = (&story.clearance, self.bodies.first()) {
            self.claim(Claim { stage, body, says: Claimed::Within(way.value.clone()), span: way.span });
        }
        self.thrust_claim(ask, stage);
        for (b, told) in story.bodies.iter().enumerate() {
            let other = story
                .links
                .iter()
                .find(|l| !l.pulleys.is_empty() && l.ends.len() == 2 && l.ends.contains(&b))
                .and_then(|l| l.ends.iter().find(|x| **x != b));
            let (Some(heavier), Some(&other)) = (told.heavier, other) else { continue };
            let (Some(&me), Some(&you)) = (self.bodies.get(b), self.bodies.get(other)) else { continue };
            let (body, than) = if heavier { (me, you) } else { (you, me) };
            self.claim(Claim { stage, body, says: Claimed::Heavier(than), span: told.span });
        }
        let list: Vec<(Vec<usize>, Fact, Span)> =
            told.chain(passing).chain(own).map(|(of, f, s)| (of.clone(), f.clone(), s)).collect();
        self.said(list, stage);
    }

    /// A thrust asked for is a thrust.
    fn thrust_claim(&mut self, ask: &AskTold, stage: StageId) {
        if let Target::Link(l) = &ask.target
            && (ask.phrase.starts_with("thrust") || ask.phrase.starts_with("compression"))
            && let [Became::Link(id)] =
                l.iter().filter_map(|&l| self.links.get(l).copied()).collect::<Vec<_>>().as_slice()
            && let Some(&body) = self.bodies.first()
        {
            self.claim(Claim { stage, body, says: Claimed::Thrusts(*id), span: ask.span });
        }
    }

    /// What is said of the motion in a stage, as claims.
    fn said(&mut self, list: Vec<(Vec<usize>, Fact, Span)>, stage: StageId) {
        let all: Vec<usize> = (0..self.story.bodies.len()).collect();
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
                self.refuse_once(d);
            }
            let Some((b, says)) = says else { continue };
            let Some(&body) = self.bodies.get(b) else { continue };
            self.claim(Claim { stage, body, says, span });
        }
    }

    /// Adds a claim that is not there yet.
    fn claim(&mut self, claim: Claim) {
        let claims = &mut self.b.situation_mut().claims;
        if !claims.iter().any(|c| c.stage == claim.stage && c.body == claim.body && c.says == claim.says) {
            claims.push(claim);
        }
    }

    /// Adds a diagnostic that is not there yet: a state is made for each of several asks.
    fn refuse_once(&mut self, diagnostic: Diagnostic) {
        if !self.diagnostics.contains(&diagnostic) {
            self.diagnostics.push(diagnostic);
        }
    }

    pub(super) fn clash(&mut self, old: &Given, new: &Given) {
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
}
