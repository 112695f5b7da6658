//! The set of values of a quantity for which what is said of a stage holds.
//!
//! The quantity is left open as a letter, the stage is solved in that letter, and each inequality is turned into an
//! interval of it; what all of them allow is the answer, each end with the inequality that it comes from.

use crate::bounds::{Bound, bounds};
use crate::sign::sign_with_positive_letters;
use crate::{Solved, solve};
use exact::{Sign, Value};
use model::{
    Basis, Claimed, Diagnostic, Heading, Kind, Known, Letter, QuantityId, Refusal, Situation, Span, StageId,
    State,
};

/// The values of a quantity for which a stage is as it is said to be.
#[derive(Clone, Debug)]
pub struct Range {
    /// Whose values.
    pub quantity: QuantityId,
    /// The letter that stands for it.
    pub letter: String,
    /// The situation with the quantity left open as this letter.
    pub situation: Situation,
    /// The stage, solved in the letter.
    pub solved: Solved,
    /// The intervals, from small to great; never empty.
    pub intervals: Vec<Interval>,
    /// The inequalities.
    pub bounds: Vec<Bound>,
}

/// One interval.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Interval {
    /// Its lower end; `None` where it has none.
    pub low: Option<End>,
    /// Its upper end.
    pub high: Option<End>,
}

/// An end of an interval.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct End {
    /// Where, in SI units.
    pub value: Value,
    /// Does it belong to the interval?
    pub closed: bool,
    /// Which of [`Range::bounds`] it comes from.
    pub bound: usize,
}

/// The values of a quantity for which the stage is as the question says: at rest, or moving the way given, strings taut
/// and bodies on their surfaces.
///
/// ```
/// use exact::Value;
/// use model::{Builder, Form, Grip, Kind, Line, State};
/// let mut b = Builder::new();
/// let p = b.body("P", "P", Form::Particle, Line::Level, Some(2.into()));
/// let q = b.body("Q", "Q", Form::Particle, Line::Vertical, None);
/// let mu = b.coefficient(Value::one().checked_div(&Value::from_int(2)).ok());
/// b.surface(p, "the table", Grip::Rough(mu));
/// b.over_pulley("the string", p, q);
/// let rest = b.stage(State::AtRest);
/// let situation = b.finish();
/// let mass = situation.bodies[1].mass;
/// let range = motion::range(&situation, rest, 0, mass).unwrap();
/// assert_eq!(range.intervals[0].high.as_ref().unwrap().value, Value::one());
/// ```
///
/// # Errors
/// Why there is no such set: it is not told which way things move, nothing fits, or an inequality is of a kind that is
/// not turned into an interval.
pub fn range(
    situation: &Situation,
    stage: StageId,
    part: usize,
    quantity: QuantityId,
) -> Result<Range, Vec<Diagnostic>> {
    let (open, letter) =
        opened(situation, stage, quantity).ok_or_else(|| vec![unsure(situation, quantity)])?;
    let solved = solve(&open, stage, part)?;
    let told = open.stage(stage).is_some_and(|s| s.heading.is_some() || s.state != State::Released);
    let decided = solved
        .accelerations
        .iter()
        .all(|a| solved.value(*a).and_then(sign_with_positive_letters).is_some_and(|s| s != Sign::Negative));
    if !told && !decided {
        return Err(vec![
            Diagnostic::refuse(
                Refusal::Undetermined,
                "it is not said whether it stays at rest or which way it moves",
            )
            .hint("say which way the bodies are to move, or that they stay at rest"),
        ]);
    }
    let bounds = bounds(&open, &solved).ok_or_else(|| vec![unsure(situation, quantity)])?;
    // A letter that no law of the stage speaks of is bounded by nothing but its own sign: it was not this one that was
    // meant.
    let speaks = |v: &Value| v.symbols().contains(&letter);
    if !bounds.iter().any(|b| b.quantity != Some(quantity) && (speaks(&b.smaller) || speaks(&b.greater))) {
        return Err(vec![unsure(situation, quantity)]);
    }
    let mut all = vec![Interval { low: None, high: None }];
    for (n, bound) in bounds.iter().enumerate() {
        let allowed = allowed(bound, n, &letter).ok_or_else(|| vec![unsure(situation, quantity)])?;
        all = meet(&all, &allowed).ok_or_else(|| vec![unsure(situation, quantity)])?;
    }
    if all.is_empty() {
        let name = situation.quantity(quantity).map_or("quantity", |q| q.name.as_str());
        let name = name.strip_prefix("the ").unwrap_or(name);
        let says = format!("there is no value of the {name} for which that holds");
        return Err(vec![Diagnostic::refuse(Refusal::Impossible, says)]);
    }
    Ok(Range { quantity, letter, situation: open, solved, intervals: all, bounds })
}

fn unsure(situation: &Situation, quantity: QuantityId) -> Diagnostic {
    let name = situation.quantity(quantity).map_or("quantity", |q| q.name.as_str());
    let name = name.strip_prefix("the ").unwrap_or(name);
    Diagnostic::refuse(
        Refusal::Undetermined,
        format!("the values that the {name} can have could not be told"),
    )
}

/// The situation with the quantity as a letter, and a direction that is only claimed as one that is given.
fn opened(situation: &Situation, stage: StageId, quantity: QuantityId) -> Option<(Situation, String)> {
    let mut open = situation.clone();
    let it = open.quantities.get(quantity.0)?;
    if it.kind == Kind::Angle {
        return None;
    }
    let already = it
        .known
        .as_ref()
        .and_then(|k| k.value.symbols().into_iter().next().filter(|s| k.value == Value::symbol(s)));
    let letter = match already {
        Some(letter) => letter,
        None if open.letters.iter().any(|l| l.symbol == it.letter && l.kind == it.kind) => it.letter.clone(),
        None => free_letter(&open, &it.letter, quantity),
    };
    let kind = it.kind;
    for (i, other) in open.quantities.iter_mut().enumerate() {
        // The letter is no unknown's name.
        if other.symbol == letter {
            other.symbol = format!("{letter}#{i}");
        }
    }
    let it = open.quantities.get_mut(quantity.0)?;
    it.known = Some(Known {
        value: Value::symbol(&letter),
        written: letter.clone(),
        basis: Basis::Given(Span::default()),
        from_part: 0,
    });
    if !open.letters.iter().any(|l| l.symbol == letter) {
        open.letters.push(Letter { symbol: letter.clone(), kind });
    }
    let claimed = situation.claims.iter().find_map(|c| match c.says {
        Claimed::Heads(sense) if c.stage == stage => Some(Heading { body: c.body, sense }),
        _ => None,
    });
    let here = open.stages.get_mut(stage.0)?;
    if here.heading.is_none() {
        here.heading = claimed;
    }
    Some((open, letter))
}

/// Its own letter, unless that stands for something else already.
fn free_letter(situation: &Situation, own: &str, quantity: QuantityId) -> String {
    let used = |letter: &str| {
        situation.letters.iter().any(|l| l.symbol == letter)
            || situation.quantities.iter().enumerate().any(|(i, q)| i != quantity.0 && q.letter == letter)
    };
    let mut letter = own.to_owned();
    while used(&letter) {
        letter.push('′');
    }
    letter
}

/// The values of the letter for which one inequality holds; `None` if it is neither linear nor quadratic.
fn allowed(bound: &Bound, number: usize, letter: &str) -> Option<Vec<Interval>> {
    let gap = &bound.greater - &bound.smaller;
    let everywhere = vec![Interval { low: None, high: None }];
    if !gap.symbols().contains(letter) {
        return Some(match sign_with_positive_letters(&gap) {
            Some(Sign::Negative) => Vec::new(),
            Some(Sign::Zero) if bound.strict => Vec::new(),
            _ => everywhere,
        });
    }
    let (over, under) = gap.over_and_under()?;
    let over = match sign_with_positive_letters(&under)? {
        Sign::Negative => -over,
        _ => over,
    };
    let end = |value: Value| Some(End { value, closed: !bound.strict, bound: number });
    let coefficients = over.coefficients_in(letter)?;
    match coefficients.as_slice() {
        [constant, slope] => {
            let value = (-constant).checked_div(slope).ok()?;
            Some(match sign_with_positive_letters(slope)? {
                Sign::Positive => vec![Interval { low: end(value), high: None }],
                _ => vec![Interval { low: None, high: end(value) }],
            })
        }
        [constant, slope, bend] => {
            let discriminant = slope * slope - Value::from_int(4) * bend * constant;
            let opens_up = sign_with_positive_letters(bend)? == Sign::Positive;
            if sign_with_positive_letters(&discriminant)? == Sign::Negative {
                return Some(if opens_up { everywhere } else { Vec::new() });
            }
            let root = discriminant.sqrt().ok()?;
            let size = if opens_up { bend.clone() } else { -bend };
            let middle = if opens_up { -slope } else { slope.clone() };
            let twice = Value::from_int(2) * size;
            let (low, high) =
                ((&middle - &root).checked_div(&twice).ok()?, (&middle + &root).checked_div(&twice).ok()?);
            Some(if opens_up {
                vec![Interval { low: None, high: end(low) }, Interval { low: end(high), high: None }]
            } else {
                vec![Interval { low: end(low), high: end(high) }]
            })
        }
        _ => None,
    }
}

/// What two sets have in common; `None` where letters leave it open which end comes first.
fn meet(one: &[Interval], two: &[Interval]) -> Option<Vec<Interval>> {
    let mut all = Vec::new();
    for a in one {
        for b in two {
            let low = tighter(a.low.as_ref(), b.low.as_ref(), Sign::Positive)?;
            let high = tighter(a.high.as_ref(), b.high.as_ref(), Sign::Negative)?;
            let empty = match (&low, &high) {
                (Some(low), Some(high)) => match sign_with_positive_letters(&(&high.value - &low.value)) {
                    Some(Sign::Negative) => true,
                    Some(Sign::Zero) => !(low.closed && high.closed),
                    _ => false,
                },
                _ => false,
            };
            if !empty {
                all.push(Interval { low, high });
            }
        }
    }
    Some(all)
}

/// The end that leaves less; `further` is the sign of a later end minus an earlier one that makes it tighter.
fn tighter(a: Option<&End>, b: Option<&End>, further: Sign) -> Option<Option<End>> {
    let (Some(a), Some(b)) = (a, b) else { return Some(a.or(b).cloned()) };
    Some(Some(match sign_with_positive_letters(&(&b.value - &a.value))? {
        Sign::Zero if a.closed => b.clone(),
        Sign::Zero => a.clone(),
        sign if sign == further => b.clone(),
        _ => a.clone(),
    }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use exact::{Angle, Rational};
    use model::{Builder, Form, Grip, Line};

    fn fraction(over: i64, under: i64) -> Value {
        Value::rational(Rational::new(over, under).unwrap_or(Rational::ZERO))
    }
    fn ends(range: &Range) -> Vec<(Option<String>, Option<String>)> {
        let end = |e: &Option<End>| {
            e.as_ref().map(|e| format!("{}{}", e.value, if e.closed { "" } else { " open" }))
        };
        range.intervals.iter().map(|i| (end(&i.low), end(&i.high))).collect()
    }

    /// B7: at rest for m1(sin t − mu cos t) ≤ m2 ≤ m1(sin t + mu cos t), here with masses m and km.
    #[test]
    fn a_load_at_rest_on_a_rough_slope_has_a_band() {
        let mut b = Builder::new();
        b.open_letter("m", Kind::Mass);
        let m = Value::symbol("m");
        let angle = b.angle("α", Angle::Tan(fraction(3, 4)));
        let line = Line::Slope { angle, rises_right: true };
        let p = b.body("P", "P", Form::Particle, line, Some(m));
        let q = b.body("Q", "Q", Form::Particle, Line::Vertical, None);
        let mu = b.coefficient(Some(fraction(1, 2)));
        b.surface(p, "the slope", Grip::Rough(mu));
        b.over_pulley("the string", p, q);
        let rest = b.stage(State::AtRest);
        let situation = b.finish();
        let found = range(&situation, rest, 0, situation.bodies[1].mass).map(|r| ends(&r));
        // 3/5 − 1/2 × 4/5 = 1/5, 3/5 + 2/5 = 1.
        assert_eq!(found, Ok(vec![(Some("m/5".to_owned()), Some("m".to_owned()))]));
    }

    /// B4: moves only if m2 > mu m1.
    #[test]
    fn a_coefficient_small_enough_to_let_it_move() {
        let mut b = Builder::new();
        let p = b.body("P", "P", Form::Particle, Line::Level, Some(4.into()));
        let q = b.body("Q", "Q", Form::Particle, Line::Vertical, Some(3.into()));
        let mu = b.coefficient(None);
        b.surface(p, "the table", Grip::Rough(mu));
        b.over_pulley("the string", p, q);
        let stage = b.stage(State::Released);
        b.heading(stage, q, -1);
        let situation = b.finish();
        let found = range(&situation, stage, 0, mu).map(|r| ends(&r));
        assert_eq!(found, Ok(vec![(Some("0".to_owned()), Some("3/4 open".to_owned()))]));
    }

    /// Two rough bodies share the holding: together they hold at most mu (m1 + m2) g, whoever holds how much.
    #[test]
    fn two_frictions_that_share_the_holding_are_weighed_together() {
        let mut b = Builder::new();
        let p = b.body("P", "P", Form::Particle, Line::Level, Some(2.into()));
        let q = b.body("Q", "Q", Form::Particle, Line::Level, Some(3.into()));
        let r = b.body("R", "R", Form::Particle, Line::Vertical, None);
        let mu = b.coefficient(Some(fraction(1, 5)));
        b.surface(p, "the table", Grip::Rough(mu));
        b.surface(q, "the table", Grip::Rough(mu));
        b.string("the string between", q, p);
        b.over_pulley("the string", q, r);
        let rest = b.stage(State::AtRest);
        let situation = b.finish();
        let found = range(&situation, rest, 0, situation.bodies[2].mass).map(|r| ends(&r));
        assert_eq!(found, Ok(vec![(Some("0 open".to_owned()), Some("1".to_owned()))]));
    }

    #[test]
    fn which_way_it_is_to_move_must_be_said() {
        let mut b = Builder::new();
        let p = b.body("P", "P", Form::Particle, Line::Vertical, Some(4.into()));
        let q = b.body("Q", "Q", Form::Particle, Line::Vertical, None);
        b.over_pulley("the string", p, q);
        let stage = b.stage(State::Released);
        let situation = b.finish();
        assert!(range(&situation, stage, 0, situation.bodies[1].mass).is_err());
    }
}
