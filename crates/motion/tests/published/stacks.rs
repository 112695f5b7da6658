//! Loads that stand on what moves, and stacks.

use crate::bench::{Case, Found, dec, printed};
use crate::list::case;
use crate::support::assert_value;
use exact::Value;
use model::{ActionId, BodyId, Grip, Kind, Line::Level, LinkId, State};

/// A load on a truck that is given an acceleration.
fn on_truck(mass: &str, mu: Value, a: Option<&str>, slips: bool) -> (Found, BodyId, BodyId) {
    let mut c = Case::new();
    let truck = c.body(Level, "1000");
    c.smooth(truck);
    let load = c.body(Level, mass);
    let mu = c.b().coefficient(Some(mu));
    c.b().on_top(load, truck, Grip::Rough(mu));
    c.push(truck, 1, None);
    let stage = c.stage(State::Released, None);
    c.b().heading(stage, truck, 1);
    match a {
        Some(a) => c.accelerates(truck, dec(a)),
        None => c.b().situation_mut().stages[stage.0].about_to_slip.push(load),
    }
    let found = c.solve();
    assert_eq!(!(found.a(truck) - found.a(load)).is_zero(), slips);
    (found, truck, load)
}

// Driven wheels carry half the weight: the greatest drive is half the weight times 1.0. The load is then just on the
// point of slipping, and with all wheels driven it slips.
case!(truck_drive, "truck-drive", "UP6.49", {
    let (found, truck, _) = on_truck("10", dec("0.5"), None, false);
    printed(&found.a(truck), "4.9");
    on_truck("10", dec("0.5"), Some("4.9"), false);
    on_truck("10", dec("0.5"), Some("9.8"), true);
});

case!(box_truck, "box-truck", "UP6.127", {
    let (found, truck, _) = on_truck("10", dec("0.24"), None, false);
    let mut c = Case::new();
    let body = c.body(Level, "1");
    c.push(body, 1, None);
    c.stage(State::Moving, Some(1));
    c.accelerates(body, found.a(truck));
    let journey = c.journey(body, [Some("0"), None, None, Some("3.0")]);
    printed(&c.solve().value(journey.distance), "11");
});

case!(crate_truck, "crate-truck", "UP Ex 6.13", {
    let (found, _, load) = on_truck("50.0", dec("0.400"), Some("2.00"), false);
    printed(&found.friction(load), "1.00e2");
    printed(&(dec("0.400") * found.reaction(load)), "196");
    let (found, truck, load) = on_truck("50.0", dec("0.300"), Some("5.00"), true);
    printed(&found.friction(load), "147");
    printed(&found.a(load), "2.94");
    printed(&(found.a(load) - found.a(truck)), "-2.06");
});

/// Two blocks, the upper on the lower, tied to each other round a pulley on a wall; the lower pulled away.
fn tied(upper: Value, lower: Value, mu: Value, g: Value, state: State) -> (Found, BodyId, LinkId, ActionId) {
    let mut c = Case::new().g(g);
    for (letter, kind) in
        [("m", Kind::Mass), ("M", Kind::Mass), ("g", Kind::Gravity), ("k", Kind::Coefficient)]
    {
        c.b().open_letter(letter, kind);
    }
    let (below, above) = (c.of_mass(Level, lower), c.of_mass(Level, upper));
    let mu = c.rough(below, Some(mu));
    c.b().on_top(above, below, Grip::Rough(mu));
    // The pulley lies on the negative side.
    let string = c.b().link("the string", model::Holds::Pull, false, &[(below, -1), (above, -1)]);
    let pull = c.push(below, 1, None);
    c.stage(state, Some(1));
    (c.solve(), below, string, pull)
}

case!(stack_pulley_steady, "stack-pulley-steady", "UP Ex 6.12", {
    let (found, below, string, pull) =
        tied(dec("2.00"), dec("4.00"), dec("0.400"), dec("9.8"), State::Steady);
    printed(&found.link(string), "7.84");
    printed(&found.reaction(below), "58.8");
    printed(&found.force(pull), "39.2");
});

// Printed in letters: μ g (3 m + M), m above and M below.
case!(ostp_stack_pulley, "ostp-stack-pulley", "Martin and others, question library, Q117", {
    let s = Value::symbol;
    let (found, _, _, pull) = tied(s("m"), s("M"), s("k"), s("g"), State::Limiting);
    assert_value(Some(&found.force(pull)), &(s("k") * s("g") * (dec("3") * s("m") + s("M"))));
});

// Printed in letters: (μs + μk)(m1 + m2 + m3) g. Here with 1, 2 and 3 kg, the heaviest below.
case!(ostp_stack_three, "ostp-stack-three", "Martin and others, question library, Q120", {
    let mut c = Case::new();
    let (low, mid, top) = (c.body(Level, "3"), c.body(Level, "2"), c.body(Level, "1"));
    c.rough(low, Some(dec("0.2")));
    for (load, under) in [(mid, low), (top, mid)] {
        let mu = c.b().coefficient(Some(dec("0.5")));
        c.b().on_top(load, under, Grip::Rough(mu));
    }
    let pull = c.push(low, 1, None);
    let stage = c.stage(State::Moving, Some(1));
    c.b().situation_mut().stages[stage.0].about_to_slip.extend([mid, top]);
    let expected = (dec("0.5") + dec("0.2")) * dec("6") * dec("9.8");
    assert_value(Some(&c.solve().force(pull)), &expected);
});
