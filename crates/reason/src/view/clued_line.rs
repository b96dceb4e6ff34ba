//! Lines with a sandwich clue, and the sets of digits that make it.

use grid::{DigitSet, House};
use rulebook::{ClueId, Puzzle, SANDWICH, filling_sets};

/// A line with a sandwich clue.
#[derive(Clone, Debug)]
pub(crate) struct CluedLine {
    pub(crate) line: House,
    pub(crate) clue: ClueId,
    pub(crate) sum: u16,
    /// The sets of filling digits with that sum, fewest digits first.
    pub(crate) sets: Vec<DigitSet>,
}

impl CluedLine {
    /// The line, if it has such a clue.
    pub(crate) fn of(puzzle: &Puzzle, line: House) -> Option<CluedLine> {
        let (clue, sum) = puzzle.clue_at(&SANDWICH, line).map(|(id, it)| (id, it.value))?;
        Some(CluedLine { line, clue, sum, sets: filling_sets(puzzle.size(), sum) })
    }
}
