//! A load that lands: the set-ups of stories that the tests of several crates share. Built with the model alone.
#![allow(dead_code, unreachable_pub, reason = "each test file uses its own share of this")]
#![allow(clippy::expect_used, reason = "a test that cannot be set up should stop")]

use exact::{Rational, Value};
use model::{
    BodyId, Builder, Form, Grip, Happening, Journey, Kind, Line, LinkId, QuantityId, Relation, StageId, State,
};

/// A load falls from rest and draws another body; told as far as its fall.
pub struct Landing {
    pub b: Builder,
    pub drawn: BodyId,
    pub load: BodyId,
    pub string: LinkId,
    pub falls: StageId,
    /// Of the load.
    pub fall: Journey,
    /// Of the table, where it is rough.
    pub mu: Option<QuantityId>,
}

/// P and Q hang over a pulley; Q falls.
pub fn two_hang(light: Value, heavy: Value) -> Landing {
    let mut b = Builder::new();
    let p = b.body("P", "P", Form::Particle, Line::Vertical, Some(light));
    let q = b.body("Q", "Q", Form::Particle, Line::Vertical, Some(heavy));
    falls(b, p, q, None)
}

/// A block on a table: smooth, or rough with a coefficient that may be to be found.
pub fn over_the_edge(block: Value, load: Value, mu: Option<Option<Value>>) -> Landing {
    let mut b = Builder::new();
    let a = b.body("the block", "block", Form::Block, Line::Level, Some(block));
    let mu = mu.map(|value| b.coefficient(value));
    b.surface(a, "the table", mu.map_or(Grip::Smooth, Grip::Rough));
    let c = b.body("the load", "load", Form::Load, Line::Vertical, Some(load));
    falls(b, a, c, mu)
}

fn falls(mut b: Builder, drawn: BodyId, load: BodyId, mu: Option<QuantityId>) -> Landing {
    let string = b.over_pulley("the string", drawn, load);
    let falls = b.stage(State::Released);
    b.heading(falls, load, -1);
    let fall = b.journey(falls, load).expect("a journey");
    b.know(fall.start_speed, Value::zero());
    Landing { b, drawn, load, string, falls, fall, mu }
}

/// What follows when the string has gone slack: up and back, the jerk, and on together.
pub struct Tightening {
    pub loose: StageId,
    /// To the highest point.
    pub rise: Journey,
    /// Until the string is taut.
    pub slack: Journey,
    pub jerks: StageId,
    /// Of the drawn body and of the load.
    pub jerk: [Journey; 2],
    pub lifts: StageId,
    /// Of the load, to its highest point.
    pub lifted: Journey,
    /// The kinetic energy lost.
    pub lost: QuantityId,
}

impl Landing {
    /// The load stays on the floor, and the string is slack.
    pub fn lands(&mut self) -> StageId {
        let lands = Happening::Stops { body: self.load, at: "the floor".to_owned() };
        let loose = self.b.then(self.falls, lands, State::Moving);
        let string = self.string;
        if let Some(stage) = self.b.situation_mut().stages.get_mut(loose.0) {
            stage.without_links.push(string);
        }
        self.b.heading(loose, self.drawn, 1);
        loose
    }

    /// The drawn body goes on with the speed that it has by then.
    pub fn goes_on(&mut self, stage: StageId) -> Journey {
        let speed = self.fall.end_speed;
        self.b.journey_from(stage, self.drawn, speed, false).expect("a journey")
    }

    fn mass(&self, body: BodyId) -> QuantityId {
        self.b.situation().bodies.get(body.0).expect("a body").mass
    }

    /// The drawn body comes down again, the string tightens with a jerk, and the load is lifted.
    pub fn tightens(&mut self) -> Tightening {
        let loose = self.lands();
        let rise = self.goes_on(loose);
        self.b.know(rise.end_speed, Value::zero());
        let slack = self.b.journey_from(loose, self.drawn, self.fall.end_speed, true).expect("a journey");
        self.b.know(slack.distance, Value::zero());
        let jerks = self.b.then(loose, Happening::Tightens(self.string), State::Jerk);
        let back =
            self.b.total(Kind::Speed, "u", "speed of P as the string tightens", &[(-1, slack.end_speed)]);
        self.b.heading(jerks, self.drawn, -1);
        let one = self.b.journey_from(jerks, self.drawn, back, false).expect("a journey");
        let still = self.b.quantity(Kind::Speed, "u", "speed of Q before the jerk");
        self.b.know(still, Value::zero());
        let two = self.b.journey_from(jerks, self.load, still, false).expect("a journey");
        let lifts = self.b.then(jerks, Happening::Changes, State::Moving);
        let lifted = self.b.journey_from(lifts, self.load, two.end_speed, false).expect("a journey");
        self.b.know(lifted.end_speed, Value::zero());
        let (light, heavy) = (self.mass(self.drawn), self.mass(self.load));
        let lost = self.energy(&[
            (1, light, one.start_speed),
            (-1, light, one.end_speed),
            (-1, heavy, two.end_speed),
        ]);
        Tightening { loose, rise, slack, jerks, jerk: [one, two], lifts, lifted, lost }
    }

    /// A sum of ½mv², each with its sign.
    fn energy(&mut self, terms: &[(i64, QuantityId, QuantityId)]) -> QuantityId {
        let id = self.b.quantity(Kind::Energy, "E", "kinetic energy lost");
        let half = |sign: i64| Value::rational(Rational::new(sign, 2).expect("a half"));
        let mut sum = vec![(Value::from_int(-1), vec![id])];
        sum.extend(terms.iter().map(|(sign, m, v)| (half(*sign), vec![*m, *v, *v])));
        let name = "kinetic energy is lost".to_owned();
        self.b.situation_mut().relations.push(Relation { terms: sum, name, span: None, from_part: 0 });
        id
    }
}
