//! A cell of the board, and sets of cells.

use std::fmt;
use std::ops::{BitAnd, BitOr, Sub};

/// One cell, known by its row and column.
///
/// Invariant: both lie below 16, so that any cell of any size fits in one byte (row in the high
/// half). Cells order themselves as the page is read: row by row, left to right.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Cell(u8);

impl Cell {
    /// How many different cells there can be on the largest board; an array of this length can be
    /// indexed by [`Cell::slot`] whatever the size.
    pub const SLOTS: usize = 256;

    /// `row` and `column` count from 0 and must lie below 16: callers go through `Size`.
    #[inline]
    pub(crate) fn at(row: u8, column: u8) -> Cell {
        debug_assert!(row < 16 && column < 16);
        Cell(row << 4 | column)
    }

    /// The row's number as printed, from 1.
    #[inline]
    pub fn row(self) -> u8 {
        (self.0 >> 4) + 1
    }

    /// The column's number as printed, from 1.
    #[inline]
    pub fn column(self) -> u8 {
        (self.0 & 15) + 1
    }

    /// The cell's place in an array of [`Cell::SLOTS`] entries.
    #[inline]
    pub fn slot(self) -> usize {
        usize::from(self.0)
    }
}

/// Prints `r4c7`.
impl fmt::Display for Cell {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "r{}c{}", self.row(), self.column())
    }
}

impl fmt::Debug for Cell {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

/// A set of cells, iterated in reading order.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct CellSet([u64; 4]);

impl CellSet {
    /// The set with no cell.
    pub const EMPTY: CellSet = CellSet([0; 4]);

    /// Adds `cell`; true if it was not there before.
    #[inline]
    pub fn insert(&mut self, cell: Cell) -> bool {
        let fresh = !self.contains(cell);
        self.0[cell.slot() / 64] |= 1 << (cell.slot() % 64);
        fresh
    }

    /// Takes `cell` out; true if it was there.
    #[inline]
    pub fn remove(&mut self, cell: Cell) -> bool {
        let found = self.contains(cell);
        self.0[cell.slot() / 64] &= !(1 << (cell.slot() % 64));
        found
    }

    /// Whether `cell` is in the set.
    #[inline]
    pub fn contains(&self, cell: Cell) -> bool {
        self.0[cell.slot() / 64] >> (cell.slot() % 64) & 1 == 1
    }

    /// How many cells the set has.
    #[inline]
    pub fn len(&self) -> usize {
        self.0.iter().map(|word| word.count_ones() as usize).sum()
    }

    /// Whether the set has no cell.
    #[inline]
    pub fn is_empty(&self) -> bool {
        self.0 == [0; 4]
    }

    /// The first cell in reading order.
    #[inline]
    pub fn first(&self) -> Option<Cell> {
        self.iter().next()
    }

    /// The cell, when there is exactly one.
    #[inline]
    pub fn single(&self) -> Option<Cell> {
        let mut words = self.0.iter().enumerate().filter(|it| *it.1 != 0);
        let (at, word) = words.next()?;
        let is_single = word.is_power_of_two() && words.next().is_none();
        is_single.then(|| Cell((at * 64) as u8 + word.trailing_zeros() as u8))
    }

    /// Whether every cell of this set is in `other`.
    #[inline]
    pub fn is_subset(&self, other: &CellSet) -> bool {
        (*self - *other).is_empty()
    }

    /// The cells in reading order.
    #[inline]
    pub fn iter(&self) -> impl Iterator<Item = Cell> + use<> {
        let (mut words, mut at) = (self.0, 0);
        std::iter::from_fn(move || {
            while words[at] == 0 {
                if at == 3 {
                    return None;
                }
                at += 1;
            }
            let bit = words[at].trailing_zeros();
            words[at] &= words[at] - 1;
            Some(Cell((at * 64) as u8 + bit as u8))
        })
    }
}

impl BitOr for CellSet {
    type Output = CellSet;
    #[inline]
    fn bitor(self, other: CellSet) -> CellSet {
        CellSet(std::array::from_fn(|at| self.0[at] | other.0[at]))
    }
}

impl BitAnd for CellSet {
    type Output = CellSet;
    #[inline]
    fn bitand(self, other: CellSet) -> CellSet {
        CellSet(std::array::from_fn(|at| self.0[at] & other.0[at]))
    }
}

impl Sub for CellSet {
    type Output = CellSet;
    #[inline]
    fn sub(self, other: CellSet) -> CellSet {
        CellSet(std::array::from_fn(|at| self.0[at] & !other.0[at]))
    }
}

impl FromIterator<Cell> for CellSet {
    fn from_iter<I: IntoIterator<Item = Cell>>(cells: I) -> CellSet {
        let mut set = CellSet::EMPTY;
        for cell in cells {
            set.insert(cell);
        }
        set
    }
}

impl Extend<Cell> for CellSet {
    fn extend<I: IntoIterator<Item = Cell>>(&mut self, cells: I) {
        for cell in cells {
            self.insert(cell);
        }
    }
}

impl fmt::Debug for CellSet {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_set().entries(self.iter()).finish()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cells_print_as_the_page_counts() {
        assert_eq!(Cell::at(3, 6).to_string(), "r4c7");
        assert_eq!(Cell::at(15, 15).slot(), Cell::SLOTS - 1);
    }

    #[test]
    fn sets_iterate_in_reading_order() {
        let cells = [Cell::at(8, 0), Cell::at(0, 5), Cell::at(4, 4), Cell::at(15, 15)];
        let set: CellSet = cells.into_iter().collect();
        let read: Vec<String> = set.iter().map(|it| it.to_string()).collect();
        assert_eq!(read, ["r1c6", "r5c5", "r9c1", "r16c16"]);
        assert_eq!(set.len(), 4);
        assert!((set - set).is_empty());
    }
}
