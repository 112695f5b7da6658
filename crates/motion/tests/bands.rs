//! Where bodies stay at rest and where they do not, at the exact limits too; and what cannot be told of the forces
//! that hold them. B lines are those of docs/closed-forms.md and of its sources; "worked by hand" marks forms
//! derived for the purpose.

mod support;

use exact::Value;
use model::{Direction, Grip, Line, Role, State};
use motion::FrictionState;
use support::*;

/// g, times a fraction.
fn g(num: i64, den: i64) -> Value {
    ratio(49, 5) * ratio(num, den)
}

/// B7: m1 = 5 on a slope of tan 3/4 with μ = 1/2 stays while 1 ≤ m2 ≤ 5: T = m2 g, and friction is |m2 − 3| g.
#[test]
fn a_load_on_a_rough_slope_stays_between_two_limits() {
    for (num, friction) in [(2, 4), (3, 3), (6, 0), (7, 1), (10, 4)] {
        let load = ratio(num, 2);
        let w = slope_and_load(5.into(), load, tan(3, 4), Some(ratio(1, 2)));
        let solved = w.solved();
        assert!(!solved.case.moves, "{num}/2 kg");
        assert_value(solved.value(w.tension(0)), &g(num, 2));
        assert_value(solved.value(w.friction(0)), &g(friction, 2));
    }
}

/// B5 and B6 just beyond the limits of B7: down the slope with g/59 at 9/10 kg, up it with g/101 at 51/10 kg.
#[test]
fn beyond_the_limits_it_slides() {
    for (tenths, sense, a) in [(9, -1, g(1, 59)), (51, 1, g(1, 101))] {
        let w = slope_and_load(5.into(), ratio(tenths, 10), tan(3, 4), Some(ratio(1, 2)));
        let solved = w.solved();
        assert_eq!(solved.case.frictions[0], FrictionState::Sliding);
        assert_eq!(solved.senses[0], sense);
        assert_value(solved.acceleration(w.bodies[0]), &a);
    }
}

/// Slopes of tan 3/4 (5 kg, μ = 1/2) and tan 4/3 (μ = 1/3), back to back.
fn back_to_back(other: Value) -> Built {
    let mut w = World::new();
    let (one, two) = (w.b.angle("α", tan(3, 4)), w.b.angle("β", tan(4, 3)));
    let p = w.body("P", Line::Slope { angle: one, rises_right: true }, 5.into());
    let q = w.body("Q", Line::Slope { angle: two, rises_right: false }, other);
    w.ground(p, Some(ratio(1, 2)));
    w.ground(q, Some(ratio(1, 3)));
    w.b.over_pulley("the string", p, q);
    w.stage(State::Released);
    w.finish()
}

/// B8: they stay while m1(sin A − μ cos A) ≤ m2(sin B + μ cos B) and the other way round: from 1 kg to 25/3 kg.
/// Within the band two frictions and the string share the holding.
#[test]
fn two_rough_slopes_stay_between_two_limits() {
    for m in [Value::one(), 2.into(), 5.into(), ratio(25, 3)] {
        let w = back_to_back(m);
        assert!(!w.solved().case.moves);
    }
    // Beyond: a = g(5 × 1/5 − 9/10)/(5.9), and g(9 × 3/5 − 5)/14.
    for (m, sense, a) in [(ratio(9, 10), -1, g(1, 59)), (9.into(), 1, g(2, 70))] {
        let w = back_to_back(m);
        let solved = w.solved();
        assert_eq!(solved.senses[0], sense);
        assert_value(solved.acceleration(w.bodies[0]), &a);
    }
}

/// What is fixed is given; of the rest it is said what shares the holding.
#[test]
fn two_frictions_share_the_holding() {
    let w = back_to_back(5.into());
    let solved = w.solved();
    let stage = &w.situation.stages[0];
    assert_value(solved.acceleration(w.bodies[0]), &Value::zero());
    assert_value(solved.value(stage.reactions[0].expect("a slope")), &g(4, 1));
    assert_value(solved.value(stage.reactions[1].expect("a slope")), &g(3, 1));
    let open: Vec<_> = solved.undetermined.iter().map(|(id, _)| *id).collect();
    for id in [w.friction(0), w.friction(1), w.tension(0)] {
        assert!(open.contains(&id), "{open:?}");
    }
    for (_, why) in &solved.undetermined {
        assert_eq!(why, "friction on P and friction on Q share the holding; the givens do not fix how");
    }
    assert_eq!(open.len(), 3);
}

/// Resistances of a given greatest size share the holding too; that they are given does not fix them.
#[test]
fn two_resistances_share_the_holding() {
    let mut w = World::new();
    let tractor = w.body("the tractor", Line::Level, 20.into());
    let trailer = w.body("the trailer", Line::Level, 10.into());
    w.b.tow("the bar", tractor, trailer);
    let one = w.b.act(Role::Resistance, "the resistance on the tractor", tractor, Direction::Opposing);
    let two = w.b.act(Role::Resistance, "the resistance on the trailer", trailer, Direction::Opposing);
    let pull = w.b.act(Role::Applied, "the pull", tractor, Direction::Along(1));
    let stage = w.stage(State::Released);
    for (action, size) in [(one, 50), (two, 40), (pull, 60)] {
        w.b.size(stage, action, size.into());
    }
    let w = w.finish();
    let solved = w.solved();
    assert!(!solved.case.moves);
    let (_, why) = solved.undetermined.iter().find(|(id, _)| *id == w.tension(0)).expect("an open thrust");
    assert!(why.ends_with("share the holding; the givens do not fix how"), "{why}");
}

/// Static friction decides whether it starts, and kinetic friction how it goes on: 5 kg with μs = 2/5, μk = 1/5.
#[test]
fn static_friction_before_kinetic() {
    let pulled = |tenths: i64| {
        let mut w = World::new();
        let block = w.body("the block", Line::Level, 5.into());
        w.ground(block, Some(ratio(2, 5)));
        let kinetic = w.b.coefficient(Some(ratio(1, 5)));
        w.b.situation_mut().bodies[block.0].surface.as_mut().expect("a surface").sliding = Some(kinetic);
        let pull = w.b.act(Role::Applied, "the pull", block, Direction::Along(1));
        let stage = w.stage(State::Released);
        w.b.size(stage, pull, ratio(tenths, 10));
        w.finish()
    };
    // 15 N is more than kinetic friction, and yet it stays; so it does at the limit of 19.6 N.
    for tenths in [150, 196] {
        let w = pulled(tenths);
        let solved = w.solved();
        assert!(!solved.case.moves);
        assert_value(solved.value(w.friction(0)), &ratio(tenths, 10));
    }
    let w = pulled(197);
    assert_value(w.solved().acceleration(w.bodies[0]), &ratio(99, 50)); // (19.7 − 9.8)/5
}

/// The greatest pull for which a block on rough ground, and a smooth one roped behind it, stay: μ m g.
#[test]
fn about_to_slip_on_the_ground() {
    let mut w = World::new();
    let block = w.body("the block", Line::Level, 5.into());
    w.ground(block, Some(ratio(2, 5)));
    let behind = w.body("the sledge", Line::Level, 3.into());
    w.ground(behind, None);
    w.b.string("the rope", block, behind);
    let pull = w.b.act(Role::Applied, "the pull", block, Direction::Along(1));
    let stage = w.stage(State::Released);
    w.b.heading(stage, block, 1);
    w.b.situation_mut().stages[stage.0].about_to_slip.push(block);
    let w = w.finish();
    let solved = w.solved();
    assert!(!solved.case.moves);
    assert_eq!(solved.case.frictions[0], FrictionState::Limiting);
    assert_value(solved.value(w.situation.stages[0].forces[pull.0]), &g(2, 1));
    assert_value(solved.value(w.tension(0)), &Value::zero());
}

/// A load that has landed and stays down, roped over a pulley to a lighter one that hangs: the string takes 2g of
/// its weight, the floor the rest.
#[test]
fn the_floor_under_a_load_that_has_landed() {
    let mut w = World::new();
    let light = w.body("P", Line::Vertical, 2.into());
    let heavy = w.body("Q", Line::Vertical, 3.into());
    w.b.surface(heavy, "the floor", Grip::Smooth);
    w.b.over_pulley("the string", light, heavy);
    let stage = w.stage(State::Released);
    w.b.situation_mut().stages[stage.0].held.push(heavy);
    let w = w.finish();
    let solved = w.solved();
    assert!(!solved.case.moves);
    assert_value(solved.value(w.tension(0)), &g(2, 1));
    assert_value(solved.value(w.situation.stages[0].reactions[1].expect("a floor")), &g(1, 1));
}

/// Down a slope of tan 3/4, the upper crate (2 kg, μ = 1/8) is smoother than the lower one (3 kg, μ = 1/2). A rope
/// between them is slack: g/2 and g/5. A rod pushes: a = (2 × g/2 + 3 × g/5)/5, thrust 2(g/2 − a).
#[test]
fn a_rod_pushes_where_a_rope_goes_slack() {
    let build = |rope: bool| {
        let mut w = World::new();
        let angle = w.b.angle("α", tan(3, 4));
        let line = Line::Slope { angle, rises_right: true };
        let upper = w.body("the upper crate", line, 2.into());
        let lower = w.body("the lower crate", line, 3.into());
        w.ground(upper, Some(ratio(1, 8)));
        w.ground(lower, Some(ratio(1, 2)));
        if rope {
            w.b.string("the rope", upper, lower)
        } else {
            w.b.tow("the rod", upper, lower)
        };
        w.stage(State::Released);
        w.finish()
    };
    let w = build(true);
    let solved = w.solved();
    assert_eq!(solved.case.links[0], motion::LinkState::Loose);
    assert_value(solved.acceleration(w.bodies[0]), &g(1, 2));
    assert_value(solved.acceleration(w.bodies[1]), &g(1, 5));
    let w = build(false);
    let solved = w.solved();
    assert_value(solved.acceleration(w.bodies[0]), &g(8, 25));
    assert_value(solved.value(w.tension(0)), &g(9, 25));
    assert!(solved.forces.iter().any(|f| f.thrust), "the rod is in thrust");
}
