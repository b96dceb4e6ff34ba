//! The paper a puzzle is printed on: sizes, cells, digits, digit sets, rows, columns and boxes.
//!
//! Nothing here knows a puzzle rule. Sizes go from 4x4 to 16x16. Two ways of counting meet in this
//! crate and nowhere else: the page counts rows and columns from 1 ([`Size::cell`], [`Cell::row`],
//! `Display`), arrays count slots from 0 ([`Cell::slot`]).

mod cell;
mod digit;
mod house;
mod partial;
mod size;

pub use cell::{Cell, CellSet};
pub use digit::{Digit, DigitSet};
pub use house::{House, HouseKind};
pub use partial::{Grid, GridError};
pub use size::Size;
