//! Makes a sound situation in a few lines: gives every quantity its number, its letter and its name.

use crate::*;
use exact::{Angle, Value};
use std::collections::{BTreeMap, BTreeSet};

/// Builds a [`Situation`]. Bodies, links and named forces come first; [`Builder::stage`] then
/// gives each of them its acceleration, tension, reaction and friction in that stage.
///
/// ```
/// use model::{Builder, Form, Line, Role, Direction, State};
/// let mut b = Builder::new();
/// let engine = b.body("the engine", "engine", Form::Vehicle, Line::Level, Some(1200.into()));
/// let truck = b.body("the truck", "truck", Form::Trailer, Line::Level, Some(800.into()));
/// b.tow("the coupling", engine, truck);
/// let drive = b.act(Role::Driving, "the driving force", engine, Direction::Along(1));
/// let stage = b.stage(State::Moving);
/// b.size(stage, drive, 3000.into());
/// b.heading(stage, engine, 1);
/// b.ask_acceleration("a", stage, engine);
/// let situation = b.finish();
/// assert!(situation.check().is_empty());
/// ```
#[derive(Clone, Debug)]
pub struct Builder {
    situation: Situation,
    /// The question's own letters, each with the quantities that it names.
    reserved: BTreeMap<String, BTreeSet<QuantityId>>,
}

impl Default for Builder {
    fn default() -> Builder {
        Builder::new()
    }
}

impl Builder {
    /// An empty situation with g = 9.8 m s⁻², assumed.
    pub fn new() -> Builder {
        let mut b = Builder { situation: Situation::default(), reserved: BTreeMap::new() };
        let g = b.quantity(Kind::Gravity, "g", "acceleration of free fall");
        b.situation.gravity = Some(g);
        if let (Some(q), Some(ten)) = (b.situation.quantities.get_mut(g.0), exact::Rational::new(49, 5)) {
            q.known = Some(Known {
                value: Value::rational(ten),
                written: "9.8 m s⁻²".to_owned(),
                basis: Basis::Assumed,
                from_part: 0,
            });
        }
        b
    }
    /// What has been built so far.
    pub fn situation(&self) -> &Situation {
        &self.situation
    }
    /// What has been built so far, to be changed in place.
    pub fn situation_mut(&mut self) -> &mut Situation {
        &mut self.situation
    }

    /// A new quantity, unknown as yet.
    pub fn quantity(&mut self, kind: Kind, letter: &str, name: &str) -> QuantityId {
        let id = QuantityId(self.situation.quantities.len());
        self.situation.quantities.push(Quantity {
            kind,
            symbol: String::new(),
            letter: letter.to_owned(),
            name: name.to_owned(),
            known: None,
        });
        id
    }
    /// Gives a quantity a value, as a given without a place in any text.
    pub fn know(&mut self, id: QuantityId, value: Value) {
        let written = value.to_string();
        self.know_as(id, Known { value, written, basis: Basis::Given(Span::default()), from_part: 0 });
    }
    /// Gives a quantity a value with all that is known about where it comes from.
    pub fn know_as(&mut self, id: QuantityId, known: Known) {
        if let Some(q) = self.situation.quantities.get_mut(id.0) {
            q.known = Some(known);
        }
    }
    /// Writes a quantity with the question's own letter; no other quantity will take it.
    pub fn letter(&mut self, id: QuantityId, letter: &str) {
        self.reserved.entry(letter.to_owned()).or_default().insert(id);
        if let Some(q) = self.situation.quantities.get_mut(id.0) {
            q.letter = letter.to_owned();
        }
    }
    /// A letter that stands for itself in the answers.
    pub fn open_letter(&mut self, symbol: &str, kind: Kind) {
        self.reserved.entry(symbol.to_owned()).or_default();
        if !self.situation.letters.iter().any(|l| l.symbol == symbol) {
            self.situation.letters.push(Letter { symbol: symbol.to_owned(), kind });
        }
    }
    /// Sets g, as the question gives it.
    pub fn gravity(&mut self, value: Value) {
        if let Some(g) = self.situation.gravity {
            self.know(g, value);
        }
    }
    /// An angle, as the question gives it.
    pub fn angle(&mut self, letter: &str, angle: Angle) -> QuantityId {
        let id = self.quantity(Kind::Angle, letter, "angle");
        self.situation.angles.insert(id, angle);
        id
    }

    /// A body that hangs, or stands on a surface of which nothing is said yet.
    pub fn body(&mut self, name: &str, label: &str, form: Form, line: Line, mass: Option<Value>) -> BodyId {
        let bare = name.strip_prefix("the ").unwrap_or(name);
        let q = self.quantity(Kind::Mass, "m", &format!("mass of {name}"));
        if let Some(value) = mass {
            self.know(q, value);
        }
        let surface = match line {
            Line::Vertical => None,
            Line::Level | Line::Slope { .. } => Some(Surface::new("the ground", Grip::Unsaid)),
        };
        let id = BodyId(self.situation.bodies.len());
        self.situation.bodies.push(Body {
            name: name.to_owned(),
            label: if label.is_empty() { bare.to_owned() } else { label.to_owned() },
            form,
            mass: q,
            line,
            surface,
            span: None,
        });
        id
    }
    /// Says what a body stands on.
    pub fn surface(&mut self, body: BodyId, name: &str, grip: Grip) {
        if let Some(b) = self.situation.bodies.get_mut(body.0) {
            b.surface = Some(Surface::new(name, grip));
        }
    }
    /// Says that a body stands on another one.
    pub fn on_top(&mut self, load: BodyId, under: BodyId, grip: Grip) {
        let name = self.situation.body(under).map(|b| b.name.clone()).unwrap_or_default();
        if let Some(b) = self.situation.bodies.get_mut(load.0) {
            b.surface = Some(Surface { under: Some(under), ..Surface::new(&name, grip) });
        }
    }
    /// A light pulley that moves along its line with the strings.
    pub fn light_pulley(&mut self, name: &str, label: &str, line: Line) -> BodyId {
        let id = self.body(name, label, Form::Pulley, line, Some(Value::zero()));
        if let Some(b) = self.situation.bodies.get_mut(id.0) {
            b.surface = None;
        }
        id
    }
    /// A coefficient of friction.
    pub fn coefficient(&mut self, value: Option<Value>) -> QuantityId {
        let q = self.quantity(Kind::Coefficient, "μ", "coefficient of friction");
        if let Some(value) = value {
            self.know(q, value);
        }
        q
    }

    /// A link of any sort.
    pub fn link(&mut self, name: &str, holds: Holds, is_contact: bool, ends: &[(BodyId, i8)]) -> LinkId {
        let id = LinkId(self.situation.links.len());
        self.situation.links.push(Link {
            name: name.to_owned(),
            holds,
            is_contact,
            ends: ends.iter().map(|&(body, sense)| End { body, sense, times: 1 }).collect(),
            pulleys: Vec::new(),
            bears: None,
            span: None,
        });
        id
    }
    /// Says how great a force a link can bear without breaking; the quantity may be known or wanted.
    pub fn bears(&mut self, link: LinkId, most: Option<Value>) -> QuantityId {
        let name = self.situation.link(link).map_or_else(String::new, |l| l.name.clone());
        let id = self.quantity(Kind::Tension, "T_max", &format!("greatest tension that {name} can bear"));
        if let Some(value) = most {
            self.know(id, value);
        }
        if let Some(l) = self.situation.links.get_mut(link.0) {
            l.bears = Some(id);
        }
        id
    }
    /// A rod or tow-bar from the body in front to the body behind.
    pub fn tow(&mut self, name: &str, front: BodyId, behind: BodyId) -> LinkId {
        self.link(name, Holds::PullOrPush, false, &[(behind, 1), (front, -1)])
    }
    /// A string from the body in front (or above) to the body behind (or below).
    pub fn string(&mut self, name: &str, front: BodyId, behind: BodyId) -> LinkId {
        self.link(name, Holds::Pull, false, &[(behind, 1), (front, -1)])
    }
    /// A string over a fixed pulley: it pulls each body towards the pulley, which lies in the positive
    /// sense of both lines.
    pub fn over_pulley(&mut self, name: &str, one: BodyId, other: BodyId) -> LinkId {
        let pulley = PulleyId(self.situation.pulleys.len());
        self.situation.pulleys.push(Pulley { name: "the pulley".to_owned(), span: None });
        let id = self.link(name, Holds::Pull, false, &[(one, 1), (other, 1)]);
        if let Some(link) = self.situation.links.get_mut(id.0) {
            link.pulleys.push(pulley);
        }
        id
    }
    /// A load on the floor of what carries it (a lift), or a body pushed by the one behind it: the first
    /// is pushed in the positive sense.
    pub fn rests_on(&mut self, name: &str, load: BodyId, carrier: BodyId) -> LinkId {
        self.link(name, Holds::Push, true, &[(load, 1), (carrier, -1)])
    }
    /// Says of a stage that a link is about to break: its force is the greatest that it can bear. `None` if it is not
    /// told how much that is ([`Builder::bears`]).
    pub fn about_to_break(&mut self, stage: StageId, link: LinkId) -> Option<()> {
        let it = self.situation.link(link)?;
        let (most, name) = (it.bears?, format!("{} is about to break", it.name));
        let force = self.situation.stage(stage)?.links.get(link.0).copied()?;
        let terms = vec![(Value::from_int(-1), vec![force]), (Value::from_int(1), vec![most])];
        self.situation.relations.push(Relation { terms, name, span: None, from_part: 0 });
        Some(())
    }
    /// A named force.
    pub fn act(&mut self, role: Role, name: &str, on: BodyId, direction: Direction) -> ActionId {
        let id = ActionId(self.situation.actions.len());
        self.situation.actions.push(Action { role, name: name.to_owned(), on, direction, span: None });
        id
    }

    /// A stage, with a quantity for every acceleration, tension, reaction and friction in it.
    /// Bodies, links and named forces must be there before.
    pub fn stage(&mut self, state: State) -> StageId {
        let id = StageId(self.situation.stages.len());
        let still = matches!(state, State::AtRest | State::Limiting | State::Steady);
        let bodies = self.situation.bodies.clone();
        let mut accelerations = Vec::new();
        let mut reactions = Vec::new();
        let mut frictions = Vec::new();
        for body in &bodies {
            let a = self.quantity(Kind::Acceleration, "a", &format!("acceleration of {}", body.name));
            if still {
                self.know_as(
                    a,
                    Known {
                        value: Value::zero(),
                        written: "0".to_owned(),
                        basis: Basis::Implied(Span::default(), "no acceleration".to_owned()),
                        from_part: 0,
                    },
                );
            }
            accelerations.push(a);
            reactions.push(body.surface.as_ref().map(|s| {
                self.quantity(Kind::Reaction, "R", &format!("normal reaction of {} on {}", s.name, body.name))
            }));
            let rough = body.surface.as_ref().is_some_and(|s| matches!(s.grip, Grip::Rough(_)));
            frictions.push(
                rough.then(|| self.quantity(Kind::Friction, "F", &format!("friction on {}", body.name))),
            );
        }
        let links = self.situation.links.clone();
        let links = links
            .iter()
            .map(|link| {
                if state == State::Jerk {
                    self.quantity(Kind::Impulse, "J", &format!("impulse in {}", link.name))
                } else if link.is_contact {
                    self.quantity(Kind::Reaction, "R", &link.name)
                } else {
                    self.quantity(Kind::Tension, "T", &format!("tension in {}", link.name))
                }
            })
            .collect();
        let actions = self.situation.actions.clone();
        let forces = actions
            .iter()
            .map(|action| {
                let (kind, letter) = match action.role {
                    Role::Driving => (Kind::Force, "D"),
                    Role::Braking => (Kind::Force, "B"),
                    Role::Applied | Role::Other => (Kind::Force, "P"),
                    Role::Cable => (Kind::Tension, "T"),
                    Role::Resistance => (Kind::Resistance, "X"),
                };
                self.quantity(kind, letter, &action.name)
            })
            .collect();
        self.situation.stages.push(Stage {
            name: String::new(),
            state,
            heading: None,
            accelerations,
            links,
            forces,
            reactions,
            frictions,
            journeys: Vec::new(),
            without_links: Vec::new(),
            without_actions: Vec::new(),
            held: Vec::new(),
            about_to_slip: Vec::new(),
            begins: None,
            span: None,
        });
        id
    }
    /// A stage that follows another: what ends that one begins this one.
    pub fn then(&mut self, after: StageId, with: Happening, state: State) -> StageId {
        let id = self.stage(state);
        if let Some(s) = self.situation.stages.get_mut(id.0) {
            match &with {
                Happening::Breaks(link) | Happening::Slackens(link) => s.without_links.push(*link),
                Happening::Stops { body, .. } => s.held.push(*body),
                Happening::Ends(action) => s.without_actions.push(*action),
                Happening::Tightens(_) | Happening::Rests(_) | Happening::Starts(_) | Happening::Changes => {}
            }
            s.begins = Some(Begins { after, with, span: None });
        }
        id
    }
    /// The size of a named force in a stage.
    pub fn size(&mut self, stage: StageId, action: ActionId, value: Value) {
        let id = self.situation.stage(stage).and_then(|s| s.forces.get(action.0).copied());
        if let Some(id) = id {
            self.know(id, value);
        }
    }
    /// Which way a body moves (or is about to) in a stage.
    pub fn heading(&mut self, stage: StageId, body: BodyId, sense: i8) {
        if let Some(s) = self.situation.stages.get_mut(stage.0) {
            s.heading = Some(Heading { body, sense });
        }
    }
    /// A journey of a body in a stage; the same one if it is asked for again.
    pub fn journey(&mut self, stage: StageId, body: BodyId) -> Option<Journey> {
        let found = self.situation.stage(stage)?.journeys.iter().find(|j| j.body == body).cloned();
        if found.is_some() {
            return found;
        }
        let name = self.situation.body(body)?.name.clone();
        let journey = Journey {
            body,
            start_speed: self.quantity(Kind::Speed, "u", &format!("initial speed of {name}")),
            end_speed: self.quantity(Kind::Speed, "v", &format!("speed of {name}")),
            distance: self.quantity(Kind::Distance, "s", &format!("distance moved by {name}")),
            time: self.quantity(Kind::Time, "t", "time taken"),
        };
        self.situation.stages.get_mut(stage.0)?.journeys.push(journey.clone());
        Some(journey)
    }

    /// A further journey of a body in a stage. It begins with this speed, which may be the one at which another
    /// journey ends; where the body may turn back on it (`turns`), velocity and displacement are signed.
    pub fn journey_from(
        &mut self,
        stage: StageId,
        body: BodyId,
        start_speed: QuantityId,
        turns: bool,
    ) -> Option<Journey> {
        let name = self.situation.body(body)?.name.clone();
        let (speed, distance) = match turns {
            true => (Kind::Velocity, Kind::Displacement),
            false => (Kind::Speed, Kind::Distance),
        };
        let moved = if turns { "displacement of" } else { "distance moved by" };
        let journey = Journey {
            body,
            start_speed,
            end_speed: self.quantity(speed, "v", &format!("{} of {name}", speed.word())),
            distance: self.quantity(distance, "s", &format!("{moved} {name}")),
            time: self.quantity(Kind::Time, "t", "time taken"),
        };
        self.situation.stages.get_mut(stage.0)?.journeys.push(journey.clone());
        Some(journey)
    }
    /// A quantity that is the sum of these, each taken so many times: a total distance, a height above the floor.
    pub fn total(&mut self, kind: Kind, letter: &str, name: &str, of: &[(i64, QuantityId)]) -> QuantityId {
        let id = self.quantity(kind, letter, name);
        let mut terms = vec![(Value::from_int(-1), vec![id])];
        terms.extend(of.iter().map(|(times, q)| (Value::from_int(*times), vec![*q])));
        self.situation.relations.push(Relation { terms, name: name.to_owned(), span: None, from_part: 0 });
        id
    }

    /// Asks for a quantity.
    pub fn ask(&mut self, part: &str, stage: StageId, phrase: &str, wanted: Wanted) {
        let part_index = match self.situation.asks.last() {
            Some(last) if last.part == part => last.part_index,
            Some(last) => last.part_index + 1,
            None => 0,
        };
        self.situation.asks.push(Ask {
            part: part.to_owned(),
            part_index,
            phrase: phrase.to_owned(),
            wanted,
            show: None,
            accuracy: None,
            stage,
            span: Span::default(),
            marks: None,
        });
    }
    /// Asks for the acceleration of a body.
    pub fn ask_acceleration(&mut self, part: &str, stage: StageId, body: BodyId) {
        let found = self.situation.stage(stage).and_then(|s| s.accelerations.get(body.0).copied());
        let name = self.situation.body(body).map(|b| b.name.clone()).unwrap_or_default();
        if let Some(id) = found {
            self.ask(part, stage, &format!("acceleration of {name}"), Wanted::Quantity(id));
        }
    }
    /// Asks for the tension (or push) of a link.
    pub fn ask_link(&mut self, part: &str, stage: StageId, link: LinkId) {
        let found = self.situation.stage(stage).and_then(|s| s.links.get(link.0).copied());
        let name = self.situation.link(link).map(|l| l.name.clone()).unwrap_or_default();
        if let Some(id) = found {
            self.ask(part, stage, &format!("tension in {name}"), Wanted::Quantity(id));
        }
    }

    /// The situation, every quantity with a letter and a symbol of its own.
    pub fn finish(mut self) -> Situation {
        crate::letters::assign(&mut self.situation, &self.reserved);
        let assumed = self
            .situation
            .gravity
            .and_then(|g| self.situation.quantity(g))
            .is_some_and(|q| q.known.as_ref().is_some_and(|k| k.basis == Basis::Assumed));
        if assumed {
            self.situation.assumed.insert(0, "g = 9.8 m s^-2".to_owned());
        }
        self.situation
    }
}
