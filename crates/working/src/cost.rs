//! What a step costs. The same small function for every question: what it prefers, a
//! teacher prefers for the reasons given here.

use crate::view::{Entry, Piece, View};
use exact::Value;
use model::QuantityId;
use motion::{Factor, Law};

/// One more equation with one unknown: the measure of the others.
const MOTION: u64 = 20;
/// Balance and friction laws are short and stand alone.
const LIGHT: u64 = 8;
/// A constant-acceleration relation.
const JOURNEY: u64 = 20;
/// Solving a quadratic is more work, and a root has to be chosen.
const QUADRATIC: u64 = 12;
/// Solving two together costs more than two steps one after the other.
const TOGETHER: u64 = 24;
/// Every term has to be written, and can be written wrongly.
const TERM: u64 = 2;
/// A wanted force with a minus sign has to be taken to the other side.
const MINUS: u64 = 1;

/// What it costs to write the equation.
pub(crate) fn writing(entry: &Entry<'_>) -> u64 {
    let base = match entry.equation.law {
        Law::Motion | Law::Impulse => MOTION,
        Law::Journey(_) => JOURNEY,
        Law::Balance | Law::Friction | Law::Together(_) | Law::Fact(_) | Law::PulleyForce(_) => LIGHT,
    };
    base + TERM * entry.size() as u64
}

/// What it costs to find one unknown from one equation; `None` if it cannot be found from it.
pub(crate) fn solving(view: &View<'_>, entry: &Entry<'_>, id: QuantityId) -> Option<u64> {
    if entry.sided().any(|(_, p)| p.has_trig(id)) {
        let shares = |p: &Piece<'_>| {
            let own = |f: &&Factor| **f == Factor::Sin(id) || **f == Factor::Cos(id);
            p.term.factors.iter().filter(own).count()
        };
        let trig = entry.sided().filter(|(_, p)| p.has_trig(id)).count();
        let alone = entry.sided().all(|(_, p)| p.degree(id) == 0 && shares(p) <= 1);
        return alone.then(|| writing(entry) + QUADRATIC * trig as u64);
    }
    // The coefficients of its first and second power; the rest of the equation does not matter here.
    let mut powers = [Value::zero(), Value::zero()];
    for (side, piece) in entry.sided() {
        let degree = piece.degree(id);
        if degree > 0 {
            let coefficient = view.product(&piece.term, |f| *f != Factor::Quantity(id));
            let slot = powers.get_mut(degree - 1)?;
            *slot = if side > 0 { &*slot + coefficient } else { &*slot - coefficient };
        }
    }
    let [one, two] = powers;
    let quadratic = !two.is_zero();
    if !quadratic && one.is_zero() {
        return None;
    }
    let minus = entry.left.iter().any(|p| p.term.sign < 0 && p.degree(id) > 0);
    Some(writing(entry) + if quadratic { QUADRATIC } else { 0 } + if minus { MINUS } else { 0 })
}

/// What it costs to solve several equations together.
pub(crate) fn together(entries: &[&Entry<'_>]) -> u64 {
    let each: u64 = entries.iter().map(|e| writing(e)).sum();
    each + TOGETHER * (entries.len() as u64).saturating_sub(1)
}
