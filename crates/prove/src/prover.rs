//! The engine that is kept from one question to the next.

use std::cell::Cell;

use grid::{Digit, Grid, House, Size};
use rulebook::Puzzle;

use crate::compile::{Houses, every_house};
use crate::search::{End, Order, Search, Solution};
use crate::{Limit, Many, Verdict};

/// Answers questions about one puzzle after another, and keeps what they have in common: tables of their
/// sizes and clues, and room to work in.
///
/// The functions [`verdict`](crate::verdict()), [`count`](crate::count) and
/// [`some_solution`](crate::some_solution) keep one for each thread, so there is no need to hold one;
/// whoever does, decides when it is dropped. Nothing it keeps can be told from its answers.
///
/// ```
/// use grid::Grid;
/// use prove::{Limit, Prover, Verdict};
/// use rulebook::Puzzle;
///
/// let mut prover = Prover::default();
/// let mut n_sound = 0;
/// for text in ["1234............", "12343.......4...", "12343..1....4..."] {
///     let puzzle = Puzzle::new(Grid::from_line(text).unwrap(), []);
///     n_sound += usize::from(matches!(prover.verdict(&puzzle, Limit(10_000)), Verdict::One(_)));
/// }
/// assert_eq!(n_sound, 1);
/// ```
#[derive(Default)]
pub struct Prover {
    small: Vec<Box<Search<32, 3>>>,
    large: Vec<Box<Search<64, 4>>>,
}

impl Prover {
    /// See [`verdict`](crate::verdict()).
    pub fn verdict(&mut self, puzzle: &Puzzle, limit: Limit) -> Verdict {
        let exchange = puzzle.exchange();
        let enough = if exchange.is_some() { 1 } else { 2 };
        let mut found = [None, None];
        let mut n_found = 0;
        let end = self.run(puzzle, limit, Order::Rising, &mut |it| {
            found[n_found] = Some(it.grid());
            n_found += 1;
            n_found < enough
        });
        let [first, second] = found;
        match (first, second, exchange, end) {
            (Some(first), _, Some((a, b)), _) => {
                let second = exchanged(&first, a, b);
                debug_assert!(puzzle.is_solved_by(&second), "{second} is not a twin of {first}");
                Verdict::Many(Many { first, second, exchange })
            }
            (Some(first), Some(second), None, _) => Verdict::Many(Many { first, second, exchange: None }),
            (_, _, _, End::LimitReached) => Verdict::Undecided,
            (Some(only), ..) => Verdict::One(only),
            (None, ..) => Verdict::None,
        }
    }

    /// See [`count`](crate::count).
    pub fn count(&mut self, puzzle: &Puzzle, up_to: u64, limit: Limit) -> Option<u64> {
        if up_to == 0 {
            return Some(0);
        }
        let mut n_found = 0;
        let end = self.run(puzzle, limit, Order::Rising, &mut |_| {
            n_found += 1;
            n_found < up_to
        });
        (end != End::LimitReached).then_some(n_found)
    }

    /// See [`some_solution`](crate::some_solution).
    pub fn some_solution(
        &mut self,
        puzzle: &Puzzle,
        limit: Limit,
        prefer: &mut dyn FnMut(&[Digit]) -> usize,
    ) -> Option<Grid> {
        let mut found = None;
        self.run(puzzle, limit, Order::Asked(prefer), &mut |it| {
            found = Some(it.grid());
            false
        });
        found
    }

    /// Whether the page can hold together with these houses, whatever is in other cells; none if the limit is reached.
    /// A line with a clue has to be among the houses.
    pub(crate) fn together(&mut self, puzzle: &Puzzle, held: &[House], limit: Limit) -> Option<Option<Grid>> {
        debug_assert!(puzzle.clues().iter().all(|it| held.contains(&it.line)), "a clue without its line");
        let held = held.iter().fold(0, |held, it| held | 1 << puzzle.size().house_index(*it));
        let mut found = None;
        let end = self.run_with(puzzle, held, limit, Order::Rising, &mut |it| {
            found = Some(it.grid());
            false
        });
        (end != End::LimitReached).then_some(found)
    }

    fn run(
        &mut self,
        puzzle: &Puzzle,
        limit: Limit,
        order: Order,
        visit: &mut dyn FnMut(Solution) -> bool,
    ) -> End {
        self.run_with(puzzle, every_house(puzzle.size()), limit, order, visit)
    }

    fn run_with(
        &mut self,
        puzzle: &Puzzle,
        held: Houses,
        limit: Limit,
        order: Order,
        visit: &mut dyn FnMut(Solution) -> bool,
    ) -> End {
        let size = puzzle.size();
        match size.side() {
            ..=10 => ready(&mut self.small, size).run(puzzle, held, limit, order, visit),
            _ => ready(&mut self.large, size).run(puzzle, held, limit, order, visit),
        }
    }
}

impl std::fmt::Debug for Prover {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Prover")
    }
}

/// The search that is ready for a size, made if it is the first of its size.
fn ready<const H: usize, const L: usize>(
    searches: &mut Vec<Box<Search<H, L>>>,
    size: Size,
) -> &mut Search<H, L> {
    let at = searches.iter().position(|it| it.size() == size).unwrap_or_else(|| {
        searches.push(Box::new(Search::new(size)));
        searches.len() - 1
    });
    &mut searches[at]
}

/// The grid with every `a` and `b` exchanged.
fn exchanged(grid: &Grid, a: Digit, b: Digit) -> Grid {
    Grid::from_fn(grid.size(), |cell| match grid.get(cell) {
        Some(it) if it == a => Some(b),
        Some(it) if it == b => Some(a),
        other => other,
    })
}

thread_local! {
    static KEPT: Cell<Option<Box<Prover>>> = const { Cell::new(None) };
}

/// Asks the prover that is kept for this thread.
///
/// It is taken away meanwhile, so that a caller who asks again from within an answer gets another.
pub(crate) fn with_kept<T>(ask: impl FnOnce(&mut Prover) -> T) -> T {
    let mut prover = KEPT.take().unwrap_or_default();
    let answer = ask(&mut prover);
    KEPT.set(Some(prover));
    answer
}
