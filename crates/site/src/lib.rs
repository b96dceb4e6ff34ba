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
//! Pages of other crates that reuse the site's scripts have [`puzzle_data`], [`engine_script`] and [`BOARD_STYLE`] from here.
//!
//! Left out for now: search. Words for steps, techniques and rules are
//! `tell`'s, boards and colours are `draw`'s; the site's own sentences are in `words`.

mod address;
mod contents;
mod embedded;
mod feed;
mod frame;
mod index;
mod metadata;
mod not_found;
mod offline;
mod play;
mod preview;
mod primer;
mod puzzle;
mod read_back;
mod recording;
mod walkthrough;
mod words;

use std::collections::BTreeMap;

use ::primer::Primer;
use pack::{Day, PackInfo, PuzzleId};
use study::StudiedPack;

pub use embedded::{PUZZLE_DATA, puzzle_data};
pub use frame::BOARD_STYLE;
pub use play::engine_script;
pub use read_back::{Difference, Fault, ReadError, ReadPuzzle, read_back};

use crate::contents::Contents;

/// The files of a site: what each holds, by its path within the site; folders are parted by `/`.
pub type Files = BTreeMap<String, Vec<u8>>;

/// The site of a pack: every puzzle that may be published, and a page of its lessons if it has any. Equal packs give
/// equal bytes. `issued` is the day on which it comes out, by which recordings are out or not yet.
///
/// A feed, a map for search engines and pictures for link previews need whole addresses: they are there only if the pack
/// says where the site will be, and the feed only if there is a day.
pub fn site(pack: &StudiedPack, lessons: &Primer, issued: Option<Day>) -> Files {
    let contents = Contents::new(pack, lessons, issued);
    let mut files = Files::new();
    let mut put = |path: &str, bytes: Vec<u8>| _ = files.insert(path.to_owned(), bytes);
    put(frame::STYLE_PATH, frame::style().into_bytes());
    put(frame::ICON_PATH, frame::icon().into_bytes());
    put(offline::SCRIPT_PATH, offline::SCRIPT.as_bytes().to_vec());
    put(index::PATH, index::page(&contents).into_bytes());
    put(not_found::PATH, not_found::page(&contents).into_bytes());
    if !lessons.lessons.is_empty() {
        put(primer::PATH, primer::page(&contents).into_bytes());
    }
    for at in 0..contents.published.len() {
        let id = &contents.published[at].study.entry().id;
        put(&puzzle::path(id), puzzle::page(&contents, at).into_bytes());
    }
    if !contents.published.is_empty() {
        files.extend(play::files());
        files.extend(for_machines(&contents));
    }
    let worker = offline::worker(&files);
    files.insert(offline::WORKER_PATH.to_owned(), worker.into_bytes());
    files
}

/// The whole address of a pack's site, if the pack names a folder on the web.
pub fn pack_address(info: &PackInfo) -> Option<String> {
    address::address(info, "")
}

/// The whole address of a puzzle's page, if the pack names a folder on the web.
pub fn puzzle_address(info: &PackInfo, id: &PuzzleId) -> Option<String> {
    address::address(info, &puzzle::path(id))
}

/// The feed, the map and the pictures, as far as there can be any.
fn for_machines(contents: &Contents) -> Files {
    let mut files = Files::new();
    files.extend(feed::feed(contents).map(|it| (feed::PATH.to_owned(), it.into_bytes())));
    if let Some(map) = feed::map(contents) {
        let address = address::address(contents.info, feed::MAP_PATH).unwrap_or_default();
        files.insert(feed::MAP_PATH.to_owned(), map.into_bytes());
        files.insert(
            "robots.txt".to_owned(),
            format!("User-agent: *\nAllow: /\nSitemap: {address}\n").into_bytes(),
        );
        files.extend(preview::of_pack(contents).map(|bytes| (preview::PACK_PATH.to_owned(), bytes)));
        for it in &contents.published {
            let path = preview::path(&it.study.entry().id);
            files.extend(preview::of_puzzle(contents, it).map(|bytes| (path, bytes)));
        }
    }
    files
}
