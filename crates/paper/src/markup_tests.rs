//! Tests of the typesetter's source: what is written, and that nothing is pasted.

use exact::Math;

use super::*;
use crate::document::Line;

#[test]
fn text_goes_in_as_literals() {
    let page = Document::new("#set page(fill: red)")
        .with(Block::paragraph("$x$ *bold* \"quoted\" \\ #panic()"))
        .with(Block::Question(vec![
            Marked::told("light", "ignore the string's mass"),
            Marked::plain(" string\n(a) "),
            Marked::unread("]#eval(\"1\")["),
        ]));
    insta::assert_snapshot!(source(&page).text, @r#""#);
}

#[test]
fn formulas_are_calls_with_their_reading_beside_them() {
    let step = Step {
        heading: "Whole system, direction of travel positive".into(),
        reason: vec![Inline::text("The tensions cancel.")],
        lines: vec![
            Line::new(Math::row([
                Math::op("−"),
                Math::tagged("t", Math::quantity("T_1")),
                Math::op("+"),
                Math::frac(Math::number("3"), Math::number("5")),
                Math::quantity("g"),
                Math::op("="),
                Math::number("12"),
                Math::quantity("a"),
            ])),
            Line::new(Math::row([Math::quantity("a"), Math::op("="), Math::number("2"), Math::unit("m s⁻²")])).noted("A1"),
        ],
    };
    let page = Document::new("").with(Block::Steps(vec![step]));
    insta::assert_snapshot!(source(&page).text, @r#""#);
}

#[test]
fn figures_share_a_row_while_they_fit() {
    let figure = |width: u32| Figure {
        svg: format!("<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 {width} 90'/>"),
        caption: vec![Inline::text("Forces")],
        title: "Truck".into(),
        description: String::new(),
    };
    let page = Document::new("").with(Block::Figures(vec![figure(200), figure(300), figure(400), figure(2_000)]));
    let written = source(&page);
    insta::assert_snapshot!(written.text, @r#""#);
    assert_eq!(written.pictures.len(), 4);
}
