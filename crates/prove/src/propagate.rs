//! What follows from the candidates left: singles in every house, and the ways left to every clue.
//!
//! Only what changed is looked at again: cells that came down to one digit, houses and lines in which
//! some cell lost a candidate. Stronger inferences (pairs, locked candidates) are left out so far;
//! whether they would pay has not been measured.

use crate::compile::{Compiled, Houses, Lanes, Mask};

/// The state has no solution.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Dead;

/// One state of the board, as a view into the search's stack.
pub(crate) struct State<'s> {
    /// The candidates of each cell.
    pub(crate) cells: &'s mut [Mask],
    /// How many ways each clue has left.
    pub(crate) n_live: &'s mut [u16],
}

/// The work waiting to be done, and the ways in their present order.
///
/// Invariant: of each clue's ways, those that can still be met in a state stand before those that
/// were found dead on the path to it. Going back in the search therefore only resets a number: deeper
/// states reorder the ways that stand before it, and never change which they are.
pub(crate) struct Propagator {
    ways: Vec<Lanes>,
    placed: Vec<u8>,
    houses: Houses,
    lines: Houses,
}

impl Propagator {
    /// Nothing waiting.
    pub(crate) fn new(compiled: &Compiled, ways: Vec<Lanes>) -> Propagator {
        // A cell comes down to one digit at most once a state, so this never grows.
        let placed = Vec::with_capacity(compiled.size.n_cells());
        Propagator { ways, placed, houses: 0, lines: 0 }
    }

    /// Marks every cell, house and line as unseen: for the page itself.
    pub(crate) fn look_everywhere(&mut self, compiled: &Compiled, state: &State) {
        let side = compiled.side();
        let givens = state.cells.iter().enumerate().filter(|(_, digits)| digits.is_power_of_two());
        self.placed.extend(givens.map(|(at, _)| at as u8));
        self.houses = (1 << (3 * side)) - 1;
        self.lines = (1 << (2 * side)) - 1;
    }

    /// Leaves a cell only these digits.
    pub(crate) fn narrow(
        &mut self,
        compiled: &Compiled,
        state: &mut State,
        cell: u8,
        digits: Mask,
    ) -> Result<(), Dead> {
        let at = usize::from(cell);
        let before = state.cells[at];
        let after = before & digits;
        if after == before {
            return Ok(());
        }
        if after == 0 {
            return Err(Dead);
        }
        state.cells[at] = after;
        let [row, column, square] = compiled.houses_of[at];
        let lines: Houses = 1 << row | 1 << column;
        self.lines |= lines;
        self.houses |= lines | 1 << square;
        if after.is_power_of_two() {
            self.placed.push(cell);
        }
        Ok(())
    }

    /// Works out all that follows, the cheapest first.
    pub(crate) fn settle(&mut self, compiled: &Compiled, state: &mut State) -> Result<(), Dead> {
        let result = self.drain(compiled, state);
        if result.is_err() {
            self.placed.clear();
            (self.houses, self.lines) = (0, 0);
        }
        result
    }

    fn drain(&mut self, compiled: &Compiled, state: &mut State) -> Result<(), Dead> {
        loop {
            if let Some(cell) = self.placed.pop() {
                self.strike_from_peers(compiled, state, cell)?;
            } else if self.houses != 0 {
                let house = self.houses.trailing_zeros();
                self.houses &= self.houses - 1;
                self.find_hidden_singles(compiled, state, house as usize)?;
            } else if self.lines != 0 {
                let line = self.lines.trailing_zeros();
                self.lines &= self.lines - 1;
                for clue in compiled.clues_of[line as usize].clone() {
                    self.review_ways(compiled, state, clue, line as usize)?;
                }
            } else {
                return Ok(());
            }
        }
    }

    /// A placed digit leaves the other cells of its houses.
    fn strike_from_peers(&mut self, compiled: &Compiled, state: &mut State, cell: u8) -> Result<(), Dead> {
        let digit = state.cells[usize::from(cell)];
        for house in compiled.houses_of[usize::from(cell)] {
            for &peer in compiled.cells_of(usize::from(house)) {
                if peer != cell {
                    self.narrow(compiled, state, peer, !digit)?;
                }
            }
        }
        Ok(())
    }

    /// A digit with one place left in a house goes there; one with none is a contradiction.
    fn find_hidden_singles(
        &mut self,
        compiled: &Compiled,
        state: &mut State,
        house: usize,
    ) -> Result<(), Dead> {
        let (mut once, mut twice) = (0, 0);
        for &cell in compiled.cells_of(house) {
            let digits = state.cells[usize::from(cell)];
            twice |= once & digits;
            once |= digits;
        }
        if once != compiled.all {
            return Err(Dead);
        }
        let hidden = once & !twice;
        for &cell in compiled.cells_of(house) {
            let here = state.cells[usize::from(cell)] & hidden;
            if here != 0 {
                if !here.is_power_of_two() {
                    return Err(Dead);
                }
                self.narrow(compiled, state, cell, here)?;
            }
        }
        Ok(())
    }

    /// Drops a clue's ways that cannot be met any more; the line keeps what some other way allows.
    fn review_ways(
        &mut self,
        compiled: &Compiled,
        state: &mut State,
        clue: usize,
        line: usize,
    ) -> Result<(), Dead> {
        let mut left = [0; 16];
        for (lane, cell) in left.iter_mut().zip(compiled.cells_of(line)) {
            *lane = state.cells[usize::from(*cell)];
        }
        let ways = &mut self.ways[compiled.ways_of[clue].clone()];
        let mut n_live = usize::from(state.n_live[clue]);
        let mut allowed = [0; 16];
        let mut at = 0;
        while at < n_live {
            let met = intersection(&left, &ways[at]);
            if can_be_met(&met, compiled) {
                allowed = union(&allowed, &met);
                at += 1;
            } else {
                n_live -= 1;
                ways.swap(at, n_live);
            }
        }
        // No more than the clue had at first, which was checked to fit.
        state.n_live[clue] = n_live as u16;
        for (digits, &cell) in allowed.iter().zip(compiled.cells_of(line)) {
            self.narrow(compiled, state, cell, *digits)?;
        }
        Ok(())
    }
}

/// Whether every cell of a line has a digit and every digit of the size a place.
///
/// Where a way cuts a line into parts with as many digits as cells, such as crusts, inside and outside,
/// this asks it of every part at once, because the parts share no digit.
fn can_be_met(met: &Lanes, compiled: &Compiled) -> bool {
    let mut somewhere = 0;
    let mut n_empty = 0;
    for digits in met {
        somewhere |= digits;
        n_empty += u16::from(*digits == 0);
    }
    somewhere == compiled.all && usize::from(n_empty) == met.len() - compiled.side()
}

fn intersection(a: &Lanes, b: &Lanes) -> Lanes {
    std::array::from_fn(|lane| a[lane] & b[lane])
}

fn union(a: &Lanes, b: &Lanes) -> Lanes {
    std::array::from_fn(|lane| a[lane] | b[lane])
}
