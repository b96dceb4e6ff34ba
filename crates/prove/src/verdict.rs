//! The questions that can be asked, and what is answered.

use grid::{Digit, Grid};
use rulebook::Puzzle;

use crate::prover::with_kept;

/// How many nodes of the search an answer may cost. A node is one state of the board looked into:
/// the page itself, and each digit tried in a cell.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct Limit(pub u64);

/// Whether a puzzle is sound.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Verdict {
    /// Exactly this solution.
    One(Grid),
    /// No solution.
    None,
    /// At least two solutions.
    Many(Many),
    /// The limit was reached first.
    Undecided,
}

/// Two different solutions of one puzzle.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Many {
    /// One of them.
    pub first: Grid,
    /// Another.
    pub second: Grid,
    /// Two digits that nothing on the page tells apart, if there are such: the second solution is then
    /// the first with these exchanged.
    pub exchange: Option<(Digit, Digit)>,
}

/// Decides whether the puzzle has one solution, none, or several.
///
/// Where nothing on the page tells two digits apart ([`Puzzle::exchange`]), one solution is never
/// alone, and the search stops at the first.
pub fn verdict(puzzle: &Puzzle, limit: Limit) -> Verdict {
    with_kept(|it| it.verdict(puzzle, limit))
}

/// Counts solutions, but not beyond `up_to`; none if the limit is reached first.
///
/// It counts by search alone, so it is also a check on what [`verdict`] takes from
/// [`Puzzle::exchange`].
pub fn count(puzzle: &Puzzle, up_to: u64, limit: Limit) -> Option<u64> {
    with_kept(|it| it.count(puzzle, up_to, limit))
}

/// Some solution, found by trying digits in the caller's order; none if there is none or the limit is
/// reached first.
///
/// `prefer` is shown the digits that a cell can still hold, rising, and says by index which to try
/// first (an index past the end means the last). With a seeded `prefer` this draws a random grid.
pub fn some_solution(
    puzzle: &Puzzle,
    limit: Limit,
    prefer: &mut dyn FnMut(&[Digit]) -> usize,
) -> Option<Grid> {
    with_kept(|it| it.some_solution(puzzle, limit, prefer))
}
