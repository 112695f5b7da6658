//! Bodies that stand on bodies: crates on crates, loads on trucks. What holds them is friction on the top of what
//! carries them.

use crate::assemble::Assembly;
use crate::stages::Motion;
use crate::story::{Fact, On, Target};
use exact::Value;
use model::{Direction, Form, Grip, Kind, Line, Refusal, Relation, Role, StageId, Surface};

impl Assembly<'_> {
    /// Does this coefficient belong to bodies that stand on one another?
    pub(super) fn between_bodies(&self, of: &[usize]) -> bool {
        let story = self.story;
        let grounded = story.grounded.iter().any(|&n| story.coefficients.get(n).is_some_and(|c| c.0 == of));
        let carried = |b: &usize| match story.bodies.get(*b).and_then(|b| b.on) {
            Some(On::Body(c)) => of.contains(&c) || of.len() == 1,
            _ => false,
        };
        !grounded && of.iter().any(carried)
    }

    /// Is friction told without saying where, and can it only act on the one load there is?
    pub(super) fn on_load_alone(&self) -> bool {
        let story = self.story;
        let loads: Vec<usize> = story
            .bodies
            .iter()
            .filter_map(|b| if let Some(On::Body(c)) = b.on { Some(c) } else { None })
            .collect();
        let [carrier] = loads.as_slice() else { return false };
        let slides_freely = |b: &crate::story::BodyTold| {
            matches!(b.form, Form::Vehicle | Form::Trailer | Form::Lift)
                || matches!(b.on, Some(On::Surface(s)) if story.surfaces.get(s).is_some_and(|s| s.smooth.is_some()))
        };
        story.bodies.len() == 2 && story.bodies.get(*carrier).is_some_and(slides_freely)
    }

    /// A body on the top of another, on the level or on a slope.
    pub(super) fn on_top(&mut self, load: usize, carrier: usize) {
        let story = self.story;
        let (Some(&id), Some(&under)) = (self.bodies.get(load), self.bodies.get(carrier)) else { return };
        let span = story.bodies.get(load).map(|b| b.span).unwrap_or_default();
        let mine = |of: &[usize]| of.contains(&load) && (of.contains(&carrier) || of.len() == 1);
        let coefficient =
            story.coefficients.iter().position(|c| mine(&c.0) && self.between_bodies(&c.0)).or_else(|| {
                story.coefficients.iter().position(|c| c.0.is_empty()).filter(|_| self.on_load_alone())
            });
        let told = story.rubs.iter().find(|r| mine(&r.0) || r.0 == [carrier]).map(|r| r.1);
        let sticks = |f: &Fact| match f {
            Fact::Sticks(b) | Fact::AboutToSlip(b) => b.contains(&load),
            _ => false,
        };
        let stuck = story.motions.iter().any(|m| sticks(&m.fact))
            || story.asks.iter().any(|a| a.facts.iter().any(sticks));
        let rides =
            story.bodies.get(carrier).is_some_and(|b| matches!(b.form, Form::Vehicle | Form::Trailer));
        if told == Some(true) && coefficient.is_some() {
            self.refuse(
                Refusal::Contradictory,
                "it is called smooth there, yet a coefficient of friction is given".to_owned(),
                span,
                "say rough, or leave the coefficient out",
            );
        }
        let grip = if told == Some(true) {
            Grip::Smooth
        } else {
            if told.is_none() && coefficient.is_none() && !stuck {
                if rides {
                    let text = format!("{} does not slip on {}", self.name(load), self.name(carrier));
                    self.b.situation_mut().assumed.push(text);
                } else {
                    self.refuse(
                        Refusal::Incomplete,
                        format!(
                            "it is not said whether it is smooth or rough between {} and {}",
                            self.name(load),
                            self.name(carrier)
                        ),
                        span,
                        "give the coefficient of friction between them, or say that they move together",
                    );
                }
            }
            let key = coefficient.unwrap_or(usize::MAX - load);
            let q = match self.coefficients.get(&key) {
                Some(q) => *q,
                None => {
                    let q = self.b.coefficient(None);
                    if let Some((_, given, letter)) = coefficient.and_then(|c| story.coefficients.get(c)) {
                        if let Some(g) = given {
                            self.give(q, g, Kind::Coefficient);
                        } else if let Some(l) = letter {
                            self.b.letter(q, l);
                            if self.asked.contains(l) {
                                self.letters.insert(l.clone(), q);
                            }
                        }
                    }
                    self.coefficients.insert(key, q);
                    q
                }
            };
            Grip::Rough(q)
        };
        let sliding = story
            .sliding
            .iter()
            .find(|(of, _)| mine(of) || (of.is_empty() && self.on_load_alone()))
            .filter(|_| matches!(grip, Grip::Rough(_)))
            .map(|(_, given)| given.clone());
        let sliding = sliding.map(|given| {
            let q = self.b.coefficient(None);
            self.give(q, &given, Kind::Coefficient);
            q
        });
        self.b.on_top(id, under, grip);
        if let Some(surface) = self.b.situation_mut().bodies.get_mut(id.0).and_then(|b| b.surface.as_mut()) {
            *surface = Surface { sliding, ..surface.clone() };
        }
    }

    /// What carries a load and is said to speed up or slow down, with nothing said of why: something drives or
    /// brakes it, how strongly does not matter.
    pub(super) fn drive_carriers(&mut self) {
        let story = self.story;
        for (i, body) in story.bodies.iter().enumerate() {
            let carries = story.bodies.iter().any(|b| b.on == Some(On::Body(i)));
            let acted = story.forces.iter().any(|f| {
                (f.on.is_none()
                    || f.on.is_some_and(|b| {
                        b == i || story.bodies.get(b).is_some_and(|x| x.on == Some(On::Body(i)))
                    }))
                    && f.role != Role::Resistance
            });
            let joined = story.links.iter().any(|l| l.ends.contains(&i) || l.ends.is_empty())
                || story.tows.iter().any(|t| t.0 == i || t.1 == i);
            let level = matches!(self.lines.get(i), Some(Line::Level));
            let moves = |f: &Fact| matches!(f, Fact::Acceleration { .. } | Fact::Slowing);
            let told = story.motions.iter().any(|m| moves(&m.fact))
                || story
                    .asks
                    .iter()
                    .any(|a| a.facts.iter().any(moves) || matches!(a.target, Target::Acceleration { .. }))
                || story.motions.iter().any(|m| matches!(m.fact, Fact::EndSpeed(_) | Fact::Distance(_)));
            if !carries || acted || joined || !level || !told || matches!(body.on, Some(On::Body(_))) {
                continue;
            }
            let Some(&id) = self.bodies.get(i) else { continue };
            let slows = |f: &Fact| matches!(f, Fact::Slowing | Fact::Acceleration { slowing: true, .. });
            let stops = |f: &Fact| matches!(f, Fact::EndSpeed(g) if g.value.is_zero());
            let brakes = story.motions.iter().any(|m| slows(&m.fact) || stops(&m.fact));
            let name = self.name(i);
            if brakes {
                self.b.act(Role::Braking, &format!("braking force on {name}"), id, Direction::Along(-1));
            } else {
                let role = if body.form == Form::Vehicle { Role::Driving } else { Role::Applied };
                self.b.act(role, &format!("force that drives {name}"), id, Direction::Along(1));
            }
        }
    }

    /// A load on a pulley that hangs in the string moves half as far as the other end: distances, speeds and the pull
    /// on a pulley are not followed there, so that none is taken for another's.
    pub(super) fn slung_alone(&mut self) {
        let story = self.story;
        let Some(&(link, _)) = story.slung.first() else { return };
        let span = story.links.get(link).map(|l| l.span).unwrap_or_default();
        // Ways and speeds are of one body only: then it does not matter that the others move otherwise.
        let mut movers: Vec<&[usize]> = Vec::new();
        let way = |f: &Fact| match f {
            Fact::EndSpeed(_) | Fact::Distance(_) => true,
            Fact::StartSpeed(g) => !g.value.is_zero(),
            _ => false,
        };
        movers.extend(story.motions.iter().filter(|m| way(&m.fact)).map(|m| m.of.as_slice()));
        let mut unclear = false;
        for a in &story.asks {
            match &a.target {
                Target::Speed { of, .. } | Target::Distance { of } => movers.push(of.as_slice()),
                Target::PulleyForce(_) => unclear = true,
                Target::Acceleration { of, .. } => unclear |= of.len() != 1,
                _ => {}
            }
            // What is told of a way in the question itself is of the body that it asks about.
            let told = a.facts.iter().any(way);
            let of_ways = matches!(a.target, Target::Speed { .. } | Target::Distance { .. });
            unclear |= a.facts.iter().any(|f| matches!(f, Fact::Acceleration { .. })) || told && !of_ways;
        }
        let one = |of: &&[usize]| matches!(of, [_]) && Some(of) == movers.first().as_ref().map(|m| *m);
        let of_all = |of: &[usize], f: &Fact| {
            matches!(f, Fact::Acceleration { .. } | Fact::Heading(_)) && of.len() != 1
        };
        let asked = unclear || !movers.iter().all(one);
        let told = story.motions.iter().any(|m| of_all(&m.of, &m.fact));
        if asked || told || story.slung.len() > 1 {
            self.refuse(
                Refusal::Unread,
                "beside a pulley that moves, ways and speeds of one body only are followed".to_owned(),
                span,
                "ask for accelerations and tensions, or for ways and speeds of one body only",
            );
        }
    }

    /// Loads that do not slip, or are about to, in one state.
    pub(crate) fn sticking(&mut self, stage: StageId, motion: &Motion) {
        let of = |assembly: &Self, list: &[usize]| -> Vec<model::BodyId> {
            list.iter().filter_map(|&b| assembly.bodies.get(b).copied()).collect()
        };
        let about = of(self, &motion.about_to_slip);
        if let Some(s) = self.b.situation_mut().stages.get_mut(stage.0) {
            s.about_to_slip = about;
        }
        // Where the coefficient is known, the numbers must bear it out: the same acceleration.
        for load in of(self, &motion.sticks) {
            let situation = self.b.situation();
            let surface = situation.body(load).and_then(|b| b.surface.as_ref());
            let Some((under, Grip::Rough(mu))) = surface.and_then(|s| Some((s.under?, s.grip))) else {
                continue;
            };
            let known = situation.quantity(mu).is_some_and(|q| q.known.is_some());
            let a = |b: model::BodyId| situation.stage(stage)?.accelerations.get(b.0).copied();
            let (Some(x), Some(y)) = (a(load), a(under)) else { continue };
            if known && !motion.about_to_slip.iter().any(|&b| self.bodies.get(b) == Some(&load)) {
                self.b.situation_mut().relations.push(Relation {
                    terms: vec![(Value::one(), vec![x]), (-Value::one(), vec![y])],
                    name: "it does not slip".to_owned(),
                    span: None,
                    from_part: 0,
                });
            }
        }
    }
}
