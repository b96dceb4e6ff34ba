//! The most that can be asked about at once: on 16x16 boards with everything printed, and beyond that.

use grid::{Cell, Digit, Grid, Size};
use prove::{Digging, Effort, Limit, Member, Printed, Verdict, conflict, fewest, verdict};
use rulebook::{Clue, Puzzle};

use crate::listed_rule::Listed;
use crate::seeded;

const LIMIT: Limit = Limit(10_000);
const DIGGING: Digging = Digging { work: 1_000, limit: LIMIT, more_work: 0, choices: 1 };
const EFFORT: Effort = Effort { limit: LIMIT, verdicts: 2_000, choices: 10_000 };

/// More than one clue can stand beside a line, if they are of different rules.
const AGAIN: [&Listed; 2] = [&Listed("again"), &Listed("and-again")];

/// The plainest full grid of 16x16.
fn full_grid() -> Grid {
    let size = Size::of_side(16).expect("a size");
    Grid::from_fn(size, |cell| {
        let (row, column) = (cell.row() - 1, cell.column() - 1);
        size.digit((row % 4 * 4 + row / 4 + column) % 16 + 1)
    })
}

/// All its cells but those left open, all its sums, and these again by so many other names.
fn page(grid: &Grid, n_more_rules: usize) -> Puzzle {
    let sums = seeded::true_clues(grid);
    let again =
        AGAIN[..n_more_rules].iter().flat_map(|rule| sums.iter().map(move |it| Clue { rule: *rule, ..*it }));
    Puzzle::new(grid.clone(), sums.iter().copied().chain(again))
}

#[test]
fn a_conflict_on_a_full_page() {
    let grid = full_grid();
    let size = grid.size();
    let [here, there] = [(3, 5), (3, 6)].map(|(row, column)| size.cell(row, column).expect("a cell"));
    let wrong = grid.clone().with(here, grid.get(there));
    // A cell's digit twice in its row and box: either house will do, and nothing else is needed.
    let is_that = |members: &[Member]| {
        let is_meant =
            |cell: Cell, digit: Digit| [here, there].contains(&cell) && wrong.get(cell) == Some(digit);
        matches!(members, [Member::Given(a, x), Member::Given(b, y), Member::House(_)]
            if a != b && is_meant(*a, *x) && is_meant(*b, *y))
    };
    for n_more_rules in [0, 1] {
        let puzzle = page(&wrong, n_more_rules);
        assert_eq!(Printed::all(&puzzle).len(), 256 + 32 * (1 + n_more_rules));
        let found = conflict(&puzzle, DIGGING).expect("a conflict");
        assert!(is_that(&found.members), "{found:?}");
    }
    // More than can be numbered: nothing is said.
    let puzzle = page(&wrong, 2);
    assert_eq!(verdict(&puzzle, LIMIT), Verdict::None);
    assert_eq!(conflict(&puzzle, DIGGING), None);
}

#[test]
fn what_settles_a_page_out_of_everything() {
    let grid = full_grid();
    // Three digits nowhere: at least two of them have to be told apart.
    let givens = Grid::from_fn(grid.size(), |it| grid.get(it).filter(|it| it.get() > 3));
    let puzzle = Puzzle::new(givens, []);
    assert!(matches!(verdict(&puzzle, LIMIT), Verdict::Many(_)));
    let all = Printed::all(&page(&grid, 0));
    assert_eq!(all.len(), 288);
    // Twice the same can be offered; where that is too much, nothing is said.
    let offered = |n: usize| -> Vec<Printed> { all.iter().cycle().take(n).copied().collect() };
    let enough = fewest(&puzzle, &grid, &offered(384), EFFORT).expect("all cells do");
    assert!(enough.added.len() >= 2);
    let settled = enough.added.iter().fold(puzzle.clone(), |page, it| it.added_to(&page));
    assert_eq!(verdict(&settled, LIMIT), Verdict::One(grid.clone()));
    assert_eq!(fewest(&puzzle, &grid, &offered(385), EFFORT), None);
}
