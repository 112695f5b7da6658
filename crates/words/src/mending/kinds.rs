//! Kinds of things that a sentence may speak of, and a plain sentence for each.
//!
//! To teach a kind: a row with the stems that point to it, the amount that it needs, and the sentence. Slots:
//! `{body}`, `{other}` (another body), `{join}`, `{ground}`, `{n}` (the amount), `{way}` (up or down, where it is said).

use super::figures::Measures;

/// A kind of thing.
pub(super) struct Kind {
    /// What it is, for the reason beside the suggestion.
    pub name: &'static str,
    /// Stems of words that point to it.
    pub stems: &'static [&'static str],
    /// What it needs an amount of.
    pub needs: Option<Measures>,
    /// Plain sentences, without the full stop.
    pub says: &'static [&'static str],
}

impl Kind {
    /// Does the word, in lower case, point to it? Short stems are words of their own.
    pub(super) fn hit(&self, word: &str) -> bool {
        self.stems.iter().any(|s| if s.len() < 4 { word == *s } else { word.starts_with(s) })
    }
}

use Measures::{Acceleration, Angle, Bare, Force, Mass, Speed, Time};

/// What a question tells.
pub(super) const TOLD: &[Kind] = &[
    Kind {
        name: "a coefficient of friction",
        stems: &["coef", "frict", "mu", "μ", "grip", "rough", "drag", "rub", "rubs", "stick"],
        needs: Some(Bare),
        says: &["The coefficient of friction between {body} and {ground} is {n}"],
    },
    Kind {
        name: "a smooth surface",
        stems: &[
            "greas",
            "slipper",
            "icy",
            "ice",
            "oil",
            "lubric",
            "polish",
            "soap",
            "wax",
            "slick",
            "frictionl",
        ],
        needs: None,
        says: &["{ground} is smooth"],
    },
    Kind {
        name: "a resistance",
        stems: &[
            "drag", "resist", "loss", "roll", "back", "oppos", "retard", "wind", "water", "air", "hinder",
            "frict",
        ],
        needs: Some(Force),
        says: &[
            "There is a resistance of {n} to the motion of {body}",
            "A frictional force of {n} acts on {body}",
        ],
    },
    Kind {
        name: "a driving force",
        stems: &["engin", "motor", "driv", "propel", "tract", "thrust", "power", "develop", "wheel"],
        needs: Some(Force),
        says: &["The driving force of {body} is {n}"],
    },
    Kind {
        name: "a braking force",
        stems: &["brak"],
        needs: Some(Force),
        says: &["The brakes of {body} exert a braking force of {n}"],
    },
    Kind {
        name: "a tension",
        stems: &["tens", "tight", "strain", "taut"],
        needs: Some(Force),
        says: &["The tension in {join} is {n}"],
    },
    Kind {
        name: "a pull or a push",
        stems: &["forc", "pull", "push", "tug", "yank", "heav", "haul", "shov", "press", "appl"],
        needs: Some(Force),
        says: &["A horizontal force of {n} acts on {body}"],
    },
    Kind {
        name: "a mass",
        stems: &["mass", "weigh", "heav", "load"],
        needs: Some(Mass),
        says: &["The mass of {body} is {n}"],
    },
    Kind {
        name: "a constant speed",
        stems: &["const", "stead", "unif", "same", "even"],
        needs: Some(Speed),
        says: &["{body} moves {way} with a constant speed of {n}"],
    },
    Kind {
        name: "a speed",
        stems: &["speed", "veloc", "fast", "go", "goes", "going", "move", "moving", "trav", "do"],
        needs: Some(Speed),
        says: &["{body} is moving {way} at {n}", "The initial speed of {body} is {n}"],
    },
    Kind {
        name: "a deceleration",
        stems: &["decel", "slow", "retard", "brak", "lose", "losing"],
        needs: Some(Acceleration),
        says: &["{body} is moving {way} with a deceleration of {n}"],
    },
    Kind {
        name: "an acceleration",
        stems: &["accel", "gain", "speed", "rate", "quick"],
        needs: Some(Acceleration),
        says: &["{body} accelerates {way} at {n}", "The acceleration of {body} is {n}"],
    },
    Kind {
        name: "the angle of a slope",
        stems: &["slop", "inclin", "tilt", "angl", "lean", "pitch", "gradient", "steep", "plane", "ramp"],
        needs: Some(Angle),
        says: &["{ground} is inclined at {n} to the horizontal"],
    },
    Kind {
        name: "a join that breaks after a time",
        stems: BREAKS,
        needs: Some(Time),
        says: &["After {n} {join} breaks"],
    },
    Kind { name: "a join that breaks", stems: BREAKS, needs: None, says: &["{join} breaks"] },
    Kind {
        name: "a landing",
        stems: &["ground", "floor", "land", "thud", "thump", "crash", "touch", "bottom", "strik"],
        needs: None,
        says: &["{body} hits the ground and does not rebound"],
    },
    Kind {
        name: "a string that tightens",
        stems: &["taut", "tight", "jerk", "slack"],
        needs: None,
        says: &["{join} becomes taut"],
    },
    Kind {
        name: "a release",
        stems: &["let", "lets", "free", "releas", "drop", "start", "go"],
        needs: None,
        says: &["The system is released from rest"],
    },
    Kind {
        name: "coming to rest",
        stems: &["stop", "halt", "rest", "standstill", "still"],
        needs: None,
        says: &["{body} comes to rest"],
    },
    Kind {
        name: "a pulley",
        stems: &["pulley", "peg", "wheel", "sheave", "roller", "over", "round"],
        needs: None,
        says: &["{join} passes over a smooth fixed pulley"],
    },
    Kind {
        name: "a join",
        stems: &[
            "join", "attach", "connect", "tie", "ties", "tied", "hook", "yok", "coupl", "link", "fasten",
            "strung", "lash", "hitch",
        ],
        needs: None,
        says: &[
            "{body} and {other} are joined by a light inextensible string",
            "{body} and {other} are joined by a light inextensible string which passes over a smooth fixed pulley",
        ],
    },
    Kind {
        name: "a light join",
        stems: &["light", "stretch", "weightless", "massless", "thin", "inext", "elast"],
        needs: None,
        says: &["{join} is light and inextensible"],
    },
    Kind {
        name: "a body that hangs",
        stems: &["hang", "hung", "dangl", "suspend"],
        needs: None,
        says: &["{body} hangs freely"],
    },
    Kind {
        name: "a body on a surface",
        stems: &[
            "sit", "sits", "sitting", "perch", "park", "lie", "lies", "lying", "stand", "top", "upon", "rest",
        ],
        needs: None,
        says: &["{body} rests on {ground}"],
    },
];

const BREAKS: &[&str] = &[
    "off", "loose", "away", "break", "broke", "snap", "part", "sever", "cut", "cuts", "fail", "detach",
    "uncoupl", "unhook", "compan", "apart", "undone",
];

/// What a question asks.
pub(super) const ASKED: &[Kind] = &[
    Kind {
        name: "a tension",
        stems: &[
            "tens", "tug", "string", "rope", "cabl", "cord", "tight", "strain", "pull", "tow-bar", "coupl",
        ],
        needs: None,
        says: &["Find the tension in {join}"],
    },
    Kind {
        name: "an acceleration",
        stems: &["accel", "rate", "quick", "pick"],
        needs: None,
        says: &["Find the acceleration of {body}", "Find the acceleration of the system"],
    },
    Kind {
        name: "a reaction",
        stems: &[
            "react", "press", "normal", "floor", "scale", "balance", "read", "push", "contact", "squash",
            "support",
        ],
        needs: None,
        says: &["Find the normal reaction on {body}", "Find the force exerted on {body} by {other}"],
    },
    Kind {
        name: "a coefficient of friction",
        stems: &["coef", "mu", "μ", "rough", "grip"],
        needs: None,
        says: &["Find the coefficient of friction between {body} and {ground}"],
    },
    Kind {
        name: "a friction",
        stems: &["frict", "rub", "rubs", "grip", "drag"],
        needs: None,
        says: &["Find the frictional force on {body}"],
    },
    Kind {
        name: "a speed after a time",
        stems: &["fast", "speed", "veloc", "move", "moving"],
        needs: Some(Time),
        says: &["Find the speed of {body} after {n}"],
    },
    Kind {
        name: "a distance in a time",
        stems: &["far", "dist", "high", "travel", "move", "moving"],
        needs: Some(Time),
        says: &["Find the distance moved by {body} in {n}"],
    },
    Kind {
        name: "a speed",
        stems: &["fast", "speed", "veloc"],
        needs: None,
        says: &["Find the speed of {body}"],
    },
    Kind {
        name: "a time",
        stems: &["long", "time", "when", "soon", "last"],
        needs: None,
        says: &["Find the time taken"],
    },
    Kind {
        name: "a distance",
        stems: &["far", "dist", "length", "high", "height"],
        needs: None,
        says: &["Find the distance moved by {body}"],
    },
    Kind {
        name: "a mass",
        stems: &["mass", "heav", "weigh"],
        needs: None,
        says: &["Find the mass of {body}"],
    },
    Kind {
        name: "the force on a pulley",
        stems: &["pulley", "peg", "axle"],
        needs: None,
        says: &["Find the magnitude of the force exerted on the pulley by {join}"],
    },
];
