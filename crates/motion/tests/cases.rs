//! Which case holds: light pulleys, held bodies, and many strings and rough surfaces at once. B lines are those of
//! docs/closed-forms.md and of its sources; "worked by hand" marks forms derived for the purpose.

mod support;

use exact::Value;
use model::{Direction, Grip, Line, Refusal, Role, StageId, State};
use motion::{FrictionState, LinkState};
use support::*;

/// B19: m1 against a light pulley that carries m2 and m3: a1 = g(m1(m2 + m3) − 4 m2 m3)/D downwards, with
/// D = m1(m2 + m3) + 4 m2 m3; the lower tension is 4 m1 m2 m3 g/D, the upper twice that.
#[test]
fn a_double_pulley_with_a_light_one() {
    let mut w = World::new();
    let m1 = w.body("A", Line::Vertical, 5.into());
    let pulley = w.b.light_pulley("the lower pulley", "L", Line::Vertical);
    let m2 = w.body("B", Line::Vertical, 1.into());
    let m3 = w.body("C", Line::Vertical, 2.into());
    w.b.over_pulley("the upper string", m1, pulley);
    let lower = w.b.over_pulley("the lower string", m2, m3);
    let end = model::End { body: pulley, sense: -1, times: 2 };
    w.b.situation_mut().links[lower.0].ends.push(end);
    w.stage(State::Released);
    let w = w.finish();
    let solved = w.solved();
    // D = 5 × 3 + 8 = 23.
    assert_value(solved.value(w.tension(1)), &(ratio(49, 5) * ratio(40, 23)));
    assert_value(solved.value(w.tension(0)), &(ratio(49, 5) * ratio(80, 23)));
    assert_value(solved.acceleration(m1), &(ratio(49, 5) * ratio(7, 23)));
    assert_eq!(solved.senses[m1.0], -1, "it goes down");
}

/// A load on a string from a held one hangs at rest: T = mg.
#[test]
fn a_held_body_keeps_the_other_still() {
    let mut w = World::new();
    let p = w.body("P", Line::Vertical, 2.into());
    let q = w.body("Q", Line::Vertical, 3.into());
    w.b.over_pulley("the string", p, q);
    let stage = w.stage(State::Released);
    w.b.situation_mut().stages[stage.0].held.push(p);
    let w = w.finish();
    let solved = w.solved();
    assert!(!solved.case.moves);
    assert_value(solved.value(w.tension(0)), &ratio(147, 5));
}

/// Twelve crates in a row on a rough slope, roped one to the next, each rougher than the one above it: every rope
/// is slack and each crate does what it would do alone (B31).
#[test]
fn a_row_of_slack_ropes() {
    let mut w = World::new();
    let angle = w.b.angle("α", tan(3, 4));
    for i in 0..12 {
        let body = w.body(&format!("crate {i}"), Line::Slope { angle, rises_right: true }, 2.into());
        w.ground(body, Some(ratio(i + 1, 13)));
    }
    for i in 1..12 {
        w.b.string(&format!("rope {i}"), w.bodies[i - 1], w.bodies[i]);
    }
    w.stage(State::Released);
    let w = w.finish();
    let solved = w.solved();
    for (i, body) in w.bodies.iter().enumerate() {
        let mu = ratio(i64::try_from(i).unwrap() + 1, 13);
        let free = ratio(49, 5) * (ratio(3, 5) - mu * ratio(4, 5));
        if solved.case.frictions[i] == FrictionState::Sliding {
            assert_value(solved.acceleration(*body), &free);
        } else {
            assert_ne!(free.sign(), Ok(exact::Sign::Positive), "it would slide alone");
        }
    }
    assert_eq!(solved.case.links[0], LinkState::Loose);
}

/// A pull that lifts more than the weight takes the body off the ground: refused, with that reason.
#[test]
fn a_body_that_is_lifted_off() {
    let mut w = World::new();
    let angle = w.b.angle("θ", tan(4, 3));
    let sledge = w.body("the sledge", Line::Level, 2.into());
    w.ground(sledge, Some(ratio(1, 2)));
    let pull = w.b.act(Role::Applied, "the pull", sledge, Direction::At { sense: 1, angle, lifts: true });
    let stage = w.stage(State::Released);
    w.b.size(stage, pull, 30.into());
    let w = w.finish();
    let d = motion::solve(&w.situation, stage, 0).unwrap_err().remove(0);
    assert!(d.message.contains("the sledge would lift off"), "{}", d.message);
}

/// B13 with equal coefficients: the push between the blocks is m2 F/(m1 + m2), as on a smooth floor.
#[test]
fn equal_friction_leaves_the_push_alone() {
    let mut w = World::new();
    let behind = w.body("A", Line::Level, 3.into());
    let front = w.body("B", Line::Level, 5.into());
    for body in [behind, front] {
        w.ground(body, Some(ratio(1, 5)));
    }
    w.b.rests_on("the contact", front, behind);
    let push = w.b.act(Role::Applied, "the push", behind, Direction::Along(1));
    let stage = w.stage(State::Released);
    w.b.size(stage, push, 24.into());
    let w = w.finish();
    assert_value(w.solved().value(w.tension(0)), &Value::from_int(15));
}

/// A pile of blocks on a smooth floor, the lowest pulled: from the floor up, with μ = 1/2 everywhere.
fn pile(blocks: usize) -> (World, model::ActionId) {
    let mut w = World::new();
    let lowest = w.body("block 0", Line::Level, 1.into());
    w.ground(lowest, None);
    for i in 1..blocks {
        let block = w.body(&format!("block {i}"), Line::Level, 1.into());
        let mu = w.b.coefficient(Some(ratio(1, 2)));
        w.b.on_top(block, w.bodies[i - 1], Grip::Rough(mu));
    }
    let pull = w.b.act(Role::Applied, "the pull", lowest, Direction::Along(1));
    (w, pull)
}

/// Four blocks that are about to slip on what is under them: all have a = μg, and the pull is 5μg (worked by hand).
/// With five, not every way to be about to slip is tried: that is said, and nothing is found by leaving one out.
#[test]
fn more_about_to_slip_than_are_looked_through() {
    let all_slip = |blocks: usize| {
        let (mut w, pull) = pile(blocks);
        let stage = w.stage(State::Released);
        w.b.heading(stage, w.bodies[0], 1);
        w.b.situation_mut().stages[stage.0].about_to_slip.extend(w.bodies[1..].to_vec());
        (w.finish(), pull)
    };
    let (w, pull) = all_slip(5);
    let solved = w.solved();
    assert_value(solved.value(w.situation.stages[0].forces[pull.0]), &ratio(49, 2));
    let (w, _) = all_slip(6);
    let d = motion::solve(&w.situation, StageId(0), 0).unwrap_err().remove(0);
    assert_eq!(d.refusal, Some(Refusal::Undetermined));
    assert!(d.message.starts_with("not all cases could be looked through: more than 4"), "{}", d.message);
}

/// Nine crates roped in a row, said to be at rest on a slope too smooth for it: the
/// 2⁸ ways to be taut or slack are not looked through, and the refusal does not say that none fits.
#[test]
fn what_is_not_looked_through_is_not_called_impossible() {
    let row = |crates: usize| {
        let mut w = World::new();
        let angle = w.b.angle("α", tan(3, 4));
        for i in 0..crates {
            let body = w.body(&format!("crate {i}"), Line::Slope { angle, rises_right: true }, 2.into());
            w.ground(body, Some(ratio(1, 2)));
        }
        for i in 1..crates {
            w.b.string(&format!("rope {i}"), w.bodies[i - 1], w.bodies[i]);
        }
        w.stage(State::AtRest);
        let w = w.finish();
        motion::solve(&w.situation, StageId(0), 0).unwrap_err().remove(0)
    };
    let few = row(3);
    assert_eq!(few.refusal, Some(Refusal::Impossible), "{}", few.message);
    let many = row(9);
    assert_eq!(many.refusal, Some(Refusal::Undetermined), "{}", many.message);
    assert!(many.message.starts_with("not all cases could be looked through"), "{}", many.message);
}

/// B18 with the movable pulley as a body of its own, without mass: a load M hangs from it by a short string, the
/// rope round it ends at the effort m: a_load = (2m − M)g/(4m + M) upwards, the effort falls twice as fast,
/// T = 3mMg/(4m + M), and the string to the load has 2T.
fn load_on_a_light_pulley(load: i64, effort: i64) {
    let mut w = World::new();
    let pulley = w.b.light_pulley("the movable pulley", "L", Line::Vertical);
    let heavy = w.body("the load", Line::Vertical, load.into());
    let light = w.body("the effort", Line::Vertical, effort.into());
    let rope = w.b.over_pulley("the rope", light, pulley);
    w.b.situation_mut().links[rope.0].ends[1].times = 2;
    w.b.string("the short string", pulley, heavy);
    w.stage(State::Released);
    let w = w.finish();
    let solved = w.solved();
    let below = 4 * effort + load;
    let gain = 2 * effort - load;
    assert_value(solved.acceleration(heavy), &(ratio(49, 5) * ratio(gain.abs(), below)));
    assert_value(solved.acceleration(light), &(ratio(49, 5) * ratio(2 * gain.abs(), below)));
    assert_value(solved.value(w.tension(0)), &(ratio(49, 5) * ratio(3 * effort * load, below)));
    assert_value(solved.value(w.tension(1)), &(ratio(49, 5) * ratio(6 * effort * load, below)));
    assert_eq!(solved.senses[heavy.0], if gain > 0 { 1 } else { -1 });
}

#[test]
fn a_load_on_a_light_pulley() {
    load_on_a_light_pulley(4, 5);
    load_on_a_light_pulley(7, 2);
}

/// B20: two equal masses, one of them on the movable pulley: it rises at g/5, the other falls at 2g/5 (B18, M = m).
#[test]
fn equal_masses_on_a_doubled_rope() {
    load_on_a_light_pulley(3, 3);
}

/// B19 as one constraint: the light pulley leaves 2x₁ + x₂ + x₃ fixed, and the string pulls twice on m1.
#[test]
fn a_double_pulley_as_one_constraint() {
    let mut w = World::new();
    let m1 = w.body("A", Line::Vertical, 5.into());
    let m2 = w.body("B", Line::Vertical, 1.into());
    let m3 = w.body("C", Line::Vertical, 2.into());
    let link = w.b.over_pulley("the string", m1, m2);
    let ends = &mut w.b.situation_mut().links[link.0].ends;
    ends[0].times = 2;
    ends.push(model::End { body: m3, sense: 1, times: 1 });
    w.stage(State::Released);
    let w = w.finish();
    let solved = w.solved();
    assert_value(solved.value(w.tension(0)), &(ratio(49, 5) * ratio(40, 23)));
    let up = |b: model::BodyId| Value::from_int(solved.senses[b.0].into()) * solved.acceleration(b).unwrap();
    assert_value(Some(&up(m1)), &(ratio(49, 5) * ratio(-7, 23)));
    // Relative to the pulley, m2 falls with 2m1(m2 − m3)g/D.
    assert_value(Some(&(-up(m2) - up(m1))), &(ratio(49, 5) * ratio(-10, 23)));
    assert_value(Some(&(-up(m3) - up(m1))), &(ratio(49, 5) * ratio(10, 23)));
}

/// A block of 5 kg on a rough table, roped to a light pulley that carries 1 kg and 2 kg (worked by hand). While the
/// block stays, the pulley hangs on 8g/3: more than μ = 1/2 holds, less than μ = 3/5 does. With 1/2, T = 30g/23 and
/// the block moves with g/46.
#[test]
fn a_light_pulley_on_a_block_on_a_rough_table() {
    let build = |mu: Value| {
        let mut w = World::new();
        let block = w.body("A", Line::Level, 5.into());
        w.ground(block, Some(mu));
        let pulley = w.b.light_pulley("the lower pulley", "L", Line::Vertical);
        let m2 = w.body("B", Line::Vertical, 1.into());
        let m3 = w.body("C", Line::Vertical, 2.into());
        w.b.over_pulley("the upper string", block, pulley);
        let lower = w.b.over_pulley("the lower string", m2, m3);
        let end = model::End { body: pulley, sense: -1, times: 2 };
        w.b.situation_mut().links[lower.0].ends.push(end);
        w.stage(State::Released);
        w.finish()
    };
    let w = build(ratio(1, 2));
    let solved = w.solved();
    assert_value(solved.acceleration(w.bodies[0]), &(ratio(49, 5) * ratio(1, 46)));
    assert_value(solved.value(w.tension(1)), &(ratio(49, 5) * ratio(30, 23)));
    let w = build(ratio(3, 5));
    let solved = w.solved();
    assert_value(solved.acceleration(w.bodies[0]), &Value::zero());
    assert_value(solved.value(w.tension(0)), &(ratio(49, 5) * ratio(8, 3)));
    assert_value(solved.value(w.friction(0)), &(ratio(49, 5) * ratio(8, 3)));
    assert_value(solved.acceleration(w.bodies[1]), &ratio(49, 15));
}
