//! Rough floors: at rest or sliding, pulled at an angle, and loads on what moves under them.

use crate::bench::{Case, Found, dec, misprinted, printed};
use crate::list::case;
use exact::Value;
use model::{BodyId, Line::Level, State};

/// A body on a rough floor, pushed level.
fn pushed(mass: &str, mu: &str, push: Option<&str>, state: State) -> (Found, BodyId) {
    let mut c = Case::new();
    let body = c.body(Level, mass);
    c.rough(body, Some(dec(mu)));
    c.push(body, 1, push.map(dec));
    c.stage(state, (state != State::Released).then_some(1));
    (c.solve(), body)
}

/// The greatest push without motion.
fn greatest(mass: &str, mu: &str) -> Value {
    pushed(mass, mu, None, State::Limiting).0.force(model::ActionId(0))
}

// Printed 3.10 for the acceleration at 180 N, from friction rounded to 118. Worked out again: 3.12.
case!(crate_pf, "crate-PF", "UP Ex 6.10", {
    for (push, friction) in [("20", "20.0"), ("30", "30.0"), ("120", "120.0")] {
        let (found, body) = pushed("20.0", "0.700", Some(push), State::Released);
        assert!(!found.solved.case.moves);
        printed(&found.friction(body), friction);
    }
    printed(&greatest("20.0", "0.700"), "137");
    let (found, body) = pushed("20.0", "0.600", Some("180"), State::Moving);
    printed(&found.friction(body), "118");
    misprinted(&found.a(body), "3.10");
    printed(&found.a(body), "3.12");
});

case!(block_min_force, "block-min-force", "the check question of UP section 6.2", {
    let least = greatest("1.0", "0.50");
    printed(&least, "4.9");
    let (found, body) = pushed("1.0", "0.40", Some("4.9"), State::Moving);
    printed(&found.a(body), "0.98");
});

case!(crate_wood, "crate-wood", "CP5 P&E 4", {
    printed(&greatest("120", "0.5"), "588");
    let (found, body) = pushed("120", "0.3", Some("588"), State::Moving);
    printed(&found.a(body), "1.96");
});

case!(ice_pull, "ice-pull", "UP6.63", {
    let pulled = |mu: &str, size: Option<Value>, state: State| {
        let mut c = Case::new();
        let block = c.body(Level, "45.0");
        c.rough(block, Some(dec(mu)));
        let rope = c.pull_at(block, "25", true, size);
        c.stage(state, Some(1));
        let found = c.solve();
        (found.force(rope), found.a(block))
    };
    let (least, _) = pulled("0.1", None, State::Limiting);
    printed(&least, "46.5");
    printed(&pulled("0.03", Some(least), State::Moving).1, "0.655");
});

// The resultant of two pushes at a right angle is put in. Its direction is a sum of vectors, worked out beside.
case!(ice_skater, "ice-skater", "UP6.51", {
    let square = dec("21.4") * dec("21.4") + dec("10.6") * dec("10.6");
    let resultant = square.sqrt().expect("a root");
    printed(&resultant, "23.9");
    let a = |mu: &str, state: State| {
        let mut c = Case::new();
        let skater = c.body(Level, "65.0");
        c.rough(skater, Some(dec(mu)));
        c.push(skater, 1, Some(resultant.clone()));
        c.stage(state, (state == State::Moving).then_some(1));
        c.solve().a(skater)
    };
    printed(&a("0.04", State::Released), "0");
    printed(&a("0.02", State::Moving), "0.171");
});

case!(skid_stop, "skid-stop", "UP6.131", {
    let mut c = Case::new();
    let car = c.body(Level, "1");
    c.rough(car, Some(dec("0.500")));
    c.stage(State::Moving, Some(1));
    let journey = c.journey(car, [None, Some("0"), None, None]);
    c.b().know(journey.start_speed, dec("100.0").checked_div(&dec("3.6")).expect("a speed"));
    printed(&c.solve().value(journey.distance), "78.7");
});

// Work is the force along the way times the way.
case!(ostp_sled_work, "ostp-sled-work", "Martin and others, question library, Q137", {
    let mut c = Case::new();
    let sled = c.body(Level, "50");
    c.rough(sled, Some(dec("0.20")));
    let rope = c.pull_at(sled, "25", true, None);
    c.stage(State::Steady, Some(1));
    let way = Value::cos_deg(&exact::Rational::from_int(25)) * dec("20");
    printed(&(c.solve().force(rope) * way), "1792.80");
});
