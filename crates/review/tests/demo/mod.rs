//! The demo pack's puzzles, which Galley set itself, proved and explained.

use std::fs;
use std::path::PathBuf;

use packfile::{SourceFile, read_puzzle};
use prove::{Limit, Verdict};
use reason::{Search, Settings};
use rulebook::Puzzle;
use trail::Walkthrough;

/// The puzzles of these numbers, in the order of their names, each with its walkthrough.
pub(crate) fn demo(chosen: impl Fn(usize) -> bool) -> Vec<(String, Puzzle, Walkthrough)> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo/lantern-room/puzzles");
    let mut files: Vec<PathBuf> = fs::read_dir(folder).unwrap().map(|it| it.unwrap().path()).collect();
    files.sort();
    let chosen = files.into_iter().enumerate().filter(|it| chosen(it.0));
    chosen.map(|it| explained(it.1)).collect()
}

fn explained(path: PathBuf) -> (String, Puzzle, Walkthrough) {
    let name = path.file_stem().unwrap().to_string_lossy().into_owned();
    let file = SourceFile::new(format!("puzzles/{name}.toml"), fs::read(&path).unwrap());
    let puzzle = read_puzzle(&file).0.unwrap().puzzle;
    let Verdict::One(solution) = prove::verdict(&puzzle, Limit(10_000_000)) else { panic!("{name}") };
    let settings = Settings { search: Search::EasiestNext, ..Settings::THOROUGH };
    let checked = reason::explain(&puzzle, &solution, settings).unwrap();
    (name, puzzle, checked.walkthrough().clone())
}
