//! A board with some or all of its cells filled.

use std::fmt;

use crate::{Cell, Digit, Size};

/// A board whose cells hold a digit or nothing.
///
/// Invariant: every digit is one that the size uses. Whether digits repeat is not its concern.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Grid {
    size: Size,
    digits: Vec<Option<Digit>>,
}

/// Why a text is not a one-line grid.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum GridError {
    /// The number of characters is not the number of cells of any size.
    Length(usize),
    /// The character at this place (from 0) is neither a digit of the size nor `.` or `0`.
    Character(usize, char),
}

impl Grid {
    /// The board with nothing in it.
    pub fn empty(size: Size) -> Grid {
        Grid { size, digits: vec![None; size.n_cells()] }
    }

    /// The board that holds `digit_at(cell)` in each cell.
    ///
    /// A digit that the size does not use is left out.
    pub fn from_fn(size: Size, mut digit_at: impl FnMut(Cell) -> Option<Digit>) -> Grid {
        let digits = size.cells().map(|it| digit_at(it).filter(|digit| digit.get() <= size.side())).collect();
        Grid { size, digits }
    }

    /// Reads a one-line grid: one character a cell, row by row, `.` or `0` for an empty cell. The
    /// length decides the size (see [`Size::of_side`]).
    pub fn from_line(text: &str) -> Result<Grid, GridError> {
        let n_cells = text.chars().count();
        let side = (4..=16u8).find(|side| usize::from(*side).pow(2) == n_cells);
        let size = side.and_then(Size::of_side).ok_or(GridError::Length(n_cells))?;
        let digits = text
            .chars()
            .enumerate()
            .map(|(at, it)| match it {
                '.' | '0' => Ok(None),
                _ => match Digit::from_char(it).filter(|digit| digit.get() <= size.side()) {
                    Some(digit) => Ok(Some(digit)),
                    None => Err(GridError::Character(at, it)),
                },
            })
            .collect::<Result<_, _>>()?;
        Ok(Grid { size, digits })
    }

    /// The size of the board.
    #[inline]
    pub fn size(&self) -> Size {
        self.size
    }

    /// What the cell holds. The cell must lie on this board.
    #[inline]
    pub fn get(&self, cell: Cell) -> Option<Digit> {
        self.digits[self.size.index(cell)]
    }

    /// This board with `cell` holding `digit` (or nothing).
    #[must_use]
    pub fn with(mut self, cell: Cell, digit: Option<Digit>) -> Grid {
        self.set(cell, digit);
        self
    }

    /// Lets `cell` hold `digit` (or nothing, as it does if the size does not use the digit).
    pub fn set(&mut self, cell: Cell, digit: Option<Digit>) {
        let at = self.size.index(cell);
        self.digits[at] = digit.filter(|it| it.get() <= self.size.side());
    }

    /// The filled cells with their digits, in reading order.
    pub fn filled(&self) -> impl Iterator<Item = (Cell, Digit)> {
        self.size.cells().zip(&self.digits).filter_map(|(cell, digit)| Some((cell, (*digit)?)))
    }

    /// Whether every cell holds a digit.
    pub fn is_full(&self) -> bool {
        self.digits.iter().all(Option::is_some)
    }
}

/// Prints one character a cell, row by row, `.` for an empty one.
impl fmt::Display for Grid {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.digits.iter().try_for_each(|it| write!(f, "{}", it.map_or('.', Digit::to_char)))
    }
}

impl fmt::Debug for Grid {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_line_grids_read_back_as_they_print() {
        for text in ["1234341221434321", "....0000....1..4"] {
            let grid = Grid::from_line(text).unwrap();
            assert_eq!(grid.to_string(), text.replace('0', "."));
            assert_eq!(grid.size().side(), 4);
        }
        let sixteen = Grid::from_line(&"G".repeat(256)).unwrap();
        assert!(sixteen.is_full());
    }

    #[test]
    fn wrong_lines_say_what_is_wrong() {
        assert_eq!(Grid::from_line("123"), Err(GridError::Length(3)));
        assert_eq!(Grid::from_line(&".".repeat(25)), Err(GridError::Length(25)));
        assert_eq!(Grid::from_line("1234x41221434321"), Err(GridError::Character(4, 'x')));
        assert_eq!(Grid::from_line("1234541221434321"), Err(GridError::Character(4, '5')));
    }
}
