//! Claims in the short form of the case files, read and written.
//!
//! ```text
//! r1c2 is 5            row 4 cells 3-5          at least three filling cells, at most five
//! r1c4 not 7           row 4 spent 2 3 8        these digits lie between the crusts
//! r1c4 crust           row 4 has 5 in r4c1 r4c2
//! r1c2 filling         row 4 crust in r4c1 r4c2
//! ```

use grid::{Cell, CellSet, Digit, House, Size};
use rulebook::Claim;

/// Reads a claim; says what it stumbled over.
pub(crate) fn read(size: Size, text: &str) -> Result<Claim, String> {
    let words: Vec<&str> = text.split(' ').collect();
    match words[..] {
        [at, "is", digit] => Ok(Claim::Is(read_cell(size, at)?, read_digit(size, digit)?)),
        [at, "not", digit] => Ok(Claim::IsNot(read_cell(size, at)?, read_digit(size, digit)?)),
        [at, "crust"] => Ok(Claim::Crust(read_cell(size, at)?)),
        [at, "filling"] => Ok(Claim::Filling(read_cell(size, at)?)),
        [kind, number, "cells", range] => {
            let (fewest, most) = range.split_once('-').ok_or(format!("no range: {range}"))?;
            let line = read_house(size, kind, number)?;
            Ok(Claim::FillingCells { line, fewest: read_number(fewest)?, most: read_number(most)? })
        }
        [kind, number, "spent", ref digits @ ..] => {
            let filling = digits.iter().map(|it| read_digit(size, it)).collect::<Result<_, _>>()?;
            Ok(Claim::Spent { line: read_house(size, kind, number)?, filling })
        }
        [kind, number, "has", digit, "in", ref cells @ ..] => {
            let (house, digit) = (read_house(size, kind, number)?, read_digit(size, digit)?);
            Ok(Claim::DigitAmong { house, digit, cells: read_cells(size, cells)? })
        }
        [kind, number, "crust", "in", ref cells @ ..] => {
            let house = read_house(size, kind, number)?;
            Ok(Claim::CrustAmong { house, cells: read_cells(size, cells)? })
        }
        _ => Err(format!("no claim: {text}")),
    }
}

/// Writes a claim; [`read`] takes it back.
pub(crate) fn write(claim: Claim) -> String {
    let listed = |cells: CellSet| cells.iter().map(|it| format!(" {it}")).collect::<String>();
    match claim {
        Claim::Is(cell, digit) => format!("{cell} is {digit}"),
        Claim::IsNot(cell, digit) => format!("{cell} not {digit}"),
        Claim::Crust(cell) => format!("{cell} crust"),
        Claim::Filling(cell) => format!("{cell} filling"),
        Claim::CrustAmong { house, cells } => format!("{house} crust in{}", listed(cells)),
        Claim::DigitAmong { house, digit, cells } => format!("{house} has {digit} in{}", listed(cells)),
        Claim::FillingCells { line, fewest, most } => format!("{line} cells {fewest}-{most}"),
        Claim::Spent { line, filling } => {
            let digits: String = filling.iter().map(|it| format!(" {it}")).collect();
            format!("{line} spent{digits}")
        }
    }
}

fn read_cells(size: Size, texts: &[&str]) -> Result<CellSet, String> {
    texts.iter().map(|it| read_cell(size, it)).collect()
}

fn read_cell(size: Size, text: &str) -> Result<Cell, String> {
    let found = size.cells().find(|it| it.to_string() == text);
    found.ok_or_else(|| format!("no cell of the board: {text}"))
}

fn read_house(size: Size, kind: &str, number: &str) -> Result<House, String> {
    let text = format!("{kind} {number}");
    let found = size.houses().find(|it| it.to_string() == text);
    found.ok_or_else(|| format!("no house of the board: {text}"))
}

fn read_digit(size: Size, text: &str) -> Result<Digit, String> {
    size.digit(read_number(text)?).ok_or_else(|| format!("no digit of the board: {text}"))
}

fn read_number(text: &str) -> Result<u8, String> {
    text.parse().map_err(|it| format!("{text}: {it}"))
}
