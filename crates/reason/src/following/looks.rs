//! A look at one house of a board in thought: what the house, or its clue, leaves to its cells.

use std::cell::RefCell;
use std::collections::BTreeMap;

use grid::{Cell, CellSet, DigitSet, House};
use trail::{Cites, Follows};

use crate::View;
use crate::layouts::fit;
use crate::sandwich::Misfits;

/// The digits left to each cell in thought, by [`Cell::slot`].
pub(super) type Board = [DigitSet; Cell::SLOTS];

/// A set of houses, by their places in [`View::houses`].
pub(super) type Houses = u64;

/// A look at the house at that place.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Look {
    pub(super) house: usize,
    /// Whether its clue counts, or only that it holds each digit once.
    pub(super) by_clue: bool,
}

/// Nothing is left for the house.
pub(super) struct NoWay;

/// The longest line there is.
const LONGEST: usize = 16;

/// The houses of a position with their clues.
pub(super) struct Looks<'v> {
    houses: Vec<Looked<'v>>,
    /// By [`Cell::slot`]: the houses that the cell is in.
    of_cell: Vec<Houses>,
    all: DigitSet,
    /// What clued lines leave to their cells, by house and what was left to them: the same is asked again and again.
    known: RefCell<BTreeMap<(usize, Row), Option<Row>>>,
}

/// Digits by cell of a house; empty beyond its cells.
pub(super) type Row = [DigitSet; LONGEST];

struct Looked<'v> {
    house: House,
    cells: &'v [Cell],
    sum: Option<Misfits<'v, 'v>>,
}

impl<'v> Looks<'v> {
    pub(super) fn new(view: &'v View<'v>) -> Looks<'v> {
        let looked = |house: &House| {
            let clued = view.clued_lines().iter().find(|it| it.line == *house);
            let sum = clued.map(|it| Misfits::of_sum(view, it));
            Looked { house: *house, cells: view.cells_of(*house), sum }
        };
        let houses: Vec<Looked> = view.houses().iter().map(looked).collect();
        let mut of_cell = vec![0; Cell::SLOTS];
        for (place, it) in houses.iter().enumerate() {
            it.cells.iter().for_each(|cell| of_cell[cell.slot()] |= 1 << place);
        }
        Looks { houses, of_cell, all: view.size().digits(), known: RefCell::default() }
    }

    /// The most that a look at the house can take in.
    pub(super) fn fullest(&self, house: usize) -> Look {
        Look { house, by_clue: self.houses[house].sum.is_some() }
    }

    pub(super) fn house(&self, place: usize) -> House {
        self.houses[place].house
    }

    pub(super) fn cells(&self, place: usize) -> &'v [Cell] {
        self.houses[place].cells
    }

    /// What a person would call the reason of a look by a clue.
    pub(super) fn follows(&self, place: usize) -> Option<Follows> {
        self.houses[place].sum.as_ref().map(Misfits::follows)
    }

    /// What the look rests on apart from what is known of cells.
    pub(super) fn base(&self, look: Look) -> Cites {
        match &self.houses[look.house].sum {
            Some(sum) if look.by_clue => sum.base_cites(),
            _ => Cites::default().house(self.house(look.house)),
        }
    }

    pub(super) fn digits(&self) -> DigitSet {
        self.all
    }

    /// The houses of these cells.
    pub(super) fn touching(&self, cells: CellSet) -> Houses {
        cells.iter().fold(0, |all, it| all | self.of_cell[it.slot()])
    }

    /// What the look leaves to the house's cells, in their order.
    pub(super) fn leaves(&self, board: &Board, look: Look) -> Result<Row, NoWay> {
        let mut row = [DigitSet::EMPTY; LONGEST];
        let Looked { cells, sum, .. } = &self.houses[look.house];
        row.iter_mut().zip(*cells).for_each(|(left, it)| *left = board[it.slot()]);
        let Some(sum) = sum.as_ref().filter(|_| look.by_clue) else {
            return if fit(&mut row[..cells.len()]) { Ok(row) } else { Err(NoWay) };
        };
        let leaves = || {
            let mut left = row;
            let left = &mut left[..cells.len()];
            let of_clue = if fit(left) { sum.leaves(left) } else { None };
            let mut row = [DigitSet::EMPTY; LONGEST];
            of_clue.map(|it| {
                row[..cells.len()].copy_from_slice(&it);
                row
            })
        };
        self.known.borrow_mut().entry((look.house, row)).or_insert_with(leaves).ok_or(NoWay)
    }

    /// Takes the look. Gives the cells that lost digits.
    pub(super) fn take(&self, board: &mut Board, look: Look) -> Result<CellSet, NoWay> {
        let leaves = self.leaves(board, look)?;
        let mut changed = CellSet::EMPTY;
        for (cell, left) in self.cells(look.house).iter().zip(leaves) {
            if board[cell.slot()] != left {
                board[cell.slot()] = left;
                changed.insert(*cell);
            }
        }
        Ok(changed)
    }
}
