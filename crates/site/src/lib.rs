//! The static site of a pack: an index in pack order, a primer and one page a puzzle, for solvers.
//!
//! [`site`] makes the files, bytes in and bytes out: nothing fetched from elsewhere, links that work from a disk as well
//! as from a server, and each puzzle's board and rules on one sheet of paper. With its script (`play/`, whose entry is
//! `main.js`) a puzzle's page is a sheet to write on, with help from the engine (`player`); without it, a sheet to print.
//! Hints, walkthrough and solution stay folded until they are asked for.
//!
//! Only puzzles that may be published are in it ([`StudiedPack::published`]). Of the others no file holds
//! a word. What only the editor should read (notes, permissions, what the setter intended) stays out
//! too.
//!
//! [`read_back()`] reads the puzzles out of the finished files again, from what is drawn, so that
//! whoever publishes them can prove them as printed.
//!
//! Left out for now: search, feeds. Words for steps, techniques and rules are
//! `tell`'s, boards and colours are `draw`'s; the site's own sentences are in `words`.

mod contents;
mod embedded;
mod frame;
mod index;
mod play;
mod primer;
mod puzzle;
mod read_back;
mod walkthrough;
mod words;

use std::collections::BTreeMap;

use ::primer::Primer;
use study::StudiedPack;

pub use read_back::{Difference, Fault, ReadError, ReadPuzzle, read_back};

use crate::contents::Contents;

/// The files of a site: what each holds, by its path within the site; folders are parted by `/`.
pub type Files = BTreeMap<String, Vec<u8>>;

/// The site of a pack: every puzzle that may be published, and a page of its lessons if it has any. Equal packs give
/// equal bytes.
pub fn site(pack: &StudiedPack, lessons: &Primer) -> Files {
    let contents = Contents::new(pack, lessons);
    let mut files = Files::from([
        (frame::STYLE_PATH.to_owned(), frame::style().into_bytes()),
        (frame::ICON_PATH.to_owned(), frame::icon().into_bytes()),
        (index::PATH.to_owned(), index::page(&contents).into_bytes()),
    ]);
    if !contents.published.is_empty() {
        files.extend(play::files());
    }
    if !lessons.lessons.is_empty() {
        files.insert(primer::PATH.to_owned(), primer::page(&contents).into_bytes());
    }
    for at in 0..contents.published.len() {
        let id = &contents.published[at].study.entry().id;
        files.insert(puzzle::path(id), puzzle::page(&contents, at).into_bytes());
    }
    files
}
