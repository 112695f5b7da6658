//! Stories at the slipway: a load lands, a string goes slack and tightens with a jerk. The closed forms are those
//! of docs/closed-forms.md (B21 to B25, B31), the numbers of the anchor those that stand there too.

#![allow(clippy::expect_used, clippy::unwrap_used, reason = "a test that cannot be set up should stop")]

mod support;

use exact::{Angle, Value};
use model::{
    BodyId, Direction, Happening, Journey, Kind, Line, LinkId, QuantityId, Relation, Role, Situation,
    StageId, State,
};
use motion::Solved;
use support::landing::{Landing, Tightening, over_the_edge, two_hang};
use support::*;

/// Every stage, solved and proved.
#[track_caller]
fn told(situation: &Situation) -> Vec<Solved> {
    let found = motion::solve_story(situation, 0);
    let solved: Vec<Solved> = found.into_iter().map(|s| s.expect("a stage that fits")).collect();
    assert!(energy::balanced(situation, &solved) > 0, "work = change of kinetic energy on some journey");
    for stage in &solved {
        motion::check(situation, stage).expect("every equation and condition holds");
    }
    solved
}

/// Two loads over a pulley; the heavy one falls to the floor and stays, the string goes slack and tightens.
struct Slack {
    w: World,
    p: BodyId,
    string: LinkId,
    fall: Journey,
    rise: Journey,
    slack: Journey,
    jerk: [Journey; 2],
    lifted: Journey,
    lost: QuantityId,
}

fn slack(light: Value, heavy: Value) -> Slack {
    let mut landing = two_hang(light, heavy);
    let Tightening { rise, slack, jerk, lifted, lost, .. } = landing.tightens();
    let Landing { b, drawn: p, load, string, fall, .. } = landing;
    Slack { w: World { b, bodies: vec![p, load] }, p, string, fall, rise, slack, jerk, lifted, lost }
}

/// The anchor of docs/closed-forms.md: 2 kg and 3 kg, 0.5 m: v = 1.4, rise 0.1 m, slack 2/7 s, V = 0.56, J = 1.68,
/// 1.176 J lost, lifted again by 0.08 m.
#[test]
fn the_slack_chain_from_end_to_end() {
    let mut s = slack(2.into(), 3.into());
    s.w.b.know(s.fall.distance, ratio(1, 2));
    let w = s.w.finish();
    let stages = told(&w.situation);
    let tension = w.situation.stages[0].links[s.string.0];
    assert_value(stages[0].acceleration(s.p), &ratio(49, 25));
    assert_value(stages[0].value(tension), &ratio(588, 25));
    assert_value(stages[0].value(s.fall.end_speed), &ratio(7, 5));
    assert_value(stages[1].value(s.rise.distance), &ratio(1, 10));
    assert_value(stages[1].value(s.slack.time), &ratio(2, 7));
    assert_value(stages[2].value(s.jerk[0].end_speed), &ratio(14, 25));
    assert_value(stages[2].value(w.situation.stages[2].links[s.string.0]), &ratio(42, 25));
    assert_value(stages[3].value(s.lifted.distance), &ratio(2, 25));
    for stage in &stages {
        assert_value(stage.value(s.lost), &ratio(147, 125));
    }
    assert!(stages[2].equations.iter().any(|e| e.system.len() == 2 && e.internal.len() == 2));
    // Each stage alone says the same.
    for (at, stage) in stages.iter().enumerate() {
        assert_eq!(motion::solve(&w.situation, StageId(at), 0).as_ref(), Ok(stage));
    }
}

fn letter(name: &str) -> Value {
    Value::symbol(name)
}

fn over(above: Value, below: Value) -> Value {
    above.checked_div(&below).unwrap()
}

/// B21 to B24 in letters: masses m and 3m, height h: a = g/2, v² = gh, a further h/2, 2√(h/g) slack, V = v/4,
/// J = 3mv/4, 3mv²/8 lost, lifted by h/16.
#[test]
fn the_slack_chain_in_letters() {
    let mut s = slack(letter("m"), Value::from_int(3) * letter("m"));
    s.w.b.open_letter("m", Kind::Mass);
    s.w.b.open_letter("h", Kind::Distance);
    s.w.b.gravity(letter("g"));
    s.w.b.know(s.fall.distance, letter("h"));
    let height =
        s.w.b.total(Kind::Distance, "H", "greatest height", &[(1, s.fall.distance), (1, s.rise.distance)]);
    let w = s.w.finish();
    let stages = told(&w.situation);
    let (m, g, h) = (letter("m"), letter("g"), letter("h"));
    let v = (&g * &h).sqrt().unwrap();
    assert_value(stages[0].acceleration(s.p), &(&g * ratio(1, 2)));
    assert_value(stages[1].value(s.rise.distance), &(&h * ratio(1, 2)));
    assert_value(stages[1].value(s.slack.time), &(Value::from_int(2) * over(v.clone(), g)));
    assert_value(stages[2].value(s.jerk[0].end_speed), &(&v * ratio(1, 4)));
    assert_value(stages[2].value(w.situation.stages[2].links[s.string.0]), &(&m * &v * ratio(3, 4)));
    assert_value(stages[2].value(s.lost), &(&m * &v * &v * ratio(3, 8)));
    assert_value(stages[3].value(s.lifted.distance), &(&h * ratio(1, 16)));
    // The total is known whichever stage is asked.
    assert!(stages.iter().all(|stage| stage.value(height).is_some_and(|x| (x - &h * ratio(3, 2)).is_zero())));
}

/// Working backwards: 2.45 = g t/2 for half a second of slack, and v² = 2 a h with a = g/5 gives h = 1.53125.
#[test]
fn the_height_from_the_time_of_slack() {
    let mut s = slack(2.into(), 3.into());
    s.w.b.know(s.slack.time, ratio(1, 2));
    let w = s.w.finish();
    let stages = told(&w.situation);
    assert_value(stages[0].value(s.fall.distance), &ratio(49, 32));
    assert_value(stages[3].value(s.lifted.distance), &ratio(49, 200));
}

/// And from the whole time, fall and slack together, which no stage can use alone: v/a + 2v/g = 7v/g = 1 with
/// a = g/5.
#[test]
fn the_height_from_the_total_time() {
    let mut s = slack(2.into(), 3.into());
    let all = s.w.b.total(Kind::Time, "t", "total time", &[(1, s.fall.time), (1, s.slack.time)]);
    s.w.b.know(all, ratio(1, 1));
    let w = s.w.finish();
    let stages = told(&w.situation);
    // v (5/g + 2/g) = 1
    assert_value(stages[0].value(s.fall.end_speed), &ratio(7, 5));
    assert_value(stages[0].value(s.fall.distance), &ratio(1, 2));
}

/// A mass from a greatest height: h + h(m − 2)/(m + 2) = 0.6 with h = 0.5 gives m = 3.
#[test]
fn a_mass_from_the_greatest_height() {
    let mut s = slack(2.into(), 3.into());
    let mass = s.w.b.situation().bodies[1].mass;
    s.w.b.situation_mut().quantities[mass.0].known = None;
    s.w.b.know(s.fall.distance, ratio(1, 2));
    let height =
        s.w.b.total(Kind::Distance, "H", "greatest height", &[(1, s.fall.distance), (1, s.rise.distance)]);
    s.w.b.know(height, ratio(3, 5));
    let w = s.w.finish();
    let stages = told(&w.situation);
    assert_value(stages[0].value(mass), &Value::from_int(3));
}

/// A block on a table and a load that lands on the floor (B25).
struct Table {
    w: World,
    block: BodyId,
    first: Journey,
    second: Journey,
    mu: Option<QuantityId>,
}

fn table(mu: Option<Option<Value>>, block: i64, load: i64) -> Table {
    let mut landing = over_the_edge(block.into(), load.into(), mu);
    let loose = landing.lands();
    let second = landing.goes_on(loose);
    let Landing { b, drawn: block, load, fall: first, mu, .. } = landing;
    Table { w: World { b, bodies: vec![block, load] }, block, first, second, mu }
}

/// B25, smooth: the block keeps v = √(2ah), a = 3g/5 for 2 kg and 3 kg.
#[test]
fn on_a_smooth_table_the_block_keeps_its_speed() {
    let mut t = table(None, 2, 3);
    t.w.b.know(t.first.distance, ratio(3, 5));
    t.w.b.know(t.second.time, ratio(1, 2));
    let w = t.w.finish();
    let stages = told(&w.situation);
    let v = (Value::from_int(2) * ratio(147, 25) * ratio(3, 5)).sqrt().unwrap();
    assert_value(stages[1].value(t.second.end_speed), &v);
    assert_value(stages[1].acceleration(t.block), &Value::zero());
    assert_value(stages[1].value(t.second.distance), &(v * ratio(1, 2)));
    assert_eq!(stages[1].senses[t.block.0], 1, "on the way it was going");
}

/// B25, rough: it stops after v²/(2μg); v² = 2 × (3 − 2μ)g/5 × h.
#[test]
fn on_a_rough_table_the_block_stops() {
    let mut t = table(Some(Some(ratio(1, 4))), 2, 3);
    t.w.b.know(t.first.distance, ratio(1, 2));
    t.w.b.know(t.second.end_speed, 0.into());
    let far =
        t.w.b.total(Kind::Distance, "d", "total distance", &[(1, t.first.distance), (1, t.second.distance)]);
    let w = t.w.finish();
    let stages = told(&w.situation);
    assert_value(stages[0].acceleration(t.block), &ratio(49, 10));
    assert_value(stages[1].acceleration(t.block), &ratio(-49, 20));
    assert_value(stages[1].value(t.second.distance), &Value::from_int(1));
    assert_value(stages[0].value(far), &ratio(3, 2));
}

/// Backwards: μ from the total distance, 1.5 m of which the first half metre is driven.
#[test]
fn a_coefficient_from_the_total_distance() {
    let mut t = table(Some(None), 2, 3);
    t.w.b.know(t.first.distance, ratio(1, 2));
    t.w.b.know(t.second.end_speed, 0.into());
    let far =
        t.w.b.total(Kind::Distance, "d", "total distance", &[(1, t.first.distance), (1, t.second.distance)]);
    t.w.b.know(far, ratio(3, 2));
    let mu = t.mu.unwrap();
    let w = t.w.finish();
    let stages = told(&w.situation);
    assert_value(stages[0].value(mu), &ratio(1, 4));
    assert_value(stages[1].value(mu), &ratio(1, 4));
}

/// Backwards from a time: μ when the block stops 4/7 s after the load has landed (v = μ g t, v² = 2ah).
#[test]
fn a_coefficient_from_a_time_in_the_second_stage() {
    let mut t = table(Some(None), 2, 3);
    t.w.b.know(t.first.end_speed, ratio(7, 5));
    t.w.b.know(t.second.end_speed, 0.into());
    t.w.b.know(t.second.time, ratio(4, 7));
    let mu = t.mu.unwrap();
    let w = t.w.finish();
    let stages = told(&w.situation);
    assert_value(stages[0].value(mu), &ratio(1, 4));
    assert_value(stages[0].value(t.first.distance), &ratio(1, 5));
}

/// Up a rough slope, to rest, and then back or not (B31).
fn up_and_back(angle: Angle, mu: Value) -> (World, BodyId, [Journey; 2]) {
    let mut w = World::new();
    let angle = w.b.angle("α", angle);
    let p = w.body("P", Line::Slope { angle, rises_right: true }, 2.into());
    w.ground(p, Some(mu));
    let up = w.stage(State::Moving);
    w.b.heading(up, p, 1);
    let rising = w.b.journey(up, p).unwrap();
    w.b.know(rising.start_speed, 7.into());
    w.b.know(rising.end_speed, 0.into());
    let back = w.b.then(up, Happening::Rests(p), State::Released);
    let u = w.b.quantity(Kind::Speed, "u", "speed of P at its highest point");
    w.b.know(u, 0.into());
    let falling = w.b.journey_from(back, p, u, false).unwrap();
    w.b.total(Kind::Distance, "d", "way back", &[(1, rising.distance)]);
    (w, p, [rising, falling])
}

/// B31, tan α = 3/4, μ = 1/2 < 3/4: up with g(0.6 + 0.4), down with g(0.6 − 0.4): 2.5 m, v² = 2 × 1.96 × 2.5.
#[test]
fn it_slides_back_where_the_slope_is_steep() {
    let (mut w, p, [up, down]) = up_and_back(tan(3, 4), ratio(1, 2));
    let same = Relation {
        terms: vec![(Value::one(), vec![up.distance]), (Value::from_int(-1), vec![down.distance])],
        name: "the way back is as long".to_owned(),
        span: None,
        from_part: 0,
    };
    w.b.situation_mut().relations.push(same);
    let all = w.b.total(Kind::Time, "t", "total time", &[(1, up.time), (1, down.time)]);
    let w = w.finish();
    let stages = told(&w.situation);
    assert_value(stages[0].acceleration(p), &ratio(-49, 5));
    assert_value(stages[0].value(up.distance), &ratio(5, 2));
    assert_value(stages[1].acceleration(p), &ratio(49, 25));
    assert_eq!(stages[1].senses[p.0], -1, "down the slope");
    let v = ratio(49, 5).sqrt().unwrap();
    assert_value(stages[1].value(down.end_speed), &v);
    assert_value(stages[1].value(all), &(ratio(5, 7) + over(v, ratio(49, 25))));
}

/// B31, μ = 4/5 > 3/4: it stays where it stopped.
#[test]
fn it_stays_where_friction_is_enough() {
    let (w, p, [up, _]) = up_and_back(tan(3, 4), ratio(4, 5));
    let w = w.finish();
    let stages = told(&w.situation);
    assert_value(
        stages[0].value(up.distance),
        &over(Value::from_int(49), Value::from_int(2) * ratio(49, 5) * ratio(31, 25)),
    );
    assert!(!stages[1].case.moves);
    assert_value(stages[1].acceleration(p), &Value::zero());
}

/// The rope of a sledge train parts: each part goes on alone, 4 m s⁻¹ at first; 60 N drives, 10 N resist on each.
#[test]
fn each_part_goes_on_by_itself_when_the_rope_breaks() {
    let mut w = World::new();
    let p = w.body("P", Line::Level, 10.into());
    let q = w.body("Q", Line::Level, 5.into());
    let rope = w.b.string("the rope", p, q);
    let pull = w.b.act(Role::Applied, "the pull", p, Direction::Along(1));
    let r = w.b.act(Role::Resistance, "the resistance on P", p, Direction::Opposing);
    let x = w.b.act(Role::Resistance, "the resistance on Q", q, Direction::Opposing);
    let sizes = |w: &mut World, s: StageId| {
        for (action, size) in [(pull, 60), (r, 10), (x, 10)] {
            w.b.size(s, action, size.into());
        }
    };
    let tow = w.stage(State::Moving);
    sizes(&mut w, tow);
    w.b.heading(tow, p, 1);
    let together = w.b.journey(tow, p).unwrap();
    w.b.know(together.start_speed, 0.into());
    w.b.know(together.end_speed, 4.into());
    let apart = w.b.then(tow, Happening::Breaks(rope), State::Moving);
    sizes(&mut w, apart);
    let on = w.b.journey_from(apart, p, together.end_speed, false).unwrap();
    let behind = w.b.journey_from(apart, q, together.end_speed, false).unwrap();
    w.b.know(behind.end_speed, 0.into());
    let same = vec![(Value::one(), vec![on.time]), (Value::from_int(-1), vec![behind.time])];
    let relation = Relation { terms: same, name: "the same time".to_owned(), span: None, from_part: 0 };
    w.b.situation_mut().relations.push(relation);
    let gap =
        w.b.total(Kind::Distance, "d", "distance between them", &[(1, on.distance), (-1, behind.distance)]);
    let w = w.finish();
    let stages = told(&w.situation);
    assert_value(stages[0].acceleration(p), &ratio(8, 3));
    assert_value(stages[1].acceleration(p), &Value::from_int(5));
    assert_value(stages[1].acceleration(q), &Value::from_int(-2));
    // Q stops after 2 s and 4 m; P has gone 8 + 10 m by then.
    assert_value(stages[1].value(gap), &Value::from_int(14));
    assert_eq!(stages[1].senses, [1, 1]);
    assert_eq!(
        motion::ends(&w.situation, tow, &stages).as_deref(),
        Some("the rope breaks, after 1.50 s, when P has moved 3 m and moves at 4 m s^-1")
    );
}

/// Thrown up at 10 m s⁻¹, g = 10: 3 = 10t − 5t² has two positive roots, and nothing given says which is meant.
#[test]
fn of_two_times_both_are_cases() {
    let mut w = World::new();
    let p = w.body("P", Line::Vertical, 1.into());
    w.b.gravity(10.into());
    let free = w.stage(State::Moving);
    w.b.heading(free, p, 1);
    let u = w.b.quantity(Kind::Velocity, "u", "velocity at first");
    w.b.know(u, 10.into());
    let flight = w.b.journey_from(free, p, u, true).unwrap();
    w.b.know(flight.distance, 3.into());
    let w = w.finish();
    let refused = motion::solve(&w.situation, free, 0).unwrap_err();
    assert_eq!(refused[0].refusal, Some(model::Refusal::Undetermined));
    assert!(refused[0].message.contains("time"), "{}", refused[0].message);
}
