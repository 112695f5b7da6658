//! Values written as plain algebra and as set formulas.
use crate::layout::{Piece, lay_out};
use crate::notation::Math;
use crate::rational::Rational;
use crate::value::Value;
use core::fmt;

/// Plain algebra, to be read by people and programs alike: `*`, `/`, `^`,
/// `sqrt()`, `sin(20°)`; fractions, never decimals.
impl fmt::Display for Value {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (negative, piece) = lay_out(self);
        let mut text = String::new();
        if negative {
            text.push('-');
        }
        // A minus in front of a sum takes all of it: arranged so that the sum is bracketed.
        let place = if negative { Place::Factor } else { Place::Alone };
        write_plain(&piece, place, &mut text);
        f.write_str(&text)
    }
}

/// What stands round a piece, and so whether it needs brackets.
#[derive(Clone, Copy, PartialEq)]
enum Place {
    Alone,
    Term,
    Factor,
    Divisor,
    Base,
}

fn write_plain(piece: &Piece, place: Place, out: &mut String) {
    let bracketed = match piece {
        Piece::Sum(_) => place != Place::Alone,
        Piece::Product(_) => matches!(place, Place::Divisor | Place::Base),
        Piece::Over(..) => matches!(place, Place::Divisor | Place::Base),
        _ => false,
    };
    if bracketed {
        out.push('(');
    }
    match piece {
        Piece::Number(s) | Piece::Letter(s) => out.push_str(s),
        Piece::Function(name, angle) => {
            out.push_str(name);
            out.push('(');
            out.push_str(angle);
            out.push_str("°)");
        }
        Piece::Power(base, e) => {
            write_plain(base, Place::Base, out);
            out.push('^');
            out.push_str(&e.to_string());
        }
        Piece::Root(inside) => {
            out.push_str("sqrt(");
            write_plain(inside, Place::Alone, out);
            out.push(')');
        }
        Piece::Product(factors) => {
            for (i, factor) in factors.iter().enumerate() {
                if i > 0 {
                    out.push('*');
                }
                write_plain(factor, Place::Factor, out);
            }
        }
        Piece::Sum(terms) => {
            for (i, (negative, term)) in terms.iter().enumerate() {
                match (i, negative) {
                    (0, false) => {}
                    (0, true) => out.push('-'),
                    (_, false) => out.push_str(" + "),
                    (_, true) => out.push_str(" - "),
                }
                write_plain(term, Place::Term, out);
            }
        }
        Piece::Over(above, below) => {
            write_plain(above, Place::Factor, out);
            out.push('/');
            write_plain(below, Place::Divisor, out);
        }
    }
    if bracketed {
        out.push(')');
    }
}

impl Value {
    /// The value as a formula: letters italic, products without signs, fractions
    /// with a line, `2mg/5`, `7√10/5`.
    ///
    /// ```
    /// use exact::Value;
    /// let (m, g) = (Value::symbol("m"), Value::symbol("g"));
    /// let weight = Value::from_int(-2) * m * g;
    /// assert_eq!(weight.math().plain(), "−2mg");
    /// ```
    pub fn math(&self) -> Math {
        let (negative, piece) = lay_out(self);
        let formula = to_math(&piece, negative);
        if negative { Math::row([Math::op("−"), formula]) } else { formula }
    }
}

impl Rational {
    /// The fraction as a formula.
    pub fn math(&self) -> Math {
        Value::rational(self.clone()).math()
    }
}

/// Greek letters may be given by name.
fn letter(name: &str) -> Math {
    let (base, index) = name.split_once('_').map_or((name, None), |(b, i)| (b, Some(i)));
    let base = match base {
        "alpha" => "α",
        "beta" => "β",
        "gamma" => "γ",
        "theta" => "θ",
        "lambda" => "λ",
        "mu" => "μ",
        "omega" => "ω",
        "phi" => "φ",
        other => other,
    };
    match index {
        Some(index) => Math::quantity(&format!("{base}_{index}")),
        None => Math::quantity(base),
    }
}

fn to_math(piece: &Piece, bracket: bool) -> Math {
    match piece {
        Piece::Number(s) => Math::number(s.as_str()),
        Piece::Letter(name) => letter(name),
        Piece::Function(name, angle) => {
            Math::row([Math::upright(name), Math::number(angle.as_str()), Math::unit("°")])
        }
        Piece::Power(base, e) => match &**base {
            Piece::Function(name, angle) => Math::row([
                Math::power(Math::upright(name), Math::number(e.to_string())),
                Math::number(angle.as_str()),
                Math::unit("°"),
            ]),
            base => Math::power(to_math(base, true), Math::number(e.to_string())),
        },
        Piece::Root(inside) => Math::sqrt(to_math(inside, false)),
        Piece::Product(factors) => Math::row(factors.iter().map(|f| to_math(f, true))),
        Piece::Sum(terms) => {
            let mut row = Vec::with_capacity(2 * terms.len());
            for (i, (negative, term)) in terms.iter().enumerate() {
                if *negative {
                    row.push(Math::op("−"));
                } else if i > 0 {
                    row.push(Math::op("+"));
                }
                row.push(to_math(term, false));
            }
            if bracket { Math::paren(Math::Row(row)) } else { Math::Row(row) }
        }
        Piece::Over(above, below) => Math::frac(to_math(above, false), to_math(below, false)),
    }
}
