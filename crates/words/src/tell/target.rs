//! Turns a mention of a quantity in a question into what is asked.

use crate::amount::plain_index;
use crate::noun::Ref;
use crate::quantity::{Mention, Sort};
use crate::reader::Reader;
use crate::story::{AskTold, By, Target, Way};
use model::Role;

impl Reader<'_> {
    /// Records what a mention in a question asks for. False if it is no target.
    pub(crate) fn ask_for(&mut self, m: &Mention) -> bool {
        let Some(target) = self.target(m) else { return false };
        let pushed = self.push_ask(target, m.start, m.end);
        if let Some(ask) = self.story.asks.last_mut() {
            ask.when.total |= m.total;
            ask.when.further |= m.further;
        }
        pushed
    }

    pub(crate) fn push_ask(&mut self, target: Target, a: usize, b: usize) -> bool {
        let span = self.span(a, b);
        let phrase = span.of(self.text).split_whitespace().collect::<Vec<_>>().join(" ");
        let phrase = phrase.strip_prefix("the ").unwrap_or(&phrase).to_owned();
        self.told(a, b, format!("asked: {phrase}"));
        let facts = std::mem::take(&mut self.setting);
        let when = self.moments_here();
        // What was set for one ask of a list holds for the next: "when it has fallen 2 m, find the speed and the time".
        self.story.asks.push(AskTold {
            part: self.part,
            target,
            phrase,
            span,
            show: None,
            facts,
            of: Vec::new(),
            same_journey: false,
            when,
            accuracy: None,
        });
        true
    }

    /// The push or pull that a mention of a force between things means.
    pub(super) fn contact_target(&self, m: &Mention) -> Option<Target> {
        if let Some(Ref::Links(l)) = &m.by
            && !matches!(m.on, Some(Ref::Pulleys(_)))
        {
            return Some(Target::Link(l.clone()));
        }
        if let (Some(Ref::Links(l)), None) = (&m.of, &m.on) {
            return Some(Target::Link(l.clone()));
        }
        if let [first, rest @ ..] = m.between.as_slice() {
            let on = self.bodies_of(Some(first))?;
            return match rest.first() {
                Some(Ref::Floor(_)) => Some(Target::Contact { on, by: Some(By::Floor) }),
                Some(Ref::Surface(_)) => Some(Target::Contact { on, by: Some(By::Surface) }),
                Some(Ref::Bodies(b)) => Some(Target::Contact { on, by: b.first().map(|&b| By::Body(b)) }),
                _ => match on.as_slice() {
                    [x, y] => Some(Target::Contact { on: vec![*x], by: Some(By::Body(*y)) }),
                    _ => None,
                },
            };
        }
        if let Some(Ref::Pulleys(p)) = m.on.as_ref().or(m.of.as_ref()) {
            return Some(Target::PulleyForce(p.first().copied()));
        }
        if let Some(Ref::Links(l)) = m.of.as_ref().or(if m.on.is_some() { m.by.as_ref() } else { None }) {
            return Some(Target::Link(l.clone()));
        }
        let giver = m.by.as_ref().or(m.of.as_ref());
        let on = self.bodies_of(m.on.as_ref());
        match (giver, on) {
            (Some(Ref::Floor(_)), Some(on)) => Some(Target::Contact { on, by: Some(By::Floor) }),
            (Some(Ref::Surface(_)), Some(on)) => Some(Target::Contact { on, by: Some(By::Surface) }),
            // The force that a body exerts on the floor is the reaction turned round.
            (Some(Ref::Bodies(b)), None) if matches!(m.on, Some(Ref::Floor(_))) => {
                Some(Target::Contact { on: b.clone(), by: Some(By::Floor) })
            }
            (Some(Ref::Bodies(b)), None) if matches!(m.on, Some(Ref::Surface(_))) => {
                Some(Target::Contact { on: b.clone(), by: Some(By::Surface) })
            }
            (Some(Ref::Bodies(b)), Some(on)) => {
                Some(Target::Contact { on, by: b.first().map(|&b| By::Body(b)) })
            }
            (None, Some(on)) if m.sort == Sort::Reaction => Some(Target::Contact { on, by: None }),
            (Some(Ref::Bodies(b)), None) if m.sort == Sort::Reaction => {
                Some(Target::Contact { on: b.clone(), by: None })
            }
            (Some(Ref::Floor(_)), None) => Some(Target::Contact { on: Vec::new(), by: Some(By::Floor) }),
            (None, None) if m.sort == Sort::Reaction => Some(Target::Contact { on: Vec::new(), by: None }),
            _ => None,
        }
    }

    fn is_driver(&self, what: Option<&Ref>) -> bool {
        self.bodies_of(what).is_some_and(|b| b.as_slice() == self.driver().as_slice())
    }

    pub(crate) fn target(&mut self, m: &Mention) -> Option<Target> {
        let about = m.of.clone().or_else(|| m.on.clone());
        let span = self.span(m.start, m.end);
        Some(match m.sort {
            Sort::Mass => {
                // "the mass m", "the unknown mass"
                let t = self.tok(self.skip(m.end));
                if let Some(t) = t.filter(|t| about.is_none() && t.letter().is_some() && !t.is("a")) {
                    return Some(Target::Letter(plain_index(&t.text)));
                }
                let open: Vec<usize> = (0..self.story.bodies.len())
                    .filter(|&b| {
                        self.story
                            .bodies
                            .get(b)
                            .is_some_and(|b| b.mass.as_ref().is_none_or(|g| g.value.as_rational().is_none()))
                    })
                    .collect();
                match self.bodies_of(about.as_ref()) {
                    Some(b) => Target::Mass(b),
                    None if open.len() == 1 => Target::Mass(open),
                    None => Target::Mass(self.subject_bodies()?),
                }
            }
            Sort::Acceleration { slowing } => {
                let of = self.bodies_of(about.as_ref()).unwrap_or_else(|| {
                    if about.is_none() && self.latest.len() == 1 && self.story.bodies.len() > 1 {
                        self.latest.clone()
                    } else {
                        self.all_bodies()
                    }
                });
                Target::Acceleration { of, slowing, way: m.way }
            }
            // The thrust on the pulley
            Sort::Tension if matches!(m.on, Some(Ref::Pulleys(_))) => self.contact_target(m)?,
            Sort::Tension => match about {
                Some(Ref::Links(l)) => Target::Link(l),
                // The thrust of B on the floor
                Some(Ref::Bodies(_)) if m.on.is_some() && (m.of.is_some() || m.by.is_some()) => {
                    self.contact_target(m)?
                }
                Some(_) => return None,
                None if matches!(m.between.first(), Some(Ref::Bodies(_))) => {
                    let b: Vec<usize> =
                        m.between.iter().filter_map(|r| self.bodies_of(Some(r))).flatten().collect();
                    match self.story.links.iter().position(|l| b.iter().all(|x| l.ends.contains(x))) {
                        Some(l) => Target::Link(vec![l]),
                        // The thrust between two that touch
                        None => self.contact_target(m)?,
                    }
                }
                None => Target::Link(Vec::new()),
            },
            Sort::PlainForce
                if m.on.is_none()
                    && self.driver().is_some()
                    && (m.of.is_none() || m.way == Some(Way::Forward) && self.is_driver(m.of.as_ref()))
                    && (m.way == Some(Way::Forward) || self.is_driver(m.by.as_ref())) =>
            {
                let on = self.driver();
                Target::Force(self.force_on(Role::Driving, on, span))
            }
            Sort::Reaction | Sort::PlainForce | Sort::Resultant => match self.contact_target(m) {
                Some(t) => t,
                None if m.sort == Sort::Resultant => {
                    let on = self.bodies_of(m.on.as_ref().or(m.of.as_ref()))?;
                    let [one] = on.as_slice() else { return None };
                    Target::Resultant(*one)
                }
                None if m.sort == Sort::PlainForce => {
                    let on = self.bodies_of(m.on.as_ref());
                    let found = self.story.forces.iter().position(|f| {
                        f.role == Role::Applied
                            && on.as_ref().is_none_or(|on| f.on.is_some_and(|b| on.contains(&b)))
                    })?;
                    Target::Force(found)
                }
                None => return None,
            },
            Sort::Friction => {
                let mut on = self.bodies_of(about.as_ref()).unwrap_or_default();
                if on.is_empty() {
                    on = m.between.iter().filter_map(|r| self.bodies_of(Some(r))).flatten().collect();
                }
                if m.greatest { Target::GreatestFriction { on } } else { Target::Friction { on } }
            }
            Sort::Force(role) => {
                let on = self
                    .bodies_of(m.on.as_ref())
                    .or_else(|| self.bodies_of(m.of.as_ref()))
                    .or_else(|| self.bodies_of(m.by.as_ref()));
                let on = match on.as_deref() {
                    Some([one]) => Some(*one),
                    _ => self.driver(),
                };
                Target::Force(self.force_on(role, on, span))
            }
            Sort::Resistance => {
                if m.total {
                    return Some(Target::TotalResistance);
                }
                let of = self.bodies_of(about.as_ref()).or_else(|| self.subject_bodies()).unwrap_or_default();
                if of.len() > 1 && !m.plural {
                    return Some(Target::TotalResistance);
                }
                for &b in &of {
                    self.force_on(Role::Resistance, Some(b), span);
                }
                Target::Resistance(of)
            }
            Sort::Coefficient => Target::Coefficient {
                of: m.between.iter().filter_map(|r| self.bodies_of(Some(r))).flatten().collect(),
            },
            Sort::Speed => Target::Speed {
                of: self.bodies_of(about.as_ref()).unwrap_or_else(|| self.latest.clone()),
                start: m.start_speed,
            },
            Sort::Distance if !m.between.is_empty() => return None,
            Sort::Distance => {
                Target::Distance { of: self.bodies_of(about.as_ref()).unwrap_or_else(|| self.latest.clone()) }
            }
            Sort::Time => Target::Time,
        })
    }
}
