//! Lists as they are read out: cells, digits, houses, numbers of things.
//!
//! Only the shape of lists lives here; what is said about them is for the other files.

use std::collections::BTreeSet;

use grid::{Cell, CellSet, DigitSet, House, HouseKind};

use crate::Voice;

/// The cells, neighbours in a line said as a stretch: `r4c1, r4c2 and r4c5`, `r4c1 to r4c4`.
pub fn cells(cells: CellSet) -> String {
    listed(&stretches(cells).iter().map(Stretch::words).collect::<Vec<_>>(), "and")
}

/// The cells as alternatives: `r4c1, r4c2 or r4c5`.
pub(crate) fn either_cell(cells: CellSet) -> String {
    listed(&stretches(cells).iter().map(Stretch::words).collect::<Vec<_>>(), "or")
}

/// The digits: `2, 3 and 8`.
pub fn digits(digits: DigitSet) -> String {
    listed(&each_of(digits), "and")
}

/// A number of things in letters, as far as boards need it: `no`, `one` … `fourteen`; then in figures.
pub fn count(n: usize) -> String {
    const WORDS: [&str; 15] = [
        "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
        "twelve", "thirteen", "fourteen",
    ];
    WORDS.get(n).map_or_else(|| n.to_string(), |it| (*it).to_owned())
}

/// The digits as alternatives: `2, 3 or 8`.
pub(crate) fn either_digit(digits: DigitSet) -> String {
    listed(&each_of(digits), "or")
}

/// Where something is that lies in one of the cells: `in r4c1`, `in r4c1 or r4c2`,
/// `among r4c1 to r4c4 and r4c7`.
pub(crate) fn within(set: CellSet) -> String {
    match set.len() {
        0..=3 => format!("in {}", listed(&set.iter().map(|it| it.to_string()).collect::<Vec<_>>(), "or")),
        _ => format!("among {}", cells(set)),
    }
}

/// The cells cut into parts, each of which takes at most `most_words` words to list.
pub(crate) fn in_parts(voice: Voice, cells: CellSet, most_words: usize) -> Vec<CellSet> {
    let mut parts: Vec<CellSet> = Vec::new();
    let mut words = 0;
    for stretch in stretches(cells) {
        // One word more for the "and" before the last.
        let more = voice.n_words(&stretch.words());
        match parts.last_mut() {
            Some(part) if words + more < most_words => {
                part.extend(stretch.0);
                words += more;
            }
            _ => {
                parts.push(stretch.0.into_iter().collect());
                words = more;
            }
        }
    }
    parts
}

/// The houses by kind: `rows 2 and 4`, `column 7`.
pub(crate) fn houses(houses: &BTreeSet<House>) -> Vec<String> {
    [(HouseKind::Row, "row"), (HouseKind::Column, "column"), (HouseKind::Box, "box")]
        .into_iter()
        .filter_map(|(kind, name)| {
            let numbers: Vec<usize> =
                houses.iter().filter(|it| it.kind() == kind).map(|it| usize::from(it.number())).collect();
            let plural = if kind == HouseKind::Box { "boxes".to_owned() } else { format!("{name}s") };
            match numbers.len() {
                0 => None,
                1 => Some(format!("{name} {}", numbers[0])),
                _ => Some(format!("{plural} {}", listed(&numbers_in_stretches(&numbers), "and"))),
            }
        })
        .collect()
}

/// Rising numbers, three or more in a row said as a stretch: `3 to 6`, `9`.
pub(crate) fn numbers_in_stretches(numbers: &[usize]) -> Vec<String> {
    let mut said = Vec::new();
    for stretch in numbers.chunk_by(|a, b| a + 1 == *b) {
        match stretch {
            [first, _, .., last] => said.push(format!("{first} to {last}")),
            few => said.extend(few.iter().map(usize::to_string)),
        }
    }
    said
}

/// `a`, `a and b`, `a, b and c`; nothing at all is an empty text.
pub fn list<T: AsRef<str>>(items: &[T]) -> String {
    match items {
        [] => String::new(),
        items => listed(&items.iter().map(|it| it.as_ref().to_owned()).collect::<Vec<_>>(), "and"),
    }
}

/// The text with a capital letter.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map(|it| it.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

/// `a`, `a and b`, `a, b and c`, with `last` before the last.
pub(crate) fn listed(items: &[String], last: &str) -> String {
    match items {
        [] => "nothing".to_owned(),
        [only] => only.clone(),
        [before @ .., end] => format!("{} {last} {end}", before.join(", ")),
    }
}

/// The digits one by one.
pub(crate) fn each_of(digits: DigitSet) -> Vec<String> {
    digits.iter().map(|it| it.to_string()).collect()
}

/// Neighbouring cells that are said together.
struct Stretch(Vec<Cell>);

impl Stretch {
    fn words(&self) -> String {
        match self.0.as_slice() {
            [first, _, .., last] => format!("{first} to {last}"),
            few => few.iter().map(|it| it.to_string()).collect::<Vec<_>>().join(", "),
        }
    }
}

/// Cuts the cells into stretches of three or more neighbours, along the column if all lie in one
/// column and along rows otherwise, and single cells.
fn stretches(cells: CellSet) -> Vec<Stretch> {
    let cells: Vec<Cell> = cells.iter().collect();
    let down = cells.len() > 1 && cells.iter().all(|it| it.column() == cells[0].column());
    let touch = |a: &Cell, b: &Cell| match down {
        true => a.row() + 1 == b.row(),
        false => a.row() == b.row() && a.column() + 1 == b.column(),
    };
    cells
        .chunk_by(touch)
        .flat_map(|it| match it.len() {
            0..=2 => it.iter().map(|cell| Stretch(vec![*cell])).collect(),
            _ => vec![Stretch(it.to_vec())],
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use grid::Size;

    fn set(places: &[(u8, u8)]) -> CellSet {
        places.iter().filter_map(|it| Size::NINE.cell(it.0, it.1)).collect()
    }

    #[test]
    fn neighbours_are_said_as_a_stretch() {
        let cases: [(&[(u8, u8)], &str); 6] = [
            (&[(4, 1)], "r4c1"),
            (&[(4, 1), (4, 2)], "r4c1 and r4c2"),
            (&[(4, 1), (4, 2), (4, 5)], "r4c1, r4c2 and r4c5"),
            (&[(4, 1), (4, 2), (4, 3), (4, 4)], "r4c1 to r4c4"),
            (&[(2, 7), (3, 7), (4, 7), (6, 7)], "r2c7 to r4c7 and r6c7"),
            (&[(1, 1), (1, 2), (1, 3), (2, 1), (3, 1)], "r1c1 to r1c3, r2c1 and r3c1"),
        ];
        for (places, expected) in cases {
            assert_eq!(cells(set(places)), expected);
        }
    }

    #[test]
    fn one_of_few_cells_is_said_cell_by_cell() {
        assert_eq!(within(set(&[(4, 1), (4, 2), (4, 3)])), "in r4c1, r4c2 or r4c3");
        assert_eq!(within(set(&[(4, 1), (4, 2), (4, 3), (4, 7)])), "among r4c1 to r4c3 and r4c7");
    }

    #[test]
    fn parts_hold_all_cells_and_stay_short() {
        let all: CellSet = Size::NINE.cells().filter(|it| (it.row() + it.column()) % 2 == 0).collect();
        let parts = in_parts(Voice::Booklet, all, 12);
        let again: CellSet = parts.iter().flat_map(CellSet::iter).collect();
        assert_eq!(again, all);
        assert!(parts.len() > 2 && parts.iter().all(|it| Voice::Booklet.n_words(&cells(*it)) <= 12));
    }
}
