//! Tables of a size: what the search looks up about cells and houses. Made once a size.
//!
//! Cells are numbered in reading order, houses as in [`Size::houses`], digits are bits.

use grid::Size;

use crate::bits::Cells;

/// A set of digits; bit 0 stands for digit 1.
pub(crate) type Mask = u16;

/// One mask for each cell of a line, in the line's order; unused lanes of small sizes hold no digit.
pub(crate) type Lanes = [Mask; 16];

/// A set of houses, by index: there are at most 48.
pub(crate) type Houses = u64;

/// The board's geometry as tables.
pub(crate) struct Board<const W: usize> {
    /// The size.
    pub(crate) size: Size,
    /// Cells in a house, which is also the number of digits.
    pub(crate) side: usize,
    /// Every digit of the size.
    pub(crate) all: Mask,
    /// Every cell of the size.
    pub(crate) cells: Cells<W>,
    /// The cells of each house, in its order; the first `side` entries count.
    pub(crate) cells_of: Vec<[u8; 16]>,
    /// The same as a set.
    pub(crate) set_of: Vec<Cells<W>>,
    /// The row, the column and the box of each cell.
    pub(crate) houses_of: Vec<[u8; 3]>,
    /// The same as a set.
    pub(crate) house_set_of: Vec<Houses>,
    /// The other cells of its houses.
    pub(crate) peers_of: Vec<Cells<W>>,
}

impl<const W: usize> Board<W> {
    /// The tables of a size.
    pub(crate) fn new(size: Size) -> Board<W> {
        let side = usize::from(size.side());
        let n_cells = size.n_cells();
        let mut board = Board {
            size,
            side,
            all: size.digits().bits(),
            cells: (0..n_cells).fold(Cells::NONE, with),
            cells_of: Vec::with_capacity(3 * side),
            set_of: Vec::with_capacity(3 * side),
            houses_of: vec![[0; 3]; n_cells],
            house_set_of: vec![0; n_cells],
            peers_of: Vec::with_capacity(n_cells),
        };
        for (house_idx, house) in size.houses().enumerate() {
            let mut lanes = [0; 16];
            for (lane, cell) in lanes.iter_mut().zip(size.cells_of(house)) {
                let cell_idx = size.index(cell);
                // At most 256 cells and 48 houses.
                *lane = cell_idx as u8;
                board.houses_of[cell_idx][house_idx / side] = house_idx as u8;
                board.house_set_of[cell_idx] |= 1 << house_idx;
            }
            board.set_of.push(lanes[..side].iter().map(|it| usize::from(*it)).fold(Cells::NONE, with));
            board.cells_of.push(lanes);
        }
        for (cell_idx, houses) in board.houses_of.iter().enumerate() {
            let mut peers = houses.iter().fold(Cells::NONE, |set, it| set.or(board.set_of[usize::from(*it)]));
            peers.remove(cell_idx);
            board.peers_of.push(peers);
        }
        board
    }

    /// The cells of a house.
    #[inline(always)]
    pub(crate) fn cells_of(&self, house: usize) -> &[u8] {
        &self.cells_of[house][..self.side]
    }
}

fn with<const W: usize>(mut set: Cells<W>, cell: usize) -> Cells<W> {
    set.insert(cell);
    set
}
