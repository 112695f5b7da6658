//! What can go wrong between a document and its PDF.

use std::fmt;

/// Why no PDF could be written. HTML has no such case: every document has a page.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum PaperError {
    /// There are more pictures than one document may carry (the limit is given).
    Pictures {
        /// The greatest number allowed.
        limit: usize,
    },
    /// The typesetter could not lay out the document; its complaints, one each.
    Layout(Vec<String>),
    /// The laid-out pages could not be written as a PDF; the complaints, one each.
    Export(Vec<String>),
}

impl fmt::Display for PaperError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            PaperError::Pictures { limit } => {
                write!(f, "a document may carry at most {limit} pictures: split it")
            }
            PaperError::Layout(why) => write!(f, "the document could not be laid out: {}", why.join("; ")),
            PaperError::Export(why) => write!(f, "the PDF could not be written: {}", why.join("; ")),
        }
    }
}

impl std::error::Error for PaperError {}
