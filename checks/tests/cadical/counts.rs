//! How many solutions, up to a cap: CaDiCaL counts the same, on every size of the paper.

use grid::{Grid, Size};
use prove::{Limit, count, some_solution};
use rulebook::Puzzle;

use crate::clauses::{Statement, solutions};
use crate::seeded::{self, Recipe, Seeded};
use crate::solver::CaDiCaL;

/// Solutions are counted so far and no further.
const CAP: usize = 51;

const LIMIT: Limit = Limit(10_000_000);

/// Puzzles of one size.
struct Plan {
    /// Width and height of a box.
    boxes: (u8, u8),
    n_puzzles: usize,
    /// Of the cells, in percent: from, to.
    givens: (usize, usize),
}

const fn plan(width: u8, height: u8, n_puzzles: usize, fewest: usize, most: usize) -> Plan {
    Plan { boxes: (width, height), n_puzzles, givens: (fewest, most) }
}

/// From puzzles with far more than fifty solutions to such as have one, on each size.
const PLANS: [Plan; 13] = [
    plan(2, 2, 400, 0, 45),
    plan(3, 2, 300, 5, 50),
    plan(2, 3, 200, 5, 50),
    plan(4, 2, 250, 10, 55),
    plan(2, 4, 150, 10, 55),
    plan(3, 3, 400, 5, 45),
    plan(5, 2, 120, 15, 55),
    plan(2, 5, 60, 15, 55),
    plan(4, 3, 60, 20, 55),
    plan(3, 4, 40, 20, 55),
    plan(7, 2, 40, 26, 54),
    plan(5, 3, 40, 32, 62),
    plan(4, 4, 40, 34, 62),
];

/// How many puzzles had no solution, one, up to fifty, and more.
#[derive(Clone, Copy, Default, Debug)]
struct Tally {
    none: usize,
    one: usize,
    several: usize,
    more: usize,
}

#[test]
fn cadical_counts_the_same_on_two_thousand_puzzles() {
    let mut n_puzzles = 0;
    for plan in PLANS {
        let (width, height) = plan.boxes;
        let size = Size::new(width, height).expect("a size");
        let tally = compare(size, &plan, &mut Seeded::new(104));
        let Tally { none, one, several, more } = tally;
        assert!([none, one, several, more].iter().all(|it| *it >= 5), "{size:?}: {tally:?}");
        n_puzzles += none + one + several + more;
    }
    assert!(n_puzzles >= 2_000, "{n_puzzles}");
}

fn compare(size: Size, plan: &Plan, seeded: &mut Seeded) -> Tally {
    let mut tally = Tally::default();
    for _ in 0..plan.n_puzzles {
        let (fewest, most) = plan.givens;
        let recipe =
            Recipe { givens: fewest + seeded.below(most - fewest + 1), clues: seeded.below(101), spoilt: 20 };
        let grid = full_grid(size, seeded);
        let puzzle = seeded::puzzle_of(&grid, recipe, seeded);
        let theirs = solutions(&puzzle, CAP, Statement::Definition, &mut CaDiCaL::default());
        assert!(
            theirs.iter().all(|it| puzzle.is_solved_by(it)),
            "the clauses say something else: {puzzle:?}"
        );
        assert_eq!(count(&puzzle, CAP as u64, LIMIT), Some(theirs.len() as u64), "{puzzle:?}");
        *match theirs.len() {
            0 => &mut tally.none,
            1 => &mut tally.one,
            2..CAP => &mut tally.several,
            _ => &mut tally.more,
        } += 1;
    }
    tally
}

/// A random full grid. The plain search finds none on large boards, so that there `prove` has to fill them.
fn full_grid(size: Size, seeded: &mut Seeded) -> Grid {
    if size.side() <= 9 {
        return seeded::full_grid(size, seeded);
    }
    let blank = Puzzle::new(Grid::empty(size), []);
    let mut prefer = |digits: &[_]| seeded.below(digits.len());
    some_solution(&blank, LIMIT, &mut prefer).expect("every size has a full grid")
}
