//! Teaching puzzles from a seed: all clues, and givens taken away only while techniques alone finish the puzzle.

use grid::{Cell, Size};
use reason::{Settings, solve};
use rulebook::Puzzle;

use crate::seeded::{self, Made, Seeded};

/// The 9x9 puzzle of that seed.
pub(crate) fn teaching(seed: u64) -> Made {
    let Made { puzzle, solution } = seeded::puzzle(Size::NINE, 18, seed);
    let clues = puzzle.clues().to_vec();
    let mut seeded = Seeded::new(seed);
    let mut givens = solution.clone();
    let mut cells: Vec<Cell> = Size::NINE.cells().collect();
    while !cells.is_empty() {
        let cell = cells.swap_remove(seeded.below(cells.len()));
        let fewer = givens.clone().with(cell, None);
        let puzzle = Puzzle::new(fewer.clone(), clues.clone());
        if solve(&puzzle, &solution, Settings::TECHNIQUES_ALONE).is_ok() {
            givens = fewer;
        }
    }
    Made { puzzle: Puzzle::new(givens, clues), solution }
}
