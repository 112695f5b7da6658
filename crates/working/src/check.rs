//! A check: what was found is put into an equation that has not been used, and both sides are worked out.

use crate::direction::{of_system, system_in_sentence, system_name};
use crate::shown::{Style, equals, signed};
use crate::single::line;
use crate::view::{Entry, View};
use crate::work::{LineKind, Step};
use crate::write::{Writer, forces};
use exact::{Math, Value};
use model::{Ask, QuantityId};
use std::collections::BTreeSet;

/// The check of what an ask has found, with the place of the equation that it uses, if the pool has one.
pub(crate) fn of(
    view: &View<'_>,
    view_place: usize,
    ask: &Ask,
    found: &[QuantityId],
    known: &BTreeSet<QuantityId>,
    used: &BTreeSet<(usize, usize)>,
    style: Style<'_>,
) -> Option<(usize, Step)> {
    let fits = |e: &Entry<'_>| {
        e.is_motion() && e.open.iter().any(|q| found.contains(q)) && e.open.iter().all(|q| known.contains(q))
    };
    let open = view.entries.iter().enumerate().filter(|(i, e)| !used.contains(&(view_place, *i)) && fits(e));
    // One body rather than several, and as few terms as may be.
    let (place, entry) = open.min_by_key(|(i, e)| (e.equation.system.len(), e.size(), *i))?;
    Some((place, build(view, ask, entry, style)?))
}

fn build(view: &View<'_>, ask: &Ask, entry: &Entry<'_>, style: Style<'_>) -> Option<Step> {
    if !view.holds(entry) {
        return None;
    }
    let writer = Writer { view, style, unknown: Some(&[]) };
    let mut lines = Vec::new();
    for side in [&entry.left, &entry.right] {
        if side.is_empty() {
            continue;
        }
        let written = writer.side(side);
        let total: Value = side.iter().map(|p| p.value(view)).sum();
        let (result, exact) = signed(&total, style);
        let alike = written.math.plain() == result.plain();
        let math = if alike {
            written.math
        } else {
            Math::row([written.math, equals(exact && written.exact), result])
        };
        lines.push(line(LineKind::Numbers, math, forces(side.iter())));
    }
    if let [first, ..] = lines.as_mut_slice() {
        first.before = "Forces:".to_owned();
    }
    if let [_, second] = lines.as_mut_slice() {
        second.before = "Mass × acceleration:".to_owned();
    }
    let name = system_in_sentence(view, &entry.equation.system);
    let reason = if lines.len() > 1 {
        format!("The equation of motion of {name} has not been used: both sides must agree.")
    } else {
        format!("The equation of motion of {name} has not been used: its forces must balance.")
    };
    Some(Step {
        part: ask.part.clone(),
        ask: None,
        system: entry.equation.system.clone(),
        system_name: system_name(view, &entry.equation.system),
        direction: of_system(view, &entry.equation.system),
        reason,
        lines,
        equations: vec![entry.equation.id],
        gives: Vec::new(),
        is_check: true,
    })
}
