//! Equations with products of unknowns, solved together: one unknown after another is put into the equations that are
//! left, until one equation has one unknown. Where a factor would only be divided out, the two equations are divided.

use crate::block::numbered;
use crate::products::{Atom, Product, Sum, written};
use crate::shown::{Style, equals, in_full, signed, split};
use crate::single::{Manner, chosen, collected, line, quadratic, results, roots};
use crate::view::{Entry, View, same};
use crate::work::{Line, LineKind};
use exact::{Math, Rational, Value};
use model::{Kind, QuantityId};
use std::collections::BTreeSet;

/// Figures of a short decimal.
const SHORT: usize = 5;

/// An unknown taken from one equation and put into others.
struct Stage {
    /// The number of the equation that it is taken from.
    from: usize,
    unknown: Atom,
    /// The unknown is this ...
    over: Sum,
    /// ... over this.
    under: (Product, Value),
    /// The equations it is put into: the number before, the number after, and what comes out.
    into: Vec<(usize, usize, Sum)>,
    /// Both equations are one product each way, so they are divided.
    divided: bool,
}

/// The order of elimination.
struct Order {
    stages: Vec<Stage>,
    last: (usize, Sum),
    unknown: QuantityId,
}

/// Do these equations together give these quantities?
pub(crate) fn leads(view: &View<'_>, entries: &[&Entry<'_>], unknowns: &[QuantityId]) -> bool {
    order(view, entries, unknowns, None).is_some()
}

/// All lines of the step; `None` if one of them cannot be proved.
pub(crate) fn lines<'m>(
    view: &View<'_>,
    entries: &[&Entry<'_>],
    unknowns: &[QuantityId],
    manner: &impl Fn(QuantityId) -> Manner<'m>,
) -> Option<Vec<Line>> {
    let style = manner(*unknowns.first()?).style;
    // What is asked is kept to the end where it can be.
    let asked = unknowns.iter().copied().find(|u| manner(*u).answer.is_some());
    let order = order(view, entries, unknowns, asked).or_else(|| order(view, entries, unknowns, None))?;
    let mut lines = numbered(view, entries, unknowns, style)?;
    for stage in &order.stages {
        let said = lines.last().map(|l| l.math.plain());
        let more = taken(view, entries, stage, order.last.0, style)?;
        lines.extend(more.into_iter().filter(|l| Some(l.math.plain()) != said));
    }
    let before = lines.last().map(|l| l.math.plain());
    lines.extend(last(view, &order, &manner(order.unknown), before)?);
    for stage in order.stages.iter().rev() {
        let id = stage.unknown.id();
        let mut found = results(view, id, &manner(id))?;
        if let Some(first) = found.first_mut() {
            first.before = format!("Then from ({}):", stage.from);
        }
        // What has the same letter and value in two stages is said once.
        let said = |l: &Line| lines.iter().any(|k| k.kind == l.kind && k.math == l.math);
        if !found.iter().all(said) {
            lines.extend(found);
        }
    }
    Some(lines)
}

/// Sizes that occur by their squares only: v² is put in as it stands.
fn squares(view: &View<'_>, sums: &[Sum], unknowns: &[QuantityId]) -> BTreeSet<QuantityId> {
    let size = |id: QuantityId| {
        let kind = view.situation.quantity(id).map(|q| q.kind);
        matches!(kind, Some(Kind::Speed | Kind::Time))
    };
    let squared = |id: QuantityId| {
        let powers = sums.iter().flat_map(Sum::terms).filter_map(|(p, _)| p.get(&Atom::Quantity(id)));
        powers.into_iter().all(|n| *n == 2)
    };
    unknowns.iter().copied().filter(|id| size(*id) && squared(*id)).collect()
}

/// The order in which the unknowns are put in, if it leads to one equation for one unknown; the one to be kept to
/// the end, if there is one.
fn order(
    view: &View<'_>,
    entries: &[&Entry<'_>],
    unknowns: &[QuantityId],
    keep: Option<QuantityId>,
) -> Option<Order> {
    let sums: Vec<Sum> = entries.iter().map(|e| Sum::of(view, e, unknowns)).collect();
    let squares = squares(view, &sums, unknowns);
    let sums = sums.iter().map(|s| s.with_squares(&squares));
    let mut left: Vec<(usize, Sum)> = sums.enumerate().map(|(n, s)| (n + 1, s)).collect();
    if !left.iter().all(|(_, s)| s.value(view).is_some_and(|v| same(&v, &Value::zero()))) {
        return None;
    }
    let mut next = left.len() + 1;
    let mut stages = Vec::new();
    while left.len() > 1 {
        let (place, unknown) = choice(view, &left, keep)?;
        let (from, sum) = left.remove(place);
        let mut powers = sum.powers(unknown).into_iter();
        let (mut over, mut under) = (powers.next()?.negative(), powers.next()?);
        if let Some(factor) = under.number().filter(|v| in_decimals(&over, v)) {
            (over, under) = (over.over(&factor)?, Sum::one(Product::new(), Value::one()));
        }
        let (product, value) = under.terms().next().map(|(p, v)| (p.clone(), v.clone()))?;
        let mut stage = Stage {
            from,
            unknown,
            divided: left.len() == 1 && !product.is_empty() && over.len() == 1,
            over,
            under: (product, value),
            into: Vec::new(),
        };
        for (number, other) in &mut left {
            let powers = other.powers(unknown);
            let [_, .., _] = powers.as_slice() else { continue };
            let put = put_in(&powers, &stage.over, &under)?.without_common(view);
            if put.len() == 0 || !put.value(view).is_some_and(|v| same(&v, &Value::zero())) {
                return None;
            }
            stage.divided &= other.len() == 2;
            stage.into.push((*number, next, put.clone()));
            (*number, *other) = (next, put);
            next += 1;
        }
        stages.push(stage);
    }
    let last = left.pop()?;
    let mut open = last.1.unknowns().into_iter();
    let (Some(unknown), None) = (open.next(), open.next()) else { return None };
    let found: Vec<QuantityId> = stages.iter().map(|s| s.unknown.id()).chain([unknown]).collect();
    let complete = unknowns.iter().all(|u| found.contains(u));
    (complete && ending(&last.1, unknown).is_some()).then_some(Order { stages, last, unknown })
}

/// The equation and the unknown to take from it: alone and with the simplest coefficient, fewest terms beside it.
fn choice(view: &View<'_>, left: &[(usize, Sum)], keep: Option<QuantityId>) -> Option<(usize, Atom)> {
    let mut best = None;
    for (place, (_, sum)) in left.iter().enumerate() {
        for id in sum.unknowns() {
            let square = sum.terms().any(|(p, _)| p.contains_key(&Atom::Square(id)));
            let unknown = if square { Atom::Square(id) } else { Atom::Quantity(id) };
            let elsewhere =
                left.iter().enumerate().any(|(n, (_, s))| n != place && s.unknowns().contains(&id));
            let atoms_alone = sum.terms().flat_map(|(p, _)| p.keys()).all(|a| a.id() != id || *a == unknown);
            let powers = sum.powers(unknown);
            let [_, under] = powers.as_slice() else { continue };
            let mut terms = under.terms();
            let (Some((product, value)), None) = (terms.next(), terms.next()) else { continue };
            let nought = |v: Value| same(&v, &Value::zero());
            if !elsewhere || !atoms_alone || under.value(view).is_none_or(nought) {
                continue;
            }
            let plain = value.as_rational().is_some_and(|r| r.abs().is_one());
            let kind = view.situation.quantity(id).map(|q| q.kind);
            let rounded = product.is_empty() && !in_decimals(sum, value);
            let accelerates = kind == Some(Kind::Acceleration);
            let rank = (product.len(), keep == Some(id), rounded, sum.len(), !plain, accelerates, place);
            if best.as_ref().is_none_or(|(known, _)| rank < *known) {
                best = Some((rank, (place, unknown)));
            }
        }
    }
    best.map(|(_, found)| found)
}

/// Does every coefficient stay a short decimal when it is divided by this one?
fn in_decimals(sum: &Sum, by: &Value) -> bool {
    sum.terms().all(|(_, v)| match v.checked_div(by) {
        Ok(share) if share.is_number() => in_full(&split(&share).1, SHORT).is_some(),
        other => other.is_ok(),
    })
}

/// The equation with `over / under` in the place of the unknown whose powers it is given by, multiplied out.
fn put_in(powers: &[Sum], over: &Sum, under: &Sum) -> Option<Sum> {
    let degree = powers.len().checked_sub(1).filter(|d| *d <= 2)?;
    let mut total = Sum::default();
    for (power, rest) in powers.iter().enumerate() {
        let mut term = rest.clone();
        for _ in 0..power {
            term = term.by(over)?;
        }
        for _ in power..degree {
            term = term.by(under)?;
        }
        total = total.plus(&term);
    }
    Some(total)
}

/// The lines that take an unknown from its equation and put it into the others.
fn taken(
    view: &View<'_>,
    entries: &[&Entry<'_>],
    stage: &Stage,
    last: usize,
    style: Style<'_>,
) -> Option<Vec<Line>> {
    let letter = stage.unknown.math(view);
    let (product, value) = &stage.under;
    let value_of = stage.unknown.value(view)?;
    let below = Sum::one(product.clone(), value.clone()).value(view)?;
    if !same(&(value_of * below), &stage.over.value(view)?) {
        return None;
    }
    let mut lines = Vec::new();
    let (mut over, mut exact) = (Math::row([]), true);
    if product.is_empty() {
        let mut scaled = Sum::default();
        for (p, v) in stage.over.terms() {
            scaled = scaled.plus(&Sum::one(p.clone(), v.checked_div(value).ok()?));
        }
        (over, exact) = scaled.math(view, style);
    }
    // Not shown once more where the equation says it already, or where division leaves it out.
    let stated = stage.from <= entries.len() && entries.get(stage.from.checked_sub(1)?).is_some_and(|e| {
        let id = stage.unknown.id();
        matches!(e.left.as_slice(), [one] if one.degree(id) > 0 && one.term.factors.len() == one.degree(id))
            && !e.right.is_empty()
            && e.right.iter().all(|p| p.degree(id) == 0)
    });
    if !stage.divided && !stated {
        let right = if product.is_empty() {
            over
        } else {
            let (mut over, mut under) = (stage.over.clone(), value.clone());
            if value.sign().is_ok_and(|s| s == exact::Sign::Negative) {
                (over, under) = (over.negative(), -under);
            }
            let (top, exact_top) = over.math(view, style);
            let (_, bottom, exact_bottom) = crate::single::times(&under, &written(view, product), style);
            exact = exact_top && exact_bottom;
            Math::frac(top, bottom)
        };
        let mut shown =
            line(LineKind::Rearranged, Math::row([letter.clone(), equals(exact), right]), Vec::new());
        shown.before = format!("From ({}):", stage.from);
        lines.push(shown);
    }
    for (before, after, sum) in &stage.into {
        let mut shown = line(LineKind::Rearranged, sum.equation(view, style), Vec::new());
        shown.before = if stage.divided {
            format!("Dividing ({before}) by ({}), {} cancels:", stage.from, letter.plain())
        } else if product.is_empty() {
            format!("Putting {} from ({}) into ({before}):", letter.plain(), stage.from)
        } else {
            format!("Putting {} from ({}) into ({before}) and multiplying out:", letter.plain(), stage.from)
        };
        if *after != last {
            shown.after = format!("({after})");
        }
        lines.push(shown);
    }
    Some(lines)
}

/// How the last equation gives its unknown.
enum Ending {
    /// Coefficients of its powers 0, 1 and 2.
    Powers([Value; 3]),
    /// So much of the sine, of the cosine, and a number.
    Shares(Value, Value, Value),
}

fn ending(sum: &Sum, unknown: QuantityId) -> Option<Ending> {
    let product = |atom: Atom, n: usize| Product::from([(atom, n)]);
    let number = sum.at(&Product::new());
    let power = |n| sum.at(&product(Atom::Quantity(unknown), n));
    let (sine, cosine) = (sum.at(&product(Atom::Sin(unknown), 1)), sum.at(&product(Atom::Cos(unknown), 1)));
    let count = |values: &[&Value]| values.iter().filter(|v| !v.is_zero()).count();
    let square = sum.at(&product(Atom::Square(unknown), 1));
    let powers = [number.clone(), power(1), if square.is_zero() { power(2) } else { square }];
    if count(&powers.each_ref()) == sum.len() && count(&[&powers[1], &powers[2]]) > 0 {
        return Some(Ending::Powers(powers));
    }
    let all = count(&[&sine, &cosine, &number]) == sum.len();
    (all && count(&[&sine, &cosine]) > 0).then_some(Ending::Shares(sine, cosine, number))
}

/// A quadratic with very large or small coefficients, divided by the first of them where that leaves short decimals.
fn shorter(powers: [&Value; 3]) -> Option<[Value; 3]> {
    let (most, least) = (Rational::from_int(10_000), Rational::new(1, 100)?);
    let long = |v: &&&Value| {
        v.as_rational().map(Rational::abs).is_some_and(|r| r >= most || (r <= least && !r.is_zero()))
    };
    powers.iter().find(long)?;
    let [zero, one, two] = powers;
    let share = |v: &Value| v.checked_div(two).ok().filter(|v| in_full(&split(v).1, 2 + SHORT).is_some());
    two.as_rational().filter(|r| !r.is_one())?;
    Some([share(zero)?, share(one)?, Value::one()])
}

/// From the last equation to its unknown.
fn last(view: &View<'_>, order: &Order, manner: &Manner<'_>, before: Option<String>) -> Option<Vec<Line>> {
    let x = order.unknown;
    let style = manner.style;
    let letter = Math::quantity(view.letter(x));
    let mut lines = Vec::new();
    let mut show = |math: Math, words: String| {
        if before.as_deref() != Some(math.plain().as_str()) {
            let mut shown = line(LineKind::Rearranged, math, Vec::new());
            shown.before = words;
            lines.push(shown);
        }
    };
    match ending(&order.last.1, x)? {
        Ending::Powers([zero, one, two]) if two.is_zero() => {
            if order.last.1.len() > 2 {
                show(collected(&letter, &zero, &one, style), String::new());
            }
            lines.extend(results(view, x, manner)?);
        }
        Ending::Powers([zero, one, two]) => {
            show(quadratic(&letter, [&zero, &one, &two], style), String::new());
            let [_, one, two] = match shorter([&zero, &one, &two]) {
                Some(shorter) => {
                    let (by, _) = signed(&split(&two).1, style);
                    let [zero, one, two] = &shorter;
                    let math = quadratic(&letter, [zero, one, two], style);
                    show(math, format!("Dividing by {}:", by.plain()));
                    shorter
                }
                None => [zero, one, two],
            };
            let mut found = results(view, x, manner)?;
            if let (Some(first), false) = (found.first_mut(), one.is_zero()) {
                let other = -one.checked_div(&two).ok()? - view.value(x)?;
                lines.extend(roots(view, x, &other, style));
                first.before = chosen(view, x, &other);
            }
            lines.extend(found);
        }
        Ending::Shares(sine, cosine, number) if ![&sine, &cosine, &number].iter().any(|v| v.is_zero()) => {
            let shares = [&sine, &cosine, &number];
            lines.extend(crate::wave::lines(view, x, shares, manner, before.as_deref())?);
        }
        Ending::Shares(sine, cosine, number) => {
            let (name, over, under) = if sine.is_zero() {
                ("cos", number, cosine)
            } else if cosine.is_zero() {
                ("sin", number, sine)
            } else {
                ("tan", cosine, sine)
            };
            let share = -over.checked_div(&under).ok()?;
            let value = |atom: Atom| atom.value(view);
            let holds = match name {
                "tan" => same(&(value(Atom::Cos(x))? * &share), &value(Atom::Sin(x))?),
                "sin" => same(&share, &value(Atom::Sin(x))?),
                _ => same(&share, &value(Atom::Cos(x))?),
            };
            if !holds {
                return None;
            }
            let (number, exact) = signed(&share, style);
            let words =
                if name == "tan" { format!("Dividing by cos {}:", letter.plain()) } else { String::new() };
            show(Math::row([Math::upright(name), letter.clone(), equals(exact), number]), words);
            lines.extend(results(view, x, manner)?);
        }
    }
    Some(lines)
}
