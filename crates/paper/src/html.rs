//! A document as HTML.

use exact::Math;

use crate::document::{Align, Block, Document, Figure, Inline, Marked, Reading, Step, Table};
use crate::escape::{clean, ident, language, markup_text, one_line};
use crate::look::stylesheet;
use crate::mathml::{mathml, mathml_block};
use crate::outline::Outline;
use crate::picture::{Words, for_page};
use crate::question::lines_and_notes;

/// The document as one `<article class="leaf">`, to stand in a page that has its
/// own `<h1>` and carries the [`stylesheet`]: the title is an `<h2>`.
///
/// The result is well-formed XML as well as HTML.
///
/// ```
/// use paper::{Block, Document};
/// let page = Document::new("Brakes").with(Block::paragraph("R < 0"));
/// assert_eq!(
///     paper::html_fragment(&page),
///     "<article class=\"leaf\" id=\"leaf\" lang=\"en-GB\"><h2 class=\"title\">Brakes</h2>\n<p>R &lt; 0</p>\n</article>\n",
/// );
/// ```
pub fn html_fragment(document: &Document) -> String {
    html_fragment_under(document, 1)
}

/// As [`html_fragment`], under a heading of the given level: 0 makes the title
/// the page's `<h1>`. Levels that HTML does not have end at `<h6>`.
pub fn html_fragment_under(document: &Document, level: u8) -> String {
    let mut writer = Writer {
        out: String::new(),
        key: ident(&document.key),
        above: if document.title.trim().is_empty() { level } else { level.saturating_add(1) },
        outline: Outline::default(),
        figures: 0,
        questions: 0,
    };
    writer.document(document);
    writer.out
}

/// The document as a complete page: its own stylesheet within, no script,
/// nothing to fetch.
pub fn html_page(document: &Document) -> String {
    let title = one_line(document.title.trim());
    let title = if title.is_empty() { "Untitled" } else { &title };
    format!(
        "<!DOCTYPE html>\n<html lang=\"{lang}\">\n<head>\n<meta charset=\"utf-8\"/>\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n<title>{title}</title>\n\
         <style>\nbody {{ margin: 0; background: #ffffff; }}\n@page {{ size: A4; margin: 16mm 14mm 16mm 8mm; }}\n{css}</style>\n\
         </head>\n<body>\n<main>\n{body}</main>\n</body>\n</html>\n",
        lang = language(&document.language),
        title = markup_text(title),
        css = stylesheet(),
        body = html_fragment_under(document, 0),
    )
}

/// A formula of so many characters fits across a screen of 320 CSS pixels.
const NARROW: usize = 24;

struct Writer {
    out: String,
    key: String,
    /// The level of the heading above the document's first section.
    above: u8,
    outline: Outline,
    figures: usize,
    questions: usize,
}

impl Writer {
    fn document(&mut self, document: &Document) {
        let lang = language(&document.language);
        self.out.push_str(&format!("<article class=\"leaf\" id=\"{}\" lang=\"{lang}\">", self.key));
        let title = document.title.trim();
        if !title.is_empty() {
            let level = self.above.clamp(1, 6);
            self.out
                .push_str(&format!("<h{level} class=\"title\">{}</h{level}>", markup_text(&one_line(title))));
        }
        self.out.push('\n');
        for block in &document.blocks {
            self.block(block);
        }
        self.out.push_str("</article>\n");
    }

    fn block(&mut self, block: &Block) {
        match block {
            Block::Heading(level, text) => {
                let level = self.outline.heading(*level);
                self.heading(level, &format!("level-{level}"), text);
                self.out.push('\n');
            }
            Block::Paragraph(body) => self.paragraph("", body),
            Block::Question(phrases) => self.question(phrases),
            Block::Part { label, body, marks } => {
                self.out.push_str("<div class=\"part\">");
                self.label(label);
                self.out.push_str("<p>");
                if !marks.is_empty() {
                    self.out.push_str(&format!("<span class=\"marks\">{}</span>", markup_text(marks)));
                }
                self.inlines(body);
                self.out.push_str("</p></div>\n");
            }
            Block::Readings(entries) => {
                self.out.push_str("<dl class=\"readings\">");
                for entry in entries {
                    self.out.push_str("<div><dt>");
                    self.inlines(&entry.term);
                    self.out.push_str("</dt><dd>");
                    self.inlines(&entry.says);
                    self.out.push_str("</dd></div>");
                }
                self.out.push_str("</dl>\n");
            }
            Block::List { numbered, items } => {
                let name = if *numbered { "ol" } else { "ul" };
                self.out.push_str(&format!("<{name}>"));
                for item in items {
                    self.out.push_str("<li>");
                    self.inlines(item);
                    self.out.push_str("</li>");
                }
                self.out.push_str(&format!("</{name}>\n"));
            }
            Block::Table(table) => self.table(table),
            Block::Figures(figures) => {
                self.out.push_str("<div class=\"figures\">\n");
                for figure in figures {
                    self.figure(figure);
                }
                self.out.push_str("</div>\n");
            }
            Block::Steps(steps) => {
                self.out.push_str("<ol class=\"steps\" role=\"list\">\n");
                for step in steps {
                    self.step(step);
                }
                self.out.push_str("</ol>\n");
            }
            Block::Answer { label, body } => {
                self.out.push_str("<div class=\"answer\">");
                self.label(label);
                self.out.push_str("<p>");
                self.inlines(body);
                self.out.push_str("</p></div>\n");
            }
            Block::Aside { heading, body } => {
                self.out.push_str("<div class=\"aside\" role=\"note\">");
                if !heading.is_empty() {
                    self.out.push_str(&format!("<p><strong>{}</strong></p>", markup_text(heading)));
                }
                for paragraph in body {
                    self.out.push_str("<p>");
                    self.inlines(paragraph);
                    self.out.push_str("</p>");
                }
                self.out.push_str("</div>\n");
            }
            Block::Space(lines) => {
                let lines = usize::from((*lines).min(60));
                self.out.push_str(&format!(
                    "<div class=\"space\" role=\"img\" aria-label=\"Space for working, {lines} lines\">{}</div>\n",
                    "<div></div>".repeat(lines)
                ));
            }
            Block::Rule => self.out.push_str("<hr/>\n"),
            Block::NewSheet => self.out.push_str("<div class=\"new-sheet\"></div>\n"),
        }
    }

    /// A heading of the given level within the document.
    fn heading(&mut self, level: u8, class: &str, text: &str) {
        let level = self.above.saturating_add(level).clamp(1, 6);
        let text = markup_text(&one_line(text));
        self.out.push_str(&format!("<h{level} class=\"{class}\">{text}</h{level}>"));
    }

    fn label(&mut self, label: &str) {
        if !label.is_empty() {
            self.out.push_str(&format!("<span class=\"label\">{}</span> ", markup_text(&one_line(label))));
        }
    }

    fn paragraph(&mut self, class: &str, body: &[Inline]) {
        match class {
            "" => self.out.push_str("<p>"),
            class => self.out.push_str(&format!("<p class=\"{class}\">")),
        }
        self.inlines(body);
        self.out.push_str("</p>\n");
    }

    fn inlines(&mut self, body: &[Inline]) {
        // Punctuation that already stands with the formula before it.
        let mut taken = 0;
        for (i, inline) in body.iter().enumerate() {
            match inline {
                Inline::Text(text) => {
                    let text = one_line(text);
                    self.out.push_str(&markup_text(text.get(taken..).unwrap_or_default()));
                    taken = 0;
                }
                Inline::Emph(text) => {
                    self.out.push_str(&format!("<em>{}</em>", markup_text(&one_line(text))));
                }
                Inline::Strong(text) => {
                    self.out.push_str(&format!("<strong>{}</strong>", markup_text(&one_line(text))));
                }
                Inline::Math(formula) => {
                    let stop = punctuation(body.get(i + 1));
                    taken = stop.len();
                    let formula = inline_formula(formula);
                    if stop.is_empty() {
                        self.out.push_str(&formula);
                    } else {
                        // A line may break after a formula, but not before its full stop.
                        self.out.push_str(&format!("<span class=\"together\">{formula}{stop}</span>"));
                    }
                }
                Inline::Tied { id, text } => {
                    let tie = tie(id);
                    self.out.push_str(&format!("<span{tie}>{}</span>", markup_text(&one_line(text))));
                }
                Inline::Break => self.out.push_str("<br/>"),
            }
        }
    }

    fn question(&mut self, phrases: &[Marked]) {
        self.questions += 1;
        let base = format!("{}-q{}", self.key, self.questions);
        let (lines, notes) = lines_and_notes(phrases);
        self.out.push_str("<div class=\"question\" role=\"group\" aria-label=\"Question\">\n");
        for line in &lines {
            // The direction of each line is that of its first strong letter.
            self.out.push_str("<p dir=\"auto\">");
            self.label(&line.label);
            for run in &line.runs {
                let tie = tie(&run.tie);
                let text = markup_text(&clean(&run.text));
                match run.reading {
                    Reading::Plain if tie.is_empty() => self.out.push_str(&text),
                    Reading::Plain => self.out.push_str(&format!("<span{tie}>{text}</span>")),
                    Reading::Told => self.out.push_str(&format!("<span class=\"told\"{tie}>{text}</span>")),
                    Reading::Scene => self.out.push_str(&format!("<span class=\"scene\"{tie}>{text}</span>")),
                    Reading::Ignored => {
                        self.out.push_str(&format!("<span class=\"ignored\"{tie}>{text}</span>"));
                        if run.ends {
                            self.out.push_str(" <strong class=\"flag\">[ignored]</strong>");
                        }
                    }
                    Reading::Unread => {
                        self.out.push_str(&format!("<span class=\"unread\"{tie}><span>{text}</span></span>"));
                        if run.ends {
                            self.out.push_str(" <strong class=\"flag\">[unread]</strong>");
                        }
                    }
                }
                if let Some(n) = run.note {
                    self.out.push_str(&format!(
                        "<sup class=\"ref\"><a id=\"{base}-r{n}\" href=\"#{base}-n{n}\" role=\"doc-noteref\">{n}</a></sup>"
                    ));
                }
            }
            self.out.push_str("</p>\n");
        }
        if !notes.is_empty() {
            self.out.push_str("<ol class=\"notes\" aria-label=\"What each phrase tells us\">\n");
            for note in &notes {
                let n = note.number;
                let tie = tie(&note.tie);
                self.out.push_str(&format!(
                    "<li id=\"{base}-n{n}\"{tie}><q>{}</q>: {} <a href=\"#{base}-r{n}\" role=\"doc-backlink\" \
                     aria-label=\"Back to the phrase\">↑</a></li>\n",
                    markup_text(&note.phrase),
                    markup_text(&one_line(&note.means)),
                ));
            }
            self.out.push_str("</ol>\n");
        }
        self.out.push_str("</div>\n");
    }

    fn table(&mut self, table: &Table) {
        let caption = markup_text(&one_line(&table.caption));
        let name = if caption.is_empty() { "Table" } else { &caption };
        self.out.push_str(&format!(
            "<div class=\"across\" role=\"group\" tabindex=\"0\" aria-label=\"{name}\"><table>"
        ));
        if !caption.is_empty() {
            self.out.push_str(&format!("<caption>{caption}</caption>"));
        }
        let width = table.width();
        if !table.head.is_empty() {
            self.out.push_str("<thead><tr>");
            for column in 0..width {
                let text = table.head.get(column).map(|t| markup_text(&one_line(t))).unwrap_or_default();
                // An empty heading heads nothing: a plain cell.
                let name = if text.is_empty() { "td" } else { "th scope=\"col\"" };
                let end = if text.is_empty() { "td" } else { "th" };
                self.out.push_str(&format!("<{name}{}>{text}</{end}>", align(table.align_of(column))));
            }
            self.out.push_str("</tr></thead>");
        }
        self.out.push_str("<tbody>");
        for row in &table.rows {
            self.out.push_str("<tr>");
            for column in 0..width {
                self.out.push_str(&format!("<td{}>", align(table.align_of(column))));
                self.inlines(row.get(column).map(Vec::as_slice).unwrap_or_default());
                self.out.push_str("</td>");
            }
            self.out.push_str("</tr>");
        }
        self.out.push_str("</tbody></table></div>\n");
    }

    fn figure(&mut self, figure: &Figure) {
        self.figures += 1;
        let prefix = format!("{}-f{}-", self.key, self.figures);
        let alternative = figure.alternative();
        let words = if figure.title.trim().is_empty() {
            Words { title: &alternative, description: "" }
        } else {
            Words { title: figure.title.trim(), description: figure.description.trim() }
        };
        self.out.push_str("<figure>");
        match for_page(&figure.svg, &prefix, &words) {
            Some(picture) => self.out.push_str(&format!("<div class=\"picture\">{}</div>", picture.svg)),
            None => self.out.push_str(&format!("<p class=\"lost\">{}</p>", markup_text(&alternative))),
        }
        if !figure.caption.is_empty() {
            self.out.push_str("<figcaption>");
            self.inlines(&figure.caption);
            self.out.push_str("</figcaption>");
        }
        self.out.push_str("</figure>\n");
    }

    fn step(&mut self, step: &Step) {
        self.out.push_str("<li class=\"step\">");
        if !step.heading.is_empty() {
            self.heading(self.outline.inner(), "head", &step.heading);
        }
        self.out.push('\n');
        if !step.reason.is_empty() {
            self.paragraph("reason", &step.reason);
        }
        if !step.lines.is_empty() {
            // The box can take the focus, so that the keyboard can scroll it.
            self.out.push_str("<div class=\"formula\" role=\"group\" tabindex=\"0\" aria-label=\"Working\">");
            self.out.push_str(&mathml_block(&step.lines));
            self.out.push_str("</div>\n");
        }
        self.out.push_str("</li>\n");
    }
}

/// A formula in a line of text; one that may be wider than a narrow screen gets
/// a box of its own to scroll in, which the keyboard can reach.
fn inline_formula(formula: &Math) -> String {
    let written = mathml(formula);
    if formula.plain().chars().count() <= NARROW {
        return written;
    }
    format!("<span class=\"wide\" role=\"group\" tabindex=\"0\" aria-label=\"Formula\">{written}</span>")
}

/// The punctuation that opens the text after a formula.
fn punctuation(next: Option<&Inline>) -> String {
    match next {
        Some(Inline::Text(text)) => text
            .chars()
            .take_while(|c| matches!(c, '.' | ',' | ';' | ':' | '!' | '?' | ')'))
            .take(3)
            .collect(),
        _ => String::new(),
    }
}

fn tie(id: &str) -> String {
    if id.is_empty() { String::new() } else { format!(" data-tie=\"{}\"", markup_text(id)) }
}

fn align(align: Align) -> &'static str {
    match align {
        Align::Start => "",
        Align::Centre => " class=\"centre\"",
        Align::End => " class=\"end\"",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn phrases_are_underlined_noted_and_tied() {
        let page = Document::new("").keyed("q7").with(Block::Question(vec![
            Marked::plain("A "),
            Marked::told("light", "ignore its mass").tied("t1"),
            Marked::scene(" tarred"),
            Marked::plain(" rope "),
            Marked::unread("<frays>"),
            Marked::plain(".\n(a) Find T."),
        ]));
        insta::assert_snapshot!(html_fragment(&page), @r##"
<article class="leaf" id="q7" lang="en-GB">
<div class="question" role="group" aria-label="Question">
<p dir="auto">A <span class="told" data-tie="t1">light</span><sup class="ref"><a id="q7-q1-r1" href="#q7-q1-n1" role="doc-noteref">1</a></sup><span class="scene"> tarred</span> rope <span class="unread"><span>&lt;frays&gt;</span></span> <strong class="flag">[unread]</strong>.</p>
<p dir="auto"><span class="label">(a)</span> Find T.</p>
<ol class="notes" aria-label="What each phrase tells us">
<li id="q7-q1-n1" data-tie="t1"><q>light</q>: ignore its mass <a href="#q7-q1-r1" role="doc-backlink" aria-label="Back to the phrase">↑</a></li>
</ol>
</div>
</article>
"##);
    }

    #[test]
    fn a_full_stop_stays_with_its_formula() {
        let body = vec![Inline::text("It is "), Inline::value("24", "N"), Inline::text(". Then")];
        let page = Document::new("").with(Block::Answer { label: "(b)".into(), body });
        insta::assert_snapshot!(html_fragment(&page), @r#"
<article class="leaf" id="leaf" lang="en-GB">
<div class="answer"><span class="label">(b)</span> <p>It is <span class="together"><math alttext="24 N" aria-label="24 N"><mn>24</mn><mspace width="0.1667em"></mspace><mi class="unit" mathvariant="normal">N</mi></math>.</span> Then</p></div>
</article>
"#);
    }

    #[test]
    fn a_long_formula_scrolls_in_its_own_box() {
        let long = Math::row((0..9).flat_map(|_| [Math::op("+"), Math::quantity("T_1")]));
        let page =
            Document::new("").with(Block::Paragraph(vec![Inline::Math(long), Inline::value("1", "N")]));
        assert_eq!(html_fragment(&page).matches("class=\"wide\"").count(), 1);
    }

    #[test]
    fn a_table_heads_its_columns() {
        let page = Document::new("").with(Block::Table(Table {
            caption: "Marks".into(),
            head: vec!["Line".into(), String::new()],
            align: vec![Align::Start, Align::End],
            rows: vec![vec![vec![Inline::text("F = ma")], vec![Inline::Strong("M1".into())]], vec![]],
        }));
        insta::assert_snapshot!(html_fragment(&page), @r#"
<article class="leaf" id="leaf" lang="en-GB">
<div class="across" role="group" tabindex="0" aria-label="Marks"><table><caption>Marks</caption><thead><tr><th scope="col">Line</th><td class="end"></td></tr></thead><tbody><tr><td>F = ma</td><td class="end"><strong>M1</strong></td></tr><tr><td></td><td class="end"></td></tr></tbody></table></div>
</article>
"#);
    }
}
