//! A mass that the question does not give and that does not matter: it stands as a letter in the working and cancels.

use crate::view::View;
use exact::Value;
use model::{Kind, QuantityId, Situation};
use motion::{Factor, Solved, Term};

/// The most rounds in which one value brings the next.
const MOST_ROUNDS: usize = 12;

/// The stage with such masses as letters, and what follows from them; `None` where all masses are known.
pub(crate) fn with_letters(situation: &Situation, solved: &Solved) -> Option<Solved> {
    let mut filled = solved.clone();
    for body in &situation.bodies {
        let quantity = situation.quantity(body.mass)?;
        let needed = solved.equations.iter().any(|e| e.quantities().contains(&body.mass));
        if !needed || solved.value(body.mass).is_some() || quantity.kind != Kind::Mass {
            continue;
        }
        let taken = filled.values.values().any(|v| v.symbols().contains(&quantity.letter));
        let named = situation.quantities.iter().enumerate();
        let clash = named.filter(|(i, _)| QuantityId(*i) != body.mass).any(|(i, q)| {
            q.symbol == quantity.letter && situation.known(QuantityId(i), solved.part).is_some()
        });
        if taken || clash || quantity.letter.is_empty() {
            return None;
        }
        filled.values.insert(body.mass, Value::symbol(&quantity.letter));
    }
    if filled.values.len() == solved.values.len() {
        return None;
    }
    for _ in 0..MOST_ROUNDS {
        let found = next(&View::new(situation, &filled));
        let before = filled.values.len();
        filled.values.extend(found);
        if filled.values.len() == before {
            break;
        }
    }
    // A mass that the equations do not leave free (a body at rest with nothing to hold it) is no letter.
    let view = View::new(situation, &filled);
    let holds = view.entries.iter().all(|e| view.holds(e));
    holds.then_some(filled)
}

/// Is the quantity a mass that stands as a letter?
pub(crate) fn is_letter(situation: &Situation, solved: &Solved, id: QuantityId) -> bool {
    let Some(quantity) = situation.quantity(id) else { return false };
    quantity.kind == Kind::Mass
        && situation.known(id, solved.part).is_none()
        && solved.value(id).is_some_and(|v| *v == Value::symbol(&quantity.letter))
}

/// What follows from equations in which one quantity is left without a value.
fn next(view: &View<'_>) -> Vec<(QuantityId, Value)> {
    let mut found: Vec<(QuantityId, Value)> = Vec::new();
    for equation in &view.solved.equations {
        let sided = || equation.left.iter().map(|t| (1, t)).chain(equation.right.iter().map(|t| (-1, t)));
        let mut open: Vec<QuantityId> = Vec::new();
        for factor in sided().flat_map(|(_, t)| &t.factors).filter(|f| !view.has_value(f)) {
            if let Factor::Quantity(q) | Factor::Sin(q) | Factor::Cos(q) = factor
                && !open.contains(q)
            {
                open.push(*q);
            }
        }
        let [x] = open.as_slice() else { continue };
        let degree = |t: &Term| t.factors.iter().filter(|f| **f == Factor::Quantity(*x)).count();
        let trig = |t: &Term| t.factors.iter().any(|f| *f == Factor::Sin(*x) || *f == Factor::Cos(*x));
        if sided().any(|(_, t)| degree(t) > 1 || trig(t)) || found.iter().any(|(q, _)| q == x) {
            continue;
        }
        let (mut zero, mut one) = (Value::zero(), Value::zero());
        for (side, term) in sided() {
            let value = view.product(term, |f| *f != Factor::Quantity(*x));
            let slot = if degree(term) > 0 { &mut one } else { &mut zero };
            *slot = if side > 0 { &*slot + value } else { &*slot - value };
        }
        if let Ok(value) = (-zero).checked_div(&one)
            && !one.is_zero()
        {
            found.push((*x, value));
        }
    }
    found
}
