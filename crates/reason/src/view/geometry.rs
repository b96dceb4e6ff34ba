//! The houses of a board and their cells, worked out once a position instead of at every look.

use grid::{Cell, CellSet, House, Size};

/// The houses of a size, their cells, and which cells see which.
#[derive(Clone, Debug)]
pub(crate) struct Geometry {
    size: Size,
    houses: Vec<House>,
    /// By [`Size::house_index`].
    cells_of: Vec<Vec<Cell>>,
    /// By [`Size::house_index`]: the same cells as a set.
    members: Vec<CellSet>,
    /// By [`Cell::slot`].
    peers: Vec<CellSet>,
}

impl Geometry {
    /// The geometry of that size.
    pub(crate) fn new(size: Size) -> Geometry {
        let houses: Vec<House> = size.houses().collect();
        let cells_of: Vec<Vec<Cell>> = houses.iter().map(|it| size.cells_of(*it)).collect();
        let members: Vec<CellSet> = cells_of.iter().map(|it| it.iter().copied().collect()).collect();
        let mut peers = vec![CellSet::EMPTY; Cell::SLOTS];
        for cell in size.cells() {
            let seen = &mut peers[cell.slot()];
            *seen = size.houses_of(cell).iter().fold(*seen, |all, it| all | members[size.house_index(*it)]);
            seen.remove(cell);
        }
        Geometry { size, houses, cells_of, members, peers }
    }

    /// Rows, then columns, then boxes.
    pub(crate) fn houses(&self) -> &[House] {
        &self.houses
    }

    /// Rows, then columns.
    pub(crate) fn lines(&self) -> &[House] {
        &self.houses[..2 * usize::from(self.size.side())]
    }

    /// The house's cells in order.
    pub(crate) fn cells_of(&self, house: House) -> &[Cell] {
        &self.cells_of[self.size.house_index(house)]
    }

    /// The house's cells as a set.
    pub(crate) fn members(&self, house: House) -> CellSet {
        self.members[self.size.house_index(house)]
    }

    /// The other cells that share a house with this one.
    pub(crate) fn peers(&self, cell: Cell) -> CellSet {
        self.peers[cell.slot()]
    }
}
