//! How a printed case is set up and compared.

use crate::support::World;
use exact::{Angle, Rational, Value, round_significant};
use model::{
    ActionId, BodyId, Builder, Direction, Form, Grip, Journey, Line, LinkId, QuantityId, Role, Situation,
    StageId, State,
};
use motion::Solved;

/// A decimal as it is printed, exactly.
#[track_caller]
pub(crate) fn dec(text: &str) -> Value {
    let (mantissa, power) = text.split_once('e').unwrap_or((text, "0"));
    let ten = Rational::from_int(10).pow(power.parse().expect("a power of ten")).expect("a power");
    Value::rational(Rational::parse_decimal(mantissa).expect("a decimal") * ten)
}

/// Checks a value against a printed one: as many significant figures as are printed, the rounding certified
/// by `exact`. Write 1.2e3 for a printed 1200 that means two figures.
#[track_caller]
pub(crate) fn printed(value: &Value, text: &str) {
    let expected = dec(text);
    if expected.is_zero() {
        assert!(value.is_zero(), "found {value}, printed {text}");
        return;
    }
    let mantissa = text.split_once('e').map_or(text, |(m, _)| m);
    let figures = mantissa.trim_start_matches(['-', '0', '.']).chars().filter(char::is_ascii_digit).count();
    let rounded = round_significant(value, u32::try_from(figures).expect("few figures")).expect("settled");
    let shown = Value::rational(Rational::parse_decimal(&rounded.digits).expect("a decimal"));
    assert!((&shown - &expected).is_zero(), "found {value}, which is {}, printed {text}", rounded.digits);
}

/// Checks that a printed value is not the rounding of the exact one, as the notes on these cases say.
#[track_caller]
pub(crate) fn misprinted(value: &Value, text: &str) {
    let right = std::panic::catch_unwind(|| printed(value, text));
    assert!(right.is_err(), "{text} agrees with {value} after all");
}

/// A case in the making.
pub(crate) struct Case {
    w: World,
    sizes: Vec<(ActionId, Value)>,
}

/// A case, solved and proved.
pub(crate) struct Found {
    pub(crate) situation: Situation,
    pub(crate) solved: Solved,
}

impl Case {
    pub(crate) fn new() -> Case {
        Case { w: World::new(), sizes: Vec::new() }
    }
    pub(crate) fn b(&mut self) -> &mut Builder {
        &mut self.w.b
    }
    /// g, where it is not 9.8.
    pub(crate) fn g(mut self, g: Value) -> Case {
        self.w.b.gravity(g);
        self
    }
    pub(crate) fn slope(&mut self, degrees: &str) -> Line {
        let angle = Angle::Degrees(Rational::parse_decimal(degrees).expect("degrees"));
        Line::Slope { angle: self.w.b.angle("α", angle), rises_right: true }
    }
    pub(crate) fn body(&mut self, line: Line, mass: &str) -> BodyId {
        self.of_mass(line, dec(mass))
    }
    pub(crate) fn of_mass(&mut self, line: Line, mass: Value) -> BodyId {
        let name = format!("body {}", self.w.bodies.len() + 1);
        self.w.form(&name, Form::Block, line, mass)
    }
    pub(crate) fn smooth(&mut self, body: BodyId) {
        self.w.b.surface(body, "the ground", Grip::Smooth);
    }
    /// Makes the ground rough; the coefficient.
    pub(crate) fn rough(&mut self, body: BodyId, mu: Option<Value>) -> QuantityId {
        let mu = self.w.b.coefficient(mu);
        self.w.b.surface(body, "the ground", Grip::Rough(mu));
        mu
    }
    /// A force along the line, of this size or to be found.
    pub(crate) fn push(&mut self, on: BodyId, sense: i8, size: Option<Value>) -> ActionId {
        self.force(Role::Applied, on, Direction::Along(sense), size)
    }
    pub(crate) fn resist(&mut self, on: BodyId, size: Option<Value>) -> ActionId {
        self.force(Role::Resistance, on, Direction::Opposing, size)
    }
    /// A force at an angle to the line, in its positive sense, lifting or pressing.
    pub(crate) fn pull_at(
        &mut self,
        on: BodyId,
        degrees: &str,
        lifts: bool,
        size: Option<Value>,
    ) -> ActionId {
        let angle = Angle::Degrees(Rational::parse_decimal(degrees).expect("degrees"));
        let angle = self.w.b.angle("β", angle);
        self.force(Role::Applied, on, Direction::At { sense: 1, angle, lifts }, size)
    }
    pub(crate) fn force(
        &mut self,
        role: Role,
        on: BodyId,
        direction: Direction,
        size: Option<Value>,
    ) -> ActionId {
        let name = format!("force {}", self.w.b.situation().actions.len() + 1);
        let id = self.w.b.act(role, &name, on, direction);
        self.sizes.extend(size.map(|s| (id, s)));
        id
    }
    /// The one stage; `heading` is the way in which the first body moves.
    pub(crate) fn stage(&mut self, state: State, heading: Option<i8>) -> StageId {
        let stage = self.w.b.stage(state);
        for (action, size) in &self.sizes {
            self.w.b.size(stage, *action, size.clone());
        }
        if let Some(sense) = heading {
            self.w.b.heading(stage, BodyId(0), sense);
        }
        stage
    }
    /// Gives the acceleration of a body along its line.
    pub(crate) fn accelerates(&mut self, body: BodyId, a: Value) {
        self.w.know_acceleration(StageId(0), body, a);
    }
    pub(crate) fn journey(&mut self, body: BodyId, known: [Option<&str>; 4]) -> Journey {
        let journey = self.w.b.journey(StageId(0), body).expect("a body");
        let ids = [journey.start_speed, journey.end_speed, journey.distance, journey.time];
        for (id, value) in ids.into_iter().zip(known) {
            if let Some(value) = value {
                self.w.b.know(id, dec(value));
            }
        }
        journey
    }
    #[track_caller]
    pub(crate) fn solve(self) -> Found {
        let built = self.w.finish();
        let solved = built.solved();
        Found { situation: built.situation, solved }
    }
}

impl Found {
    #[track_caller]
    pub(crate) fn value(&self, id: QuantityId) -> Value {
        self.solved.value(id).cloned().expect("found")
    }
    #[track_caller]
    pub(crate) fn a(&self, body: BodyId) -> Value {
        self.solved.acceleration(body).cloned().expect("found")
    }
    #[track_caller]
    pub(crate) fn link(&self, link: LinkId) -> Value {
        self.value(self.situation.stages[0].links[link.0])
    }
    #[track_caller]
    pub(crate) fn force(&self, action: ActionId) -> Value {
        self.value(self.situation.stages[0].forces[action.0])
    }
    #[track_caller]
    pub(crate) fn reaction(&self, body: BodyId) -> Value {
        self.value(self.situation.stages[0].reactions[body.0].expect("a surface"))
    }
    #[track_caller]
    pub(crate) fn friction(&self, body: BodyId) -> Value {
        self.value(self.situation.stages[0].frictions[body.0].expect("a rough surface"))
    }
}
