//! A board in words, for those who do not see the picture: its accessible description.

use grid::{Cell, CellSet, DigitSet, Grid, HouseKind};
use rulebook::Puzzle;

use crate::Marks;

/// The rows with their clues and digits, the clues of the columns, then the marks.
pub(crate) fn describe(puzzle: &Puzzle, digits: &Grid, marks: &Marks) -> String {
    let size = puzzle.size();
    let mut sentences: Vec<String> = Vec::new();
    let on_board =
        |cells: &CellSet| cells.iter().filter(|it| size.cell(it.row(), it.column()).is_some()).collect();

    for line in size.lines() {
        let clues = puzzle.clues().iter().filter(|it| it.line == line);
        let mut parts: Vec<String> =
            clues.map(|it| format!("{} clue {}", it.rule.id().name(), it.value)).collect();
        if line.kind() == HouseKind::Row {
            let filled = size.cells_of(line).into_iter().filter_map(|it| Some((it, digits.get(it)?)));
            parts.extend(filled.map(|(cell, digit)| format!("column {} is {digit}", cell.column())));
        }
        if !parts.is_empty() {
            let name = line.to_string();
            sentences.push(format!("{}{}: {}.", name[..1].to_uppercase(), &name[1..], parts.join(", ")));
        }
    }

    let cell_marks = [
        ("Crusts", marks.crusts),
        ("Filling", marks.filling),
        ("Premises", marks.premises),
        ("Conclusions", marks.conclusions),
    ];
    sentences.extend(cell_marks.iter().filter_map(|(name, cells)| listed(name, &named(on_board(cells)))));

    let digit_marks = [("Candidates", &marks.pencilled), ("Removed", &marks.removed)];
    for (name, cells) in digit_marks {
        let empty = cells.iter().filter(|(it, _)| size.cell(it.row(), it.column()).is_some());
        let empty = empty.filter(|(it, _)| digits.get(**it).is_none());
        let listed_cells: Vec<String> =
            empty.filter_map(|(cell, set)| with_digits(*cell, *set & size.digits())).collect();
        sentences.extend(listed(name, &listed_cells));
    }

    for (name, clues) in [("Spent", &marks.spent), ("Clues used", &marks.clues_used)] {
        let lines: Vec<String> =
            clues.iter().filter_map(|it| Some(puzzle.clue(*it)?.line.to_string())).collect();
        sentences.extend(listed(name, &lines));
    }
    let houses = marks.looked_at.iter().filter(|it| it.number() <= size.side());
    sentences.extend(listed("Looked at", &houses.map(|it| it.to_string()).collect::<Vec<_>>()));
    sentences.join(" ")
}

fn named(cells: Vec<Cell>) -> Vec<String> {
    cells.iter().map(|it| it.to_string()).collect()
}

/// `r4c7 2 5`; none if there is no digit.
fn with_digits(cell: Cell, digits: DigitSet) -> Option<String> {
    let digits: Vec<String> = digits.iter().map(|it| it.to_string()).collect();
    (!digits.is_empty()).then(|| format!("{cell} {}", digits.join(" ")))
}

/// `Name: a, b.`; none if there is nothing to list.
fn listed(name: &str, items: &[String]) -> Option<String> {
    (!items.is_empty()).then(|| format!("{name}: {}.", items.join(", ")))
}
