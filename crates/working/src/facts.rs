//! Facts about several quantities together (`the total resistance is 450 N`) put into an equation in which just those
//! stand together, so that it can be used although no one of them is known.

use crate::view::{Entry, Piece, View};
use exact::{Rational, Value};
use model::QuantityId;
use motion::{Equation, Factor, Law, Origin, Term};

/// The equation with a fact in the place of the quantities that have no value; `None` if no fact fits.
pub(crate) fn with_fact<'a>(
    view: &View<'a>,
    equation: &'a Equation,
    valueless: &[QuantityId],
) -> Option<Entry<'a>> {
    if equation.law != Law::Motion {
        return None;
    }
    let solved = view.solved;
    solved.equations.iter().find_map(|fact| {
        let Law::Fact(number) = fact.law else { return None };
        let times = share(view, equation, fact, valueless)?;
        let stays =
            |t: &&Term| !t.factors.iter().any(|f| valueless.iter().any(|q| *f == Factor::Quantity(*q)));
        let mut left: Vec<Piece<'a>> = equation.left.iter().filter(stays).map(Piece::new).collect();
        for (side, term) in sided(fact).filter(|(_, t)| stays(t)) {
            left.push(Piece::owned(put_in(side, term, &times)));
        }
        let right: Vec<Piece<'a>> = equation.right.iter().filter(stays).map(Piece::new).collect();
        let all = equation.left.iter().chain(&equation.right);
        if right.len() != equation.right.len()
            || all
                .filter(stays)
                .chain(sided(fact).map(|(_, t)| t).filter(stays))
                .flat_map(|t| &t.factors)
                .any(|f| !view.has_value(f))
        {
            return None;
        }
        let mut entry = view.finished(equation, left, right);
        entry.fact = Some(number);
        entry.as_written = Some((
            equation.left.iter().map(Piece::new).collect(),
            equation.right.iter().map(Piece::new).collect(),
        ));
        Some(entry)
    })
}

fn sided(equation: &Equation) -> impl Iterator<Item = (i8, &Term)> {
    equation.left.iter().map(|t| (1, t)).chain(equation.right.iter().map(|t| (-1, t)))
}

/// How many times the fact stands in the equation: the same for every one of the quantities.
fn share(
    view: &View<'_>,
    equation: &Equation,
    fact: &Equation,
    valueless: &[QuantityId],
) -> Option<Rational> {
    let mut share: Option<Value> = None;
    for id in valueless {
        let (here, there) = (coefficient(view, equation, *id)?, coefficient(view, fact, *id)?);
        let times = here.checked_div(&there).ok()?;
        match &share {
            Some(share) if *share != times => return None,
            _ => share = Some(times),
        }
    }
    // Nothing else without a value in the fact.
    let fits = |f: &Factor| view.has_value(f) || valueless.iter().any(|q| *f == Factor::Quantity(*q));
    if !fact.terms().flat_map(|t| &t.factors).all(fits) {
        return None;
    }
    share?.as_rational().cloned()
}

/// The coefficient of a quantity that stands in one term.
fn coefficient(view: &View<'_>, equation: &Equation, id: QuantityId) -> Option<Value> {
    let mut holding = sided(equation).filter(|(_, t)| t.factors.contains(&Factor::Quantity(id)));
    let (side, term) = holding.next()?;
    let others = |f: &Factor| *f != Factor::Quantity(id);
    if holding.next().is_some() || !term.factors.iter().filter(|f| others(f)).all(|f| view.has_value(f)) {
        return None;
    }
    let product = view.product(term, others);
    Some(if side > 0 { product } else { -product })
}

/// A term of the fact as it stands in the equation, on its left.
fn put_in(side: i8, term: &Term, times: &Rational) -> Term {
    let turn = if times.signum() < 0 { 1 } else { -1 };
    let mut factors = term.factors.clone();
    if !times.abs().is_one() {
        factors.insert(0, Factor::Number(times.abs()));
    }
    Term { sign: term.sign * side * turn, factors, origin: Origin::Given }
}
