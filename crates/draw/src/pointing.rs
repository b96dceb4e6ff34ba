//! Where to look: outlines around premises, bars beside lines, brackets at the corners of boxes.

use grid::{Cell, CellSet, House, HouseKind, Size};

use crate::ink::Tone;
use crate::sheet::{Pen, Sheet, Square};
use crate::svg::{path, stretch};

/// How much bolder than outlines brackets are, so that they show on the border of a box.
const BRACKET: f64 = 2.0;

/// One pencil outline of that width around each connected group of the cells, just inside its edge.
pub(crate) fn outlines(sheet: &Sheet, cells: &CellSet, width: f64) -> String {
    let inset = sheet.pen.thick / 2.0 + width / 2.0;
    let lines: String = sheet
        .size
        .cells()
        .filter(|it| cells.contains(*it))
        .map(|it| edges(sheet.square(it), inset, |down, across| holds(sheet.size, cells, it, down, across)))
        .collect();
    outline_path(width, &lines)
}

/// The outline of a single square.
pub(crate) fn outline(square: Square, pen: &Pen) -> String {
    outline_path(pen.bold, &edges(square, pen.bold, |_, _| false))
}

fn outline_path(width: f64, lines: &str) -> String {
    path(&format!("{} stroke-linecap=\"round\"", Tone::Blue.line(width)), lines)
}

/// Whether the cell so far down and across from `cell` is one of `cells`.
fn holds(size: Size, cells: &CellSet, cell: Cell, down: i8, across: i8) -> bool {
    let row = cell.row().checked_add_signed(down);
    let column = cell.column().checked_add_signed(across);
    let there = row.zip(column).and_then(|(row, column)| size.cell(row, column));
    there.is_some_and(|it| cells.contains(it))
}

/// The edges of a square that face a cell outside the group, `inset` inwards.
///
/// `inside(down, across)` tells whether a neighbour belongs to the group. An edge ends at the inset
/// where it turns away from the group, at the cell's border where the neighbour continues it, and as
/// far beyond it where it meets the edge of a neighbour that juts out.
fn edges(square: Square, inset: f64, inside: impl Fn(i8, i8) -> bool) -> String {
    let end = |beside: bool, beyond: bool| match (beside, beyond) {
        (false, _) => inset,
        (true, false) => 0.0,
        (true, true) => -inset,
    };
    let mut out = String::new();
    for down in [-1, 1].into_iter().filter(|it| !inside(*it, 0)) {
        let y = if down < 0 { square.y + inset } else { square.bottom() - inset };
        let from = square.x + end(inside(0, -1), inside(down, -1));
        let to = square.right() - end(inside(0, 1), inside(down, 1));
        out += &stretch((from, y), (to, y));
    }
    for across in [-1, 1].into_iter().filter(|it| !inside(0, *it)) {
        let x = if across < 0 { square.x + inset } else { square.right() - inset };
        let from = square.y + end(inside(-1, 0), inside(-1, across));
        let to = square.bottom() - end(inside(1, 0), inside(1, across));
        out += &stretch((x, from), (x, to));
    }
    out
}

/// The pencil marks for houses that are looked at.
pub(crate) fn looked_at<'a>(sheet: &Sheet, houses: impl IntoIterator<Item = &'a House>) -> String {
    let side = sheet.size.side();
    let (mut bars, mut corners) = (String::new(), String::new());
    for house in houses.into_iter().filter(|it| it.number() <= side) {
        match house.kind() {
            HouseKind::Row | HouseKind::Column => bars += &bar(sheet, *house),
            HouseKind::Box => corners += &brackets(sheet, *house),
        }
    }
    let bold = sheet.pen.bold;
    path(&Tone::Blue.line(bold * 1.2), &bars) + &path(&Tone::Blue.line(bold * BRACKET), &corners)
}

/// A bar in the margin where the line ends: right of a row, below a column.
fn bar(sheet: &Sheet, line: House) -> String {
    let (middle, half) = (sheet.middle_of(line), sheet.pen.cell * 0.36);
    let away = sheet.pen.gap + sheet.pen.bold / 2.0;
    match line.kind() {
        HouseKind::Column => {
            let y = sheet.board.bottom() + away;
            stretch((middle - half, y), (middle + half, y))
        }
        HouseKind::Row | HouseKind::Box => {
            let x = sheet.board.right() + away;
            stretch((x, middle - half), (x, middle + half))
        }
    }
}

/// Corner brackets on the border of a box.
fn brackets(sheet: &Sheet, house: House) -> String {
    let cells = sheet.size.cells_of(house);
    let (Some(first), Some(last)) = (cells.first(), cells.last()) else { return String::new() };
    let (first, last) = (sheet.square(*first), sheet.square(*last));
    let (reach, half) = (sheet.pen.cell * 0.4, sheet.pen.bold * BRACKET / 2.0);
    let mut out = String::new();
    for (x, inwards) in [(first.x, 1.0), (last.right(), -1.0)] {
        for (y, downwards) in [(first.y, 1.0), (last.bottom(), -1.0)] {
            // The level stroke begins half a width early, so that the corner is whole.
            out += &stretch((x - half * inwards, y), (x + reach * inwards, y));
            out += &stretch((x, y), (x, y + reach * downwards));
        }
    }
    out
}
