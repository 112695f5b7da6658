//! Pictures: a figure's SVG, read and written again so that it can stand in a
//! page with others.
//!
//! Only drawing elements and harmless attributes are carried over. In HTML each
//! `id` gets a prefix of its own (`KEY-f1-`, `KEY-f2-`, ... for the figures of the
//! document in order), and every reference to it within the picture follows.
//! `class` and `data-` attributes stay as they are.

use roxmltree::{Document as Xml, Node};

use crate::escape::markup_text;
use crate::fonts::drawable_text;

/// Elements nested deeper than this are taken for a mistake.
const DEEPEST: usize = 64;

/// The elements that draw.
const DRAWING: [&str; 24] = [
    "svg",
    "g",
    "defs",
    "symbol",
    "use",
    "marker",
    "path",
    "line",
    "polyline",
    "polygon",
    "rect",
    "circle",
    "ellipse",
    "text",
    "tspan",
    "linearGradient",
    "radialGradient",
    "stop",
    "pattern",
    "clipPath",
    "mask",
    "title",
    "desc",
    "switch",
];

/// A picture ready to be set.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Picture {
    /// The SVG, cleaned.
    pub(crate) svg: String,
    /// Its width in CSS pixels.
    pub(crate) width: f64,
}

/// The words that go into a picture for screen readers.
pub(crate) struct Words<'a> {
    pub(crate) title: &'a str,
    pub(crate) description: &'a str,
}

/// Reads a picture for HTML, its ids under `prefix`. `None` when it is not an SVG with a size.
pub(crate) fn for_page(svg: &str, prefix: &str, words: &Words<'_>) -> Option<Picture> {
    Writer { prefix, words: Some(words), out: String::new() }.picture(svg)
}

/// Reads a picture for the typesetter, which takes the words separately.
pub(crate) fn for_press(svg: &str) -> Option<Picture> {
    Writer { prefix: "", words: None, out: String::new() }.picture(svg)
}

struct Writer<'a> {
    prefix: &'a str,
    words: Option<&'a Words<'a>>,
    out: String,
}

impl Writer<'_> {
    fn picture(mut self, svg: &str) -> Option<Picture> {
        if nesting(svg) > DEEPEST {
            return None;
        }
        let xml = Xml::parse(svg.trim_start_matches('\u{FEFF}').trim()).ok()?;
        let root = xml.root_element();
        if root.tag_name().name() != "svg" {
            return None;
        }
        let [left, top, width, height] = view(root)?;
        self.out.push_str(&format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"{left} {top} {width} {height}\" \
             width=\"{width}\" height=\"{height}\""
        ));
        for attribute in root.attributes() {
            let name = attribute.name();
            if !matches!(name, "viewBox" | "width" | "height" | "role" | "id") && !name.starts_with("aria-") {
                self.attribute(&attribute);
            }
        }
        match self.words {
            Some(words) => {
                let prefix = self.prefix;
                let mut names = format!("{prefix}title");
                let mut says = format!("<title id=\"{prefix}title\">{}</title>", markup_text(words.title));
                if !words.description.trim().is_empty() {
                    names.push_str(&format!(" {prefix}desc"));
                    let description = markup_text(words.description);
                    says.push_str(&format!("<desc id=\"{prefix}desc\">{description}</desc>"));
                }
                self.out.push_str(&format!(" role=\"img\" aria-labelledby=\"{names}\">{says}"));
            }
            None => self.out.push('>'),
        }
        for child in root.children() {
            if !matches!(child.tag_name().name(), "title" | "desc") {
                self.node(child, 1);
            }
        }
        self.out.push_str("</svg>");
        Some(Picture { svg: self.out, width })
    }

    fn node(&mut self, node: Node<'_, '_>, depth: usize) {
        if let Some(text) = node.text().filter(|_| node.is_text()) {
            // The typesetter must have a glyph for every letter in a picture too.
            let text = if self.words.is_none() { drawable_text(text) } else { text.to_owned() };
            self.out.push_str(&markup_text(&text));
        }
        let name = node.tag_name().name();
        if !node.is_element() || depth > DEEPEST || !DRAWING.contains(&name) {
            return;
        }
        self.out.push_str(&format!("<{name}"));
        for attribute in node.attributes() {
            self.attribute(&attribute);
        }
        self.out.push('>');
        for child in node.children() {
            self.node(child, depth + 1);
        }
        self.out.push_str(&format!("</{name}>"));
    }

    fn attribute(&mut self, attribute: &roxmltree::Attribute<'_, '_>) {
        let name = attribute.name();
        let value = attribute.value();
        let safe_name = name.chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, '-' | '_'));
        if !safe_name || name.starts_with("on") {
            return;
        }
        let value = match name {
            "id" => format!("{}{value}", self.prefix),
            "href" => match value.strip_prefix('#') {
                Some(id) => format!("#{}{id}", self.prefix),
                None => return,
            },
            "aria-labelledby" | "aria-describedby" => value
                .split_whitespace()
                .map(|id| format!("{}{id}", self.prefix))
                .collect::<Vec<_>>()
                .join(" "),
            // `xml:space` and the like belong to another vocabulary.
            _ if attribute.namespace().is_some() => return,
            _ if value.contains("url(") => {
                let outside = value.matches("url(").count() != value.matches("url(#").count();
                if outside {
                    return;
                }
                value.replace("url(#", &format!("url(#{}", self.prefix))
            }
            _ => value.to_owned(),
        };
        self.out.push_str(&format!(" {name}=\"{}\"", markup_text(&value)));
    }
}

/// The picture's frame: its `viewBox`, or else its width and height.
fn view(root: Node<'_, '_>) -> Option<[f64; 4]> {
    let number = |text: &str| text.trim_end_matches("px").parse::<f64>().ok().filter(|n| n.abs() < 100_000.0);
    let view = match root.attribute("viewBox") {
        Some(list) => {
            let mut numbers = list.split([' ', ',', '\n', '\t']).filter(|s| !s.is_empty()).map(number);
            [numbers.next()??, numbers.next()??, numbers.next()??, numbers.next()??]
        }
        None => [0.0, 0.0, number(root.attribute("width")?)?, number(root.attribute("height")?)?],
    };
    (view[2] > 0.0 && view[3] > 0.0).then_some(view)
}

/// How deep the elements of a text that may be XML nest at most: counted before
/// it is read, so that a hostile picture cannot exhaust the reader.
fn nesting(xml: &str) -> usize {
    let (mut depth, mut deepest) = (0usize, 0usize);
    for tag in xml.split('<').skip(1) {
        let closes_itself = tag.split('>').next().is_some_and(|inner| inner.ends_with('/'));
        if tag.starts_with('/') {
            depth = depth.saturating_sub(1);
        } else if !closes_itself && !tag.starts_with(['!', '?']) {
            depth += 1;
            deepest = deepest.max(depth);
        }
    }
    deepest
}

#[cfg(test)]
mod tests {
    use super::*;

    const ARROW: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 80 40" onload="x()">
<defs><marker id="tip"><path d="M0 0L4 2L0 4z"/></marker></defs><script>alert(1)</script>
<g data-tie="t1"><line x2="60" y1="20" y2="20" marker-end="url(#tip)"/><use href="#tip"/><use href="x.svg#a"/></g></svg>"##;

    #[test]
    fn ids_are_made_the_figures_own_and_scripts_are_left_out() {
        let words = Words { title: "Tension <T>", description: "An arrow to the right." };
        let picture = for_page(ARROW, "leaf-f1-", &words).expect("an SVG");
        insta::assert_snapshot!(picture.svg, @r##"
<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 80 40" width="80" height="40" role="img" aria-labelledby="leaf-f1-title leaf-f1-desc"><title id="leaf-f1-title">Tension &lt;T&gt;</title><desc id="leaf-f1-desc">An arrow to the right.</desc>
<defs><marker id="leaf-f1-tip"><path d="M0 0L4 2L0 4z"></path></marker></defs>
<g data-tie="t1"><line x2="60" y1="20" y2="20" marker-end="url(#leaf-f1-tip)"></line><use href="#leaf-f1-tip"></use><use></use></g></svg>
"##);
    }

    #[test]
    fn what_is_no_picture_is_refused() {
        assert_eq!(for_press("<svg"), None);
        assert_eq!(for_press("<svg xmlns='http://www.w3.org/2000/svg'/>"), None);
        assert_eq!(for_press("<p>no</p>"), None);
        let deep = format!("<svg viewBox='0 0 1 1'>{}{}</svg>", "<g>".repeat(50_000), "</g>".repeat(50_000));
        assert_eq!(for_press(&deep), None);
    }
}
