//! A page with one of everything.

use exact::Math;
use paper::{Align, Block, Document, Entry, Figure, Inline, Line, Marked, Step, Table};

fn text(text: &str) -> Inline {
    Inline::text(text)
}

fn equation(left: Vec<Math>, right: Vec<Math>) -> Math {
    Math::row(left.into_iter().chain([Math::op("=")]).chain(right))
}

fn n(digits: &str) -> Math {
    Math::number(digits)
}

fn q(letter: &str) -> Math {
    Math::quantity(letter)
}

/// A truck of mass 800 kg pulls a van of mass 400 kg along a level quay.
pub(crate) fn document() -> Document {
    Document::new("The goods train at Marram Quay")
        .with(question())
        .with(Block::Figures(vec![
            figure("Truck", "800", 300),
            figure("Van", "400", 260),
        ]))
        .with(Block::heading(1, "Part (a)"))
        .with(Block::Steps(vec![whole_system(), van()]))
        .with(Block::Answer {
            label: "(a)".into(),
            body: vec![text("The acceleration is "), Inline::value("0.75", "m s⁻²"), text(".")],
        })
        .with(Block::Answer {
            label: "(b)".into(),
            body: vec![text("The tension in the tow-bar is "), Inline::value("500", "N"), text(".")],
        })
        .with(Block::Aside {
            heading: "Assumed".into(),
            body: vec![
                vec![text("The tow-bar is light and does not bend; it can pull or push.")],
                vec![Inline::math(equation(vec![q("g")], vec![n("9.8"), Math::unit("m s⁻²")])), text(" was not needed.")],
            ],
        })
        .with(Block::heading(1, "What the words mean"))
        .with(Block::Readings(vec![
            Entry::new("level", "no component of weight along the line of motion"),
            Entry { term: vec![Inline::math(q("T_1"))], says: vec![text("the tension in the tow-bar, in newtons")] },
        ]))
        .with(marks())
        .with(Block::Rule)
        .with(Block::heading(1, "Your turn"))
        .with(Block::Part {
            label: "(a)".into(),
            body: vec![text("Find the tension in the tow-bar when the driving force is halved and the resistances stay as they are.")],
            marks: "(3 marks)".into(),
        })
        .with(Block::Space(4))
        .with(Block::List {
            numbered: false,
            items: vec![vec![text("Draw the forces first.")], vec![Inline::Emph("Then".into()), text(" choose the system.")]],
        })
}

fn question() -> Block {
    Block::Question(vec![
        Marked::plain("A truck of mass "),
        Marked::told("800 kg", "the mass of the truck"),
        Marked::plain(" pulls a van of mass "),
        Marked::told("400 kg", "the mass of the van"),
        Marked::plain(" along a "),
        Marked::told("straight level", "the weights have no component along the line of motion"),
        Marked::plain(" siding "),
        Marked::scene("beside the sea wall"),
        Marked::plain(" by means of a "),
        Marked::told(
            "light",
            "the mass of the tow-bar is ignored, so the force at both its ends is the same",
        )
        .tied("t1"),
        Marked::plain(" horizontal tow-bar "),
        Marked::unread("painted in the colours of the harbour board"),
        Marked::plain(". The engine exerts a driving force of "),
        Marked::told("1500 N", "the driving force on the truck"),
        Marked::plain(" and the resistances are "),
        Marked::told("400 N and 200 N", "the resistances to the truck and to the van, in this order"),
        Marked::plain(". Find\n(a) the acceleration of the train,\n(b) the tension in the tow-bar."),
    ])
}

fn whole_system() -> Step {
    Step {
        heading: "Whole system, direction of travel positive".into(),
        reason: vec![
            text("Inside the whole system the tensions "),
            Inline::math(q("T_1")),
            text(" cancel, so only "),
            Inline::math(q("a")),
            text(" is unknown."),
        ],
        lines: vec![
            Line::new(equation(
                vec![
                    Math::tagged("drive", q("D")),
                    Math::tagged("r1", Math::row([Math::op("−"), q("R_1")])),
                    Math::op("−"),
                    q("R_2"),
                ],
                vec![Math::paren(Math::row([q("m_1"), Math::op("+"), q("m_2")])), q("a")],
            ))
            .noted("M1"),
            Line::new(equation(
                vec![n("1500"), Math::op("−"), n("400"), Math::op("−"), n("200")],
                vec![Math::paren(Math::row([n("800"), Math::op("+"), n("400")])), q("a")],
            )),
            Line::new(equation(
                vec![q("a")],
                vec![Math::frac(n("900"), n("1200")), Math::op("="), n("0.75"), Math::unit("m s⁻²")],
            ))
            .noted("A1"),
        ],
    }
}

fn van() -> Step {
    Step {
        heading: "The van alone, direction of travel positive".into(),
        reason: vec![text(
            "It is pulled by the tow-bar and by nothing else, so its equation gives the tension at once.",
        )],
        lines: vec![
            Line::new(equation(
                vec![Math::tagged("t1", q("T_1")), Math::op("−"), q("R_2")],
                vec![q("m_2"), q("a")],
            )),
            Line::new(equation(
                vec![q("T_1"), Math::op("−"), n("200")],
                vec![n("400"), Math::op("×"), n("0.75")],
            )),
            Line::new(equation(vec![q("T_1")], vec![n("500"), Math::unit("N")])),
            Line::new(equation(
                vec![
                    Math::power(q("v_2"), n("2")),
                    Math::op("+"),
                    n("5"),
                    q("g"),
                    Math::upright("sin"),
                    q("θ"),
                ],
                vec![
                    Math::op("−"),
                    n("2"),
                    q("a"),
                    q("s"),
                    Math::op("+"),
                    Math::sqrt(Math::row([n("3"), q("μ"), q("R")])),
                ],
            )),
        ],
    }
}

fn marks() -> Block {
    let row = |line: Math, mark: &str, says: &str| {
        vec![vec![Inline::math(line)], vec![Inline::Strong(mark.into())], vec![text(says)]]
    };
    Block::Table(Table {
        caption: "Mark scheme, part (a)".into(),
        head: vec!["Line".into(), "Mark".into(), "For".into()],
        align: vec![Align::Start, Align::Centre, Align::Start],
        rows: vec![
            row(
                equation(
                    vec![n("1500"), Math::op("−"), n("400"), Math::op("−"), n("200")],
                    vec![n("1200"), q("a")],
                ),
                "M1",
                "the equation of motion of the whole system, with all its forces",
            ),
            row(
                equation(vec![q("a")], vec![n("0.75"), Math::unit("m s⁻²")]),
                "A1",
                "the value; follow through is allowed",
            ),
        ],
    })
}

fn figure(body: &str, mass: &str, width: u32) -> Figure {
    let middle = width / 2;
    let right = width - 10;
    Figure {
        svg: format!(
            r##"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} 110" font-family="Libertinus Serif, serif" font-size="16">
<defs><marker id="tip" viewBox="0 0 8 8" refX="7" refY="4" markerWidth="8" markerHeight="8" orient="auto"><path d="M0 0L8 4L0 8z" fill="#0072b2"/></marker></defs>
<rect x="{}" y="40" width="80" height="40" fill="none" stroke="#1b1b1b" stroke-width="1.5"/>
<text x="{middle}" y="65" text-anchor="middle">{mass} kg</text>
<line x1="{}" y1="60" x2="{right}" y2="60" stroke="#0072b2" stroke-width="2" marker-end="url(#tip)" data-tie="t1"/>
<text x="{right}" y="50" text-anchor="end" font-style="italic">T</text>
<line x1="5" y1="80.5" x2="{}" y2="80.5" stroke="#555555"/>
</svg>"##,
            middle - 40,
            middle + 40,
            width - 5
        ),
        caption: vec![
            text("The forces on the "),
            text(&body.to_lowercase()),
            text(" along the line of motion."),
        ],
        title: format!("Forces on the {}", body.to_lowercase()),
        description: format!("A block of mass {mass} kg on a level line; one arrow to the right, T."),
    }
}
