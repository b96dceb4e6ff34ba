//! Depth-first search with propagation: every solution, one after another.

use grid::{Digit, DigitSet, Grid, Size};
use rulebook::Puzzle;

use crate::Limit;
use crate::compile::{Board, Houses, Mask};
use crate::lines::Clues;
use crate::propagate::{Dead, Propagator, State, Work};
use crate::stop;

/// So many nodes are looked into before it is asked again whether to stop: some milliseconds' work on the
/// largest board.
const NODES_BETWEEN_STOPS: u64 = 1 << 10;

/// How a search came to its end.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum End {
    /// Every solution was visited.
    Exhausted,
    /// The visitor had seen enough.
    Enough,
    /// The limit was reached, or the caller wants no more.
    LimitReached,
}

/// Which digit to try first in the cell where the search divides.
///
/// The cell is the same either way: where clues are open, a place of the crust that has the fewest
/// places in some line of theirs, because a clue says little until its crusts are known; after that the cell
/// with the fewest digits.
pub(crate) enum Order<'a> {
    /// The crust, or the smallest.
    Rising,
    /// The one the caller picks, by index.
    Asked(&'a mut dyn FnMut(&[Digit]) -> usize),
}

/// A solution as it stands on the search's stack.
pub(crate) struct Solution<'a> {
    size: Size,
    lines: &'a [[Mask; 16]; 32],
}

impl Solution<'_> {
    /// The solution as a grid.
    pub(crate) fn grid(&self) -> Grid {
        Grid::from_fn(self.size, |cell| {
            let mask = self.lines[usize::from(cell.row() - 1)][usize::from(cell.column() - 1)];
            self.size.digit(mask.trailing_zeros() as u8 + 1)
        })
    }
}

/// A search through all solutions of a puzzle, with room for `H` houses and lines of `L` words.
/// It can be used for one puzzle after another of its size.
pub(crate) struct Search<const H: usize, const L: usize> {
    board: Board,
    clues: Clues<L>,
    work: Work,
    blank: State<H>,
    /// One state a level. A level places a digit in an open cell, so there are never more levels than
    /// cells, and one for the page; room is made when a level is first reached.
    stack: Vec<State<H>>,
    n_nodes_left: u64,
}

impl<const H: usize, const L: usize> Search<H, L> {
    /// Ready for puzzles of a size.
    pub(crate) fn new(size: Size) -> Self {
        let board = Board::new(size);
        let (clues, work) = (Clues::new(&board), Work::new());
        let blank = State::blank(&board);
        Search { board, clues, work, blank, stack: vec![blank], n_nodes_left: 0 }
    }

    /// The size that it is ready for.
    pub(crate) fn size(&self) -> Size {
        self.board.size
    }

    /// Visits boards on which the page and these houses hold, until there are no more, `visit` returns false, or the
    /// limit is reached. A line with a clue has to be among the houses.
    pub(crate) fn run(
        &mut self,
        puzzle: &Puzzle,
        held: Houses,
        limit: Limit,
        mut order: Order,
        visit: &mut dyn FnMut(Solution) -> bool,
    ) -> End {
        self.n_nodes_left = limit.0;
        self.board.hold(held);
        if stop::is_asked() || self.spend_node().is_err() {
            return End::LimitReached;
        }
        if self.load(puzzle).and_then(|()| self.at(0).settle()).is_err() {
            return End::Exhausted;
        }
        match self.descend(0, &mut order, visit) {
            Ok(()) => End::Exhausted,
            Err(end) => end,
        }
    }

    /// Puts the page on the lowest level, with everything to be looked at.
    fn load(&mut self, puzzle: &Puzzle) -> Result<(), Dead> {
        self.clues.load(puzzle);
        self.stack[0] = self.blank;
        self.stack[0].choices = self.clues.choices;
        self.work.lines = self.clues.lines;
        for (cell, digit) in puzzle.givens().filled() {
            let cell = self.board.size.index(cell);
            self.at(0).strike(cell, !(1 << (digit.get() - 1)))?;
        }
        Ok(())
    }

    /// Visits the solutions of the state at this level, which has been settled. Uses the state up.
    fn descend(
        &mut self,
        level: usize,
        order: &mut Order,
        visit: &mut dyn FnMut(Solution) -> bool,
    ) -> Result<(), End> {
        loop {
            if self.stack[level].n_open == 0 {
                let solution = Solution { size: self.board.size, lines: &self.stack[level].lines };
                return if visit(solution) { Ok(()) } else { Err(End::Enough) };
            }
            let Some((cell, digit)) = self.choose(level, order) else {
                unreachable!("an open cell has several digits once all is settled")
            };
            self.spend_node()?;
            self.copy_up(level);
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
        match self.n_nodes_left.is_multiple_of(NODES_BETWEEN_STOPS) && stop::is_asked() {
            true => Err(End::LimitReached),
            false => Ok(()),
        }
    }

    fn at(&mut self, level: usize) -> Propagator<'_, H, L> {
        self.clues.turn_to(level);
        Propagator {
            board: &self.board,
            clues: &mut self.clues,
            work: &mut self.work,
            state: &mut self.stack[level],
        }
    }

    fn copy_up(&mut self, level: usize) {
        if self.stack.len() == level + 1 {
            self.stack.push(self.stack[level]);
        } else {
            self.stack[level + 1] = self.stack[level];
        }
        self.clues.copy_to(level + 1);
    }

    /// Leaves a cell of this level only these digits, and works out what follows.
    fn leave(&mut self, level: usize, cell: usize, digits: Mask) -> Result<(), Dead> {
        let mut propagator = self.at(level);
        // Both a chosen digit and the rest leave the open cell something, so only `settle` can fail.
        propagator.strike(cell, !digits)?;
        propagator.settle()
    }

    /// The cell and the digit to try next; none if every cell is settled.
    fn choose(&self, level: usize, order: &mut Order) -> Option<(usize, Mask)> {
        let state = &self.stack[level];
        let (cell, digit) = self.scarcest_end(state).or_else(|| self.scarcest_cell(state))?;
        match order {
            Order::Rising => Some((cell, digit)),
            Order::Asked(prefer) => {
                Some((cell, asked(state.cell(&self.board.place_of[cell & 255]), *prefer)))
            }
        }
    }

    /// The first place of the end digit that has the fewest places in some line whose clue is open, if any is.
    fn scarcest_end(&self, state: &State<H>) -> Option<(usize, Mask)> {
        let mut best = None;
        let mut fewest = u32::MAX;
        let mut ends = self.clues.ends;
        while ends != 0 {
            let digit = ends.trailing_zeros() as usize;
            ends &= ends - 1;
            let mut lines = self.clues.lines & !state.met;
            while lines != 0 {
                let line = lines.trailing_zeros() as usize;
                lines &= lines - 1;
                let spots = state.spots[digit & 15][line & (H - 1)];
                if spots & spots.wrapping_sub(1) == 0 {
                    continue;
                }
                let n_spots = spots.count_ones();
                if n_spots < fewest {
                    let first = self.board.cell_at(line, spots.trailing_zeros() as usize);
                    (best, fewest) = (Some((first, 1 << digit)), n_spots);
                    if n_spots == 2 {
                        return best;
                    }
                }
            }
        }
        best
    }

    /// The smallest digit of the cell that has the fewest, if any is open; among equals a cell in lines
    /// whose clues are open, because more follows there.
    fn scarcest_cell(&self, state: &State<H>) -> Option<(usize, Mask)> {
        let side = self.board.side;
        let open_lines = self.clues.lines & !state.met;
        let is_open = |line: usize| open_lines >> line & 1;
        // The best that can be had: two digits, and as many open lines as a cell can lie in.
        let rank = |n_digits: u32, n_lines: u64| 4 * u64::from(n_digits) + 2 - n_lines;
        let best_rank = rank(2, u64::from(open_lines != 0) * 2);
        let mut best = None;
        let mut lowest = u64::MAX;
        for (row, cells) in state.lines[..side].iter().enumerate() {
            for (column, digits) in cells[..side].iter().enumerate() {
                let rest = digits & digits.wrapping_sub(1);
                if rest == 0 {
                    continue;
                }
                let rank = rank(1 + rest.count_ones(), is_open(row) + is_open(side + column));
                if rank < lowest {
                    (best, lowest) = (Some((row * side + column, digits & digits.wrapping_neg())), rank);
                    if rank == best_rank {
                        return best;
                    }
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
    for digit in DigitSet::from_bits(digits).iter() {
        shown[n_shown] = digit;
        n_shown += 1;
    }
    let pick = prefer(&shown[..n_shown]).min(n_shown - 1);
    1 << (shown[pick].get() - 1)
}
