//! The puzzles to measure on: seeded corpora, the same everywhere, and the demo pack.

use std::fs;
use std::path::PathBuf;

use grid::{Grid, Size};
use packfile::{SourceFile, read_puzzle};
use prove::{Limit, Verdict};
use rulebook::Puzzle;

use crate::seeded::{self, Made};
use crate::teaching::teaching;

/// A kind of puzzles.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Corpus {
    /// All clues, and givens taken away only as long as techniques alone finish the puzzle.
    Teaching,
    /// All clues, and every given taken away that can be spared.
    Full,
    /// Twelve clues, and every given taken away that can be spared.
    Sparse,
    /// The puzzles of the demo pack, by name.
    Demo,
    /// No clues: by turns a puzzle with no given to spare and one with 17 givens from outside.
    Classic,
}

impl Corpus {
    /// The corpus of that name.
    pub(crate) fn named(name: &str) -> Option<Corpus> {
        match name {
            "teaching" => Some(Corpus::Teaching),
            "full" => Some(Corpus::Full),
            "sparse" => Some(Corpus::Sparse),
            "demo" => Some(Corpus::Demo),
            "classic" => Some(Corpus::Classic),
            _ => None,
        }
    }

    /// Its puzzle with that number; none where outside data is not at hand.
    pub(crate) fn puzzle(self, number: u64) -> Option<Made> {
        match self {
            Corpus::Teaching => Some(teaching(number)),
            Corpus::Full => Some(seeded::puzzle(Size::NINE, 18, number)),
            Corpus::Sparse => Some(seeded::puzzle(Size::NINE, 12, number)),
            Corpus::Demo => of_the_demo(number),
            Corpus::Classic if number.is_multiple_of(2) => Some(seeded::puzzle(Size::NINE, 0, number / 2)),
            Corpus::Classic => with_17_givens(number / 2),
        }
    }
}

fn of_the_demo(number: u64) -> Option<Made> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo/lantern-room/puzzles");
    let mut files: Vec<PathBuf> = fs::read_dir(folder).ok()?.filter_map(|it| Some(it.ok()?.path())).collect();
    files.sort();
    let path = files.get(number as usize)?;
    let file = SourceFile::new(path.file_name()?.to_string_lossy(), fs::read(path).ok()?);
    with_solution(read_puzzle(&file).0.ok()?.puzzle)
}

/// From the list that `shared/data/README.md` describes, which is no part of this project.
fn with_17_givens(number: u64) -> Option<Made> {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../../shared/data/classic17.txt");
    let text = fs::read_to_string(path).ok()?;
    let puzzle = Puzzle::new(Grid::from_line(text.lines().nth(number as usize)?).ok()?, []);
    with_solution(puzzle)
}

fn with_solution(puzzle: Puzzle) -> Option<Made> {
    match prove::verdict(&puzzle, Limit(1_000_000)) {
        Verdict::One(solution) => Some(Made { puzzle, solution }),
        _ => None,
    }
}
