//! The pack as a booklet to print, as PDF, and the booklet read back.
//!
//! [`booklet()`] sets a studied pack with typst: title page, how to play, list of puzzles, primer, one puzzle a
//! page, three stages of hints, a reference card of sandwich sums, solutions, credits. It is pure: a
//! pack goes in, bytes come out, and equal packs give equal bytes. The layout is one template,
//! `booklet.typ`; what it prints comes in as values (`data`), so no text of a pack can break it or
//! reach into it. Boards, fonts and the typesetter itself are in `typeset`. The file is a tagged PDF that keeps to
//! PDF/UA-1, with a board in words for those who do not see it.
//!
//! [`read_back()`] finds every puzzle again on the finished pages, from what is drawn there, so that it
//! can be proved again as printed.
//!
//! Only puzzles that may be published are in a booklet ([`StudiedPack::published`]). Every text that
//! could not be printed as it is is said. Left out here: the editor's own
//! notes, which are not for solvers; wording of rules and steps (`tell`); and where the file is written
//! to (`galley`).

mod address;
mod data;
mod edition;
mod hints;
mod howto;
mod lattice;
mod lessons;
mod page;
mod printed_text;
mod read_back;
mod roles;
mod sums;
mod walkthroughs;
mod words;

use std::fmt;

use pack::Day;
use primer::Primer;
use study::StudiedPack;
use typst::foundations::Datetime;

pub use edition::Edition;
pub use printed_text::PrintedText;
pub use read_back::{PrintedPuzzle, ReadError, read_back};
pub use typeset::Alteration;

use typeset::{Printer, Writing, typeset};

/// The layout of the booklet.
const TEMPLATE: &str = include_str!("booklet.typ");

/// A booklet, and what the editor should know about it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Booklet {
    /// The PDF file.
    pub bytes: Vec<u8>,
    /// The puzzles in it, as [`read_back()`] must find them in the file.
    pub printed: Vec<PrintedPuzzle>,
    /// Texts of the pack that could not be printed as they are.
    pub alterations: Vec<Alteration>,
}

/// Why there is no booklet.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum BookletError {
    /// No puzzle of the pack may be published.
    Empty,
    /// The typesetter refused the booklet, in its own words: a mistake in Galley's template.
    Typesetter(String),
}

/// Sets the booklet of a pack: every puzzle that may be published, in the pack's order and with its
/// number there. It refuses a pack of which nothing may be published.
pub fn booklet(pack: &StudiedPack, lessons: &Primer, edition: &Edition) -> Result<Booklet, BookletError> {
    set(pack, lessons, edition, false)
}

/// `is_plain` leaves the instructions on the pages readable in the file; for tests.
fn set(
    pack: &StudiedPack,
    lessons: &Primer,
    edition: &Edition,
    is_plain: bool,
) -> Result<Booklet, BookletError> {
    let published = pack.published();
    if published.is_empty() {
        return Err(BookletError::Empty);
    }
    let mut printer = Printer::default();
    let (data, printed) = data::data(pack, &published, lessons, edition, &mut printer);
    let writing = Writing { issued: edition.issued.and_then(datetime), is_plain };
    let bytes = typeset(TEMPLATE, data, writing).map_err(BookletError::Typesetter)?;
    Ok(Booklet { bytes, printed, alterations: printer.into_alterations() })
}

impl fmt::Display for BookletError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            BookletError::Empty => f.write_str("no puzzle of the pack may be published"),
            BookletError::Typesetter(message) => write!(f, "the booklet could not be set: {message}"),
        }
    }
}

impl std::error::Error for BookletError {}

#[cfg(test)]
mod tests;

/// A day as the typesetter has it.
fn datetime(day: Day) -> Option<Datetime> {
    Datetime::from_ymd(i32::from(day.year()), day.month(), day.day())
}
