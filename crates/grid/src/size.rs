//! The size of a board and the geometry that follows from it.

use std::fmt;

use crate::{Cell, CellSet, Digit, DigitSet, House, HouseKind};

/// The size of a board: its side, and the width and height of its boxes.
///
/// Invariant: the side lies between 4 and 16 and is the product of the box's width and height.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Size {
    box_width: u8,
    box_height: u8,
}

impl Size {
    /// 9x9 with boxes of 3x3.
    pub const NINE: Size = Size { box_width: 3, box_height: 3 };

    /// The size with boxes of that width and height, if its side lies between 4 and 16.
    pub fn new(box_width: u8, box_height: u8) -> Option<Size> {
        let side = box_width.checked_mul(box_height)?;
        (box_width > 1 && box_height > 1 && (4..=16).contains(&side))
            .then_some(Size { box_width, box_height })
    }

    /// The usual size with that side: square boxes where there are any, else boxes wider than high
    /// and as square as can be (3x2 on 6x6, 4x3 on 12x12).
    pub fn of_side(side: u8) -> Option<Size> {
        let height =
            (2..=4u8).rev().find(|height| height * height <= side && side.is_multiple_of(*height))?;
        Size::new(side / height, height)
    }

    /// Cells in a row, which is also the largest digit.
    #[inline]
    pub fn side(self) -> u8 {
        self.box_width * self.box_height
    }

    /// Columns a box spans.
    pub fn box_width(self) -> u8 {
        self.box_width
    }

    /// Rows a box spans.
    pub fn box_height(self) -> u8 {
        self.box_height
    }

    /// Cells on the board.
    pub fn n_cells(self) -> usize {
        usize::from(self.side()).pow(2)
    }

    /// The cell in that row and column as the page counts them, from 1.
    pub fn cell(self, row: u8, column: u8) -> Option<Cell> {
        let on_board = 1..=self.side();
        (on_board.contains(&row) && on_board.contains(&column)).then(|| Cell::at(row - 1, column - 1))
    }

    /// The cell's place among all cells in reading order, from 0.
    #[inline]
    pub fn index(self, cell: Cell) -> usize {
        usize::from(cell.row() - 1) * usize::from(self.side()) + usize::from(cell.column() - 1)
    }

    /// Every cell in reading order.
    pub fn cells(self) -> impl Iterator<Item = Cell> {
        let side = self.side();
        (0..side).flat_map(move |row| (0..side).map(move |column| Cell::at(row, column)))
    }

    /// The digits 1 to the side.
    #[inline]
    pub fn digits(self) -> DigitSet {
        DigitSet::up_to(self.side())
    }

    /// The digit of that value, if this board uses it.
    pub fn digit(self, value: u8) -> Option<Digit> {
        Digit::new(value).filter(|it| it.get() <= self.side())
    }

    /// The house of that kind and number (from 1).
    pub fn house(self, kind: HouseKind, number: u8) -> Option<House> {
        (1..=self.side()).contains(&number).then(|| House::at(kind, number - 1))
    }

    /// Every house: rows, then columns, then boxes.
    pub fn houses(self) -> impl Iterator<Item = House> {
        let side = self.side();
        [HouseKind::Row, HouseKind::Column, HouseKind::Box]
            .into_iter()
            .flat_map(move |kind| (0..side).map(move |index| House::at(kind, index)))
    }

    /// Every row, then every column.
    pub fn lines(self) -> impl Iterator<Item = House> {
        self.houses().filter(|it| it.is_line())
    }

    /// The house's place among [`Size::houses`], from 0.
    #[inline]
    pub fn house_index(self, house: House) -> usize {
        let before = match house.kind() {
            HouseKind::Row => 0,
            HouseKind::Column => 1,
            HouseKind::Box => 2,
        };
        before * usize::from(self.side()) + house.index()
    }

    /// The house's cells: a row from the left, a column from the top, a box as it is read.
    pub fn cells_of(self, house: House) -> Vec<Cell> {
        let number = house.index() as u8;
        (0..self.side())
            .map(|at| match house.kind() {
                HouseKind::Row => Cell::at(number, at),
                HouseKind::Column => Cell::at(at, number),
                HouseKind::Box => {
                    let boxes_across = self.box_height;
                    let top = number / boxes_across * self.box_height;
                    let left = number % boxes_across * self.box_width;
                    Cell::at(top + at / self.box_width, left + at % self.box_width)
                }
            })
            .collect()
    }

    /// The row, the column and the box of a cell.
    #[inline]
    pub fn houses_of(self, cell: Cell) -> [House; 3] {
        let (row, column) = (cell.row() - 1, cell.column() - 1);
        let number = row / self.box_height * self.box_height + column / self.box_width;
        [
            House::at(HouseKind::Row, row),
            House::at(HouseKind::Column, column),
            House::at(HouseKind::Box, number),
        ]
    }

    /// A house that holds both cells, if there is one: the row first, then the column, then the box.
    pub fn shared_house(self, a: Cell, b: Cell) -> Option<House> {
        if a == b {
            return None;
        }
        let others = self.houses_of(b);
        self.houses_of(a).into_iter().find(|it| others.contains(it))
    }

    /// The other cells that share a house with this one.
    pub fn peers(self, cell: Cell) -> CellSet {
        let mut peers: CellSet =
            self.houses_of(cell).into_iter().flat_map(|house| self.cells_of(house)).collect();
        peers.remove(cell);
        peers
    }
}

/// Prints `9x9`.
impl fmt::Display for Size {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{0}x{0}", self.side())
    }
}

impl fmt::Debug for Size {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{self} in {}x{} boxes", self.box_width, self.box_height)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SIDES: [(u8, u8, u8); 8] =
        [(4, 2, 2), (6, 3, 2), (8, 4, 2), (9, 3, 3), (10, 5, 2), (12, 4, 3), (15, 5, 3), (16, 4, 4)];

    #[test]
    fn usual_sizes_have_their_usual_boxes() {
        for (side, width, height) in SIDES {
            let size = Size::of_side(side).unwrap();
            assert_eq!((size.side(), size.box_width(), size.box_height()), (side, width, height));
        }
        for side in [0, 1, 2, 3, 5, 7, 11, 13, 17, 200] {
            assert_eq!(Size::of_side(side), None, "side {side}");
        }
        assert_eq!(Size::new(200, 200), None);
    }

    #[test]
    fn houses_cut_the_board_into_equal_parts() {
        for (side, ..) in SIDES {
            let size = Size::of_side(side).unwrap();
            for (at, house) in size.houses().enumerate() {
                assert_eq!(size.house_index(house), at);
                let cells = size.cells_of(house);
                assert_eq!(cells.iter().copied().collect::<CellSet>().len(), usize::from(side));
                assert!(cells.iter().all(|it| size.houses_of(*it).contains(&house)), "{size:?} {house}");
            }
            for (at, cell) in size.cells().enumerate() {
                assert_eq!(size.index(cell), at);
                assert_eq!(size.cell(cell.row(), cell.column()), Some(cell));
            }
        }
    }

    #[test]
    fn a_cell_of_nine_by_nine_has_twenty_peers() {
        for cell in Size::NINE.cells() {
            let peers = Size::NINE.peers(cell);
            assert_eq!(peers.len(), 20);
            assert!(peers.iter().all(|it| Size::NINE.shared_house(cell, it).is_some()));
        }
    }
}
