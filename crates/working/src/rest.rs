//! The test whether a body on a rough surface stays at rest: the friction that rest would need, against the most
//! there can be.

use crate::direction::{capital, of_system};
use crate::shown::{Style, equals, signed, sum};
use crate::single::line;
use crate::view::{Entry, View, same};
use crate::work::{Line, LineKind, Step};
use crate::write::{Writer, forces};
use exact::{Math, Value};
use model::{Ask, BodyId, Grip, QuantityId};
use std::cmp::Ordering;

/// The step that compares them; `None` if nothing decides.
pub(crate) fn test(view: &View<'_>, place: usize, ask: &Ask, body: BodyId, style: Style<'_>) -> Option<Step> {
    let stage = view.stage()?;
    let surface = view.situation.body(body)?.surface.as_ref()?;
    let Grip::Rough(mu) = surface.grip else { return None };
    let friction = stage.frictions.get(body.0).copied().flatten()?;
    let reaction = stage.reactions.get(body.0).copied().flatten()?;
    let most = view.value(mu)? * view.value(reaction)?;
    let mut lines = Vec::new();
    let needed = if view.solved.case.moves {
        let (entry, needed) = needed_for_rest(view, body, friction)?;
        lines.push(needed_line(view, entry, friction, &needed, style));
        needed
    } else {
        view.value(friction)?.clone()
    };
    let stays = match needed.cmp_exact(&most) {
        Ok(Ordering::Less | Ordering::Equal) => true,
        Ok(Ordering::Greater) => false,
        Err(_) => return None,
    };
    if stays == view.solved.case.moves {
        return None;
    }
    lines.push(most_line(view, mu, reaction, &most, style)?);
    lines.push(compared(view, body, &needed, &most, style));
    let name = view.body_name(body);
    Some(Step {
        part: ask.part.clone(),
        ask: crate::matter::asks_rest(ask).then_some(place),
        system: vec![body],
        system_name: name.to_owned(),
        direction: of_system(view, &[body]),
        reason: format!(
            "{} moves only if rest would need more friction than μR, the most there can be.",
            capital(name)
        ),
        lines,
        equations: Vec::new(),
        gives: Vec::new(),
        is_check: false,
    })
}

/// The forces that friction would have to balance if nothing moved: all those along the line of what moves together.
fn needed_for_rest<'v, 'a>(
    view: &'v View<'a>,
    body: BodyId,
    friction: QuantityId,
) -> Option<(&'v Entry<'a>, Value)> {
    let whole = |e: &&Entry<'_>| e.is_motion() && e.equation.system.contains(&body);
    let entry = view.entries.iter().filter(whole).max_by_key(|e| e.equation.system.len())?;
    // A force of a link from outside would not be the same at rest.
    let outside = entry.left.iter().any(|p| {
        p.degree(friction) == 0
            && p.term.factors.iter().any(|f| matches!(f, motion::Factor::Quantity(q) if stage_link(view, *q)))
    });
    let needed = entry.left.iter().filter(|p| p.degree(friction) == 0).map(|p| p.value(view)).sum();
    (!outside).then_some((entry, needed))
}

fn stage_link(view: &View<'_>, id: QuantityId) -> bool {
    view.stage().is_some_and(|s| s.links.contains(&id))
}

fn needed_line(
    view: &View<'_>,
    entry: &Entry<'_>,
    friction: QuantityId,
    needed: &Value,
    style: Style<'_>,
) -> Line {
    let writer = Writer { view, style, unknown: Some(&[]) };
    let others: Vec<_> = entry.left.iter().filter(|p| p.degree(friction) == 0).collect();
    let mut exact = true;
    let mut pieces = Vec::new();
    for piece in &others {
        let written = writer.piece(piece);
        exact &= written.exact;
        pieces.push((piece.term.sign < 0, written.math));
    }
    let (total, exact_too) = signed(needed, style);
    let left = sum(pieces);
    let math = if left.plain() == total.plain() {
        Math::row([total, Math::unit("N")])
    } else {
        Math::row([left, equals(exact && exact_too), total, Math::unit("N")])
    };
    let mut shown = line(LineKind::Numbers, math, forces(others));
    shown.before = "To stay at rest it would need:".to_owned();
    shown
}

fn most_line(
    view: &View<'_>,
    mu: QuantityId,
    reaction: QuantityId,
    most: &Value,
    style: Style<'_>,
) -> Option<Line> {
    let letter = |id| Math::quantity(view.letter(id));
    let (coefficient, _) = signed(view.value(mu)?, style);
    let (normal, normal_exact) = signed(view.value(reaction)?, style);
    let (most, most_exact) = signed(most, style);
    let math = Math::row([
        letter(mu),
        letter(reaction),
        equals(normal_exact),
        coefficient,
        Math::op("×"),
        normal,
        equals(most_exact && normal_exact),
        most,
        Math::unit("N"),
    ]);
    let mut shown = line(LineKind::Numbers, math, Vec::new());
    shown.before = "The most there can be:".to_owned();
    Some(shown)
}

fn compared(view: &View<'_>, body: BodyId, needed: &Value, most: &Value, style: Style<'_>) -> Line {
    let sign = if same(needed, most) {
        "="
    } else if view.solved.case.moves {
        ">"
    } else {
        "<"
    };
    let math = Math::row([signed(needed, style).0, Math::op(sign), signed(most, style).0]);
    let mut shown = line(LineKind::Result, math, Vec::new());
    let so = if view.solved.case.moves { "moves" } else { "stays at rest" };
    shown.after = format!(", so {} {so}", view.body_name(body));
    shown
}
