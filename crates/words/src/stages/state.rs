//! One state of the situation: its forces, accelerations and told values.

use crate::assemble::{Assembly, Became, known};
use crate::stages::Motion;
use crate::story::{By, Target};
use model::{Basis, BodyId, Diagnostic, Kind, Known, Line, QuantityId, Refusal, Role, StageId, State};

impl Assembly<'_> {
    pub(super) fn stage(&mut self, motion: &Motion) -> StageId {
        let heading = self.heading(motion);
        self.stage_heading(motion, heading)
    }

    /// A state in which things move this way (body, sense), if that is known.
    pub(super) fn stage_heading(&mut self, motion: &Motion, heading: Option<(usize, i8)>) -> StageId {
        let moving = motion.start.as_ref().is_some_and(|g| !g.value.is_zero());
        let free = self.lines.iter().all(|l| matches!(l, Line::Level)) && self.story.pulleys.is_empty();
        let stacked =
            self.b.situation().bodies.iter().any(|b| b.surface.as_ref().is_some_and(|s| s.under.is_some()));
        let slows = motion.slowing || motion.acceleration.as_ref().is_some_and(|a| a.2);
        let heading = heading.or(if (moving || stacked && slows) && free { Some((0, 1)) } else { None });
        if moving && heading.is_none() && motion.acceleration.is_none() {
            let span = motion.start.as_ref().map(|g| g.span).unwrap_or_default();
            let d =
                Diagnostic::refuse(Refusal::Incomplete, "it is not said which way it moves at this speed")
                    .at(span)
                    .hint("say upwards or downwards, up or down the slope, towards the pulley");
            self.refuse_once(d);
        }
        let state = match (&motion.acceleration, motion.state) {
            (None, Some((State::Released, _)) | None) if moving => State::Moving,
            (Some(_), _) => State::Moving,
            (None, Some((s, _))) => s,
            (None, None) if heading.is_some() => State::Moving,
            (None, None) => State::Released,
        };
        let id = match self.follows.take() {
            Some((after, happening)) => self.b.then(after, happening, state),
            None => self.b.stage(state),
        };
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
        self.sticking(id, motion);
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
            || !motion.about_to_slip.is_empty()
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
            self.refuse_once(d);
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
            let later = story.spells.get(&n).and_then(|s| s.sizes.iter().rfind(|s| s.0 <= self.chapter));
            if let Some((_, g)) = later {
                self.give(q, g, kind);
            } else if let Some(g) = f.size.as_ref().filter(|_| !anew) {
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
            k.value = self.with_g(&k.value);
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

    /// Tensions and pushes given by value.
    fn values(&mut self, id: StageId) {
        for v in &self.story.values {
            // A tension told in one state does not hold in another.
            if v.given.part < self.values_from || v.chapter != self.chapter {
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
                    self.refuse_once(d);
                }
            }
        }
    }

    pub(super) fn link_quantity(&self, l: usize, stage: StageId) -> Option<QuantityId> {
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

    pub(super) fn contact_quantity(
        &self,
        on: &[usize],
        by: Option<By>,
        stage: StageId,
    ) -> Option<QuantityId> {
        let situation = self.b.situation();
        let s = situation.stage(stage)?;
        let contacts: Vec<usize> =
            situation.links.iter().enumerate().filter(|(_, l)| l.is_contact).map(|(i, _)| i).collect();
        let involved =
            |l: usize, b: BodyId| situation.links.get(l).is_some_and(|l| l.ends.iter().any(|e| e.body == b));
        // The floor under a load, not the block that it pushes along.
        let upright = |b: BodyId| situation.body(b).is_some_and(|b| b.line == Line::Vertical);
        let carried = |l: usize, b: BodyId| {
            situation.links.get(l).is_some_and(|l| l.ends.first().is_some_and(|e| e.body == b)) && upright(b)
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
                    .or_else(|| contacts.iter().copied().find(|&l| involved(l, id) && upright(id))),
            };
            if let Some(l) = found {
                return s.links.get(l).copied();
            }
            if let Some(By::Body(c)) = by {
                // Through what joins them: the pull of the engine on the first truck.
                let c = *self.bodies.get(c)?;
                let l = situation.links.iter().position(|l| {
                    l.pulleys.is_empty()
                        && l.ends.iter().any(|e| e.body == id)
                        && l.ends.iter().any(|e| e.body == c)
                })?;
                return s.links.get(l).copied();
            }
            // A person pressed by the lift: "the lift pushes on the person" names the lift itself.
            if let Some(r) = s.reactions.get(id.0).copied().flatten() {
                return Some(r);
            }
            return contacts.iter().copied().find(|&l| carried(l, id)).and_then(|l| s.links.get(l).copied());
        }
        let lying = situation.bodies.iter().any(|b| b.line != Line::Vertical);
        if let ([one], false) = (contacts.as_slice(), lying) {
            return s.links.get(*one).copied();
        }
        let standing: Vec<QuantityId> = s.reactions.iter().copied().flatten().collect();
        match standing.as_slice() {
            [one] if contacts.is_empty() => Some(*one),
            _ => None,
        }
    }
}
