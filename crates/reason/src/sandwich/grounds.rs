//! What is known about cells, in parts that can be spared one by one, so that a step cites only what it
//! needs.

use grid::{Cell, DigitSet};
use rulebook::Claim;
use trail::{Cites, FactId};

use crate::View;

/// What is known about one cell, as one thing a person would point at.
#[derive(Clone, Copy)]
pub(crate) struct Ground {
    pub(crate) cell: Cell,
    /// The digits it takes from the cell.
    lost: DigitSet,
    /// The fact that says so; none if the cell sees the digit, or is known not to be it.
    fact: Option<FactId>,
    /// An earlier step says so, and the board does not show it.
    is_hidden: bool,
}

/// What is known about a cell: its digit, or its kind and the digits it cannot hold.
pub(crate) fn grounds_of(view: &View, cell: Cell) -> Vec<Ground> {
    let (all, filling) = (view.size().digits(), view.filling_digits());
    let by_fact =
        |claim, lost| view.fact(claim).map(|it| Ground { cell, lost, fact: Some(it), is_hidden: false });
    if let Some(digit) = view.digit(cell) {
        return by_fact(Claim::Is(cell, digit), all.without(digit)).into_iter().collect();
    }
    let kinds = [by_fact(Claim::Crust(cell), filling), by_fact(Claim::Filling(cell), all - filling)];
    let mut grounds: Vec<Ground> = kinds.into_iter().flatten().collect();
    let rest = grounds.iter().fold(all - view.candidates(cell), |rest, it| rest - it.lost);
    grounds.extend(rest.iter().map(|digit| {
        let is_hidden = view.fact(Claim::IsNot(cell, digit)).is_some();
        Ground { cell, lost: DigitSet::only(digit), fact: None, is_hidden }
    }));
    grounds
}

/// Leaves out what can be spared while `is_enough` holds, which it must for all the grounds together.
///
/// Whole cells go first, then single grounds; of equals, those harder to see.
pub(crate) fn without_spare(mut grounds: Vec<Ground>, is_enough: impl Fn(&[Ground]) -> bool) -> Vec<Ground> {
    grounds.sort_by_key(|it| !it.is_hidden);
    let mut cells: Vec<Cell> = Vec::new();
    for it in &grounds {
        if !cells.contains(&it.cell) {
            cells.push(it.cell);
        }
    }
    for cell in cells {
        let without: Vec<Ground> = grounds.iter().copied().filter(|it| it.cell != cell).collect();
        if is_enough(&without) {
            grounds = without;
        }
    }
    let mut next = 0;
    while next < grounds.len() {
        let mut without = grounds.clone();
        without.remove(next);
        match is_enough(&without) {
            true => grounds = without,
            false => next += 1,
        }
    }
    grounds
}

/// Adds to `cites` what the grounds rest on.
#[must_use]
pub(crate) fn cite(view: &View, grounds: &[Ground], cites: &mut Cites) -> bool {
    grounds.iter().all(|it| match it.fact {
        Some(fact) => {
            cites.facts.insert(fact);
            true
        }
        None => view.why_none_of(it.cell, it.lost, cites),
    })
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
