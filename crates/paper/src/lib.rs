//! Documents: one value, written as HTML with MathML or as PDF.
//!
//! A [`Document`] says *what* stands on the paper: a question with its phrases
//! marked, steps of working, figures, tables, answers. It says nothing about
//! how either output is made, so the page on screen and the printed sheet
//! cannot disagree.
//!
//! - [`html_fragment`] and [`html_page`] write HTML. Formulas are MathML, so
//!   nothing needs a script; pictures stand in the page as SVG.
//! - [`pdf`] writes an A4 PDF, tagged for screen readers and declared PDF/UA-1
//!   (ISO 14289-1) wherever every character of it has a glyph. The bytes depend on the document
//!   alone: there is no date in them.
//! - [`page::document`] writes the worked page of a question.
//! - [`stylesheet`], [`fonts`] and [`font_faces`] give a server the same look
//!   for its own pages.
//!
//! Every string in a document may come from a stranger. Text is never pasted
//! into markup: HTML is escaped, and the typesetter only sees string literals.
//!
//! ```
//! use exact::Math;
//! use paper::{Block, Document, Inline};
//!
//! let page = Document::new("The goods train at Marram Quay").with(Block::Answer {
//!     label: "(a)".into(),
//!     body: vec![Inline::text("The acceleration is "), Inline::value("0.75", "m s⁻²"), Inline::text(".")],
//! });
//! assert!(paper::html_page(&page).contains("<math"));
//! assert!(paper::pdf(&page)?.starts_with(b"%PDF"));
//! # Ok::<(), paper::PaperError>(())
//! ```

mod document;
mod error;
mod escape;
mod fonts;
mod html;
mod look;
mod markup;
mod mathml;
mod outline;
pub mod page;
mod picture;
mod press;
mod question;
mod setting;

pub use document::{Align, Block, Document, Entry, Figure, Inline, Line, Marked, Reading, Step, Table};
pub use error::PaperError;
pub use fonts::{Font, fonts};
pub use html::{html_fragment, html_fragment_under, html_page};
pub use look::{font_faces, stylesheet};
pub use mathml::{mathml, mathml_block};
pub use press::pdf;
