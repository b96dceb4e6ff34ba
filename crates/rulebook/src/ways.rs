//! The common form in which conditions are computed with.

use grid::{Cell, Digit, DigitSet};

/// One way to satisfy a condition: for each of its cells, the digits it may hold.
pub type Way = [DigitSet];

/// Room is made for so many ways at first: most conditions on a line have some tens.
const USUAL: usize = 32;

/// All the ways to satisfy a condition on some cells.
///
/// A filling satisfies the condition exactly when, cell by cell, it lies in at least one of the ways.
/// Where the condition speaks of a house, this is promised only for fillings in which that house
/// holds each digit once; whoever computes with the ways must demand that of the house too.
///
/// Invariant: every way has one entry a cell.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Ways {
    cells: Vec<Cell>,
    n_ways: usize,
    /// Way after way: a clue can have some hundred.
    digits: Vec<DigitSet>,
}

impl Ways {
    /// These ways to fill `cells`.
    pub(crate) fn of<W: IntoIterator<Item = DigitSet>>(
        cells: impl IntoIterator<Item = Cell>,
        ways: impl IntoIterator<Item = W>,
    ) -> Ways {
        let cells: Vec<Cell> = cells.into_iter().collect();
        let mut digits = Vec::with_capacity(USUAL * cells.len());
        let mut n_ways = 0;
        for way in ways {
            digits.extend(way);
            n_ways += 1;
            debug_assert_eq!(digits.len(), n_ways * cells.len(), "a way has one entry a cell");
        }
        Ways { cells, n_ways, digits }
    }

    /// No way to fill `cells`: the condition cannot be met.
    pub(crate) fn none(cells: impl IntoIterator<Item = Cell>) -> Ways {
        Ways { cells: cells.into_iter().collect(), n_ways: 0, digits: Vec::new() }
    }

    /// The cells the condition is about.
    pub fn cells(&self) -> &[Cell] {
        &self.cells
    }

    /// Each way, as the digits allowed in each of [`Ways::cells`]. No way at all means that the
    /// condition cannot be met.
    pub fn iter(&self) -> impl Iterator<Item = &Way> {
        let n = self.cells.len();
        (0..self.n_ways).map(move |at| &self.digits[at * n..(at + 1) * n])
    }

    /// How many ways there are.
    pub fn len(&self) -> usize {
        self.n_ways
    }

    /// Whether the condition cannot be met.
    pub fn is_empty(&self) -> bool {
        self.n_ways == 0
    }
}

/// A condition on a line in closed form: the digits that lie between two end digits.
///
/// A line that holds each digit once satisfies the condition exactly when the digits strictly between
/// its two ends, whichever stands first, form one of the sets.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Between {
    /// The two digits, in either order.
    pub ends: (Digit, Digit),
    /// What may lie between them: sets of other digits, fewest digits first. No set at all means that
    /// the condition cannot be met.
    pub sets: Vec<DigitSet>,
}
