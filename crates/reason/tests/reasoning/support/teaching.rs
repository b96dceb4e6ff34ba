//! Teaching puzzles from a seed: all clues, and givens taken away only while techniques alone finish the puzzle, other
//! than the last, which is for where those lead no farther.

use grid::{Cell, Size};
use reason::{Known, Settings, TECHNIQUES, solve};
use rulebook::Puzzle;

use crate::seeded::{self, Made, Seeded};

/// The 9x9 puzzle of that seed.
pub(crate) fn teaching(seed: u64) -> Made {
    let Made { puzzle, solution } = seeded::puzzle(Size::NINE, 18, seed);
    let clues = puzzle.clues().to_vec();
    let mut seeded = Seeded::new(seed);
    let mut givens = solution.clone();
    let known = Known::ALL.without(TECHNIQUES[TECHNIQUES.len() - 1].id());
    let settings = Settings { known, ..Settings::TECHNIQUES_ALONE };
    let mut cells: Vec<Cell> = Size::NINE.cells().collect();
    while !cells.is_empty() {
        let cell = cells.swap_remove(seeded.below(cells.len()));
        let fewer = givens.clone().with(cell, None);
        let puzzle = Puzzle::new(fewer.clone(), clues.clone());
        if solve(&puzzle, &solution, settings).is_ok() {
            givens = fewer;
        }
    }
    Made { puzzle: Puzzle::new(givens, clues), solution }
}
