//! Values against the closed forms of textbooks: each check names where its form is printed.
//! UP = OpenStax University Physics vol. 1, CP = OpenStax College Physics 2e.
//! "Worked by hand" marks forms derived for the purpose and checked with a computer algebra system.

mod support;

use exact::Value;
use model::{Direction, Form, Line, PulleyId, Role, State};
use motion::{FrictionState, LinkState, pulley_force};
use support::*;

/// UP Ex 6.5: a = (m2 − m1)g/(m1 + m2), T = 2 m1 m2 g/(m1 + m2).
#[test]
fn two_masses_over_a_pulley() {
    let w = atwood(2.into(), 4.into());
    let solved = w.solved();
    assert_value(solved.acceleration(w.bodies[0]), &ratio(98, 30));
    assert_value(solved.value(w.tension(0)), &ratio(784, 30));
    assert_eq!(solved.senses, vec![1, -1], "the lighter rises, the heavier falls");
    let force = pulley_force(&w.situation, &solved, PulleyId(0));
    assert_value(force.as_ref(), &ratio(1568, 30)); // B2: twice the tension
}

/// UP Ex 6.5 again, the other way round: the orientation follows the motion, not the order of naming.
#[test]
fn the_heavier_may_be_named_first() {
    let w = atwood(4.into(), 2.into());
    let solved = w.solved();
    assert_value(solved.acceleration(w.bodies[0]), &ratio(98, 30));
    assert_eq!(solved.senses, vec![-1, 1]);
}

/// The same form in letters: masses m and 3m give a = g/2 and T = 3mg/2 (UP Ex 6.5).
#[test]
fn masses_in_letters() {
    let mut w = World::new();
    w.b.open_letter("m", model::Kind::Mass);
    w.b.open_letter("g", model::Kind::Gravity);
    w.b.gravity(Value::symbol("g"));
    let p = w.body("P", Line::Vertical, Value::symbol("m"));
    let q = w.body("Q", Line::Vertical, Value::from_int(3) * Value::symbol("m"));
    w.b.over_pulley("the string", p, q);
    w.stage(State::Released);
    let w = w.finish();
    let solved = w.solved();
    assert_eq!(solved.acceleration(q).unwrap().to_string(), "g/2");
    assert_eq!(solved.value(w.tension(0)).unwrap().to_string(), "3*m*g/2");
    assert_eq!(solved.senses, vec![1, -1]);
}

/// Masses m and km: which way they move hangs on k, which is reported and not refused.
#[test]
fn which_way_may_hang_on_a_letter() {
    let mut w = World::new();
    for (letter, kind) in [("m", model::Kind::Mass), ("k", model::Kind::Number), ("g", model::Kind::Gravity)]
    {
        w.b.open_letter(letter, kind);
    }
    w.b.gravity(Value::symbol("g"));
    let p = w.body("P", Line::Vertical, Value::symbol("m"));
    let q = w.body("Q", Line::Vertical, Value::symbol("k") * Value::symbol("m"));
    w.b.over_pulley("the string", p, q);
    w.stage(State::Released);
    let w = w.finish();
    let solved = w.solved();
    let (k, g) = (Value::symbol("k"), Value::symbol("g"));
    let expected = ((&k - Value::one()) * &g).checked_div(&(&k + Value::one())).unwrap();
    assert_value(solved.acceleration(q), &expected);
    let hangs = solved.conditions.iter().filter(|c| c.about == motion::About::Motion(p)).count();
    assert_eq!(hangs, 1, "the condition k ≥ 1 is reported");
}

/// UP Ex 6.4: a = m2 g/(m1 + m2), T = m1 m2 g/(m1 + m2); force on the pulley T√2 (worked by hand).
#[test]
fn a_smooth_table_with_a_hanging_mass() {
    let w = table(5.into(), 2.into(), None);
    let solved = w.solved();
    assert_value(solved.acceleration(w.bodies[0]), &ratio(14, 5));
    assert_value(solved.value(w.tension(0)), &Value::from_int(14));
    let force = pulley_force(&w.situation, &solved, PulleyId(0));
    assert_value(force.as_ref(), &(Value::from_int(14) * Value::from_int(2).sqrt().unwrap()));
}

/// Worked by hand: a = (m2 − μ m1)g/(m1 + m2), T = m1 m2 (1 + μ) g/(m1 + m2), if m2 > μ m1.
#[test]
fn a_rough_table_with_a_hanging_mass() {
    let w = table(4.into(), 3.into(), Some(ratio(1, 2)));
    let solved = w.solved();
    assert_value(solved.acceleration(w.bodies[0]), &ratio(7, 5));
    assert_value(solved.value(w.tension(0)), &ratio(126, 5));
    assert_eq!(solved.case.frictions, vec![FrictionState::Sliding, FrictionState::NoFriction]);
}

/// The same where m2 ≤ μ m1: a = 0, T = m2 g, friction = m2 g, less than its limit (worked by hand).
#[test]
fn friction_may_hold_the_whole() {
    let w = table(10.into(), 4.into(), Some(ratio(3, 5)));
    let solved = w.solved();
    assert!(!solved.case.moves);
    assert_eq!(solved.case.frictions[0], FrictionState::Static);
    assert_value(solved.value(w.tension(0)), &ratio(196, 5));
    assert_value(solved.value(w.friction(0)), &ratio(196, 5));
    assert_eq!(solved.senses, vec![1, -1], "oriented the way it would move");
}

/// UP 6.45 and 6.109 in form: up the slope, a = (m2 − m1(sin θ + μ cos θ))g/(m1 + m2),
/// T = m1 m2 g(1 + sin θ + μ cos θ)/(m1 + m2).
#[test]
fn a_rough_slope_with_a_falling_mass() {
    let w = slope_and_load(5.into(), 9.into(), tan(3, 4), Some(ratio(1, 4)));
    let solved = w.solved();
    assert_value(solved.acceleration(w.bodies[0]), &ratio(7, 2));
    assert_value(solved.value(w.tension(0)), &ratio(567, 10));
    assert_value(solved.value(w.friction(0)), &ratio(49, 5));
    assert_eq!(solved.senses, vec![1, -1]);
}

/// Down the slope: a = (m1(sin θ − μ cos θ) − m2)g/(m1 + m2), T = m1 m2 g(1 + sin θ − μ cos θ)/(m1 + m2)
/// (worked by hand). Here m1 = 10, m2 = 2, sin θ = 3/5, μ = 1/4: a = 2g/12, T = 28g/12.
#[test]
fn a_rough_slope_that_the_body_slides_down() {
    let w = slope_and_load(10.into(), 2.into(), tan(3, 4), Some(ratio(1, 4)));
    let solved = w.solved();
    assert_value(solved.acceleration(w.bodies[0]), &ratio(49, 30));
    assert_value(solved.value(w.tension(0)), &ratio(343, 15));
    assert_eq!(solved.senses, vec![-1, 1]);
}

/// The band at rest: m1(sin θ − μ cos θ) ≤ m2 ≤ m1(sin θ + μ cos θ), T = m2 g, friction |m2 − m1 sin θ| g
/// (worked by hand). With m1 = 10, sin θ = 3/5, μ = 1/4 it reaches from 4 to 8.
#[test]
fn the_band_in_which_a_slope_holds() {
    for (hanging, friction, at_rest) in
        [(3, 0, false), (4, 2, true), (5, 1, true), (6, 0, true), (8, 2, true), (9, 0, false)]
    {
        let w = slope_and_load(10.into(), hanging.into(), tan(3, 4), Some(ratio(1, 4)));
        let solved = w.solved();
        assert_eq!(solved.case.moves, !at_rest, "hanging mass {hanging}");
        if at_rest {
            assert_value(solved.value(w.tension(0)), &(Value::from_int(hanging) * ratio(49, 5)));
            assert_value(solved.value(w.friction(0)), &(Value::from_int(friction) * ratio(49, 5)));
        }
    }
}

/// Smooth slope of 30°: force on the pulley T√(2 + 2 sin θ) = T√3 (worked by hand).
#[test]
fn the_force_on_the_pulley_of_a_slope() {
    let w = slope_and_load(4.into(), 3.into(), exact::Angle::Degrees(30.into()), None);
    let solved = w.solved();
    assert_value(solved.acceleration(w.bodies[0]), &ratio(7, 5));
    let force = pulley_force(&w.situation, &solved, PulleyId(0));
    assert_value(force.as_ref(), &(ratio(126, 5) * Value::from_int(3).sqrt().unwrap()));
}

/// CP4 P&E 29, UP 6.99: a = (F − R1 − R2)/(m1 + m2), T = (m2 F + m1 R2 − m2 R1)/(m1 + m2).
#[test]
fn a_tractor_and_its_trailer() {
    let w = towed(&[(1800, 500), (1200, 400)], Some(3150), None);
    let solved = w.solved();
    assert_value(solved.acceleration(w.bodies[1]), &ratio(3, 4));
    assert_value(solved.value(w.tension(0)), &Value::from_int(1300));
    assert_eq!(solved.accelerations[0], solved.accelerations[1], "one acceleration for both");
}

/// Braking on the one in front: a = −(D + R1 + R2)/(m1 + m2), T = (m1 R2 − m2 (D + R1))/(m1 + m2), a thrust
/// once it is negative (CP4 P&E 29 with the force reversed).
#[test]
fn braking_puts_the_tow_bar_in_thrust() {
    let w = towed(&[(2400, 300), (600, 150)], None, Some(4350));
    let solved = w.solved();
    assert_value(solved.acceleration(w.bodies[0]), &ratio(-8, 5));
    assert_value(solved.value(w.tension(0)), &Value::from_int(810));
    let on_lorry = solved.link_force(model::LinkId(0), w.bodies[0]).unwrap();
    assert!(on_lorry.thrust && on_lorry.along.sense() == 1, "the mixer pushes the lorry on");
    assert_eq!(on_lorry.name, "thrust in the tow-bar");
}

/// A rope cannot push: with the lorry braking it is slack from the start, and each slows down by itself.
#[test]
fn braking_leaves_a_tow_rope_slack() {
    let mut w = World::new();
    let lorry = w.body("the lorry", Line::Level, 2400.into());
    let mixer = w.body("the mixer", Line::Level, 600.into());
    w.b.string("the rope", lorry, mixer);
    let brake = w.b.act(Role::Braking, "the braking force", lorry, Direction::Along(-1));
    let drag = w.b.act(Role::Resistance, "the resistance", mixer, Direction::Opposing);
    let stage = w.stage(State::Moving);
    w.b.size(stage, brake, 4800.into());
    w.b.size(stage, drag, 150.into());
    w.b.heading(stage, lorry, 1);
    let w = w.finish();
    let solved = w.solved();
    assert_eq!(solved.case.links, vec![LinkState::Loose]);
    assert_value(solved.acceleration(lorry), &Value::from_int(-2));
    assert_value(solved.acceleration(mixer), &ratio(-1, 4));
    assert_value(solved.value(w.tension(0)), &Value::zero());
    assert_ne!(solved.accelerations[0], solved.accelerations[1]);
}

/// CP4 P&E 27: the coupling between k and k + 1 carries Σ over i > k of (m a + R + m g sin θ).
#[test]
fn three_trucks_and_two_couplings() {
    let w = towed(&[(6000, 900), (4000, 400), (2000, 200)], Some(5100), None);
    let solved = w.solved();
    assert_value(solved.acceleration(w.bodies[2]), &ratio(3, 10));
    assert_value(solved.value(w.tension(0)), &Value::from_int(2400));
    assert_value(solved.value(w.tension(1)), &Value::from_int(800));
}

/// The same with fifty trucks of a tonne and 100 N each, pulled by 10 kN: a = 0.1, T_k = 200 (50 − k).
#[test]
fn a_train_of_fifty() {
    let trucks = vec![(1000, 100); 50];
    let w = towed(&trucks, Some(10_000), None);
    let solved = w.solved();
    assert_value(solved.acceleration(w.bodies[49]), &ratio(1, 10));
    for k in 0..49 {
        let behind = i64::try_from(49 - k).unwrap();
        assert_value(solved.value(w.tension(k)), &Value::from_int(200 * behind));
    }
}

/// UP s. 5.5: pushed by F on m1, the contact carries m2 F/(m1 + m2).
#[test]
fn two_blocks_in_contact() {
    let mut w = World::new();
    let behind = w.body("A", Line::Level, 3.into());
    let front = w.body("B", Line::Level, 5.into());
    w.b.rests_on("the contact", front, behind);
    let push = w.b.act(Role::Applied, "the push", behind, Direction::Along(1));
    let stage = w.stage(State::Released);
    w.b.size(stage, push, 24.into());
    let w = w.finish();
    let solved = w.solved();
    assert_value(solved.acceleration(front), &Value::from_int(3));
    assert_value(solved.value(w.tension(0)), &Value::from_int(15));
    let on_front = solved.link_force(model::LinkId(0), front).unwrap();
    let partner = on_front.partner.and_then(|id| solved.force(id)).unwrap();
    assert_eq!(partner.on, behind, "Newton's third law");
}

/// UP Ex 6.3: R = m(g + a). CP7 P&E 64, UP 6.37: T = (M + m)(g + a) + resistance.
#[test]
fn a_lift_and_its_load() {
    let mut w = World::new();
    let lift = w.form("the lift", Form::Lift, Line::Vertical, 300.into());
    let drum = w.form("the drum", Form::Load, Line::Vertical, 100.into());
    w.b.rests_on("the reaction of the floor on the drum", drum, lift);
    let cable = w.b.act(Role::Cable, "the tension in the cable", lift, Direction::Along(1));
    let drag = w.b.act(Role::Resistance, "the resistance", lift, Direction::Opposing);
    let stage = w.stage(State::Moving);
    w.b.size(stage, drag, 150.into());
    w.b.heading(stage, lift, 1);
    w.know_acceleration(stage, lift, ratio(3, 2));
    let w = w.finish();
    let solved = w.solved();
    assert_value(solved.value(w.tension(0)), &Value::from_int(1130));
    assert_value(solved.value(w.situation.stages[0].forces[cable.0]), &Value::from_int(4670));
}

/// Downwards and slowing, the resistance acts upwards: T = (M + m)(g + 0.8) − R (CP7 P&E 64 in form).
#[test]
fn a_lift_that_slows_on_its_way_down() {
    let mut w = World::new();
    w.b.gravity(ratio(981, 100));
    let lift = w.form("the lift", Form::Lift, Line::Vertical, 300.into());
    let drum = w.form("the drum", Form::Load, Line::Vertical, 100.into());
    w.b.rests_on("the reaction of the floor on the drum", drum, lift);
    let cable = w.b.act(Role::Cable, "the tension in the cable", lift, Direction::Along(1));
    let drag = w.b.act(Role::Resistance, "the resistance", lift, Direction::Opposing);
    let stage = w.stage(State::Moving);
    w.b.size(stage, drag, 150.into());
    w.b.heading(stage, lift, -1);
    w.know_acceleration(stage, lift, ratio(4, 5));
    let w = w.finish();
    let solved = w.solved();
    assert_value(solved.value(w.situation.stages[0].forces[cable.0]), &Value::from_int(4094));
    assert_value(solved.value(w.tension(0)), &Value::from_int(1061));
    assert_value(solved.acceleration(lift), &ratio(-4, 5)); // it moves down and slows
}

/// UP 6.53 and CP5 P&E 9: down a rough slope a = g(sin θ − μ cos θ), up it the retardation is
/// g(sin θ + μ cos θ); after stopping it slides back only if tan θ > μ.
#[test]
fn one_body_on_a_slope() {
    let on_slope = |mu: Option<Value>, state: State, heading: Option<i8>| {
        let mut w = World::new();
        let angle = w.b.angle("α", tan(3, 4));
        let block = w.body("the block", Line::Slope { angle, rises_right: true }, 10.into());
        w.ground(block, mu);
        let stage = w.stage(state);
        if let Some(sense) = heading {
            w.b.heading(stage, block, sense);
        }
        w.finish()
    };
    let smooth = on_slope(None, State::Released, None);
    assert_value(smooth.solved().acceleration(smooth.bodies[0]), &ratio(147, 25));
    let down = on_slope(Some(ratio(1, 4)), State::Released, None);
    assert_value(down.solved().acceleration(down.bodies[0]), &ratio(98, 25));
    assert_eq!(down.solved().senses, vec![-1]);
    let up = on_slope(Some(ratio(1, 4)), State::Moving, Some(1));
    assert_value(up.solved().acceleration(up.bodies[0]), &ratio(-196, 25));
    let held = on_slope(Some(ratio(3, 4)), State::Released, None);
    assert!(!held.solved().case.moves, "tan θ = μ: it just stays");
}

/// A rough plane and a pull at an angle: the pull lifts, so R = mg − P sin θ
/// (UP s. 6.2 on friction, in form). 10 kg, P = 50 N, sin θ = 3/5, μ = 1/4.
#[test]
fn a_pull_at_an_angle_lifts() {
    let mut w = World::new();
    let angle = w.b.angle("θ", tan(3, 4));
    let sledge = w.body("the sledge", Line::Level, 10.into());
    w.ground(sledge, Some(ratio(1, 4)));
    let pull = w.b.act(Role::Applied, "the pull", sledge, Direction::At { sense: 1, angle, lifts: true });
    let stage = w.stage(State::Released);
    w.b.size(stage, pull, 50.into());
    let w = w.finish();
    let solved = w.solved();
    assert_value(solved.value(w.situation.stages[0].reactions[0].unwrap()), &Value::from_int(68));
    assert_value(solved.acceleration(sledge), &ratio(23, 10)); // 40 − 17 = 10a
}

/// A movable pulley: load M on it, effort m: the load rises with (2m − M)g/(4m + M), the effort falls twice
/// as fast, T = 3 m M g/(4m + M) (worked by hand).
#[test]
fn a_movable_pulley() {
    let mut w = World::new();
    let load = w.body("the load", Line::Vertical, 3.into());
    let effort = w.body("the effort", Line::Vertical, 2.into());
    let string = w.b.over_pulley("the string", load, effort);
    w.b.situation_mut().links[string.0].ends[0].times = 2;
    w.stage(State::Released);
    let w = w.finish();
    let solved = w.solved();
    assert_value(solved.acceleration(load), &ratio(49, 55)); // g/11
    assert_value(solved.acceleration(effort), &ratio(98, 55));
    assert_value(solved.value(w.tension(0)), &ratio(882, 55)); // 18g/11
    assert_eq!(solved.senses, vec![1, -1]);
}

/// A table between two hanging masses: 6g − 3g − μ 5g = 14a (worked by hand, the rough table widened).
#[test]
fn a_table_between_two_hanging_masses() {
    let mut w = World::new();
    let block = w.body("B", Line::Level, 5.into());
    w.ground(block, Some(ratio(1, 5)));
    let a = w.body("A", Line::Vertical, 6.into());
    let c = w.body("C", Line::Vertical, 3.into());
    w.b.over_pulley("the string AB", block, a);
    let other = w.b.over_pulley("the string BC", block, c);
    w.b.situation_mut().links[other.0].ends[0].sense = -1;
    w.stage(State::Released);
    let w = w.finish();
    let solved = w.solved();
    assert_value(solved.acceleration(block), &ratio(7, 5));
    assert_value(solved.value(w.tension(0)), &ratio(252, 5));
    assert_value(solved.value(w.tension(1)), &ratio(168, 5));
    assert_eq!(solved.senses, vec![1, -1, 1]);
    let systems = solved.equations.iter().filter(|e| e.law == motion::Law::Motion).count();
    assert_eq!(systems, 6, "three bodies, two pairs and the whole");
}

/// Two rough slopes back to back, a = g[m1(sin A − μ cos A) − m2(sin B + μ cos B)]/(m1 + m2)
/// (OpenStax physics test bank, in form): 10 kg on 3-4-5, 2 kg on 4-3-5, μ = 1/4: a = g(4 − 1.9)/12.
#[test]
fn two_slopes_back_to_back() {
    let build = |mu: Value| {
        let mut w = World::new();
        let (one, two) = (w.b.angle("α", tan(3, 4)), w.b.angle("β", tan(4, 3)));
        let p = w.body("P", Line::Slope { angle: one, rises_right: true }, 10.into());
        let q = w.body("Q", Line::Slope { angle: two, rises_right: false }, 2.into());
        w.ground(p, Some(mu.clone()));
        w.ground(q, Some(mu));
        w.b.over_pulley("the string", p, q);
        w.stage(State::Released);
        w.finish()
    };
    let w = build(ratio(1, 4));
    let solved = w.solved();
    assert_value(solved.acceleration(w.bodies[0]), &(ratio(49, 5) * ratio(21, 120)));
    let force = pulley_force(&w.situation, &solved, PulleyId(0)).unwrap();
    let tension = solved.value(w.tension(0)).unwrap();
    assert_value(Some(&force), &(tension * Value::from_int(2).sqrt().unwrap())); // 3-4-5 and 4-3-5: a right angle
    // Rough enough, both stay, and how they share the holding is not fixed.
    let held = build(Value::one());
    let solved = held.solved();
    assert!(!solved.case.moves);
    assert!(solved.value(held.friction(0)).is_none(), "friction and tension are not fixed at rest");
}

/// Two roped bodies on a slope, the upper one smoother: the rope between them is slack from the start, and
/// each slides by itself, a = g(sin θ − μ cos θ) (UP 6.53 in form).
#[test]
fn a_rope_that_is_slack_from_the_start() {
    let build = |mu_upper: Value, mu_lower: Value| {
        let mut w = World::new();
        let angle = w.b.angle("α", tan(3, 4));
        let line = Line::Slope { angle, rises_right: true };
        let upper = w.body("the upper crate", line, 4.into());
        let lower = w.body("the lower crate", line, 6.into());
        w.ground(upper, Some(mu_upper));
        w.ground(lower, Some(mu_lower));
        w.b.string("the rope", upper, lower);
        w.stage(State::Released);
        w.finish()
    };
    let taut = build(ratio(1, 2), ratio(1, 4));
    assert_eq!(taut.solved().case.links, vec![LinkState::Holding]);
    let slack = build(ratio(1, 4), ratio(1, 2));
    let solved = slack.solved();
    assert_eq!(solved.case.links, vec![LinkState::Loose]);
    assert_value(solved.acceleration(slack.bodies[0]), &ratio(98, 25));
    assert_value(solved.acceleration(slack.bodies[1]), &ratio(49, 25));
    assert_eq!(solved.senses, vec![-1, -1]);
    // The lower one so rough that it stays while the upper slides onto it.
    let stays = build(ratio(1, 4), ratio(9, 10));
    let solved = stays.solved();
    assert_eq!(solved.case.frictions, vec![FrictionState::Sliding, FrictionState::Static]);
    assert!(solved.case.moves);
}

/// A letter for the driving force, the masses m, 2m, 3m: a = F/(6m), T = F/6 and F/2 (CP4 P&E 27 in form).
#[test]
fn three_blocks_in_letters() {
    let mut w = World::new();
    let (m, f) = (Value::symbol("m"), Value::symbol("F"));
    w.b.open_letter("m", model::Kind::Mass);
    w.b.open_letter("F", model::Kind::Force);
    let c = w.body("C", Line::Level, Value::from_int(3) * &m);
    let b = w.body("B", Line::Level, Value::from_int(2) * &m);
    let a = w.body("A", Line::Level, m.clone());
    w.b.string("the string BC", c, b);
    w.b.string("the string AB", b, a);
    let pull = w.b.act(Role::Applied, "the force F", c, Direction::Along(1));
    let stage = w.stage(State::Moving);
    w.b.size(stage, pull, f.clone());
    let w = w.finish();
    let solved = w.solved();
    assert_eq!(solved.acceleration(a).unwrap().to_string(), "F/(6*m)");
    assert_eq!(solved.value(w.tension(0)).unwrap().to_string(), "F/2");
    assert_eq!(solved.value(w.tension(1)).unwrap().to_string(), "F/6");
}

/// A journey in letters: v² = 2(g/2)h, so v = √(gh) (worked by hand).
#[test]
fn a_journey_in_letters() {
    let mut w = World::new();
    for (letter, kind) in
        [("m", model::Kind::Mass), ("h", model::Kind::Distance), ("g", model::Kind::Gravity)]
    {
        w.b.open_letter(letter, kind);
    }
    w.b.gravity(Value::symbol("g"));
    let p = w.body("P", Line::Vertical, Value::symbol("m"));
    let q = w.body("Q", Line::Vertical, Value::from_int(3) * Value::symbol("m"));
    w.b.over_pulley("the string", p, q);
    let stage = w.stage(State::Released);
    let j = w.b.journey(stage, q).unwrap();
    w.b.know(j.start_speed, Value::zero());
    w.b.know(j.distance, Value::symbol("h"));
    let w = w.finish();
    let solved = w.solved();
    let v = solved.value(j.end_speed).unwrap();
    assert_value(Some(&(v * v)), &(Value::symbol("g") * Value::symbol("h")));
}
