//! A board read from its description, which is all that some solvers have of it:
//! `Row 1: sandwich clue 31, column 2 is 1. Column 3: sandwich clue 25.`

use grid::{Digit, House, HouseKind, Size};

use super::drawing::BoardContents;

/// The largest board, whose houses go by the same names as those of any other.
const LARGEST: u8 = 16;

/// What the description says; none if it says anything else.
pub(super) fn read(description: &str) -> Option<BoardContents> {
    let mut contents = BoardContents::default();
    for sentence in description.split_terminator('.') {
        let (line, said) = sentence.trim().split_once(": ")?;
        let line = house(line)?;
        for part in said.split(", ") {
            let fresh = match part.split_once(" clue ") {
                Some((_, value)) => contents.clues.insert(line, value.parse().ok()?).is_none(),
                None => {
                    let (column, digit) = part.strip_prefix("column ")?.split_once(" is ")?;
                    let row = Some(line).filter(|it| it.kind() == HouseKind::Row)?.number();
                    let cell = Size::of_side(LARGEST)?.cell(row, column.parse().ok()?)?;
                    contents.digits.insert(cell, Digit::new(digit.parse().ok()?)?).is_none()
                }
            };
            fresh.then_some(())?;
        }
    }
    Some(contents)
}

/// `Row 4`, `Column 7`.
fn house(name: &str) -> Option<House> {
    let (kind, number) = name.split_once(' ')?;
    let kind = match kind {
        "Row" => HouseKind::Row,
        "Column" => HouseKind::Column,
        _ => return None,
    };
    Size::of_side(LARGEST)?.house(kind, number.parse().ok()?)
}
