//! What follows from the candidates left: in every cell, in every house, and on every line with clues.
//!
//! Candidates are kept twice, by cell (which digits?) and by digit (which cells?), because lines ask the
//! first and houses the second. Only what changed is looked at again, the cheapest first: cells that
//! came down to one digit; for each digit, the houses in which it lost a place; lines with clues in which
//! some cell lost a candidate.

use crate::bits::Cells;
use crate::compile::{Board, Houses, Mask};
use crate::lines::Clues;

/// The state has no solution.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Dead;

/// One state of the board, with room for `C` cells and `D` digits.
#[derive(Clone, Copy)]
pub(crate) struct State<const W: usize, const C: usize, const D: usize> {
    /// The candidates of each cell.
    pub(crate) cells: [Mask; C],
    /// The places of each digit. Says the same as `cells`.
    pub(crate) places: [Cells<W>; D],
    /// Lines whose clues are met by whatever is left, so that they need no more looking at.
    pub(crate) met: Houses,
    /// How many cells are not struck from their peers yet.
    pub(crate) n_open: u16,
}

impl<const W: usize, const C: usize, const D: usize> State<W, C, D> {
    /// The board with nothing on it.
    pub(crate) fn blank(board: &Board<W>) -> Self {
        let mut state = State { cells: [0; C], places: [Cells::NONE; D], met: 0, n_open: 0 };
        let n_cells = board.houses_of.len();
        state.cells[..n_cells].fill(board.all);
        state.places[..board.side].fill(board.cells);
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
    lines: Houses,
}

impl Work {
    /// Nothing waiting.
    pub(crate) fn new() -> Work {
        Work { placed: [0; 256], n_placed: 0, houses: [0; 16], digits: 0, lines: 0 }
    }

    /// Marks every house and line as unseen: for the page itself.
    pub(crate) fn look_everywhere<const W: usize>(&mut self, board: &Board<W>) {
        self.houses[..board.side].fill((1 << (3 * board.side)) - 1);
        self.digits = board.all;
        self.lines = (1 << (2 * board.side)) - 1;
    }

    /// Says that a cell came down to one digit. That happens at most once a state and cell.
    #[inline(always)]
    pub(crate) fn place(&mut self, cell: usize) {
        self.placed[self.n_placed & 255] = cell as u8;
        self.n_placed += 1;
    }

    fn forget(&mut self) {
        self.n_placed = 0;
        self.houses = [0; 16];
        self.digits = 0;
        self.lines = 0;
    }
}

/// What it takes to work on a state.
pub(crate) struct Propagator<'a, const W: usize, const C: usize, const D: usize> {
    pub(crate) board: &'a Board<W>,
    pub(crate) clues: &'a mut Clues,
    pub(crate) work: &'a mut Work,
    pub(crate) state: &'a mut State<W, C, D>,
}

impl<const W: usize, const C: usize, const D: usize> Propagator<'_, W, C, D> {
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
        let before = self.state.cells[cell];
        let gone = before & digits;
        if gone == 0 {
            return Ok(());
        }
        let after = before ^ gone;
        if after == 0 {
            return Err(Dead);
        }
        self.state.cells[cell] = after;
        let houses = self.board.house_set_of[cell];
        let mut rest = gone;
        while rest != 0 {
            let digit = rest.trailing_zeros() as usize & 15;
            rest &= rest - 1;
            self.state.places[digit].remove(cell);
            self.work.houses[digit] |= houses;
        }
        self.work.digits |= gone;
        self.work.lines |= houses;
        if after & (after - 1) == 0 {
            self.work.place(cell);
        }
        Ok(())
    }

    /// Takes a digit from all these cells, each of which has it. Which houses lost a place is returned.
    #[inline(always)]
    fn strike_all(&mut self, cells: Cells<W>, digit: usize) -> Result<Houses, Dead> {
        let bit = 1 << digit;
        let mut touched = 0;
        for cell in cells.iter() {
            let after = self.state.cells[cell] ^ bit;
            if after == 0 {
                return Err(Dead);
            }
            self.state.cells[cell] = after;
            touched |= self.board.house_set_of[cell];
            if after & (after - 1) == 0 {
                self.work.place(cell);
            }
        }
        self.state.places[digit] = self.state.places[digit].without(cells);
        Ok(touched)
    }

    /// A placed digit leaves the other cells of its houses.
    fn strike_from_peers(&mut self, cell: usize) -> Result<(), Dead> {
        self.state.n_open -= 1;
        let digit = self.state.cells[cell].trailing_zeros() as usize & 15;
        let seen = self.state.places[digit].and(self.board.peers_of[cell]);
        if seen.is_empty() {
            return Ok(());
        }
        let touched = self.strike_all(seen, digit)?;
        // The houses of the cell itself have their place.
        self.work.houses[digit] |= touched & !self.board.house_set_of[cell];
        self.work.digits |= 1 << digit;
        self.work.lines |= touched;
        Ok(())
    }

    /// Looks at the houses in which a digit lost a place. With none left the state is dead, with one the
    /// digit goes there; and where all places of a house lie in another house too, that one has it
    /// there and nowhere else.
    fn look_for_places(&mut self, digit: usize) -> Result<(), Dead> {
        let mut houses = std::mem::take(&mut self.work.houses[digit]);
        self.work.digits &= !(1 << digit);
        let side = self.board.side;
        while houses != 0 {
            let house = houses.trailing_zeros() as usize;
            houses &= houses - 1;
            let here = self.board.set_of[house];
            let places = self.state.places[digit].and(here);
            let Some(first) = places.first() else { return Err(Dead) };
            let mut others = places;
            others.remove(first);
            if others.is_empty() {
                self.strike(first, !(1 << digit))?;
                continue;
            }
            let [row, column, square] = self.board.houses_of[first].map(usize::from);
            if house >= 2 * side {
                self.lock(digit, places, here, row)?;
                self.lock(digit, places, here, column)?;
            } else {
                self.lock(digit, places, here, square)?;
            }
        }
        Ok(())
    }

    /// If all places of a house lie in `other` too, the digit leaves the rest of `other`.
    #[inline(always)]
    fn lock(&mut self, digit: usize, places: Cells<W>, here: Cells<W>, other: usize) -> Result<(), Dead> {
        let there = self.board.set_of[other];
        if !places.without(there).is_empty() {
            return Ok(());
        }
        let gone = self.state.places[digit].and(there).without(here);
        if gone.is_empty() {
            return Ok(());
        }
        let touched = self.strike_all(gone, digit)?;
        self.work.houses[digit] |= touched;
        self.work.digits |= 1 << digit;
        self.work.lines |= touched;
        Ok(())
    }
}
