//! The slips of hand and eye by which one number comes to be printed for another.
//!
//! Which slips there are, and which are likelier, is common practice of proof-readers, without a
//! source. Words for them are for those who print them.

use rulebook::Puzzle;

use crate::{Change, Printed};

/// A slip, the likeliest first.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Slip {
    /// Two digits beside each other changed places: 12 for 21.
    Transposed,
    /// The number of the line beside it was printed, or the digit of a cell beside it.
    Neighbour,
    /// One digit was taken for one that looks like it: 17 for 11.
    Misread,
    /// One more or one less.
    OneOff,
    /// A digit was lost: 1 for 12.
    DigitLost,
    /// A digit too many was typed: 122 for 12.
    DigitExtra,
}

/// Digits that are taken for each other, in handwriting or on a poor print.
const ALIKE: [(u8, u8); 5] = [(b'1', b'7'), (b'3', b'8'), (b'5', b'6'), (b'4', b'9'), (b'0', b'6')];

impl Slip {
    /// Every slip, the likeliest first.
    pub const ALL: [Slip; 6] =
        [Slip::Transposed, Slip::Neighbour, Slip::Misread, Slip::OneOff, Slip::DigitLost, Slip::DigitExtra];

    /// The slip's name, as documents write it.
    pub fn name(self) -> &'static str {
        match self {
            Slip::Transposed => "transposed",
            Slip::Neighbour => "neighbour",
            Slip::Misread => "misread",
            Slip::OneOff => "one-off",
            Slip::DigitLost => "digit-lost",
            Slip::DigitExtra => "digit-extra",
        }
    }
}

/// The slips that turn what the change prints into what is printed, the likeliest first.
pub(crate) fn slips(puzzle: &Puzzle, change: Change) -> Vec<Slip> {
    let printed = change.printed().value();
    let texts = change.to().map(|meant| (meant, meant.to_string(), printed.to_string()));
    let happened = |it: &Slip| match (it, &texts) {
        (Slip::Neighbour, _) => stands_beside(puzzle, change.printed()),
        (_, None) => false,
        (Slip::Transposed, Some((_, meant, typed))) => is_transposed(meant.as_bytes(), typed.as_bytes()),
        (Slip::Misread, Some((_, meant, typed))) => is_misread(meant.as_bytes(), typed.as_bytes()),
        (Slip::OneOff, Some((meant, ..))) => meant.abs_diff(printed) == 1,
        (Slip::DigitLost, Some((_, meant, typed))) => is_without_one(meant.as_bytes(), typed.as_bytes()),
        (Slip::DigitExtra, Some((_, meant, typed))) => is_without_one(typed.as_bytes(), meant.as_bytes()),
    };
    Slip::ALL.into_iter().filter(happened).collect()
}

/// Whether the same is printed beside a neighbouring line, or in a neighbouring cell.
fn stands_beside(puzzle: &Puzzle, printed: Printed) -> bool {
    match printed {
        Printed::Clue(clue) => puzzle.clues().iter().any(|it| {
            it.rule.id() == clue.rule.id()
                && it.value == clue.value
                && it.line.kind() == clue.line.kind()
                && it.line.index().abs_diff(clue.line.index()) == 1
        }),
        Printed::Given(cell, digit) => puzzle.givens().filled().any(|(other, it)| {
            let apart = cell.row().abs_diff(other.row()) + cell.column().abs_diff(other.column());
            it == digit && apart == 1
        }),
    }
}

fn is_transposed(a: &[u8], b: &[u8]) -> bool {
    a.len() == b.len()
        && a != b
        && (1..a.len()).any(|at| {
            let mut swapped = a.to_vec();
            swapped.swap(at - 1, at);
            swapped == b
        })
}

fn is_misread(a: &[u8], b: &[u8]) -> bool {
    let mut differing = a.iter().zip(b).filter(|(a, b)| a != b);
    let alike = |(a, b): (&u8, &u8)| ALIKE.contains(&(*a, *b)) || ALIKE.contains(&(*b, *a));
    a.len() == b.len() && differing.next().is_some_and(alike) && differing.next().is_none()
}

/// Whether `shorter` is `longer` with one digit left out.
fn is_without_one(longer: &[u8], shorter: &[u8]) -> bool {
    longer.len() == shorter.len() + 1
        && (0..longer.len()).any(|at| [&longer[..at], &longer[at + 1..]].concat() == shorter)
}

#[cfg(test)]
mod tests {
    use grid::{Grid, HouseKind, Size};
    use rulebook::{Clue, SANDWICH};

    use super::*;

    fn clue(row: u8, value: u16) -> Clue {
        Clue { rule: &SANDWICH, line: Size::NINE.house(HouseKind::Row, row).unwrap(), value }
    }

    #[test]
    fn each_slip_is_known_by_its_look() {
        use Slip::*;
        let beside = [clue(2, 9)];
        for (printed, meant, expected) in [
            (12, Some(21), vec![Transposed]),
            (17, Some(11), vec![Misread]),
            (10, Some(9), vec![OneOff]),
            (5, Some(6), vec![Misread, OneOff]),
            (23, Some(32), vec![Transposed]),
            (1, Some(12), vec![DigitLost]),
            (22, Some(2), vec![DigitExtra]),
            (9, Some(21), vec![Neighbour]),
            (9, None, vec![Neighbour]),
            (9, Some(8), vec![Neighbour, OneOff]),
            (12, Some(35), vec![]),
            (12, None, vec![]),
            (11, Some(77), vec![]),
        ] {
            let puzzle = Puzzle::new(Grid::empty(Size::NINE), [clue(1, printed)].into_iter().chain(beside));
            let change = Change::new(Size::NINE, Printed::Clue(clue(1, printed)), meant).unwrap();
            assert_eq!(slips(&puzzle, change), expected, "{meant:?} printed as {printed}");
        }
    }

    #[test]
    fn a_digit_of_the_cell_beside_it() {
        let grid = Grid::from_line("11.1............").unwrap();
        let puzzle = Puzzle::new(grid.clone(), []);
        let blank = |it: (_, _)| Change::new(puzzle.size(), Printed::Given(it.0, it.1), None);
        let beside = |it| blank(it).map_or(vec![], |it| slips(&puzzle, it));
        let found: Vec<usize> = grid.filled().map(|it| beside(it).len()).collect();
        assert_eq!(found, [1, 1, 0]);
    }

    #[test]
    fn the_likeliest_comes_first() {
        assert!(Slip::ALL.is_sorted());
    }
}
