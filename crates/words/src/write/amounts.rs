//! Sizes with their units, exactly: decimals where they end, fractions elsewhere.

use super::{Said, Writer, cannot};
use exact::{Angle, Value};
use model::{Kind, QuantityId};

impl Writer<'_> {
    /// The value of a quantity, whenever it becomes known.
    pub(super) fn known(&self, id: QuantityId) -> Option<&Value> {
        Some(&self.s.quantity(id)?.known.as_ref()?.value)
    }

    /// The value of a quantity where the stem tells it, and not a later part.
    pub(super) fn given(&self, id: QuantityId) -> Option<&Value> {
        let first = self.s.asks.first().map_or(0, |a| a.part_index);
        self.s.known(id, first)
    }

    /// A value with the unit of its kind; one in open letters stands without.
    pub(super) fn size(&self, value: &Value, kind: Kind) -> Said<String> {
        let number = number(value)?;
        let symbols = value.symbols();
        let open = |s: &String| s == "g" || self.s.letters.iter().any(|l| &l.symbol == s);
        if !symbols.is_empty() && symbols.iter().all(open) {
            return Ok(number);
        }
        Ok(match self.unit(kind)? {
            "" => number,
            unit => format!("{number} {unit}"),
        })
    }

    pub(super) fn unit(&self, kind: Kind) -> Said<&'static str> {
        let words = self.voice.words();
        Ok(match kind {
            Kind::Mass => "kg",
            Kind::Acceleration | Kind::Gravity => words.per_second_squared,
            Kind::Tension
            | Kind::Reaction
            | Kind::Friction
            | Kind::Force
            | Kind::Resistance
            | Kind::PulleyForce => "N",
            Kind::Speed | Kind::Velocity => words.per_second,
            Kind::Distance | Kind::Displacement => "m",
            Kind::Time => "s",
            Kind::Coefficient | Kind::Number => "",
            Kind::Impulse => "N s",
            Kind::Energy => "J",
            Kind::Angle => return Err(cannot("an angle as a size")),
        })
    }

    /// `30°`, or `an angle α` with what is said of it after: `where tan α = 3/4`.
    pub(super) fn angle(&mut self, id: QuantityId) -> Said<(String, String)> {
        let first = self.said.insert(id);
        let letter = self.angle_letter(id);
        let place = format!("an angle {letter}");
        let (ratio, value) = match self.s.angles.get(&id) {
            Some(Angle::Degrees(d)) => {
                return Ok((format!("{}°", number(&Value::rational(d.clone()))?), String::new()));
            }
            Some(Angle::Sin(v)) => ("sin", v),
            Some(Angle::Cos(v)) => ("cos", v),
            Some(Angle::Tan(v)) => ("tan", v),
            None => return Ok((place, String::new())),
        };
        if !value.is_number() {
            return Err(cannot("an angle in letters"));
        }
        let given =
            if first { format!(", where {ratio} {letter} = {}", fraction(value)?) } else { String::new() };
        Ok((place, given))
    }

    /// The letter of an angle: its own, if that is Greek.
    pub(super) fn angle_letter(&self, id: QuantityId) -> String {
        let own = self.s.quantity(id).map(|q| q.letter.as_str()).unwrap_or_default();
        let taken = |l: &str| {
            self.s.angles.keys().filter(|k| self.s.quantity(**k).is_some_and(|q| q.letter == l)).count() > 1
        };
        if matches!(own, "α" | "β" | "γ" | "θ" | "φ") && !taken(own) {
            return own.to_owned();
        }
        let mut angles: Vec<QuantityId> = self.s.angles.keys().copied().collect();
        if !angles.contains(&id) {
            angles.push(id);
        }
        let at = angles.iter().position(|a| *a == id).unwrap_or(0);
        ["α", "β", "γ", "θ", "φ"].get(at).copied().unwrap_or("α").to_owned()
    }
}

/// A number in figures, or an expression in letters.
pub(super) fn number(value: &Value) -> Said<String> {
    match value.as_rational() {
        Some(r) => Ok(r.terminating_decimal().unwrap_or_else(|| r.to_string())),
        None => algebra(value),
    }
}

/// A ratio, as a fraction.
pub(super) fn fraction(value: &Value) -> Said<String> {
    match value.as_rational() {
        Some(r) => Ok(r.to_string()),
        None => algebra(value),
    }
}

/// Letters and roots as one writes them on a line: `3*m*g/5` as `3mg/5`.
fn algebra(value: &Value) -> Said<String> {
    let text = value.to_string();
    if text.contains("sin") || text.contains("cos") || text.contains('^') {
        return Err(cannot(&text));
    }
    let text = text.replace("sqrt(", "√(").replace('*', "");
    Ok(match text.find("√(").map(|at| text.split_at(at)) {
        // A root of one number needs no brackets.
        Some((before, root)) => {
            let inside = root.trim_start_matches("√(");
            match inside.split_once(')') {
                Some((n, rest)) if n.chars().all(|c| c.is_ascii_digit()) => format!("{before}√{n}{rest}"),
                _ => return Err(cannot(&text)),
            }
        }
        None => text,
    })
}
