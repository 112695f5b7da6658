//! Angles that are found: from the one sine or cosine in an equation to the angle in degrees.

use crate::form::{Closeness, Form, form};
use crate::shown::{equals, signed, with_unit};
use crate::single::{Manner, collected, line};
use crate::view::{Entry, View, same};
use crate::work::{Line, LineKind};
use crate::write::forces;
use exact::{Angle, Math, Value, round_places_with, round_significant_with};
use model::{Accuracy, Kind, QuantityId};
use motion::Factor;

/// The angle as the question gives it or as it was found.
pub(crate) fn of(view: &View<'_>, id: QuantityId) -> Option<Angle> {
    view.angle(id).cloned()
}

/// An angle as it is given: in degrees, proved to the figures that are shown.
pub(crate) fn angle_form(angle: &Angle, close: Closeness) -> Option<Form> {
    if let Angle::Degrees(degrees) = angle {
        return Some(form(&Value::from(degrees), Kind::Angle, close));
    }
    let enclosure = |bits| angle.degrees_enclosure(bits);
    let (rounded, note) = match close.accuracy {
        Some(Accuracy::Places(n)) => (round_places_with(enclosure, n), format!("({n} d.p.)")),
        Some(Accuracy::Significant(n)) => (round_significant_with(enclosure, n), format!("({n} s.f.)")),
        _ => (round_significant_with(enclosure, close.figures), format!("({} s.f.)", close.figures)),
    };
    let rounded = rounded.ok()?;
    let (ascii, math) = with_unit(&rounded.digits, Kind::Angle);
    let note = if rounded.exact { String::new() } else { note };
    Some(Form { ascii, math, exact: rounded.exact, note })
}

/// The lines from the equation with its numbers to the angle, whose sine or cosine stands in one term.
pub(crate) fn lines(
    view: &View<'_>,
    entry: &Entry<'_>,
    id: QuantityId,
    manner: &Manner<'_>,
) -> Option<Vec<Line>> {
    // So much of its sine, of its cosine, and the rest.
    let (mut sine, mut cosine, mut zero) = (Value::zero(), Value::zero(), Value::zero());
    for (side, piece) in entry.sided() {
        let has = |share: Factor| piece.term.factors.contains(&share);
        let slot = match (has(Factor::Sin(id)), has(Factor::Cos(id))) {
            (true, true) => return None,
            (true, false) => &mut sine,
            (false, true) => &mut cosine,
            (false, false) => &mut zero,
        };
        let value = view.product(&piece.term, |f| *f != Factor::Sin(id) && *f != Factor::Cos(id));
        *slot = if side > 0 { &*slot + value } else { &*slot - value };
    }
    if !sine.is_zero() && !cosine.is_zero() {
        return crate::wave::lines(view, id, [&sine, &cosine, &zero], manner, None);
    }
    let (share, one) = if cosine.is_zero() { (Factor::Sin(id), sine) } else { (Factor::Cos(id), cosine) };
    let value = view.factor(&share)?;
    if !same(&(&zero + &one * &value), &Value::zero()) {
        return None;
    }
    let name = if share == Factor::Sin(id) { "sin" } else { "cos" };
    let letter = || Math::quantity(view.letter(id));
    let function = Math::row([Math::upright(name), letter()]);
    let acting = forces(entry.left.iter().chain(&entry.right));
    let mut lines = vec![line(LineKind::Rearranged, collected(&function, &zero, &one, manner.style), acting)];
    let (number, exact) = signed(&value, manner.style);
    if one != Value::one() {
        lines.push(line(LineKind::Rearranged, Math::row([function, equals(exact), number]), Vec::new()));
    }
    lines.extend(results(view, id, manner)?);
    Some(lines)
}

/// The angle in degrees.
pub(crate) fn results(view: &View<'_>, id: QuantityId, manner: &Manner<'_>) -> Option<Vec<Line>> {
    let carried = || {
        angle_form(&of(view, id)?, Closeness { accuracy: None, figures: manner.style.figures, from_g: true })
            .map(|f| Form { note: String::new(), ..f })
    };
    let shown = manner.answer.clone().or_else(carried)?;
    let math = Math::row([Math::quantity(view.letter(id)), equals(shown.exact), shown.math]);
    let mut found = line(LineKind::Result, math, Vec::new());
    found.after = shown.note;
    Some(vec![found])
}
