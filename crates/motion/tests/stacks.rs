//! Bodies that stand on bodies: they stick together or slip, and push and rub on each other by Newton's third
//! law. UP = OpenStax University Physics vol. 1; "OST" the open physics test bank named in docs/closed-forms.md;
//! "worked by hand" marks forms derived for the purpose.

mod support;

use exact::Value;
use model::{Direction, Form, Grip, Line, Refusal, Role, StageId, State};
use motion::{ForceKind, FrictionState, Law};
use support::*;

/// A block m2 on the floor and a block m1 on it; one of the two is pulled forwards.
struct Two {
    w: World,
    lower: model::BodyId,
    upper: model::BodyId,
    pull: model::ActionId,
}

fn two(m_upper: i64, m_lower: i64, between: Option<Value>, floor: Option<Value>, pull_upper: bool) -> Two {
    let mut w = World::new();
    let lower = w.body("the lower block", Line::Level, m_lower.into());
    w.ground(lower, floor);
    let upper = w.body("the upper block", Line::Level, m_upper.into());
    let grip = match between {
        Some(mu) => Grip::Rough(w.b.coefficient(Some(mu))),
        None => Grip::Smooth,
    };
    w.b.on_top(upper, lower, grip);
    let pulled = if pull_upper { upper } else { lower };
    let pull = w.b.act(Role::Applied, "the pull", pulled, Direction::Along(1));
    Two { w, lower, upper, pull }
}

fn released(mut t: Two, pull: Value) -> Built {
    let stage = t.w.stage(State::Released);
    t.w.b.size(stage, t.pull, pull);
    t.w.finish()
}

/// OST Q120 in form (B26): the lower block is pulled; the greatest pull for which the upper does not slip is
/// (μs + μk)(m1 + m2)g, μs between the blocks and μk on the floor.
#[test]
fn the_greatest_pull_on_the_lower_block() {
    let mut t = two(2, 3, Some(ratio(1, 2)), Some(ratio(1, 5)), false);
    let stage = t.w.stage(State::Released);
    t.w.b.heading(stage, t.lower, 1);
    t.w.b.situation_mut().stages[stage.0].about_to_slip.push(t.upper);
    let (upper, pull) = (t.upper, t.pull);
    let w = t.w.finish();
    let solved = w.solved();
    assert_value(solved.value(w.situation.stages[0].forces[pull.0]), &(ratio(7, 10) * ratio(49, 1)));
    assert_value(solved.acceleration(upper), &ratio(49, 10)); // μs g
    assert_eq!(solved.case.frictions, vec![FrictionState::Sliding, FrictionState::Limiting]);
    assert_eq!(solved.accelerations[0], solved.accelerations[1], "they still move as one");
}

/// The same with the pull given: a little less and they move as one, a little more and the upper is left behind
/// with its μs g, while the lower gets ahead.
#[test]
fn the_lower_block_may_be_pulled_from_under() {
    // (μs + μk)(m1 + m2)g = 34.3.
    let w = released(two(2, 3, Some(ratio(1, 2)), Some(ratio(1, 5)), false), 34.into());
    let solved = w.solved();
    assert_eq!(solved.case.frictions, vec![FrictionState::Sliding, FrictionState::Static]);
    assert_value(solved.acceleration(w.bodies[1]), &ratio(121, 25)); // (34 − 9.8)/5
    assert_value(solved.value(w.friction(1)), &ratio(242, 25));
    let w = released(two(2, 3, Some(ratio(1, 2)), Some(ratio(1, 5)), false), 40.into());
    let solved = w.solved();
    assert_eq!(solved.case.frictions, vec![FrictionState::Sliding, FrictionState::Sliding]);
    assert_value(solved.acceleration(w.bodies[1]), &ratio(49, 10));
    assert_value(solved.acceleration(w.bodies[0]), &ratio(34, 5)); // (40 − 9.8 − 9.8)/3
    assert_eq!(solved.senses, vec![1, 1]);
}

/// B27 (worked by hand): the upper block m1 is pulled, the floor is smooth; they stay together up to
/// F = μ m1 g (m1 + m2)/m2.
#[test]
fn the_greatest_pull_on_the_upper_block() {
    let mut t = two(2, 5, Some(ratio(1, 4)), None, true);
    let stage = t.w.stage(State::Released);
    t.w.b.situation_mut().stages[stage.0].about_to_slip.push(t.upper);
    let pull = t.pull;
    let w = t.w.finish();
    let solved = w.solved();
    assert_value(solved.value(w.situation.stages[0].forces[pull.0]), &ratio(343, 50)); // 4.9 × 7/5
    // Given 7 N, it slips: a1 = (7 − 4.9)/2, a2 = 4.9/5.
    let w = released(two(2, 5, Some(ratio(1, 4)), None, true), 7.into());
    let solved = w.solved();
    assert_value(solved.acceleration(w.bodies[1]), &ratio(21, 20));
    assert_value(solved.acceleration(w.bodies[0]), &ratio(49, 50));
    // Given 6 N, it does not.
    let w = released(two(2, 5, Some(ratio(1, 4)), None, true), 6.into());
    assert_value(w.solved().acceleration(w.bodies[1]), &ratio(6, 7));
}

/// The greatest pull just does not make it slip: friction is at its limit and nothing slips.
#[test]
fn just_at_the_limit_nothing_slips() {
    let w = released(two(2, 5, Some(ratio(1, 4)), None, true), ratio(343, 50));
    let solved = w.solved();
    assert_eq!(solved.case.frictions[1], FrictionState::Static);
    assert_value(solved.value(w.friction(1)), &ratio(49, 10)); // μR
    assert_eq!(solved.accelerations[0], solved.accelerations[1]);
}

/// The push and the friction between two blocks are pairs of Newton's third law, and cancel from the equation
/// of both together; the floor carries both (worked by hand).
#[test]
fn the_blocks_act_on_each_other() {
    let w = released(two(2, 3, Some(ratio(1, 2)), Some(ratio(1, 5)), false), 34.into());
    let solved = w.solved();
    assert_value(solved.value(w.situation.stages[0].reactions[0].unwrap()), &Value::from_int(49));
    for kind in [ForceKind::Reaction, ForceKind::Friction] {
        let on_upper = solved.forces_on(w.bodies[1]).find(|f| f.kind == kind).unwrap();
        let partner = on_upper.partner.and_then(|id| solved.force(id)).unwrap();
        assert_eq!((partner.on, partner.kind, partner.partner), (w.bodies[0], kind, Some(on_upper.id)));
        assert_eq!(partner.size, on_upper.size);
        assert_eq!(partner.along.sense(), -on_upper.along.sense());
        assert_eq!(partner.across.sense(), -on_upper.across.sense());
    }
    let both = solved.equations.iter().find(|e| e.law == Law::Motion && e.system.len() == 2).unwrap();
    assert_eq!(both.internal.len(), 4, "two pairs inside");
    assert_eq!(both.left.len(), 2, "the pull and the friction of the floor");
}

/// A smooth top neither rubs nor sticks: the lower block moves away under the upper one.
#[test]
fn a_smooth_top_holds_nothing() {
    let w = released(two(2, 4, None, None, false), 12.into());
    let solved = w.solved();
    assert_value(solved.acceleration(w.bodies[0]), &Value::from_int(3));
    assert_value(solved.acceleration(w.bodies[1]), &Value::zero());
    assert_value(solved.value(w.situation.stages[0].reactions[0].unwrap()), &ratio(294, 5));
    let systems = solved.equations.iter().filter(|e| e.law == Law::Motion && e.system.len() > 1).count();
    assert_eq!(systems, 0, "they are no system with one acceleration");
}

/// B28, OST Q117 and UP Ex 6.12 in form: two blocks tied round a pulley at the wall, all surfaces with the same
/// μ. The pull that just moves the lower one is μg(3 m_upper + m_lower).
#[test]
fn blocks_tied_round_a_pulley() {
    let tied = |state: State, pull: Option<Value>| {
        let mut t = two(2, 5, Some(ratio(1, 4)), Some(ratio(1, 4)), false);
        t.w.b.over_pulley("the string", t.upper, t.lower);
        // The pulley lies behind.
        for end in &mut t.w.b.situation_mut().links[0].ends {
            end.sense = -1;
        }
        let stage = t.w.stage(state);
        if state == State::Limiting {
            t.w.b.heading(stage, t.lower, 1);
        }
        if let Some(pull) = pull {
            t.w.b.size(stage, t.pull, pull);
        }
        (t.w.finish(), t.pull)
    };
    let (w, pull) = tied(State::Limiting, None);
    let solved = w.solved();
    assert_value(solved.value(w.situation.stages[0].forces[pull.0]), &ratio(539, 20)); // 2.45 × 11
    assert_value(solved.value(w.tension(0)), &ratio(49, 10));
    // 26 N do not move them: how string and friction share the holding is not fixed.
    let (w, _) = tied(State::Released, Some(26.into()));
    let solved = w.solved();
    assert!(!solved.case.moves);
    assert!(solved.undetermined.iter().any(|(id, _)| *id == w.tension(0)), "{:?}", solved.undetermined);
    // 30 N do: 30 − 26.95 = 7a.
    let (w, _) = tied(State::Released, Some(30.into()));
    let solved = w.solved();
    assert_value(solved.acceleration(w.bodies[0]), &ratio(61, 140));
    assert_eq!(solved.senses, vec![1, -1], "the upper one is drawn back over the lower");
    assert_eq!(solved.case.frictions, vec![FrictionState::Sliding; 2]);
}

/// UP Ex 6.13 in form (B34): a crate on a truck slips if a > μs g, and then accelerates at μk g.
#[test]
fn a_crate_on_an_accelerating_truck() {
    let on_truck = |a: Value, two_coefficients: bool| {
        let mut w = World::new();
        let truck = w.form("the truck", Form::Vehicle, Line::Level, 1000.into());
        let crate_ = w.body("the crate", Line::Level, 50.into());
        let mu = w.b.coefficient(Some(ratio(2, 5)));
        w.b.on_top(crate_, truck, Grip::Rough(mu));
        if two_coefficients {
            let mu_k = w.b.coefficient(Some(ratio(3, 10)));
            w.b.situation_mut().bodies[crate_.0].surface.as_mut().unwrap().sliding = Some(mu_k);
        }
        let speeds_up = a.sign() == Ok(exact::Sign::Positive);
        let drive = if speeds_up {
            w.b.act(Role::Driving, "the driving force", truck, Direction::Along(1))
        } else {
            w.b.act(Role::Braking, "the braking force", truck, Direction::Along(-1))
        };
        let stage = w.stage(State::Moving);
        w.b.heading(stage, truck, 1);
        w.know_acceleration(stage, truck, a);
        (w.finish(), drive)
    };
    // Sticks: friction 50 × 3 = 150 < 196, driving force 1050 × 3.
    let (w, drive) = on_truck(3.into(), true);
    let solved = w.solved();
    assert_eq!(solved.case.frictions[1], FrictionState::Static);
    assert_value(solved.value(w.friction(1)), &Value::from_int(150));
    assert_value(solved.value(w.situation.stages[0].forces[drive.0]), &Value::from_int(3150));
    // Slips: a = μk g, driving force 1000 × 5 + 147.
    let (w, drive) = on_truck(5.into(), true);
    let solved = w.solved();
    assert_eq!(solved.case.frictions[1], FrictionState::Sliding);
    assert_value(solved.acceleration(w.bodies[1]), &ratio(147, 50));
    assert_value(solved.value(w.situation.stages[0].forces[drive.0]), &Value::from_int(5147));
    // With one coefficient it goes on at μg; braking at 5, it slides forwards and slows at μg.
    let (w, _) = on_truck(5.into(), false);
    assert_value(w.solved().acceleration(w.bodies[1]), &ratio(98, 25));
    let (w, _) = on_truck((-5).into(), false);
    let solved = w.solved();
    assert_value(solved.acceleration(w.bodies[1]), &ratio(-98, 25));
    assert_eq!(solved.senses, vec![1, 1], "both go forwards still");
}

/// The greatest acceleration of the truck for which the crate does not slip is μg (UP Ex 6.13 in form).
#[test]
fn the_greatest_acceleration_of_a_truck() {
    let mut w = World::new();
    let truck = w.form("the truck", Form::Vehicle, Line::Level, 1000.into());
    let crate_ = w.unknown_body("the crate", Line::Level);
    let mu = w.b.coefficient(Some(ratio(2, 5)));
    w.b.on_top(crate_, truck, Grip::Rough(mu));
    w.b.act(Role::Driving, "the driving force", truck, Direction::Along(1));
    let stage = w.stage(State::Moving);
    w.b.heading(stage, truck, 1);
    w.b.situation_mut().stages[stage.0].about_to_slip.push(crate_);
    let w = w.finish();
    assert_value(w.solved().acceleration(w.bodies[0]), &ratio(98, 25));
}

/// Three blocks on one another, the middle one pulled, the floor smooth (worked by hand with 1, 2 and 3 kg from
/// the top, μ = 1/2 between the upper two and 1/10 between the lower two): the lowest gets μ 3g = 2.94 N, the
/// upper two go together while (P − 2.94)/3 ≤ μg.
#[test]
fn three_blocks_on_one_another() {
    let stack = |pull: Value| {
        let mut w = World::new();
        let lowest = w.body("A", Line::Level, 3.into());
        w.ground(lowest, None);
        let middle = w.body("B", Line::Level, 2.into());
        let rough = w.b.coefficient(Some(ratio(1, 10)));
        w.b.on_top(middle, lowest, Grip::Rough(rough));
        let top = w.body("C", Line::Level, 1.into());
        let rougher = w.b.coefficient(Some(ratio(1, 2)));
        w.b.on_top(top, middle, Grip::Rough(rougher));
        let p = w.b.act(Role::Applied, "the pull", middle, Direction::Along(1));
        let stage = w.stage(State::Released);
        w.b.size(stage, p, pull);
        w.finish()
    };
    let w = stack(ratio(174, 10));
    let solved = w.solved();
    assert_value(solved.acceleration(w.bodies[0]), &ratio(49, 50));
    assert_value(solved.acceleration(w.bodies[1]), &ratio(241, 50)); // (17.4 − 2.94)/3 < 4.9
    assert_eq!(solved.accelerations[1], solved.accelerations[2]);
    let w = stack(20.into());
    let solved = w.solved();
    assert_value(solved.acceleration(w.bodies[2]), &ratio(49, 10));
    assert_value(solved.acceleration(w.bodies[1]), &ratio(608, 100)); // (20 − 2.94 − 4.9)/2
    let w = stack(4.into());
    let solved = w.solved();
    assert_value(solved.acceleration(w.bodies[2]), &ratio(2, 3)); // all three as one
    let whole = solved.equations.iter().find(|e| e.system.len() == 3).unwrap();
    assert_eq!((whole.internal.len(), whole.left.len()), (8, 1), "only the pull acts from outside");
}

/// A block on a block on a slope of tan θ = 3/4 (worked by hand). Smooth slope: both slide as one at g sin θ
/// without any friction between them. Rough slope, rough enough below: nothing moves, and the upper block holds
/// if tan θ ≤ μ.
#[test]
fn a_stack_on_a_slope() {
    let stack = |floor: Option<Value>, between: Value| {
        let mut w = World::new();
        let angle = w.b.angle("θ", tan(3, 4));
        let line = Line::Slope { angle, rises_right: true };
        let lower = w.body("the slab", line, 4.into());
        w.ground(lower, floor);
        let upper = w.body("the brick", line, 1.into());
        let mu = w.b.coefficient(Some(between));
        w.b.on_top(upper, lower, Grip::Rough(mu));
        w.stage(State::Released);
        w.finish()
    };
    let w = stack(None, ratio(1, 10));
    let solved = w.solved();
    assert_value(solved.acceleration(w.bodies[0]), &ratio(147, 25));
    assert_value(solved.value(w.friction(1)), &Value::zero());
    assert_eq!(solved.senses, vec![-1, -1]);
    let w = stack(Some(ratio(4, 5)), ratio(3, 4));
    let solved = w.solved();
    assert!(!solved.case.moves);
    assert_value(solved.value(w.friction(1)), &ratio(147, 25)); // g sin θ, just the limit
    assert_value(solved.value(w.friction(0)), &ratio(147, 5)); // 5g sin θ
    // A smoother brick slides off a slab that stays.
    let w = stack(Some(ratio(4, 5)), ratio(1, 4));
    let solved = w.solved();
    assert_eq!(solved.case.frictions, vec![FrictionState::Static, FrictionState::Sliding]);
    assert_value(solved.acceleration(w.bodies[1]), &ratio(98, 25)); // g(sin θ − μ cos θ)
    assert_value(solved.value(w.friction(0)), &(ratio(588, 25) + ratio(49, 25))); // 4g sin θ + μg cos θ
    // A slab that slides under a brick that sticks: a = g(sin θ − μ cos θ) for both.
    let w = stack(Some(ratio(1, 4)), ratio(1, 2));
    let solved = w.solved();
    assert_value(solved.acceleration(w.bodies[1]), &ratio(98, 25));
    assert_eq!(solved.case.frictions, vec![FrictionState::Sliding, FrictionState::Static]);
}

/// The upper block is tied to the wall (held), the lower is pulled away under it (worked by hand):
/// P − μ m1 g − μ(m1 + m2)g = m2 a.
#[test]
fn the_upper_block_may_be_held() {
    let mut t = two(2, 5, Some(ratio(1, 4)), Some(ratio(1, 4)), false);
    let stage = t.w.stage(State::Released);
    t.w.b.situation_mut().stages[stage.0].held.push(t.upper);
    t.w.b.size(stage, t.pull, 30.into());
    let w = t.w.finish();
    let solved = w.solved();
    assert_value(solved.acceleration(w.bodies[0]), &ratio(159, 100)); // 30 − 4.9 − 17.15 = 5a
    assert!(solved.equations.iter().all(|e| e.law != Law::Motion || e.system == [w.bodies[0]]));
}

/// A block slides onto a slab that is at rest and free on a smooth floor: the speeds say which way friction acts
/// (worked by hand). The block slows at μg, the slab gets μ m1 g/m2.
#[test]
fn a_block_that_slides_along_a_slab() {
    let mut w = World::new();
    let slab = w.body("the slab", Line::Level, 6.into());
    w.ground(slab, None);
    let block = w.body("the block", Line::Level, 2.into());
    let mu = w.b.coefficient(Some(ratio(3, 10)));
    w.b.on_top(block, slab, Grip::Rough(mu));
    let stage = w.stage(State::Moving);
    w.b.heading(stage, block, 1);
    for (body, speed) in [(slab, 0), (block, 4)] {
        let journey = w.b.journey(stage, body).unwrap();
        w.b.know(journey.start_speed, speed.into());
    }
    let w = w.finish();
    let solved = w.solved();
    assert_value(solved.acceleration(block), &ratio(-147, 50));
    assert_value(solved.acceleration(slab), &ratio(49, 50));
    assert_eq!(solved.case.frictions[1], FrictionState::Sliding);
}

/// In letters (B27): with F not given any size, sticking holds on a condition that is reported.
#[test]
fn a_stack_in_letters() {
    let mut w = World::new();
    for (letter, kind) in
        [("m", model::Kind::Mass), ("F", model::Kind::Force), ("μ", model::Kind::Coefficient)]
    {
        w.b.open_letter(letter, kind);
    }
    let m = Value::symbol("m");
    let lower = w.body("B", Line::Level, Value::from_int(3) * &m);
    w.ground(lower, None);
    let upper = w.body("A", Line::Level, m.clone());
    let mu = w.b.coefficient(Some(Value::symbol("μ")));
    w.b.on_top(upper, lower, Grip::Rough(mu));
    let pull = w.b.act(Role::Applied, "the force F", upper, Direction::Along(1));
    let stage = w.stage(State::Released);
    w.b.size(stage, pull, Value::symbol("F"));
    let w = w.finish();
    let solved = w.solved();
    assert_eq!(solved.acceleration(upper).unwrap().to_string(), "F/(4*m)");
    let condition = solved.conditions.iter().find(|c| c.about == motion::About::Friction(upper)).unwrap();
    assert_eq!(condition.says, "friction keeps A from slipping on B");
    assert_value(Some(&condition.left), &(ratio(3, 4) * Value::symbol("F")));
}

/// A pull that is too strong for what is said is refused with the friction that fails.
#[test]
fn a_stack_that_cannot_stay_at_rest() {
    let mut t = two(2, 3, Some(ratio(1, 2)), Some(ratio(1, 5)), true);
    let stage = t.w.stage(State::AtRest);
    t.w.b.size(stage, t.pull, 9.into());
    let w = t.w.finish();
    assert!(!w.solved().case.moves);
    let mut t = two(2, 3, Some(ratio(1, 2)), Some(ratio(1, 5)), true);
    let stage = t.w.stage(State::AtRest);
    t.w.b.size(stage, t.pull, ratio(97, 10));
    assert!(!t.w.finish().solved().case.moves);
    let mut t = two(2, 3, Some(ratio(1, 2)), Some(ratio(1, 4)), true);
    let stage = t.w.stage(State::AtRest);
    t.w.b.size(stage, t.pull, 10.into());
    let d = motion::solve(&t.w.finish().situation, StageId(0), 0).unwrap_err().remove(0);
    assert_eq!(d.refusal, Some(Refusal::Impossible));
    assert!(d.message.contains("slipping on the lower block"), "{}", d.message);
}
