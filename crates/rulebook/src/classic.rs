//! The rule every puzzle has: each row, column and box holds each digit once.

use grid::{Cell, Grid, House};

/// The first house with a digit twice, and the two cells that hold it; none if no digit repeats.
///
/// Empty cells are passed over, so a half-filled board can be asked too.
pub fn first_repeat(grid: &Grid) -> Option<(House, Cell, Cell)> {
    let size = grid.size();
    size.houses().find_map(|house| {
        let cells = size.cells_of(house);
        cells.iter().enumerate().find_map(|(at, &second)| {
            let digit = grid.get(second)?;
            let first = cells[..at].iter().copied().find(|it| grid.get(*it) == Some(digit))?;
            Some((house, first, second))
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn repeats_are_found_in_each_kind_of_house() {
        let cases = [
            ("1...........1...", Some("column 1: r1c1 r4c1")),
            ("1..1............", Some("row 1: r1c1 r1c4")),
            ("1....1..........", Some("box 1: r1c1 r2c2")),
            ("1.....1.........", None),
            ("1234341221434321", None),
        ];
        for (text, expected) in cases {
            let grid = Grid::from_line(text).unwrap();
            let got = first_repeat(&grid).map(|(house, a, b)| format!("{house}: {a} {b}"));
            assert_eq!(got.as_deref(), expected, "{text}");
        }
    }
}
