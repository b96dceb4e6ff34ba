//! What follows from the candidates left: in every cell, in every house, and on every line with clues.
//!
//! Candidates are kept twice: for each cell the digits it can hold, and for each digit and house the
//! places it can take there. Only what changed is looked at again, the cheapest first: cells that came
//! down to one digit; for each digit, the houses in which it lost a place; lines with clues in which
//! some cell lost a candidate.

use crate::compile::{Board, Houses, Mask, Spots};
use crate::lines::Clues;

/// The state has no solution.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Dead;

/// One state of the board, with room for `C` cells, `H` houses and `D` digits.
#[derive(Clone, Copy)]
pub(crate) struct State<const C: usize, const H: usize, const D: usize> {
    /// The candidates of each cell.
    pub(crate) cells: [Mask; C],
    /// For each digit, its places in each house. Says the same as `cells`.
    pub(crate) spots: [[Spots; H]; D],
    /// Lines whose clues are met by whatever is left, so that they need no more looking at.
    pub(crate) met: Houses,
    /// How many cells are not struck from their peers yet.
    pub(crate) n_open: u16,
}

impl<const C: usize, const H: usize, const D: usize> State<C, H, D> {
    /// The board with nothing on it.
    pub(crate) fn blank(board: &Board) -> Self {
        let mut state = State { cells: [0; C], spots: [[0; H]; D], met: 0, n_open: 0 };
        let n_cells = board.place_of.len();
        state.cells[..n_cells].fill(board.all);
        for spots in &mut state.spots[..board.side] {
            spots[..3 * board.side].fill(board.all);
        }
        state.n_open = n_cells as u16;
        state
    }
}

/// The work waiting to be done on a state.
pub(crate) struct Work {
    placed: [u8; 256],
    n_placed: usize,
    /// For each digit, the houses in which it lost a place.
    houses: [Houses; 16],
    /// The digits that have such houses.
    digits: Mask,
    /// The lines with clues that are to be looked at, and others.
    pub(crate) lines: Houses,
}

impl Work {
    /// Nothing waiting.
    pub(crate) fn new() -> Work {
        Work { placed: [0; 256], n_placed: 0, houses: [0; 16], digits: 0, lines: 0 }
    }

    /// Says that a cell came down to one digit. That happens at most once a state and cell.
    #[inline(always)]
    fn place(&mut self, cell: usize) {
        self.placed[self.n_placed & 255] = cell as u8;
        self.n_placed += 1;
    }

    pub(crate) fn forget(&mut self) {
        self.n_placed = 0;
        self.houses = [0; 16];
        self.digits = 0;
        self.lines = 0;
    }
}

/// What it takes to work on a state.
pub(crate) struct Propagator<'a, const C: usize, const H: usize, const D: usize> {
    pub(crate) board: &'a Board,
    pub(crate) clues: &'a mut Clues,
    pub(crate) work: &'a mut Work,
    pub(crate) state: &'a mut State<C, H, D>,
}

impl<const C: usize, const H: usize, const D: usize> Propagator<'_, C, H, D> {
    /// Works out all that follows.
    pub(crate) fn settle(&mut self) -> Result<(), Dead> {
        let result = self.drain();
        if result.is_err() {
            self.work.forget();
        }
        result
    }

    fn drain(&mut self) -> Result<(), Dead> {
        loop {
            while self.work.n_placed > 0 {
                self.work.n_placed -= 1;
                let cell = usize::from(self.work.placed[self.work.n_placed & 255]);
                self.strike_from_peers(cell)?;
            }
            if self.work.digits != 0 {
                let digit = self.work.digits.trailing_zeros() as usize;
                self.look_for_places(digit)?;
                continue;
            }
            let lines = self.work.lines & self.clues.lines & !self.state.met;
            if lines == 0 {
                self.work.lines = 0;
                return Ok(());
            }
            let line = lines.trailing_zeros() as usize;
            self.work.lines = lines & (lines - 1);
            self.review_line(line)?;
        }
    }

    /// Takes digits from a cell.
    #[inline(always)]
    pub(crate) fn strike(&mut self, cell: usize, digits: Mask) -> Result<(), Dead> {
        let mut gone = self.state.cells[cell] & digits;
        while gone != 0 {
            let digit = gone.trailing_zeros() as usize;
            gone &= gone - 1;
            self.strike_one(cell, digit)?;
        }
        Ok(())
    }

    /// Takes a digit from a cell that has it.
    #[inline(always)]
    fn strike_one(&mut self, cell: usize, digit: usize) -> Result<(), Dead> {
        let after = self.state.cells[cell] ^ 1 << digit;
        if after == 0 {
            return Err(Dead);
        }
        self.state.cells[cell] = after;
        if after & (after - 1) == 0 {
            self.work.place(cell);
        }
        let place = &self.board.place_of[cell];
        let spots = &mut self.state.spots[digit];
        for (house, spot) in place.houses.iter().zip(place.spots) {
            spots[usize::from(*house)] &= !(1 << spot);
        }
        self.work.houses[digit & 15] |= place.house_set;
        self.work.digits |= 1 << digit;
        self.work.lines |= place.house_set;
        Ok(())
    }

    /// Takes a digit from some places of a house, all of which it has.
    #[inline(always)]
    fn strike_spots(&mut self, house: usize, mut gone: Spots, digit: usize) -> Result<(), Dead> {
        while gone != 0 {
            let cell = usize::from(self.board.cells_of[house][gone.trailing_zeros() as usize & 15]);
            gone &= gone - 1;
            self.strike_one(cell, digit)?;
        }
        Ok(())
    }

    /// A placed digit leaves the other cells of its houses.
    fn strike_from_peers(&mut self, cell: usize) -> Result<(), Dead> {
        self.state.n_open -= 1;
        let digit = self.state.cells[cell].trailing_zeros() as usize;
        let place = self.board.place_of[cell];
        for (house, spot) in place.houses.into_iter().zip(place.spots) {
            let house = usize::from(house);
            let others = self.state.spots[digit][house] & !(1 << spot);
            self.strike_spots(house, others, digit)?;
        }
        // These have their place.
        self.work.houses[digit & 15] &= !place.house_set;
        Ok(())
    }

    /// Looks at the houses in which a digit lost a place. With none left the state is dead, with one the
    /// digit goes there; and where all places of a house lie in another house too, that one has it
    /// there and nowhere else.
    fn look_for_places(&mut self, digit: usize) -> Result<(), Dead> {
        let mut houses = std::mem::take(&mut self.work.houses[digit & 15]);
        self.work.digits &= !(1 << digit);
        let side = self.board.side;
        let Board { across, down, down_box, .. } = self.board;
        while houses != 0 {
            let house = houses.trailing_zeros() as usize;
            houses &= houses - 1;
            let spots = self.state.spots[digit][house];
            if spots == 0 {
                return Err(Dead);
            }
            let first = spots.trailing_zeros() as usize;
            if spots & (spots - 1) == 0 {
                let cell = usize::from(self.board.cells_of[house][first & 15]);
                self.strike(cell, !(1 << digit))?;
            } else if house >= 2 * side {
                if spots & !across[first] == 0 {
                    self.lock(digit, house, first, 0, across)?;
                } else if spots & !down_box[first] == 0 {
                    self.lock(digit, house, first, 1, down)?;
                }
            } else if house >= side {
                if spots & !down[first] == 0 {
                    self.lock(digit, house, first, 2, down_box)?;
                }
            } else if spots & !across[first] == 0 {
                self.lock(digit, house, first, 2, across)?;
            }
        }
        Ok(())
    }

    /// All places of a house lie in another too: its row (0), column (1) or box (2) through the first of
    /// them. The digit leaves the rest of that one, where `shared` says for each place which are shared.
    fn lock(
        &mut self,
        digit: usize,
        house: usize,
        first: usize,
        kind: usize,
        shared: &[Spots; 16],
    ) -> Result<(), Dead> {
        let place = self.board.place_of[usize::from(self.board.cells_of[house][first & 15])];
        let other = usize::from(place.houses[kind]);
        let gone = self.state.spots[digit][other] & !shared[usize::from(place.spots[kind] & 15)];
        self.strike_spots(other, gone, digit)
    }
}
