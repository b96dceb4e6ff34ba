//! Depth-first search with propagation: every solution, one after another.

use grid::{Digit, Grid};
use rulebook::Puzzle;

use crate::Limit;
use crate::compile::{Compiled, Mask};
use crate::propagate::{Dead, Propagator, State};

/// How a search came to its end.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum End {
    /// Every solution was visited.
    Exhausted,
    /// The visitor had seen enough.
    Enough,
    /// The limit was reached.
    LimitReached,
}

/// Which digit to try first in the cell where the search divides.
///
/// The cell is the same either way: where there are clues, a place of the crust that has the fewest
/// places in some house, because a clue says little until its crusts are known; after that the cell
/// with the fewest digits.
pub(crate) enum Order<'a> {
    /// The crust, or the smallest.
    Rising,
    /// The one the caller picks, by index.
    Asked(&'a mut dyn FnMut(&[Digit]) -> usize),
}

/// A solution as it stands on the search's stack.
pub(crate) struct Solution<'a> {
    compiled: &'a Compiled,
    cells: &'a [Mask],
}

impl Solution<'_> {
    /// The solution as a grid.
    pub(crate) fn grid(&self) -> Grid {
        self.compiled.grid(self.cells)
    }
}

/// A search through all solutions of one puzzle.
pub(crate) struct Search {
    compiled: Compiled,
    propagator: Propagator,
    /// One state a level, each as long as `stride`: the candidates of the cells, then the number of
    /// ways left to each clue. A level places a digit in an open cell, so there are never more levels
    /// than cells, and one for the page.
    stack: Vec<u16>,
    stride: usize,
    n_nodes_left: u64,
}

impl Search {
    /// Gets ready to search; the page is not looked into yet.
    pub(crate) fn new(puzzle: &Puzzle) -> Search {
        let (compiled, ways) = Compiled::new(puzzle);
        let n_cells = compiled.size.n_cells();
        let stride = n_cells + compiled.ways_of.len();
        let mut stack = vec![0; stride * (n_cells + 1)];
        let page = &mut stack[..stride];
        for (at, cell) in compiled.size.cells().enumerate() {
            page[at] = puzzle.givens().get(cell).map_or(compiled.all, |it| 1 << (it.get() - 1));
        }
        for (n_live, ways) in page[n_cells..].iter_mut().zip(&compiled.ways_of) {
            *n_live = u16::try_from(ways.len()).unwrap_or_else(|_| unreachable!("fewer ways than 65,536"));
        }
        let propagator = Propagator::new(&compiled, ways);
        Search { compiled, propagator, stack, stride, n_nodes_left: 0 }
    }

    /// Visits solutions until there are no more, `visit` returns false, or the limit is reached.
    pub(crate) fn run(
        mut self,
        limit: Limit,
        mut order: Order,
        visit: &mut dyn FnMut(Solution) -> bool,
    ) -> End {
        self.n_nodes_left = limit.0;
        if self.spend_node().is_err() {
            return End::LimitReached;
        }
        if self.look_at_page().is_err() {
            return End::Exhausted;
        }
        match self.descend(0, &mut order, visit) {
            Ok(()) => End::Exhausted,
            Err(end) => end,
        }
    }

    /// Visits the solutions of the state at this level, which has been settled. Uses the state up.
    fn descend(
        &mut self,
        level: usize,
        order: &mut Order,
        visit: &mut dyn FnMut(Solution) -> bool,
    ) -> Result<(), End> {
        loop {
            let Some((cell, digit)) = self.choose(level, order) else {
                let solution = Solution { compiled: &self.compiled, cells: self.cells(level) };
                return if visit(solution) { Ok(()) } else { Err(End::Enough) };
            };
            self.spend_node()?;
            let from = level * self.stride;
            self.stack.copy_within(from..from + self.stride, from + self.stride);
            if self.leave(level + 1, cell, digit).is_ok() {
                self.descend(level + 1, order, visit)?;
            }
            if self.leave(level, cell, !digit).is_err() {
                return Ok(());
            }
        }
    }

    fn spend_node(&mut self) -> Result<(), End> {
        self.n_nodes_left = self.n_nodes_left.checked_sub(1).ok_or(End::LimitReached)?;
        Ok(())
    }

    fn cells(&self, level: usize) -> &[Mask] {
        &self.stack[level * self.stride..][..self.compiled.size.n_cells()]
    }

    fn state(&mut self, level: usize) -> (&Compiled, &mut Propagator, State<'_>) {
        let state = &mut self.stack[level * self.stride..][..self.stride];
        let (cells, n_live) = state.split_at_mut(self.compiled.size.n_cells());
        (&self.compiled, &mut self.propagator, State { cells, n_live })
    }

    /// Works out what follows from the page alone.
    fn look_at_page(&mut self) -> Result<(), Dead> {
        let (compiled, propagator, mut state) = self.state(0);
        propagator.look_everywhere(compiled, &state);
        propagator.settle(compiled, &mut state)
    }

    /// Leaves a cell of this level only these digits, and works out what follows.
    fn leave(&mut self, level: usize, cell: u8, digits: Mask) -> Result<(), Dead> {
        let (compiled, propagator, mut state) = self.state(level);
        // Both a chosen digit and the rest leave the open cell something, so only `settle` can fail.
        propagator.narrow(compiled, &mut state, cell, digits)?;
        propagator.settle(compiled, &mut state)
    }

    /// The cell and the digit to try next; none if every cell is settled.
    fn choose(&self, level: usize, order: &mut Order) -> Option<(u8, Mask)> {
        let (cell, digit) = self.scarcest_crust(level).or_else(|| self.scarcest_cell(level))?;
        match order {
            Order::Rising => Some((cell, digit)),
            Order::Asked(prefer) => Some((cell, asked(self.cells(level)[usize::from(cell)], *prefer))),
        }
    }

    /// The first place of the crust that has the fewest places in some house, if any is open.
    fn scarcest_crust(&self, level: usize) -> Option<(u8, Mask)> {
        if self.compiled.first_digits == 0 {
            return None;
        }
        let cells = self.cells(level);
        let mut best = None;
        let mut fewest = usize::MAX;
        for house in 0..self.compiled.houses.len() {
            let mut rest = self.compiled.first_digits;
            while rest != 0 {
                let digit = rest & rest.wrapping_neg();
                rest &= !digit;
                let places = self.compiled.cells_of(house).iter();
                let mut places = places.filter(|it| cells[usize::from(**it)] & digit != 0);
                let first = places.next();
                let n_places = 1 + places.count();
                if n_places > 1 && n_places < fewest {
                    (best, fewest) = (first.map(|it| (*it, digit)), n_places);
                }
            }
        }
        best
    }

    /// The smallest digit of the cell that has the fewest, if any is open.
    fn scarcest_cell(&self, level: usize) -> Option<(u8, Mask)> {
        let mut best = None;
        let mut fewest = u32::MAX;
        for (at, digits) in self.cells(level).iter().enumerate() {
            let n_digits = digits.count_ones();
            if n_digits > 1 && n_digits < fewest {
                (best, fewest) = (Some((at as u8, digits & digits.wrapping_neg())), n_digits);
                if n_digits == 2 {
                    break;
                }
            }
        }
        best
    }
}

/// The digit of a set that the caller picks.
fn asked(digits: Mask, prefer: &mut dyn FnMut(&[Digit]) -> usize) -> Mask {
    // Any digit fills the unused end; the caller does not see it.
    let Some(any) = Digit::new(1) else { return digits & digits.wrapping_neg() };
    let mut shown = [any; 16];
    let mut n_shown = 0;
    for digit in grid::DigitSet::from_bits(digits).iter() {
        shown[n_shown] = digit;
        n_shown += 1;
    }
    let pick = prefer(&shown[..n_shown]).min(n_shown - 1);
    1 << (shown[pick].get() - 1)
}
