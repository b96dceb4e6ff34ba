//! What would make a puzzle sound that is not: what contradicts itself and which single changes mend it,
//! or which additions settle it.

use grid::Grid;
use prove::{
    Conflict, Digging, Effort, Limit, Many, Mends, Settling, SingleGivens, conflict, fewest, mends,
    open_clues, open_givens, single_givens,
};
use rulebook::Puzzle;

/// Nodes for each of the many proofs that an answer takes: a typical one takes a few.
const PROOF: Limit = Limit(20_000);

/// Solutions are counted up to so many.
const COUNTED: u64 = 100;

/// A first conflict is nearly always found and made irreducible within this; what is spent beyond goes into
/// making it, or proving it, the smallest.
const DIGGING: Digging = Digging { work: 50_000, limit: Limit(1_000), more_work: 100_000, choices: 50_000 };

/// For the fewest additions.
const EFFORT: Effort = Effort { limit: PROOF, verdicts: 5_000, choices: 200_000 };

/// What would make a puzzle sound that is not.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Repair {
    /// It has no solution.
    Mending(Mending),
    /// It has several.
    Settlings(Settlings),
}

/// For a puzzle without a solution.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Mending {
    /// What contradicts itself, if it was found.
    pub conflict: Option<Conflict>,
    /// The changes of one thing that leave a solution.
    pub mends: Mends,
}

/// For a puzzle with several solutions.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Settlings {
    /// Every given that leaves one solution by itself.
    pub single: SingleGivens,
    /// The fewest additions for each of two solutions.
    pub towards: [Towards; 2],
}

/// The fewest additions that leave one chosen solution.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Towards {
    /// The solution.
    pub solution: Grid,
    /// Givens alone; none if none were found within the work allowed.
    pub givens: Option<Settling>,
    /// Clues alone; none if not all of them together are enough, or none were found.
    pub clues: Option<Settling>,
}

impl Mending {
    /// For a puzzle that has no solution.
    pub fn of(puzzle: &Puzzle) -> Mending {
        Mending { conflict: conflict(puzzle, DIGGING), mends: mends(puzzle, COUNTED, PROOF) }
    }
}

impl Settlings {
    /// For a puzzle that has these two solutions.
    pub fn of(puzzle: &Puzzle, many: &Many) -> Settlings {
        Settlings {
            single: single_givens(puzzle, many, PROOF),
            towards: [&many.first, &many.second].map(|it| Towards::of(puzzle, it)),
        }
    }
}

impl Towards {
    /// For a puzzle that has this solution among others.
    pub fn of(puzzle: &Puzzle, solution: &Grid) -> Towards {
        let fewest = |offered: Vec<_>| fewest(puzzle, solution, &offered, EFFORT);
        Towards {
            givens: fewest(open_givens(puzzle, solution)),
            clues: fewest(open_clues(puzzle, solution)),
            solution: solution.clone(),
        }
    }
}
