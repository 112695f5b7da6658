//! What the tests share: small worlds of Marram Quay.
#![allow(dead_code, unreachable_pub, reason = "each test file uses its own share of this")]
#![allow(clippy::expect_used, reason = "a test that cannot be set up should stop")]

pub mod energy;
pub mod landing;
pub mod lots;
pub mod random;

use exact::{Angle, Rational, Value};
use model::{
    BodyId, Builder, Direction, Form, Grip, Line, LinkId, QuantityId, Role, Situation, StageId, State,
};
use motion::Solved;

/// A fraction.
pub fn ratio(num: i64, den: i64) -> Value {
    Value::rational(Rational::new(num, den).expect("a denominator other than zero"))
}

/// The angle with this tangent.
pub fn tan(num: i64, den: i64) -> Angle {
    Angle::Tan(ratio(num, den))
}

/// Checks an exact value.
#[track_caller]
pub fn assert_value(found: Option<&Value>, expected: &Value) {
    let found = found.expect("the value is found");
    assert!((found - expected).is_zero(), "found {found}, expected {expected}");
}

/// A situation in the making.
pub struct World {
    pub b: Builder,
    pub bodies: Vec<BodyId>,
}

/// A situation and its bodies.
pub struct Built {
    pub situation: Situation,
    pub bodies: Vec<BodyId>,
}

impl World {
    pub fn new() -> World {
        World { b: Builder::new(), bodies: Vec::new() }
    }
    pub fn body(&mut self, name: &str, line: Line, mass: Value) -> BodyId {
        self.form(name, Form::Block, line, mass)
    }
    pub fn form(&mut self, name: &str, form: Form, line: Line, mass: Value) -> BodyId {
        let id = self.b.body(name, "", form, line, Some(mass));
        self.bodies.push(id);
        id
    }
    pub fn unknown_body(&mut self, name: &str, line: Line) -> BodyId {
        let id = self.b.body(name, "", Form::Block, line, None);
        self.bodies.push(id);
        id
    }
    /// Smooth, or rough with this coefficient.
    pub fn ground(&mut self, body: BodyId, mu: Option<Value>) {
        let grip = match mu {
            Some(mu) => Grip::Rough(self.b.coefficient(Some(mu))),
            None => Grip::Smooth,
        };
        self.b.surface(body, "the ground", grip);
    }
    pub fn stage(&mut self, state: State) -> StageId {
        self.b.stage(state)
    }
    /// Gives the acceleration of a body along its own line.
    pub fn know_acceleration(&mut self, stage: StageId, body: BodyId, value: Value) {
        let id = self.b.situation().stages[stage.0].accelerations[body.0];
        self.b.know(id, value);
    }
    pub fn finish(self) -> Built {
        let situation = self.b.finish();
        assert!(situation.check().is_empty(), "a sound situation: {:?}", situation.check());
        Built { situation, bodies: self.bodies }
    }
}

impl Built {
    /// The first stage, solved and proved.
    #[track_caller]
    pub fn solved(&self) -> Solved {
        let solved = motion::solve(&self.situation, StageId(0), 0).expect("a motion that fits");
        motion::check(&self.situation, &solved).expect("every equation and condition holds");
        solved
    }
    pub fn tension(&self, link: usize) -> QuantityId {
        self.situation.stages[0].links[LinkId(link).0]
    }
    pub fn friction(&self, body: usize) -> QuantityId {
        self.situation.stages[0].frictions[body].expect("a rough surface")
    }
}

/// Two bodies that hang over a pulley, released.
pub fn atwood(one: Value, other: Value) -> Built {
    let mut w = World::new();
    let p = w.body("P", Line::Vertical, one);
    let q = w.body("Q", Line::Vertical, other);
    w.b.over_pulley("the string", p, q);
    w.stage(State::Released);
    w.finish()
}

/// A body on a table, joined over a pulley to one that hangs, released.
pub fn table(on_table: Value, hanging: Value, mu: Option<Value>) -> Built {
    let mut w = World::new();
    let a = w.body("A", Line::Level, on_table);
    w.ground(a, mu);
    let c = w.body("C", Line::Vertical, hanging);
    w.b.over_pulley("the string", a, c);
    w.stage(State::Released);
    w.finish()
}

/// A body on a slope, joined over a pulley at its top to one that hangs, released.
pub fn slope_and_load(on_slope: Value, hanging: Value, angle: Angle, mu: Option<Value>) -> Built {
    let mut w = World::new();
    let angle = w.b.angle("α", angle);
    let a = w.body("A", Line::Slope { angle, rises_right: true }, on_slope);
    w.ground(a, mu);
    let c = w.body("C", Line::Vertical, hanging);
    w.b.over_pulley("the string", a, c);
    w.stage(State::Released);
    w.finish()
}

/// A train on the level, moving forwards: mass and resistance of each, and what drives or brakes the first.
pub fn towed(train: &[(i64, i64)], drive: Option<i64>, brake: Option<i64>) -> Built {
    let mut w = World::new();
    for (i, (mass, _)) in train.iter().enumerate() {
        w.form(&format!("truck {}", i + 1), Form::Trailer, Line::Level, (*mass).into());
    }
    for i in 1..train.len() {
        let name = if train.len() == 2 { "the tow-bar".to_owned() } else { format!("coupling {i}") };
        w.b.tow(&name, w.bodies[i - 1], w.bodies[i]);
    }
    let mut sizes = Vec::new();
    for (i, (_, resistance)) in train.iter().enumerate() {
        let name = format!("the resistance on truck {}", i + 1);
        sizes.push((w.b.act(Role::Resistance, &name, w.bodies[i], Direction::Opposing), *resistance));
    }
    if let Some(force) = drive {
        sizes.push((w.b.act(Role::Driving, "the driving force", w.bodies[0], Direction::Along(1)), force));
    }
    if let Some(force) = brake {
        sizes.push((w.b.act(Role::Braking, "the braking force", w.bodies[0], Direction::Along(-1)), force));
    }
    let stage = w.stage(State::Moving);
    for (action, size) in sizes {
        w.b.size(stage, action, size.into());
    }
    w.b.heading(stage, w.bodies[0], 1);
    w.finish()
}
