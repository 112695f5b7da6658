//! How a formula is written, apart from where: a small tree that the terminal,
//! MathML and the typesetter each render in their own way.
//!
//! Conventions follow ISO 80000-1: quantities italic, units and functions
//! upright, a thin space before a unit, negative powers in units.

/// A written formula or a piece of one.
///
/// ```
/// use exact::Math;
/// let line = Math::row([Math::quantity("T"), Math::op("="), Math::number("24"), Math::unit("N")]);
/// assert_eq!(line.plain(), "T = 24 N");
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Math {
    /// Digits exactly as they are to be shown: `0.75`.
    Number(String),
    /// A quantity's letter, italic: `a`, `T`, `μ`.
    Quantity(String),
    /// Upright letters: a function name, a word inside a formula.
    Upright(String),
    /// A unit, upright, set off by a thin space from what stands before it: `m s⁻²`.
    Unit(String),
    /// A relation or operation: `+`, `−`, `=`, `≤`, `×`, `⇒`.
    Op(String),
    /// A letter with a lower index: the tension `T₁`, the mass of A.
    Sub(Box<Math>, Box<Math>),
    /// A power.
    Power(Box<Math>, Box<Math>),
    /// A fraction.
    Frac(Box<Math>, Box<Math>),
    /// A square root.
    Sqrt(Box<Math>),
    /// Something in round brackets.
    Paren(Box<Math>),
    /// Pieces one after another; neighbours that are factors are read as a product.
    Row(Vec<Math>),
    /// A piece that belongs to a force, a fact or a phrase with this id, so
    /// that page and board can light up a term, its arrow and its phrase together.
    Tagged(String, Box<Math>),
}

impl Math {
    /// Digits as they are to be shown.
    pub fn number(digits: impl Into<String>) -> Math {
        Math::Number(digits.into())
    }
    /// An italic letter; `"T_1"` gives a lower index.
    pub fn quantity(letter: &str) -> Math {
        match letter.split_once('_') {
            Some((base, index)) if !base.is_empty() && !index.is_empty() => {
                let index = if index.chars().all(|c| c.is_ascii_digit()) {
                    Math::number(index)
                } else if index.chars().count() == 1 {
                    Math::Quantity(index.to_owned())
                } else {
                    Math::Upright(index.to_owned())
                };
                Math::Sub(Box::new(Math::Quantity(base.to_owned())), Box::new(index))
            }
            _ => Math::Quantity(letter.to_owned()),
        }
    }
    /// A relation or operation sign.
    pub fn op(sign: &str) -> Math {
        Math::Op(sign.to_owned())
    }
    /// A unit such as `m s⁻²`.
    pub fn unit(name: &str) -> Math {
        Math::Unit(name.to_owned())
    }
    /// An upright word or function name.
    pub fn upright(word: &str) -> Math {
        Math::Upright(word.to_owned())
    }
    /// Pieces one after another.
    pub fn row(pieces: impl IntoIterator<Item = Math>) -> Math {
        Math::Row(pieces.into_iter().collect())
    }
    /// A fraction.
    pub fn frac(over: Math, under: Math) -> Math {
        Math::Frac(Box::new(over), Box::new(under))
    }
    /// A square root.
    pub fn sqrt(inside: Math) -> Math {
        Math::Sqrt(Box::new(inside))
    }
    /// A power.
    pub fn power(base: Math, exponent: Math) -> Math {
        Math::Power(Box::new(base), Box::new(exponent))
    }
    /// Round brackets.
    pub fn paren(inside: Math) -> Math {
        Math::Paren(Box::new(inside))
    }
    /// Ties a piece to the force or fact with this id.
    pub fn tagged(id: impl Into<String>, inside: Math) -> Math {
        Math::Tagged(id.into(), Box::new(inside))
    }

    /// The formula as one line of Unicode text, for the terminal and for
    /// screen readers: `T − 24 = 12a`, `v² = 2as`, `2mg/5`, `3/5 g`.
    pub fn plain(&self) -> String {
        let mut out = String::new();
        self.write_plain(&mut out);
        out.truncate(out.trim_end().len());
        out
    }

    fn write_plain(&self, out: &mut String) {
        match self {
            Math::Number(s) => out.push_str(s),
            Math::Quantity(s) => out.push_str(s),
            Math::Upright(s) => {
                if out.chars().next_back().is_some_and(|c| c.is_alphanumeric() || c == ')' || c == '°') {
                    out.push(' ');
                }
                out.push_str(s);
                if s.chars().count() > 1 {
                    out.push(' ');
                }
            }
            Math::Unit(s) => {
                if !s.starts_with('°') {
                    out.push(' ');
                }
                out.push_str(s);
            }
            Math::Op(s) => {
                let leading = out.is_empty() || out.ends_with('(') || out.ends_with(' ');
                if leading && (s == "−" || s == "+") {
                    out.push_str(s);
                } else {
                    if !out.ends_with(' ') && !out.is_empty() {
                        out.push(' ');
                    }
                    out.push_str(s);
                    out.push(' ');
                }
            }
            Math::Sub(base, index) => {
                base.write_plain(out);
                let index = index.plain();
                match index.chars().map(subscript).collect::<Option<String>>() {
                    Some(low) => out.push_str(&low),
                    None => {
                        out.push('_');
                        out.push_str(index.trim());
                    }
                }
            }
            Math::Power(base, exponent) => {
                write_operand(base, out);
                let exponent = exponent.plain();
                match exponent.chars().map(superscript).collect::<Option<String>>() {
                    Some(high) => out.push_str(&high),
                    None => {
                        out.push_str("^(");
                        out.push_str(exponent.trim());
                        out.push(')');
                    }
                }
            }
            Math::Frac(over, under) => {
                // After a digit a fraction would read as part of a mixed number.
                let mixed = out.ends_with(|c: char| c.is_ascii_digit());
                if mixed {
                    out.push('(');
                } else if out.ends_with(char::is_alphanumeric) {
                    out.push(' ');
                }
                if over.is_product() {
                    over.write_plain(out);
                } else {
                    write_operand(over, out);
                }
                out.push('/');
                write_operand(under, out);
                if mixed {
                    out.push(')');
                }
            }
            Math::Sqrt(inside) => {
                out.push('√');
                write_operand(inside, out);
            }
            Math::Paren(inside) => {
                out.push('(');
                inside.write_plain(out);
                out.push(')');
            }
            Math::Row(pieces) => {
                for (i, piece) in pieces.iter().enumerate() {
                    let after_fraction = i > 0
                        && matches!(pieces.get(i - 1).map(Math::untagged), Some(Math::Frac(..)))
                        && !matches!(piece.untagged(), Math::Op(_) | Math::Unit(_));
                    // m_A g, so that the index does not swallow the next letter.
                    let after_index = i > 0
                        && pieces.get(i - 1).is_some_and(Math::ends_in_word_index)
                        && !matches!(piece.untagged(), Math::Op(_) | Math::Unit(_));
                    if after_fraction || after_index {
                        out.push(' ');
                    }
                    piece.write_plain(out);
                }
            }
            Math::Tagged(_, inside) => inside.write_plain(out),
        }
    }

    /// Does the piece end with a lower index that has to be written out, as in `m_A`?
    fn ends_in_word_index(&self) -> bool {
        match self.untagged() {
            Math::Sub(_, index) => index.plain().chars().any(|c| subscript(c).is_none()),
            Math::Row(pieces) => pieces.last().is_some_and(Math::ends_in_word_index),
            _ => false,
        }
    }

    /// The piece itself, without the ties to forces and facts around it.
    pub fn untagged(&self) -> &Math {
        let mut piece = self;
        while let Math::Tagged(_, inside) = piece {
            piece = inside;
        }
        piece
    }
}

impl Math {
    /// Whether it is letters, digits and brackets side by side, which a bar or a
    /// stroke below takes as a whole: `2mg/5`.
    fn is_product(&self) -> bool {
        match self.untagged() {
            Math::Row(pieces) => pieces.iter().all(Math::is_product),
            Math::Op(_) | Math::Frac(..) | Math::Upright(_) | Math::Unit(_) => false,
            _ => true,
        }
    }
}

fn write_operand(operand: &Math, out: &mut String) {
    let simple = match operand.untagged() {
        Math::Row(pieces) => pieces.len() == 1,
        Math::Frac(..) => false,
        _ => true,
    };
    if simple {
        operand.write_plain(out);
    } else {
        out.push('(');
        operand.write_plain(out);
        out.push(')');
    }
}

fn subscript(c: char) -> Option<char> {
    char::from_digit(c.to_digit(10)?, 10).and_then(|d| "₀₁₂₃₄₅₆₇₈₉".chars().nth(d.to_digit(10)? as usize))
}

fn superscript(c: char) -> Option<char> {
    match c {
        '−' | '-' => Some('⁻'),
        _ => "⁰¹²³⁴⁵⁶⁷⁸⁹".chars().nth(c.to_digit(10)? as usize),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn formulas_read_as_a_line_of_text() {
        let line = Math::row([
            Math::quantity("T"),
            Math::op("−"),
            Math::number("24"),
            Math::op("="),
            Math::row([Math::number("12"), Math::quantity("a")]),
        ]);
        assert_eq!(line.plain(), "T − 24 = 12a");
        let speed = Math::row([
            Math::power(Math::quantity("v"), Math::number("2")),
            Math::op("="),
            Math::number("2"),
            Math::quantity("a"),
            Math::quantity("s"),
        ]);
        assert_eq!(speed.plain(), "v² = 2as");
        assert_eq!(Math::quantity("T_1").plain(), "T₁");
        assert_eq!(Math::row([Math::op("−"), Math::quantity("a")]).plain(), "−a");
    }

    #[test]
    fn brackets_stand_where_they_are_needed() {
        let product = || Math::row([Math::number("2"), Math::quantity("m"), Math::quantity("g")]);
        let five = || Math::number("5");
        assert_eq!(Math::frac(product(), five()).plain(), "2mg/5");
        assert_eq!(Math::frac(five(), product()).plain(), "5/(2mg)");
        assert_eq!(Math::power(product(), Math::number("2")).plain(), "(2mg)²");
        let sum = Math::row([Math::quantity("u"), Math::op("+"), Math::quantity("v")]);
        assert_eq!(Math::frac(sum, Math::number("2")).plain(), "(u + v)/2");
        assert_eq!(Math::row([five(), Math::frac(Math::number("3"), Math::number("4"))]).plain(), "5(3/4)");
        let sine = Math::row([Math::number("2"), Math::upright("sin"), Math::quantity("α")]);
        assert_eq!(Math::frac(sine, five()).plain(), "(2 sin α)/5");
        assert_eq!(Math::upright("max").plain(), "max");
    }
}
