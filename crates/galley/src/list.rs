//! A file of one-line grids, as public collections of puzzles have them: a puzzle a line.
//!
//! A line holds as many characters as its board has cells, row by row, with `.` or `0` for an empty one. What
//! follows after a space, tab, comma or semicolon is somebody's note and passed over; so are empty lines and lines
//! that begin with `#`.

use std::fs;
use std::io::{BufRead, BufReader};
use std::path::Path;

use grid::{Grid, GridError};
use packfile::Span;
use prove::{Limit, Verdict, verdict};
use rayon::prelude::*;
use rulebook::Puzzle;

use crate::job::With;
use crate::load::{cannot_read, shown};
use crate::outcome::Failure;
use crate::{print, progress};

/// Nodes a proof may take, as many as for a puzzle of a pack.
const PROOF: Limit = Limit(20_000_000);

/// Lines that are proved between two looks at whether to stop.
const CHUNK: usize = 256;

/// What was found out about a line with a puzzle on it.
#[derive(Debug)]
pub(crate) struct Line {
    /// Where the grid stands, or the character of it that is wrong.
    pub(crate) at: Span,
    /// The verdict, or what is wrong with the line.
    pub(crate) found: Result<Verdict, Fault>,
}

/// Why a line is no puzzle.
#[derive(Debug)]
pub(crate) struct Fault {
    /// The character of the grid that is wrong, from 0; none if it is about the whole of it.
    character: Option<usize>,
    /// What was found.
    pub(crate) message: String,
    /// The next move.
    pub(crate) help: String,
}

/// Whether the path is a list rather than a pack or a puzzle file. A puzzle file of another name is none: it
/// begins with a key and its value.
pub(crate) fn is_list(path: &Path) -> bool {
    let has_key = || {
        let lines = fs::File::open(path).map(|it| BufReader::new(it).lines().map_while(Result::ok));
        let first = lines.ok().and_then(|it| {
            it.map(|it| it.trim().to_owned()).find(|it| !it.is_empty() && !it.starts_with('#'))
        });
        first.is_some_and(|it| it.contains('='))
    };
    path.is_file() && !path.extension().is_some_and(|it| it.eq_ignore_ascii_case("toml")) && !has_key()
}

/// Proves every line, on all cores; they stay in their order.
///
/// # Errors
///
/// If the file cannot be read, is no text, or the work is interrupted.
pub(crate) fn prove_all(path: &Path, with: &With) -> Result<Vec<Line>, Failure> {
    let bytes = fs::read(path).map_err(|it| cannot_read(path, &it))?;
    let text = String::from_utf8(bytes).map_err(|_| {
        Failure::new(
            format!("{} is neither a puzzle file nor a list of grids: it is no text", shown(path)),
            "name a pack's folder, a puzzle file that ends in .toml, or a list with a grid a line",
        )
    })?;
    let grids = grids(&text);
    let bar = progress::counting(grids.len(), with);
    let chunk = |grids: &[(&str, Span)]| {
        let proved = with.stop.interrupting(|| grids.iter().map(|(text, at)| line(text, *at)).collect());
        bar.inc(grids.len() as u64);
        proved
    };
    let proved: Result<Vec<Vec<Line>>, Failure> = grids.par_chunks(CHUNK).map(chunk).collect();
    bar.finish_and_clear();
    Ok(proved?.into_iter().flatten().collect())
}

/// The grids of a text, and where each stands.
fn grids(text: &str) -> Vec<(&str, Span)> {
    let text = text.trim_start_matches('\u{feff}');
    let mut start_of_line = 0;
    let mut found = Vec::new();
    for (at, line) in text.split_inclusive('\n').enumerate() {
        let indent = line.len() - line.trim_start().len();
        let grid = line.trim().split([' ', '\t', ',', ';']).next().unwrap_or_default();
        if !grid.is_empty() && !grid.starts_with('#') {
            let start = start_of_line + indent;
            let column = line[..indent].chars().count() + 1;
            found.push((grid, Span { start, end: start + grid.len(), line: at + 1, column }));
        }
        start_of_line += line.len();
    }
    found
}

fn line(text: &str, at: Span) -> Line {
    let found = prove(text);
    let wrong = found.as_ref().err().and_then(|it| text.char_indices().nth(it.character?));
    let at = match wrong {
        None => at,
        Some((offset, it)) => {
            let start = at.start + offset;
            Span {
                start,
                end: start + it.len_utf8(),
                column: at.column + text[..offset].chars().count(),
                ..at
            }
        }
    };
    Line { at, found }
}

fn prove(text: &str) -> Result<Verdict, Fault> {
    let givens = Grid::from_line(text).map_err(|error| match error {
        GridError::Length(n) => Fault {
            character: None,
            message: format!("no board has {n} cells"),
            help: "write a character a cell: 81 for 9x9, 36 for 6x6, and so on up to 256".to_owned(),
        },
        GridError::Character(at, it) => Fault {
            character: Some(at),
            message: format!("`{}` is no digit of this board", print::visible(&it.to_string())),
            help: "use the board's digits (A for 10 and so on), and `.` or 0 for an empty cell".to_owned(),
        },
    })?;
    Ok(verdict(&Puzzle::new(givens, []), PROOF))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn notes_and_empty_lines_are_passed_over() {
        let text = "\u{feff}# a note\n12..\n\n  34..\t56\r\n  \n7...,1234,easy\n89..;x";
        let found = grids(text);
        let places: Vec<_> = found.iter().map(|(it, at)| (*it, at.line, at.column)).collect();
        assert_eq!(places, [("12..", 2, 1), ("34..", 4, 3), ("7...", 6, 1), ("89..", 7, 1)]);
        let text = text.trim_start_matches('\u{feff}');
        assert!(found.iter().all(|(it, at)| text[at.start..at.end] == **it));
    }

    #[test]
    fn lines_that_are_no_grids_say_why() {
        let proved = |text: &str| {
            let (grid, at) = grids(text)[0];
            line(grid, at)
        };
        assert!(matches!(proved("1234341221434321").found, Ok(Verdict::One(_))));
        let short = proved("123");
        assert_eq!((short.at.column, short.found.unwrap_err().message.as_str()), (1, "no board has 3 cells"));
        let wrong = proved("  1234x41221434321");
        assert_eq!((wrong.at.column, wrong.at.start, wrong.at.end), (7, 6, 7));
        assert_eq!(wrong.found.unwrap_err().message, "`x` is no digit of this board");
    }
}
