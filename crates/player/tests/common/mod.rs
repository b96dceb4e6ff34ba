//! Pages and sheets to ask about: the demo's puzzles.
#![allow(dead_code)] // not every test uses all of it

use grid::{Digit, Grid, HouseKind};
use packfile::{SourceFile, read_puzzle};
use player::Player;
use prove::{Limit, Verdict, verdict};
use rulebook::Puzzle;
use serde_json::{Value, json};

/// A puzzle as a page has it.
#[derive(Clone)]
pub(crate) struct Page {
    pub(crate) id: String,
    pub(crate) side: u8,
    pub(crate) boxes: [u8; 2],
    pub(crate) givens: Vec<u8>,
    pub(crate) solution: Vec<u8>,
    pub(crate) clues: Vec<Value>,
    pub(crate) taught: Vec<String>,
}

impl Page {
    pub(crate) fn of(id: &str, puzzle: &Puzzle) -> Page {
        let Verdict::One(solution) = verdict(puzzle, Limit(40_000_000)) else { panic!("{id} is not sound") };
        let size = puzzle.size();
        let clue = |it: &rulebook::Clue| {
            let line = if it.line.kind() == HouseKind::Row { "row" } else { "column" };
            json!({"rule": it.rule.id().name(), "line": line, "number": it.line.number(), "value": it.value})
        };
        Page {
            id: id.to_owned(),
            side: size.side(),
            boxes: [size.box_width(), size.box_height()],
            givens: digits(puzzle.givens()),
            solution: digits(&solution),
            clues: puzzle.clues().iter().map(clue).collect(),
            taught: reason::TECHNIQUES.iter().map(|it| it.id().name().to_owned()).collect(),
        }
    }

    pub(crate) fn text(&self) -> String {
        let Page { side, boxes, givens, clues, taught, .. } = self;
        let page = json!({"format": 1, "side": side, "box": boxes, "givens": givens, "clues": clues, "taught": taught});
        page.to_string()
    }

    pub(crate) fn player(&self) -> Player {
        Player::new(&self.text()).unwrap()
    }

    /// A sheet on which nothing is written.
    pub(crate) fn blank(&self) -> Value {
        sheet_of(&self.givens)
    }

    /// The cells that are not given.
    pub(crate) fn empty(&self) -> Vec<usize> {
        (0..self.givens.len()).filter(|it| self.givens[*it] == 0).collect()
    }
}

/// A sheet with those digits and nothing else.
pub(crate) fn sheet_of(ink: &[u8]) -> Value {
    json!({"format": 1, "ink": ink, "pencil": vec![Vec::<u8>::new(); ink.len()], "marks": vec![""; ink.len()]})
}

/// Writes what a hint settles; false if all of it stands there already.
pub(crate) fn write(sheet: &mut Value, settles: &Value) -> bool {
    let before = sheet.clone();
    for layer in ["ink", "pencil", "marks"] {
        for it in settles[layer].as_array().unwrap() {
            sheet[layer][it[0].as_u64().unwrap() as usize] = it[1].clone();
        }
    }
    *sheet != before
}

/// Whether nothing on the sheet contradicts the solution.
pub(crate) fn agrees(sheet: &Value, solution: &[u8]) -> bool {
    let n = solution.len() as u64;
    let side = n.isqrt();
    solution.iter().enumerate().all(|(cell, digit)| {
        let pencil = sheet["pencil"][cell].as_array().unwrap();
        let is_crust = u64::from(*digit) == 1 || u64::from(*digit) == side;
        [json!(0), json!(digit)].contains(&sheet["ink"][cell])
            && (pencil.is_empty() || pencil.contains(&json!(digit)))
            && match sheet["marks"][cell].as_str().unwrap() {
                "crust" => is_crust,
                "filling" => !is_crust,
                _ => true,
            }
    })
}

/// The demo's puzzles.
pub(crate) fn demo() -> Vec<Page> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo/lantern-room/puzzles");
    let mut files: Vec<_> = std::fs::read_dir(folder).unwrap().map(|it| it.unwrap().path()).collect();
    files.sort();
    let pages: Vec<Page> = files
        .iter()
        .map(|path| {
            let name = path.file_name().unwrap().to_str().unwrap();
            let file = SourceFile::new(name, std::fs::read_to_string(path).unwrap());
            let entry = read_puzzle(&file).0.unwrap();
            Page::of(entry.id.as_str(), &entry.puzzle)
        })
        .collect();
    assert!(pages.len() > 5);
    pages
}

fn digits(grid: &Grid) -> Vec<u8> {
    grid.size().cells().map(|it| grid.get(it).map_or(0, Digit::get)).collect()
}
