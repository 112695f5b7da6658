//! Both outputs of one document, read back with general readers of HTML/XML and PDF.

#[path = "../examples/leaf/sample.rs"]
mod sample;

use exact::Math;
use lopdf::{Document as Pdf, Object};
use paper::{
    Align, Block, Document, Entry, Figure, Inline, Line, Marked, Step, Table, html_fragment, html_page, pdf,
};
use proptest::prelude::*;
use roxmltree::{Document as Xml, Node, ParsingOptions};

#[allow(clippy::panic, reason = "a test that cannot read its page has failed")]
fn parse(html: &str) -> Xml<'_> {
    let options = ParsingOptions { allow_dtd: true, ..ParsingOptions::default() };
    Xml::parse_with_options(html, options).unwrap_or_else(|error| panic!("{error}\n{html}"))
}

fn elements<'a>(xml: &'a Xml<'a>, name: &'a str) -> impl Iterator<Item = Node<'a, 'a>> {
    xml.descendants().filter(move |node| node.tag_name().name() == name)
}

#[test]
fn the_page_reads_without_script_or_fetching() {
    let html = html_page(&sample::document());
    let page = parse(&html);
    assert_eq!(page.root_element().attribute("lang"), Some("en-GB"));
    assert_eq!(
        elements(&page, "title").next().and_then(|t| t.text()),
        Some("The goods train at Marram Quay")
    );
    assert_eq!(elements(&page, "script").count() + elements(&page, "link").count(), 0);
    assert!(!html.contains("@import") && !html.contains("src="), "nothing to fetch");
}

/// WCAG 2.2: 1.1.1 (text alternatives), 1.3.1 and 2.4.6 (headings), 4.1.2 (names); the
/// HTML standard: an id is unique in its page.
#[test]
fn the_page_is_named_and_in_order() {
    let html = html_page(&sample::document());
    let page = parse(&html);
    let mut last = 0;
    for node in page.descendants() {
        if let Some(level) = node.tag_name().name().strip_prefix('h').and_then(|n| n.parse::<u8>().ok()) {
            assert!(level <= last + 1, "h{level} after h{last}");
            last = level;
        }
    }
    assert!(elements(&page, "math").all(|math| math.attribute("alttext").is_some_and(|alt| !alt.is_empty())));
    let ids: Vec<&str> = page.descendants().filter_map(|node| node.attribute("id")).collect();
    let mut unique = ids.clone();
    unique.sort_unstable();
    unique.dedup();
    assert_eq!(ids.len(), unique.len(), "{ids:?}");
    for node in page.descendants() {
        let href = node.attribute("href").and_then(|href| href.strip_prefix('#'));
        let named = node.attribute("aria-labelledby").map(|ids| ids.split(' ').collect::<Vec<_>>());
        for id in href.into_iter().chain(named.unwrap_or_default()) {
            assert!(ids.contains(&id), "{id} is referred to but is nowhere");
        }
    }
}

#[test]
fn a_term_its_phrase_and_its_arrow_share_a_tie() {
    let html = html_fragment(&sample::document());
    let page = parse(&html);
    let tied: Vec<&str> = page
        .descendants()
        .filter(|node| node.attribute("data-tie") == Some("t1"))
        .map(|node| node.tag_name().name())
        .collect();
    assert_eq!(tied, ["span", "li", "line", "line", "mrow"]);
}

/// ISO 14289-1 (PDF/UA-1), clauses 5, 7.1 and 7.2: the file is tagged, marked as such, declares
/// itself, and gives its language and its title.
#[test]
fn the_pdf_is_tagged_and_says_so() {
    let bytes = pdf(&sample::document()).expect("a PDF");
    assert!(bytes.starts_with(b"%PDF"));
    let pdf = Pdf::load_mem(&bytes).expect("a readable PDF");
    let catalogue = pdf.catalog().expect("a catalogue");
    assert_eq!(catalogue.get(b"Lang").and_then(Object::as_str).expect("Lang"), b"en-GB");
    let marked = pdf.dereference(catalogue.get(b"MarkInfo").expect("MarkInfo")).expect("resolves").1;
    assert!(marked.as_dict().and_then(|d| d.get(b"Marked")).and_then(Object::as_bool).expect("Marked"));
    assert!(catalogue.get(b"StructTreeRoot").is_ok());
    let metadata = pdf.dereference(catalogue.get(b"Metadata").expect("Metadata")).expect("resolves").1;
    let metadata = metadata.as_stream().expect("a stream");
    let xmp = metadata.decompressed_content().unwrap_or_else(|_| metadata.content.clone());
    let xmp = String::from_utf8(xmp).expect("XMP is UTF-8");
    assert!(xmp.contains("pdfuaid:part") && xmp.contains("The goods train at Marram Quay"), "{xmp}");
}

/// PDF/UA-1, clauses 7.3 and 7.7: every figure and every formula has an alternative text.
#[test]
fn every_formula_and_picture_in_the_pdf_can_be_read_out() {
    let bytes = pdf(&sample::document()).expect("a PDF");
    let pdf = Pdf::load_mem(&bytes).expect("a readable PDF");
    let mut said = Vec::new();
    for object in pdf.objects.values() {
        let Ok(element) = object.as_dict() else { continue };
        let kind = element.get(b"S").and_then(Object::as_name).unwrap_or_default();
        if kind == b"Formula" || kind == b"Figure" {
            let alternative = element.get(b"Alt").and_then(lopdf::decode_text_string);
            said.push(alternative.expect("an alternative text"));
        }
    }
    assert!(said.iter().any(|alt| alt.contains("T₁ − R₂ = m₂a; T₁ − 200 = 400 × 0.75")), "{said:#?}");
    assert!(
        said.iter().any(|alt| alt.starts_with("Forces on the truck. A block of mass 800 kg")),
        "{said:#?}"
    );
}

/// A script that the faces cannot shape costs the claim to the standard, not the tags.
#[test]
fn a_pdf_is_tagged_whatever_it_says() {
    for text in ["e\u{301}\u{301}\u{20dd}", "﷽", "🚆", "שלום"] {
        let bytes = pdf(&Document::new(text).with(Block::paragraph(text))).expect("a PDF");
        let pdf = Pdf::load_mem(&bytes).expect("a readable PDF");
        let catalogue = pdf.catalog().expect("a catalogue");
        assert!(catalogue.get(b"StructTreeRoot").is_ok(), "{text}");
    }
}

#[test]
fn equal_documents_give_equal_bytes() {
    assert_eq!(pdf(&sample::document()), pdf(&sample::document()));
    assert_eq!(html_page(&sample::document()), html_page(&sample::document()));
}

#[test]
fn a_page_without_title_or_headings_is_still_a_page() {
    let page = Document::new("");
    assert!(pdf(&page).expect("a PDF").starts_with(b"%PDF"));
    assert!(html_page(&page).contains("<title>Untitled</title>"));
}

#[test]
fn headings_that_skip_a_level_are_brought_up() {
    let page = Document::new("Order").with(Block::heading(3, "First")).with(Block::heading(9, "Second"));
    let html = html_page(&page);
    assert!(
        html.contains("<h2 class=\"level-1\">First</h2>")
            && html.contains("<h3 class=\"level-2\">Second</h3>")
    );
    assert!(pdf(&page).is_ok());
}

#[test]
fn a_broken_picture_gives_way_to_its_words() {
    let broken = Figure {
        svg: "<svg".into(),
        caption: vec![],
        title: "Hoist".into(),
        description: "Two crates hang from one pulley.".into(),
    };
    let page = Document::new("Hoist").with(Block::Figures(vec![broken]));
    assert!(html_fragment(&page).contains("<p class=\"lost\">Hoist. Two crates hang from one pulley.</p>"));
    assert!(pdf(&page).is_ok());
}

/// One of everything, all of it saying `text`.
fn everywhere(text: &str) -> Document {
    let inline = || {
        vec![
            Inline::text(text),
            Inline::Emph(text.into()),
            Inline::Strong(text.into()),
            Inline::Tied { id: text.into(), text: text.into() },
            Inline::Break,
            Inline::value(text, text),
            Inline::math(Math::row([
                Math::quantity(text),
                Math::op(text),
                Math::upright(text),
                Math::tagged(text, Math::frac(Math::number(text), Math::row([]))),
                Math::power(Math::quantity(text), Math::op(text)),
                Math::sqrt(Math::paren(Math::unit(text))),
            ])),
        ]
    };
    let svg = format!(
        "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 90 20'><text y='15'>{}</text></svg>",
        text.chars().map(|c| if c.is_alphanumeric() { c } else { '.' }).collect::<String>()
    );
    let figure = |svg: &str| Figure {
        svg: svg.into(),
        caption: inline(),
        title: text.into(),
        description: text.into(),
    };
    let lines = vec![
        Line::new(Math::row([Math::quantity(text), Math::op("="), Math::number(text)])).noted(text),
        Line::new(Math::op(text)),
    ];
    Document::new(text)
        .keyed(text)
        .with(Block::heading(2, text))
        .with(Block::Paragraph(inline()))
        .with(Block::Question(vec![
            Marked::plain(text),
            Marked::told(text, text).tied(text),
            Marked::scene(text),
            Marked::unread(text),
        ]))
        .with(Block::Part { label: text.into(), body: inline(), marks: text.into() })
        .with(Block::Readings(vec![Entry::new(text, text)]))
        .with(Block::List { numbered: true, items: vec![inline()] })
        .with(Block::Table(Table {
            caption: text.into(),
            head: vec![text.into()],
            align: vec![Align::End],
            rows: vec![vec![inline(), inline()], vec![]],
        }))
        .with(Block::Figures(vec![figure(&svg), figure(text)]))
        .with(Block::Steps(vec![
            Step { heading: text.into(), reason: inline(), lines: lines.clone() },
            Step { heading: String::new(), reason: vec![], lines },
        ]))
        .with(Block::Answer { label: text.into(), body: inline() })
        .with(Block::Aside { heading: text.into(), body: vec![inline()] })
}

fn survives(text: &str) {
    let page = everywhere(text);
    parse(&html_page(&page));
    parse(&html_fragment(&page));
    let written = pdf(&page);
    assert!(written.is_ok(), "{text:?}: {:?}", written.err());
}

#[test]
fn texts_that_look_like_markup_survive() {
    for text in [
        "",
        " ",
        "#panic(\"no\")",
        "$x$ \\ ` ~ @ref <label> *b* _e_ // /* */",
        "]]>--><script>alert(1)</script>&amp;&#0;",
        "\" onload=\"x\" '",
        "\\\"; \\u{0}",
        "\u{0}\u{1}\u{7f}\u{85}\u{feff}\u{fffe}\u{e000}\u{10ffff}",
        "\u{202e}abc\u{2066}שלום עולם مرحبا",
        "🚆👩🏽‍🔧 e\u{301}\u{301}\u{20dd} ﷽",
        "\r\n\n\t\u{2028}\u{2029}\u{a0}",
        "= + - 1. / : (a) (b)",
        "漢字 हिन्दी ไทย",
    ] {
        survives(text);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    #[test]
    fn any_text_survives_both_writers(text in any::<String>()) {
        survives(&text);
    }

    #[test]
    fn any_text_of_the_trade_survives_both_writers(text in "[ -~\\n°μθ≤−×⁻²₁½#$*\\\\]{0,60}") {
        survives(&text);
    }
}
