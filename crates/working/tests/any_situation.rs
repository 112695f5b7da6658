//! Situations thrown together at random: whatever they are, nothing panics, and what is shown is proved.

#![allow(clippy::expect_used, reason = "a test may stop where its own building blocks fail")]

mod common;

use exact::{Angle, Rational, Value};
use model::*;
use proptest::prelude::*;

/// The shape of a random situation, as small numbers.
type Shape = (Vec<(u8, u8, u8)>, Vec<(u8, u8, u8)>, Vec<(u8, u8, u8)>, u8, Vec<(u8, u8)>);

fn shapes() -> impl Strategy<Value = Shape> {
    let three = || (any::<u8>(), any::<u8>(), any::<u8>());
    (
        prop::collection::vec(three(), 1..5),
        prop::collection::vec(three(), 0..4),
        prop::collection::vec(three(), 0..4),
        any::<u8>(),
        prop::collection::vec((any::<u8>(), any::<u8>()), 1..5),
    )
}

fn build((bodies, links, actions, state, asks): Shape) -> Situation {
    let mut b = Builder::new();
    let angle = b.angle("α", Angle::Tan(Value::rational(Rational::new(3, 4).expect("3/4"))));
    let steep = b.angle("β", Angle::Degrees(Rational::from_int(40)));
    let mut ids = Vec::new();
    for (n, (line, mass, grip)) in bodies.iter().enumerate() {
        let line = match line % 4 {
            0 => Line::Level,
            1 => Line::Vertical,
            2 => Line::Slope { angle, rises_right: true },
            _ => Line::Slope { angle: steep, rises_right: false },
        };
        let name = char::from(b'A' + u8::try_from(n).expect("few bodies")).to_string();
        let mass = (mass % 11 != 0).then(|| Value::from_int(i64::from(mass % 11)));
        let id = b.body(&name, &name, Form::Block, line, mass);
        match grip % 3 {
            0 => {}
            1 => b.surface(id, "the floor", Grip::Smooth),
            _ => {
                let mu = b.coefficient((grip % 7 != 0).then(|| common::dec("0.3")));
                b.surface(id, "the floor", Grip::Rough(mu));
            }
        }
        ids.push(id);
    }
    for (n, (one, other, sort)) in links.iter().enumerate() {
        let (one, other) = (ids[usize::from(*one) % ids.len()], ids[usize::from(*other) % ids.len()]);
        if one == other {
            continue;
        }
        let name = format!("link {n}");
        match sort % 4 {
            0 => b.over_pulley(&name, one, other),
            1 => b.tow(&name, one, other),
            2 => b.string(&name, one, other),
            _ => b.rests_on(&name, one, other),
        };
    }
    let mut forces = Vec::new();
    for (n, (on, sort, size)) in actions.iter().enumerate() {
        let on = ids[usize::from(*on) % ids.len()];
        let direction = match sort % 4 {
            0 => Direction::Along(1),
            1 => Direction::Along(-1),
            2 => Direction::Opposing,
            _ => Direction::At { sense: 1, angle, lifts: *size > 100 },
        };
        forces.push((b.act(Role::Other, &format!("force {n}"), on, direction), *size));
    }
    let states = [State::AtRest, State::Limiting, State::Steady, State::Released, State::Moving];
    let stage = b.stage(states[usize::from(state) % 5]);
    for (force, size) in forces {
        if size % 5 != 0 {
            b.size(stage, force, Value::from_int(i64::from(size)));
        }
    }
    if state % 3 == 0 {
        b.heading(stage, ids[0], 1);
    }
    let journey = b.journey(stage, ids[0]);
    if let Some(j) = &journey {
        b.know(j.start_speed, Value::from_int(i64::from(state % 4)));
        b.know(j.distance, Value::from_int(3));
    }
    for (n, (what, which)) in asks.iter().enumerate() {
        let which = usize::from(*which);
        let body = ids[which % ids.len()];
        let part = n.to_string();
        let quantity = QuantityId(which % b.situation().quantities.len());
        let links = b.situation().links.len();
        let link = LinkId(which % links.max(1));
        let wanted = match what % 10 {
            0 => Wanted::Deceleration(body),
            1 => Wanted::WhichWay(body),
            2 => Wanted::WhetherItMoves,
            3 if links > 0 => Wanted::TensionOrThrust(link),
            4 => Wanted::PulleyForce(PulleyId(0)),
            5 => Wanted::Statement(Topic::Limitation),
            7 => Wanted::Whether { matter: Matter::Slips(body), told: None },
            8 => Wanted::Whether { matter: Matter::Taut(link), told: None },
            9 => Wanted::Whether { matter: Matter::StaysAtRest(Some(body)), told: None },
            _ => Wanted::Quantity(quantity),
        };
        b.ask(&part, stage, "what is asked", wanted);
    }
    b.finish()
}

/// So many random cases, or as many as `PROPTEST_CASES` asks for.
fn config(cases: u32) -> ProptestConfig {
    let asked = std::env::var("PROPTEST_CASES").ok().and_then(|n| n.parse().ok());
    ProptestConfig { cases: asked.unwrap_or(cases), failure_persistence: None, ..ProptestConfig::default() }
}

proptest! {
    #![proptest_config(config(300))]

    #[test]
    fn nothing_panics_and_every_step_is_proved(shape in shapes()) {
        let situation = build(shape);
        let work = common::worked(&situation);
        prop_assert_eq!(work.answers.len(), situation.asks.len());
        for d in &work.diagnostics {
            prop_assert!(!d.message.contains("could not be proved"), "{}\n{}", d.message, work.plain());
            prop_assert!(!d.message.contains("do not agree"), "{}\n{}", d.message, work.plain());
        }
        for answer in &work.answers {
            let said = answer.refused.is_some() || !answer.shown.is_empty() || !answer.text.is_empty();
            prop_assert!(said, "{:?} of {:?}", answer, situation.asks[answer.ask]);
        }
    }
}
