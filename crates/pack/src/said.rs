//! What a recording says of a puzzle's place, and whether that is still true.

use std::fmt;

use trail::TechniqueId;

use crate::{Placed, PuzzleId};

/// Something that is said of a puzzle's place in a recording that exists already.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Said {
    /// It is the first of the pack.
    First,
    /// It is the last of the pack.
    Last,
    /// It has that number, from 1.
    Number(usize),
    /// It comes after that puzzle, at once or later.
    After(PuzzleId),
    /// It comes before that puzzle, at once or earlier.
    Before(PuzzleId),
    /// It comes just after that puzzle.
    RightAfter(PuzzleId),
    /// It is the first that uses the technique.
    FirstWith(TechniqueId),
    /// It uses nothing that is new.
    NothingNew,
    /// It takes longer than every puzzle before it.
    LongestSoFar,
}

/// The words of each that takes none of a pack's own names, as a file has them.
pub const SAID_PLAINLY: [(&str, Said); 4] = [
    ("first of the pack", Said::First),
    ("last of the pack", Said::Last),
    ("nothing new", Said::NothingNew),
    ("longest so far", Said::LongestSoFar),
];

impl Said {
    /// Whether it is true of the puzzle at that place, from 0, of an order; `seconds` are the times of the puzzles
    /// there. Of a puzzle that the order does not have, nothing is true.
    ///
    /// What a technique that is known from the start would be the first with is nothing: it is never new.
    pub fn is_true(&self, at: usize, placed: &[Placed], seconds: &[u64]) -> bool {
        let Some(it) = placed.get(at) else { return false };
        let place_of = |id: &PuzzleId| placed.iter().position(|it| it.id == *id);
        match self {
            Said::First => at == 0,
            Said::Last => at + 1 == placed.len(),
            Said::Number(number) => at + 1 == *number,
            Said::After(id) => place_of(id).is_some_and(|it| it < at),
            Said::Before(id) => place_of(id).is_some_and(|it| it > at),
            Said::RightAfter(id) => place_of(id).is_some_and(|it| it + 1 == at),
            Said::FirstWith(technique) => it.new.contains(technique),
            Said::NothingNew => it.new.is_empty(),
            Said::LongestSoFar => seconds[..at].iter().all(|it| *it < seconds[at]),
        }
    }
}

/// Prints the words that a file has for it.
impl fmt::Display for Said {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Said::Number(number) => write!(f, "number {number}"),
            Said::After(id) => write!(f, "after {id}"),
            Said::Before(id) => write!(f, "before {id}"),
            Said::RightAfter(id) => write!(f, "right after {id}"),
            Said::FirstWith(technique) => write!(f, "first with {technique}"),
            Said::First | Said::Last | Said::NothingNew | Said::LongestSoFar => {
                let words = SAID_PLAINLY.iter().find(|it| it.1 == *self);
                f.write_str(words.map_or("", |it| it.0))
            }
        }
    }
}
