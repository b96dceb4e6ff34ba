//! The picture of each rule, and the list of all of them.
//!
//! A rule's picture is one small file in `rules/`: where its clues stand and how its own marks look
//! in a cell.

mod sandwich;

use grid::{Cell, HouseKind};
use rulebook::{Clue, Rule};

use crate::Marks;
use crate::sheet::{Pen, Square};

/// The picture of every rule, in the order in which their clues stand outwards from the board.
static PICTURES: [&dyn Picture; 1] = [&sandwich::SANDWICH];

/// The edge of the board at which a clue stands.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(crate) enum Edge {
    /// In a column of figures left of the board.
    Left,
    /// In a row of figures above the board.
    Above,
}

/// How a rule looks.
pub(crate) trait Picture: Sync {
    /// The rule.
    fn rule(&self) -> &'static dyn Rule;

    /// Where a clue of a row or a column stands.
    fn edge(&self, line: HouseKind) -> Edge;

    /// What is printed for the clue.
    fn figure(&self, clue: &Clue) -> String;

    /// The marks of this rule in a cell. If the cell is `busy`, a digit or candidates will be written
    /// over them and must stay readable.
    fn cell_marks(&self, marks: &Marks, cell: Cell, square: Square, pen: &Pen, busy: bool) -> String;
}

/// Every picture, from the board outwards.
pub(crate) fn pictures() -> impl Iterator<Item = &'static dyn Picture> {
    PICTURES.into_iter()
}

pub(crate) use sandwich::{hatching, ring};

#[cfg(test)]
mod tests {
    use rulebook::RULES;

    use super::*;

    #[test]
    fn every_rule_has_one_picture() {
        for rule in RULES {
            let n_pictures = pictures().filter(|it| it.rule().id() == rule.id()).count();
            assert_eq!(n_pictures, 1, "{rule:?}");
        }
        assert_eq!(PICTURES.len(), RULES.len());
    }
}
