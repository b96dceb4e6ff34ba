//! Boards as values for the template, and in words for those who do not see them.

use grid::{Cell, Digit, Grid, HouseKind, Size};
use rulebook::{Puzzle, RULES};
use typst::foundations::{Array, Dict, IntoValue, Value, dict};

/// A puzzle's board as it is handed out: givens and clues.
pub(crate) fn handed_out(puzzle: &Puzzle) -> Dict {
    let figures = |it| puzzle.givens().get(it).map(|digit| (digit, true));
    board(puzzle, figures, format!("Puzzle board, {}.", in_words(puzzle, puzzle.givens())))
}

/// The same board solved: givens and clues in ink, the other digits in pencil.
pub(crate) fn solved(puzzle: &Puzzle, solution: &Grid) -> Dict {
    let figures = |it| solution.get(it).map(|digit| (digit, puzzle.is_given(it)));
    board(puzzle, figures, format!("Solved board, {}.", in_words(puzzle, solution)))
}

/// The same board after so many steps: givens and clues in ink, the digits found by then in pencil.
pub(crate) fn so_far(puzzle: &Puzzle, digits: &Grid, n_steps: usize) -> Dict {
    let figures = |it| digits.get(it).map(|digit| (digit, puzzle.is_given(it)));
    board(puzzle, figures, format!("Board after step {n_steps}, {}.", in_words(puzzle, digits)))
}

/// `figures` says which digit stands in a cell, and whether it is a given.
fn board(puzzle: &Puzzle, figures: impl Fn(Cell) -> Option<(Digit, bool)>, alt: String) -> Dict {
    let size = puzzle.size();
    let row = |number| -> Value {
        let cells = size.cells().filter(|it| it.row() == number);
        let figure = |(digit, is_given): (Digit, bool)| {
            dict! { "figure" => digit.to_string(), "given" => is_given }
        };
        Value::Array(cells.map(|it| figures(it).map(figure).into_value()).collect())
    };
    dict! {
        "side" => i64::from(size.side()),
        "box-width" => i64::from(size.box_width()),
        "box-height" => i64::from(size.box_height()),
        "rows" => (1..=size.side()).map(row).collect::<Array>(),
        "left" => bands(puzzle, HouseKind::Row),
        "above" => bands(puzzle, HouseKind::Column),
        "alt" => alt,
    }
}

/// The numbers beside the rows or above the columns, in bands outwards from the board: one for each
/// rule, in the order of [`RULES`], as far as there are any. A line without a clue has none.
fn bands(puzzle: &Puzzle, kind: HouseKind) -> Array {
    let lines = || puzzle.size().lines().filter(|it| it.kind() == kind);
    let mut bands: Vec<Vec<Option<String>>> = Vec::new();
    for rule in RULES {
        let clue = |line| puzzle.clue_at(rule, line).map(|(_, clue)| clue.value.to_string());
        bands.push(lines().map(clue).collect());
    }
    while bands.last().is_some_and(|it| it.iter().all(Option::is_none)) {
        bands.pop();
    }
    bands.into_iter().map(|it| Value::Array(it.into_iter().map(IntoValue::into_value).collect())).collect()
}

/// `9x9; row 1: sandwich 31, column 2 is 1; column 1: sandwich 0`.
fn in_words(puzzle: &Puzzle, digits: &Grid) -> String {
    let size = puzzle.size();
    let mut parts = vec![words_for_size(size)];
    for line in size.lines() {
        let clues = puzzle.clues().iter().filter(|it| it.line == line);
        let mut said: Vec<String> = clues.map(|it| format!("{} {}", it.rule.id().name(), it.value)).collect();
        if line.kind() == HouseKind::Row {
            let filled = size.cells_of(line).into_iter().filter_map(|it| Some((it, digits.get(it)?)));
            said.extend(filled.map(|(cell, digit)| format!("column {} is {digit}", cell.column())));
        }
        if !said.is_empty() {
            parts.push(format!("{line}: {}", said.join(", ")));
        }
    }
    parts.join("; ")
}

fn words_for_size(size: Size) -> String {
    format!("{0} by {0}", size.side())
}
