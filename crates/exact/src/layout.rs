//! How a value is laid out on the page: what stands above the line, what below,
//! and in which order. Plain algebra and set formulas are both written from this.
use crate::atoms::Atom;
use crate::monomial::Monomial;
use crate::poly::Poly;
use crate::rational::Rational;
use crate::value::{Form, Value};
use core::cmp::Ordering;

/// A piece of a formula.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Piece {
    /// Digits.
    Number(String),
    /// A letter.
    Letter(String),
    /// `sin` or `cos` and the angle in degrees.
    Function(&'static str, String),
    /// A power.
    Power(Box<Piece>, u32),
    /// A square root.
    Root(Box<Piece>),
    /// Factors side by side.
    Product(Vec<Piece>),
    /// Terms, each with whether it is taken away.
    Sum(Vec<(bool, Piece)>),
    /// A fraction.
    Over(Box<Piece>, Box<Piece>),
}

/// The sign in front, and the rest.
pub(crate) fn lay_out(value: &Value) -> (bool, Piece) {
    match &value.0 {
        Form::Number(n) => (n.signum() < 0, number_over(&n.abs())),
        Form::TooLarge => (false, Piece::Letter("?".to_owned())),
        Form::Fraction(f) => {
            let (scale, num) = f.num.primitive();
            let mut size = scale.abs();
            let alone = size.is_integer() && f.den.is_one() && num.common_monomial().is_one();
            // A sum by itself is written out, 12a + 24; only letters go before a bracket.
            let num = if alone { num.scale(&core::mem::replace(&mut size, Rational::ONE)) } else { num };
            let (negative, inside) = arranged(&num, scale.signum() < 0);
            let above = factors(&size.numerator(), &num, inside);
            let below_number = size.denominator();
            if below_number.is_one() && f.den.is_one() {
                return (negative, above);
            }
            let (_, inside) = arranged(&f.den, false);
            let below = factors(&below_number, &f.den, inside);
            (negative, Piece::Over(Box::new(above), Box::new(below)))
        }
    }
}

fn digits(n: &Rational) -> Piece {
    Piece::Number(n.to_string())
}

fn number_over(n: &Rational) -> Piece {
    if n.is_integer() {
        digits(n)
    } else {
        Piece::Over(Box::new(digits(&n.numerator())), Box::new(digits(&n.denominator())))
    }
}

/// Number × monomial × bracket, the bracket without what is common to its terms.
fn factors(number: &Rational, whole: &Poly, inside: Vec<(bool, Monomial, Rational)>) -> Piece {
    let common = whole.common_monomial();
    let mut pieces = Vec::new();
    let mut before = Vec::new();
    let mut after = Vec::new();
    if inside.len() > 1 && is_g(&common) {
        after = monomial_pieces(&common);
    } else {
        before = monomial_pieces(&common);
    }
    let bracket = match inside.as_slice() {
        [(_, m, c)] if m.is_one() && c.is_one() => None,
        _ => Some(sum_of(inside)),
    };
    if !number.is_one() || (before.is_empty() && after.is_empty() && bracket.is_none()) {
        pieces.push(digits(number));
    }
    pieces.append(&mut before);
    pieces.extend(bracket);
    pieces.append(&mut after);
    match pieces.len() {
        1 => pieces.remove(0),
        _ => Piece::Product(pieces),
    }
}

fn is_g(m: &Monomial) -> bool {
    matches!(m.0.as_slice(), [(Atom::Symbol(name), 1)] if &**name == "g")
}

/// The terms of ±p over their common monomial, as they are written: a term that
/// is added comes first, so that no minus sign stands in front if it can be
/// helped. Gives whether one must.
fn arranged(p: &Poly, minus: bool) -> (bool, Vec<(bool, Monomial, Rational)>) {
    let common = p.common_monomial();
    let over = p.over_monomial(&common).unwrap_or_default();
    let mut terms: Vec<_> =
        over.0.into_iter().map(|(m, c)| ((c.signum() < 0) != minus, m, c.abs())).collect();
    let negative = terms.iter().all(|(taken, ..)| *taken);
    if negative {
        terms.iter_mut().for_each(|t| t.0 = false);
    }
    terms.sort_by(|a, b| term_order(&a.1, &b.1));
    if let Some(first) = terms.iter().position(|(taken, ..)| !taken) {
        let term = terms.remove(first);
        terms.insert(0, term);
    }
    (negative, terms)
}

/// Higher powers first; roots after fractions; then the order of letters.
fn term_order(a: &Monomial, b: &Monomial) -> Ordering {
    let degree =
        |m: &Monomial| m.0.iter().filter(|(a, _)| matches!(a, Atom::Symbol(_))).map(|(_, e)| *e).sum::<u32>();
    let roots = |m: &Monomial| m.0.iter().filter(|(a, _)| !matches!(a, Atom::Symbol(_))).count();
    let names = |m: &Monomial| {
        let mut names: Vec<_> = m.0.iter().map(|(a, e)| (rank(a), u32::MAX - *e)).collect();
        names.sort();
        names
    };
    degree(b).cmp(&degree(a)).then(roots(a).cmp(&roots(b))).then(names(a).cmp(&names(b))).then(b.cmp(a))
}

/// The place of a factor in a product: multipliers, masses, g, other letters,
/// then sines and roots: `2kmg`, `μmg cos 20°`.
fn rank(atom: &Atom) -> (u8, String) {
    match atom {
        Atom::Symbol(name) => {
            let base = name.split('_').next().unwrap_or(name);
            let class = match base {
                "k" | "n" | "λ" | "lambda" => 0,
                "μ" | "mu" => 1,
                "m" | "M" => 2,
                "g" => 3,
                _ => 4,
            };
            (class, name.to_string())
        }
        Atom::Sin(angle) => (5, format!("sin{angle}")),
        Atom::Cos(angle) => (5, format!("cos{angle}")),
        Atom::Sqrt(_) => (6, String::new()),
    }
}

fn sum_of(terms: Vec<(bool, Monomial, Rational)>) -> Piece {
    let mut written = terms.into_iter().map(|(negative, m, c)| {
        let mut pieces = monomial_pieces(&m);
        if !c.is_one() || pieces.is_empty() {
            pieces.insert(0, digits(&c));
        }
        (negative, if pieces.len() == 1 { pieces.remove(0) } else { Piece::Product(pieces) })
    });
    if written.len() == 1
        && let Some((false, piece)) = written.next()
    {
        return piece;
    }
    Piece::Sum(written.collect())
}

/// The factors of a monomial; roots of single numbers and letters share one root.
fn monomial_pieces(m: &Monomial) -> Vec<Piece> {
    let mut factors: Vec<&(Atom, u32)> = m.0.iter().collect();
    factors.sort_by(|a, b| rank(&a.0).cmp(&rank(&b.0)).then_with(|| a.0.cmp(&b.0)));
    let mut pieces = Vec::new();
    let mut under: Option<Poly> = None;
    let mut nested = Vec::new();
    for (atom, e) in factors {
        let piece = match atom {
            Atom::Symbol(name) => Piece::Letter(name.to_string()),
            Atom::Sin(angle) => Piece::Function("sin", angle.to_string()),
            Atom::Cos(angle) => Piece::Function("cos", angle.to_string()),
            Atom::Sqrt(p) if p.0.len() == 1 => {
                let joint = match &under {
                    Some(sofar) => sofar.mul(p).unwrap_or_default(),
                    None => (**p).clone(),
                };
                under = Some(joint);
                continue;
            }
            Atom::Sqrt(p) => {
                nested.push(Piece::Root(Box::new(poly_piece(p))));
                continue;
            }
        };
        pieces.push(if *e == 1 { piece } else { Piece::Power(Box::new(piece), *e) });
    }
    pieces.extend(under.map(|p| Piece::Root(Box::new(poly_piece(&p)))));
    pieces.extend(nested);
    pieces
}

/// A polynomial with whole coefficients by itself.
fn poly_piece(p: &Poly) -> Piece {
    match lay_out(&Value::from_poly(p.clone())) {
        (false, piece) => piece,
        (true, piece) => Piece::Sum(vec![(true, piece)]),
    }
}
