//! The marks that a rule gives a solver's cells: what they are called, and the keys that set them.
//!
//! One list a rule. A key is the first letter of its mark's name.

use rulebook::{Puzzle, Rule, SANDWICH};

/// A kind of cell that a solver may mark before its digit is known.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct CellMark {
    /// What files call it.
    pub id: &'static str,
    /// What it is called.
    pub name: &'static str,
    /// The key that sets it.
    pub key: char,
}

/// The marks of the sandwich rule.
const OF_SANDWICH: [CellMark; 2] = [
    CellMark { id: "crust", name: "crust", key: 'c' },
    CellMark { id: "filling", name: "filling", key: 'f' },
];

/// The marks that go with the puzzle's rules; none for a classic one.
pub fn cell_marks(puzzle: &Puzzle) -> &'static [CellMark] {
    let is_sandwich = puzzle.clues().iter().any(|it| it.rule.id() == SANDWICH.id());
    if is_sandwich { &OF_SANDWICH } else { &[] }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_two_marks_share_a_key_and_each_key_is_the_first_letter() {
        for (at, it) in OF_SANDWICH.iter().enumerate() {
            assert_eq!(it.name.chars().next(), Some(it.key));
            assert!(OF_SANDWICH[..at].iter().all(|other| other.key != it.key && other.id != it.id));
        }
    }
}
