//! What a mention of a quantity means: a given in a statement, a target in a question.

use crate::noun::Ref;
use crate::quantity::{Mention, Sort};
use crate::reader::Reader;
use crate::story::*;
use model::{Diagnostic, Form, Kind, Refusal, Role};

impl Reader<'_> {
    fn all_bodies(&self) -> Vec<usize> {
        (0..self.story.bodies.len()).collect()
    }
    pub(crate) fn bodies_of(&self, r: Option<&Ref>) -> Option<Vec<usize>> {
        match r? {
            Ref::Bodies(b) => Some(b.clone()),
            Ref::System => Some(self.all_bodies()),
            _ => None,
        }
    }
    /// The body with the engine: the vehicle, else the only body.
    pub(crate) fn driver(&self) -> Option<usize> {
        let found: Vec<usize> = self
            .story
            .bodies
            .iter()
            .enumerate()
            .filter(|(_, b)| b.form == Form::Vehicle)
            .map(|(i, _)| i)
            .collect();
        match (found.as_slice(), self.story.bodies.len()) {
            ([one], _) => Some(*one),
            ([], 1) => Some(0),
            // Nothing with an engine by name: what tows all the others.
            ([], _) => {
                let mut fronts: Vec<usize> = self
                    .story
                    .tows
                    .iter()
                    .map(|t| t.0)
                    .filter(|f| !self.story.tows.iter().any(|t| t.1 == *f))
                    .collect();
                fronts.dedup();
                match fronts.as_slice() {
                    [one] => Some(*one),
                    _ => None,
                }
            }
            _ => None,
        }
    }
    /// The force of this role on a body; new if there is none yet.
    pub(crate) fn force_on(&mut self, role: Role, on: Option<usize>, span: model::Span) -> usize {
        let found = self.story.forces.iter().position(|f| {
            f.role == role
                && (f.on == on || f.on.is_none() || on.is_none())
                && (role != Role::Applied || on.is_some())
                && f.link.is_none()
        });
        if let Some(i) = found {
            if let Some(f) = self.story.forces.get_mut(i) {
                f.on = f.on.or(on);
            }
            return i;
        }
        let of = on.map(|b| self.name(b));
        let name = match (role, &of) {
            (Role::Driving, _) => "the driving force".to_owned(),
            (Role::Braking, _) => "the braking force".to_owned(),
            (Role::Resistance, Some(of)) => format!("the resistance on {of}"),
            (Role::Resistance, None) => "the resistance".to_owned(),
            (_, Some(of)) => format!("the force applied to {of}"),
            _ => "the applied force".to_owned(),
        };
        self.story.forces.push(ForceTold {
            role,
            name,
            on,
            size: None,
            letter: None,
            way: None,
            level: None,
            link: None,
            span,
        });
        self.story.forces.len() - 1
    }
    fn contradiction(&mut self, what: &str, old: &Given, new: &Given) {
        let d = Diagnostic::refuse(
            Refusal::Contradictory,
            format!("two values are given for {what}: {} and {}", old.written, new.written),
        )
        .at(old.span)
        .at(new.span)
        .hint("keep one of them");
        self.diagnostics.push(d);
    }
    /// Sets the size of a force, once.
    pub(crate) fn set_force(&mut self, force: usize, given: Given) {
        let Some(f) = self.story.forces.get_mut(force) else { return };
        match f.size.clone() {
            Some(old) if old.value != given.value => {
                let name = f.name.clone();
                self.contradiction(&name, &old, &given);
            }
            Some(_) => {}
            None => f.size = Some(given),
        }
    }
    fn set_value(&mut self, what: Target, given: Given, name: &str) {
        if let Some(old) = self
            .story
            .values
            .iter()
            .find(|v| v.what == what && v.given.value != given.value && v.given.part == given.part)
            .map(|v| v.given.clone())
        {
            self.contradiction(name, &old, &given);
            return;
        }
        self.story.values.push(ValueTold { what, given });
    }

    /// Records what a mention in a statement tells. False if it tells nothing that can be used.
    pub(crate) fn tell(&mut self, m: &Mention) -> bool {
        let span = self.span(m.start, m.end);
        let about = || m.of.as_ref().or(m.on.as_ref());
        match m.sort {
            Sort::Mass => {
                let Some(bodies) = self
                    .bodies_of(about())
                    .or_else(|| (m.of.is_none() && !self.subject.is_empty()).then(|| self.subject.clone()))
                    .or_else(|| {
                        m.of.is_none()
                            .then(|| {
                                if self.latest.len() == m.amounts.len() {
                                    self.latest.clone()
                                } else {
                                    (0..self.story.bodies.len()).collect()
                                }
                            })
                            .filter(|b| !b.is_empty())
                    })
                else {
                    return false;
                };
                let thing = matches!(
                    self.about,
                    Some(Ref::Links(_) | Ref::Pulleys(_) | Ref::Surface(_) | Ref::Ends(_))
                );
                if m.amounts.is_empty() || (m.of.is_none() && thing) {
                    return false;
                }
                if m.total && m.of.is_none() {
                    return false;
                }
                if m.total && bodies.len() > 1 {
                    let [amount] = m.amounts.as_slice() else { return false };
                    let given = self.given(amount);
                    let names = self.names(&bodies);
                    self.told(m.start, m.end, format!("the masses of {names} add up to this"));
                    self.story.totals.push((bodies, given));
                    return true;
                }
                self.set_mass(&bodies, &m.amounts);
                let names = self.names(&bodies);
                self.told(m.start, m.end, format!("the mass of {names}"));
                true
            }
            Sort::Acceleration { slowing } => {
                let [amount] = m.amounts.as_slice() else { return false };
                let of = self
                    .bodies_of(about())
                    .or_else(|| self.subject_bodies())
                    .unwrap_or_else(|| self.latest.clone());
                let given = self.given(amount);
                let names = self.names(&of);
                self.told(
                    m.start,
                    m.end,
                    format!(
                        "the {} of {names} is {}",
                        if slowing { "deceleration" } else { "acceleration" },
                        amount.written
                    ),
                );
                self.fact(of, span, Fact::Acceleration { given, slowing, way: m.way });
                true
            }
            Sort::Tension => {
                let [amount] = m.amounts.as_slice() else { return false };
                let given = self.given(amount);
                let links = match about() {
                    Some(Ref::Links(l)) => l.clone(),
                    _ if self.story.links.len() == 1 => vec![0],
                    _ if self.link.len() == 1 => self.link.clone(),
                    _ => return false,
                };
                self.told(m.start, m.end, format!("the tension is {}", amount.written));
                for l in links {
                    self.set_value(Target::Link(vec![l]), given.clone(), "the tension");
                }
                true
            }
            Sort::Reaction | Sort::PlainForce | Sort::Resultant => self.tell_force(m),
            Sort::Friction => {
                let [amount] = m.amounts.as_slice() else {
                    if !m.pairs.is_empty() {
                        return self.tell_resistance(m);
                    }
                    return false;
                };
                // A frictional force given as a number acts as a resistance.
                let given = self.given(amount);
                let bodies = self
                    .bodies_of(about())
                    .or_else(|| self.subject_bodies())
                    .unwrap_or_else(|| self.latest.clone());
                if bodies.is_empty() {
                    return false;
                }
                let names = self.names(&bodies);
                let text = format!("friction on {names} is {}", amount.written);
                self.told(m.start, m.end, text);
                for &b in &bodies {
                    match self.story.frictions.iter().find(|(x, _)| *x == b).map(|(_, g)| g.clone()) {
                        Some(old) if old.value != given.value => {
                            self.contradiction("the friction", &old, &given)
                        }
                        Some(_) => {}
                        None => self.story.frictions.push((b, given.clone())),
                    }
                }
                true
            }
            Sort::Force(role) => {
                let on = self
                    .bodies_of(m.on.as_ref())
                    .or_else(|| self.bodies_of(m.of.as_ref()))
                    .or_else(|| self.bodies_of(m.by.as_ref()))
                    .or_else(|| self.subject_bodies());
                let on = match (on.as_deref(), role) {
                    (Some([one]), _) => Some(*one),
                    (_, Role::Driving | Role::Braking) => self.driver(),
                    _ => None,
                };
                let on = if role == Role::Applied { on } else { on.or_else(|| self.driver()) };
                let f = self.force_on(role, on, span);
                if let Some(amount) = m.amounts.first() {
                    let given = self.given(amount);
                    self.set_force(f, given);
                }
                if let (Some(l), Some(force)) = (&m.letter, self.story.forces.get_mut(f)) {
                    force.letter = Some(l.clone());
                }
                if let (Some(w), Some(force)) = (m.way, self.story.forces.get_mut(f)) {
                    force.way = Some(w);
                }
                let name = self.story.forces.get(f).map(|f| f.name.clone()).unwrap_or_default();
                let on = on.map_or_else(String::new, |b| format!(", on {}", self.name(b)));
                self.told(m.start, m.end, format!("{name}{on}"));
                true
            }
            Sort::Resistance => self.tell_resistance(m),
            Sort::Coefficient => {
                let mut bodies: Vec<usize> =
                    m.between.iter().filter_map(|r| self.bodies_of(Some(r))).flatten().collect();
                if bodies.is_empty() {
                    bodies = self.bodies_of(m.of.as_ref()).unwrap_or_default();
                }
                let (given, letter) = match m.amounts.first() {
                    Some(a) if a.value.as_rational().is_some() => (Some(self.given(a)), None),
                    Some(a) => (None, Some(a.written.clone())),
                    None => (None, None),
                };
                if given.is_none() && letter.is_none() {
                    return false;
                }
                let old = self.story.coefficients.iter().find(|c| c.0 == bodies).and_then(|c| c.1.clone());
                if let (Some(o), Some(n)) = (&old, &given)
                    && o.value != n.value
                {
                    self.contradiction("the coefficient of friction", o, n);
                    return true;
                }
                self.told(m.start, m.end, "friction is at most μ times the normal reaction");
                self.story.coefficients.push((bodies, given, letter));
                true
            }
            Sort::Speed => {
                let [amount] = m.amounts.as_slice() else { return false };
                let of = self
                    .bodies_of(about())
                    .or_else(|| self.subject_bodies())
                    .unwrap_or_else(|| self.latest.clone());
                let given = self.given(amount);
                self.told(m.start, m.end, format!("speed {}", amount.written));
                let when = (m.start.saturating_sub(2)..m.start)
                    .any(|k| matches!(self.w(k), "when" | "as" | "while"));
                let fact = if m.start_speed || (when && !self.asking) {
                    Fact::StartSpeed(given)
                } else {
                    Fact::EndSpeed(given)
                };
                self.fact(of, span, fact);
                true
            }
            Sort::Distance => {
                let [amount] = m.amounts.as_slice() else { return false };
                let of = self
                    .bodies_of(about())
                    .or_else(|| self.subject_bodies())
                    .unwrap_or_else(|| self.latest.clone());
                let given = self.given(amount);
                self.told(m.start, m.end, format!("distance {}", amount.written));
                self.fact(of, span, Fact::Distance(given));
                true
            }
            Sort::Time => false,
        }
    }

    fn subject_bodies(&self) -> Option<Vec<usize>> {
        (!self.subject.is_empty()).then(|| self.subject.clone())
    }

    /// A force named by where it acts: on a pulley, between bodies, of a floor.
    fn tell_force(&mut self, m: &Mention) -> bool {
        let span = self.span(m.start, m.end);
        let amount = match m.amounts.as_slice() {
            [a] => Some(a.clone()),
            [] => None,
            _ => return false,
        };
        // Of a floor, or a link: a reaction or tension by value.
        if let Some(target) = self.contact_target(m) {
            let Some(amount) = amount else { return false };
            let given = self.given(&amount);
            self.told(m.start, m.end, format!("this force is {}", amount.written));
            self.set_value(target, given, "this force");
            return true;
        }
        if m.sort != Sort::PlainForce {
            return false;
        }
        // Otherwise an applied force.
        let on = self.bodies_of(m.on.as_ref()).or_else(|| self.bodies_of(m.of.as_ref()));
        let Some([one]) = on.as_deref() else { return false };
        let (one, opposing) = (*one, m.opposing);
        let f = self.force_on(if opposing { Role::Resistance } else { Role::Applied }, Some(one), span);
        if let Some(a) = &amount {
            let given = self.given(a);
            self.set_force(f, given);
        }
        if let Some(force) = self.story.forces.get_mut(f) {
            force.way = m.way.or(force.way);
            force.level = m.level.or(force.level);
            force.letter = m.letter.clone().or(force.letter.take());
        }
        self.told(m.start, m.end, format!("a force on {}", self.name(one)));
        true
    }

    /// The push or pull that a mention of a force between things means.
    pub(crate) fn contact_target(&self, m: &Mention) -> Option<Target> {
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

    fn tell_resistance(&mut self, m: &Mention) -> bool {
        let span = self.span(m.start, m.end);
        if !m.pairs.is_empty() {
            for (amount, body) in m.pairs.clone() {
                let f = self.force_on(Role::Resistance, Some(body), span);
                let given = self.given(&amount);
                self.set_force(f, given);
            }
            self.told(m.start, m.end, "resistances: forces against the motion");
            return true;
        }
        let named = self.bodies_of(m.on.as_ref()).or_else(|| self.bodies_of(m.of.as_ref()));
        let bodies = named
            .clone()
            .or_else(|| self.subject_bodies())
            .unwrap_or_else(|| if m.opposing { self.latest.clone() } else { Vec::new() });
        if m.per_mass {
            let Some(amount) = m.amounts.first() else { return false };
            self.story.per_mass = Some(self.given(amount));
            self.told(m.start, m.end, "a resistance in proportion to the mass");
            return true;
        }
        match m.amounts.as_slice() {
            [] if named.is_some() || !self.subject.is_empty() && m.opposing => {
                // Resistances without a size: they are there, and unknown.
                for b in bodies.clone() {
                    self.force_on(Role::Resistance, Some(b), span);
                }
                self.told(m.start, m.end, "resistances of a size not given here");
                true
            }
            [] => false,
            [one] if bodies.len() != 1 => {
                let each = (m.start..m.end).any(|k| matches!(self.w(k), "each" | "both" | "every"));
                if m.total || matches!(m.of, Some(Ref::System)) || (!m.plural && !each && bodies.len() > 1) {
                    self.story.total_resistance = Some(self.given(one));
                    self.told(m.start, m.end, "the resistances add up to this");
                    return true;
                }
                if bodies.is_empty() {
                    return false;
                }
                let given = self.given(one);
                for b in bodies.clone() {
                    let f = self.force_on(Role::Resistance, Some(b), span);
                    self.set_force(f, given.clone());
                }
                let names = self.names(&bodies);
                self.told(m.start, m.end, format!("a resistance of {} on each of {names}", one.written));
                true
            }
            many if many.len() == bodies.len() => {
                for (amount, b) in many.to_vec().iter().zip(bodies.clone()) {
                    let f = self.force_on(Role::Resistance, Some(b), span);
                    let given = self.given(amount);
                    self.set_force(f, given);
                    if let (Some(force), true) =
                        (self.story.forces.get_mut(f), amount.value.as_rational().is_none())
                    {
                        force.letter = Some(amount.written.clone());
                    }
                }
                let names = self.names(&bodies);
                self.told(m.start, m.end, format!("resistance on {names}: against the motion"));
                true
            }
            _ => false,
        }
    }

    /// A fact of motion: for the story, or in a question for what is asked.
    pub(crate) fn fact(&mut self, of: Vec<usize>, span: model::Span, fact: Fact) {
        let released = matches!(fact, Fact::State(model::State::Released))
            || matches!(&fact, Fact::StartSpeed(g) if self.releasing && g.value.is_zero());
        if self.asking && !released {
            let first = self.first_ask;
            if self.story.asks.len() > first {
                if let Some(ask) = self.story.asks.last_mut() {
                    if matches!(fact, Fact::Heading(_)) {
                        ask.of = of;
                    }
                    ask.facts.push(fact);
                }
            } else {
                self.setting.push(fact);
            }
            return;
        }
        self.story.motions.push(MotionTold { of, part: self.part, span, fact });
    }

    /// Records what a mention in a question asks for. False if it is no target.
    pub(crate) fn ask_for(&mut self, m: &Mention) -> bool {
        let Some(target) = self.target(m) else { return false };
        self.push_ask(target, m.start, m.end)
    }

    pub(crate) fn push_ask(&mut self, target: Target, a: usize, b: usize) -> bool {
        let span = self.span(a, b);
        let phrase = span.of(self.text).split_whitespace().collect::<Vec<_>>().join(" ");
        let phrase = phrase.strip_prefix("the ").unwrap_or(&phrase).to_owned();
        self.told(a, b, format!("asked: {phrase}"));
        let facts = std::mem::take(&mut self.setting);
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
            accuracy: None,
        });
        true
    }

    pub(crate) fn target(&mut self, m: &Mention) -> Option<Target> {
        let about = m.of.clone().or_else(|| m.on.clone());
        let span = self.span(m.start, m.end);
        Some(match m.sort {
            Sort::Mass => {
                // "the mass m", "the unknown mass"
                let t = self.tok(self.skip(m.end));
                if let Some(t) = t.filter(|t| about.is_none() && t.letter().is_some() && !t.is("a")) {
                    return Some(Target::Letter(crate::amount::plain_index(&t.text)));
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
            Sort::Tension => match about {
                Some(Ref::Links(l)) => Target::Link(l),
                Some(_) => return None,
                None if matches!(m.between.first(), Some(Ref::Bodies(_))) => {
                    let b: Vec<usize> =
                        m.between.iter().filter_map(|r| self.bodies_of(Some(r))).flatten().collect();
                    let l = self.story.links.iter().position(|l| b.iter().all(|x| l.ends.contains(x)))?;
                    Target::Link(vec![l])
                }
                None => Target::Link(Vec::new()),
            },
            Sort::PlainForce
                if m.on.is_none()
                    && m.of.is_none()
                    && self.driver().is_some()
                    && (m.way == Some(Way::Forward)
                        || self
                            .bodies_of(m.by.as_ref())
                            .is_some_and(|b| b.as_slice() == self.driver().as_slice())) =>
            {
                let on = self.driver();
                Target::Force(self.force_on(Role::Driving, on, span))
            }
            Sort::Reaction | Sort::PlainForce | Sort::Resultant => match self.contact_target(m) {
                Some(t) => t,
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

    /// Remembers a letter of the text for what it measures.
    pub(crate) fn letter(&mut self, letter: &str, kind: Kind) {
        if !self.story.letters.iter().any(|(l, _)| l == letter) {
            self.story.letters.push((letter.to_owned(), kind));
        }
    }
}
