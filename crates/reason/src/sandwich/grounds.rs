//! Enough of what is known about cells to leave a line no way, and the digits it leaves.

use grid::{Cell, DigitSet};

use crate::View;
use crate::grounds::{Ground, Shown};

/// Leaves out what can be spared while `is_enough` holds, which it must for all the grounds together.
///
/// Whole cells go first, then single grounds; of equals, those harder to see, and the digits that stand in the cells
/// last: whoever has both crusts of a line before them asks of no other cell why it is none.
pub(crate) fn without_spare(mut grounds: Vec<Ground>, is_enough: impl Fn(&[Ground]) -> bool) -> Vec<Ground> {
    grounds.sort_by_key(|it| (it.shown != Shown::ByStep, it.is_own_digit()));
    let mut cells: Vec<Cell> = Vec::new();
    for it in &grounds {
        if !cells.contains(&it.cell) {
            cells.push(it.cell);
        }
    }
    let mut without: Vec<Ground> = Vec::with_capacity(grounds.len());
    for cell in cells {
        without.clear();
        without.extend(grounds.iter().filter(|it| it.cell != cell));
        if is_enough(&without) {
            std::mem::swap(&mut grounds, &mut without);
        }
    }
    let mut next = 0;
    while let Some(spared) = (next < grounds.len()).then(|| grounds.remove(next)) {
        if !is_enough(&grounds) {
            grounds.insert(next, spared);
            next += 1;
        }
    }
    grounds
}

/// The digits left to each cell of a board, as far as something is known or supposed.
#[derive(Clone)]
pub(crate) struct Known([DigitSet; Cell::SLOTS]);

impl Known {
    /// What the grounds leave, where each of some cells is supposed to hold one of the digits beside it.
    pub(crate) fn from(all: DigitSet, grounds: &[Ground], supposed: &[(Cell, DigitSet)]) -> Known {
        let mut known = Known([all; Cell::SLOTS]);
        for (cell, digits) in supposed {
            known.0[cell.slot()] = known.0[cell.slot()] & *digits;
        }
        for it in grounds {
            known.cross_off(it.cell, it.lost);
        }
        known
    }

    /// What is known in a position.
    pub(crate) fn of(view: &View) -> Known {
        let mut known = Known([view.size().digits(); Cell::SLOTS]);
        view.size().cells().for_each(|it| known.0[it.slot()] = view.candidates(it));
        known
    }

    pub(crate) fn left(&self, cell: Cell) -> DigitSet {
        self.0[cell.slot()]
    }

    /// The digits left to each of the cells.
    pub(crate) fn each(&self, cells: &[Cell]) -> Vec<DigitSet> {
        cells.iter().map(|it| self.left(*it)).collect()
    }

    /// Takes the digits from the cell; whether it had one of them.
    pub(crate) fn cross_off(&mut self, cell: Cell, digits: DigitSet) -> bool {
        let before = self.0[cell.slot()];
        self.0[cell.slot()] = before - digits;
        !(before & digits).is_empty()
    }
}
