//! Elimination where products of unknowns, letters or surds occur: one unknown at a time.

use crate::sign::sign_with_positive_letters;
use crate::sparse::{self, Row};
use exact::{Sign, Value};
use std::collections::BTreeMap;

/// How the unknowns are called and which of them cannot be negative.
pub(crate) trait Unknown {
    /// The number of the unknown with this name.
    fn number(&self, symbol: &str) -> Option<usize>;
    /// Its name.
    fn symbol(&self, number: usize) -> String;
    /// Is it a size, never below zero?
    fn is_size(&self, number: usize) -> bool;
    /// Is it surely above zero?
    fn is_positive(&self, number: usize) -> bool;
    /// Notes that so many terms have been written; false when there is to be an end of it.
    fn may_write(&self, terms: usize) -> bool;
}

/// One way to satisfy the equations.
#[derive(Clone, Debug, Default)]
pub(crate) struct Branch {
    /// The unknowns that are fixed.
    pub(crate) values: BTreeMap<usize, Value>,
    /// Was something left open because the expressions became too long?
    pub(crate) given_up: bool,
}

/// Why there is none.
#[derive(Clone, Debug)]
pub(crate) struct Clash {
    /// The equation that cannot hold.
    pub(crate) tag: usize,
    /// What it leads to, where that can be said: `v² would be negative`.
    pub(crate) because: Option<String>,
    /// Not that it cannot hold, but that too much would have to be written to tell.
    pub(crate) given_up: bool,
}

impl Clash {
    pub(crate) fn at(tag: usize) -> Clash {
        Clash { tag, because: None, given_up: false }
    }
    fn because(tag: usize, because: String) -> Clash {
        Clash { because: Some(because), ..Clash::at(tag) }
    }
}

/// Larger expressions than this are left alone.
const MOST_TERMS: usize = 400;
/// More branches than this are not followed.
const MOST_BRANCHES: usize = 32;

/// All ways to satisfy the equations, each a value that is to be zero.
///
/// # Errors
/// The last equation that could not be satisfied, if there is no way.
pub(crate) fn solve(
    equations: Vec<(Value, usize)>,
    start: BTreeMap<usize, Value>,
    names: &impl Unknown,
) -> Result<Vec<Branch>, Clash> {
    let equations = equations.into_iter().map(|(value, tag)| Open::new(value, tag, names)).collect();
    let mut open = vec![Work { equations, values: start, eliminated: Vec::new(), given_up: false }];
    let mut done = Vec::new();
    let mut clash = Clash::at(0);
    while let Some(work) = open.pop() {
        match work.run(names) {
            Ok(Step::Done(branch)) => done.push(branch),
            Ok(Step::Fork(ways)) if open.len() + done.len() + ways.len() <= MOST_BRANCHES => {
                open.extend(ways)
            }
            // What is not followed further stays open; it is not left out.
            Ok(Step::Fork(ways)) => done.extend(ways.into_iter().map(|way| way.finish(names))),
            // What has been found may then not be all there is.
            Err(found) if found.given_up => return Err(found),
            Err(found) => clash = found,
        }
    }
    if done.is_empty() { Err(clash) } else { Ok(done) }
}

/// An equation still to be satisfied: a value that is to be zero.
#[derive(Clone, Debug)]
struct Open {
    value: Value,
    tag: usize,
    /// The unknowns in it, each with its name.
    unknowns: Vec<(usize, String)>,
}

impl Open {
    fn new(value: Value, tag: usize, names: &impl Unknown) -> Open {
        let unknowns = unknowns(&value, names);
        Open { value, tag, unknowns }
    }
    fn speaks_of(&self, unknown: usize) -> bool {
        self.unknowns.iter().any(|(u, _)| *u == unknown)
    }
}

fn unknowns(value: &Value, names: &impl Unknown) -> Vec<(usize, String)> {
    value.symbols().into_iter().filter_map(|s| names.number(&s).map(|n| (n, s))).collect()
}

#[derive(Clone, Debug)]
struct Work {
    equations: Vec<Open>,
    values: BTreeMap<usize, Value>,
    /// Unknowns put in terms of others, in order: above and below a line.
    eliminated: Vec<(usize, Value, Value)>,
    given_up: bool,
}

enum Step {
    Done(Branch),
    Fork(Vec<Work>),
}

impl Work {
    fn run(mut self, names: &impl Unknown) -> Result<Step, Clash> {
        let first: Vec<_> = std::mem::take(&mut self.values).into_iter().collect();
        self.put_in(first, names)?;
        // Every round fixes or eliminates at least one unknown.
        for _ in 0..1_000 {
            self.check(names)?;
            let terms = self.equations.iter().map(|e| e.value.terms()).sum();
            if !names.may_write(terms) {
                return Err(Clash { given_up: true, ..Clash::at(0) });
            }
            if let Some(step) = self.single(names)? {
                match step {
                    Found::One(unknown, value) => self.put_in(vec![(unknown, value)], names)?,
                    Found::Two(unknown, values) => return Ok(Step::Fork(self.fork(unknown, values, names)?)),
                }
                continue;
            }
            let fixed = self.linear(names)?;
            if !fixed.is_empty() {
                self.put_in(fixed, names)?;
                continue;
            }
            if !self.eliminate(names) {
                break;
            }
        }
        Ok(Step::Done(self.finish(names)))
    }

    /// Drops equations that hold; an equation without unknowns that does not hold is a clash.
    fn check(&mut self, names: &impl Unknown) -> Result<(), Clash> {
        let mut clash = None;
        self.equations.retain(|e| {
            let zero = e.value.is_zero();
            let settled = !e.value.is_too_large() && e.unknowns.is_empty();
            if !zero && settled && clash.is_none() {
                clash = Some(Clash::at(e.tag));
            }
            !zero
        });
        for equation in &mut self.equations {
            without_positive_factor(equation, names);
        }
        clash.map_or(Ok(()), Err)
    }

    /// An equation with one unknown: linear ones first, then pure squares, then other quadratics.
    fn single(&self, names: &impl Unknown) -> Result<Option<Found>, Clash> {
        let mut best: Option<(usize, Found)> = None;
        for Open { value, tag, unknowns } in &self.equations {
            let [(unknown, symbol)] = unknowns.as_slice() else { continue };
            let unknown = *unknown;
            let Some(coefficients) = value.coefficients_in(symbol) else { continue };
            let rank = match coefficients.as_slice() {
                [_, _] => 0,
                [_, b, _] if b.is_zero() => 1,
                [c, _, _] if c.is_zero() => 2,
                [_, _, _] => 3,
                _ => continue,
            };
            if best.as_ref().is_some_and(|(r, _)| *r <= rank) {
                continue;
            }
            match roots(&coefficients, names.is_size(unknown)) {
                Some(roots) if roots.is_empty() => {
                    let angle = symbol.strip_prefix("sine#").or(symbol.strip_prefix("cosine#"));
                    let because = match angle {
                        Some(letter) => format!("no angle {letter} satisfies it"),
                        None => format!("no value of {symbol} satisfies it"),
                    };
                    return Err(Clash::because(*tag, because));
                }
                Some(mut roots) => {
                    let found = match (roots.pop(), roots.is_empty()) {
                        (Some(one), true) => Found::One(unknown, one),
                        (Some(one), false) => {
                            roots.push(one);
                            Found::Two(unknown, roots)
                        }
                        (None, _) => continue,
                    };
                    // A choice between two roots comes last: another equation may decide.
                    let rank = if matches!(found, Found::Two(..)) { rank + 10 } else { rank };
                    if best.as_ref().is_none_or(|(r, _)| *r > rank) {
                        best = Some((rank, found));
                    }
                }
                None => {}
            }
        }
        Ok(best.map(|b| b.1))
    }

    fn fork(&self, unknown: usize, values: Vec<Value>, names: &impl Unknown) -> Result<Vec<Work>, Clash> {
        let mut ways = Vec::new();
        let mut clash = None;
        for value in values {
            let mut way = self.clone();
            match way.put_in(vec![(unknown, value)], names) {
                Ok(()) => ways.push(way),
                Err(found) => clash = Some(found),
            }
        }
        match clash {
            Some(clash) if ways.is_empty() => Err(clash),
            _ => Ok(ways),
        }
    }

    /// Puts values in the place of unknowns everywhere.
    fn put_in(&mut self, found: Vec<(usize, Value)>, names: &impl Unknown) -> Result<(), Clash> {
        for (unknown, value) in found {
            let symbol = names.symbol(unknown);
            for equation in self.equations.iter_mut().filter(|e| e.speaks_of(unknown)) {
                let tag = equation.tag;
                let new = equation
                    .value
                    .substitute(&symbol, &value)
                    .map_err(|e| Clash::because(tag, e.to_string()))?;
                *equation = Open::new(new, tag, names);
            }
            self.values.insert(unknown, value);
        }
        Ok(())
    }

    /// The equations that are linear in all their unknowns together: whatever they fix.
    fn linear(&self, names: &impl Unknown) -> Result<Vec<(usize, Value)>, Clash> {
        let mut rows = Vec::new();
        for Open { value, tag, unknowns: here } in &self.equations {
            let mut row = Row::new(*tag);
            let mut rest = value.clone();
            let mut fits = true;
            for (unknown, symbol) in here {
                match rest.coefficients_in(symbol).as_deref() {
                    Some([constant, slope]) if unknowns(slope, names).is_empty() => {
                        row.add(*unknown, slope.clone());
                        rest = constant.clone();
                    }
                    _ => {
                        fits = false;
                        break;
                    }
                }
            }
            if fits && !row.terms.is_empty() {
                row.constant = rest;
                rows.push(row);
            }
        }
        if rows.is_empty() {
            return Ok(Vec::new());
        }
        let reduced = sparse::solve(rows).map_err(Clash::at)?;
        Ok(reduced.fixed)
    }

    /// Puts one unknown in terms of others: one that stands linearly in some equation, with a
    /// coefficient that cannot be zero.
    fn eliminate(&mut self, names: &impl Unknown) -> bool {
        let mut uses: BTreeMap<usize, usize> = BTreeMap::new();
        for (unknown, _) in self.equations.iter().flat_map(|e| &e.unknowns) {
            *uses.entry(*unknown).or_default() += 1;
        }
        let mut best: Option<(usize, usize, usize, &str, Value, Value)> = None;
        for (at, Open { value, unknowns, .. }) in self.equations.iter().enumerate() {
            let terms = value.terms();
            if unknowns.len() < 2 || terms > MOST_TERMS {
                continue;
            }
            for (unknown, symbol) in unknowns {
                // An equation that alone speaks of an unknown says nothing of the others.
                let uses = uses.get(unknown).copied().unwrap_or(0);
                let weight = terms * uses;
                if uses < 2 || best.as_ref().is_some_and(|b| weight >= b.1) {
                    continue;
                }
                let coefficients = value.coefficients_in(symbol).unwrap_or_default();
                let [constant, slope] = coefficients.as_slice() else { continue };
                if cannot_vanish(slope, names) {
                    best = Some((at, weight, *unknown, symbol, -constant, slope.clone()));
                }
            }
        }
        let Some((at, _, unknown, symbol, above, below)) = best else { return false };
        let mut others = Vec::new();
        for (i, equation) in self.equations.iter().enumerate() {
            if i == at {
                continue;
            }
            if !equation.speaks_of(unknown) {
                others.push(equation.clone());
                continue;
            }
            match multiplied_out(&equation.value, symbol, &above, &below) {
                Some(new) if new.terms() <= MOST_TERMS => {
                    others.push(Open::new(new, equation.tag, names));
                }
                _ => {
                    self.given_up = true;
                    return false;
                }
            }
        }
        self.equations = others;
        self.eliminated.push((unknown, above, below));
        true
    }

    /// Reads the eliminated unknowns back, the last one first: what still hangs on an open unknown when all is
    /// put in stays open itself.
    fn finish(mut self, names: &impl Unknown) -> Branch {
        let mut open: BTreeMap<usize, Value> = BTreeMap::new();
        while let Some((unknown, above, below)) = self.eliminated.pop() {
            let (mut above, mut below) = (above, below);
            for part in [&mut above, &mut below] {
                for (number, symbol) in unknowns(part, names) {
                    if let Some(value) = self.values.get(&number).or_else(|| open.get(&number)) {
                        *part = part.substitute(&symbol, value).unwrap_or_else(|_| part.clone());
                    }
                }
            }
            let Ok(value) = above.checked_div(&below) else { continue };
            if unknowns(&value, names).is_empty() && !value.is_too_large() {
                self.values.insert(unknown, value);
            } else if value.terms() <= MOST_TERMS {
                open.insert(unknown, value);
            }
        }
        Branch { values: self.values, given_up: self.given_up }
    }
}

enum Found {
    One(usize, Value),
    Two(usize, Vec<Value>),
}

/// Divides an equation by an unknown that is a factor of all of it and cannot be zero: a mass that is not
/// given cancels from the motion of a body on a rough slope.
fn without_positive_factor(equation: &mut Open, names: &impl Unknown) {
    for (unknown, symbol) in equation.unknowns.clone() {
        if !names.is_positive(unknown) {
            continue;
        }
        if let Some([constant, slope]) = equation.value.coefficients_in(&symbol).as_deref()
            && constant.is_zero()
        {
            *equation = Open::new(slope.clone(), equation.tag, names);
        }
    }
}

/// An equation after `symbol = above / below`, with nothing below the line.
fn multiplied_out(value: &Value, symbol: &str, above: &Value, below: &Value) -> Option<Value> {
    let coefficients = value.coefficients_in(symbol)?;
    let degree = coefficients.len().saturating_sub(1);
    let mut sum = Value::zero();
    for (power, c) in coefficients.iter().enumerate() {
        let up = above.pow(i32::try_from(power).ok()?).ok()?;
        let down = below.pow(i32::try_from(degree - power).ok()?).ok()?;
        sum = (sum + c * up * down).checked().ok()?;
    }
    Some(sum)
}

/// Is this expression in unknowns and letters different from zero whatever they are?
fn cannot_vanish(value: &Value, names: &impl Unknown) -> bool {
    let free = value.symbols().iter().any(|s| names.number(s).is_some_and(|n| !names.is_positive(n)));
    !free && matches!(sign_with_positive_letters(value), Some(Sign::Positive | Sign::Negative))
}

/// The roots that physics allows of c₀ + c₁x (+ c₂x²); `None` where they cannot be found.
fn roots(coefficients: &[Value], is_size: bool) -> Option<Vec<Value>> {
    let mut roots = match coefficients {
        [c, b] => vec![(-c).checked_div(b).ok()?],
        [c, b, a] => {
            let discriminant = b * b - Value::from_int(4) * a * c;
            if sign_with_positive_letters(&discriminant) == Some(Sign::Negative) {
                return Some(Vec::new());
            }
            let root = discriminant.sqrt().ok()?;
            let twice = Value::from_int(2) * a;
            let mut both =
                vec![(-b + &root).checked_div(&twice).ok()?, (-b - &root).checked_div(&twice).ok()?];
            both.dedup();
            both
        }
        _ => return None,
    };
    // A linear equation leaves no choice: what its root means is judged by the case.
    if is_size && coefficients.len() > 2 {
        roots.retain(|r| sign_with_positive_letters(r) != Some(Sign::Negative));
        if roots.len() > 1 {
            // A root of zero is the start itself.
            roots.retain(|r| !r.is_zero());
        }
    }
    Some(roots)
}
