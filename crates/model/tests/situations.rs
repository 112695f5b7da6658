//! Building situations: letters as the trade writes them, and what is unsound.

use exact::{Angle, Rational, Value};
use model::{
    Basis, BodyId, Builder, Direction, Form, Grip, Kind, Known, Line, Refusal, Role, Span, State, Wanted,
};

fn letters(b: Builder) -> Vec<String> {
    b.finish().quantities.into_iter().map(|q| q.letter).collect()
}

#[test]
fn bodies_with_single_letters_lend_them_to_their_masses() {
    let mut b = Builder::new();
    b.body("particle A", "A", Form::Particle, Line::Vertical, Some(2.into()));
    b.body("particle B", "B", Form::Particle, Line::Vertical, Some(3.into()));
    let letters = letters(b);
    assert!(letters.contains(&"m_A".to_owned()) && letters.contains(&"m_B".to_owned()), "{letters:?}");
}

#[test]
fn several_tensions_are_numbered_and_one_is_not() {
    let train = |trucks: usize| {
        let mut b = Builder::new();
        let bodies: Vec<BodyId> = (0..trucks)
            .map(|i| b.body(&format!("truck {i}"), "", Form::Trailer, Line::Level, Some(500.into())))
            .collect();
        for pair in bodies.windows(2) {
            b.tow("the coupling", pair[0], pair[1]);
        }
        b.stage(State::Moving);
        letters(b).into_iter().filter(|l| l.starts_with('T')).collect::<Vec<_>>()
    };
    assert_eq!(train(2), ["T"]);
    assert_eq!(train(3), ["T_1", "T_2"]);
}

#[test]
fn the_letter_of_the_question_stays_and_others_give_way() {
    let mut b = Builder::new();
    b.open_letter("m", Kind::Mass);
    let p = b.body("P", "P", Form::Particle, Line::Vertical, Some(Value::symbol("m")));
    let q = b.body("Q", "Q", Form::Particle, Line::Vertical, Some(Value::from_int(3) * Value::symbol("m")));
    b.over_pulley("the string", p, q);
    let stage = b.stage(State::Released);
    let time = b.journey(stage, q).unwrap().time;
    b.letter(time, "T");
    let situation = b.finish();
    let letter = |id: model::QuantityId| situation.quantities[id.0].letter.as_str();
    let mass = |body: BodyId| situation.bodies[body.0].mass;
    assert_eq!((letter(mass(p)), letter(mass(q))), ("m", "m_Q"), "P's mass is the letter m");
    assert_eq!(letter(time), "T");
    assert_eq!(letter(situation.stages[0].links[0]), "T_1", "the tension gives way");
}

#[test]
fn every_symbol_is_unique_even_over_several_stages() {
    let mut b = Builder::new();
    let p = b.body("P", "P", Form::Particle, Line::Vertical, Some(2.into()));
    let q = b.body("Q", "Q", Form::Particle, Line::Vertical, Some(3.into()));
    b.over_pulley("the string", p, q);
    b.stage(State::AtRest);
    b.stage(State::Released);
    let situation = b.finish();
    let mut symbols: Vec<&str> = situation.quantities.iter().map(|q| q.symbol.as_str()).collect();
    let all = symbols.len();
    symbols.sort_unstable();
    symbols.dedup();
    assert_eq!(symbols.len(), all);
    assert!(!symbols.contains(&""));
}

#[test]
fn parts_are_counted_from_their_labels() {
    let mut b = Builder::new();
    let lift = b.body("the lift", "lift", Form::Lift, Line::Vertical, Some(400.into()));
    let stage = b.stage(State::Moving);
    b.ask_acceleration("a", stage, lift);
    b.ask("a", stage, "which way it moves", Wanted::WhichWay(lift));
    b.ask("b", stage, "whether it moves", Wanted::WhetherItMoves);
    let places: Vec<usize> = b.finish().asks.iter().map(|a| a.part_index).collect();
    assert_eq!(places, [0, 0, 1]);
}

#[test]
fn the_same_journey_is_made_once() {
    let mut b = Builder::new();
    let truck = b.body("the truck", "truck", Form::Trailer, Line::Level, Some(500.into()));
    let stage = b.stage(State::Moving);
    let (one, again) = (b.journey(stage, truck), b.journey(stage, truck));
    assert!(one.is_some());
    assert_eq!(one, again);
    assert_eq!(b.journey(stage, BodyId(7)), None, "of no body, no journey");
}

#[test]
fn values_that_no_body_can_have_are_named_with_their_place() {
    let mut b = Builder::new();
    let crate_ = b.body("the crate", "crate", Form::Block, Line::Level, None);
    let mass = b.situation().bodies[crate_.0].mass;
    b.know_as(
        mass,
        Known {
            value: Value::from_int(-3),
            written: "-3 kg".to_owned(),
            basis: Basis::Given(Span::new(12, 17)),
            from_part: 0,
        },
    );
    b.stage(State::AtRest);
    let found = b.finish().check();
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].refusal, Some(Refusal::Contradictory));
    assert_eq!(found[0].spans, [Span::new(12, 17)]);
    assert!(found[0].message.contains("mass of the crate") && found[0].message.contains("-3 kg"));
}

#[test]
fn an_angle_lies_between_level_and_upright() {
    let sound = |angle: Angle| {
        let mut b = Builder::new();
        let angle = b.angle("α", angle);
        b.body("P", "P", Form::Block, Line::Slope { angle, rises_right: true }, Some(2.into()));
        b.stage(State::Released);
        b.finish().check().is_empty()
    };
    let third = || Value::rational(Rational::new(1, 3).unwrap());
    assert!(sound(Angle::Degrees(30.into())) && sound(Angle::Sin(third())) && sound(Angle::Tan(third())));
    assert!(sound(Angle::Tan(Value::symbol("k"))), "an angle in letters is taken to be sound");
    assert!(!sound(Angle::Degrees(90.into())) && !sound(Angle::Degrees(0.into())));
    assert!(!sound(Angle::Sin(Value::from_int(2))), "no angle has a sine of 2");
}

#[test]
fn a_link_joins_two_bodies_and_a_stage_knows_them_all() {
    let mut b = Builder::new();
    let p = b.body("P", "P", Form::Particle, Line::Vertical, Some(2.into()));
    b.link("the string", model::Holds::Pull, false, &[(p, 1), (p, 1)]);
    b.stage(State::Released);
    assert!(!b.finish().check().is_empty(), "a body is not tied to itself");
    let mut b = Builder::new();
    b.body("P", "P", Form::Particle, Line::Vertical, Some(2.into()));
    b.stage(State::Released);
    b.body("Q", "Q", Form::Particle, Line::Vertical, Some(2.into()));
    assert!(!b.finish().check().is_empty(), "Q came after the stage");
}

#[test]
fn rough_surfaces_have_friction_and_others_have_none() {
    let mut b = Builder::new();
    let rough = b.body("A", "A", Form::Block, Line::Level, Some(2.into()));
    let mu = b.coefficient(Some(Value::rational(Rational::new(1, 4).unwrap())));
    b.surface(rough, "the quay", Grip::Rough(mu));
    b.body("B", "B", Form::Load, Line::Vertical, Some(2.into()));
    b.act(Role::Applied, "the pull", rough, Direction::Along(1));
    let stage = b.stage(State::Released);
    let situation = b.finish();
    let stage = situation.stage(stage).unwrap();
    assert!(stage.frictions[0].is_some() && stage.reactions[0].is_some());
    assert!(stage.frictions[1].is_none() && stage.reactions[1].is_none());
    assert_eq!(situation.assumed, ["g = 9.8 m s^-2"], "the house's g is listed");
}

#[test]
fn spans_join_overlap_and_find_their_text() {
    let (one, two) = (Span::new(4, 9), Span::new(12, 7));
    assert_eq!(two, Span { start: 7, end: 12 });
    assert_eq!(one.join(two), Span::new(4, 12));
    assert!(one.overlaps(two) && !one.overlaps(Span::new(9, 10)));
    assert_eq!(Span::new(0, 99).of("short"), "", "beyond the text there is nothing");
}
