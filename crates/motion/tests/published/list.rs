//! The list of published cases, and the check that none is left out.

/// A test of one published case: its name as a test, its name in the list, and where it is printed.
macro_rules! case {
    ($test:ident, $id:literal, $source:literal, $body:block) => {
        #[doc = $source]
        #[test]
        fn $test() $body
    };
}
pub(crate) use case;

/// All cases by name.
const ALL: [&str; 73] = [
    "push-cart-system",
    "push-two-blocks",
    "n3-truck-car",
    "car-boat-trailer",
    "freight-train-large",
    "baggage-tractor",
    "rocket-sled-one",
    "barge-drag",
    "tug-of-war-up",
    "tug-of-war-cp",
    "train-coupling-impact",
    "es-crates",
    "ncert-train-two",
    "ostp-two-boxes",
    "lift-scale-down",
    "lift-backpack",
    "lift-unreasonable",
    "lift-friction",
    "lift-work-steady",
    "es-lift",
    "cable-raise",
    "rocket-drag",
    "jumper",
    "baby-scale",
    "catch-ball",
    "atwood-2-4",
    "atwood-symbolic",
    "ncert-atwood",
    "verma-atwood",
    "verma-retaut",
    "ostp-two-pulleys-a",
    "table-4-1",
    "table-energy",
    "ostp-moving-pulley",
    "incline-pulley-40",
    "skier",
    "ramp-2kg",
    "coaster-incline",
    "crowell-wagon",
    "crate-PF",
    "block-min-force",
    "crate-wood",
    "snowboard-13",
    "parcel-ramp",
    "boarder-up",
    "ostp-katie",
    "bin-ramp",
    "crate-37",
    "ostp-push-horizontal",
    "ice-pull",
    "ice-skater",
    "truck-drive",
    "car-downhill",
    "car-uphill-2wd",
    "box-truck",
    "crate-truck",
    "skid-stop",
    "brake-40m",
    "stop-1050",
    "crowell-repose",
    "skier-rise",
    "crate-horizontal-work",
    "ostp-sled-work",
    "stack-pulley-steady",
    "ostp-stack-pulley",
    "ostp-stack-three",
    "ostp-two-on-slope",
    "ostp-double-incline",
    "crowell-three-pulleys",
    "dice-mirror",
    "ostp-figurine",
    "seat-force",
    "string-1-statics",
];

/// Those that are not tested, with the reason.
const OUTSIDE: [(&str, &str); 6] = [
    ("baggage-tractor", "the force grows with the time: a force that varies is out of scope"),
    ("train-coupling-impact", "two trucks that collide and couple: out of scope"),
    ("lift-work-steady", "asks for work alone: out of scope"),
    ("dice-mirror", "a bob in a vehicle: forces at a point in two directions are out of scope"),
    ("ostp-figurine", "a bob in a vehicle: forces at a point in two directions are out of scope"),
    ("string-1-statics", "three forces at a knot: out of scope"),
];

/// The files that hold the tests.
const FILES: [&str; 6] = [
    include_str!("floors.rs"),
    include_str!("lifts.rs"),
    include_str!("pulleys.rs"),
    include_str!("slopes.rs"),
    include_str!("stacks.rs"),
    include_str!("trains.rs"),
];

#[test]
fn every_published_case_is_tested_or_said_to_be_outside() {
    for id in ALL {
        let opening = format!(", \"{id}\", ");
        let tests: usize = FILES.iter().map(|text| text.matches(&opening).count()).sum();
        let outside = OUTSIDE.iter().filter(|(name, _)| *name == id).count();
        assert_eq!(tests + outside, 1, "{id} is tested or outside, and not both");
    }
    let tests: usize = FILES.iter().map(|text| text.matches("\ncase!(").count()).sum();
    assert_eq!(tests + OUTSIDE.len(), ALL.len(), "no case is tested that is not in the list");
    assert!(OUTSIDE.iter().all(|(_, why)| why.contains("scope")));
}
