//! Turns a mention of a quantity in a statement into a fact of the story.

mod forces;
mod target;

use crate::noun::Ref;
use crate::quantity::{Mention, Sort};
use crate::reader::Reader;
use crate::story::{Fact, Given, MotionTold, Target, ValueTold, Way};
use model::{Form, Kind, Role, Span, State};

impl Reader<'_> {
    pub(crate) fn bodies_of(&self, r: Option<&Ref>) -> Option<Vec<usize>> {
        match r? {
            Ref::Bodies(b) => Some(b.clone()),
            Ref::System => Some(self.all_bodies()),
            _ => None,
        }
    }

    fn all_bodies(&self) -> Vec<usize> {
        (0..self.story.bodies.len()).collect()
    }

    /// Whose quantity is meant: the bodies named, else the subject of the sentence, else those last named.
    fn whose(&self, named: Option<&Ref>) -> Vec<usize> {
        self.bodies_of(named).or_else(|| self.subject_bodies()).unwrap_or_else(|| self.latest.clone())
    }

    fn subject_bodies(&self) -> Option<Vec<usize>> {
        (!self.subject.is_empty()).then(|| self.subject.clone())
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

    /// Records what a mention in a statement tells. False if it tells nothing that can be used.
    pub(crate) fn tell(&mut self, m: &Mention) -> bool {
        let told = self.tell_one(m);
        if told {
            self.last_told = Some(m.clone());
        }
        told
    }

    fn tell_one(&mut self, m: &Mention) -> bool {
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
                let of = self.whose(about());
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
            // Brakes on several vehicles, or several sizes of one force: which is whose is not followed.
            Sort::Force(Role::Braking)
                if m.amounts.len() > 1
                    || matches!(m.on.as_ref().or(m.of.as_ref()), Some(Ref::Bodies(b)) if b.len() > 1)
                    || m.total =>
            {
                false
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
                // Between each block and the table: no coefficient of the blocks with each other.
                let ground = m.between.iter().any(|r| matches!(r, Ref::Surface(_)));
                if bodies.len() > 1 && ground {
                    self.story.grounded.push(self.story.coefficients.len());
                }
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
                // "The coefficient of kinetic friction is 0.4", beside that of static friction.
                if m.sliding == Some(true)
                    && self.last_told.as_ref().is_some_and(|l| l.sliding == Some(false))
                    && let (Some(given), Some(last)) = (&given, self.story.coefficients.last())
                {
                    let of = if bodies.is_empty() { last.0.clone() } else { bodies };
                    self.told(
                        m.start,
                        m.end,
                        "once it slides, friction is this many times the normal reaction",
                    );
                    self.story.sliding.push((of, given.clone()));
                    return true;
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
                let of = self.whose(about());
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
                let of = self.whose(about());
                let given = self.given(amount);
                self.told(m.start, m.end, format!("distance {}", amount.written));
                self.fact(of, span, Fact::Distance(given));
                true
            }
            Sort::Time => false,
        }
    }

    /// A force named by where it acts: on a pulley, between bodies, of a floor.
    fn tell_force(&mut self, m: &Mention) -> bool {
        let span = self.span(m.start, m.end);
        let amount = match m.amounts.as_slice() {
            [a] => Some(a.clone()),
            [] => None,
            _ => return self.tell_forces(m),
        };
        // Of a floor, or a link: a reaction or tension by value.
        if let Some(target) = self.contact_target(m) {
            let Some(amount) = amount else { return false };
            let given = self.given(&amount);
            self.told(m.start, m.end, format!("this force is {}", amount.written));
            self.set_value(target, given, "this force");
            return true;
        }
        if m.sort != Sort::PlainForce || m.total {
            return false;
        }
        // Otherwise an applied force.
        let on = self.bodies_of(m.on.as_ref()).or_else(|| self.bodies_of(m.of.as_ref()));
        let Some([one]) = on.as_deref() else { return false };
        let (one, opposing) = (*one, m.opposing);
        let f = if opposing {
            self.force_on(Role::Resistance, Some(one), span)
        } else {
            self.applied_on(one, m, span)
        };
        if let Some(a) = &amount {
            let given = self.given(a);
            self.set_force(f, given);
        }
        self.describe_force(f, m, m.way);
        self.told(m.start, m.end, format!("a force on {}", self.name(one)));
        true
    }

    /// `forces of 900 N and 700 N act on the barge in the same direction`: as many forces as sizes, on one body.
    fn tell_forces(&mut self, m: &Mention) -> bool {
        let on = self.bodies_of(m.on.as_ref()).or_else(|| self.bodies_of(m.of.as_ref()));
        let Some([one]) = on.as_deref() else { return false };
        let ways: Vec<Option<Way>> = match (m.opposed, m.amounts.len()) {
            (Some(true), 2) => vec![Some(Way::Right), Some(Way::Left)],
            (Some(true), _) => return false,
            (Some(false), n) => vec![m.way.or(Some(Way::Forward)); n],
            (None, n) => vec![m.way; n],
        };
        if m.sort != Sort::PlainForce || m.total || m.opposing || !m.plural || ways.contains(&None) {
            return false;
        }
        for (amount, way) in m.amounts.clone().into_iter().zip(ways) {
            let each = Mention { indefinite: true, amounts: vec![amount.clone()], ..m.clone() };
            let f = self.applied_on(*one, &each, amount.span);
            let given = self.given(&amount);
            self.set_force(f, given);
            self.describe_force(f, &each, way);
        }
        self.told(m.start, m.end, format!("forces on {}", self.name(*one)));
        true
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
                let sized = bodies.iter().any(|b| {
                    self.story
                        .forces
                        .iter()
                        .any(|f| f.role == Role::Resistance && f.on == Some(*b) && f.size.is_some())
                });
                if sized {
                    return false;
                }
                // Resistances without a size: they are there, and unknown.
                for b in bodies.clone() {
                    self.force_on(Role::Resistance, Some(b), span);
                }
                self.told(m.start, m.end, "resistances of a size not given here");
                true
            }
            [] => false,
            [one] if bodies.len() != 1 => {
                let each = (m.start.saturating_sub(4).max(self.lo)..m.end)
                    .any(|k| matches!(self.w(k), "each" | "both" | "every"));
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

    fn set_value(&mut self, what: Target, given: Given, name: &str) {
        if let Some(old) = self
            .story
            .values
            .iter()
            .find(|v| {
                v.what == what
                    && v.given.value != given.value
                    && v.given.part == given.part
                    && v.chapter == self.chapter
            })
            .map(|v| v.given.clone())
        {
            self.contradiction(name, &old, &given);
            return;
        }
        self.story.values.push(ValueTold { what, given, chapter: self.chapter });
    }

    /// A fact of motion: for the story, or in a question for what is asked.
    pub(crate) fn fact(&mut self, of: Vec<usize>, span: Span, fact: Fact) {
        let released = matches!(fact, Fact::State(State::Released))
            || matches!(&fact, Fact::StartSpeed(g) if self.releasing && g.value.is_zero());
        if self.asking && !released {
            let first = self.first_ask;
            if self.story.asks.len() > first {
                if let Some(ask) = self.story.asks.last_mut() {
                    // The time taken for B to move 1 m is that of B.
                    let timed = ask.target == Target::Time
                        && matches!(fact, Fact::Distance(_) | Fact::EndSpeed(_))
                        && of.len() == 1
                        && ask.of.is_empty();
                    if matches!(fact, Fact::Heading(_)) || timed {
                        ask.of = of;
                    }
                    ask.facts.push(fact);
                }
            } else {
                self.setting.push(fact);
            }
            return;
        }
        self.story.motions.push(MotionTold { of, part: self.part, span, fact, chapter: self.chapter });
    }

    /// Remembers a letter of the text for what it measures.
    pub(crate) fn letter(&mut self, letter: &str, kind: Kind) {
        if !self.story.letters.iter().any(|(l, _)| l == letter) {
            self.story.letters.push((letter.to_owned(), kind));
        }
    }
}
