//! The quantities of a situation: masses, forces, speeds, known or wanted.

use crate::Span;
use exact::{Dimension, Value};

/// The number of a quantity in its [`Situation`](crate::Situation).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct QuantityId(pub usize);

/// What sort of thing a quantity measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// Mass of a body, kg.
    Mass,
    /// Acceleration of a body along its line, m s⁻².
    Acceleration,
    /// Tension of a string or cable; tension (positive) or thrust (negative) of a rod. N.
    Tension,
    /// Push between two bodies, or between a body and what it rests on, N.
    Reaction,
    /// Friction at a rough surface, N.
    Friction,
    /// Driving, braking, pulling or pushing force, N.
    Force,
    /// Resistance to motion, N.
    Resistance,
    /// Coefficient of friction, no unit.
    Coefficient,
    /// Angle; the quantity's value is in degrees where one is shown.
    Angle,
    /// Speed at some instant, m s⁻¹.
    Speed,
    /// Velocity along the line at some instant, counted in the body's positive sense of the stage: negative
    /// after it has turned back. m s⁻¹.
    Velocity,
    /// Distance travelled along the line, m.
    Distance,
    /// Displacement along the line, counted in the body's positive sense of the stage: zero when it is
    /// back where it started. m.
    Displacement,
    /// Time taken, s.
    Time,
    /// Acceleration of free fall, m s⁻².
    Gravity,
    /// Resultant force of a string on its pulley, N.
    PulleyForce,
    /// Impulse of a link while it jerks, N s.
    Impulse,
    /// Work or kinetic energy, J.
    Energy,
    /// A plain number, such as the k of a mass km.
    Number,
}

impl Kind {
    /// The word for it, as in the JSON output.
    pub fn word(self) -> &'static str {
        match self {
            Kind::Mass => "mass",
            Kind::Acceleration => "acceleration",
            Kind::Tension => "tension",
            Kind::Reaction => "reaction",
            Kind::Friction => "friction",
            Kind::Force | Kind::PulleyForce => "force",
            Kind::Resistance => "resistance",
            Kind::Coefficient => "coefficient",
            Kind::Angle => "angle",
            Kind::Speed | Kind::Velocity => "speed",
            Kind::Distance | Kind::Displacement => "distance",
            Kind::Impulse => "impulse",
            Kind::Energy => "energy",
            Kind::Time => "time",
            Kind::Gravity => "gravity",
            Kind::Number => "number",
        }
    }
    /// Its dimension.
    pub fn dimension(self) -> Dimension {
        match self {
            Kind::Mass => Dimension::MASS,
            Kind::Acceleration | Kind::Gravity => Dimension::ACCELERATION,
            Kind::Tension
            | Kind::Reaction
            | Kind::Friction
            | Kind::Force
            | Kind::Resistance
            | Kind::PulleyForce => Dimension::FORCE,
            Kind::Coefficient | Kind::Number => Dimension::NONE,
            Kind::Angle => Dimension::ANGLE,
            Kind::Speed | Kind::Velocity => Dimension::SPEED,
            Kind::Distance | Kind::Displacement => Dimension::LENGTH,
            Kind::Impulse => Dimension::IMPULSE,
            Kind::Energy => Dimension::ENERGY,
            Kind::Time => Dimension::TIME,
        }
    }
}

/// Where a known value comes from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Basis {
    /// The question says so, here.
    Given(Span),
    /// It follows from a word of the question (released from rest: u = 0).
    Implied(Span, String),
    /// The house's usual value, listed among the assumptions (g = 9.8 m s⁻²).
    Assumed,
}

/// A value that is known before any mechanics is done. SI units; letters stand
/// as symbols. For an angle see [`Situation::angles`](crate::Situation::angles).
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Known {
    /// The value in SI units.
    pub value: Value,
    /// How the question writes it, unit included (`1.2 tonnes`), if it does.
    pub written: String,
    /// Why it is known.
    pub basis: Basis,
    /// The first part of the question in which it holds, counting from 0.
    pub from_part: usize,
}

/// One quantity.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Quantity {
    /// What it measures.
    pub kind: Kind,
    /// Its name in the algebra, unique in the situation (`T`, `T#2` in a second state).
    pub symbol: String,
    /// How it is written on the page: `T`, `T_1`, `m_A`.
    pub letter: String,
    /// In words: `tension in the tow-bar`.
    pub name: String,
    /// Its value where the question gives it.
    pub known: Option<Known>,
}
