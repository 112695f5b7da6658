//! Sense checks: on each body the forces one way outweigh those the other way, as its acceleration says.

use crate::direction::{capital, ways};
use crate::shown::{Style, seen, unit};
use crate::single::takes_unit;
use crate::view::View;
use crate::work::SenseCheck;
use exact::{Math, Sign, Value};
use model::{BodyId, Diagnostic, Kind, State};
use motion::{Law, sign_with_positive_letters};

/// The checks of one stage, and whatever does not agree.
pub(crate) fn checks(view: &View<'_>, part: &str, style: Style<'_>) -> Vec<Result<SenseCheck, Diagnostic>> {
    view.situation.body_ids().filter_map(|body| check(view, part, body, style)).collect()
}

fn check(
    view: &View<'_>,
    part: &str,
    body: BodyId,
    style: Style<'_>,
) -> Option<Result<SenseCheck, Diagnostic>> {
    let entry = view.entries.iter().find(|e| e.equation.law == Law::Motion && e.equation.system == [body])?;
    let (mut with, mut against) = (Value::zero(), Value::zero());
    for piece in &entry.left {
        let sign = sign_with_positive_letters(piece.value(view));
        if sign.map_or(piece.term.sign < 0, |s| s == Sign::Negative) {
            against -= piece.value(view);
        } else {
            with += piece.value(view);
        }
    }
    let id = view.acceleration_of(body)?;
    let still = Value::zero();
    let acceleration = if entry.right.is_empty() { &still } else { view.value(id)? };
    let resultant = sign_with_positive_letters(&(&with - &against))?;
    let sign = sign_with_positive_letters(acceleration)?;
    let name = view.body_name(body);
    if resultant != sign {
        return Some(Err(Diagnostic::warn(format!(
            "the forces on {name} do not agree with its acceleration"
        ))));
    }
    let way = ways(view, body);
    let newtons =
        |v: &Value| if takes_unit(v) { format!("{} N", written(v, style)) } else { written(v, style) };
    let letter = Math::quantity(view.letter(id)).plain();
    let says_a = format!("{letter} = {} {}", written(acceleration, style), unit(Kind::Acceleration).1);
    let on = format!("On {name}");
    let moves = view.solved.case.moves;
    let says = match sign {
        Sign::Zero if with.is_zero() && against.is_zero() => return None,
        Sign::Zero => {
            let so = match view.stage().map(|s| s.state) {
                Some(State::Limiting) => "is on the point of moving",
                Some(State::Steady) => "keeps its speed",
                _ if moves => "keeps its speed",
                _ => "stays at rest",
            };
            format!(
                "{on}, {} {} balances {} {}: it {so}.",
                newtons(&with),
                way.with,
                newtons(&against),
                way.against
            )
        }
        Sign::Positive if against.is_zero() => {
            format!(
                "{on}, {} {} with nothing against it: it speeds up, as {says_a} says.",
                newtons(&with),
                way.with
            )
        }
        Sign::Positive => format!(
            "{on}, {} {} outweighs {} {}: it speeds up, as {says_a} says.",
            newtons(&with),
            way.with,
            newtons(&against),
            way.against
        ),
        Sign::Negative if with.is_zero() => {
            format!(
                "{on}, {} {} with nothing against it: it slows down, as {says_a} says.",
                newtons(&against),
                way.against
            )
        }
        Sign::Negative => format!(
            "{on}, {} {} outweighs {} {}: it slows down, as {says_a} says.",
            newtons(&against),
            way.against,
            newtons(&with),
            way.with
        ),
    };
    Some(Ok(SenseCheck { part: part.to_owned(), body, with, against, says: capital(&says) }))
}

fn written(value: &Value, style: Style<'_>) -> String {
    let seen = seen(value, style);
    let sign = if seen.negative { "−" } else { "" };
    format!("{sign}{}", seen.math.plain().trim())
}
