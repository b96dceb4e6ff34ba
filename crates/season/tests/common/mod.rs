//! A small pack of 4x4 puzzles, studied.

#![allow(dead_code, reason = "each file of tests uses its part")]

use packfile::{SourceFile, read_pack};
use study::{StudiedPack, study};

/// Sound, and its fingerprint.
pub(crate) const GRID: &str = "1 . | . .\n3 . | 2 .\n----+----\n. . | . .\n. . | 4 .\n";

/// The pack with these lines in `pack.toml`, and puzzles by id, each with its lines and grid.
pub(crate) fn pack(info: &str, puzzles: &[(&str, &str, &str)]) -> StudiedPack {
    let info = SourceFile::new("pack.toml", format!("format = 1\ntitle = \"Trial\"\n{info}"));
    let file = |(id, lines, grid): &(&str, &str, &str)| {
        let text = format!(
            "format = 1\ntitle = \"Puzzle {id}\"\nsetter = \"Fern\"\nsize = \"4x4\"\n{lines}grid = \"\"\"\n{grid}\"\"\"\n"
        );
        SourceFile::new(format!("puzzles/{id}.toml"), text)
    };
    let files: Vec<SourceFile> = puzzles.iter().map(file).collect();
    let (read, problems) = read_pack(Some(&info), &files);
    assert!(problems.iter().all(|it| !it.is_error()), "{problems:?}");
    StudiedPack::new(read.pack.info, read.pack.entries.into_iter().map(|it| study(it, false)).collect())
}

/// The fingerprint of [`GRID`].
pub(crate) fn print() -> String {
    let pack = pack("", &[("a", "", GRID)]);
    packfile::fingerprint(&pack.studies()[0].entry().puzzle)
}
