//! All that the typesetter can see: one template, what all templates share, the fonts, and the data it is given.
//!
//! There are no other files, no packages and no clock, whatever a template or a pack may ask for.

use std::sync::LazyLock;

use typst::diag::{FileError, FileResult, SourceDiagnostic, Warned};
use typst::foundations::{Bytes, Datetime, Dict, Duration, Smart};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World, WorldExt};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards, Timestamp};

use crate::fonts::FONTS;

/// What all templates share: they import it as `board.typ`.
static SHARED: LazyLock<Source> = LazyLock::new(|| source("board.typ", include_str!("board.typ")));

fn source(name: &str, text: &str) -> Source {
    let path = VirtualPath::new(name).unwrap_or_else(|_| unreachable!("it is a plain file name"));
    Source::new(FileId::new(RootedPath::new(VirtualRoot::Project, path)), text.to_owned())
}

/// What a document is set from.
struct Desk {
    library: LazyHash<Library>,
    template: Source,
}

/// How a document is written as PDF.
#[derive(Clone, Copy, Debug)]
pub struct Writing {
    /// When it was issued, for the file's metadata.
    pub issued: Option<Datetime>,
    /// Whether page contents are left readable; for tests.
    pub is_plain: bool,
}

/// Sets the template with `data` (its `sys.inputs`), as a tagged PDF that keeps to PDF/UA-1. A template holds no text of
/// any pack: those come in as values.
///
/// # Errors
///
/// The first thing that the typesetter finds wrong, in its own words; that can only be a mistake in the template.
pub fn typeset(template: &str, data: Dict, writing: Writing) -> Result<Vec<u8>, String> {
    let library = LazyHash::new(Library::builder().with_inputs(data).build());
    let desk = Desk { library, template: source("main.typ", template) };
    let Warned { output, warnings } = typst::compile::<PagedDocument>(&desk);
    let document = output.map_err(|it| said(&desk, &it))?;
    if !warnings.is_empty() {
        return Err(said(&desk, &warnings));
    }
    let standards = PdfStandards::new(&[PdfStandard::Ua_1]).map_err(|it| it.message().to_string())?;
    let options = PdfOptions {
        ident: Smart::Auto,
        creator: Smart::Custom(Some("Galley".to_owned())),
        timestamp: writing.issued.map(Timestamp::new_utc),
        page_ranges: None,
        standards,
        tagged: true,
        pretty: writing.is_plain,
    };
    let pdf = typst_pdf::pdf(&document, &options).map_err(|it| said(&desk, &it));
    // What the typesetter remembers of this document is of no use for the next.
    typst::comemo::evict(0);
    pdf
}

/// The first message, with its line in the template and its hints.
fn said(desk: &Desk, diagnostics: &[SourceDiagnostic]) -> String {
    let Some(first) = diagnostics.first() else { return "no reason given".to_owned() };
    let line = desk.range(first.span).and_then(|it| desk.template.lines().byte_to_line(it.start));
    let place = line.map_or(String::new(), |it| format!("line {}: ", it + 1));
    let hints: String = first.hints.iter().map(|it| format!(" ({})", it.v)).collect();
    format!("{place}{}{hints}", first.message)
}

impl World for Desk {
    fn library(&self) -> &LazyHash<Library> {
        &self.library
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &FONTS.book
    }

    fn main(&self) -> FileId {
        self.template.id()
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        [&self.template, &*SHARED]
            .into_iter()
            .find(|it| it.id() == id)
            .cloned()
            .ok_or(FileError::AccessDenied)
    }

    fn file(&self, _: FileId) -> FileResult<Bytes> {
        Err(FileError::AccessDenied)
    }

    fn font(&self, index: usize) -> Option<Font> {
        FONTS.fonts.get(index).cloned()
    }

    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        None
    }
}
