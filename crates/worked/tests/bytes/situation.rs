//! Any bytes, read as a situation: sound or not, as odd as may be. Every byte decides one thing; when they run out,
//! noughts follow.

use exact::{Angle, Rational, Value};
use model::*;

/// The bytes still to be read.
struct Bytes<'a>(std::slice::Iter<'a, u8>);

impl Bytes<'_> {
    fn next(&mut self) -> usize {
        usize::from(self.0.next().copied().unwrap_or(0))
    }
    fn of<T: Copy>(&mut self, list: &[T], other: T) -> T {
        list.get(self.next() % list.len().max(1)).copied().unwrap_or(other)
    }
    fn one_in(&mut self, times: usize) -> bool {
        self.next().is_multiple_of(times)
    }
    fn sense(&mut self) -> i8 {
        match self.next() {
            255 => 0,
            byte => {
                if byte % 2 == 0 {
                    1
                } else {
                    -1
                }
            }
        }
    }
    /// A value: mostly a small fraction, now and then a letter, a root, something huge, tiny or negative.
    fn value(&mut self) -> Value {
        let (sort, a) = (self.next(), i64::try_from(self.next()).unwrap_or(1));
        let plain = |num: i64, den: i64| Value::rational(Rational::new(num, den).unwrap_or(Rational::ONE));
        match sort % 16 {
            0 => Value::zero(),
            1 => plain(-a, 3),
            2 => Value::symbol(
                ["m", "k", "P", "g", "x"].get(usize::try_from(a).unwrap_or(0) % 5).unwrap_or(&"m"),
            ),
            3 => plain(a + 1, 1).sqrt().unwrap_or_else(|_| Value::one()),
            4 => plain(i64::MAX - a, 7),
            5 => plain(1, i64::MAX - a),
            6 => plain(1, 2) + plain(a, 1000), // close to halves
            7 | 8 => plain(a, 8),
            9 | 10 => plain(a, 20),
            _ => plain(1 + a, 1),
        }
    }
    fn maybe(&mut self) -> Option<Value> {
        (!self.one_in(8)).then(|| self.value())
    }
    fn angle(&mut self) -> Angle {
        match self.next() % 8 {
            0 => Angle::Degrees(Rational::from_int(i64::try_from(self.next() % 100).unwrap_or(0))),
            1 => match self.next() % 8 {
                0 => Angle::Sin(self.value()),
                1 => Angle::Cos(self.value()),
                2 => Angle::Tan(self.value()),
                _ => Angle::Degrees(Rational::from_int(45)),
            },
            4 => Angle::Degrees(Rational::from_int(30)),
            5 => Angle::Degrees(Rational::from_int(40)),
            _ => Angle::Tan(Value::rational(Rational::new(3, 4).unwrap_or(Rational::ONE))),
        }
    }
    /// The number of one of so many, rarely one that is not there.
    fn index(&mut self, many: usize) -> usize {
        let byte = self.next();
        if byte == 255 { many } else { byte % many.max(1) }
    }
}

const STATES: [State; 6] =
    [State::Released, State::Moving, State::AtRest, State::Limiting, State::Steady, State::Jerk];

/// Reads a situation.
pub(crate) fn situation(bytes: &[u8]) -> Situation {
    let mut at = Bytes(bytes.iter());
    let mut b = Builder::new();
    match at.next() % 8 {
        0 => b.gravity(10.into()),
        1 => {
            b.open_letter("g", Kind::Gravity);
            b.gravity(Value::symbol("g"));
        }
        2 => {
            let g = at.value();
            b.gravity(g);
        }
        _ => {}
    }
    for (letter, kind) in [("m", Kind::Mass), ("k", Kind::Number), ("P", Kind::Force)] {
        if at.one_in(4) {
            b.open_letter(letter, kind);
        }
    }
    let angles: Vec<QuantityId> = (0..at.next() % 3)
        .map(|_| match at.next() % 6 {
            0 => b.quantity(Kind::Angle, "θ", "angle"),
            _ => {
                let angle = at.angle();
                b.angle("α", angle)
            }
        })
        .collect();
    let bodies = 1 + at.next() % 5;
    for i in 0..bodies {
        body(&mut b, &mut at, i, &angles);
    }
    for i in 0..if bodies > 1 { at.next() % 6 } else { 0 } {
        link(&mut b, &mut at, i, bodies);
    }
    for i in 0..at.next() % 4 {
        let roles = [Role::Applied, Role::Resistance, Role::Driving, Role::Braking, Role::Cable, Role::Other];
        let role = at.of(&roles, Role::Applied);
        let direction = match (at.next() % 4, angles.first()) {
            (0, Some(angle)) => Direction::At { sense: at.sense(), angle: *angle, lifts: at.one_in(2) },
            (1, _) => Direction::Opposing,
            _ => Direction::Along(at.sense()),
        };
        let on = BodyId(at.index(bodies));
        b.act(role, &format!("the force {}", i + 1), on, direction);
    }
    for i in 0..1 + at.next() % 3 {
        stage(&mut b, &mut at, i);
    }
    for _ in 0..at.next() % 2 {
        relation(&mut b, &mut at);
    }
    for part in 0..1 + at.next() % 3 {
        ask(&mut b, &mut at, part);
    }
    b.finish()
}

fn body(b: &mut Builder, at: &mut Bytes, i: usize, angles: &[QuantityId]) {
    let line = match (at.next() % 3, angles.get(at.next() % 2)) {
        (0, Some(angle)) => Line::Slope { angle: *angle, rises_right: at.one_in(2) },
        (1, _) => Line::Level,
        _ => Line::Vertical,
    };
    let name = format!("the load {}", i + 1);
    if at.one_in(10) {
        b.light_pulley(&name, "", line);
        return;
    }
    let forms = [Form::Block, Form::Vehicle, Form::Trailer, Form::Lift, Form::Person, Form::Load];
    let (form, mass) = (at.of(&forms, Form::Block), at.maybe());
    let id = b.body(&name, "", form, line, mass);
    let grip = match at.next() % 4 {
        0 => Grip::Smooth,
        1 => Grip::Unsaid,
        _ => {
            let mu = at.maybe();
            Grip::Rough(b.coefficient(mu))
        }
    };
    match at.next() % 6 {
        0 => b.on_top(id, BodyId(at.index(i + 1)), grip),
        1 | 2 if line != Line::Vertical => b.surface(id, "the ground", grip),
        3 if at.one_in(8) => b.surface(id, "the ground", grip),
        _ => {}
    }
}

fn link(b: &mut Builder, at: &mut Bytes, i: usize, bodies: usize) {
    let holds = at.of(&[Holds::Pull, Holds::Pull, Holds::PullOrPush, Holds::Push], Holds::Pull);
    let ends = if at.one_in(6) { 3 } else { 2 };
    let first = at.index(bodies);
    let ends: Vec<End> = (0..ends)
        .map(|n| End {
            body: BodyId(if n == 0 || first >= bodies {
                first
            } else {
                (first + n + at.next() / 128) % bodies
            }),
            sense: at.sense(),
            times: at.of(&[1, 1, 1, 1, 2, 2, 3, 1], 1) * u8::from(at.next() < 250),
        })
        .collect();
    let name = format!("the string {}", i + 1);
    let id = match at.next() % 3 {
        0 => b.over_pulley(&name, BodyId(0), BodyId(0)),
        _ => b.link(&name, holds, holds == Holds::Push, &[]),
    };
    if let Some(link) = b.situation_mut().links.get_mut(id.0) {
        link.ends = ends;
    }
}

fn stage(b: &mut Builder, at: &mut Bytes, i: usize) {
    let state = at.of(&STATES, State::Moving);
    let id = match (i, at.next() % 4) {
        (1.., 1..) => {
            let (link, body, action) = (LinkId(at.index(3)), BodyId(at.index(3)), ActionId(at.index(3)));
            let with = match at.next() % 7 {
                0 => Happening::Breaks(link),
                1 => Happening::Slackens(link),
                2 => Happening::Tightens(link),
                3 => Happening::Stops { body, at: "the floor".to_owned() },
                4 => Happening::Rests(body),
                5 => Happening::Ends(action),
                _ => Happening::Starts(action),
            };
            b.then(StageId(i - 1), with, state)
        }
        _ => b.stage(state),
    };
    let bodies = b.situation().bodies.len();
    for action in 0..b.situation().actions.len() {
        if let Some(size) = at.maybe() {
            b.size(id, ActionId(action), size);
        }
    }
    if at.one_in(2) {
        let (body, sense) = (BodyId(at.index(bodies)), at.sense());
        b.heading(id, body, sense);
    }
    for _ in 0..at.next() % 3 {
        let body = BodyId(at.index(bodies));
        // A journey may begin as one of the stage before ended.
        let before =
            i.checked_sub(1).and_then(|s| b.situation().stage(StageId(s))?.journeys.first().cloned());
        let journey = match before {
            Some(before) if at.one_in(2) => b.journey_from(id, body, before.end_speed, at.one_in(3)),
            _ => b.journey(id, body),
        };
        let Some(journey) = journey else { continue };
        for quantity in [journey.start_speed, journey.end_speed, journey.distance, journey.time] {
            if at.one_in(2) {
                let value = if at.one_in(3) { Value::zero() } else { at.value() };
                b.know(quantity, value);
            }
        }
    }
    if at.one_in(4) {
        let known = at.value();
        let here = b.situation().stage(id).cloned();
        let from = here.map(|s| [s.accelerations, s.links].concat()).unwrap_or_default();
        if let Some(quantity) = from.get(at.next() % from.len().max(1)) {
            b.know(*quantity, known);
        }
    }
    if let (0, Some(stage)) = (at.next() % 6, b.situation_mut().stages.get_mut(id.0)) {
        stage.held.push(BodyId(at.index(bodies)));
    }
    if let (0, Some(stage)) = (at.next() % 8, b.situation_mut().stages.get_mut(id.0)) {
        stage.about_to_slip.push(BodyId(at.index(bodies)));
    }
}

fn relation(b: &mut Builder, at: &mut Bytes) {
    let quantities = b.situation().quantities.len();
    let terms = (0..2 + at.next() % 2)
        .map(|_| {
            let of = (0..at.next() % 3).map(|_| QuantityId(at.index(quantities))).collect();
            (at.value(), of)
        })
        .collect();
    let name = "a fact".to_owned();
    b.situation_mut().relations.push(Relation { terms, name, span: None, from_part: 0 });
}

fn matter(at: &mut Bytes, quantity: QuantityId) -> Matter {
    match at.next() % 8 {
        0 => Matter::StaysAtRest(None),
        1 => Matter::StaysAtRest(Some(BodyId(at.index(3)))),
        2 => Matter::Bears(LinkId(at.index(3))),
        3 => Matter::Taut(LinkId(at.index(3))),
        4 => Matter::LiftsOff(BodyId(at.index(3))),
        5 => Matter::Reaches { body: BodyId(at.index(3)), gone: QuantityId(at.next()), way: quantity },
        6 => {
            let is = [Comparison::Same, Comparison::More, Comparison::Less][at.next() % 3];
            Matter::Compares { left: QuantityId(at.next()), is, times: at.value(), right: quantity }
        }
        _ => Matter::Slips(BodyId(at.index(3))),
    }
}

fn ask(b: &mut Builder, at: &mut Bytes, part: usize) {
    let quantity = QuantityId(at.index(b.situation().quantities.len()));
    let wanted = match at.next() % 16 {
        0 => Wanted::Magnitude(quantity),
        1 => Wanted::Deceleration(BodyId(at.index(3))),
        2 => Wanted::PulleyForce(PulleyId(at.index(2))),
        3 => Wanted::WhichWay(BodyId(at.index(3))),
        4 => Wanted::AccelerationWay(BodyId(at.index(3))),
        5 => Wanted::TensionOrThrust(LinkId(at.index(3))),
        6 => Wanted::WhetherItMoves,
        7 => Wanted::Range(quantity),
        8 => Wanted::Effect { change: Change::More(quantity), on: QuantityId(at.next()) },
        9 => Wanted::Statement(Topic::Inextensible),
        10 => Wanted::Whether {
            matter: matter(at, quantity),
            told: [None, Some(true), Some(false)][at.next() % 3],
        },
        _ => Wanted::Quantity(quantity),
    };
    let stages = b.situation().stages.len();
    let stage = StageId(at.index(stages));
    b.ask(["a", "b", "c"].get(part).copied().unwrap_or_default(), stage, "what is asked", wanted);
    let accuracy = match at.next() % 6 {
        0 => Some(Accuracy::Exact),
        1 => Some(Accuracy::Places(u32::try_from(at.next() % 6).unwrap_or(0))),
        2 => Some(Accuracy::Significant(u32::try_from(at.next() % 6).unwrap_or(0))),
        _ => None,
    };
    if let Some(ask) = b.situation_mut().asks.last_mut() {
        ask.accuracy = accuracy;
    }
}
