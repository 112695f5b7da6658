//! The test whether a body on a rough surface stays at rest: the friction that rest needs, against the most there can be.

use crate::direction::{capital, of_system};
use crate::shown::{Style, seen};
use crate::single::line;
use crate::view::{View, same};
use crate::work::{LineKind, Step};
use exact::{Math, Value};
use model::{Ask, BodyId, Grip};
use motion::About;
use std::cmp::Ordering;

/// The step that compares them; `None` if the stage has no such decision.
pub(crate) fn test(view: &View<'_>, ask: &Ask, body: BodyId, style: Style) -> Option<Step> {
    let condition = view.solved.conditions.iter().find(|c| c.about == About::Friction(body))?;
    let stage = view.stage()?;
    let surface = view.situation.body(body)?.surface.as_ref()?;
    let Grip::Rough(mu) = surface.grip else { return None };
    let friction = stage.frictions.get(body.0).copied().flatten()?;
    let reaction = stage.reactions.get(body.0).copied().flatten()?;
    let (needed, most) = (&condition.left, &condition.right);
    let coefficient = view.solved.value(mu)?;
    let normal = view.solved.value(reaction)?;
    if !same(most, &(coefficient * normal))
        || !matches!(needed.cmp_exact(most), Ok(Ordering::Less | Ordering::Equal))
    {
        return None;
    }
    let letter = |id| Math::quantity(view.letter(id));
    let write = |value: &Value| {
        let seen = seen(value, style);
        (if seen.negative { Math::row([Math::op("−"), seen.math]) } else { seen.math }, seen.exact)
    };
    let (needed_math, needed_exact) = write(needed);
    let (most_math, most_exact) = write(most);
    let (mu_math, _) = write(coefficient);
    let (normal_math, normal_exact) = write(normal);
    let name = view.body_name(body);
    let mut greatest = line(
        LineKind::Numbers,
        Math::row([
            letter(mu),
            letter(reaction),
            crate::shown::equals(normal_exact && most_exact),
            mu_math,
            Math::op("×"),
            normal_math,
            crate::shown::equals(most_exact),
            most_math.clone(),
            Math::unit("N"),
        ]),
        Vec::new(),
    );
    greatest.before = "The most there can be:".to_owned();
    let at_limit = same(needed, most);
    let mut compared = line(
        LineKind::Result,
        Math::row([
            letter(friction),
            crate::shown::equals(needed_exact),
            needed_math,
            Math::op(if at_limit { "=" } else { "<" }),
            most_math,
        ]),
        Vec::new(),
    );
    compared.after = format!(", so {name} stays at rest");
    Some(Step {
        part: ask.part.clone(),
        ask: None,
        system: vec![body],
        system_name: name.to_owned(),
        direction: of_system(view, &[body]),
        reason: format!(
            "{} moves only if rest would need more friction than μR, the most there can be.",
            capital(name)
        ),
        lines: vec![greatest, compared],
        equations: Vec::new(),
        gives: Vec::new(),
        is_check: false,
    })
}
