//! A second, slow opinion: digits in order, cell by cell, no tricks. Written for reading.

use grid::{Cell, Digit, Grid, House};
use rulebook::Puzzle;

/// Counts a puzzle's solutions, but not beyond `up_to`.
pub(crate) fn count(puzzle: &Puzzle, up_to: u64) -> u64 {
    let mut n_found = 0;
    visit_solutions(puzzle, &mut |_| {
        n_found += 1;
        n_found < up_to
    });
    n_found
}

/// Shows every solution in rising order until `visit` returns false.
pub(crate) fn visit_solutions(puzzle: &Puzzle, visit: &mut dyn FnMut(&Grid) -> bool) {
    if puzzle.givens().filled().all(|(cell, _)| fits(puzzle, puzzle.givens(), cell)) {
        fill(puzzle, puzzle.givens(), visit);
    }
}

/// Fills the first empty cell in every way; false if the visitor has seen enough.
fn fill(puzzle: &Puzzle, grid: &Grid, visit: &mut dyn FnMut(&Grid) -> bool) -> bool {
    let Some(cell) = puzzle.size().cells().find(|it| grid.get(*it).is_none()) else {
        return visit(grid);
    };
    puzzle.size().digits().iter().all(|digit| {
        let next = grid.clone().with(cell, Some(digit));
        !fits(puzzle, &next, cell) || fill(puzzle, &next, visit)
    })
}

/// Whether the digit in `cell` repeats none and breaks no clue of a line that is now full.
fn fits(puzzle: &Puzzle, grid: &Grid, cell: Cell) -> bool {
    let size = puzzle.size();
    let digits_of = |house: House| -> Vec<Option<Digit>> {
        size.cells_of(house).into_iter().map(|it| grid.get(it)).collect()
    };
    let houses = size.houses_of(cell);
    houses.iter().all(|house| {
        let same = digits_of(*house).into_iter().filter(|it| *it == grid.get(cell));
        same.count() == 1
    }) && puzzle.clues().iter().filter(|clue| houses.contains(&clue.line)).all(|clue| {
        let line: Option<Vec<Digit>> = digits_of(clue.line).into_iter().collect();
        line.is_none_or(|digits| clue.rule.allows(size, clue.value, &digits))
    })
}
