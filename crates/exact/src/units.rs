//! Units as teachers write them.
//!
//! A unit is read as a product of powers of unit names, so that every spelling
//! of `m s⁻²` is one rule and not a list: names with optional powers, set side by
//! side, divided by `/` or joined by `per`. Only products that measure something
//! in mechanics are accepted ([`KNOWN`]).
use crate::dimension::Dimension;
use crate::rational::Rational;
use crate::unit_names::{Kind, NAMES};
use crate::unit_text::Reader;

/// A unit: what it measures and how many SI units it is.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Unit {
    /// What it measures.
    pub dimension: Dimension,
    /// One of it in SI units (degrees for angles).
    pub to_si: Rational,
    /// How it is shown: `km h⁻¹`.
    pub shown: &'static str,
}

/// What is shown for each accepted product of unit names.
const KNOWN: &[(&[(&str, i8)], &str)] = &[
    (&[("kg", 1)], "kg"),
    (&[("g", 1)], "g"),
    (&[("mg", 1)], "mg"),
    (&[("t", 1)], "t"),
    (&[("N", 1)], "N"),
    (&[("kN", 1)], "kN"),
    (&[("MN", 1)], "MN"),
    (&[("m", 1)], "m"),
    (&[("cm", 1)], "cm"),
    (&[("mm", 1)], "mm"),
    (&[("km", 1)], "km"),
    (&[("mile", 1)], "mile"),
    (&[("m", 2)], "m²"),
    (&[("m", 3)], "m³"),
    (&[("s", 1)], "s"),
    (&[("ms", 1)], "ms"),
    (&[("min", 1)], "min"),
    (&[("h", 1)], "h"),
    (&[("m", 1), ("s", -1)], "m s⁻¹"),
    (&[("cm", 1), ("s", -1)], "cm s⁻¹"),
    (&[("mm", 1), ("s", -1)], "mm s⁻¹"),
    (&[("km", 1), ("s", -1)], "km s⁻¹"),
    (&[("m", 1), ("min", -1)], "m min⁻¹"),
    (&[("km", 1), ("min", -1)], "km min⁻¹"),
    (&[("m", 1), ("h", -1)], "m h⁻¹"),
    (&[("h", -1), ("km", 1)], "km h⁻¹"),
    (&[("h", -1), ("mile", 1)], "mph"),
    (&[("m", 1), ("s", -2)], "m s⁻²"),
    (&[("cm", 1), ("s", -2)], "cm s⁻²"),
    (&[("km", 1), ("h", -2)], "km h⁻²"),
    (&[("h", -1), ("km", 1), ("s", -1)], "km h⁻¹ s⁻¹"),
    (&[("N", 1), ("s", 1)], "N s"),
    (&[("kN", 1), ("s", 1)], "kN s"),
    (&[("kg", 1), ("m", 1), ("s", -1)], "kg m s⁻¹"),
    (&[("kg", 1), ("m", 1), ("s", -2)], "kg m s⁻²"),
    (&[("N", 1), ("m", 1)], "N m"),
    (&[("N", 1), ("kg", -1)], "N kg⁻¹"),
    (&[("N", 1), ("t", -1)], "N t⁻¹"),
    (&[("N", 1), ("m", -1)], "N m⁻¹"),
    (&[("kN", 1), ("m", -1)], "kN m⁻¹"),
    (&[("kg", 1), ("m", -1)], "kg m⁻¹"),
    (&[("kg", 1), ("m", -3)], "kg m⁻³"),
    (&[("J", 1)], "J"),
    (&[("kJ", 1)], "kJ"),
    (&[("MJ", 1)], "MJ"),
    (&[("W", 1)], "W"),
    (&[("kW", 1)], "kW"),
    (&[("MW", 1)], "MW"),
    (&[("J", 1), ("s", -1)], "J s⁻¹"),
    (&[("°", 1)], "°"),
];

/// The unit at the start of the text, the longest that fits, and how many bytes
/// it takes. Spaces before it are allowed; it never ends inside a word.
///
/// Reads symbols (`kg`, `kN`, `m s⁻²`, `ms^-2`, `m/s/s`, `km h^{-1}`), words in
/// any case (`newtons`, `metres per second squared`), and simple typeset forms
/// (`\mathrm{~m}\mathrm{s}^{-2}`, `\text{ kg}`, `{\rm N}`).
///
/// ```
/// use exact::{Dimension, parse_unit};
/// let (unit, used) = parse_unit("m s^-2 down the slope").unwrap();
/// assert_eq!((unit.dimension, unit.shown, used), (Dimension::ACCELERATION, "m s⁻²", 6));
/// assert_eq!(parse_unit("km/h").unwrap().0.to_si.to_string(), "5/18");
/// assert_eq!(parse_unit("man"), None);
/// ```
pub fn parse_unit(text: &str) -> Option<(Unit, usize)> {
    let mut reader = Reader::new(text);
    let mut factors: Vec<(&'static str, i8)> = Vec::new();
    let mut best = None;
    let mut sign = 1;
    // No accepted unit has more than three names; four leave room for m/s/s.
    for _ in 0..4 {
        let Some(read) = reader.factor(sign) else { break };
        factors.extend(read);
        if factors.len() > 1
            && assemble(&factors).is_none()
            && let Some(power) = reader.spaced_power()
            && let Some((_, last)) = factors.last_mut()
        {
            *last = power;
        }
        if reader.at_boundary()
            && let Some(unit) = assemble(&factors)
        {
            best = Some((unit, reader.used()));
        }
        match reader.join() {
            Some(next) => sign = next,
            None => break,
        }
    }
    best
}

/// The accepted unit with these factors.
fn assemble(factors: &[(&'static str, i8)]) -> Option<Unit> {
    let mut powers: Vec<(&'static str, i8)> = Vec::new();
    for &(name, power) in factors {
        match powers.iter_mut().find(|(n, _)| *n == name) {
            Some((_, sum)) => *sum = sum.checked_add(power)?,
            None => powers.push((name, power)),
        }
    }
    powers.sort_unstable();
    let (_, shown) = KNOWN.iter().find(|(known, _)| *known == powers.as_slice())?;
    let mut unit = Unit { dimension: Dimension::NONE, to_si: Rational::ONE, shown };
    for (symbol, power) in powers {
        let name = NAMES.iter().find(|n| n.symbol == symbol && n.kind == Kind::Symbol)?;
        unit.dimension = unit.dimension.mul(name.dimension.pow(power));
        let size = Rational::new(name.size.0, name.size.1)?.pow(i32::from(power))?;
        unit.to_si *= size;
    }
    Some(unit)
}
