//! The puzzle as its page embeds it, for the script that makes the page a sheet to write on, and read back again.

use std::hash::Hasher;

use draw::Scale;
use fnv::FnvHasher;
use grid::{Digit, Grid, House, HouseKind, Size};
use rulebook::{Clue, Puzzle};
use serde::{Deserialize, Serialize};

use crate::contents::Contents;
use pack::Entry;
use page::bare;
use trail::TechniqueId;

/// The element that holds it.
pub const PUZZLE_DATA: &str = "puzzle-data";

/// What the script is told; `play/puzzle.js` says what each part is for.
#[derive(Serialize, Deserialize)]
struct Data {
    format: u8,
    id: String,
    title: String,
    fingerprint: String,
    side: u8,
    /// Width and height.
    #[serde(rename = "box")]
    boxes: [u8; 2],
    givens: Vec<u8>,
    clues: Vec<DataClue>,
    marks: Vec<DataMark>,
    taught: Vec<String>,
    practises: Vec<String>,
    solved: String,
    picture: Picture,
}

#[derive(Serialize, Deserialize)]
struct DataClue {
    rule: String,
    line: String,
    number: u8,
    value: u16,
}

#[derive(Serialize, Deserialize)]
struct DataMark {
    id: String,
    key: char,
    name: String,
}

#[derive(Serialize, Deserialize)]
struct Picture {
    paper: [f64; 2],
    frame: [f64; 3],
}

/// The puzzle at that place, as JSON that can stand in a script element.
pub(crate) fn embedded(contents: &Contents, at: usize) -> String {
    let it = &contents.published[at];
    puzzle_data(it.study.entry(), it.solution, &contents.taught_by(at), &contents.used_in(it))
}

/// A puzzle as a page that reuses the site's scripts embeds it: JSON that can stand in a script element. `taught` are
/// the techniques that its solvers know, `practises` those of its walkthrough.
pub fn puzzle_data(
    entry: &Entry,
    solution: &Grid,
    taught: &[TechniqueId],
    practises: &[TechniqueId],
) -> String {
    let puzzle = &entry.puzzle;
    let size = puzzle.size();
    let layout = draw::layout(puzzle, Scale::Large, true);
    let clue = |it: &Clue| DataClue {
        rule: it.rule.id().name().to_owned(),
        line: if it.line.kind() == HouseKind::Row { "row" } else { "column" }.to_owned(),
        number: it.line.number(),
        value: it.value,
    };
    let mark = |it: &tell::CellMark| DataMark { id: it.id.to_owned(), key: it.key, name: it.name.to_owned() };
    let data = Data {
        format: 1,
        id: entry.id.to_string(),
        title: bare(&entry.title),
        fingerprint: packfile::fingerprint(puzzle),
        side: size.side(),
        boxes: [size.box_width(), size.box_height()],
        givens: numbers(puzzle.givens()),
        clues: puzzle.clues().iter().map(clue).collect(),
        marks: tell::cell_marks(puzzle).iter().map(mark).collect(),
        taught: taught.iter().map(|it| it.name().to_owned()).collect(),
        practises: practises.iter().map(|it| tell::technique_name(*it).to_owned()).collect(),
        solved: solved(solution),
        picture: Picture {
            paper: [layout.paper.0, layout.paper.1],
            frame: [layout.corner.0, layout.corner.1, layout.side],
        },
    };
    let json = serde_json::to_string(&data).unwrap_or_else(|it| unreachable!("plain data: {it}"));
    // No text of a pack may end the element that holds this.
    json.replace('<', "\\u003c")
}

/// The digits row by row; 0 for an empty cell.
fn numbers(grid: &Grid) -> Vec<u8> {
    grid.size().cells().map(|it| grid.get(it).map_or(0, Digit::get)).collect()
}

/// What tells a solved board: a hash of its digits, as `play/puzzle.js` makes it.
fn solved(solution: &Grid) -> String {
    let digits: Vec<String> = numbers(solution).iter().map(u8::to_string).collect();
    let mut hasher = FnvHasher::default();
    hasher.write(digits.join(",").as_bytes());
    format!("{:016x}", hasher.finish())
}

/// The puzzle that a page embeds; none if it is not one that this crate wrote.
pub(crate) fn read(json: &str) -> Option<Puzzle> {
    let data: Data = serde_json::from_str(json).ok().filter(|it: &Data| it.format == 1)?;
    let size = Size::new(data.boxes[0], data.boxes[1]).filter(|it| it.side() == data.side)?;
    let cells: Vec<_> = size.cells().collect();
    if data.givens.len() != cells.len() {
        return None;
    }
    let mut givens = Grid::empty(size);
    for (cell, number) in cells.into_iter().zip(&data.givens) {
        match number {
            0 => {}
            it => givens = givens.with(cell, Some(size.digit(*it)?)),
        }
    }
    let clues: Option<Vec<Clue>> = data.clues.iter().map(|it| clue(size, it)).collect();
    let puzzle = Puzzle::new(givens, clues?);
    (puzzle.clues().len() == data.clues.len()).then_some(puzzle)
}

fn clue(size: Size, it: &DataClue) -> Option<Clue> {
    let kind = match it.line.as_str() {
        "row" => HouseKind::Row,
        "column" => HouseKind::Column,
        _ => return None,
    };
    let line: House = size.house(kind, it.number)?;
    Some(Clue { rule: rulebook::rule(&it.rule)?, line, value: it.value })
}
