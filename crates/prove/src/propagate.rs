//! What follows from the candidates left: in every cell, in every house, and on every line with clues.
//!
//! Candidates are kept twice: for each cell the digits it can hold, and for each digit and house the
//! places it can take there. Only what changed is looked at again, the cheapest first: cells that came
//! down to one digit; for each digit, the houses in which it lost a place; lines with clues in which
//! some cell lost a candidate.

use crate::compile::{Board, Houses, Mask, Place, Spots};
use crate::lines::{Choices, Clues};

/// The state has no solution.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Dead;

/// One state of the board, with room for `H` houses. That is a power of two, as are all other lengths, so
/// that an index is cut to fit instead of checked.
#[derive(Clone, Copy)]
pub(crate) struct State<const H: usize> {
    /// For each row and each column the candidates of its cells, so each cell's twice.
    pub(crate) lines: [[Mask; 16]; 32],
    /// For each digit its places in each house. Says the same as `lines`.
    pub(crate) spots: [[Spots; H]; 16],
    /// For each of the first clues, if it has a closed form, the choices that it leaves.
    pub(crate) choices: [Choices; 32],
    /// Lines whose clues are met by whatever is left, so that they need no more looking at.
    pub(crate) met: Houses,
    /// How many cells are not struck from their peers yet.
    pub(crate) n_open: u16,
}

impl<const H: usize> State<H> {
    /// The board with nothing on it.
    pub(crate) fn blank(board: &Board) -> Self {
        let mut state =
            State { lines: [[0; 16]; 32], spots: [[0; H]; 16], choices: [[0; 2]; 32], met: 0, n_open: 0 };
        for line in &mut state.lines[..2 * board.side] {
            line[..board.side].fill(board.all);
        }
        for spots in &mut state.spots[..board.side] {
            spots[..3 * board.side].fill(board.all);
        }
        state.n_open = board.size.n_cells() as u16;
        state
    }

    /// The candidates of a cell.
    #[inline(always)]
    pub(crate) fn cell(&self, place: &Place) -> Mask {
        self.lines[usize::from(place.houses[0]) & 31][usize::from(place.spots[0]) & 15]
    }

    /// Changes the candidates of a cell.
    #[inline(always)]
    fn set_cell(&mut self, place: &Place, digits: Mask) {
        for kind in 0..2 {
            self.lines[usize::from(place.houses[kind]) & 31][usize::from(place.spots[kind]) & 15] = digits;
        }
    }

    /// Takes a place from a digit, in all three houses.
    #[inline(always)]
    fn forget_place(&mut self, digit: usize, place: &Place) {
        let spots = &mut self.spots[digit & 15];
        for kind in 0..3 {
            spots[usize::from(place.houses[kind]) & (H - 1)] &= !place.bits[kind];
        }
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
pub(crate) struct Propagator<'a, const H: usize, const L: usize> {
    pub(crate) board: &'a Board,
    pub(crate) clues: &'a mut Clues<L>,
    pub(crate) work: &'a mut Work,
    pub(crate) state: &'a mut State<H>,
}

impl<const H: usize, const L: usize> Propagator<'_, H, L> {
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
            // All of them before houses are looked at again: every small change touches many lines.
            let mut rest = lines;
            while rest != 0 {
                let line = rest.trailing_zeros() as usize;
                rest &= rest - 1;
                self.work.lines &= !(1 << line);
                self.review_line(line)?;
            }
        }
    }

    /// Takes digits from a cell.
    #[inline(always)]
    pub(crate) fn strike(&mut self, cell: usize, digits: Mask) -> Result<(), Dead> {
        let place = &self.board.place_of[cell & 255];
        let before = self.state.cell(place);
        let gone = before & digits;
        if gone == 0 {
            return Ok(());
        }
        self.leave(cell, before ^ gone, place)?;
        let mut rest = gone;
        while rest != 0 {
            let digit = rest.trailing_zeros() as usize;
            rest &= rest - 1;
            self.state.forget_place(digit, place);
            self.work.houses[digit & 15] |= place.house_set;
        }
        self.work.digits |= gone;
        Ok(())
    }

    /// Leaves a cell these digits, fewer than it had.
    #[inline(always)]
    fn leave(&mut self, cell: usize, digits: Mask, place: &Place) -> Result<(), Dead> {
        self.state.set_cell(place, digits);
        self.work.lines |= place.house_set;
        if digits & digits.wrapping_sub(1) == 0 {
            if digits == 0 {
                return Err(Dead);
            }
            self.work.place(cell);
        }
        Ok(())
    }

    /// Takes a digit from some places of a house, all of which it has, and leaves the others.
    #[inline(always)]
    fn strike_spots(
        &mut self,
        house: usize,
        kind: usize,
        mut gone: Spots,
        kept: Spots,
        digit: usize,
    ) -> Result<(), Dead> {
        self.state.spots[digit & 15][house & (H - 1)] = kept;
        let mut touched: Houses = 0;
        while gone != 0 {
            let cell = self.board.cell_at(house, gone.trailing_zeros() as usize);
            gone &= gone - 1;
            let place = &self.board.place_of[cell & 255];
            self.leave(cell, self.state.cell(place) ^ 1 << digit, place)?;
            touched |= place.house_set;
            let spots = &mut self.state.spots[digit & 15];
            for other in [(kind + 1) % 3, (kind + 2) % 3] {
                spots[usize::from(place.houses[other]) & (H - 1)] &= !place.bits[other];
            }
        }
        self.work.houses[digit & 15] |= touched;
        self.work.digits |= Mask::from(touched != 0) << digit;
        Ok(())
    }

    /// A placed digit leaves the other cells of its houses.
    fn strike_from_peers(&mut self, cell: usize) -> Result<(), Dead> {
        self.state.n_open -= 1;
        let place = &self.board.place_of[cell & 255];
        let digit = self.state.cell(place).trailing_zeros() as usize;
        for kind in 0..3 {
            let house = usize::from(place.houses[kind]);
            if self.board.held >> house & 1 == 0 {
                continue;
            }
            let spots = self.state.spots[digit & 15][house & (H - 1)];
            let bit = place.bits[kind];
            self.strike_spots(house, kind, spots & !bit, bit, digit)?;
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
        while houses != 0 {
            let house = houses.trailing_zeros() as usize;
            houses &= houses - 1;
            let spots = self.state.spots[digit & 15][house & (H - 1)];
            let kind = usize::from(self.board.kind_of[house & 63]);
            let Some(shared) = self.board.shared.get(kind) else { continue };
            let first = spots.trailing_zeros() as usize & 15;
            // None and one are among these.
            if (spots & !shared.across[first] == 0) | (spots & !shared.down[first] == 0) {
                self.use_few_places(digit, house, spots, kind)?;
            }
        }
        Ok(())
    }

    /// All places of a digit in a house lie in another house too.
    fn use_few_places(&mut self, digit: usize, house: usize, spots: Spots, kind: usize) -> Result<(), Dead> {
        if spots == 0 {
            return Err(Dead);
        }
        let [in_row, in_column, in_box] = &self.board.shared;
        let first = spots.trailing_zeros() as usize & 15;
        let cell = self.board.cell_at(house, first);
        if spots & (spots - 1) == 0 {
            return self.strike(cell, !(1 << digit));
        }
        let (other, shared) = match kind {
            0 => (2, &in_box.across),
            1 => (2, &in_box.down),
            _ if spots & !in_box.across[first] == 0 => (0, &in_row.across),
            _ => (1, &in_column.across),
        };
        let place = &self.board.place_of[cell & 255];
        let there = usize::from(place.houses[other]);
        if self.board.held >> there & 1 == 0 {
            return Ok(());
        }
        let before = self.state.spots[digit & 15][there & (H - 1)];
        let kept = before & shared[usize::from(place.spots[other] & 15)];
        self.strike_spots(there, other, before ^ kept, kept, digit)
    }
}
