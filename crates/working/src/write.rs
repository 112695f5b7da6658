//! Terms and equations as formulas: in letters, or with the known values put in.

use crate::shown::{Seen, Style, equals, seen, sum};
use crate::view::{Entry, Piece, View};
use exact::{Angle, Math, Value};
use model::QuantityId;
use motion::{Factor, ForceId, Origin, Term};

/// Writes terms. In letters every quantity keeps its letter; in numbers only the `unknown` ones do, and g.
pub(crate) struct Writer<'v, 'a> {
    pub(crate) view: &'v View<'a>,
    pub(crate) style: Style<'v>,
    /// The quantities that keep their letters; `None` for all.
    pub(crate) unknown: Option<&'v [QuantityId]>,
}

/// Something written, and whether nothing in it was rounded.
pub(crate) struct Written {
    pub(crate) math: Math,
    pub(crate) exact: bool,
}

/// A factor as it stands in a product.
enum Part {
    /// A number, or what starts with one: needs × after another factor.
    Number(Math),
    /// A letter.
    Letter(Math),
    /// A sine or cosine.
    Function(Math),
}

/// The mark of a force in a formula.
pub(crate) fn tag(force: ForceId) -> String {
    format!("force-{}", force.0)
}

/// The forces that a list of terms comes from.
pub(crate) fn forces<'p>(pieces: impl IntoIterator<Item = &'p Piece<'p>>) -> Vec<ForceId> {
    let mut found = Vec::new();
    for piece in pieces {
        if let Origin::Force(id) = piece.term.origin
            && !found.contains(&id)
        {
            found.push(id);
        }
    }
    found
}

impl Writer<'_, '_> {
    fn keeps(&self, id: QuantityId) -> bool {
        let in_letters = self.unknown.is_none() && !self.view.is_own_letter(id);
        Some(id) == self.view.situation.gravity || in_letters || self.unknown.is_some_and(|u| u.contains(&id))
    }

    /// A product of factors, without sign. Numbers first, then letters, then g, then sines and cosines.
    pub(crate) fn product(&self, factors: &[&Factor]) -> Written {
        let (mut numbers, mut letters, mut gravity, mut shares) = (vec![], vec![], vec![], vec![]);
        let mut exact = true;
        let mut counted: Vec<(&Factor, i64)> = Vec::new();
        for factor in factors {
            match counted.iter_mut().find(|(f, _)| f == factor) {
                Some((_, n)) => *n += 1,
                None => counted.push((factor, 1)),
            }
        }
        let raise =
            |math: Math, n: i64| if n > 1 { Math::power(math, Math::number(n.to_string())) } else { math };
        for (factor, n) in counted {
            match factor {
                Factor::Number(r) => numbers.push(Part::Number(Value::from(r).math())),
                Factor::Quantity(q) if self.keeps(*q) => {
                    let letter = Part::Letter(raise(Math::quantity(self.view.letter(*q)), n));
                    let list =
                        if Some(*q) == self.view.situation.gravity { &mut gravity } else { &mut letters };
                    list.push(letter);
                }
                Factor::Quantity(_) => {
                    let value = self.view.factor(factor).unwrap_or(Value::zero());
                    let seen = seen(&value, self.style);
                    exact &= seen.exact;
                    numbers.push(number(seen, n));
                }
                Factor::Sin(q) => shares.push(self.share("sin", *q, factor, &mut exact)),
                Factor::Cos(q) => shares.push(self.share("cos", *q, factor, &mut exact)),
            }
        }
        if numbers.iter().any(|p| matches!(p, Part::Number(Math::Number(s)) if s == "0")) {
            return Written { math: Math::number("0"), exact };
        }
        let several = numbers.len() > 1;
        let has_letter = !letters.is_empty() || !gravity.is_empty();
        if has_letter {
            numbers.retain(|p| !matches!(p, Part::Number(Math::Number(s)) if s == "1"));
        }
        let mut row = Vec::new();
        let count = numbers.len();
        let in_symbols = self.unknown.is_none();
        let parts = if in_symbols && gravity.is_empty() {
            numbers.into_iter().chain(letters).chain(shares).collect::<Vec<_>>()
        } else {
            numbers.into_iter().chain(letters).chain(gravity).chain(shares).collect()
        };
        for (n, part) in parts.into_iter().enumerate() {
            let math = match part {
                // After several numbers a letter would seem to belong to the last of them alone.
                Part::Letter(math) if several && n > 0 && n == count => {
                    row.push(Math::op("×"));
                    math
                }
                Part::Number(math) => {
                    if !row.is_empty() {
                        row.push(Math::op("×"));
                    }
                    math
                }
                Part::Letter(math) | Part::Function(math) => math,
            };
            row.push(math);
        }
        let math = match row.len() {
            0 => Math::number("1"),
            1 => row.remove(0),
            _ => Math::Row(row),
        };
        Written { math, exact }
    }

    fn share(&self, name: &str, angle: QuantityId, factor: &Factor, exact: &mut bool) -> Part {
        let function = |of: Math| Part::Function(Math::row([Math::upright(name), of]));
        let letter = self.view.letter(angle);
        let degrees = match self.view.situation.angles.get(&angle) {
            Some(Angle::Degrees(d)) => d.terminating_decimal(),
            _ => None,
        };
        let in_degrees = |d: &str| Math::row([Math::number(d), Math::unit("°")]);
        match (self.unknown, &degrees) {
            (None, Some(d)) if letter.is_empty() => function(in_degrees(d)),
            (None, _) => function(Math::quantity(letter)),
            (Some(unknown), _) if unknown.contains(&angle) => function(Math::quantity(letter)),
            (Some(_), Some(d)) => function(in_degrees(d)),
            (Some(_), None) => {
                let value = self.view.factor(factor).unwrap_or(Value::zero());
                // The share of an angle given by its tangent is a fraction or a root: kept as one.
                let kept = if value.as_rational().is_some() {
                    seen(&value, Style { exact: true, ..self.style })
                } else {
                    seen(&value, self.style)
                };
                *exact &= kept.exact;
                let math = match value.as_rational() {
                    Some(r) if !r.is_integer() => value.math(),
                    _ => kept.math,
                };
                Part::Number(math)
            }
        }
    }

    /// One term, without its sign.
    pub(crate) fn piece(&self, piece: &Piece<'_>) -> Written {
        self.term(&piece.term)
    }
    fn term(&self, term: &Term) -> Written {
        let factors: Vec<&Factor> = term.factors.iter().collect();
        let written = self.product(&factors);
        match term.origin {
            Origin::Force(id) => Written { math: Math::tagged(tag(id), written.math), ..written },
            _ => written,
        }
    }

    /// One side of an equation; masses that share an acceleration stand in one bracket.
    pub(crate) fn side(&self, pieces: &[Piece<'_>]) -> Written {
        let mut exact = true;
        let mut row: Vec<(bool, Math)> = Vec::new();
        let mut used = vec![false; pieces.len()];
        for (i, piece) in pieces.iter().enumerate() {
            if used.get(i) == Some(&true) {
                continue;
            }
            let mut group = vec![i];
            if matches!(piece.term.origin, Origin::Inertia(_)) {
                for (j, other) in pieces.iter().enumerate().skip(i + 1) {
                    if self.shares_acceleration(&piece.term, &other.term) {
                        group.push(j);
                    }
                }
            }
            for j in &group {
                if let Some(slot) = used.get_mut(*j) {
                    *slot = true;
                }
            }
            let written = if group.len() > 1 {
                let members: Vec<&Term> =
                    group.iter().filter_map(|j| pieces.get(*j)).map(|p| &*p.term).collect();
                self.bracket(&members)
            } else {
                self.term(&piece.term)
            };
            exact &= written.exact;
            row.push((piece.term.sign < 0, written.math));
        }
        Written { math: sum(row), exact }
    }

    fn shares_acceleration(&self, one: &Term, other: &Term) -> bool {
        matches!(other.origin, Origin::Inertia(_))
            && one.sign == other.sign
            && one.factors.len() > 1
            && one.factors.get(1..) == other.factors.get(1..)
    }

    /// (m₁ + m₂)a
    fn bracket(&self, terms: &[&Term]) -> Written {
        let mut exact = true;
        let mut masses = Vec::new();
        for term in terms {
            let mass: Vec<&Factor> = term.factors.iter().take(1).collect();
            let written = self.product(&mass);
            exact &= written.exact;
            masses.push((false, written.math));
        }
        let rest: Vec<&Factor> =
            terms.first().map(|t| t.factors.iter().skip(1).collect()).unwrap_or_default();
        let rest_written = self.product(&rest);
        let mut row = vec![Math::paren(sum(masses))];
        if starts_with_number(&rest_written.math) {
            row.push(Math::op("×"));
        }
        row.push(rest_written.math);
        Written { math: Math::Row(row), exact: exact && rest_written.exact }
    }

    /// The whole equation.
    pub(crate) fn equation(&self, entry: &Entry<'_>) -> Written {
        let (left, right) = match (&entry.as_written, self.unknown) {
            (Some((left, right)), None) => (self.side(left), self.side(right)),
            _ => (self.side(&entry.left), self.side(&entry.right)),
        };
        let exact = left.exact && right.exact;
        Written { math: Math::row([left.math, equals(exact), right.math]), exact }
    }
}

fn number(seen: Seen, power: i64) -> Part {
    let mut math = seen.math;
    let raised = power > 1 && math != Math::number("0");
    if seen.negative {
        math = Math::row([Math::op("−"), math]);
    }
    if seen.negative || seen.sum || (raised && !matches!(math, Math::Number(_) | Math::Quantity(_))) {
        math = Math::paren(math);
    }
    if raised {
        math = Math::power(math, Math::number(power.to_string()));
    }
    if seen.lettered && !seen.negative && !seen.sum { Part::Letter(math) } else { Part::Number(math) }
}

fn starts_with_number(math: &Math) -> bool {
    match math {
        Math::Number(_) | Math::Frac(..) | Math::Paren(_) => true,
        Math::Row(pieces) => pieces.first().is_some_and(starts_with_number),
        Math::Power(base, _) => starts_with_number(base),
        Math::Tagged(_, inside) => starts_with_number(inside),
        _ => false,
    }
}
