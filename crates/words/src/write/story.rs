//! Stories: what ends one stage and begins the next, and what is asked of the time before and after.

use super::journeys::Which;
use super::scene::capital;
use super::{Said, Writer, cannot};
use exact::Value;
use model::{Ask, BodyId, Happening, Journey, Kind, Line, QuantityId, Relation, Role, StageId, State};

impl Writer<'_> {
    /// Does each stage follow the one before?
    pub(super) fn is_story(&self) -> bool {
        self.s.stages.len() > 1
            && self
                .s
                .stages
                .iter()
                .enumerate()
                .skip(1)
                .all(|(n, s)| s.begins.as_ref().is_some_and(|b| b.after.0 + 1 == n))
    }

    /// What happens, in order.
    pub(super) fn events(&mut self) -> Said<Vec<String>> {
        let mut sentences = Vec::new();
        for n in 1..self.s.stages.len() {
            let (Some(before), Some(stage)) = (self.s.stages.get(n - 1), self.s.stages.get(n)) else {
                continue;
            };
            let Some(begins) = &stage.begins else { continue };
            if stage.state != State::Moving || !stage.about_to_slip.is_empty() {
                return Err(cannot("what happens in a later stage"));
            }
            // What acted before acts on, as strongly as before.
            for (force, earlier) in stage.forces.iter().zip(&before.forces) {
                if self.known(*force) == self.known(*earlier) {
                    self.said.insert(*force);
                }
            }
            let event = self.event(StageId(n))?;
            let ends = self.last_journey(StageId(n - 1)).cloned();
            if let Happening::Stops { body, .. } = &begins.with {
                let Some(j) = ends.filter(|j| j.body == *body) else {
                    return Err(cannot("when a body stops"));
                };
                if self.s.body(*body).map(|b| b.line) != Some(Line::Vertical) {
                    return Err(cannot("a body that comes to a stop on its way"));
                }
                let Some(far) = self.known(j.distance).cloned() else {
                    return Err(cannot("how far a body falls"));
                };
                let far = self.stretch(&far)?;
                self.said.insert(j.distance);
                let name = capital(&self.name(*body).again());
                sentences.push(format!("{name} is initially {far} above the floor."));
                sentences.push(format!("{} and does not rebound.", capital(&event)));
                continue;
            }
            let when = match &ends {
                Some(j) => self.moment(j)?,
                None => return Err(cannot("when this happens")),
            };
            sentences.push(format!("{when} {event}."));
        }
        Ok(sentences)
    }

    /// The journey that ends with its stage: the one at whose end the next stage begins, or of which something is known.
    fn last_journey(&self, id: StageId) -> Option<&Journey> {
        let stage = self.s.stage(id)?;
        let next = self.s.stages.get(id.0 + 1)?;
        let goes_on = |j: &&Journey| next.journeys.iter().any(|k| k.start_speed == j.end_speed);
        let told = |j: &&Journey| [j.end_speed, j.distance, j.time].iter().any(|q| self.known(*q).is_some());
        stage.journeys.iter().find(goes_on).or_else(|| stage.journeys.iter().find(told))
    }

    /// `After 2 s`, `When A has moved 3 m`.
    fn moment(&mut self, j: &Journey) -> Said<String> {
        let who = self.name(j.body).again();
        self.said.extend([j.end_speed, j.distance, j.time]);
        let told = |q: QuantityId| self.known(q).cloned();
        Ok(match (told(j.end_speed), told(j.distance), told(j.time)) {
            (None, None, Some(t)) => format!("After {}", self.size(&t, Kind::Time)?),
            (None, Some(s), None) => format!("When {who} has moved {},", self.stretch(&s)?),
            (Some(v), None, None) => format!("When the speed of {who} is {},", self.size(&v, Kind::Speed)?),
            _ => return Err(cannot("the moment at which something happens")),
        })
    }

    /// What begins a stage, as a clause: `the string breaks`, `B hits the floor`.
    fn event(&self, id: StageId) -> Said<String> {
        let Some(stage) = self.s.stage(id) else { return Err(cannot("a stage")) };
        let held: Vec<BodyId> = stage.held.clone();
        let (clause, stays, loose) = match stage.begins.as_ref().map(|b| &b.with) {
            Some(Happening::Breaks(l)) => {
                let Some(link) = self.s.link(*l) else { return Err(cannot("a link")) };
                (format!("{} breaks", self.the_link(*l, link)), Vec::new(), true)
            }
            Some(Happening::Stops { body, .. }) => {
                (format!("{} hits the floor", self.name(*body).again()), vec![*body], true)
            }
            Some(Happening::Ends(a)) => {
                let Some(action) = self.s.action(*a) else { return Err(cannot("a force")) };
                let clause = match action.role {
                    Role::Driving => "the engine is switched off".to_owned(),
                    Role::Applied => "the force is removed".to_owned(),
                    _ => return Err(cannot("this force, which ends")),
                };
                (clause, Vec::new(), false)
            }
            _ => return Err(cannot("what begins a later stage")),
        };
        if held != stays || !loose && !stage.without_links.is_empty() {
            return Err(cannot("what is held in a later stage"));
        }
        Ok(clause)
    }

    /// ` before the string breaks`, ` after the string breaks`: of which stage a question is.
    pub(super) fn afterwards(&self, ask: &Ask) -> Said<String> {
        if !self.is_story() {
            return Ok(String::new());
        }
        Ok(match ask.stage.0 {
            0 => match self.s.stages.get(1).and_then(|s| s.begins.as_ref()).map(|b| &b.with) {
                Some(Happening::Stops { .. }) => String::new(),
                _ => format!(" before {}", self.event(StageId(1))?),
            },
            _ => format!(" after {}", self.event(ask.stage)?),
        })
    }

    /// A quantity of a journey in a story: of its end, where the next stage begins, or of the way after that.
    pub(super) fn story_phrase(&mut self, j: &Journey, which: Which, stage: StageId) -> Said<Option<String>> {
        let who = self.name(j.body).again();
        let next = StageId(stage.0 + 1);
        let known = |q: QuantityId| self.known(q).cloned();
        let (v, s, t) = (known(j.end_speed), known(j.distance), known(j.time));
        let ends = self.last_journey(stage).is_some_and(|l| l == j);
        let rests = self.is_zero(j.end_speed);
        let back = self.s.quantity(j.distance).is_some_and(|q| q.kind == Kind::Displacement)
            && self.is_zero(j.distance);
        self.said.extend([j.end_speed, j.distance, j.time]);
        if self.s.stage(next).is_some() && ends {
            let event = self.event(next)?;
            return Ok(match which {
                Which::End => Some(format!("the speed of {who} when {event}")),
                Which::Time => Some(format!("the time taken until {event}")),
                Which::Distance => Some(format!("the distance moved by {who} before {event}")),
                Which::Start => None,
            });
        }
        if stage.0 == 0 {
            return Ok(None);
        }
        let event = self.event(stage)?;
        Ok(Some(match (which, v, s, t) {
            (Which::Distance, Some(_), None, None) if rests => {
                format!("the further distance moved by {who} before it comes to rest")
            }
            (Which::Time, Some(_), None, None) if rests => {
                format!("the time from the instant when {event} until {who} comes to rest")
            }
            (Which::Time, None, Some(_), None) if back => {
                let Some(noun) = self.slack(stage) else { return Err(cannot("when a body is back")) };
                format!("the time from the instant when {event} until the {noun} is taut again")
            }
            (Which::End, None, None, Some(t)) => {
                format!("the speed of {who} {} after {event}", self.size(&t, Kind::Time)?)
            }
            (Which::Start, ..) => format!("the speed of {who} when {event}"),
            _ => return Err(cannot("a later journey asked about in this way")),
        }))
    }

    /// The string that is slack in a stage.
    fn slack(&self, id: StageId) -> Option<String> {
        match self.s.stage(id)?.without_links.as_slice() {
            [one] => self.s.link(*one).map(|l| self.link_noun(l)),
            _ => None,
        }
    }

    /// A sum: `the total distance moved by A before it comes to rest`.
    pub(super) fn sum_phrase(&mut self, id: QuantityId) -> Said<Option<String>> {
        let minus = -Value::one();
        let is_sum = |r: &Relation| r.terms.first().is_some_and(|t| t.0 == minus && t.1 == [id]);
        let Some(at) = self.s.relations.iter().position(is_sum) else { return Ok(None) };
        let Some(relation) = self.s.relations.get(at) else { return Ok(None) };
        let mut parts: Vec<(usize, &Journey, Which)> = Vec::new();
        for (times, of) in relation.terms.iter().skip(1) {
            let [q] = of.as_slice() else { return Err(cannot(&relation.name)) };
            let found = self.s.stages.iter().enumerate().find_map(|(n, stage)| {
                let j = stage.journeys.iter().find(|j| j.distance == *q || j.time == *q)?;
                Some((n, j, if j.distance == *q { Which::Distance } else { Which::Time }))
            });
            match found {
                Some(part) if *times == Value::one() => parts.push(part),
                _ => return Err(cannot(&relation.name)),
            }
        }
        let every = parts.iter().map(|p| p.0).eq(0..self.s.stages.len());
        let Some((_, last, which)) = parts.last().copied() else { return Err(cannot(&relation.name)) };
        if !every || !self.is_zero(last.end_speed) || !parts.iter().all(|p| p.2 == which) {
            return Err(cannot(&relation.name));
        }
        self.related.insert(at);
        for (_, j, _) in &parts {
            self.said.extend([j.end_speed, j.distance, j.time]);
        }
        let who = self.name(last.body).again();
        let rises = self.s.body(last.body).is_some_and(|b| b.line == Line::Vertical);
        Ok(Some(match which {
            Which::Distance if rises => {
                format!("the greatest height reached by {who} above its initial position")
            }
            Which::Distance => format!("the total distance moved by {who} before it comes to rest"),
            _ => format!("the total time for which {who} is moving"),
        }))
    }
}
