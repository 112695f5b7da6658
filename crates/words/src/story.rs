//! What the question has told so far: people's words turned into things, before any geometry is settled.

use crate::timeline::{Clearance, Event, Moments, Spell};
use exact::{Angle, Dimension, Value};
use model::{Accuracy, Change, Form, Holds, Kind, Role, Span, State, Topic};

/// A number or letter expression with its unit, as read.
#[derive(Clone, Debug)]
pub(crate) struct Amount {
    pub value: Value,
    /// `None` for a bare number or letter.
    pub dimension: Option<Dimension>,
    /// The other reading of `3m`: three times the letter m.
    pub letters: Option<Value>,
    pub span: Span,
    pub written: String,
}

/// An amount with the part of the question that gives it.
#[derive(Clone, Debug)]
pub(crate) struct Given {
    pub value: Value,
    pub span: Span,
    pub written: String,
    pub part: usize,
}

/// A body as told.
#[derive(Clone, Debug)]
pub(crate) struct BodyTold {
    /// The noun in the singular: `truck`.
    pub noun: String,
    /// Its letter, where it has one.
    pub label: Option<String>,
    /// First, second ... where several share a noun.
    pub order: Option<usize>,
    pub form: Form,
    pub mass: Option<Given>,
    /// A letter for an unknown mass: the M of "mass M kg".
    pub on: Option<On>,
    pub hangs: bool,
    pub span: Span,
    /// It begins on the ground.
    pub grounded: bool,
    /// Compared with another: the heavier, the lighter.
    pub heavier: Option<bool>,
}

/// What a body stands on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum On {
    Surface(usize),
    Body(usize),
}

/// A surface as told.
#[derive(Clone, Debug, Default)]
pub(crate) struct SurfaceTold {
    pub noun: String,
    pub smooth: Option<Span>,
    pub rough: Option<Span>,
    pub level: bool,
    pub slope: Option<SlopeTold>,
    /// The noun alone says that it slopes: a ramp, a hill.
    pub slopes: bool,
    /// The next of several slopes that were named at once.
    pub twin: Option<usize>,
    pub span: Span,
}

/// An angle as told.
#[derive(Clone, Debug, Default)]
pub(crate) struct SlopeTold {
    pub letter: Option<String>,
    pub angle: Option<Angle>,
    pub written: String,
    pub span: Span,
}

/// A string, rope, rod, cable as told.
#[derive(Clone, Debug)]
pub(crate) struct LinkTold {
    pub noun: String,
    pub holds: Holds,
    /// The bodies at its ends, in the order told.
    pub ends: Vec<usize>,
    pub pulleys: Vec<usize>,
    pub span: Span,
    pub light: bool,
    /// Called horizontal.
    pub level: bool,
    /// It pulls a body vertically (the cable of a lift) or along.
    pub vertical: bool,
    /// The angle at which it pulls, where it is not along the motion.
    pub lean: Option<Lean>,
}

/// The angle that a force or a rope makes with the horizontal, the vertical or the slope.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Lean {
    pub letter: Option<String>,
    pub angle: Option<Angle>,
    pub written: String,
    pub span: Span,
    pub to: LeanTo,
    /// Away from the ground (true) or towards it.
    pub up: Option<bool>,
}

/// Which part of a weight.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Share {
    Whole,
    /// Along the slope.
    Along,
    /// Across the slope.
    Across,
}

/// What an angle is measured from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum LeanTo {
    Horizontal,
    Vertical,
    Slope,
}

/// A pulley as told.
#[derive(Clone, Debug)]
pub(crate) struct PulleyTold {
    pub noun: String,
    pub span: Span,
}

/// A direction as told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Way {
    Up,
    Down,
    /// In the direction of travel, or away from what follows behind.
    Forward,
    /// Against it.
    Backward,
    /// To the right of who looks on.
    Right,
    Left,
    UpSlope,
    DownSlope,
    ToPulley,
    AwayFrom(usize),
    Towards(usize),
}

/// A named force as told.
#[derive(Clone, Debug)]
pub(crate) struct ForceTold {
    pub role: Role,
    pub name: String,
    pub on: Option<usize>,
    /// The sizes given, each from a part on.
    pub size: Option<Given>,
    pub letter: Option<String>,
    pub way: Option<Way>,
    /// Called horizontal (true) or vertical (false).
    pub level: Option<bool>,
    /// The cable or rope through which it pulls.
    pub link: Option<usize>,
    /// The angle at which it acts, where it is not along the motion.
    pub lean: Option<Lean>,
    /// It is said to pull (true) or to push.
    pub pulls: Option<bool>,
    pub span: Span,
}

impl ForceTold {
    /// A force of which no more than this is told yet.
    pub(crate) fn new(role: Role, name: String, on: Option<usize>, span: Span) -> ForceTold {
        ForceTold {
            role,
            name,
            on,
            size: None,
            letter: None,
            way: None,
            level: None,
            link: None,
            lean: None,
            pulls: None,
            span,
        }
    }
}

/// A link's tension, a reaction ... given by value.
#[derive(Clone, Debug)]
pub(crate) struct ValueTold {
    pub what: Target,
    pub given: Given,
    /// The chapter of the story in which it holds.
    pub chapter: usize,
}

/// What a mention of a quantity points at.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Target {
    Mass(Vec<usize>),
    Acceleration {
        of: Vec<usize>,
        slowing: bool,
        way: Option<Way>,
    },
    /// Tension or thrust of links; `None` when no link is named.
    Link(Vec<usize>),
    /// Push between two bodies, or of a surface on a body.
    Contact {
        on: Vec<usize>,
        by: Option<By>,
    },
    Friction {
        on: Vec<usize>,
    },
    GreatestFriction {
        on: Vec<usize>,
    },
    Coefficient {
        of: Vec<usize>,
    },
    Force(usize),
    Resistance(Vec<usize>),
    TotalResistance,
    PulleyForce(Option<usize>),
    /// The resultant of all forces on a body.
    Resultant(usize),
    /// A diagram of the forces on these bodies.
    Diagram(Vec<usize>),
    /// A weight, or its part along or across the slope.
    Weight {
        of: usize,
        part: Share,
    },
    Speed {
        of: Vec<usize>,
        start: bool,
    },
    Distance {
        of: Vec<usize>,
    },
    Time,
    Letter(String),
    Statement(Topic),
    WhichWay(Vec<usize>),
    AccelerationWay(Vec<usize>),
    WhetherMoves,
    /// Whether something is so, and what the question says of it.
    Whether(Truth, Option<bool>),
    TensionOrThrust(Vec<usize>),
    /// The set of values of a letter for which the state holds.
    Range(String),
    /// What a change of the model would do to another target.
    Effect {
        change: Change,
        on: Box<Target>,
    },
    /// How high a body gets: above the ground, or above where it started.
    Height {
        of: Vec<usize>,
        ground: bool,
    },
    /// The impulse in the string that tightens.
    Impulse,
    /// The kinetic energy lost as the string tightens.
    EnergyLost,
}

/// What is so or is not so.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Truth {
    /// A load slips on what carries it.
    Slips(usize),
    /// A body, or everything, stays at rest.
    Stays(Option<usize>),
    /// A string can bear its tension.
    Bears(Vec<usize>),
    /// A string is taut.
    Taut(Vec<usize>),
    /// A body is lifted off what it stands on.
    LiftsOff(usize),
}

/// What pushes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum By {
    Body(usize),
    Floor,
    Surface,
}

/// What the question says of the motion at one place.
#[derive(Clone, Debug)]
pub(crate) struct MotionTold {
    pub of: Vec<usize>,
    pub part: usize,
    pub span: Span,
    pub fact: Fact,
    /// The chapter of the story of which it tells.
    pub chapter: usize,
}

/// One fact of motion.
#[derive(Clone, Debug)]
pub(crate) enum Fact {
    State(State),
    Acceleration {
        given: Given,
        slowing: bool,
        way: Option<Way>,
    },
    Heading(Way),
    /// It slows down, by how much is not said here.
    Slowing,
    /// It gets faster.
    Speeding,
    /// Its acceleration points this way.
    Accelerates(Way),
    StartSpeed(Given),
    EndSpeed(Given),
    Distance(Given),
    Time(Given),
    /// These stay where they are on what carries them.
    Sticks(Vec<usize>),
    /// The friction that holds these on what carries them is at its limit, and they do not slip yet.
    AboutToSlip(Vec<usize>),
}

/// One thing asked, as read.
#[derive(Clone, Debug)]
pub(crate) struct AskTold {
    pub part: usize,
    pub target: Target,
    pub phrase: String,
    pub span: Span,
    pub show: Option<Value>,
    /// What holds at the instant or over the stretch asked about.
    pub facts: Vec<Fact>,
    /// The bodies that those facts are about.
    pub of: Vec<usize>,
    pub same_journey: bool,
    /// Of what time it speaks.
    pub when: Moments,
    pub accuracy: Option<Accuracy>,
}

/// All that has been told.
#[derive(Clone, Debug, Default)]
pub(crate) struct Story {
    pub bodies: Vec<BodyTold>,
    pub surfaces: Vec<SurfaceTold>,
    pub links: Vec<LinkTold>,
    pub pulleys: Vec<PulleyTold>,
    /// Who tows whom: (front, behind), where what joins them may be named elsewhere.
    pub tows: Vec<(usize, usize)>,
    pub forces: Vec<ForceTold>,
    pub values: Vec<ValueTold>,
    pub coefficients: Vec<(Vec<usize>, Option<Given>, Option<String>)>,
    /// Loads on a light pulley that hangs in a string: (string, load).
    pub slung: Vec<(usize, usize)>,
    /// Coefficients (by number) of several bodies with the ground.
    pub grounded: Vec<usize>,
    /// Between which bodies it is smooth (true) or rough.
    pub rubs: Vec<(Vec<usize>, bool, Span)>,
    /// Coefficients while sliding, where they are told apart from those at rest.
    pub sliding: Vec<(Vec<usize>, Given)>,
    pub motions: Vec<MotionTold>,
    pub asks: Vec<AskTold>,
    /// Bodies that touch, in the order told.
    pub contacts: Vec<(usize, usize)>,
    /// Things counted as part of a body: the boat on a trailer.
    pub included: Vec<String>,
    /// Who is in front of whom, or above whom on a slope: (front, behind).
    pub order: Vec<(usize, usize)>,
    /// Things said in passing that the solution must agree with: whose, what, in which part, where.
    pub claims: Vec<(Vec<usize>, Fact, usize, Span)>,
    /// Friction on a body given as a number.
    pub frictions: Vec<(usize, Given)>,
    /// Friction is said to be negligible everywhere.
    pub frictionless: bool,
    /// How far there is to go to the floor (true) or the pulley (false).
    pub clearance: Option<(Given, bool)>,
    /// The same, by body, wherever it is told.
    pub clearances: Vec<Clearance>,
    /// Those of which it is said that they stay where they landed.
    pub stays: Vec<usize>,
    /// What happens, in the order told.
    pub events: Vec<Event>,
    /// When the named forces act, where the story tells.
    pub spells: std::collections::BTreeMap<usize, Spell>,
    /// The engine no longer drives.
    pub engine_off: bool,
    /// Total masses of several bodies.
    pub totals: Vec<(Vec<usize>, Given)>,
    pub gravity: Option<Given>,
    pub gravity_letter: bool,
    pub total_resistance: Option<Given>,
    /// Shares of the total resistance (80 % on the trailer).
    pub shares: Vec<(usize, Given)>,
    /// Resistance per kilogram of mass.
    pub per_mass: Option<Given>,
    /// Letters that the text uses for a quantity, with what they measure.
    pub letters: Vec<(String, Kind)>,
    pub accuracy: Option<Accuracy>,
}
