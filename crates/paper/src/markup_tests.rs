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
    insta::assert_snapshot!(source(&page).text, @r##"
#import "look.typ": *
#show: leaf.with(title: "#set page(fill: red)", shown: true, lang: "en", region: "GB")

#par[#"$x$ *bold* \"quoted\" \\ #panic()"]

#par[#told("light")#ref("1")#" string"]

#par[#label("(a)")#""#unread("]#eval(\"1\")[")#flag("unread")]

#notes(
  { "“light”: "; "ignore the string's mass" },
)
"##);
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
            Line::new(Math::row([
                Math::quantity("a"),
                Math::op("="),
                Math::number("2"),
                Math::unit("m s⁻²"),
            ]))
            .noted("A1"),
        ],
    };
    let page = Document::new("").with(Block::Steps(vec![step]));
    insta::assert_snapshot!(source(&page).text, @r##"
#import "look.typ": *
#show: leaf.with(title: "Untitled", shown: false, lang: "en", region: "GB")

#step("1", 1, "Whole system, direction of travel positive")
#reason[#"The tensions cancel."]
#working("−T₁ + 3/5 g = 12a; a = 2 m s⁻² (A1)", $class("unary", \u{2212})attach(italic(T), b: "1")class("binary", \u{2b})frac("3", "5")italic(g)&class("relation", \u{3d})"12"italic(a)&&#h(2.5em)#text(font: "Libertinus Serif", fill: quiet, "") \
  italic(a)&class("relation", \u{3d})"2"#h(0.1667em)upright(m)#h(0.1667em)attach(upright(s), t: class("unary", \u{2212})"2")&&#h(2.5em)#text(font: "Libertinus Serif", fill: quiet, "A1")$)
"##);
}

#[test]
fn figures_share_a_row_while_they_fit() {
    let figure = |width: u32| Figure {
        svg: format!("<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 {width} 90'/>"),
        caption: vec![Inline::text("Forces")],
        title: "Truck".into(),
        description: String::new(),
    };
    let page =
        Document::new("").with(Block::Figures(vec![figure(200), figure(300), figure(400), figure(2_000)]));
    let written = source(&page);
    insta::assert_snapshot!(written.text, @r#"
#import "look.typ": *
#show: leaf.with(title: "Untitled", shown: false, lang: "en", region: "GB")

#side-by-side(
  (130.00pt, 175.50pt,),
  picture("figure-1.svg", 117.00pt, "Truck", [#"Forces"]),
  picture("figure-2.svg", 175.50pt, "Truck", [#"Forces"]),
)

#picture("figure-3.svg", 234.00pt, "Truck", [#"Forces"])

#picture("figure-4.svg", 445.04pt, "Truck", [#"Forces"])
"#);
    assert_eq!(written.pictures.len(), 4);
}
