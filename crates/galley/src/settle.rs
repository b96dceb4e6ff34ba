//! Whether one more given settles a puzzle that has several solutions: tried before it is suggested.

use grid::{Cell, Digit};
use prove::{Limit, Many, Verdict, verdict};
use rulebook::Puzzle;

/// How many givens are tried: the first cells in which the solutions differ, with both digits.
const TRIED: usize = 12;

/// What one trial may cost, in nodes of the search: suggestions are not worth a long wait.
const TRIAL: Limit = Limit(100_000);

/// The first given among those tried that leaves exactly one solution.
pub(crate) fn by_one_given(puzzle: &Puzzle, many: &Many) -> Option<(Cell, Digit)> {
    let both = differences(many).flat_map(|(cell, first, second)| [(cell, first), (cell, second)]);
    both.take(TRIED).find(|&(cell, digit)| {
        let with_given =
            Puzzle::new(puzzle.givens().clone().with(cell, Some(digit)), puzzle.clues().iter().copied());
        matches!(verdict(&with_given, TRIAL), Verdict::One(_))
    })
}

/// The cells in which two solutions differ, and what they hold there, in reading order.
pub(crate) fn differences(many: &Many) -> impl Iterator<Item = (Cell, Digit, Digit)> {
    many.first.filled().filter_map(|(cell, first)| {
        let second = many.second.get(cell)?;
        (first != second).then_some((cell, first, second))
    })
}
