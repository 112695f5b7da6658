//! Formulas as MathML (MathML Core), readable without a script or a font of ours.

use exact::Math;

use crate::document::Line;
use crate::escape::markup_text;
use crate::setting::{Atom, Role, relation, set};

/// A formula within a line of text, as a `<math>` element.
///
/// The element reads as [`Math::plain`] to a screen reader that has no
/// mathematics of its own. A piece tied to a force, fact or phrase carries its id in `data-tie`.
///
/// ```
/// use exact::Math;
/// assert_eq!(
///     paper::mathml(&Math::quantity("T")),
///     r#"<math alttext="T" aria-label="T"><mi>T</mi></math>"#,
/// );
/// ```
pub fn mathml(formula: &Math) -> String {
    let mut out = open(&formula.plain(), false);
    row(&set(formula), &mut out);
    out.push_str("</math>");
    out
}

/// Lines of working one under another, their relation signs in line, as one
/// `<math display="block">` with a row for each line (`data-line` counts from 1).
pub fn mathml_block(lines: &[Line]) -> String {
    let mut out = open(&alternative(lines), true);
    out.push_str("<mtable displaystyle=\"true\" columnalign=\"right left left\">");
    let noted = lines.iter().any(|line| !line.note.is_empty());
    for (i, line) in lines.iter().enumerate() {
        let atoms = set(&line.formula);
        let (left, right) = atoms.split_at(relation(&atoms).unwrap_or(0));
        out.push_str(&format!("<mtr data-line=\"{}\"><mtd class=\"left\">", i + 1));
        row(left, &mut out);
        out.push_str("</mtd><mtd class=\"right\">");
        row(right, &mut out);
        out.push_str("</mtd>");
        if noted {
            out.push_str(&format!("<mtd class=\"note\"><mtext>{}</mtext></mtd>", markup_text(&line.note)));
        }
        out.push_str("</mtr>");
    }
    out.push_str("</mtable></math>");
    out
}

/// Lines of working as one sentence of text.
pub(crate) fn alternative(lines: &[Line]) -> String {
    let mut said = Vec::new();
    for line in lines {
        let formula = line.formula.plain();
        if line.note.is_empty() {
            said.push(formula);
        } else {
            said.push(format!("{formula} ({})", line.note));
        }
    }
    said.join("; ")
}

fn open(plain: &str, block: bool) -> String {
    let plain = markup_text(plain.trim());
    let display = if block { " display=\"block\"" } else { "" };
    format!("<math{display} alttext=\"{plain}\" aria-label=\"{plain}\">")
}

fn row(atoms: &[Atom], out: &mut String) {
    for (place, atom) in atoms.iter().enumerate() {
        write(atom, place == 0, out);
    }
}

/// Pieces where MathML wants exactly one element.
fn one(atoms: &[Atom], out: &mut String) {
    match atoms {
        [atom] => write(atom, true, out),
        _ => {
            out.push_str("<mrow>");
            row(atoms, out);
            out.push_str("</mrow>");
        }
    }
}

fn write(atom: &Atom, first: bool, out: &mut String) {
    match atom {
        Atom::Number(digits) => element("mn", "", digits, out),
        // One letter is italic by itself; several need telling.
        Atom::Quantity(letter) if letter.chars().count() > 1 => {
            element("mi", " class=\"letters\"", letter, out)
        }
        Atom::Quantity(letter) => element("mi", "", letter, out),
        Atom::Word(word) if word.chars().any(char::is_whitespace) => element("mtext", "", word, out),
        Atom::Word(word) => element("mi", upright(word), word, out),
        Atom::Unit(name) if name.chars().count() > 1 => element("mi", " class=\"unit\"", name, out),
        Atom::Unit(name) => element("mi", " class=\"unit\" mathvariant=\"normal\"", name, out),
        Atom::Sign(sign, role) => {
            // MathML guesses a sign's form from its place in the row; say it where the guess would be wrong.
            let form = match role {
                Role::Prefix if !first => " form=\"prefix\"",
                Role::Binary | Role::Relation | Role::Therefore if first => " form=\"infix\"",
                _ => "",
            };
            element("mo", form, sign, out);
        }
        Atom::Script { base, index, power } => {
            let name = match (index, power) {
                (Some(_), Some(_)) => "msubsup",
                (Some(_), None) => "msub",
                (None, _) => "msup",
            };
            out.push_str(&format!("<{name}>"));
            one(base, out);
            for script in [index, power].into_iter().flatten() {
                one(script, out);
            }
            out.push_str(&format!("</{name}>"));
        }
        Atom::Frac(over, under) => {
            out.push_str("<mfrac>");
            one(over, out);
            one(under, out);
            out.push_str("</mfrac>");
        }
        Atom::Root(inside) => {
            out.push_str("<msqrt>");
            row(inside, out);
            out.push_str("</msqrt>");
        }
        Atom::Paren(inside) => {
            // Brackets grow round what is tall; round a line of letters they keep their size.
            let size = if inside.iter().any(is_tall) { "" } else { " stretchy=\"false\"" };
            out.push_str(&format!("<mrow><mo{size}>(</mo>"));
            row(inside, out);
            out.push_str(&format!("<mo{size}>)</mo></mrow>"));
        }
        Atom::Tied(id, inside) => {
            out.push_str(&format!("<mrow data-tie=\"{}\">", markup_text(id)));
            row(inside, out);
            out.push_str("</mrow>");
        }
        Atom::Thin => out.push_str("<mspace width=\"0.1667em\"></mspace>"),
        Atom::Times => out.push_str("<mo>\u{2062}</mo>"),
        Atom::Apply => out.push_str("<mo>\u{2061}</mo>"),
    }
}

fn is_tall(atom: &Atom) -> bool {
    match atom {
        Atom::Frac(..) | Atom::Root(_) => true,
        Atom::Paren(inside) | Atom::Tied(_, inside) => inside.iter().any(is_tall),
        Atom::Script { base, power, .. } => base.iter().chain(power.iter().flatten()).any(is_tall),
        _ => false,
    }
}

fn upright(word: &str) -> &'static str {
    if word.chars().count() > 1 { "" } else { " mathvariant=\"normal\"" }
}

fn element(name: &str, attributes: &str, text: &str, out: &mut String) {
    out.push_str(&format!("<{name}{attributes}>{}</{name}>", markup_text(text)));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn terms_carry_their_ties() {
        let line = Math::row([
            Math::tagged("t1", Math::quantity("T_1")),
            Math::op("−"),
            Math::number("24"),
            Math::op("="),
            Math::row([Math::number("12"), Math::quantity("a")]),
        ]);
        insta::assert_snapshot!(mathml(&line), @r#"<math alttext="T₁ − 24 = 12a" aria-label="T₁ − 24 = 12a"><mrow data-tie="t1"><msub><mi>T</mi><mn>1</mn></msub></mrow><mo>−</mo><mn>24</mn><mo>=</mo><mn>12</mn><mo>⁢</mo><mi>a</mi></math>"#);
    }

    #[test]
    fn fractions_roots_powers_and_units() {
        let speed = Math::row([
            Math::power(Math::quantity("v_1"), Math::number("2")),
            Math::op("="),
            Math::frac(Math::number("3"), Math::number("5")),
            Math::sqrt(Math::row([Math::number("2"), Math::quantity("g")])),
            Math::upright("sin"),
            Math::quantity("θ"),
            Math::unit("m s⁻¹"),
        ]);
        insta::assert_snapshot!(mathml(&speed), @r#"<math alttext="v₁² = 3/5 √(2g) sin θ m s⁻¹" aria-label="v₁² = 3/5 √(2g) sin θ m s⁻¹"><msubsup><mi>v</mi><mn>1</mn><mn>2</mn></msubsup><mo>=</mo><mfrac><mn>3</mn><mn>5</mn></mfrac><mo>⁢</mo><msqrt><mn>2</mn><mo>⁢</mo><mi>g</mi></msqrt><mspace width="0.1667em"></mspace><mi>sin</mi><mo>⁡</mo><mspace width="0.1667em"></mspace><mi>θ</mi><mspace width="0.1667em"></mspace><mi class="unit" mathvariant="normal">m</mi><mspace width="0.1667em"></mspace><msup><mi class="unit" mathvariant="normal">s</mi><mrow><mo>−</mo><mn>1</mn></mrow></msup></math>"#);
    }

    #[test]
    fn a_line_that_carries_on_stands_under_the_relation_above() {
        let lines = [
            Line::new(Math::row([
                Math::quantity("a"),
                Math::op("="),
                Math::frac(Math::number("6"), Math::number("8")),
            ])),
            Line::new(Math::row([Math::op("="), Math::number("0.75"), Math::unit("m s⁻²")])).noted("A1"),
        ];
        insta::assert_snapshot!(mathml_block(&lines), @r#"<math display="block" alttext="a = 6/8; = 0.75 m s⁻² (A1)" aria-label="a = 6/8; = 0.75 m s⁻² (A1)"><mtable displaystyle="true" columnalign="right left left"><mtr data-line="1"><mtd class="left"><mi>a</mi></mtd><mtd class="right"><mo form="infix">=</mo><mfrac><mn>6</mn><mn>8</mn></mfrac></mtd><mtd class="note"><mtext></mtext></mtd></mtr><mtr data-line="2"><mtd class="left"></mtd><mtd class="right"><mo form="infix">=</mo><mn>0.75</mn><mspace width="0.1667em"></mspace><mi class="unit" mathvariant="normal">m</mi><mspace width="0.1667em"></mspace><msup><mi class="unit" mathvariant="normal">s</mi><mrow><mo>−</mo><mn>2</mn></mrow></msup></mtd><mtd class="note"><mtext>A1</mtext></mtd></mtr></mtable></math>"#);
    }

    #[test]
    fn what_users_write_stays_text() {
        insta::assert_snapshot!(mathml(&Math::quantity("<i>&")), @r#"<math alttext="&lt;i&gt;&amp;" aria-label="&lt;i&gt;&amp;"><mi class="letters">&lt;i&gt;&amp;</mi></math>"#);
    }
}
