//! Clean figures for situations that nobody has drawn before.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may stop where it fails")]

mod support;

use exact::{Angle, Rational, Value};
use figure::{all, overlaps, scene};
use model::*;
use proptest::prelude::*;

fn form() -> impl Strategy<Value = Form> {
    prop_oneof![
        Just(Form::Particle),
        Just(Form::Block),
        Just(Form::Vehicle),
        Just(Form::Trailer),
        Just(Form::Load),
        Just(Form::Person)
    ]
}

fn label() -> impl Strategy<Value = String> {
    prop_oneof![
        3 => "[A-Z]",
        2 => "[a-z]{3,9}",
        1 => "[a-z]{2,7} [a-z]{2,9}",
        1 => "\\PC{1,20}",
    ]
}

#[derive(Clone, Debug)]
struct Piece {
    form: Form,
    label: String,
    mass: Option<i64>,
    resistance: Option<i64>,
}

fn piece() -> impl Strategy<Value = Piece> {
    (form(), label(), prop::option::weighted(0.8, 1i64..20_000), prop::option::of(1i64..5_000))
        .prop_map(|(form, label, mass, resistance)| Piece { form, label, mass, resistance })
}

#[derive(Clone, Debug)]
struct Plan {
    line: u8,
    angle: i64,
    rises_right: bool,
    chain: Vec<Piece>,
    ahead: Option<Piece>,
    behind: Option<Piece>,
    riders: Vec<Piece>,
    rough: bool,
    joint: u8,
    beyond: u8,
    pull: Option<(i64, bool, i64)>,
    given: Option<i64>,
}

fn plan() -> impl Strategy<Value = Plan> {
    let bodies = (
        prop::collection::vec(piece(), 1..9),
        prop::option::of(piece()),
        prop::option::of(piece()),
        prop::collection::vec(piece(), 0..4),
    );
    let rest = (
        0u8..3,
        3i64..75,
        any::<bool>(),
        any::<bool>(),
        (0u8..3, 0u8..5),
        prop::option::of((5i64..80, any::<bool>(), 1i64..9000)),
        prop::option::of(-8i64..8),
    );
    (bodies, rest).prop_map(
        |(
            (chain, ahead, behind, riders),
            (line, angle, rises_right, rough, (joint, beyond), pull, given),
        )| {
            Plan { line, angle, rises_right, chain, ahead, behind, riders, rough, joint, beyond, pull, given }
        },
    )
}

fn build(plan: &Plan) -> Situation {
    let mut b = Builder::new();
    let slope = b.angle("α", Angle::Degrees(plan.angle.into()));
    let line = match plan.line {
        0 => Line::Level,
        1 => Line::Vertical,
        _ => Line::Slope { angle: slope, rises_right: plan.rises_right },
    };
    let mut resistances = Vec::new();
    let mut add = |b: &mut Builder, piece: &Piece, form: Form, line: Line| {
        let body = b.body(&piece.label, &piece.label, form, line, piece.mass.map(Value::from_int));
        if let Some(size) = piece.resistance {
            let r = b.act(Role::Resistance, "resistance", body, Direction::Opposing);
            resistances.push((r, size));
        }
        body
    };
    let mut chain: Vec<BodyId> = Vec::new();
    for piece in &plan.chain {
        let form = if plan.line == 1 && !plan.riders.is_empty() { Form::Lift } else { piece.form };
        let body = add(&mut b, piece, form, line);
        if let (true, true) = (plan.rough, line != Line::Vertical) {
            let mu = b.coefficient(Some(Value::rational(Rational::new(1, 4).unwrap())));
            b.surface(body, "the quay", Grip::Rough(mu));
        }
        if let Some(front) = chain.last().copied() {
            match plan.joint {
                0 => b.tow("the coupling", front, body),
                1 if line != Line::Vertical => b.rests_on("the contact", front, body),
                _ => b.string("the rope", front, body),
            };
        }
        chain.push(body);
    }
    let (front, rear) = (chain[0], chain[chain.len() - 1]);
    if plan.line == 1 {
        let mut under = front;
        for (i, piece) in plan.riders.iter().enumerate() {
            let body = add(&mut b, piece, piece.form, Line::Vertical);
            b.rests_on("the floor", body, under);
            under = if i % 2 == 0 { body } else { front };
        }
    }
    if let Some(piece) = &plan.ahead {
        // Beyond the pulley: mostly something that hangs, else another slope or level, or a movable pulley.
        let other = match plan.beyond {
            0 => Line::Slope { angle: slope, rises_right: !plan.rises_right },
            1 if plan.line == 2 => Line::Level,
            _ => Line::Vertical,
        };
        let body = add(&mut b, piece, piece.form, other);
        let link = b.over_pulley("the string", front, body);
        if plan.beyond == 2 {
            b.situation_mut().links[link.0].ends[1].times = 2;
        }
    } else if let Some((angle, lifts, _)) = plan.pull {
        let angle = b.angle("θ", Angle::Degrees(angle.into()));
        let (role, direction) = match plan.beyond {
            0 => (Role::Cable, Direction::Along(1)),
            1 => (Role::Applied, Direction::Along(1)),
            2 => (Role::Other, Direction::Along(-1)),
            _ => (Role::Applied, Direction::At { sense: 1, angle, lifts }),
        };
        b.act(role, "the pull", front, direction);
        b.act(Role::Applied, "the push", rear, direction);
    }
    if let (Some(piece), true) = (&plan.behind, plan.line == 0) {
        let body = add(&mut b, piece, piece.form, Line::Vertical);
        let link = b.over_pulley("the other string", rear, body);
        b.situation_mut().links[link.0].ends[0].sense = -1;
    }
    let stage = b.stage(State::Moving);
    for (r, size) in resistances {
        b.size(stage, r, size.into());
    }
    b.heading(stage, front, 1);
    if let Some(a) = plan.given {
        let q = b.situation().stage(stage).unwrap().accelerations[front.0];
        b.know(q, Value::rational(Rational::new(a, 4).unwrap()));
    }
    b.ask_acceleration("a", stage, front);
    b.finish()
}

/// Seen: on a slope of 10° with a single person the size of the angle lay across the end of the slope,
/// because the slope was only as long as the person asked for.
#[test]
fn a_gentle_slope_is_long_enough_for_its_angle() {
    for (angle, rises_right) in [(3, true), (10, false), (10, true), (14, false), (40, true), (74, false)] {
        let mut b = Builder::new();
        let angle = b.angle("α", Angle::Degrees(angle.into()));
        let line = Line::Slope { angle, rises_right };
        let body = b.body("A", "A", Form::Person, line, None);
        let stage = b.stage(State::Moving);
        b.heading(stage, body, 1);
        assert_eq!(overlaps(&scene(&b.finish(), None)), Vec::<String>::new());
    }
}

/// So many random cases, or as many as `PROPTEST_CASES` asks for.
fn config(cases: u32) -> ProptestConfig {
    let asked = std::env::var("PROPTEST_CASES").ok().and_then(|n| n.parse().ok());
    ProptestConfig { cases: asked.unwrap_or(cases), failure_persistence: None, ..ProptestConfig::default() }
}

proptest! {
    #![proptest_config(config(300))]

    #[test]
    fn nothing_overlaps(plan in plan()) {
        let situation = build(&plan);
        let told = scene(&situation, None);
        prop_assert_eq!(overlaps(&told), Vec::<String>::new());
        if let Ok(solved) = motion::solve(&situation, StageId(0), 0) {
            for figure in all(&situation, &solved) {
                prop_assert_eq!(overlaps(&figure), Vec::<String>::new(), "{}", figure.title);
                prop_assert!(roxmltree::Document::parse(&figure.svg).is_ok());
                prop_assert!(!figure.svg.contains("NaN"));
            }
        }
    }
}
