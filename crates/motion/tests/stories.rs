//! Stories at the slipway: a load lands, a string goes slack and tightens with a jerk. The closed forms are those
//! of docs/closed-forms.md (B21 to B25, B31), the numbers of the anchor those that stand there too.

#![allow(clippy::expect_used, clippy::unwrap_used, reason = "a test that cannot be set up should stop")]

mod support;

use exact::Value;
use model::{
    BodyId, Happening, Journey, Kind, Line, LinkId, QuantityId, Relation, Situation, StageId, State,
};
use motion::Solved;
use support::*;

/// Every stage, solved and proved.
#[track_caller]
fn told(situation: &Situation) -> Vec<Solved> {
    let found = motion::solve_story(situation, 0);
    let solved: Vec<Solved> = found.into_iter().map(|s| s.expect("a stage that fits")).collect();
    for stage in &solved {
        motion::check(situation, stage).expect("every equation and condition holds");
    }
    solved
}

/// Two loads over a pulley; the heavy one falls to the floor and stays, the string goes slack and tightens.
struct Slack {
    w: World,
    p: BodyId,
    q: BodyId,
    string: LinkId,
    fall: Journey,
    rise: Journey,
    slack: Journey,
    jerk: [Journey; 2],
    lifted: Journey,
    lost: QuantityId,
}

fn energy(w: &mut World, name: &str, terms: &[(i64, QuantityId, QuantityId)]) -> QuantityId {
    let id = w.b.quantity(Kind::Energy, "E", name);
    let mut sum = vec![(Value::from_int(-1), vec![id])];
    sum.extend(terms.iter().map(|(sign, m, v)| (ratio(*sign, 2), vec![*m, *v, *v])));
    let relation = Relation { terms: sum, name: name.to_owned(), span: None, from_part: 0 };
    w.b.situation_mut().relations.push(relation);
    id
}

fn slack(light: Value, heavy: Value) -> Slack {
    let mut w = World::new();
    let p = w.body("P", Line::Vertical, light);
    let q = w.body("Q", Line::Vertical, heavy);
    let string = w.b.over_pulley("the string", p, q);
    let falls = w.stage(State::Released);
    w.b.heading(falls, q, -1);
    let fall = w.b.journey(falls, q).unwrap();
    w.b.know(fall.start_speed, 0.into());
    let lands = Happening::Stops { body: q, at: "the floor".to_owned() };
    let loose = w.b.then(falls, lands, State::Moving);
    w.b.situation_mut().stages[loose.0].without_links.push(string);
    w.b.heading(loose, p, 1);
    let rise = w.b.journey_from(loose, p, fall.end_speed, false).unwrap();
    w.b.know(rise.end_speed, 0.into());
    let slack = w.b.journey_from(loose, p, fall.end_speed, true).unwrap();
    w.b.know(slack.distance, 0.into());
    let jerks = w.b.then(loose, Happening::Tightens(string), State::Jerk);
    let back = w.b.total(Kind::Speed, "u", "speed of P as the string tightens", &[(-1, slack.end_speed)]);
    w.b.heading(jerks, p, -1);
    let jerk = [p, q].map(|body| {
        let u = if body == p { back } else { w.b.quantity(Kind::Speed, "u", "speed of Q before the jerk") };
        if body == q {
            w.b.know(u, 0.into());
        }
        w.b.journey_from(jerks, body, u, false).unwrap()
    });
    let lifts = w.b.then(jerks, Happening::Changes, State::Moving);
    let lifted = w.b.journey_from(lifts, q, jerk[1].end_speed, false).unwrap();
    w.b.know(lifted.end_speed, 0.into());
    let mass = |w: &World, b: BodyId| w.b.situation().bodies[b.0].mass;
    let (mp, mq) = (mass(&w, p), mass(&w, q));
    let lost = energy(
        &mut w,
        "kinetic energy lost",
        &[(1, mp, jerk[0].start_speed), (-1, mp, jerk[0].end_speed), (-1, mq, jerk[1].end_speed)],
    );
    Slack { w, p, q, string, fall, rise, slack, jerk, lifted, lost }
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
