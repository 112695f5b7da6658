//! The press: lays a document out and writes it as PDF.

use std::sync::OnceLock;

use typst::diag::{FileError, FileResult, SourceDiagnostic};
use typst::foundations::{Bytes, Datetime, Duration, Smart};
use typst::syntax::{FileId, RootedPath, Source as Text, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards};

use crate::document::Document;
use crate::error::PaperError;
use crate::fonts::faces;
use crate::markup::{Source, source};

/// The greatest number of pictures in one document. The typesetter keeps each
/// file name it has ever seen, and has room for 65,535.
const MOST_PICTURES: usize = 4_096;

/// Results of earlier layouts are kept while they are no older than this many documents.
const MEMORY: usize = 8;

/// Writes the document as PDF: A4, tagged, with its title, language and an
/// alternative text on every formula and picture.
///
/// The file declares PDF/UA-1. Only where some of its text cannot meet that
/// standard (a script that the faces here cannot shape) it is tagged all the
/// same but makes no such claim. Equal documents give equal bytes.
///
/// # Errors
///
/// [`PaperError::Pictures`] for more than 4,096 pictures; the other errors
/// would be faults of this crate, since text of any kind can be set.
pub fn pdf(document: &Document) -> Result<Vec<u8>, PaperError> {
    let written = source(document);
    if written.pictures.len() > MOST_PICTURES {
        return Err(PaperError::Pictures { limit: MOST_PICTURES });
    }
    let desk = Desk::new(written)?;
    let laid_out = typst::compile::<PagedDocument>(&desk).output;
    let bytes = laid_out.map_err(|errors| PaperError::Layout(said(&errors))).and_then(|pages| {
        let standards = PdfStandards::new(&[PdfStandard::Ua_1])
            .map_err(|error| PaperError::Export(vec![error.message().to_string()]))?;
        typst_pdf::pdf(&pages, &options(standards))
            .or_else(|_| typst_pdf::pdf(&pages, &options(PdfStandards::default())))
            .map_err(|errors| PaperError::Export(said(&errors)))
    });
    typst::comemo::evict(MEMORY);
    bytes
}

fn options(standards: PdfStandards) -> PdfOptions {
    PdfOptions { creator: Smart::Custom(Some("Tautline".to_owned())), standards, ..PdfOptions::default() }
}

fn said<'a>(errors: impl IntoIterator<Item = &'a SourceDiagnostic>) -> Vec<String> {
    errors.into_iter().map(|error| error.message.to_string()).collect()
}

/// What the typesetter may see: the document, its look, its pictures, the faces. No files, no clock.
struct Desk {
    main: Text,
    look: Text,
    pictures: Vec<(FileId, Bytes)>,
}

/// What every document shares, made once.
struct Shared {
    library: LazyHash<Library>,
    book: LazyHash<FontBook>,
}

fn shared() -> &'static Shared {
    static SHARED: OnceLock<Shared> = OnceLock::new();
    SHARED.get_or_init(|| Shared {
        library: LazyHash::new(<Library as LibraryExt>::default()),
        book: LazyHash::new(FontBook::from_fonts(faces())),
    })
}

fn file(name: &str) -> Result<FileId, PaperError> {
    let path =
        VirtualPath::new(name).map_err(|_| PaperError::Layout(vec![format!("no such name: {name}")]))?;
    Ok(RootedPath::new(VirtualRoot::Project, path).intern())
}

impl Desk {
    fn new(written: Source) -> Result<Desk, PaperError> {
        let mut pictures = Vec::new();
        for (i, svg) in written.pictures.into_iter().enumerate() {
            pictures.push((file(&format!("figure-{}.svg", i + 1))?, Bytes::from_string(svg)));
        }
        Ok(Desk {
            main: Text::new(file("main.typ")?, written.text),
            look: Text::new(file("look.typ")?, include_str!("look.typ").to_owned()),
            pictures,
        })
    }
}

impl World for Desk {
    fn library(&self) -> &LazyHash<Library> {
        &shared().library
    }
    fn book(&self) -> &LazyHash<FontBook> {
        &shared().book
    }
    fn main(&self) -> FileId {
        self.main.id()
    }
    fn source(&self, id: FileId) -> FileResult<Text> {
        [&self.main, &self.look].into_iter().find(|text| text.id() == id).cloned().ok_or_else(|| missing(id))
    }
    fn file(&self, id: FileId) -> FileResult<Bytes> {
        self.pictures
            .iter()
            .find(|(name, _)| *name == id)
            .map(|(_, svg)| svg.clone())
            .ok_or_else(|| missing(id))
    }
    fn font(&self, index: usize) -> Option<Font> {
        faces().get(index).cloned()
    }
    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        None
    }
}

fn missing(id: FileId) -> FileError {
    FileError::NotFound(id.vpath().get_with_slash().into())
}
