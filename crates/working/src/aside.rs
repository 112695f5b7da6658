//! The last lines of a step whose result is not yet the answer: a deceleration from a negative acceleration, the force
//! on a pulley from the tension, what the question asks to show.

use crate::form::{Closeness, form};
use crate::shown::unit;
use crate::single::line;
use crate::view::{View, same};
use crate::work::{Line, LineKind};
use exact::{Math, Sign, Value};
use model::{Ask, Kind, PulleyId, QuantityId, Wanted};

/// The lines that follow the result of a step, if any.
pub(crate) fn lines(view: &View<'_>, ask: &Ask, id: QuantityId, close: Closeness) -> Vec<Line> {
    let found = match ask.wanted {
        Wanted::Deceleration(_) => deceleration(view, id, close),
        Wanted::PulleyForce(pulley) => on_pulley(view, pulley, id, close),
        _ => None,
    };
    let mut lines: Vec<Line> = found.into_iter().collect();
    if let (Some(last), true) = (lines.last_mut(), ask.show.is_some()) {
        last.after = format!("{}, as required", last.after);
    }
    lines
}

fn deceleration(view: &View<'_>, id: QuantityId, close: Closeness) -> Option<Line> {
    let value = view.value(id)?;
    let slows = motion::sign_with_positive_letters(value) == Some(Sign::Negative);
    let size = if slows { -value } else { value.clone() };
    let shown = form(&size, Kind::Acceleration, close);
    let mut said = line(LineKind::Remark, shown.math, Vec::new());
    said.before = "So the deceleration is".to_owned();
    said.after = shown.note;
    Some(said)
}

/// The two parts of the string pull on the pulley with T each: 2T where they are parallel, √2 T at a right angle.
fn on_pulley(view: &View<'_>, pulley: PulleyId, tension: QuantityId, close: Closeness) -> Option<Line> {
    let total = motion::pulley_force(view.situation, view.solved, pulley)?;
    let t = view.value(tension)?;
    let letter = || Math::quantity(view.letter(tension));
    let square = || Math::power(letter(), Math::number("2"));
    let two = Value::from_int(2);
    let (formula, before) = if same(&total, &(&two * t)) {
        (
            Math::row([Math::number("2"), letter()]),
            "Both parts of the string pull on the pulley alike: the force is",
        )
    } else if same(&(&total * &total), &(&two * t * t)) {
        (
            Math::sqrt(Math::row([square(), Math::op("+"), square()])),
            "The two parts of the string are at right angles: the force on the pulley is",
        )
    } else {
        let cosine = (&total * &total).checked_div(&(&two * t * t)).ok()? - Value::one();
        let cosine = cosine_math(view, pulley, &cosine)?;
        (
            Math::sqrt(Math::row([
                square(),
                Math::op("+"),
                square(),
                Math::op("+"),
                Math::row([Math::number("2"), square(), cosine]),
            ])),
            "The two parts of the string pull on the pulley at an angle: the force on it is",
        )
    };
    let shown = form(&total, Kind::PulleyForce, close);
    let relation = Math::op(if shown.exact { "=" } else { "≈" });
    let math = if shown.exact || unit(Kind::PulleyForce).1 == "N" {
        Math::row([formula, relation, shown.math])
    } else {
        shown.math
    };
    let mut said = line(LineKind::Result, math, Vec::new());
    said.before = before.to_owned();
    said.after = shown.note;
    Some(said)
}

/// The cosine of the angle between the two parts of a string at the top of a slope: the sine of the slope,
/// since one part runs down the slope and the other hangs.
fn cosine_math(view: &View<'_>, pulley: PulleyId, cosine: &Value) -> Option<Math> {
    let (_, link) = view.situation.links_in(view.solved.stage).find(|(_, l)| l.pulleys.contains(&pulley))?;
    let angles: Vec<QuantityId> = link
        .ends
        .iter()
        .filter_map(|e| match view.situation.body(e.body)?.line {
            model::Line::Slope { angle, .. } => Some(angle),
            _ => None,
        })
        .collect();
    let [angle] = angles.as_slice() else { return None };
    let factor = |f: motion::Factor| view.factor(&f);
    let name = if same(&factor(motion::Factor::Sin(*angle))?, cosine) {
        "sin"
    } else if same(&factor(motion::Factor::Cos(*angle))?, cosine) {
        "cos"
    } else {
        return None;
    };
    Some(Math::row([Math::upright(name), Math::quantity(view.letter(*angle))]))
}
