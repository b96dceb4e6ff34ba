//! The puzzle as a page embeds it.

use std::fmt;

use grid::{Grid, House, HouseKind, Size};
use rulebook::{Clue, Puzzle};
use serde::Deserialize;
use trail::TechniqueId;

/// What a page says of its puzzle, as far as the engine asks. `site` writes more.
#[derive(Deserialize)]
pub(crate) struct Page {
    format: u8,
    side: u8,
    /// Width and height.
    #[serde(rename = "box")]
    boxes: [u8; 2],
    givens: Vec<u8>,
    clues: Vec<PageClue>,
    taught: Vec<String>,
}

#[derive(Deserialize)]
struct PageClue {
    rule: String,
    line: String,
    number: u8,
    value: u16,
}

/// Why there is nothing to play.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum NoPuzzle {
    /// The text is no puzzle.
    Unreadable,
    /// The puzzle does not have exactly one solution.
    Unsound,
}

impl fmt::Display for NoPuzzle {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            NoPuzzle::Unreadable => "the page's puzzle cannot be read",
            NoPuzzle::Unsound => "the page's puzzle does not have exactly one solution",
        })
    }
}

impl std::error::Error for NoPuzzle {}

impl Page {
    /// Reads the text.
    pub(crate) fn read(text: &str) -> Result<Page, NoPuzzle> {
        serde_json::from_str(text).ok().filter(|it: &Page| it.format == 1).ok_or(NoPuzzle::Unreadable)
    }

    /// The puzzle; none if there is no such puzzle.
    pub(crate) fn puzzle(&self) -> Option<Puzzle> {
        let size = Size::new(self.boxes[0], self.boxes[1]).filter(|it| it.side() == self.side)?;
        let givens = grid(size, &self.givens)?;
        let clues: Option<Vec<Clue>> = self.clues.iter().map(|it| it.clue(size)).collect();
        Some(Puzzle::new(givens, clues?))
    }

    /// The techniques that a solver has been taught. Names of none are passed over.
    pub(crate) fn taught(&self) -> Vec<TechniqueId> {
        self.taught.iter().filter_map(|it| reason::named(it)).collect()
    }
}

impl PageClue {
    fn clue(&self, size: Size) -> Option<Clue> {
        let kind = match self.line.as_str() {
            "row" => HouseKind::Row,
            "column" => HouseKind::Column,
            _ => return None,
        };
        let line: House = size.house(kind, self.number)?;
        Some(Clue { rule: rulebook::rule(&self.rule)?, line, value: self.value })
    }
}

/// A board from its digits row by row, 0 for an empty cell; none if it is no board of that size.
pub(crate) fn grid(size: Size, digits: &[u8]) -> Option<Grid> {
    if digits.len() != size.n_cells() {
        return None;
    }
    let filled = size.cells().zip(digits).filter(|it| *it.1 != 0);
    filled
        .map(|(cell, digit)| Some((cell, size.digit(*digit)?)))
        .try_fold(Grid::empty(size), |grid, it| it.map(|(cell, digit)| grid.with(cell, Some(digit))))
}
