//! Lifts, rockets, and what hangs or is thrown straight up and down.

use crate::bench::{Case, dec, misprinted, printed};
use crate::list::case;
use exact::Value;
use model::{Line::Vertical, State};

/// The force that gives this mass this acceleration upwards, with such a resistance against its motion.
fn carried(mass: &str, a: &str, resistance: Option<&str>) -> Value {
    let mut c = Case::new();
    let load = c.body(Vertical, mass);
    let force = c.push(load, 1, None);
    if let Some(size) = resistance {
        c.resist(load, Some(dec(size)));
    }
    c.stage(State::Moving, Some(1));
    c.accelerates(load, dec(a));
    c.solve().force(force)
}

case!(lift_scale_down, "lift-scale-down", "the check question of UP section 6.1", {
    printed(&carried("75.0", "-1.20", None), "645");
});

// 140 is printed to two figures; exact 136.
case!(lift_backpack, "lift-backpack", "UP6.39", {
    let mut c = Case::new();
    let pack = c.b().body("the pack", "", model::Form::Load, Vertical, None);
    let mass = c.b().situation().bodies[pack.0].mass;
    c.push(pack, 1, Some(dec("60")));
    c.stage(State::Moving, Some(-1));
    c.accelerates(pack, dec("-3.8"));
    printed(&c.solve().value(mass), "10");
    printed(&carried("10", "3.8", None), "1.4e2");
    printed(&carried("10", "0", None), "98");
    printed(&carried("10", "-9.8", None), "0");
});

case!(lift_unreasonable, "lift-unreasonable", "UP6.91", {
    let mut c = Case::new();
    let rider = c.body(Vertical, "75.0");
    let floor = c.push(rider, 1, None);
    c.stage(State::Moving, Some(1));
    c.journey(rider, [Some("0"), Some("30.0"), None, Some("2.00")]);
    let force = c.solve().force(floor);
    printed(&force, "1.86e3");
    printed(&force.checked_div(&(dec("75.0") * dec("9.8"))).expect("a ratio"), "2.53");
});

// Work and heat are the forces times the distance.
case!(lift_friction, "lift-friction", "CP7 P&E 64", {
    let mut c = Case::new();
    let lift = c.body(Vertical, "1500");
    let cable = c.push(lift, 1, None);
    let rails = c.resist(lift, Some(dec("200")));
    c.stage(State::Moving, Some(1));
    c.accelerates(lift, dec("0.800"));
    let journey = c.journey(lift, [Some("0"), None, Some("20.0"), None]);
    let found = c.solve();
    printed(&found.force(cable), "16.1e3");
    printed(&(found.force(cable) * found.value(journey.distance)), "3.22e5");
    printed(&found.value(journey.end_speed), "5.66");
    printed(&(found.force(rails) * found.value(journey.distance)), "4.00e3");
});

case!(es_lift, "es-lift", "Everything Science Grade 11, ch. 12, lifts", {
    printed(&carried("500", "0", None), "4.9e3");
    printed(&carried("500", "1", None), "5.4e3");
    printed(&carried("500", "-2", None), "3.9e3");
    let mut c = Case::new();
    let lift = c.body(Vertical, "500");
    c.stage(State::Moving, Some(-1));
    printed(&c.solve().a(lift), "9.8");
});

case!(cable_raise, "cable-raise", "CP4 AP test 17", {
    printed(&carried("120.0", "1.3", None), "1332");
});

case!(rocket_drag, "rocket-drag", "CP4 P&E 23", {
    let mut c = Case::new();
    let rocket = c.body(Vertical, "5.00e5");
    c.push(rocket, 1, Some(dec("1.250e7")));
    c.resist(rocket, Some(dec("4.50e6")));
    c.stage(State::Moving, Some(1));
    printed(&c.solve().a(rocket), "6.20");
});

case!(jumper, "jumper", "CP4 P&E 25", {
    printed(&carried("70.0", "39.2", None), "3.43e3");
});

case!(baby_scale, "baby-scale", "UP5.65", {
    let mut c = Case::new();
    let scale = c.body(Vertical, "0.500");
    let baby = c.b().body("the baby", "", model::Form::Load, Vertical, None);
    let mass = c.b().situation().bodies[baby.0].mass;
    let lower = c.b().string("the lower hook", scale, baby);
    let upper = c.push(scale, 1, None);
    c.stage(State::AtRest, None);
    let tension = c.b().situation().stages[0].links[lower.0];
    c.b().know(tension, dec("55"));
    let found = c.solve();
    printed(&found.value(mass), "5.6");
    printed(&found.link(lower), "55");
    printed(&found.force(upper), "6.0e1");
});

// Printed 497, which leaves the weight out: that is the resultant force. Worked out again: 499.
case!(catch_ball, "catch-ball", "UP5.49", {
    let mut c = Case::new();
    let ball = c.body(Vertical, "0.145");
    let glove = c.push(ball, 1, None);
    c.stage(State::Moving, Some(-1));
    let journey = c.journey(ball, [None, Some("0"), None, Some("0.0100")]);
    let fall = (dec("2") * dec("9.8") * dec("60.0")).sqrt().expect("a speed");
    c.b().know(journey.start_speed, fall);
    let force = c.solve().force(glove);
    misprinted(&force, "497");
    printed(&force, "499");
    printed(&(force - dec("0.145") * dec("9.8")), "497");
});
