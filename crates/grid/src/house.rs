//! Rows, columns and boxes.

use std::fmt;

/// What kind of house: a line across, a line down, or a box.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum HouseKind {
    /// A line across.
    Row,
    /// A line down.
    Column,
    /// One of the small rectangles, counted as the page is read.
    Box,
}

/// A row, a column or a box: a place where each digit appears once.
///
/// Invariant: made by `Size`, so the number lies on the board it came from.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct House {
    kind: HouseKind,
    index: u8,
}

impl House {
    /// `index` counts from 0; callers go through `Size`.
    pub(crate) fn at(kind: HouseKind, index: u8) -> House {
        House { kind, index }
    }

    /// Row, column or box.
    #[inline]
    pub fn kind(self) -> HouseKind {
        self.kind
    }

    /// The number as printed, from 1.
    #[inline]
    pub fn number(self) -> u8 {
        self.index + 1
    }

    /// The number in arrays, from 0.
    #[inline]
    pub fn index(self) -> usize {
        usize::from(self.index)
    }

    /// Whether this is a row or a column.
    #[inline]
    pub fn is_line(self) -> bool {
        self.kind != HouseKind::Box
    }
}

/// Prints `row 4`.
impl fmt::Display for House {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let name = match self.kind {
            HouseKind::Row => "row",
            HouseKind::Column => "column",
            HouseKind::Box => "box",
        };
        write!(f, "{name} {}", self.number())
    }
}

impl fmt::Debug for House {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}
