//! What a person types about a board: cells, digits, claims, boards.

use grid::{Cell, Digit, Grid, GridError, Size};
use rulebook::Claim;

use crate::outcome::Failure;
use crate::print::visible;

/// `r4c7`.
pub(crate) fn cell(size: Size, text: &str) -> Result<Cell, Failure> {
    let written = text.to_ascii_lowercase();
    let found = size.cells().find(|it| it.to_string() == written);
    found.ok_or_else(|| {
        let message = format!("there is no cell `{}` on a {} board", visible(text), board_of(size));
        let side = size.side();
        Failure::new(message, format!("cells are written r1c1 to r{side}c{side}: r4c3 is row 4, column 3"))
    })
}

/// `5`; from 10 on `12` or, as in files, `C`.
pub(crate) fn digit(size: Size, text: &str) -> Result<Digit, Failure> {
    let letter = || {
        let mut letters = text.chars();
        let first = letters.next().filter(|_| letters.next().is_none())?;
        Digit::from_char(first)
    };
    let read = text.parse().ok().and_then(|it| size.digit(it)).or_else(letter);
    read.filter(|it| size.digits().contains(*it)).ok_or_else(|| {
        let message = format!("there is no digit `{}` on a {} board", visible(text), board_of(size));
        Failure::new(message, format!("its digits are 1 to {}", size.side()))
    })
}

/// `r4c7 is 5`, `r4c7 is not 5`, `r4c7 is a crust`, `r4c7 is filling`.
pub(crate) fn claim(size: Size, text: &str) -> Result<Claim, Failure> {
    let lower = text.to_lowercase();
    let words: Vec<&str> = lower.split_whitespace().collect();
    match words[..] {
        [at, "is", "a", "crust"] | [at, "is", "crust"] => Ok(Claim::Crust(cell(size, at)?)),
        [at, "is", "filling"] => Ok(Claim::Filling(cell(size, at)?)),
        [at, "is", "not", it] => Ok(Claim::IsNot(cell(size, at)?, digit(size, it)?)),
        [at, "is", it] => Ok(Claim::Is(cell(size, at)?, digit(size, it)?)),
        _ => Err(Failure::new(
            format!("`{}` is no claim about a cell", visible(text)),
            "write \"r4c3 is 2\", \"r4c3 is not 2\", \"r4c3 is a crust\" or \"r4c3 is filling\"",
        )),
    }
}

/// The board in one line that was typed after an option.
pub(crate) fn board(option: &str, size: Size, text: &str) -> Result<Grid, Failure> {
    let (n_given, n_cells) = (text.chars().count(), size.n_cells());
    let wrong_length = || {
        let message = format!("the board after {option} has {n_given} characters, but {n_cells} cells");
        Failure::new(message, "write one character a cell, row by row, with `.` for an empty cell")
    };
    if n_given != n_cells {
        return Err(wrong_length());
    }
    let line = Grid::from_line(text).map_err(|error| match error {
        GridError::Length(_) => wrong_length(),
        GridError::Character(at, it) => {
            let place = size.cells().nth(at).map_or(String::new(), |it| format!(", in {it}"));
            let message = format!("the board after {option} has a `{}`{place}", visible(&it.to_string()));
            Failure::new(message, format!("use the digits 1 to {} and `.`", size.side()))
        }
    })?;
    // The line says nothing of the shape of boxes; the puzzle does.
    Ok(Grid::from_fn(size, |it| line.get(line.size().cell(it.row(), it.column())?)))
}

/// A whole solution in one line, typed after an option.
pub(crate) fn solution(option: &str, size: Size, text: &str) -> Result<Grid, Failure> {
    let grid = board(option, size, text)?;
    match size.cells().find(|it| grid.get(*it).is_none()) {
        None => Ok(grid),
        Some(cell) => Err(Failure::new(
            format!("the board after {option} has nothing in {cell}"),
            "write the whole solution, a digit for each cell",
        )),
    }
}

/// `9x9`.
fn board_of(size: Size) -> String {
    let side = size.side();
    format!("{side}x{side}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn claims_are_read_in_four_shapes() {
        let size = Size::NINE;
        for (text, said) in [
            ("r4c7 is 5", "r4c7 is 5"),
            (" R4C7  is not 5", "r4c7 is not 5"),
            ("r4c7 is a crust", "r4c7 is a crust"),
            ("r4c7 is filling", "r4c7 is filling"),
        ] {
            assert_eq!(tell::claim(size, &claim(size, text).unwrap()), said);
        }
        for text in ["", "r4c7", "r4c7 is", "r4c7 is 0", "r4c7 is ten", "r0c7 is 5", "r4c7 5", "4,7 is 5"] {
            assert!(claim(size, text).is_err(), "{text}");
        }
    }

    #[test]
    fn large_digits_are_read_as_numbers_and_as_letters() {
        let size = Size::of_side(12).unwrap();
        for text in ["12", "C", "c"] {
            assert_eq!(digit(size, text).unwrap().get(), 12, "{text}");
        }
        for text in ["13", "D", "0", "CC", ""] {
            assert!(digit(size, text).is_err(), "{text}");
        }
    }

    #[test]
    fn boards_take_the_boxes_of_the_puzzle() {
        let six = Size::of_side(6).unwrap();
        let text = format!("12{}", ".".repeat(34));
        assert_eq!(board("--at", six, &text).unwrap().size(), six);
        assert_eq!(board("--at", six, &text).unwrap().to_string(), text);
        let error = |text: &str| board("--at", six, text).unwrap_err().message;
        assert_eq!(error("12"), "the board after --at has 2 characters, but 36 cells");
        assert_eq!(error(&format!("17{}", ".".repeat(34))), "the board after --at has a `7`, in r1c2");
    }
}
