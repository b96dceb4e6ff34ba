//! The grid of a puzzle file: its size, its cells, and whether digits repeat.

use std::collections::BTreeSet;
use std::ops::Range;

use grid::{Cell, Digit, Grid, House, Size};
use toml::de::DeTable;

use crate::fault::Fault;
use crate::read::{At, Reader};
use crate::text::Placed;

/// What a file says about its board.
pub(crate) struct Board {
    /// The size to count clues by: the one the file says, or else the one that the grid plainly has.
    pub(crate) size: Option<Size>,
    /// The givens; none if something is wrong with the grid.
    pub(crate) givens: Option<Grid>,
}

/// Reads `size`, `box` and `grid`.
pub(crate) fn read_board(reader: &mut Reader<'_>, table: &DeTable<'_>) -> Board {
    let said = read_size(reader, table);
    let by_key = table.contains_key("size") || table.contains_key("box");
    let Some(text) = reader.needed_characters(table, "grid", "grid = \"\"\"…\"\"\"") else {
        return Board { size: said, givens: None };
    };
    let rows = rows_of(&text.value);
    let drawn = drawn_size(&rows);
    let size = match (said, drawn) {
        (Some(said), Some(drawn)) if said.side() != drawn.side() => {
            reader.note(text.range.clone(), Fault::SizeMismatch { said, by_key, actual: drawn });
            drawn
        }
        (Some(said), _) => said,
        (None, Some(drawn)) => drawn,
        (None, None) => {
            note_strays(reader, &rows);
            return Board { size: None, givens: None };
        }
    };
    let fits = check_shape(reader, &rows, size, by_key, text.range);
    note_strays(reader, &rows);
    let givens = read_cells(reader, &rows, size, fits);
    Board { size: Some(size), givens }
}

/// The size that the file says; 9x9 if it says nothing, none if what it says is no size.
fn read_size(reader: &mut Reader<'_>, table: &DeTable<'_>) -> Option<Size> {
    let (has_size, has_box) = (table.contains_key("size"), table.contains_key("box"));
    let side = reader.text(table, "size").and_then(|it| read_side(reader, it));
    if !has_box {
        return if has_size { side.and_then(Size::of_side) } else { Some(Size::NINE) };
    }
    let At { value: found, range } = reader.text(table, "box")?;
    let shape = product(&found).and_then(|(width, height)| Size::new(width, height));
    match (shape, side.and_then(Size::of_side)) {
        (Some(shape), Some(size)) if shape.side() != size.side() => {
            reader.note(range, Fault::BoxMismatch { found, cells: shape.side(), size });
            Some(size)
        }
        (Some(shape), _) => Some(shape).filter(|_| side.is_some() || !has_size),
        (None, size) => {
            reader.note(range, Fault::UnknownBox { found, side });
            size
        }
    }
}

/// The side that a text such as `6x6` says.
fn read_side(reader: &mut Reader<'_>, text: At<String>) -> Option<u8> {
    let square = product(&text.value).filter(|(width, height)| width == height).map(|it| it.0);
    let side = square.filter(|it| Size::of_side(*it).is_some());
    if side.is_none() {
        reader.note(text.range, Fault::UnknownSize { found: text.value });
    }
    side
}

/// The two numbers of a text such as `3x2`.
fn product(text: &str) -> Option<(u8, u8)> {
    let number = |it: &str| it.trim().parse().ok().filter(|_| !it.trim().starts_with('+'));
    let (width, height) = text.split_once('x')?;
    Some((number(width)?, number(height)?))
}

/// One row of the grid as it is written.
struct Row {
    marks: Vec<Mark>,
    range: Range<usize>,
}

/// What stands for a cell.
struct Mark {
    what: What,
    range: Range<usize>,
}

#[derive(Clone, Copy)]
enum What {
    Empty,
    Digit(Digit),
    /// No digit of any board; saying so helps more than calling it stray.
    Zero,
    Stray,
}

/// Cuts the text into rows. Lines without cells (empty ones, and rules drawn with `-`, `+` and `|`)
/// are no rows.
fn rows_of(text: &[Placed]) -> Vec<Row> {
    let lines = text.split(|(it, _)| *it == '\n');
    let is_cell = |it: &char| !it.is_whitespace() && !['|', '-', '+'].contains(it);
    lines.filter(|line| line.iter().any(|(it, _)| is_cell(it))).filter_map(row_of).collect()
}

fn row_of(line: &[Placed]) -> Option<Row> {
    let written = line.iter().filter(|(it, _)| !it.is_whitespace() && *it != '|');
    let what = |it: char| match Digit::from_char(it) {
        Some(digit) => What::Digit(digit),
        None if it == '.' => What::Empty,
        None if it == '0' => What::Zero,
        None => What::Stray,
    };
    let marks: Vec<Mark> =
        written.map(|(it, range)| Mark { what: what(*it), range: range.clone() }).collect();
    let range = marks.first()?.range.start..marks.last()?.range.end;
    Some(Row { marks, range })
}

/// The usual size of a grid that is as wide as it is high; none if it is not, or no board is so large.
fn drawn_size(rows: &[Row]) -> Option<Size> {
    let side = u8::try_from(rows.len()).ok()?;
    let size = Size::of_side(side)?;
    rows.iter().all(|it| it.marks.len() == rows.len()).then_some(size)
}

/// Whether there is one mark a cell; notes what is too few and too many.
fn check_shape(reader: &mut Reader<'_>, rows: &[Row], size: Size, by_key: bool, whole: Range<usize>) -> bool {
    let side = usize::from(size.side());
    let one_line = rows.len() == 1 && rows[0].marks.len() == size.n_cells();
    let mut fits = rows.len() == side;
    if !fits {
        let range = match rows.get(side..) {
            Some([first, .., last]) => first.range.start..last.range.end,
            Some([only]) => only.range.clone(),
            _ => whole,
        };
        reader.note(range, Fault::RowCount { found: rows.len(), size, by_key, one_line });
    }
    for (at, row) in rows.iter().enumerate().filter(|(_, row)| row.marks.len() != side && !one_line) {
        fits = false;
        let range = match row.marks.get(side) {
            Some(surplus) => surplus.range.start..row.range.end,
            None => row.range.clone(),
        };
        reader.note(range, Fault::CellCount { row: at + 1, found: row.marks.len(), size });
    }
    fits
}

/// Notes what is neither a digit nor a dot; neighbours are one problem.
fn note_strays(reader: &mut Reader<'_>, rows: &[Row]) {
    let is_stray = |it: &Mark| matches!(it.what, What::Stray);
    for (row, marks) in rows.iter().enumerate().map(|(at, it)| (at + 1, &it.marks)) {
        for group in marks.chunk_by(|a, b| is_stray(a) && is_stray(b)).filter(|it| is_stray(&it[0])) {
            let range = group[0].range.start..group[group.len() - 1].range.end;
            let found = reader.slice(range.clone()).to_owned();
            reader.note(range, Fault::StrayCharacter { row, found });
        }
    }
}

/// The givens, if the grid has the right shape and every mark is right; notes digits that are too
/// large and digits that repeat.
fn read_cells(reader: &mut Reader<'_>, rows: &[Row], size: Size, fits: bool) -> Option<Grid> {
    let mut all_right = fits;
    for mark in rows.iter().flat_map(|it| &it.marks) {
        let found = match mark.what {
            What::Empty => continue,
            What::Digit(digit) if digit.get() <= size.side() => continue,
            What::Digit(digit) => Some(digit.to_char()),
            What::Zero => Some('0'),
            What::Stray => None,
        };
        all_right = false;
        if let Some(found) = found {
            reader.note(mark.range.clone(), Fault::DigitOutOfRange { found, size });
        }
    }
    if !fits {
        return None;
    }
    let mark_at = |cell: Cell| &rows[usize::from(cell.row()) - 1].marks[usize::from(cell.column()) - 1];
    let grid = Grid::from_fn(size, |cell| match mark_at(cell).what {
        What::Digit(digit) => Some(digit),
        _ => None,
    });
    for (digit, house, first, second) in repeats(&grid) {
        all_right = false;
        let range = mark_at(second).range.clone();
        reader.note(range, Fault::DigitRepeated { digit, house, cells: [first, second] });
    }
    all_right.then_some(grid)
}

/// Every pair of cells next to each other among those of a house that hold one digit; a pair that two
/// houses share is named once, by its row or column.
fn repeats(grid: &Grid) -> Vec<(Digit, House, Cell, Cell)> {
    let mut pairs = BTreeSet::new();
    let mut repeats = Vec::new();
    for house in grid.size().houses() {
        let mut last_at: [Option<Cell>; 17] = [None; 17];
        for cell in grid.size().cells_of(house) {
            let Some(digit) = grid.get(cell) else { continue };
            if let Some(first) = last_at[usize::from(digit.get())].replace(cell)
                && pairs.insert((first, cell))
            {
                repeats.push((digit, house, first, cell));
            }
        }
    }
    repeats
}
