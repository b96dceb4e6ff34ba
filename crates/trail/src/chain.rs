//! A chain of thought: one thing is supposed, and one thing follows from the other.

use grid::{CellSet, DigitSet, House};
use rulebook::{Claim, ClueId};

/// That one of the cells holds one of the digits, or that none does.
///
/// Either there is one cell, with one digit or with the crusts, or there is one digit and the cells lie in
/// one line and one box.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Stated {
    /// The cells.
    pub cells: CellSet,
    /// The digits.
    pub digits: DigitSet,
    /// Whether one of the cells holds one of the digits.
    pub holds: bool,
}

impl Stated {
    /// The opposite.
    #[must_use]
    pub fn opposite(self) -> Stated {
        Stated { holds: !self.holds, ..self }
    }
}

/// What follows from what was stated just before.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Inference {
    /// What follows.
    pub then: Stated,
    /// Why.
    pub because: Follows,
}

/// Why one thing follows from another.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Follows {
    /// The cell holds one digit, and has no others left than those spoken of.
    Cell,
    /// The house holds the digit once, and has no other places for it than those spoken of.
    House(House),
    /// The clue has no way without it.
    Clue(ClueId),
    /// A fact known before has no way without it.
    Known(Claim),
}
