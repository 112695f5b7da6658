//! What is written beside an arrow, in a body or at an angle: known numbers as numbers, the rest as letters.

use crate::text::Text;
use exact::{Angle, Math, Sign, Value, round_significant};
use model::{BodyId, Kind, QuantityId, Situation, Stage, State};
use motion::{Factor, Force, Solved};

/// The unit of a kind of quantity, as written.
pub(crate) fn unit(kind: Kind) -> &'static str {
    match kind {
        Kind::Mass => "kg",
        Kind::Acceleration | Kind::Gravity => "m\u{2009}s⁻²",
        Kind::Tension
        | Kind::Reaction
        | Kind::Friction
        | Kind::Force
        | Kind::Resistance
        | Kind::PulleyForce => "N",
        Kind::Speed | Kind::Velocity => "m\u{2009}s⁻¹",
        Kind::Distance | Kind::Displacement => "m",
        Kind::Impulse => "N\u{2009}s",
        Kind::Energy => "J",
        Kind::Time => "s",
        Kind::Angle => "°",
        Kind::Coefficient | Kind::Number => "",
    }
}

/// A value as a formula: a short decimal where it ends, a fraction or surd else; three figures if that gets long.
pub(crate) fn value_math(value: &Value) -> Math {
    if let Some(number) = value.as_rational() {
        match number.terminating_decimal() {
            Some(decimal) if decimal.len() <= 8 => {
                return match decimal.strip_prefix('-') {
                    Some(size) => Math::row([Math::op("−"), Math::number(size)]),
                    None => Math::number(decimal),
                };
            }
            _ => {
                let (over, under) = (number.numerator(), number.denominator());
                let text = format!("{over}/{under}");
                if text.len() <= 7 && number.signum() > 0 {
                    return Math::number(text);
                }
            }
        }
    }
    match round_significant(value, 3) {
        Ok(decimal) => Math::number(decimal.digits.replace('-', "−")),
        Err(_) => value.math(),
    }
}

/// A value with its unit; letters bear no unit.
pub(crate) fn amount(value: &Value, kind: Kind) -> Text {
    let math = value_math(value);
    let bare = !value.is_number() || unit(kind).is_empty();
    if bare { Text::of(&math) } else { Text::of(&Math::row([math, Math::unit(unit(kind))])) }
}

/// The size of a value without its sign.
pub(crate) fn size_of(value: &Value) -> Value {
    match value.sign() {
        Ok(Sign::Negative) => -value.clone(),
        _ => value.clone(),
    }
}

/// A mass: its number, or its letter.
pub(crate) fn mass(situation: &Situation, body: BodyId, part: usize) -> Text {
    let Some(id) = situation.body(body).map(|b| b.mass) else { return Text::default() };
    quantity(situation, id, part)
}

/// A quantity as the question leaves it: its value where that is known in this part, else its letter.
pub(crate) fn quantity(situation: &Situation, id: QuantityId, part: usize) -> Text {
    match (situation.quantity(id), situation.known(id, part)) {
        (Some(q), Some(value)) => amount(&size_of(value), q.kind),
        (Some(q), None) => Text::letter(&q.letter),
        (None, _) => Text::default(),
    }
}

/// An angle: degrees where they are given, else its letter.
pub(crate) fn angle(situation: &Situation, id: QuantityId) -> Text {
    match situation.angles.get(&id) {
        Some(Angle::Degrees(degrees)) => {
            Text::of(&Math::row([value_math(&Value::rational(degrees.clone())), Math::unit("°")]))
        }
        _ => Text::letter(situation.quantity(id).map_or("α", |q| q.letter.as_str())),
    }
}

/// The size of a force: `1200 N`, `800g`, `T`.
pub(crate) fn force(situation: &Situation, solved: &Solved, force: &Force) -> Text {
    if let [Factor::Quantity(id)] = force.size.as_slice() {
        return quantity(situation, *id, solved.part);
    }
    let pieces = force.size.iter().map(|factor| match factor {
        Factor::Number(n) => value_math(&Value::rational(n.clone())),
        Factor::Sin(id) => function("sin", situation, *id),
        Factor::Cos(id) => function("cos", situation, *id),
        Factor::Quantity(id) => {
            let letter = situation.quantity(*id).map_or("", |q| q.letter.as_str());
            match situation.known(*id, solved.part) {
                Some(value) if situation.gravity != Some(*id) => {
                    let math = value_math(&size_of(value));
                    if value.terms() > 1 && !value.is_number() { Math::paren(math) } else { math }
                }
                _ => Math::quantity(letter),
            }
        }
    });
    Text::of(&Math::row(pieces))
}

fn function(name: &str, situation: &Situation, id: QuantityId) -> Math {
    let of = match situation.angles.get(&id) {
        Some(Angle::Degrees(d)) => Math::row([value_math(&Value::rational(d.clone())), Math::unit("°")]),
        _ => Math::quantity(situation.quantity(id).map_or("α", |q| q.letter.as_str())),
    };
    Math::row([Math::upright(&format!("\u{2009}{name}\u{2009}")), of])
}

/// The size of a force in newtons, where everything in it has a number.
pub(crate) fn newtons(solved: &Solved, force: &Force) -> Option<f64> {
    let mut product = 1.0;
    for factor in &force.size {
        product *= match factor {
            Factor::Number(n) => n.to_f64(),
            Factor::Quantity(id) => solved.value(*id)?.to_f64()?,
            Factor::Sin(_) | Factor::Cos(_) => 1.0,
        };
    }
    Some(product.abs()).filter(|v| v.is_finite())
}

/// An acceleration as it is drawn: its sense on the body's line, and what stands beside the arrow.
pub(crate) struct Acceleration {
    pub(crate) sense: f64,
    pub(crate) text: Text,
}

/// The acceleration of a body: with the number that the question gives (then in its true direction), else
/// `a` in the direction that counts as positive. None for a body that has none.
pub(crate) fn acceleration(situation: &Situation, solved: &Solved, body: BodyId) -> Option<Acceleration> {
    let id = *solved.accelerations.get(body.0)?;
    let value = solved.value(id);
    if value.is_some_and(Value::is_zero) || (value.is_none() && !solved.case.moves) {
        return None;
    }
    let sense = f64::from(*solved.senses.get(body.0)?);
    let stage =
        situation.stage(solved.stage).filter(|s| s.state != State::Jerk && !s.held.contains(&body))?;
    // Bodies that move together share one quantity, and the question may give it for any of them.
    let given = stage
        .accelerations
        .iter()
        .zip(&solved.accelerations)
        .any(|(own, shared)| *shared == id && situation.known(*own, solved.part).is_some())
        || situation.known(id, solved.part).is_some();
    match value.filter(|_| given) {
        Some(value) => {
            let down = matches!(value.sign(), Ok(Sign::Negative));
            let text = amount(&size_of(value), Kind::Acceleration);
            Some(Acceleration { sense: if down { -sense } else { sense }, text })
        }
        None => Some(Acceleration { sense, text: Text::letter(&situation.quantity(id)?.letter) }),
    }
}

/// What an unsolved situation says of the acceleration of a body.
pub(crate) fn told_acceleration(situation: &Situation, stage: &Stage, body: BodyId) -> Option<Acceleration> {
    let id = *stage.accelerations.get(body.0).filter(|_| stage.state != State::Jerk)?;
    let value = situation.known(id, usize::MAX);
    let heading = stage.heading.filter(|h| h.body == body).map(|h| f64::from(h.sense));
    match value {
        Some(v) if v.is_zero() => None,
        Some(v) => {
            let down = matches!(v.sign(), Ok(Sign::Negative));
            Some(Acceleration {
                sense: if down { -1.0 } else { 1.0 },
                text: amount(&size_of(v), Kind::Acceleration),
            })
        }
        None => Some(Acceleration { sense: heading?, text: Text::letter(&situation.quantity(id)?.letter) }),
    }
}
