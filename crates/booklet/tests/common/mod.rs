//! Small packs to make booklets of. The puzzles were set by Galley for these tests.

#![allow(dead_code, reason = "not every test uses every helper")]

use booklet::{Booklet, BookletError, Edition, booklet};
use pack::{Entry, PackInfo};
use packfile::{SourceFile, read_puzzle};
use primer::Primer;
use study::{StudiedPack, study};

/// A 4x4, a 6x6, a 9x9 and a 16x16 puzzle, each with sandwich sums.
pub(crate) const SIZES: [&str; 4] = ["four", "six", "nine", "sixteen"];

/// The puzzle of that name in `tests/data`.
pub(crate) fn entry(name: &str) -> Entry {
    let text = match name {
        "four" => include_str!("../data/four.toml"),
        "six" => include_str!("../data/six.toml"),
        "nine" => include_str!("../data/nine.toml"),
        "sixteen" => include_str!("../data/sixteen.toml"),
        "classic" => include_str!("../data/classic.toml"),
        "several" => include_str!("../data/several.toml"),
        _ => panic!("no puzzle {name}"),
    };
    let (read, problems) = read_puzzle(&SourceFile::new(format!("puzzles/{name}.toml"), text.as_bytes()));
    read.unwrap_or_else(|_| panic!("{name}: {problems:?}"))
}

/// What the test pack says of itself.
pub(crate) fn info() -> PackInfo {
    PackInfo {
        title: "Ferry nights".to_owned(),
        editor: "The reading room".to_owned(),
        licence: Some("CC-BY-4.0".to_owned()),
        shelves: vec!["Early".into(), "Late".into()],
        ..PackInfo::default()
    }
}

/// A pack of those puzzles, in that order.
pub(crate) fn pack_of(info: PackInfo, entries: Vec<Entry>) -> StudiedPack {
    let order = Some(entries.iter().map(|it| it.id.clone()).collect());
    StudiedPack::new(PackInfo { order, ..info }, entries.into_iter().map(|it| study(it, false)).collect())
}

/// The booklet of those puzzles, in that order.
pub(crate) fn try_booklet(info: PackInfo, entries: Vec<Entry>) -> Result<Booklet, BookletError> {
    booklet(
        &pack_of(info, entries),
        &Primer::default(),
        &Edition { issued: None, form: pack::Form::default() },
    )
}

/// The booklet of those puzzles, which must be possible.
pub(crate) fn booklet_of(info: PackInfo, entries: Vec<Entry>) -> Booklet {
    try_booklet(info, entries).unwrap_or_else(|it| panic!("{it}"))
}
