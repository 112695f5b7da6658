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
    /// Stood on bodies of the chain: on which, and how rough; then whether each is tied to the last one.
    piled: Vec<(Piece, usize, u8, bool)>,
    /// Hung in lifts, or over or under pulleys that move.
    hung: Vec<Piece>,
    story: u8,
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
    let later = (
        prop::collection::vec((piece(), 0usize..9, 0u8..3, any::<bool>()), 0..4),
        prop::collection::vec(piece(), 0..4),
        0u8..8,
    );
    (bodies, rest, later).prop_map(
        |(
            (chain, ahead, behind, riders),
            (line, angle, rises_right, rough, (joint, beyond), pull, given),
            (piled, hung, story),
        )| {
            Plan {
                line,
                angle,
                rises_right,
                chain,
                ahead,
                behind,
                riders,
                rough,
                joint,
                beyond,
                pull,
                given,
                piled,
                hung,
                story,
            }
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
        if !plan.riders.is_empty() {
            let mut above = front;
            for piece in &plan.hung {
                let body = add(&mut b, piece, piece.form, Line::Vertical);
                b.string("the string in the lift", above, body);
                above = body;
            }
        }
    }
    // What stands on bodies of the chain, and on each other.
    let mut piled: Vec<BodyId> = Vec::new();
    if plan.line != 1 {
        for (piece, on, grip, tied) in &plan.piled {
            // A string leaves from the top of a tower only: nothing stands in its way there.
            let tower = plan.story % 2 == 1;
            let lower: Vec<BodyId> = chain.iter().chain(&piled).copied().collect();
            let under = if tower { piled.last().copied().unwrap_or(front) } else { lower[on % lower.len()] };
            let body = add(&mut b, piece, piece.form, line);
            let mu = b.coefficient((*grip == 1).then(|| Rational::new(1, 5).unwrap().into()));
            b.on_top(body, under, if *grip == 2 { Grip::Smooth } else { Grip::Rough(mu) });
            // A cord joins neighbours on the same floor.
            let on_same = |other: BodyId| {
                b.situation().body(other).and_then(|o| o.surface.as_ref()?.under) == Some(under)
            };
            let beside = piled.last().filter(|b| *tied && !tower && on_same(**b));
            if let Some(before) = beside.copied() {
                b.string("the cord", body, before);
            }
            piled.push(body);
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
        // The string may leave from the top of a pile, run in two strands, or carry pulleys that move.
        let from = if plan.story.is_multiple_of(2) || other != Line::Vertical {
            front
        } else {
            piled.last().copied().unwrap_or(front)
        };
        match (plan.beyond, plan.hung.as_slice()) {
            (3, [one, two, rest @ ..]) if plan.line == 1 || from == front => {
                let wheel = b.light_pulley("the lower pulley", &one.label, Line::Vertical);
                let ends =
                    [add(&mut b, one, one.form, Line::Vertical), add(&mut b, two, two.form, Line::Vertical)];
                b.over_pulley("the upper string", from, wheel);
                let over = b.link(
                    "the lower string",
                    Holds::Pull,
                    false,
                    &[(wheel, -1), (ends[0], 1), (ends[1], 1)],
                );
                b.situation_mut().links[over.0].ends[0].times = 2;
                if let [three] = rest {
                    let below = add(&mut b, three, three.form, Line::Vertical);
                    b.string("the lowest string", ends[1], below);
                }
            }
            (4, [one, rest @ ..]) => {
                let wheel = b.light_pulley("the movable pulley", &one.label, Line::Vertical);
                let load = add(&mut b, one, one.form, Line::Vertical);
                b.string("the sling", wheel, load);
                let mut ends = vec![(from, 1), (wheel, 1)];
                for piece in rest.iter().take(1) {
                    ends.push((add(&mut b, piece, piece.form, Line::Vertical), 1));
                }
                let link = b.link("the rope", Holds::Pull, false, &ends);
                b.situation_mut().links[link.0].ends[1].times = 2;
            }
            _ => {
                let link = b.over_pulley("the string", from, body);
                if plan.beyond == 2 {
                    let end = usize::from(plan.story < 4);
                    b.situation_mut().links[link.0].ends[end].times = 2;
                }
            }
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
        if let Some(top) = piled.last() {
            b.act(role, "the pull on the top", *top, direction);
        }
    } else if let (Some(top), 5 | 7) = (piled.last().copied(), plan.story) {
        b.over_pulley("the string round the pulley", top, front);
    }
    if let (Some(piece), true) = (&plan.behind, plan.line != 1) {
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
    let stages = tell(&mut b, plan, stage, (front, rear));
    for stage in stages {
        b.heading(stage, front, 1);
    }
    b.finish()
}

/// What happens next.
fn tell(b: &mut Builder, plan: &Plan, stage: StageId, (front, rear): (BodyId, BodyId)) -> Vec<StageId> {
    let links = b.situation().links.len();
    let link = LinkId(links.saturating_sub(1));
    let at = if plan.rises_right { "the floor of the lower quay" } else { "the pulley" };
    let stops = Happening::Stops { body: BodyId(b.situation().bodies.len() - 1), at: at.to_owned() };
    match plan.story {
        1 if links > 0 => vec![b.then(stage, Happening::Breaks(link), State::Moving)],
        2 => {
            let second = b.then(stage, stops, State::Moving);
            b.situation_mut().stages[second.0].without_links.extend((links > 0).then_some(link));
            let speed = b.quantity(Kind::Speed, "v", "speed");
            b.journey_from(second, front, speed, true);
            if links == 0 {
                return vec![second];
            }
            let third = b.then(second, Happening::Tightens(link), State::Jerk);
            for body in b.situation().body_ids() {
                b.journey(third, body);
            }
            vec![second, third]
        }
        3 => vec![b.then(stage, Happening::Stops { body: front, at: at.to_owned() }, State::Released)],
        4 => {
            b.situation_mut().stages[stage.0].held.push(rear);
            b.situation_mut().stages[stage.0].name = "held by hand".to_owned();
            vec![b.then(stage, Happening::Changes, State::Moving)]
        }
        _ => Vec::new(),
    }
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

/// Seen: the same on a slope with a pulley at each end, where the pulleys say how long it is.
#[test]
fn a_gentle_slope_between_two_pulleys_is_long_enough_too() {
    let piece = || Piece { form: Form::Person, label: "A".to_owned(), mass: None, resistance: None };
    for (angle, beyond) in [(10, 0), (3, 0), (10, 2), (14, 1), (60, 3)] {
        let plan = Plan {
            line: 2,
            angle,
            rises_right: false,
            chain: vec![piece()],
            ahead: Some(piece()),
            behind: Some(piece()),
            riders: Vec::new(),
            rough: false,
            joint: 0,
            beyond,
            pull: None,
            given: None,
            piled: Vec::new(),
            hung: Vec::new(),
            story: 0,
        };
        assert_eq!(overlaps(&scene(&build(&plan), None)), Vec::<String>::new(), "{angle}° and {beyond}");
    }
}

/// Seen: the floor on which a wide body has landed, at the third end of a string, ran across the load beside it.
#[test]
fn the_floor_under_one_body_keeps_clear_of_the_next() {
    let piece =
        |form: Form, label: &str| Piece { form, label: label.to_owned(), mass: None, resistance: None };
    let plan = Plan {
        line: 0,
        angle: 3,
        rises_right: true,
        chain: vec![piece(Form::Particle, "A")],
        ahead: Some(piece(Form::Particle, "A")),
        behind: None,
        riders: Vec::new(),
        rough: false,
        joint: 0,
        beyond: 4,
        pull: None,
        given: None,
        piled: Vec::new(),
        hung: vec![piece(Form::Particle, "aaaamm"), piece(Form::Vehicle, "A")],
        story: 2,
    };
    let situation = build(&plan);
    for stage in situation.stage_ids() {
        let Ok(solved) = motion::solve(&situation, stage, 0) else { continue };
        assert_eq!(overlaps(&scene(&situation, Some(&solved))), Vec::<String>::new(), "stage {}", stage.0);
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
        // Many contacts that may slip or stick take long to solve, and draw no other way than few.
        let stages = situation.stage_ids().filter(|_| situation.bodies.len() <= 7);
        for stage in stages {
            let Ok(solved) = motion::solve(&situation, stage, 0) else { continue };
            for figure in all(&situation, &solved) {
                prop_assert_eq!(overlaps(&figure), Vec::<String>::new(), "{}", figure.title);
                prop_assert!(roxmltree::Document::parse(&figure.svg).is_ok());
                prop_assert!(!figure.svg.contains("NaN"));
            }
        }
    }
}
