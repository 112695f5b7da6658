//! Trains, tugs, bodies pushed and pulled on the level without friction laws.

use crate::bench::{Case, dec, misprinted, printed};
use crate::list::case;
use model::{Direction, Line::Level, Role, State};

case!(push_cart_system, "push-cart-system", "UP Ex 5.10", {
    let mut c = Case::new();
    let (walker, trolley, load) = (c.body(Level, "65.0"), c.body(Level, "12.0"), c.body(Level, "7.0"));
    c.b().rests_on("the push on the trolley", trolley, walker);
    c.b().rests_on("the push on the load", load, trolley);
    c.push(walker, 1, Some(dec("150")));
    c.resist(trolley, Some(dec("24.0")));
    c.stage(State::Moving, Some(1));
    printed(&c.solve().a(load), "1.5");
});

case!(push_two_blocks, "push-two-blocks", "the check question of UP section 5.5", {
    let mut c = Case::new();
    let (one, two) = (c.body(Level, "2.0"), c.body(Level, "6.0"));
    let contact = c.b().rests_on("the push", two, one);
    c.push(one, 1, Some(dec("24")));
    c.stage(State::Released, None);
    let found = c.solve();
    printed(&found.a(two), "3.0");
    printed(&found.link(contact), "18");
});

// The force between two vehicles that meet is a pair: what slows the one at 10 pushes the other.
case!(n3_truck_car, "n3-truck-car", "the check question of UP section 5.3", {
    let mut c = Case::new();
    let truck = c.body(Level, "2200");
    let push = c.push(truck, -1, None);
    c.stage(State::Moving, Some(1));
    c.accelerates(truck, dec("-10"));
    let force = c.solve().force(push);
    let mut c = Case::new();
    let car = c.body(Level, "550");
    c.push(car, 1, Some(force));
    c.stage(State::Released, None);
    printed(&c.solve().a(car), "40");
});

case!(car_boat_trailer, "car-boat-trailer", "CP4 P&E 29", {
    let mut c = Case::new();
    let (car, trailer) = (c.body(Level, "1100"), c.body(Level, "700"));
    let hitch = c.b().tow("the hitch", car, trailer);
    c.force(Role::Driving, car, Direction::Along(1), Some(dec("1900")));
    let (one, two) = (c.resist(car, None), c.resist(trailer, None));
    let stage = c.stage(State::Moving, Some(1));
    c.accelerates(car, dec("0.550"));
    // Four fifths of the resistance act on the trailer.
    let forces = c.b().situation().stages[stage.0].forces.clone();
    let terms = vec![(dec("-4"), vec![forces[one.0]]), (dec("1"), vec![forces[two.0]])];
    let name = "the trailer has 80% of the resistance".to_owned();
    c.b().situation_mut().relations.push(model::Relation { terms, name, span: None, from_part: 0 });
    let found = c.solve();
    printed(&(found.force(one) + found.force(two)), "9.10e2");
    printed(&found.link(hitch), "1.11e3");
});

case!(freight_train_large, "freight-train-large", "CP5 P&E 16", {
    let mut c = Case::new();
    let share = dec("7.50e5").checked_div(&dec("47")).expect("a share");
    let all: Vec<_> = (0..47).map(|i| c.body(Level, if i < 2 { "8.00e5" } else { "5.50e5" })).collect();
    let couplings: Vec<_> =
        (1..47).map(|i| c.b().tow(&format!("coupling {i}"), all[i - 1], all[i])).collect();
    for body in &all {
        c.resist(*body, Some(share.clone()));
    }
    let drive = c.force(Role::Driving, all[0], Direction::Along(1), None);
    c.stage(State::Moving, Some(1));
    c.accelerates(all[0], dec("5.00e-2"));
    let found = c.solve();
    // Both engines pull alike: each half of what the first would have to do alone.
    let each = found.force(drive).checked_div(&dec("2")).expect("half");
    printed(&each, "1.03e6");
    // Between cars 37 and 38, which are vehicles 39 and 40.
    printed(&found.link(couplings[38]), "3.48e5");
});

case!(rocket_sled_one, "rocket-sled-one", "CP4 P&E 7", {
    let mut c = Case::new();
    let sled = c.body(Level, "2100");
    c.push(sled, 1, Some(dec("2.59e4")));
    c.resist(sled, Some(dec("650")));
    c.stage(State::Moving, Some(1));
    printed(&c.solve().a(sled), "12");
});

// The resultant of the two tugs' pushes at a right angle is put in; along it the motion is in a line.
case!(barge_drag, "barge-drag", "UP Ex 6.2", {
    let square = dec("2.7e5") * dec("2.7e5") + dec("3.6e5") * dec("3.6e5");
    let resultant = square.sqrt().expect("a root");
    printed(&resultant, "4.5e5");
    let mut c = Case::new();
    let barge = c.body(Level, "5.0e6");
    c.push(barge, 1, Some(resultant));
    let drag = c.resist(barge, None);
    c.stage(State::Moving, Some(1));
    c.accelerates(barge, dec("7.5e-2"));
    printed(&c.solve().force(drag), "7.5e4");
});

/// Two teams of nine: acceleration, and tension in the middle of the rope.
fn teams() -> (exact::Value, exact::Value) {
    let mut c = Case::new();
    let (one, two) = (c.of_mass(Level, dec("612")), c.of_mass(Level, dec("657")));
    let rope = c.b().string("the rope", two, one);
    c.push(one, -1, Some(dec("12150")));
    c.push(two, 1, Some(dec("12285")));
    c.stage(State::Released, None);
    let found = c.solve();
    (found.a(two), found.link(rope))
}

case!(tug_of_war_cp, "tug-of-war-cp", "CP4 P&E 17", {
    let (a, tension) = teams();
    printed(&a, "0.11");
    printed(&tension, "1.2e4");
});

// Printed as 65 m/s²: the parts of the printed answer are mixed up. Worked out again: 0.106.
case!(tug_of_war_up, "tug-of-war-up", "UP5.57", {
    let (a, tension) = teams();
    misprinted(&a, "65");
    printed(&a, "0.106");
    printed(&tension, "1.22e4");
});

case!(es_crates, "es-crates", "Everything Science Grade 11, ch. 12, example 6", {
    let mut c = Case::new();
    let (back, front) = (c.body(Level, "10"), c.body(Level, "15"));
    let rope = c.b().string("the rope", front, back);
    c.push(front, 1, Some(dec("500")));
    c.resist(back, Some(dec("150")));
    c.resist(front, Some(dec("300")));
    c.stage(State::Moving, Some(1));
    let found = c.solve();
    printed(&found.a(back), "2");
    printed(&found.link(rope), "170");
});

case!(ncert_train_two, "ncert-train-two", "NCERT Physics XI, laws of motion, 5.15", {
    for (on_first, tension) in [(true, "400"), (false, "200")] {
        let mut c = Case::new();
        let (a, b) = (c.body(Level, "10"), c.body(Level, "20"));
        let string =
            if on_first { c.b().string("the string", a, b) } else { c.b().string("the string", b, a) };
        c.push(if on_first { a } else { b }, 1, Some(dec("600")));
        c.stage(State::Released, None);
        printed(&c.solve().link(string), tension);
    }
});

case!(ostp_two_boxes, "ostp-two-boxes", "Martin and others, Introductory Physics, question library, Q100", {
    let mut c = Case::new();
    let (back, front) = (c.body(Level, "5"), c.body(Level, "3"));
    let string = c.b().string("the string", front, back);
    c.push(front, 1, Some(dec("32")));
    c.stage(State::Released, None);
    printed(&c.solve().link(string), "20");
});

// Printed as −7.80 and −7.80e3, rounded on the way. Worked out again: −7.8125 and 7812.5.
case!(brake_40m, "brake-40m", "UP5.35", {
    let mut c = Case::new();
    let car = c.body(Level, "1000.0");
    let brake = c.force(Role::Braking, car, Direction::Along(-1), None);
    c.stage(State::Moving, Some(1));
    c.journey(car, [Some("25"), Some("0"), Some("40.0"), None]);
    let found = c.solve();
    misprinted(&found.a(car), "-7.80");
    printed(&found.a(car), "-7.81");
    misprinted(&found.force(brake), "7.80e3");
    printed(&found.force(brake), "7.81e3");
});

case!(stop_1050, "stop-1050", "UP5.77", {
    let mut c = Case::new();
    let car = c.body(Level, "1050");
    let brake = c.force(Role::Braking, car, Direction::Along(-1), None);
    c.stage(State::Moving, Some(1));
    let journey = c.journey(car, [None, Some("0"), Some("25.0"), None]);
    // 40.0 km/h
    c.b().know(journey.start_speed, dec("40.0").checked_div(&dec("3.6")).expect("a speed"));
    printed(&c.solve().force(brake), "2.59e3");
});

// The level part of the force only; the resultant with the weight is a sum of vectors.
case!(seat_force, "seat-force", "CP4 P&E 11", {
    let mut c = Case::new();
    let passenger = c.body(Level, "75.0");
    let seat = c.push(passenger, 1, None);
    c.stage(State::Released, None);
    c.accelerates(passenger, dec("49.0"));
    let force = c.solve().force(seat);
    printed(&force, "3.68e3");
    printed(&force.checked_div(&(dec("75.0") * dec("9.8"))).expect("a ratio"), "5.00");
});
