//! What stands on the paper, apart from how it is written.
//!
//! Nothing here nests without end: blocks hold runs of text, runs hold no
//! blocks. So no document, however long, can exhaust the stack.

use exact::Math;

/// One document: a worked solution, a question sheet, a mark scheme, a set.
///
/// A plain value: two documents that are equal are written alike, byte for byte.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Document {
    /// A short name, unique among the documents that share a web page. Every
    /// `id` in the HTML begins with it. Characters other than ASCII letters,
    /// digits, `-` and `_` are left out.
    pub key: String,
    /// The title: the page's main heading and the title in the PDF. An empty
    /// title puts no heading on the page and calls the file "Untitled".
    pub title: String,
    /// The language as a BCP 47 tag, such as `en-GB`.
    pub language: String,
    /// What follows the title, from top to bottom.
    pub blocks: Vec<Block>,
}

impl Document {
    /// An empty document in British English with the key `leaf`.
    pub fn new(title: impl Into<String>) -> Document {
        Document {
            key: "leaf".to_owned(),
            title: title.into(),
            language: "en-GB".to_owned(),
            blocks: Vec::new(),
        }
    }

    /// The same document under another [`key`](Document::key).
    #[must_use]
    pub fn keyed(mut self, key: impl Into<String>) -> Document {
        self.key = key.into();
        self
    }

    /// The same document with one more block at its end.
    #[must_use]
    pub fn with(mut self, block: Block) -> Document {
        self.blocks.push(block);
        self
    }
}

/// One piece of the page, from margin to margin.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Block {
    /// A heading. Level 1 stands directly under the title; a level that would
    /// skip one (1, then 3) is brought up, so headings are always in order.
    Heading(u8, String),
    /// A paragraph.
    Paragraph(Vec<Inline>),
    /// The question in its own words, each phrase marked with how it was read.
    Question(Vec<Marked>),
    /// A part of a question sheet: its label stands in the margin, its marks at the right.
    Part {
        /// The label as printed, `(a)`; empty for none.
        label: String,
        /// The text of the part.
        body: Vec<Inline>,
        /// The marks as printed, `[3]` or `(3 marks)`; empty for none.
        marks: String,
    },
    /// Terms and what is said of each: readings, assumptions, symbols.
    Readings(Vec<Entry>),
    /// A list, with bullets or with numbers.
    List {
        /// Numbered from 1, rather than with bullets.
        numbered: bool,
        /// One item each.
        items: Vec<Vec<Inline>>,
    },
    /// A table with a row of headings.
    Table(Table),
    /// Figures side by side, as many in a row as fit, the rest below.
    Figures(Vec<Figure>),
    /// Numbered steps of working.
    Steps(Vec<Step>),
    /// An answer, underlined twice as in an exercise book.
    Answer {
        /// The question's label for the part, `(a)`, set in the margin; empty for none.
        label: String,
        /// The answer.
        body: Vec<Inline>,
    },
    /// A word aside: what was assumed, a caution, a comment on the model.
    Aside {
        /// What kind of word it is: "Assumed", "Careful".
        heading: String,
        /// One paragraph each.
        body: Vec<Vec<Inline>>,
    },
    /// Ruled lines for a pupil to write on; the number of lines, at most 60.
    Space(u8),
    /// A rule from margin to text edge.
    Rule,
    /// What follows begins a new sheet in print.
    NewSheet,
}

impl Block {
    /// A paragraph of plain text.
    pub fn paragraph(text: impl Into<String>) -> Block {
        Block::Paragraph(vec![Inline::text(text)])
    }
    /// A heading; see [`Block::Heading`].
    pub fn heading(level: u8, text: impl Into<String>) -> Block {
        Block::Heading(level, text.into())
    }
}

/// A run of text inside a block.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Inline {
    /// Plain text; line breaks in it count as spaces.
    Text(String),
    /// Stressed text.
    Emph(String),
    /// Text of special weight.
    Strong(String),
    /// A formula.
    Math(Math),
    /// Text that belongs to the force, fact or phrase with this id.
    Tied {
        /// The same id as in [`Math::Tagged`] and in the figure.
        id: String,
        /// The words.
        text: String,
    },
    /// A new line within the block.
    Break,
}

impl Inline {
    /// Plain text.
    pub fn text(text: impl Into<String>) -> Inline {
        Inline::Text(text.into())
    }
    /// A formula.
    pub fn math(formula: Math) -> Inline {
        Inline::Math(formula)
    }
    /// A number with its unit, kept together on one line: `24 N`.
    ///
    /// ```
    /// use exact::Math;
    /// use paper::Inline;
    /// let pull = Inline::value("24", "N");
    /// assert_eq!(pull, Inline::Math(Math::row([Math::number("24"), Math::unit("N")])));
    /// ```
    pub fn value(number: &str, unit: &str) -> Inline {
        Inline::Math(Math::row([Math::number(number), Math::unit(unit)]))
    }
}

/// How a phrase of a question was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reading {
    /// Not a phrase of its own: "and", a comma, a space.
    Plain,
    /// It told us something: underlined, with a numbered note on what.
    Told,
    /// It sets the scene: dotted.
    Scene,
    /// It was not understood: a double wave and the word "unread" beside it.
    Unread,
    /// It was not understood and is ignored at the wish of whoever asks: dashed, and the word "ignored" beside it.
    Ignored,
}

/// A stretch of the question's text and how it was read. The texts in order
/// make up the question, character for character; a line break in them is kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Marked {
    /// The words as they stand in the question.
    pub text: String,
    /// How they were read.
    pub reading: Reading,
    /// What they mean to us, for the note below the question; empty for no note.
    pub means: String,
    /// The id that ties the phrase to its force and its term; empty for none.
    pub tie: String,
}

impl Marked {
    /// Text between phrases.
    pub fn plain(text: impl Into<String>) -> Marked {
        Marked { text: text.into(), reading: Reading::Plain, means: String::new(), tie: String::new() }
    }
    /// A phrase that told us something, and what.
    pub fn told(text: impl Into<String>, means: impl Into<String>) -> Marked {
        Marked { text: text.into(), reading: Reading::Told, means: means.into(), tie: String::new() }
    }
    /// A phrase that only sets the scene.
    pub fn scene(text: impl Into<String>) -> Marked {
        Marked { text: text.into(), reading: Reading::Scene, means: String::new(), tie: String::new() }
    }
    /// A phrase that was not understood.
    pub fn unread(text: impl Into<String>) -> Marked {
        Marked { text: text.into(), reading: Reading::Unread, means: String::new(), tie: String::new() }
    }
    /// The same phrase, tied to the force or fact with this id.
    #[must_use]
    pub fn tied(mut self, id: impl Into<String>) -> Marked {
        self.tie = id.into();
        self
    }
}

/// A term and what is said of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// The term: a phrase, a letter.
    pub term: Vec<Inline>,
    /// What it means.
    pub says: Vec<Inline>,
}

impl Entry {
    /// An entry from two plain texts.
    pub fn new(term: impl Into<String>, says: impl Into<String>) -> Entry {
        Entry { term: vec![Inline::text(term)], says: vec![Inline::text(says)] }
    }
}

/// How the cells of a column stand.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Align {
    /// At the left.
    #[default]
    Start,
    /// In the middle.
    Centre,
    /// At the right, as for numbers.
    End,
}

/// A table.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Table {
    /// What the table shows, printed above it; empty for none.
    pub caption: String,
    /// The column headings; they settle the number of columns.
    pub head: Vec<String>,
    /// How each column stands; columns beyond the list stand at the left.
    pub align: Vec<Align>,
    /// The rows; short rows are filled with empty cells, long ones widen the table.
    pub rows: Vec<Vec<Vec<Inline>>>,
}

impl Table {
    /// The number of columns: the longest of the head and the rows, at least one.
    pub(crate) fn width(&self) -> usize {
        self.rows.iter().map(Vec::len).chain([self.head.len(), 1]).max().unwrap_or(1)
    }
    pub(crate) fn align_of(&self, column: usize) -> Align {
        self.align.get(column).copied().unwrap_or_default()
    }
}

/// A picture with its words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Figure {
    /// The picture, a whole SVG document with a `viewBox`; 1 unit is 1 CSS pixel (0.75 pt).
    /// Text in it should ask for the family `Libertinus Serif`. Only drawing
    /// elements are carried over: scripts, styles, links out and foreign content are left out.
    pub svg: String,
    /// The caption printed below; empty for none.
    pub caption: Vec<Inline>,
    /// A short name for screen readers: "Forces on the truck".
    pub title: String,
    /// The alternative text: all that the picture says.
    pub description: String,
}

impl Figure {
    /// The alternative text as one string: the title, then the description.
    pub(crate) fn alternative(&self) -> String {
        let title = self.title.trim();
        let description = self.description.trim();
        match (title.is_empty(), description.is_empty()) {
            (true, true) => "Picture without a description".to_owned(),
            (false, true) => title.to_owned(),
            (true, false) => description.to_owned(),
            (false, false) => {
                let stop = if title.ends_with(['.', ':', '!', '?']) { "" } else { "." };
                format!("{title}{stop} {description}")
            }
        }
    }
}

/// One step of working.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Step {
    /// What the step looks at: "Whole system, direction of travel positive".
    pub heading: String,
    /// Why this step comes now; empty for no sentence.
    pub reason: Vec<Inline>,
    /// The lines of working, set one under another with their relation signs in line.
    pub lines: Vec<Line>,
}

/// One line of working.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// The formula. A line that begins with a relation sign carries on from the line above.
    pub formula: Math,
    /// A short note to its right, such as a mark (`M1`) or "from step 1"; empty for none.
    pub note: String,
}

impl Line {
    /// A line without a note.
    pub fn new(formula: Math) -> Line {
        Line { formula, note: String::new() }
    }
    /// The same line with a note at its right.
    #[must_use]
    pub fn noted(mut self, note: impl Into<String>) -> Line {
        self.note = note.into();
        self
    }
}
