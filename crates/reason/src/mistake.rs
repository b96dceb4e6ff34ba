//! What is wrong on a solver's sheet, if anything is.
//!
//! What can be seen from the rules is found before what only the solution knows, for it can be shown without giving
//! anything away.

use grid::{Cell, CellSet, Digit, DigitSet, Grid, House};
use rulebook::{Claim, ClueId, Puzzle};

use crate::explain::is_true;

/// What a solver has written, right or wrong.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Written {
    /// Digits, the givens among them.
    pub ink: Grid,
    /// The pencilled digits of each cell that has more than one, where they mean that the cell is one of these.
    pub pencil: Vec<(Cell, DigitSet)>,
    /// Kinds of cells: [`Claim::Crust`] and [`Claim::Filling`].
    pub marks: Vec<Claim>,
}

impl Written {
    /// The claims that pencil marks and marks make beyond what the board shows, and the cells that are pencilled.
    pub fn notes(&self) -> (Vec<Claim>, CellSet) {
        let size = self.ink.size();
        let seen = |cell: Cell| -> DigitSet {
            let houses = size.houses_of(cell);
            let peers = houses.iter().flat_map(|it| size.cells_of(*it));
            peers.filter_map(|it| self.ink.get(it)).collect()
        };
        let mut notes = self.marks.clone();
        for (cell, digits) in &self.pencil {
            let left_out = size.digits() - *digits - seen(*cell);
            notes.extend(left_out.iter().map(|it| Claim::IsNot(*cell, it)));
        }
        (notes, self.pencil.iter().map(|it| it.0).collect())
    }
}

/// Something that does not fit.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Mistake {
    /// A house has a digit more than once, in these cells.
    Repeat {
        /// The house.
        house: House,
        /// The digit.
        digit: Digit,
        /// Its cells.
        cells: CellSet,
    },
    /// A line is full and does not satisfy its clue.
    Clue {
        /// The clue.
        clue: ClueId,
        /// Its line.
        line: House,
    },
    /// A digit is not the solution's.
    Digit(Cell, Digit),
    /// The pencil marks of a cell leave out its digit.
    Pencil(Cell),
    /// A cell is not of the kind it is marked as.
    Mark(Cell, Claim),
}

/// The first mistake: what the rules show, then wrong digits, pencil marks and kinds, each in reading order. `solution`
/// is the puzzle's only one.
pub fn mistake(puzzle: &Puzzle, written: &Written, solution: &Grid) -> Option<Mistake> {
    let size = puzzle.size();
    let repeat = || size.houses().find_map(|house| repeated(&written.ink, house));
    let clue = || {
        let mut broken = puzzle.clue_ids().filter(|(_, it)| {
            let digits: Option<Vec<Digit>> =
                size.cells_of(it.line).into_iter().map(|cell| written.ink.get(cell)).collect();
            digits.is_some_and(|digits| !it.rule.allows(size, it.value, &digits))
        });
        broken.next().map(|(clue, it)| Mistake::Clue { clue, line: it.line })
    };
    let digit = || {
        let mut wrong = written.ink.filled().filter(|&(cell, digit)| solution.get(cell) != Some(digit));
        wrong.next().map(|(cell, digit)| Mistake::Digit(cell, digit))
    };
    let pencil = || {
        let leaves_out =
            |it: &&(Cell, DigitSet)| solution.get(it.0).is_some_and(|digit| !it.1.contains(digit));
        written.pencil.iter().find(leaves_out).map(|it| Mistake::Pencil(it.0))
    };
    let mark = || {
        let wrong = written.marks.iter().find(|it| !is_true(size, solution, it))?;
        Some(Mistake::Mark(wrong.cell()?, *wrong))
    };
    repeat().or_else(clue).or_else(digit).or_else(pencil).or_else(mark)
}

fn repeated(ink: &Grid, house: House) -> Option<Mistake> {
    let size = ink.size();
    let holding = |digit: Digit| -> CellSet {
        size.cells_of(house).into_iter().filter(|it| ink.get(*it) == Some(digit)).collect()
    };
    let digits = size.digits();
    let twice = digits.iter().map(|it| (it, holding(it))).find(|it| it.1.len() > 1);
    twice.map(|(digit, cells)| Mistake::Repeat { house, digit, cells })
}
