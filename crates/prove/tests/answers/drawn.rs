//! The random puzzles that the answers are tried on.

use grid::Size;
use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use prove::{Limit, count};
use rulebook::Puzzle;

use crate::plain_search;
use crate::seeded::{self, Recipe, Seeded};

/// Far away.
pub(crate) const LIMIT: Limit = Limit(1_000_000);

/// The same cases on every run, so that a failure can be looked into.
pub(crate) fn config(cases: u32) -> ProptestConfig {
    ProptestConfig { cases, failure_persistence: None, rng_seed: RngSeed::Fixed(4), ..Default::default() }
}

/// Puzzles of 4x4 and 6x6, in boxes of either shape, with so many solutions (two stands for more).
pub(crate) fn with_solutions(n: u64) -> impl Strategy<Value = Puzzle> {
    any::<u64>().prop_map(move |seed| {
        let mut seeded = Seeded::new(seed);
        let size = [(2, 2), (2, 2), (3, 2), (2, 3)][seeded.below(4)];
        let size = Size::new(size.0, size.1).expect("a small size");
        loop {
            let puzzle = seeded::puzzle(size, recipe(size, n, &mut seeded), &mut seeded);
            if plain_search::count(&puzzle, 2) == n {
                return puzzle;
            }
        }
    })
}

/// Enough givens on 6x6 that the plain search comes to an end, even when one more is taken away.
fn recipe(size: Size, n: u64, seeded: &mut Seeded) -> Recipe {
    let fewest = if size.side() == 4 { 15 } else { 35 };
    let more = seeded.below(if n == 2 { 15 } else { 40 });
    Recipe { givens: fewest + more, clues: 20 + seeded.below(81), spoilt: if n == 0 { 100 } else { 0 } }
}

/// Counts solutions up to a number: by the plain search where it comes to an end, else by the search that
/// the tests of agreement hold against it.
pub(crate) fn counted(puzzle: &Puzzle, up_to: u64) -> u64 {
    let is_small = puzzle.size().side() == 4 || puzzle.givens().filled().count() > 12;
    if is_small { plain_search::count(puzzle, up_to) } else { count(puzzle, up_to, LIMIT).expect("decided") }
}
