//! The static site of a pack: an index in pack order and one page a puzzle, for solvers.
//!
//! [`site`] makes the files, bytes in and bytes out: no script, nothing fetched from elsewhere, links
//! that work from a disk as well as from a server, and each puzzle's board and rules on one sheet of
//! paper. Hints, walkthrough and solution stay folded until they are asked for.
//!
//! Only puzzles that may be published are in it: proved to have one solution, explained to the end,
//! and not sealed. Of the others no file holds a word, not even their number; [`Site::left_out`] names
//! them. What only the editor should read (notes, permissions, what the setter intended) stays out
//! too.
//!
//! [`read_back()`] reads the puzzles out of the finished files again, from what is drawn, so that
//! whoever publishes them can prove them as printed.
//!
//! Left out for now: solving on the page, search, feeds. Words for steps, techniques and rules are
//! `tell`'s, boards and colours are `draw`'s; the site's own sentences are in `words`.

mod contents;
mod frame;
mod index;
mod puzzle;
mod read_back;
mod text;
mod walkthrough;
mod words;

use std::collections::BTreeMap;
use std::fmt;

use pack::PuzzleId;
use study::{Finding, StudiedPack, Study};

pub use read_back::{Difference, Fault, ReadError, ReadPuzzle, read_back};

use crate::contents::Contents;

/// The files of a site.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Site {
    /// What each file holds, by its path within the site; folders are parted by `/`.
    pub files: BTreeMap<String, Vec<u8>>,
    /// The puzzles of the pack that are not in it, in pack order, and why.
    pub left_out: Vec<(PuzzleId, LeftOut)>,
}

/// Why a puzzle is not published.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum LeftOut {
    /// It is sealed. Nothing is said about whether it could be published otherwise.
    Sealed,
    /// It is not known to have exactly one solution.
    NotProved,
    /// It has one solution, but no walkthrough.
    NotExplained,
}

impl fmt::Display for LeftOut {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            LeftOut::Sealed => "it is sealed",
            LeftOut::NotProved => "it is not proved to have exactly one solution",
            LeftOut::NotExplained => "it has no walkthrough",
        })
    }
}

/// The site of a pack. Equal packs give equal bytes.
pub fn site(pack: &StudiedPack) -> Site {
    let contents = Contents::new(pack);
    let mut files = BTreeMap::from([
        (frame::STYLE_PATH.to_owned(), frame::style().into_bytes()),
        (frame::ICON_PATH.to_owned(), frame::icon().into_bytes()),
        (index::PATH.to_owned(), index::page(&contents).into_bytes()),
    ]);
    for at in 0..contents.published.len() {
        let id = &contents.published[at].study.entry().id;
        files.insert(puzzle::path(id), puzzle::page(&contents, at).into_bytes());
    }
    let left_out = pack.studies().iter().filter_map(|it| Some((it.entry().id.clone(), left_out(it)?)));
    Site { files, left_out: left_out.collect() }
}

/// Why the puzzle is left out, if it is.
fn left_out(study: &Study) -> Option<LeftOut> {
    match study.finding() {
        _ if study.is_sealed() => Some(LeftOut::Sealed),
        Finding::None | Finding::Many | Finding::Undecided => Some(LeftOut::NotProved),
        Finding::One if !study.is_publishable() => Some(LeftOut::NotExplained),
        Finding::One => None,
    }
}
