//! How a formula is set, whichever output it goes to: which sign is a relation
//! and which a sign of a number, where a thin space stands, where factors meet.
//!
//! MathML and the typesetter then each write the same [`Atom`]s in their own way.

use exact::Math;

use crate::escape::one_line;

/// A piece of a formula with all questions of spacing settled.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Atom {
    /// Digits.
    Number(String),
    /// A quantity: italic.
    Quantity(String),
    /// A word or function name: upright.
    Word(String),
    /// One unit symbol: upright.
    Unit(String),
    /// A sign, and what it does here.
    Sign(String, Role),
    /// A base with a lower index, a power, or both.
    Script { base: Vec<Atom>, index: Option<Vec<Atom>>, power: Option<Vec<Atom>> },
    /// A fraction.
    Frac(Vec<Atom>, Vec<Atom>),
    /// A square root.
    Root(Vec<Atom>),
    /// Round brackets.
    Paren(Vec<Atom>),
    /// A piece tied to a force, fact or phrase.
    Tied(String, Vec<Atom>),
    /// A thin space (one sixth of an em).
    Thin,
    /// Factors meet here: a product, nothing to be seen.
    Times,
    /// A function meets its argument here: nothing to be seen.
    Apply,
}

/// What a sign does where it stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Role {
    /// Compares what stands on both sides: `=`, `<`.
    Relation,
    /// Leads from one statement to the next: `⇒`, `∴`.
    Therefore,
    /// Joins two terms: `+`, `×`.
    Binary,
    /// Belongs to the term after it: the minus of `−a`.
    Prefix,
    /// A comma or a semicolon.
    Comma,
    /// Any other sign.
    Other,
}

/// Formulas nested deeper than this are written as a line of text from there on.
const DEEPEST: usize = 32;

/// Settles the pieces of a formula.
pub(crate) fn set(formula: &Math) -> Vec<Atom> {
    let mut setter = Setter { out: Vec::new(), before: Before::Nothing };
    setter.piece(formula, 0);
    setter.out
}

/// Where a line is to be lined up with the lines above: before its first
/// relation sign. `None` when it has none at its top level.
pub(crate) fn relation(line: &[Atom]) -> Option<usize> {
    line.iter().position(|atom| matches!(atom, Atom::Sign(_, Role::Relation)))
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Before {
    Nothing,
    Factor,
    Word,
    Sign,
}

struct Setter {
    out: Vec<Atom>,
    before: Before,
}

fn inside(formula: &Math, depth: usize) -> Vec<Atom> {
    let mut setter = Setter { out: Vec::new(), before: Before::Nothing };
    setter.piece(formula, depth + 1);
    setter.out
}

impl Setter {
    fn piece(&mut self, piece: &Math, depth: usize) {
        if depth > DEEPEST {
            self.factor(Atom::Word(one_line(&piece.plain())));
            return;
        }
        match piece {
            Math::Number(digits) => self.factor(Atom::Number(one_line(digits))),
            Math::Quantity(letter) => self.factor(Atom::Quantity(one_line(letter))),
            Math::Upright(word) => self.word(one_line(word)),
            Math::Unit(name) => self.unit(&one_line(name)),
            Math::Op(sign) => self.sign(one_line(sign)),
            Math::Sub(base, index) => {
                let script = Atom::Script {
                    base: inside(base, depth),
                    index: Some(inside(index, depth)),
                    power: None,
                };
                self.factor(script);
            }
            Math::Power(base, exponent) => {
                let power = Some(inside(exponent, depth));
                let mut base = inside(base, depth);
                let script = match base.pop() {
                    // The index and the power of one letter stand one above the other.
                    Some(Atom::Script { base: letter, index, power: None }) if base.is_empty() => {
                        Atom::Script { base: letter, index, power }
                    }
                    last => {
                        base.extend(last);
                        Atom::Script { base, index: None, power }
                    }
                };
                self.factor(script);
            }
            Math::Frac(over, under) => self.factor(Atom::Frac(inside(over, depth), inside(under, depth))),
            Math::Sqrt(radicand) => self.factor(Atom::Root(inside(radicand, depth))),
            Math::Paren(inner) => self.factor(Atom::Paren(inside(inner, depth))),
            Math::Row(pieces) => {
                for piece in pieces {
                    self.piece(piece, depth + 1);
                }
            }
            Math::Tagged(id, inner) => {
                // The tie must not change the spacing: what came before is
                // carried in, what came last is carried out.
                if matches!(inner.untagged(), Math::Op(_) | Math::Unit(_)) {
                    self.tie(id, inner, depth);
                } else {
                    self.meet_product(inner);
                    self.tie(id, inner, depth);
                }
            }
        }
    }

    fn tie(&mut self, id: &str, inner: &Math, depth: usize) {
        let outer = std::mem::take(&mut self.out);
        self.piece(inner, depth + 1);
        let tied = std::mem::replace(&mut self.out, outer);
        self.out.push(Atom::Tied(id.to_owned(), tied));
    }

    /// The product sign before a tied factor stands outside the tie.
    fn meet_product(&mut self, inner: &Math) {
        let mut first = inner.untagged();
        while let Math::Row(pieces) = first {
            match pieces.first() {
                Some(piece) => first = piece.untagged(),
                None => return,
            }
        }
        if !matches!(first, Math::Op(_) | Math::Unit(_) | Math::Upright(_)) {
            self.meet();
            self.before = Before::Nothing;
        }
    }

    fn meet(&mut self) {
        match self.before {
            Before::Factor => self.out.push(Atom::Times),
            Before::Word => self.out.extend([Atom::Apply, Atom::Thin]),
            Before::Nothing | Before::Sign => {}
        }
    }

    fn factor(&mut self, atom: Atom) {
        self.meet();
        self.out.push(atom);
        self.before = Before::Factor;
    }

    fn word(&mut self, word: String) {
        if matches!(self.before, Before::Factor | Before::Word) {
            self.out.push(Atom::Thin);
        }
        // A single upright letter is a symbol, several are a function or a word.
        self.before = if word.chars().count() > 1 { Before::Word } else { Before::Factor };
        self.out.push(Atom::Word(word));
    }

    fn unit(&mut self, name: &str) {
        let mut first = true;
        for symbol in name.split_whitespace() {
            if !(first && (self.before == Before::Nothing || symbol.starts_with('°'))) {
                self.out.push(Atom::Thin);
            }
            first = false;
            let letters = symbol.trim_end_matches(is_raised);
            let power: String = symbol.chars().skip(letters.chars().count()).filter_map(lowered).collect();
            let unit = vec![Atom::Unit(letters.to_owned())];
            if power.is_empty() {
                self.out.extend(unit);
            } else {
                let mut exponent = Vec::new();
                if power.starts_with('−') {
                    exponent.push(Atom::Sign("−".to_owned(), Role::Prefix));
                }
                exponent.push(Atom::Number(power.trim_start_matches('−').to_owned()));
                self.out.push(Atom::Script { base: unit, index: None, power: Some(exponent) });
            }
        }
        self.before = Before::Factor;
    }

    fn sign(&mut self, sign: String) {
        let role = match sign.trim() {
            "=" | "<" | ">" | "≤" | "≥" | "≠" | "≈" | "≡" | "∝" | "→" => Role::Relation,
            "⇒" | "∴" | "⟹" | "⇔" | "∵" => Role::Therefore,
            "+" | "−" | "-" | "±" | "∓" => match self.before {
                Before::Factor | Before::Word => Role::Binary,
                Before::Nothing | Before::Sign => Role::Prefix,
            },
            "×" | "÷" | "·" | "/" | "∗" => Role::Binary,
            "," | ";" => Role::Comma,
            _ => Role::Other,
        };
        self.out.push(Atom::Sign(sign.trim().to_owned(), role));
        self.before = Before::Sign;
    }
}

fn is_raised(c: char) -> bool {
    lowered(c).is_some()
}

/// The ordinary form of a raised digit or sign.
fn lowered(c: char) -> Option<char> {
    "⁰¹²³⁴⁵⁶⁷⁸⁹⁻".chars().zip("0123456789−".chars()).find(|(raised, _)| *raised == c).map(|(_, plain)| plain)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn number(s: &str) -> Atom {
        Atom::Number(s.into())
    }
    fn letter(s: &str) -> Atom {
        Atom::Quantity(s.into())
    }
    fn sign(s: &str, role: Role) -> Atom {
        Atom::Sign(s.into(), role)
    }

    #[test]
    fn a_minus_is_read_from_what_stands_before_it() {
        let line = Math::row([Math::quantity("x"), Math::op("="), Math::op("−"), Math::quantity("a")]);
        assert_eq!(
            set(&line),
            [letter("x"), sign("=", Role::Relation), sign("−", Role::Prefix), letter("a")]
        );
        let tied = Math::row([
            Math::quantity("D"),
            Math::tagged("r", Math::row([Math::op("−"), Math::number("700")])),
        ]);
        let minus = Atom::Tied("r".into(), vec![sign("−", Role::Binary), number("700")]);
        assert_eq!(set(&tied), [letter("D"), minus]);
    }

    #[test]
    fn a_tied_factor_still_makes_a_product() {
        let product = Math::row([Math::number("12"), Math::tagged("a", Math::quantity("a"))]);
        assert_eq!(set(&product), [number("12"), Atom::Times, Atom::Tied("a".into(), vec![letter("a")])]);
    }

    #[test]
    fn units_are_set_symbol_by_symbol() {
        let speed = Math::row([Math::number("0.75"), Math::unit("m s⁻²")]);
        let power = vec![sign("−", Role::Prefix), number("2")];
        let second = Atom::Script { base: vec![Atom::Unit("s".into())], index: None, power: Some(power) };
        assert_eq!(set(&speed), [number("0.75"), Atom::Thin, Atom::Unit("m".into()), Atom::Thin, second]);
        // ISO 80000-1: no space between a number and the degree sign of a plane angle.
        let angle = Math::row([Math::number("30"), Math::unit("°")]);
        assert_eq!(set(&angle), [number("30"), Atom::Unit("°".into())]);
    }

    #[test]
    fn a_line_is_aligned_at_its_first_comparison_and_not_at_its_arrow() {
        let line = Math::row([Math::op("⇒"), Math::quantity("a"), Math::op("="), Math::number("2")]);
        assert_eq!(relation(&set(&line)), Some(2));
    }

    #[test]
    fn a_formula_without_end_is_cut_short_into_text() {
        let mut deep = Math::quantity("x");
        for _ in 0..2_000 {
            deep = Math::paren(deep);
        }
        let mut atoms = set(&deep);
        let mut depth = 0;
        while let Some(Atom::Paren(inner)) = atoms.pop() {
            atoms = inner;
            depth += 1;
        }
        assert_eq!(depth, DEEPEST + 1);
    }
}
