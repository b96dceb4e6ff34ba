//! The common form in which conditions are computed with.

use grid::{Cell, Digit, DigitSet};

/// One way to satisfy a condition: for each of its cells, the digits it may hold.
pub type Way = Box<[DigitSet]>;

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
    ways: Vec<Way>,
}

impl Ways {
    /// Collects the ways to fill `cells`.
    pub(crate) fn new(cells: Vec<Cell>, ways: Vec<Way>) -> Ways {
        debug_assert!(ways.iter().all(|it| it.len() == cells.len()));
        Ways { cells, ways }
    }

    /// The cells the condition is about.
    pub fn cells(&self) -> &[Cell] {
        &self.cells
    }

    /// Each way, as the digits allowed in each of [`Ways::cells`]. No way at all means that the
    /// condition cannot be met.
    pub fn iter(&self) -> impl Iterator<Item = &Way> {
        self.ways.iter()
    }

    /// How many ways there are.
    pub fn len(&self) -> usize {
        self.ways.len()
    }

    /// Whether the condition cannot be met.
    pub fn is_empty(&self) -> bool {
        self.ways.is_empty()
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
