//! Boards as values for the template, and in words for those who do not see them.

use grid::{Cell, CellSet, Digit, Grid, HouseKind, Size};
use rulebook::{Puzzle, RULES};
use trail::{StepId, Trail};
use typst::foundations::{Array, Dict, IntoValue, Value, dict};

/// A puzzle's board as it is handed out: givens and clues.
pub fn handed_out(puzzle: &Puzzle) -> Dict {
    let cell = |it| Shown { figure: puzzle.givens().get(it).map(|digit| (digit, true)), ..Shown::default() };
    board(puzzle, cell, format!("Puzzle board, {}.", in_words(puzzle, puzzle.givens())))
}

/// The same board solved: givens and clues in ink, the other digits in pencil.
pub fn solved(puzzle: &Puzzle, solution: &Grid) -> Dict {
    let cell = |it| {
        let figure = solution.get(it).map(|digit| (digit, puzzle.is_given(it)));
        Shown { figure, ..Shown::default() }
    };
    board(puzzle, cell, format!("Solved board, {}.", in_words(puzzle, solution)))
}

/// The same board after those steps: givens and clues in ink, the digits found by then in pencil, the kinds of cells that
/// are known, and what the steps use and settle.
pub fn after(puzzle: &Puzzle, trail: &Trail, steps: &[StepId]) -> Dict {
    let (digits, marks) = draw::marks_for(puzzle, trail, steps);
    let last = steps.last().map_or(0, |it| it.number());
    let cell = |it: Cell| {
        let kind = match () {
            () if marks.crusts.contains(it) => Some("crust"),
            () if marks.filling.contains(it) => Some("filling"),
            () => None,
        };
        let mark = match () {
            () if marks.conclusions.contains(it) => Some("settled"),
            () if marks.premises.contains(it) => Some("used"),
            () => None,
        };
        Shown { figure: digits.get(it).map(|digit| (digit, puzzle.is_given(it))), kind, mark }
    };
    let listed = |name: &str, cells: CellSet| {
        let named: Vec<String> = cells.iter().map(|it| it.to_string()).collect();
        if named.is_empty() { String::new() } else { format!(" {name}: {}.", named.join(", ")) }
    };
    let marked = [
        listed("Crusts", marks.crusts),
        listed("Filling", marks.filling),
        listed("Used", marks.premises),
        listed("Settled", marks.conclusions),
    ];
    let alt = format!("Board after step {last}, {}.{}", in_words(puzzle, &digits), marked.concat());
    board(puzzle, cell, alt)
}

/// What a cell of a board shows.
#[derive(Default)]
struct Shown {
    /// A digit, and whether it is given.
    figure: Option<(Digit, bool)>,
    /// Its kind, where it has no digit yet.
    kind: Option<&'static str>,
    /// What has been done with it.
    mark: Option<&'static str>,
}

/// `shown` says what a cell shows.
fn board(puzzle: &Puzzle, shown: impl Fn(Cell) -> Shown, alt: String) -> Dict {
    let size = puzzle.size();
    let row = |number| -> Value {
        let cells = size.cells().filter(|it| it.row() == number);
        let cell = |it: Shown| {
            let Shown { figure, kind, mark } = it;
            let is_given = figure.is_some_and(|it| it.1);
            let figure = figure.map(|it| it.0.to_string());
            Value::Dict(dict! { "figure" => figure, "given" => is_given, "kind" => kind, "mark" => mark })
        };
        Value::Array(cells.map(|it| cell(shown(it))).collect())
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
