//! Values against the closed forms of textbooks: each check names where its form is printed.
//! UP = OpenStax University Physics vol. 1, CP = OpenStax College Physics 2e.

mod support;

use exact::Value;
use model::{Builder, Direction, Form, Line, Role, State};
use motion::solve;
use support::{assert_value, ratio};

/// UP Ex 6.5: a = (m2 − m1)g/(m1 + m2), T = 2 m1 m2 g/(m1 + m2).
#[test]
fn two_masses_over_a_pulley() {
    let mut b = Builder::new();
    let p = b.body("P", "P", Form::Particle, Line::Vertical, Some(2.into()));
    let q = b.body("Q", "Q", Form::Particle, Line::Vertical, Some(4.into()));
    let string = b.over_pulley("the string", p, q);
    let stage = b.stage(State::Released);
    let s = b.finish();
    let solved = solve(&s, stage, 0).unwrap();
    motion::check(&s, &solved).unwrap();
    assert_value(solved.acceleration(p), &ratio(98, 30));
    assert_value(solved.value(s.stages[0].links[string.0]), &ratio(784, 30));
    assert_eq!(solved.senses, vec![1, -1], "the lighter rises, the heavier falls");
    let pulley = model::PulleyId(0);
    assert_eq!(motion::pulley_force(&s, &solved, pulley), Some(ratio(1568, 30)), "B2: twice the tension");
}

/// CP4 P&E 29, UP6.99: a = (F − R1 − R2)/(m1 + m2), T = (m2 F + m1 R2 − m2 R1)/(m1 + m2).
#[test]
fn a_tractor_and_its_trailer() {
    let mut b = Builder::new();
    let tractor = b.body("the tractor", "tractor", Form::Vehicle, Line::Level, Some(1800.into()));
    let trailer = b.body("the trailer", "trailer", Form::Trailer, Line::Level, Some(1200.into()));
    let bar = b.tow("the tow-bar", tractor, trailer);
    let drive = b.act(Role::Driving, "the driving force", tractor, Direction::Along(1));
    let r1 = b.act(Role::Resistance, "the resistance on the tractor", tractor, Direction::Opposing);
    let r2 = b.act(Role::Resistance, "the resistance on the trailer", trailer, Direction::Opposing);
    let stage = b.stage(State::Moving);
    b.size(stage, drive, 3150.into());
    b.size(stage, r1, 500.into());
    b.size(stage, r2, 400.into());
    b.heading(stage, tractor, 1);
    let s = b.finish();
    let solved = solve(&s, stage, 0).unwrap();
    motion::check(&s, &solved).unwrap();
    assert_value(solved.acceleration(trailer), &ratio(3, 4));
    assert_value(solved.value(s.stages[0].links[bar.0]), &Value::from_int(1300));
}
