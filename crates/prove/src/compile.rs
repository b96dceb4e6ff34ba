//! Tables of a size: what the search looks up about cells and houses. Made once a size.
//!
//! Cells are numbered in reading order, houses as in [`Size::houses`], digits are bits, and so are the
//! places in a house, in its order.

use grid::Size;

/// A set of digits; bit 0 stands for digit 1.
pub(crate) type Mask = u16;

/// A set of places in a house; bit 0 stands for its first cell.
pub(crate) type Spots = u16;

/// A set of houses, by index: there are at most 48.
pub(crate) type Houses = u64;

/// Where a cell lies.
#[derive(Clone, Copy)]
pub(crate) struct Place {
    /// Its row, its column and its box, as a set; without those that need not hold.
    pub(crate) house_set: Houses,
    /// The same by index.
    pub(crate) houses: [u8; 3],
    /// Its place in each of them.
    pub(crate) spots: [u8; 3],
    /// The same as a set of one.
    pub(crate) bits: [Spots; 3],
}

/// What the places in a kind of house share with each other.
#[derive(Clone, Copy)]
pub(crate) struct Shared {
    /// For each place, those that share another house with it. Of a place in a box, in its row.
    pub(crate) across: [Spots; 16],
    /// Of a place in a box, in its column. Nothing for those in rows and columns, which share boxes only.
    pub(crate) down: [Spots; 16],
}

/// All houses of a size.
pub(crate) fn every_house(size: Size) -> Houses {
    (1 << (3 * size.side())) - 1
}

/// The board's geometry as tables.
pub(crate) struct Board {
    /// The size.
    pub(crate) size: Size,
    /// Cells in a house, which is also the number of digits.
    pub(crate) side: usize,
    /// Every digit of the size, and every place in a house.
    pub(crate) all: Mask,
    /// The houses that hold each digit once: all of them, but where it is asked what holds without some.
    pub(crate) held: Houses,
    /// The cells of each house, in its order; the first `side` entries count.
    pub(crate) cells_of: [[u8; 16]; 64],
    /// Row (0), column (1) or box (2).
    pub(crate) kind_of: [u8; 64],
    /// Where each cell lies.
    pub(crate) place_of: Box<[Place; 256]>,
    /// What places share, for rows, columns and boxes.
    pub(crate) shared: [Shared; 3],
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
        let in_row = Shared { across: same(&|it| it / width), down: [0; 16] };
        let in_column = Shared { across: same(&|it| it / height), down: [0; 16] };
        let in_box = Shared { across: same(&|it| it / width), down: same(&|it| it % width) };
        let mut board = Board {
            size,
            side,
            all: size.digits().bits(),
            held: every_house(size),
            cells_of: [[0; 16]; 64],
            kind_of: [0; 64],
            place_of: Box::new([Place { house_set: 0, houses: [0; 3], spots: [0; 3], bits: [0; 3] }; 256]),
            shared: [in_row, in_column, in_box],
        };
        for (house_idx, house) in size.houses().enumerate() {
            let kind = house_idx / side;
            for (at, cell) in size.cells_of(house).into_iter().enumerate() {
                let cell_idx = size.index(cell);
                // At most 256 cells, 48 houses and 16 places.
                board.cells_of[house_idx][at] = cell_idx as u8;
                let place = &mut board.place_of[cell_idx];
                place.houses[kind] = house_idx as u8;
                place.spots[kind] = at as u8;
                place.bits[kind] = 1 << at;
                place.house_set |= 1 << house_idx;
            }
            board.kind_of[house_idx] = kind as u8;
        }
        board
    }

    /// From now on only these houses hold each digit once.
    pub(crate) fn hold(&mut self, held: Houses) {
        if held == self.held {
            return;
        }
        self.held = held;
        for place in self.place_of.iter_mut() {
            let all = place.houses.iter().fold(0, |all, it| all | 1 << it);
            place.house_set = all & held;
        }
    }

    /// The cell at a place of a house.
    #[inline(always)]
    pub(crate) fn cell_at(&self, house: usize, spot: usize) -> usize {
        usize::from(self.cells_of[house & 63][spot & 15])
    }
}
