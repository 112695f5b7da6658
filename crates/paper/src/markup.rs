//! A document as source for the typesetter.
//!
//! The source calls the functions of `look.typ`. Nothing that a document says
//! is pasted into it: text goes in as string literals, single letters of
//! formulas as letters, digits or `\u{...}` escapes, pictures as files beside it.

use crate::document::{Align, Block, Document, Figure, Inline, Marked, Reading, Step, Table};
use crate::escape::{clean, language, one_line};
use crate::fonts::drawable_text;
use crate::mathml::alternative;
use crate::outline::Outline;
use crate::picture::for_press;
use crate::question::lines_and_notes;
use crate::setting::{Atom, Role, relation, set};

/// The source of a document and the files that it asks for.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Source {
    pub(crate) text: String,
    /// The pictures, in the order of their numbers (`figure-1.svg`, ...).
    pub(crate) pictures: Vec<String>,
}

/// The width of the text on the page: A4 less its margins, in points.
const COLUMN: f64 = (210.0 - 33.0 - 20.0) * 72.0 / 25.4;
/// Between two figures of one row, in points (8 mm).
const GUTTER: f64 = 8.0 * 72.0 / 25.4;
/// A picture's unit, a CSS pixel, in points.
const PIXEL: f64 = 0.75;

/// Figures are drawn for the screen; on paper they are set smaller, so that a row holds more of them.
const ON_PAPER: f64 = 0.78;
/// No figure's column is narrower than this, in points: its caption needs the room.
const NARROWEST: f64 = 130.0;

/// Writes a document for the typesetter.
pub(crate) fn source(document: &Document) -> Source {
    let mut writer = Writer::default();
    let title = one_line(document.title.trim());
    let mut tags = language(&document.language).split('-');
    let lang = tags.next().unwrap_or("en").to_ascii_lowercase();
    let region =
        tags.find(|tag| tag.len() == 2).map_or("none".to_owned(), |tag| literal(&tag.to_ascii_uppercase()));
    writer.text.push_str("#import \"look.typ\": *\n");
    writer.text.push_str(&format!(
        "#show: leaf.with(title: {}, shown: {}, lang: {}, region: {region})\n\n",
        literal(if title.is_empty() { "Untitled" } else { &title }),
        !title.is_empty(),
        literal(&lang),
    ));
    for block in &document.blocks {
        writer.block(block);
        writer.text.push_str("\n\n");
    }
    Source { text: writer.text, pictures: writer.pictures }
}

#[derive(Default)]
struct Writer {
    text: String,
    pictures: Vec<String>,
    outline: Outline,
}

impl Writer {
    fn block(&mut self, block: &Block) {
        match block {
            Block::Heading(level, text) => {
                let level = self.outline.heading(*level);
                self.text.push_str(&format!("#heading(level: {level}, {})", literal(&one_line(text))));
            }
            Block::Paragraph(body) => self.text.push_str(&format!("#par{}", content(body))),
            Block::Question(phrases) => self.question(phrases),
            Block::Part { label, body, marks } => {
                let (label, marks) = (literal(&one_line(label)), literal(&one_line(marks)));
                self.text.push_str(&format!("#part({label}, {marks}){}", content(body)));
            }
            Block::Readings(entries) => {
                let items: Vec<String> =
                    entries.iter().map(|e| format!("({}, {})", heavy(&e.term), content(&e.says))).collect();
                self.call("readings", &items);
            }
            Block::List { numbered, items } => {
                let items: Vec<String> = items.iter().map(|item| content(item)).collect();
                self.call(if *numbered { "enum" } else { "list" }, &items);
            }
            Block::Table(table) => self.table(table),
            Block::Figures(figures) => self.figures(figures),
            Block::Steps(steps) => {
                for (i, step) in steps.iter().enumerate() {
                    self.step(i + 1, step);
                }
            }
            Block::Answer { label, body } => {
                self.text.push_str(&format!("#answer({}){}", literal(&one_line(label)), content(body)));
            }
            Block::Aside { heading, body } => {
                let mut items = vec![literal(&one_line(heading))];
                items.extend(body.iter().map(|paragraph| content(paragraph)));
                self.call("aside", &items);
            }
            Block::Space(lines) => self.text.push_str(&format!("#space({})", (*lines).min(60))),
            Block::Rule => self.text.push_str("#rule"),
            Block::NewSheet => self.text.push_str("#pagebreak(weak: true)"),
        }
    }

    /// A call with one argument a line.
    fn call(&mut self, name: &str, arguments: &[String]) {
        if !arguments.is_empty() {
            self.text.push_str(&format!("#{name}(\n  {},\n)", arguments.join(",\n  ")));
        }
    }

    fn question(&mut self, phrases: &[Marked]) {
        let (lines, notes) = lines_and_notes(phrases);
        for line in &lines {
            self.text.push_str("#par[");
            if !line.label.is_empty() {
                self.text.push_str(&format!("#label({})", literal(&line.label)));
            }
            for run in &line.runs {
                let text = literal(&one_line(&run.text));
                match run.reading {
                    Reading::Plain => self.text.push_str(&format!("#{text}")),
                    Reading::Told => self.text.push_str(&format!("#told({text})")),
                    Reading::Scene => self.text.push_str(&format!("#scene({text})")),
                    Reading::Ignored => {
                        self.text.push_str(&format!("#ignored({text})"));
                        if run.ends {
                            self.text.push_str("#flag(\"ignored\")");
                        }
                    }
                    Reading::Unread => {
                        self.text.push_str(&format!("#unread({text})"));
                        if run.ends {
                            self.text.push_str("#flag(\"unread\")");
                        }
                    }
                }
                if let Some(number) = run.note {
                    self.text.push_str(&format!("#ref(\"{number}\")"));
                }
            }
            self.text.push_str("]\n\n");
        }
        let items: Vec<String> = notes
            .iter()
            .map(|note| {
                let (phrase, means) = (one_line(&note.phrase), one_line(&note.means));
                format!("{{ {}; {} }}", literal(&format!("“{phrase}”: ")), literal(&means))
            })
            .collect();
        self.call("notes", &items);
    }

    fn table(&mut self, table: &Table) {
        let width = table.width();
        let align: Vec<&str> = (0..width)
            .map(|column| match table.align_of(column) {
                Align::Start => "left",
                Align::Centre => "center",
                Align::End => "right",
            })
            .collect();
        let head: String = if table.head.is_empty() {
            String::new()
        } else {
            let heading = |column| literal(&one_line(table.head.get(column).map_or("", String::as_str)));
            (0..width).map(|column| format!("{},", heading(column))).collect()
        };
        let mut arguments = vec![
            literal(&one_line(&table.caption)),
            width.to_string(),
            format!("({},)", align.join(", ")),
            format!("({head})"),
        ];
        for row in &table.rows {
            let cells: Vec<String> = (0..width)
                .map(|column| content(row.get(column).map(Vec::as_slice).unwrap_or_default()))
                .collect();
            arguments.push(cells.join(", "));
        }
        self.call("tabled", &arguments);
    }

    /// Figures in rows, as many in a row as the column holds at their own size.
    fn figures(&mut self, figures: &[Figure]) {
        let mut row: Vec<(f64, String)> = Vec::new();
        let mut used = 0.0;
        for figure in figures {
            let (width, call) = self.figure(figure);
            if !row.is_empty() && used + GUTTER + width > COLUMN {
                self.figure_row(&row);
                row.clear();
                used = 0.0;
            }
            used += width + if row.is_empty() { 0.0 } else { GUTTER };
            row.push((width, call));
        }
        self.figure_row(&row);
    }

    fn figure_row(&mut self, row: &[(f64, String)]) {
        match row {
            [] => {}
            [(_, call)] => self.text.push_str(&format!("#{call}\n\n")),
            _ => {
                let widths: Vec<String> = row.iter().map(|(width, _)| format!("{width:.2}pt")).collect();
                let mut arguments = vec![format!("({},)", widths.join(", "))];
                arguments.extend(row.iter().map(|(_, call)| call.clone()));
                self.call("side-by-side", &arguments);
                self.text.push_str("\n\n");
            }
        }
    }

    /// The width of a figure's column in points, and the call that sets it.
    fn figure(&mut self, figure: &Figure) -> (f64, String) {
        let alternative = literal(&one_line(&figure.alternative()));
        let Some(picture) = for_press(&figure.svg) else {
            return (COLUMN / 2.0 - GUTTER, format!("lost({alternative})"));
        };
        self.pictures.push(picture.svg);
        let width = (picture.width * PIXEL * ON_PAPER).min(COLUMN);
        let caption = if figure.caption.is_empty() { "none".to_owned() } else { content(&figure.caption) };
        let number = self.pictures.len();
        let call = format!("picture(\"figure-{number}.svg\", {width:.2}pt, {alternative}, {caption})");
        (width.max(NARROWEST), call)
    }

    fn step(&mut self, number: usize, step: &Step) {
        if step.heading.is_empty() {
            self.text.push_str(&format!("#bare-step(\"{number}\")\n"));
        } else {
            let heading = literal(&one_line(&step.heading));
            self.text.push_str(&format!("#step(\"{number}\", {}, {heading})\n", self.outline.inner()));
        }
        if !step.reason.is_empty() {
            self.text.push_str(&format!("#reason{}\n", content(&step.reason)));
        }
        if !step.lines.is_empty() {
            let noted = step.lines.iter().any(|line| !line.note.is_empty());
            let mut rows = Vec::new();
            for line in &step.lines {
                let atoms = set(&line.formula);
                let (left, right) = atoms.split_at(relation(&atoms).unwrap_or(0));
                let mut row = format!("{}&{}", maths(left), maths(right));
                if noted {
                    let note = one_line(&line.note);
                    row.push_str(&format!(
                        "&&#h(2.5em)#text(font: \"Libertinus Serif\", fill: quiet, {})",
                        literal(&note)
                    ));
                }
                rows.push(row);
            }
            let alternative = literal(&one_line(&alternative(&step.lines)));
            self.text.push_str(&format!("#working({alternative}, ${}$)\n", rows.join(" \\\n  ")));
        }
    }
}

/// A run of text as a content block.
fn content(body: &[Inline]) -> String {
    run(body, "")
}

/// A run of text as a content block, its words bold but not its formulas: a
/// bold letter would be a vector.
fn heavy(body: &[Inline]) -> String {
    run(body, "heavy")
}

/// A run of text as a content block, plain words under the call `plain`.
fn run(body: &[Inline], plain: &str) -> String {
    let mut out = String::from("[");
    for inline in body {
        match inline {
            Inline::Text(text) | Inline::Tied { text, .. } if plain.is_empty() => {
                out.push_str(&format!("#{}", literal(&one_line(text))));
            }
            Inline::Text(text) | Inline::Tied { text, .. } => {
                out.push_str(&format!("#{plain}({})", literal(&one_line(text))));
            }
            Inline::Emph(text) => out.push_str(&format!("#emph({})", literal(&one_line(text)))),
            Inline::Strong(text) => out.push_str(&format!("#strong({})", literal(&one_line(text)))),
            Inline::Math(formula) => {
                let atoms = set(formula);
                // A formula may break at its relation sign, a value with its unit not at all.
                let name = if relation(&atoms).is_some() { "eq" } else { "value" };
                let reading = literal(&one_line(formula.plain().trim()));
                out.push_str(&format!("#{name}({reading}, ${}$)", maths(&atoms)));
            }
            Inline::Break => out.push_str("#linebreak()"),
        }
    }
    out.push(']');
    out
}

/// A formula in the typesetter's mathematics. Every piece is a call or a
/// string, so that no two pieces can run together into something else.
fn maths(atoms: &[Atom]) -> String {
    if atoms.is_empty() {
        return "\"\"".to_owned();
    }
    let mut out = String::new();
    for atom in atoms {
        match atom {
            Atom::Number(digits) => out.push_str(&literal(digits)),
            Atom::Quantity(letter) => out.push_str(&format!("italic({})", symbol(letter))),
            Atom::Word(word) | Atom::Unit(word) => out.push_str(&format!("upright({})", symbol(word))),
            Atom::Sign(sign, role) => {
                let class = match role {
                    Role::Relation | Role::Therefore => "relation",
                    Role::Binary => "binary",
                    Role::Prefix => "unary",
                    Role::Comma => "punctuation",
                    Role::Other => "normal",
                };
                out.push_str(&format!("class(\"{class}\", {})", symbol(sign)));
            }
            Atom::Script { base, index, power } => {
                out.push_str(&format!("attach({}", maths(base)));
                for (place, script) in [("b", index), ("t", power)] {
                    if let Some(script) = script {
                        out.push_str(&format!(", {place}: {}", maths(script)));
                    }
                }
                out.push(')');
            }
            Atom::Frac(over, under) => out.push_str(&format!("frac({}, {})", maths(over), maths(under))),
            Atom::Root(inside) => out.push_str(&format!("sqrt({})", maths(inside))),
            Atom::Paren(inside) => out.push_str(&format!("lr(\\u{{28}}{}\\u{{29}})", maths(inside))),
            Atom::Tied(_, inside) => out.push_str(&maths(inside)),
            Atom::Thin => out.push_str("#h(0.1667em)"),
            Atom::Times | Atom::Apply => {}
        }
    }
    // Nothing but invisible signs.
    if out.is_empty() { "\"\"".to_owned() } else { out }
}

/// One character as a symbol, several as a string.
fn symbol(text: &str) -> String {
    let text = drawable_text(&clean(text));
    let mut letters = text.chars();
    match (letters.next(), letters.next()) {
        (Some(c), None) if c.is_ascii_alphabetic() => c.to_string(),
        (Some(c), None) if !c.is_whitespace() => format!("\\u{{{:x}}}", c as u32),
        _ => literal(&text),
    }
}

/// A string literal that stands for exactly this text, as far as there are glyphs for it.
fn literal(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 2);
    out.push('"');
    for c in drawable_text(&clean(text)).chars() {
        match c {
            '"' | '\\' => {
                out.push('\\');
                out.push(c);
            }
            '\n' => out.push_str("\\n"),
            c if c.is_control() || c.is_whitespace() && c != ' ' => {
                out.push_str(&format!("\\u{{{:x}}}", c as u32));
            }
            c => out.push(c),
        }
    }
    out.push('"');
    out
}

#[cfg(test)]
#[path = "markup_tests.rs"]
mod tests;
