//! The comparison of `prove` with a general solver, whichever it is, on seeded puzzles.

use grid::Size;
use prove::{Limit, Verdict, count, verdict};
use rulebook::Puzzle;

use crate::clauses::{ClauseSolver, Statement, solutions};
use crate::seeded::{self, Recipe, Seeded};

const LIMIT: Limit = Limit(1_000_000);

/// How many puzzles had no solution, one, and several.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub(crate) struct Tally {
    /// No solution.
    pub(crate) none: u32,
    /// One solution.
    pub(crate) one: u32,
    /// Several solutions.
    pub(crate) many: u32,
}

/// Compares both opinions on `rounds` puzzles for each of several recipes.
pub(crate) fn compare<S: ClauseSolver>(size: Size, rounds: u64, seed: u64, solver: impl Fn() -> S) -> Tally {
    // Sums alone, sums with ever more givens, givens alone, and each of them spoilt a third of the time.
    let recipes = [(8, 100), (28, 100), (34, 90), (40, 70), (45, 40), (52, 0)];
    let mut tally = Tally::default();
    for (at, (givens, clues)) in recipes.into_iter().enumerate() {
        let mut seeded = Seeded::new(seed + at as u64);
        for _ in 0..rounds {
            let recipe = Recipe { givens, clues, spoilt: 35 };
            let puzzle = seeded::puzzle(size, recipe, &mut seeded);
            compare_one(&puzzle, &mut solver(), &mut tally);
        }
    }
    tally
}

/// Compares both opinions on sparse 9x9 puzzles with one solution, and on each with a given dropped.
pub(crate) fn compare_sparse<S: ClauseSolver>(rounds: u64, seed: u64, solver: impl Fn() -> S) -> Tally {
    let mut seeded = Seeded::new(seed);
    let mut tally = Tally::default();
    for _ in 0..rounds {
        let has_one = |it: &Puzzle| matches!(verdict(it, LIMIT), Verdict::One(_));
        let puzzle = seeded::sparse_puzzle(Size::NINE, &mut seeded, has_one);
        compare_one(&puzzle, &mut solver(), &mut tally);
        let shown = seeded.shuffled(puzzle.givens().filled());
        let fewer = puzzle.givens().clone().with(shown[0].0, None);
        compare_one(&Puzzle::new(fewer, puzzle.clues().iter().copied()), &mut solver(), &mut tally);
    }
    tally
}

fn compare_one(puzzle: &Puzzle, solver: &mut dyn ClauseSolver, tally: &mut Tally) {
    let theirs = solutions(puzzle, 2, Statement::Definition, solver);
    assert!(theirs.iter().all(|it| puzzle.is_solved_by(it)), "the clauses say something else: {puzzle:?}");
    assert_eq!(count(puzzle, 2, LIMIT), Some(theirs.len() as u64), "{puzzle:?}");
    match verdict(puzzle, LIMIT) {
        Verdict::None => {
            assert_eq!(theirs.len(), 0, "{puzzle:?}");
            tally.none += 1;
        }
        Verdict::One(only) => {
            assert_eq!(theirs, [only], "{puzzle:?}");
            tally.one += 1;
        }
        Verdict::Many(many) => {
            assert_eq!(theirs.len(), 2, "{puzzle:?}");
            assert_ne!(many.first, many.second);
            assert!(puzzle.is_solved_by(&many.first) && puzzle.is_solved_by(&many.second), "{puzzle:?}");
            tally.many += 1;
        }
        Verdict::Undecided => unreachable!("a million nodes were not enough for {puzzle:?}"),
    }
}
