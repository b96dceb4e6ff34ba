//! Reads the puzzles back out of a finished booklet, from what is drawn on its pages.
//!
//! What is read is the print: each page's drawing instructions are carried out (`page`), the board is
//! found by its lines (`lattice`), and each figure counts for the cell or the line it lies in. Number,
//! title and setter are told by their type sizes (`roles`). Nothing is taken from data attached to the
//! file, and the code that reads PDF files is not the code that wrote this one. What it cannot see:
//! whether a glyph looks like the character that the file says it stands for, and its colour.

use std::collections::BTreeMap;
use std::fmt;

use grid::{Cell, Digit, Grid, HouseKind};
use hayro_interpret::InterpreterCache;
use hayro_interpret::hayro_syntax::Pdf;
use kurbo::Point;
use rulebook::{Clue, Puzzle, RULES};

use crate::PrintedText;
use crate::lattice::{Lattice, Place};
use crate::page::{Glyph, Marks};
use crate::roles::{self, Role, role};

/// A puzzle as a booklet prints it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct PrintedPuzzle {
    /// Its number in the pack, from 1.
    pub number: usize,
    /// Its title.
    pub title: PrintedText,
    /// Who set it.
    pub setter: PrintedText,
    /// Its givens and clues.
    pub puzzle: Puzzle,
}

/// Why a booklet cannot be read back.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum ReadError {
    /// The bytes are no PDF file.
    NotPdf,
    /// The page (from 1) has a puzzle's number or title, but not both, or no board that can be made
    /// out.
    Page(usize),
    /// On the page (from 1), what is printed in this cell is no digit of the board.
    Figure(usize, Cell, String),
    /// On the page (from 1), what is printed beside a line is no clue.
    Clue(usize, String),
}

/// Reads every puzzle of a booklet, in the order of its pages.
pub fn read_back(pdf: &[u8]) -> Result<Vec<PrintedPuzzle>, ReadError> {
    let pdf = Pdf::new(pdf.to_vec()).map_err(|_| ReadError::NotPdf)?;
    let cache = InterpreterCache::new();
    let mut puzzles = Vec::new();
    for (at, page) in pdf.pages().iter().enumerate() {
        let marks = Marks::of(page, &cache);
        // Whatever else has a title's size, nothing but a puzzle has a number of that size.
        if marks.glyphs.iter().any(|it| role(it.size) == Some(Role::Number)) {
            puzzles.extend(read_page(&marks, at + 1)?);
        }
    }
    Ok(puzzles)
}

/// The puzzles on a page, in reading order.
fn read_page(marks: &Marks, page: usize) -> Result<Vec<PrintedPuzzle>, ReadError> {
    let lattices = Lattice::all(&marks.strokes);
    let starts = column_starts(&marks.glyphs, &lattices).ok_or(ReadError::Page(page))?;
    let mut heads: Vec<Vec<&Glyph>> = vec![Vec::new(); lattices.len()];
    for glyph in marks.glyphs.iter().filter(|it| role(it.size).is_some() && !is_on_a_board(it, &lattices)) {
        let at = head_of(glyph, &lattices, &starts).ok_or(ReadError::Page(page))?;
        heads[at].push(glyph);
    }
    let read = lattices.iter().zip(heads).map(|(lattice, head)| {
        let number = text_of(&head, Role::Number).parse().map_err(|_| ReadError::Page(page))?;
        let title = Some(text_of(&head, Role::Title)).filter(|it| !it.is_empty());
        Ok(PrintedPuzzle {
            number,
            title: PrintedText::new(title.ok_or(ReadError::Page(page))?),
            setter: PrintedText::new(text_of(&head, Role::Setter)),
            puzzle: read_board(&marks.glyphs, lattice, page)?,
        })
    });
    read.collect()
}

/// Whether it is a figure of a board, or a clue beside one: their size follows from the board's and may be that of a
/// title by chance.
fn is_on_a_board(glyph: &Glyph, lattices: &[Lattice]) -> bool {
    lattices.iter().any(|it| match it.place(middle(glyph)) {
        Place::In(_) => true,
        Place::LeftOf(_, away) => band(away, roles::CLUE_LEFT).is_some(),
        Place::Above(_, away) => band(away, roles::CLUE_ABOVE).is_some(),
        Place::Elsewhere => false,
    })
}

/// Columns are at least so far apart, in points.
const COLUMN: f64 = 100.0;

/// Where the column of each board begins: at the left edge of its number, the nearest to its left that stands above it.
fn column_starts(glyphs: &[Glyph], lattices: &[Lattice]) -> Option<Vec<f64>> {
    let is_number = |it: &&Glyph| role(it.size) == Some(Role::Number) && !is_on_a_board(it, lattices);
    let figures: Vec<&Glyph> = glyphs.iter().filter(is_number).collect();
    let follows = |it: &Glyph, other: &Glyph| {
        let before = it.at.x - other.at.x;
        (it.at.y - other.at.y).abs() < 1.0 && before > 0.0 && before < it.size
    };
    let begins = |it: &&&Glyph| figures.iter().all(|other| !follows(it, other));
    let start = |board: &Lattice| {
        let above =
            figures.iter().filter(begins).filter(|it| it.at.y < board.top() && it.at.x <= board.left());
        above.map(|it| it.at.x).max_by(f64::total_cmp)
    };
    lattices.iter().map(start).collect()
}

/// The board that something stands above: the nearest below it in its column.
fn head_of(glyph: &Glyph, lattices: &[Lattice], starts: &[f64]) -> Option<usize> {
    let begun = starts.iter().copied().filter(|it| *it < glyph.at.x + 1.0);
    let column = begun.max_by(f64::total_cmp)?;
    let below = (0..lattices.len())
        .filter(|at| (starts[*at] - column).abs() < COLUMN && lattices[*at].top() > glyph.at.y);
    below.min_by(|a, b| lattices[*a].top().total_cmp(&lattices[*b].top()))
}

/// The text that has a role, its lines joined by spaces.
fn text_of(glyphs: &[&Glyph], wanted: Role) -> String {
    let mut text = String::new();
    let mut line = None;
    for glyph in glyphs.iter().filter(|it| role(it.size) == Some(wanted)) {
        let is_next_line = line.is_some_and(|it: f64| (it - glyph.at.y).abs() > glyph.size / 2.0);
        if is_next_line && !text.ends_with(' ') {
            text.push(' ');
        }
        text.push_str(glyph.in_run.as_ref().unwrap_or(&glyph.text));
        line = Some(glyph.at.y);
    }
    text.trim().to_owned()
}

/// What is printed on and beside a board.
fn read_board(glyphs: &[Glyph], lattice: &Lattice, page: usize) -> Result<Puzzle, ReadError> {
    let size = lattice.size;
    let mut figures: BTreeMap<Cell, String> = BTreeMap::new();
    let mut numbers: BTreeMap<(HouseKind, u8, usize), String> = BTreeMap::new();
    for glyph in glyphs.iter().filter(|it| !it.text.trim().is_empty()) {
        let text = match lattice.place(middle(glyph)) {
            Place::In(cell) => figures.entry(cell).or_default(),
            Place::LeftOf(row, away) => {
                let Some(band) = band(away, roles::CLUE_LEFT) else { continue };
                numbers.entry((HouseKind::Row, row, band)).or_default()
            }
            Place::Above(column, away) => {
                let Some(band) = band(away, roles::CLUE_ABOVE) else { continue };
                numbers.entry((HouseKind::Column, column, band)).or_default()
            }
            Place::Elsewhere => continue,
        };
        text.push_str(&glyph.text);
    }

    let mut givens = Grid::empty(size);
    for (cell, figure) in figures {
        let digit = figure.parse().ok().and_then(|it| size.digit(it));
        let digit: Digit = digit.ok_or(ReadError::Figure(page, cell, figure))?;
        givens = givens.with(cell, Some(digit));
    }
    let clue = |((kind, number, band), text): ((HouseKind, u8, usize), String)| {
        let line = size.house(kind, number).ok_or(ReadError::Page(page))?;
        let value = text.parse().map_err(|_| ReadError::Clue(page, text))?;
        Ok(Clue { rule: RULES[band], line, value })
    };
    let clues = numbers.into_iter().map(clue).collect::<Result<Vec<Clue>, ReadError>>()?;
    Ok(Puzzle::new(givens, clues))
}

/// The middle of a glyph, as figures go: they stand about two thirds of the type size high.
pub(crate) fn middle(it: &Glyph) -> Point {
    Point::new(it.at.x + it.advance / 2.0, it.at.y - it.size / 3.0)
}

/// The rule (by its place in [`RULES`]) whose clues stand so far from the board, if any does; bands are
/// so wide. Both are in cell sides.
fn band(away: f64, width: f64) -> Option<usize> {
    let band = (away / width).floor() as usize;
    (band < RULES.len()).then_some(band)
}

impl fmt::Display for ReadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            ReadError::NotPdf => f.write_str("the booklet is no readable PDF file"),
            ReadError::Page(page) => write!(f, "page {page} of the booklet shows no whole puzzle"),
            ReadError::Figure(page, cell, text) => {
                write!(
                    f,
                    "page {page} of the booklet has \"{text}\" in {cell}, which is no digit of its board"
                )
            }
            ReadError::Clue(page, text) => {
                write!(f, "page {page} of the booklet has \"{text}\" beside a line, which is no clue")
            }
        }
    }
}

impl std::error::Error for ReadError {}
