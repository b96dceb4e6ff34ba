//! A sandwich puzzle as clauses for a general SAT solver, straight from the definition of the rules.
//!
//! Nothing of the crate under test is used, nor, where answers are compared, the list of a clue's ways.
//! A sum is stated like this: a cell is inside if some crust stands before it and some crust after it; a
//! digit is inside if its cell is; and what the inside digits add up to is carried from digit to digit.

use std::collections::BTreeMap;

use grid::{Cell, Digit, Grid, House, Size};
use rulebook::{Clue, Puzzle};

/// A general solver. Literals are variables from 1 on, negative where denied.
pub(crate) trait ClauseSolver {
    /// Demands that one of the literals be true.
    fn add(&mut self, clause: &[i32]);
    /// Whether all clauses so far can be met together.
    fn is_satisfiable(&mut self) -> bool;
    /// The variable's value in the assignment found last.
    fn is_true(&self, variable: i32) -> bool;
}

/// How the clues are stated.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Statement {
    /// From the definition alone.
    Definition,
    /// As a choice between the ways that the rule itself lists. For timing: solvers find it far easier.
    #[allow(dead_code, reason = "only the comparison of times uses it")]
    Ways,
}

/// Up to so many solutions: after each, a clause forbids it.
pub(crate) fn solutions(
    puzzle: &Puzzle,
    up_to: usize,
    statement: Statement,
    solver: &mut dyn ClauseSolver,
) -> Vec<Grid> {
    let size = puzzle.size();
    encode(puzzle, statement, solver);
    let mut found = Vec::new();
    while found.len() < up_to && solver.is_satisfiable() {
        let grid = found_last(size, solver);
        forbid(&grid, solver);
        found.push(grid);
    }
    found
}

/// A solution other than this one, if there is any.
#[allow(dead_code, reason = "only what is said of large forms is held against it")]
pub(crate) fn another_solution(
    puzzle: &Puzzle,
    known: &Grid,
    statement: Statement,
    solver: &mut dyn ClauseSolver,
) -> Option<Grid> {
    encode(puzzle, statement, solver);
    forbid(known, solver);
    solver.is_satisfiable().then(|| found_last(puzzle.size(), solver))
}

fn found_last(size: Size, solver: &dyn ClauseSolver) -> Grid {
    let digit_in = |cell| size.digits().iter().find(|digit| solver.is_true(holds(size, cell, *digit)));
    Grid::from_fn(size, digit_in)
}

fn forbid(grid: &Grid, solver: &mut dyn ClauseSolver) {
    let size = grid.size();
    let differs: Vec<i32> = grid.filled().map(|(cell, digit)| -holds(size, cell, digit)).collect();
    solver.add(&differs);
}

/// The variable that says that the cell holds the digit.
fn holds(size: Size, cell: Cell, digit: Digit) -> i32 {
    (size.index(cell) * usize::from(size.side()) + usize::from(digit.get())) as i32
}

/// Whether givens, clues and houses can all hold, with anything in all other cells. Each clue's line has to be
/// among the houses, without which the clue says nothing.
#[allow(dead_code, reason = "only what is said of conflicts is held against it")]
pub(crate) fn can_hold(
    givens: &Grid,
    clues: &[Clue],
    houses: &[House],
    statement: Statement,
    solver: &mut dyn ClauseSolver,
) -> bool {
    assert!(clues.iter().all(|it| houses.contains(&it.line)), "{clues:?} without their lines");
    encode_part(&Puzzle::new(givens.clone(), clues.iter().copied()), houses, statement, solver);
    solver.is_satisfiable()
}

fn encode(puzzle: &Puzzle, statement: Statement, solver: &mut dyn ClauseSolver) {
    let houses: Vec<House> = puzzle.size().houses().collect();
    encode_part(puzzle, &houses, statement, solver);
}

/// As if no other houses had to hold each digit once.
fn encode_part(puzzle: &Puzzle, houses: &[House], statement: Statement, solver: &mut dyn ClauseSolver) {
    let size = puzzle.size();
    for cell in size.cells() {
        let here: Vec<i32> = size.digits().iter().map(|it| holds(size, cell, it)).collect();
        exactly_one(&here, solver);
    }
    for house in houses {
        for digit in size.digits().iter() {
            let places: Vec<i32> = size.cells_of(*house).iter().map(|it| holds(size, *it, digit)).collect();
            exactly_one(&places, solver);
        }
    }
    for (cell, digit) in puzzle.givens().filled() {
        solver.add(&[holds(size, cell, digit)]);
    }
    let mut next_variable = (size.n_cells() * usize::from(size.side())) as i32;
    for clue in puzzle.clues() {
        assert_eq!(clue.rule.id().name(), "sandwich", "no other rule is written as clauses here");
        match statement {
            Statement::Definition => {
                sum_between_crusts(size, clue.line, clue.value, &mut next_variable, solver);
            }
            Statement::Ways => one_of_its_ways(puzzle, clue, &mut next_variable, solver),
        }
    }
}

fn exactly_one(literals: &[i32], solver: &mut dyn ClauseSolver) {
    solver.add(literals);
    for (at, a) in literals.iter().enumerate() {
        for b in &literals[at + 1..] {
            solver.add(&[-a, -b]);
        }
    }
}

fn sum_between_crusts(
    size: Size,
    line: House,
    sum: u16,
    next_variable: &mut i32,
    solver: &mut dyn ClauseSolver,
) {
    let mut fresh = || {
        *next_variable += 1;
        *next_variable
    };
    let cells = size.cells_of(line);
    let n_cells = cells.len();
    let digit = |value: u8| size.digit(value).expect("a digit of the size");
    let crust_at = |at: usize| -> [i32; 2] {
        [holds(size, cells[at], digit(1)), holds(size, cells[at], digit(size.side()))]
    };

    // `before[k]`: a crust stands before cell k. `after[k]`: a crust stands after it.
    let before: Vec<i32> = (0..n_cells).map(|_| fresh()).collect();
    let after: Vec<i32> = (0..n_cells).map(|_| fresh()).collect();
    solver.add(&[-before[0]]);
    solver.add(&[-after[n_cells - 1]]);
    for at in 1..n_cells {
        either(before[at], before[at - 1], crust_at(at - 1), solver);
        either(after[n_cells - 1 - at], after[n_cells - at], crust_at(n_cells - at), solver);
    }

    // `inside[d]`: the digit lies between the crusts.
    let filling: Vec<Digit> = (2..size.side()).map(digit).collect();
    let inside: Vec<i32> = filling.iter().map(|_| fresh()).collect();
    for (it, inside) in filling.iter().zip(&inside) {
        for at in 0..n_cells {
            let here = holds(size, cells[at], *it);
            solver.add(&[-here, -before[at], -after[at], *inside]);
            solver.add(&[-here, before[at], -inside]);
            solver.add(&[-here, after[at], -inside]);
        }
    }
    // `so_far[s]`: the digits looked at up to here that are inside add up to s.
    let start = fresh();
    solver.add(&[start]);
    let mut so_far = BTreeMap::from([(0, start)]);
    for (it, inside) in filling.iter().zip(&inside) {
        let mut next = BTreeMap::new();
        for (total, before) in so_far {
            let with = total + u16::from(it.get());
            let without = *next.entry(total).or_insert_with(&mut fresh);
            solver.add(&[-before, *inside, without]);
            let with = *next.entry(with).or_insert_with(&mut fresh);
            solver.add(&[-before, -inside, with]);
        }
        so_far = next;
    }
    for (total, holds) in so_far {
        if total != sum {
            solver.add(&[-holds]);
        }
    }
}

fn one_of_its_ways(puzzle: &Puzzle, clue: &Clue, next_variable: &mut i32, solver: &mut dyn ClauseSolver) {
    let size = puzzle.size();
    let ways = puzzle.ways(clue);
    let chosen: Vec<i32> = (1..).map(|it| *next_variable + it).take(ways.len()).collect();
    *next_variable += ways.len() as i32;
    solver.add(&chosen);
    for (way, chosen) in ways.iter().zip(&chosen) {
        for (cell, digits) in ways.cells().iter().zip(way) {
            for other in (size.digits() - *digits).iter() {
                solver.add(&[-chosen, -holds(size, *cell, other)]);
            }
        }
    }
}

/// `result` is true exactly if `a` or one of `others` is.
fn either(result: i32, a: i32, others: [i32; 2], solver: &mut dyn ClauseSolver) {
    let [b, c] = others;
    solver.add(&[-result, a, b, c]);
    for it in [a, b, c] {
        solver.add(&[-it, result]);
    }
}
