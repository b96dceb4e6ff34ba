//! A puzzle as a setter's message tells it: a grid among sentences, and the clues named below it or drawn around it.
//!
//! Taken are a line of all cells, or a block of rows, with whatever drawing between them, also behind the `>` of a quoted
//! message. Clues are taken from lines such as `rows: 6 . 17 20`, from numbers before the rows, and from a line of numbers above
//! the grid. What is not found is left as it was; nothing is guessed.

use grid::{Digit, Size};

use crate::typed::TypedClues;

/// Longer lines are no part of a puzzle.
const LONGEST_LINE: usize = 1_000;

/// What was found in a message.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct Message {
    /// Row by row; 0 is an empty cell.
    pub(crate) givens: Vec<u8>,
    /// The clues, if any are told.
    pub(crate) clues: Option<TypedClues>,
}

/// The puzzle of that size in the text; none if there is no grid in it.
pub(crate) fn read(text: &str, size: Size) -> Option<Message> {
    let lines: Vec<&str> = text.lines().filter(|it| it.len() <= LONGEST_LINE).map(unquoted).collect();
    let lines: Vec<&str> = lines.into_iter().filter(|it| !is_drawing(it)).collect();
    let side = usize::from(size.side());
    let named = |names: &[&str]| lines.iter().find_map(|it| clues_named(it, names, side));
    let (rows, columns) = (named(&["row", "rows"]), named(&["column", "columns", "col", "cols"]));
    let found = in_one_line(&lines, size).or_else(|| in_rows(&lines, size))?;
    let rows = rows.or(found.rows);
    let columns = columns.or(found.columns);
    let none = || vec![None; side];
    let clues = (rows.is_some() || columns.is_some())
        .then(|| TypedClues { rows: rows.unwrap_or_else(none), columns: columns.unwrap_or_else(none) });
    Some(Message { givens: found.givens, clues })
}

/// A grid, with what stands around it.
struct Found {
    givens: Vec<u8>,
    rows: Option<Vec<Option<u16>>>,
    columns: Option<Vec<Option<u16>>>,
}

fn in_one_line(lines: &[&str], size: Size) -> Option<Found> {
    let words = lines.iter().flat_map(|it| it.split_whitespace());
    let mut grids = words.filter_map(|it| {
        let cells: Option<Vec<u8>> = it.chars().map(|it| cell(it, size)).collect();
        cells.filter(|it| it.len() == size.n_cells())
    });
    Some(Found { givens: grids.next()?, rows: None, columns: None })
}

/// How the rows of a grid are written: all of them alike.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
struct Written {
    /// Whether each row begins with its clue.
    after_clue: bool,
    /// Whether cells stand side by side, in parts of the same length, or each is a word.
    side_by_side: bool,
}

/// What is plainer comes first.
const WAYS: [Written; 4] = [
    Written { after_clue: false, side_by_side: false },
    Written { after_clue: true, side_by_side: false },
    Written { after_clue: false, side_by_side: true },
    Written { after_clue: true, side_by_side: true },
];

/// As many lines, one after the other, as there are rows, each of them a row.
fn in_rows(lines: &[&str], size: Size) -> Option<Found> {
    let side = usize::from(size.side());
    let (at, rows) = WAYS.into_iter().find_map(|way| {
        lines.windows(side).enumerate().find_map(|(at, window)| {
            let rows: Option<Vec<(Option<u16>, Vec<u8>)>> =
                window.iter().map(|it| row(it, size, way)).collect();
            Some((at, rows?))
        })
    })?;
    let has_clues = rows.iter().any(|it| it.0.is_some());
    let above = at.checked_sub(1).and_then(|it| {
        let words = words(lines[it]);
        let words = if words.len() == side + 1 && is_nothing(words[0]) { &words[1..] } else { &words[..] };
        clues(words, side)
    });
    Some(Found {
        givens: rows.iter().flat_map(|it| it.1.iter().copied()).collect(),
        rows: has_clues.then(|| rows.iter().map(|it| it.0).collect()),
        columns: above,
    })
}

/// A row of cells that is written so, with its clue if it begins with one.
fn row(line: &str, size: Size, way: Written) -> Option<(Option<u16>, Vec<u8>)> {
    let words = words(line);
    let (clue_of_row, words) = match way.after_clue {
        true => words.split_first().and_then(|(first, rest)| Some((clue(first)?, rest)))?,
        false => (None, &words[..]),
    };
    let cells: Option<Vec<u8>> = match way.side_by_side {
        true => {
            let length = words.first()?.chars().count();
            let is_even = length > 1 && words.iter().all(|it| it.chars().count() == length);
            let cells = words.iter().flat_map(|it| it.chars()).map(|it| cell(it, size));
            if is_even { cells.collect() } else { None }
        }
        false => words.iter().map(|it| cell_word(it, size)).collect(),
    };
    Some((clue_of_row, cells.filter(|it| it.len() == usize::from(size.side()))?))
}

/// The clues of a line that names what they are of.
fn clues_named(line: &str, names: &[&str], side: usize) -> Option<Vec<Option<u16>>> {
    let (name, rest) = line.split_once([':', '='])?;
    let is_named = name.split_whitespace().any(|it| names.iter().any(|name| it.eq_ignore_ascii_case(name)));
    is_named.then(|| clues(&words(rest), side)).flatten()
}

fn clues(words: &[&str], side: usize) -> Option<Vec<Option<u16>>> {
    let clues: Option<Vec<Option<u16>>> = words.iter().map(|it| clue(it)).collect();
    clues.filter(|it| it.len() == side)
}

/// A clue, or that there is none.
fn clue(word: &str) -> Option<Option<u16>> {
    match is_nothing(word) {
        true => Some(None),
        false => word.parse().ok().filter(|it| *it < 1000).map(Some),
    }
}

fn is_nothing(word: &str) -> bool {
    matches!(word, "." | "-" | "_" | "?" | "x" | "X" | "*" | "·" | "–" | "—")
}

/// The words of a line, without what only divides them.
fn words(line: &str) -> Vec<&str> {
    line.split(|it: char| it.is_whitespace() || ",;|│║\"'[]".contains(it))
        .filter(|it| !it.is_empty())
        .collect()
}

fn cell_word(word: &str, size: Size) -> Option<u8> {
    let mut letters = word.chars();
    match (letters.next(), letters.next()) {
        (Some(only), None) => cell(only, size),
        _ => word.parse().ok().and_then(|it| size.digit(it)).map(Digit::get),
    }
}

/// 0 for an empty cell.
fn cell(it: char, size: Size) -> Option<u8> {
    match it {
        '.' | '0' | '_' | '*' | '-' | '·' => Some(0),
        _ => Digit::from_char(it).filter(|it| size.digits().contains(*it)).map(Digit::get),
    }
}

/// Whether a line only divides the rows of a grid, or is empty.
fn is_drawing(line: &str) -> bool {
    let is_line = |it: char| it.is_whitespace() || "-+=|─━═┼╬│║├┤╠╣┌┐└┘╔╗╚╝┬┴╦╩".contains(it);
    line.chars().all(is_line) && !line.split_whitespace().all(|it| it == "-") || line.trim().is_empty()
}

/// The line without what mail puts before what it quotes.
fn unquoted(line: &str) -> &str {
    line.trim_start_matches(|it: char| it == '>' || it.is_whitespace()).trim_end()
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn four() -> Size {
        Size::of_side(4).unwrap()
    }

    const GIVENS: [u8; 16] = [1, 0, 0, 0, 3, 0, 2, 0, 0, 0, 0, 0, 0, 0, 4, 0];

    #[test]
    fn a_grid_is_found_among_sentences() {
        for text in [
            "1...3.2.......4.",
            "Hello,\nhere is 1 puzzle for 4 people:\n\n1...3.2.......4.\n\nYours, F.",
            "Hello,\n> 1 . | . .\n> 3 . | 2 .\n> ----+----\n> . . | . .\n> . . | 4 .\nBest",
            "1 0 0 0\n3 0 2 0\n0 0 0 0\n0 0 4 0",
            "1___\n3_2_\n____\n__4_",
            "│1 · │ · ·│\n│3 · │ 2 ·│\n├────┼────┤\n│· · │ · ·│\n│· · │ 4 ·│",
            "1,.,.,.\n3,.,2,.\n.,.,.,.\n.,.,4,.",
        ] {
            let found = read(text, four()).unwrap_or_else(|| panic!("{text}"));
            assert_eq!((&found.givens[..], found.clues), (&GIVENS[..], None), "{text}");
        }
    }

    #[test]
    fn clues_are_named_or_drawn_around() {
        let clues = TypedClues {
            rows: vec![Some(5), None, Some(0), Some(2)],
            columns: vec![None, Some(3), None, Some(10)],
        };
        for text in [
            "1...\n3.2.\n....\n..4.\nRows: 5 . 0 2\nColumns: . 3 . 10",
            "rows = \"5 - 0 2\"\ncols = \"-, 3, -, 10\"\n1...3.2.......4.",
            "    . 3 . 10\n5 | 1 . . .\n. | 3 . 2 .\n0 | . . . .\n2 | . . 4 .",
            "x   x 3 x 10\n5   1 . . .\nx   3 . 2 .\n0   . . . .\n2   . . 4 .",
        ] {
            let found = read(text, four()).unwrap_or_else(|| panic!("{text}"));
            assert_eq!(found, Message { givens: GIVENS.into(), clues: Some(clues.clone()) }, "{text}");
        }
    }

    #[test]
    fn what_is_no_grid_of_that_size_is_none() {
        for text in [
            "",
            "1...",
            "1 2 3 4",
            "5...3.2.......4.",
            "1...3.2.......4.1",
            "Dear all,\nno news.\nrows: 1 2 3 4",
        ] {
            assert_eq!(read(text, four()), None, "{text}");
        }
        let twelve = Size::of_side(12).unwrap();
        let row = "12 . 3 A . . . . . . . 1\n";
        assert_eq!(read(&row.repeat(12), twelve).unwrap().givens[..4], [12, 0, 3, 10]);
    }

    proptest! {
        /// Whatever is pasted, there is an answer, and one that fits the size.
        #[test]
        fn any_text_has_an_answer(text in "[ -~\n·│\u{0}-\u{1f}é–]{0,400}", side in 4u8..=16) {
            let Some(size) = Size::of_side(side) else { return Ok(()) };
            if let Some(found) = read(&text, size) {
                prop_assert_eq!(found.givens.len(), size.n_cells());
                prop_assert!(found.givens.iter().all(|it| *it <= side));
            }
        }

        /// A puzzle that is told in a message is found as it is.
        #[test]
        fn what_is_told_is_found(
            givens in proptest::collection::vec(prop_oneof![3 => Just(0u8), 1 => 1u8..=9], 81),
            clues in proptest::collection::vec(proptest::option::of(0u16..=35), 18),
        ) {
            let shown = |it: &u8| if *it == 0 { ".".to_owned() } else { it.to_string() };
            let rows: Vec<String> = givens.chunks(9).map(|it| it.iter().map(shown).collect::<Vec<_>>().join(" ")).collect();
            let told = |of: &[Option<u16>]| {
                of.iter().map(|it| it.map_or(".".to_owned(), |it| it.to_string())).collect::<Vec<_>>().join(" ")
            };
            let text = format!("Hi!\n{}\nrows: {}\ncolumns: {}\n", rows.join("\n"), told(&clues[..9]), told(&clues[9..]));
            let found = read(&text, Size::NINE).unwrap();
            prop_assert_eq!(found.givens, givens);
            prop_assert_eq!(found.clues, Some(TypedClues { rows: clues[..9].into(), columns: clues[9..].into() }));
        }
    }
}
