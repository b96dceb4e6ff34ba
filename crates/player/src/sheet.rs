//! The sheet as the page's script sends it.

use std::fmt;

use grid::{Cell, DigitSet, Size};
use reason::Written;
use rulebook::{Claim, Puzzle};
use serde::Deserialize;

use crate::page;

/// One entry a cell, row by row.
#[derive(Deserialize)]
struct Sheet {
    format: u8,
    /// 0 is none.
    ink: Vec<u8>,
    pencil: Vec<Vec<u8>>,
    /// `""`, or the id of a mark.
    marks: Vec<String>,
}

/// The text is no sheet of the puzzle.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct NoSheet;

impl fmt::Display for NoSheet {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("the sheet cannot be read")
    }
}

impl std::error::Error for NoSheet {}

/// What is written on the sheet.
pub(crate) fn read(puzzle: &Puzzle, text: &str) -> Result<Written, NoSheet> {
    let sheet: Sheet = serde_json::from_str(text).map_err(|_| NoSheet)?;
    (sheet.format == 1).then(|| written(puzzle, &sheet)).flatten().ok_or(NoSheet)
}

fn written(puzzle: &Puzzle, sheet: &Sheet) -> Option<Written> {
    let size = puzzle.size();
    let n = size.n_cells();
    if (sheet.pencil.len(), sheet.marks.len()) != (n, n) {
        return None;
    }
    let mut ink = page::grid(size, &sheet.ink)?;
    for (cell, digit) in puzzle.givens().filled() {
        ink = ink.with(cell, Some(digit));
    }
    let open = |cell: &Cell| ink.get(*cell).is_none();
    let mut pencil = Vec::new();
    for (cell, digits) in size.cells().zip(&sheet.pencil).filter(|it| open(&it.0)) {
        let digits = digits.iter().map(|it| size.digit(*it)).collect::<Option<DigitSet>>()?;
        // One pencilled digit says where that digit may be, not that the cell can be nothing else.
        if digits.len() > 1 {
            pencil.push((cell, digits));
        }
    }
    let mut marks = Vec::new();
    for (cell, mark) in size.cells().zip(&sheet.marks).filter(|it| open(&it.0)) {
        marks.extend(match mark.as_str() {
            "" => None,
            id => Some(marked(cell, id)?),
        });
    }
    Some(Written { ink, pencil, marks })
}

/// What a mark claims.
fn marked(cell: Cell, id: &str) -> Option<Claim> {
    match id {
        "crust" => Some(Claim::Crust(cell)),
        "filling" => Some(Claim::Filling(cell)),
        _ => None,
    }
}

/// The digits that each cell does not see; none of a cell that holds one.
pub(crate) fn unseen(size: Size, written: &Written) -> Vec<Vec<u8>> {
    let of = |cell: Cell| -> Vec<u8> {
        if written.ink.get(cell).is_some() {
            return Vec::new();
        }
        let houses = size.houses_of(cell);
        let seen: DigitSet =
            houses.iter().flat_map(|it| size.cells_of(*it)).filter_map(|it| written.ink.get(it)).collect();
        (size.digits() - seen).iter().map(|it| it.get()).collect()
    };
    size.cells().map(of).collect()
}
