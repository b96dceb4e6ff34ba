//! Tables of a size: what the search looks up about cells and houses. Made once a size.
//!
//! Cells are numbered in reading order, houses as in [`Size::houses`], digits are bits, and so are the
//! places in a house, in its order.

use grid::Size;

/// A set of digits; bit 0 stands for digit 1.
pub(crate) type Mask = u16;

/// A set of places in a house; bit 0 stands for its first cell.
pub(crate) type Spots = u16;

/// One mask for each cell of a line, in the line's order; unused lanes of small sizes hold no digit.
pub(crate) type Lanes = [Mask; 16];

/// A set of houses, by index: there are at most 48.
pub(crate) type Houses = u64;

/// Where a cell lies.
#[derive(Clone, Copy)]
pub(crate) struct Place {
    /// Its row, its column and its box, as a set.
    pub(crate) house_set: Houses,
    /// The same by index.
    pub(crate) houses: [u8; 3],
    /// Its place in each of them.
    pub(crate) spots: [u8; 3],
}

/// The board's geometry as tables.
pub(crate) struct Board {
    /// The size.
    pub(crate) size: Size,
    /// Cells in a house, which is also the number of digits.
    pub(crate) side: usize,
    /// Every digit of the size, and every place in a house.
    pub(crate) all: Mask,
    /// The cells of each house, in its order; the first `side` entries count.
    pub(crate) cells_of: Vec<[u8; 16]>,
    /// Where each cell lies.
    pub(crate) place_of: Vec<Place>,
    /// For each place in a row, those that share its box; for each place in a box, those that share its
    /// row (which are the same).
    pub(crate) across: [Spots; 16],
    /// For each place in a column, those that share its box.
    pub(crate) down: [Spots; 16],
    /// For each place in a box, those that share its column.
    pub(crate) down_box: [Spots; 16],
}

impl Board {
    /// The tables of a size.
    pub(crate) fn new(size: Size) -> Board {
        let side = usize::from(size.side());
        let (width, height) = (usize::from(size.box_width()), usize::from(size.box_height()));
        let same = |part: &dyn Fn(usize) -> usize| -> [Spots; 16] {
            let spots_like =
                |at| (0..side).filter(|it| part(*it) == part(at)).fold(0, |all, it| all | 1 << it);
            std::array::from_fn(|at| if at < side { spots_like(at) } else { 0 })
        };
        let mut board = Board {
            size,
            side,
            all: size.digits().bits(),
            cells_of: Vec::with_capacity(3 * side),
            place_of: vec![Place { house_set: 0, houses: [0; 3], spots: [0; 3] }; size.n_cells()],
            across: same(&|it| it / width),
            down: same(&|it| it / height),
            down_box: same(&|it| it % width),
        };
        for (house_idx, house) in size.houses().enumerate() {
            let mut lanes = [0; 16];
            for (at, cell) in size.cells_of(house).into_iter().enumerate() {
                let cell_idx = size.index(cell);
                // At most 256 cells, 48 houses and 16 places.
                lanes[at] = cell_idx as u8;
                let place = &mut board.place_of[cell_idx];
                place.houses[house_idx / side] = house_idx as u8;
                place.spots[house_idx / side] = at as u8;
                place.house_set |= 1 << house_idx;
            }
            board.cells_of.push(lanes);
        }
        board
    }

    /// The cells of a house.
    #[inline(always)]
    pub(crate) fn cells_of(&self, house: usize) -> &[u8] {
        &self.cells_of[house][..self.side]
    }
}
