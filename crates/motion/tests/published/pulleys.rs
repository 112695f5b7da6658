//! Strings over pulleys.

use crate::bench::{Case, Found, dec, printed};
use crate::list::case;
use crate::support::{assert_value, ratio};
use exact::{Angle, Value};
use model::{BodyId, Happening, Holds, Kind, Line, Line::Level, Line::Vertical, LinkId, PulleyId, State};

/// Two hanging bodies.
fn hanging(one: &str, two: &str, g: &str) -> (Found, BodyId, LinkId) {
    let mut c = Case::new().g(dec(g));
    let (p, q) = (c.body(Vertical, one), c.body(Vertical, two));
    let string = c.b().over_pulley("the string", p, q);
    c.stage(State::Released, None);
    (c.solve(), p, string)
}

case!(atwood_2_4, "atwood-2-4", "UP Ex 6.5", {
    let (found, p, string) = hanging("2.00", "4.00", "9.8");
    printed(&found.a(p), "3.27");
    printed(&found.link(string), "26.1");
});

case!(atwood_symbolic, "atwood-symbolic", "the check question of UP section 6.1", {
    let mut c = Case::new().g(Value::symbol("g"));
    c.b().open_letter("g", Kind::Gravity);
    c.b().open_letter("m1", Kind::Mass);
    c.b().open_letter("m2", Kind::Mass);
    let (m1, m2) = (Value::symbol("m1"), Value::symbol("m2"));
    let (p, q) = (c.of_mass(Vertical, m1.clone()), c.of_mass(Vertical, m2.clone()));
    let string = c.b().over_pulley("the string", p, q);
    c.stage(State::Released, None);
    let expected = (dec("2") * &m1 * &m2 * Value::symbol("g")).checked_div(&(m1 + m2)).expect("a sum");
    assert_value(Some(&c.solve().link(string)), &expected);
});

case!(ncert_atwood, "ncert-atwood", "NCERT Physics XI, laws of motion, 5.16", {
    let (found, p, string) = hanging("8", "12", "10");
    printed(&found.a(p), "2");
    printed(&found.link(string), "96");
});

case!(verma_atwood, "verma-atwood", "H. C. Verma, Concepts of Physics 1, ch. 5, Q22", {
    let mut c = Case::new();
    let (p, q) = (c.body(Vertical, "0.3"), c.body(Vertical, "0.6"));
    let string = c.b().over_pulley("the string", p, q);
    c.stage(State::Released, None);
    let journey = c.journey(q, [Some("0"), None, None, Some("2.0")]);
    let found = c.solve();
    printed(&found.link(string), "3.9");
    printed(&found.value(journey.distance), "6.5");
    let clamp = motion::pulley_force(&found.situation, &found.solved, PulleyId(0)).expect("a force");
    printed(&clamp, "7.8");
});

// Stopped for an instant only, both are free at once: the heavy one falls from rest as the light one rises and
// slows, and the string is taut again when the light one has risen, less what it has fallen back, as much as
// the heavy one has dropped: u t − ½ g t² = ½ g t² reckoned towards each other, t = u/g.
case!(verma_retaut, "verma-retaut", "H. C. Verma, Concepts of Physics 1, ch. 5, Q23", {
    let mut c = Case::new();
    let (p, q) = (c.body(Vertical, "0.3"), c.body(Vertical, "0.6"));
    let string = c.b().over_pulley("the string", p, q);
    let falls = c.stage(State::Released, None);
    c.b().heading(falls, q, -1);
    let first = c.journey(q, [Some("0"), None, None, Some("2.0")]);
    let loose = c.b().then(falls, Happening::Slackens(string), State::Moving);
    c.b().heading(loose, p, 1);
    let light = c.b().journey_from(loose, p, first.end_speed, true).expect("a journey");
    let rest = c.b().quantity(Kind::Speed, "w", "speed at which it starts again");
    c.b().know(rest, Value::zero());
    let heavy = c.b().journey_from(loose, q, rest, true).expect("a journey");
    // Taut again: what the light one has risen is what the heavy one has dropped, in the same time.
    for (one, other) in [(light.time, heavy.time), (light.distance, heavy.distance)] {
        let terms = vec![(dec("1"), vec![one]), (dec("-1"), vec![other])];
        let name = "the string is taut again".to_owned();
        c.b().situation_mut().relations.push(model::Relation { terms, name, span: None, from_part: 0 });
    }
    let situation = std::mem::take(c.b()).finish();
    let solved = motion::solve_story(&situation, 0).pop().expect("two stages").expect("a motion that fits");
    let time = solved.value(light.time).or_else(|| solved.value(heavy.time)).expect("found");
    printed(time, "0.667");
    assert_value(Some(time), &ratio(2, 3));
});

case!(ostp_two_pulleys_a, "ostp-two-pulleys-a", "Martin and others, question library, Q90a", {
    let mut c = Case::new();
    let (m1, m2, m3) = (c.body(Vertical, "3.0"), c.body(Vertical, "1.0"), c.body(Level, "3.0"));
    c.smooth(m3);
    c.b().over_pulley("the upper string", m1, m2);
    c.b().link("the lower string", Holds::Pull, false, &[(m2, -1), (m3, 1)]);
    c.stage(State::Released, None);
    let found = c.solve();
    printed(&found.a(m2), "2.8");
    assert_eq!(found.solved.senses[m2.0], 1, "upwards");
});

case!(table_4_1, "table-4-1", "UP6.43", {
    let mut c = Case::new();
    let (table, load) = (c.body(Level, "4.0"), c.body(Vertical, "1.0"));
    c.smooth(table);
    let string = c.b().over_pulley("the string", table, load);
    c.stage(State::Released, None);
    let journey = c.journey(load, [Some("0"), None, Some("1.0"), None]);
    let found = c.solve();
    printed(&found.a(load), "2.0");
    printed(&found.link(string), "7.8");
    printed(&found.value(journey.end_speed), "2.0");
});

case!(table_energy, "table-energy", "UP8.71", {
    let mut c = Case::new();
    let (table, load) = (c.body(Level, "4.0"), c.body(Vertical, "2.0"));
    c.smooth(table);
    c.b().over_pulley("the string", table, load);
    c.stage(State::Released, None);
    let journey = c.journey(load, [Some("0"), None, Some("2.0"), None]);
    printed(&c.solve().value(journey.end_speed), "3.6");
});

// B moves on the table with a pulley round which A's string runs: A goes twice as far.
case!(ostp_moving_pulley, "ostp-moving-pulley", "Martin and others, question library, Q121", {
    let mut c = Case::new();
    let (a, b) = (c.body(Vertical, "2.0"), c.body(Level, "4.0"));
    c.rough(b, Some(dec("0.5")));
    let string = c.b().over_pulley("the string", a, b);
    c.b().situation_mut().links[string.0].ends[1].times = 2;
    c.stage(State::Released, None);
    let found = c.solve();
    printed(&found.a(a), "3.27");
    printed(&found.a(b), "1.63");
});

case!(incline_pulley_40, "incline-pulley-40", "UP6.45", {
    let mut c = Case::new();
    let line = c.slope("40.0");
    let (block, load) = (c.body(line, "2.00"), c.body(Vertical, "4.00"));
    c.smooth(block);
    let string = c.b().over_pulley("the string", block, load);
    c.stage(State::Released, None);
    let found = c.solve();
    printed(&found.a(load), "4.43");
    printed(&found.link(string), "21.5");
});

// The printed form has a heavy disc for a pulley; with its mass M = 0 it is the case of two slopes.
case!(ostp_double_incline, "ostp-double-incline", "Martin and others, question library, Q265, with M = 0", {
    let mut c = Case::new();
    let slope = |c: &mut Case, sine: (i64, i64)| {
        let angle = c.b().angle("α", Angle::Sin(ratio(sine.0, sine.1)));
        Line::Slope { angle, rises_right: true }
    };
    let (left, right) = (slope(&mut c, (4, 5)), slope(&mut c, (5, 13)));
    let (m1, m2) = (c.body(left, "9"), c.body(right, "4"));
    c.rough(m1, Some(ratio(1, 4)));
    c.rough(m2, Some(ratio(1, 4)));
    c.b().over_pulley("the string", m1, m2);
    c.stage(State::Released, None);
    let mu = ratio(1, 4);
    let drive =
        dec("9") * (ratio(4, 5) - &mu * &ratio(3, 5)) - dec("4") * (ratio(5, 13) + &mu * &ratio(12, 13));
    let expected = (drive * dec("9.8")).checked_div(&dec("13")).expect("a mass");
    assert_value(Some(&c.solve().a(m1)), &expected);
});

// Two equal masses; the one that hangs from the movable pulley rises at g/5.
case!(crowell_three_pulleys, "crowell-three-pulleys", "Crowell, Mechanics, \"three-pulleys\"", {
    let mut c = Case::new().g(Value::symbol("g"));
    c.b().open_letter("g", Kind::Gravity);
    c.b().open_letter("m", Kind::Mass);
    let (left, right) = (c.of_mass(Vertical, Value::symbol("m")), c.of_mass(Vertical, Value::symbol("m")));
    let rope = c.b().over_pulley("the rope", left, right);
    c.b().situation_mut().links[rope.0].ends[0].times = 2;
    c.stage(State::Released, None);
    let found = c.solve();
    assert_eq!(found.a(left).to_string(), "g/5");
    assert_eq!(found.solved.senses[left.0], 1, "upwards");
});
