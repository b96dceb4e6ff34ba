//! Which steps the time between two digits is put down to.

use grade::{Entry, Mismatch, Outcome, Solve, Solver, Timed};
use grid::{Cell, Size};

use crate::simulated::*;

fn cells() -> Vec<Cell> {
    Size::NINE.cells().take(N_CELLS).collect()
}

/// Somebody who writes those cells, counted from 0, one every ten seconds.
fn writing(order: &[usize]) -> Solve {
    let cells = cells();
    let entry = |(at, cell): (usize, &usize)| Entry {
        at: 10.0 * (at + 1) as f64,
        cell: cells[*cell],
        digit: Some(digit_of(cells[*cell])),
    };
    Solve {
        puzzle: "p".to_owned(),
        solver: "a".to_owned(),
        kind: Solver::ALL[1],
        is_aloud: false,
        entries: order.iter().enumerate().map(entry).collect(),
        hints: Vec::new(),
        pauses: Vec::new(),
        outcome: Outcome::Left,
    }
}

/// Steps and seconds of each stretch. Each cell of a made-up puzzle rests on the one three before it.
fn stretches(solve: &Solve) -> Vec<(usize, f64)> {
    let made = made("p", &techniques(), 1);
    Timed::new(solve, &made.course).unwrap().stretches().collect()
}

#[test]
fn each_step_counts_once_whatever_the_order() {
    assert_eq!(stretches(&writing(&[0, 1, 2, 3])), [(1, 10.0); 4]);
    assert_eq!(stretches(&writing(&[2, 0, 5, 1, 3, 8])), [(1, 10.0); 6]);
    // The last of a thread needs all of it; the others of it are then the rest of what was found.
    assert_eq!(stretches(&writing(&[6, 0, 3, 1])), [(3, 30.0), (1, 10.0)]);
    assert_eq!(stretches(&writing(&[])), []);
}

#[test]
fn a_wrong_digit_is_no_progress() {
    let mut solve = writing(&[0, 1, 2]);
    solve.entries[1].digit = Size::NINE.digit(digit_of(cells()[1]).get() % 9 + 1);
    assert_eq!(stretches(&solve), [(1, 10.0), (1, 20.0)]);
    // Mended later.
    solve.entries.push(Entry { at: 70.0, cell: cells()[1], digit: None });
    solve.entries.push(Entry { at: 75.0, cell: cells()[1], digit: Some(digit_of(cells()[1])) });
    assert_eq!(stretches(&solve), [(1, 10.0), (1, 20.0), (1, 45.0)]);
    // What was right, taken out and put back was found the first time.
    let mut solve = writing(&[0, 1]);
    solve.entries.insert(1, Entry { at: 12.0, cell: cells()[0], digit: None });
    solve.entries.insert(2, Entry { at: 14.0, cell: cells()[0], digit: Some(digit_of(cells()[0])) });
    assert_eq!(stretches(&solve), [(1, 10.0), (1, 10.0)]);
}

#[test]
fn pauses_are_taken_out_and_what_was_hinted_is_left_out() {
    let pauses = vec![[5.0, 8.0], [18.0, 22.0]];
    let solve = Solve { pauses, ..writing(&[0, 1, 2]) };
    assert_eq!(stretches(&solve), [(1, 7.0), (1, 8.0), (1, 8.0)]);
    let solve = Solve { hints: vec![10.0, 12.0], ..writing(&[0, 1, 2]) };
    assert_eq!(stretches(&solve), [(1, 10.0), (1, 10.0)]);
}

#[test]
fn a_solve_of_another_puzzle_is_refused() {
    let made = made("p", &techniques(), 1);
    let all: Vec<usize> = (0..N_CELLS).collect();
    let solved = Solve { outcome: Outcome::Solved, ..writing(&all) };
    assert_eq!(Timed::new(&solved, &made.course).unwrap().stretches().count(), N_CELLS);
    // Said to be right, and one cell is not.
    let mut other = solved.clone();
    other.entries[7].digit = None;
    assert_eq!(Timed::new(&other, &made.course), Err(Mismatch::EndsOtherwise(cells()[7])));
    other.outcome = Outcome::GaveUp;
    assert!(Timed::new(&other, &made.course).is_ok());
    // A cell that nobody has to fill.
    let mut other = writing(&[0, 1]);
    other.entries[1].cell = Size::NINE.cell(9, 9).unwrap();
    assert_eq!(Timed::new(&other, &made.course), Err(Mismatch::NotToBeFilled(other.entries[1].cell)));
}
