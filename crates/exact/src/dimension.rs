//! Dimensions: what kind of quantity a number measures.
use core::fmt;

/// Powers of mass, length and time; a flag keeps degrees apart from pure numbers.
///
/// ```
/// use exact::Dimension;
/// assert_eq!(Dimension::MASS.mul(Dimension::ACCELERATION), Dimension::FORCE);
/// assert_eq!(Dimension::ACCELERATION.unit(), "m s⁻²");
/// assert_eq!(Dimension::FORCE.to_string(), "N");
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Dimension {
    /// Power of the kilogram.
    pub mass: i8,
    /// Power of the metre.
    pub length: i8,
    /// Power of the second.
    pub time: i8,
    /// Power of the degree: 1 for angles, which have no dimension but do not mix with numbers.
    pub angle: i8,
}

impl Dimension {
    /// A pure number.
    pub const NONE: Dimension = Dimension::of(0, 0, 0);
    /// kg
    pub const MASS: Dimension = Dimension::of(1, 0, 0);
    /// m
    pub const LENGTH: Dimension = Dimension::of(0, 1, 0);
    /// s
    pub const TIME: Dimension = Dimension::of(0, 0, 1);
    /// m s⁻¹
    pub const SPEED: Dimension = Dimension::of(0, 1, -1);
    /// m s⁻²
    pub const ACCELERATION: Dimension = Dimension::of(0, 1, -2);
    /// N
    pub const FORCE: Dimension = Dimension::of(1, 1, -2);
    /// N s
    pub const IMPULSE: Dimension = Dimension::of(1, 1, -1);
    /// J
    pub const ENERGY: Dimension = Dimension::of(1, 2, -2);
    /// W
    pub const POWER: Dimension = Dimension::of(1, 2, -3);
    /// °
    pub const ANGLE: Dimension = Dimension { mass: 0, length: 0, time: 0, angle: 1 };

    /// From the powers of kilogram, metre and second.
    pub const fn of(mass: i8, length: i8, time: i8) -> Dimension {
        Dimension { mass, length, time, angle: 0 }
    }

    /// The dimension of a product.
    #[must_use]
    pub const fn mul(self, other: Dimension) -> Dimension {
        Dimension {
            mass: self.mass.saturating_add(other.mass),
            length: self.length.saturating_add(other.length),
            time: self.time.saturating_add(other.time),
            angle: self.angle.saturating_add(other.angle),
        }
    }

    /// The dimension of a quotient.
    #[must_use]
    pub const fn div(self, by: Dimension) -> Dimension {
        self.mul(by.pow(-1))
    }

    /// The dimension of a whole power.
    #[must_use]
    pub const fn pow(self, exponent: i8) -> Dimension {
        Dimension {
            mass: self.mass.saturating_mul(exponent),
            length: self.length.saturating_mul(exponent),
            time: self.time.saturating_mul(exponent),
            angle: self.angle.saturating_mul(exponent),
        }
    }

    /// The SI unit as it is shown, `""` for a pure number: `kg`, `m s⁻²`, `N`, `°`.
    pub fn unit(self) -> String {
        match self.named() {
            Some(name) => name.to_owned(),
            None => self.spelled(|power| power.to_string().chars().map(superscript).collect()),
        }
    }

    /// The SI unit in plain characters: `m s^-2`, `deg`.
    pub fn unit_ascii(self) -> String {
        match self {
            Dimension::ANGLE => "deg".to_owned(),
            _ => match self.named() {
                Some(name) => name.to_owned(),
                None => self.spelled(|power| format!("^{power}")),
            },
        }
    }

    /// The unit in words, several of them: `newtons`, `metres per second`.
    pub fn in_words(self) -> String {
        let words = match self {
            Dimension::NONE => "pure numbers",
            Dimension::MASS => "kilograms",
            Dimension::LENGTH => "metres",
            Dimension::TIME => "seconds",
            Dimension::SPEED => "metres per second",
            Dimension::ACCELERATION => "metres per second squared",
            Dimension::FORCE => "newtons",
            Dimension::IMPULSE => "newton seconds",
            Dimension::ENERGY => "joules",
            Dimension::POWER => "watts",
            Dimension::ANGLE => "degrees",
            other => return other.unit(),
        };
        words.to_owned()
    }

    fn named(self) -> Option<&'static str> {
        Some(match self {
            Dimension::NONE => "",
            Dimension::FORCE => "N",
            Dimension::IMPULSE => "N s",
            Dimension::ENERGY => "J",
            Dimension::POWER => "W",
            Dimension::ANGLE => "°",
            _ => return None,
        })
    }

    fn spelled(self, raised: impl Fn(i8) -> String) -> String {
        let powers = [("kg", self.mass), ("m", self.length), ("s", self.time), ("°", self.angle)];
        let parts = powers.iter().filter(|(_, power)| *power != 0).map(|(unit, power)| {
            if *power == 1 { (*unit).to_owned() } else { format!("{unit}{}", raised(*power)) }
        });
        parts.collect::<Vec<_>>().join(" ")
    }
}

fn superscript(c: char) -> char {
    match c {
        '-' => '⁻',
        '0' => '⁰',
        '1' => '¹',
        '2' => '²',
        '3' => '³',
        '4' => '⁴',
        '5' => '⁵',
        '6' => '⁶',
        '7' => '⁷',
        '8' => '⁸',
        '9' => '⁹',
        other => other,
    }
}

/// As [`Dimension::unit`].
impl fmt::Display for Dimension {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.unit())
    }
}
