//! A puzzle brought into the form the search computes with: flat tables of masks and indices.
//!
//! Cells are numbered in reading order, houses as in [`Size::houses`], digits are bits. Everything is
//! worked out once a puzzle, so that the search itself never allocates.

use std::ops::Range;

use grid::{Grid, Size};
use rulebook::{Clue, Puzzle, crusts};

/// A set of digits; bit 0 stands for digit 1.
pub(crate) type Mask = u16;

/// One mask for each cell of a line, in the line's order; unused lanes of small sizes hold no digit.
pub(crate) type Lanes = [Mask; 16];

/// A set of houses, by index: there are at most 48.
pub(crate) type Houses = u64;

/// The board's geometry and the page, as tables.
pub(crate) struct Compiled {
    /// The size.
    pub(crate) size: Size,
    /// Every digit of the size.
    pub(crate) all: Mask,
    /// The cells of each house; the first `side` entries count.
    pub(crate) houses: Vec<[u8; 16]>,
    /// The row, the column and the box of each cell.
    pub(crate) houses_of: Vec<[u8; 3]>,
    /// For each row and column (by house index), its clues.
    pub(crate) clues_of: Vec<Range<usize>>,
    /// For each clue, its ways as a stretch of the list of all ways.
    pub(crate) ways_of: Vec<Range<usize>>,
    /// Digits worth branching on first: the crusts, where there are clues at all.
    pub(crate) first_digits: Mask,
}

impl Compiled {
    /// The tables of a puzzle, and the list of all ways of all its clues.
    pub(crate) fn new(puzzle: &Puzzle) -> (Compiled, Vec<Lanes>) {
        let size = puzzle.size();
        let mut houses = Vec::with_capacity(3 * usize::from(size.side()));
        let mut houses_of = vec![[0; 3]; size.n_cells()];
        for (house_idx, house) in size.houses().enumerate() {
            let mut cells = [0; 16];
            for (lane, cell) in cells.iter_mut().zip(size.cells_of(house)) {
                // At most 256 cells, so an index fits.
                *lane = size.index(cell) as u8;
                houses_of[usize::from(*lane)][house_idx / usize::from(size.side())] = house_idx as u8;
            }
            houses.push(cells);
        }

        let clues = puzzle.clues();
        let of_line = |house| {
            let from = clues.partition_point(|it| it.line < house);
            from..from + clues[from..].iter().take_while(|it| it.line == house).count()
        };
        let mut ways = Vec::new();
        let mut ways_of: Vec<Range<usize>> = Vec::with_capacity(clues.len());
        for (at, clue) in clues.iter().enumerate() {
            let from = ways.len();
            // Clues of one rule and value have the same lanes wherever they stand, and listing them is
            // most of the work of getting ready.
            match clues[..at].iter().position(|it| (it.rule.id(), it.value) == (clue.rule.id(), clue.value)) {
                Some(same) => ways.extend_from_within(ways_of[same].clone()),
                None => ways.extend(lanes_of(puzzle, clue)),
            }
            ways_of.push(from..ways.len());
        }

        let (one, last) = crusts(size);
        let compiled = Compiled {
            size,
            all: size.digits().bits(),
            houses,
            houses_of,
            clues_of: size.lines().map(of_line).collect(),
            ways_of,
            first_digits: match clues.is_empty() {
                true => 0,
                false => 1 << (one.get() - 1) | 1 << (last.get() - 1),
            },
        };
        (compiled, ways)
    }

    /// Cells in a house.
    pub(crate) fn side(&self) -> usize {
        usize::from(self.size.side())
    }

    /// The cells of a house.
    pub(crate) fn cells_of(&self, house: usize) -> &[u8] {
        &self.houses[house][..self.side()]
    }

    /// The grid that these masks of one digit each stand for.
    pub(crate) fn grid(&self, cells: &[Mask]) -> Grid {
        let digit_in = |mask: Mask| self.size.digit(mask.trailing_zeros() as u8 + 1);
        Grid::from_fn(self.size, |cell| digit_in(cells[self.size.index(cell)]))
    }
}

/// A clue's ways, one lane for each cell of its line.
fn lanes_of(puzzle: &Puzzle, clue: &Clue) -> Vec<Lanes> {
    let size = puzzle.size();
    let ways = puzzle.ways(clue);
    let line = size.cells_of(clue.line);
    let lane_of = |cell| line.iter().position(|it| it == cell);
    debug_assert!(ways.cells().iter().all(|it| lane_of(it).is_some()), "a clue speaks of its own line");
    // A cell that the ways do not speak of can hold anything.
    let mut anything = [0; 16];
    anything[..line.len()].fill(size.digits().bits());
    let lanes: Vec<Option<usize>> = ways.cells().iter().map(lane_of).collect();
    ways.iter()
        .map(|way| {
            let mut it = anything;
            for (lane, digits) in lanes.iter().zip(way) {
                if let Some(lane) = lane {
                    it[*lane] = digits.bits();
                }
            }
            it
        })
        .collect()
}
