//! What is printed on a page, one thing at a time: each given and each clue.

use std::fmt;

use grid::{Cell, Digit, Grid};
use rulebook::{Clue, Puzzle};

/// One given or one clue.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Printed {
    /// A digit printed in a cell.
    Given(Cell, Digit),
    /// A number printed beside a line.
    Clue(Clue),
}

impl Printed {
    /// Everything that is printed: the givens in reading order, then the clues in their own.
    pub fn all(puzzle: &Puzzle) -> Vec<Printed> {
        let givens = puzzle.givens().filled().map(|(cell, digit)| Printed::Given(cell, digit));
        givens.chain(puzzle.clues().iter().map(|it| Printed::Clue(*it))).collect()
    }

    /// The digit or number.
    pub fn value(self) -> u16 {
        match self {
            Printed::Given(_, digit) => u16::from(digit.get()),
            Printed::Clue(clue) => clue.value,
        }
    }

    /// Whether it may stand on the page of a puzzle with this solution.
    pub fn is_true_of(self, solution: &Grid) -> bool {
        match self {
            Printed::Given(cell, digit) => solution.get(cell) == Some(digit),
            Printed::Clue(clue) => {
                let line = solution.size().cells_of(clue.line).into_iter().map(|it| solution.get(it));
                let line: Option<Vec<Digit>> = line.collect();
                line.is_some_and(|it| clue.rule.allows(solution.size(), clue.value, &it))
            }
        }
    }

    /// The puzzle without it.
    #[must_use]
    pub fn taken_from(self, puzzle: &Puzzle) -> Puzzle {
        match self {
            Printed::Given(cell, _) => with_givens(puzzle, puzzle.givens().clone().with(cell, None)),
            Printed::Clue(clue) => {
                let others = puzzle.clues().iter().copied().filter(|it| !is_same_place(it, &clue));
                Puzzle::new(puzzle.givens().clone(), others)
            }
        }
    }

    /// The puzzle with it, in the place of what stood there.
    #[must_use]
    pub fn added_to(self, puzzle: &Puzzle) -> Puzzle {
        match self {
            Printed::Given(cell, digit) => {
                with_givens(puzzle, puzzle.givens().clone().with(cell, Some(digit)))
            }
            // Of two clues in one place the first counts.
            Printed::Clue(clue) => {
                Puzzle::new(puzzle.givens().clone(), [clue].into_iter().chain(puzzle.clues().iter().copied()))
            }
        }
    }
}

fn with_givens(puzzle: &Puzzle, givens: Grid) -> Puzzle {
    Puzzle::new(givens, puzzle.clues().iter().copied())
}

/// Whether two clues would stand in the same place, so that only one of them can.
pub(crate) fn is_same_place(a: &Clue, b: &Clue) -> bool {
    (a.line, a.rule.id()) == (b.line, b.rule.id())
}

/// Prints `r4c7 = 5` or `sandwich row 4 = 12`.
impl fmt::Debug for Printed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Printed::Given(cell, digit) => write!(f, "{cell} = {digit}"),
            Printed::Clue(clue) => clue.fmt(f),
        }
    }
}
