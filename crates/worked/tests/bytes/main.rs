//! Any bytes make a situation, and no situation makes the core panic, show a wrong digit or take for ever. The same two
//! functions are the fuzz target in `fuzz/`; here they run over a thousand seeds, so that no change goes
//! by without it.

#![allow(clippy::expect_used, clippy::panic, reason = "a test that fails should stop")]

mod situation;
mod vouch;

use std::time::{Duration, Instant};

/// Longer than this for one situation, on a slow machine without optimisation, is for ever.
const LONG: Duration = Duration::from_secs(60);

/// Bytes from a seed (SplitMix64, Steele, Lea and Flood 2014).
fn bytes(seed: u64) -> Vec<u8> {
    let mut state = seed;
    let mut next = move || {
        state = state.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = state;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    };
    (0..24).flat_map(|_| next().to_le_bytes()).collect()
}

#[test]
fn a_thousand_odd_situations() {
    let (mut sound, mut answered, mut wrong) = (0, 0, Vec::new());
    for seed in 0..1_000 {
        let situation = situation::situation(&bytes(seed));
        sound += usize::from(situation.check().is_empty());
        let start = Instant::now();
        let found = std::panic::catch_unwind(|| vouch::vouch(&situation));
        let took = start.elapsed();
        match found {
            Ok(Ok(all)) => answered += usize::from(all),
            Ok(Err(why)) => wrong.push(format!("seed {seed}: {why}")),
            Err(_) => wrong.push(format!("seed {seed}: panics")),
        }
        if took > LONG {
            wrong.push(format!("seed {seed}: takes {took:?}"));
        }
    }
    assert!(wrong.is_empty(), "{} of 1000: {:#?}", wrong.len(), wrong.iter().take(12).collect::<Vec<_>>());
    assert!(
        sound > 150 && answered > 10,
        "the bytes make sense too seldom: {sound} sound, {answered} answered"
    );
}

/// Exactly half a unit of the last place goes away from nought, and is shown so: 0.125 as 0.13.
#[test]
fn an_exact_half_is_rounded_away_from_nought() {
    use model::{Accuracy, Builder, Form, Line, State, Wanted};
    for (push, shown) in [("1", "0.13 m s^-2"), ("3", "0.38 m s^-2"), ("5", "0.63 m s^-2")] {
        let mut b = Builder::new();
        let cart = b.body("the cart", "cart", Form::Block, Line::Level, Some(8.into()));
        let force = b.act(model::Role::Applied, "the push", cart, model::Direction::Along(1));
        let stage = b.stage(State::Moving);
        b.heading(stage, cart, 1);
        b.size(stage, force, exact::Value::from_int(push.parse().expect("a number")));
        let a = b.situation().stages[0].accelerations[0];
        b.ask("", stage, "acceleration of the cart", Wanted::Quantity(a));
        b.situation_mut().asks[0].accuracy = Some(Accuracy::Places(2));
        let situation = b.finish();
        assert_eq!(vouch::vouch(&situation), Ok(true));
        let reading = words::Reading { situation, ..words::Reading::default() };
        let worked = worked::work_situation("", reading, &worked::Settings::default());
        let answer = &worked.work.expect("answered").answers[0];
        assert_eq!(answer.shown, shown, "{push}/8");
    }
}

/// Two unknown masses, an unknown angle and links with three ends, in two stages: the elimination is given up after so
/// many terms, plainly, rather than followed for ever.
#[test]
fn what_becomes_too_long_is_given_up() {
    let situation = situation::situation(&bytes(1_945));
    assert_eq!(vouch::vouch(&situation), Ok(false));
    let why = motion::solve(&situation, model::StageId(1), 0).expect_err("not followed to the end");
    let says = "not all cases could be looked through: the equations become too long to be followed";
    assert_eq!(why.first().map(|d| d.message.as_str()), Some(says));
}
