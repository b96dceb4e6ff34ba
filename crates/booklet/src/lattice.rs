//! Finds a board on a page from its lines alone.

use grid::{Cell, Size};
use kurbo::Point;

use crate::page::Stroke;

/// Strokes wider than this, in points, bound boxes.
const HEAVY: f64 = 1.0;

/// How far two places may be apart, in points, and still be the same.
const SAME: f64 = 0.2;

/// The lines of a board, as they lie on the page.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Lattice {
    /// The size that the lines show: how many cells, in which boxes.
    pub(crate) size: Size,
    /// The board's upper left corner.
    corner: Point,
    /// The side of a cell.
    cell: f64,
}

/// Where something lies beside a board.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) enum Place {
    /// In a cell.
    In(Cell),
    /// Left of a row (its number, from 1), so many cell sides away from the board.
    LeftOf(u8, f64),
    /// Above a column (its number, from 1), so many cell sides away from the board.
    Above(u8, f64),
    /// Anywhere else.
    Elsewhere,
}

impl Lattice {
    /// The one board whose lines are among the strokes; none if there is no board, or more than one,
    /// or one whose lines are not those of any size.
    pub(crate) fn find(strokes: &[Stroke]) -> Option<Lattice> {
        let (across, down): (Vec<&Stroke>, Vec<&Stroke>) =
            strokes.iter().partition(|it| (it.from.y - it.to.y).abs() < SAME);
        let mut found = None;
        for (at, first) in down.iter().enumerate() {
            let same_extent = |it: &&Stroke| is_same(it.from.y, first.from.y) && is_same(it.to.y, first.to.y);
            // Each group of lines is looked at once, from its first line.
            if down[..at].iter().any(same_extent) {
                continue;
            }
            let columns =
                Ruling::of(down.iter().filter(|it| same_extent(it)).map(|it| (it.from.x, it.width)));
            let Some(columns) = columns else { continue };
            let spans_columns =
                |it: &&&Stroke| is_same(it.from.x, columns.first) && is_same(it.to.x, columns.last);
            let rows = Ruling::of(across.iter().filter(spans_columns).map(|it| (it.from.y, it.width)));
            let Some(rows) = rows else { continue };
            let reaches = is_same(rows.first, first.from.y) && is_same(rows.last, first.to.y);
            let Some(lattice) = Lattice::new(&rows, &columns).filter(|_| reaches) else { continue };
            if found.replace(lattice).is_some() {
                return None;
            }
        }
        found
    }

    fn new(rows: &Ruling, columns: &Ruling) -> Option<Lattice> {
        let size = Size::new(columns.box_side, rows.box_side)?;
        let is_square = rows.n_cells == columns.n_cells && is_same(rows.cell, columns.cell);
        let lattice = Lattice { size, corner: Point::new(columns.first, rows.first), cell: rows.cell };
        (is_square && usize::from(size.side()) == rows.n_cells).then_some(lattice)
    }

    /// Where a point lies.
    pub(crate) fn place(&self, it: Point) -> Place {
        let (across, down) = ((it.x - self.corner.x) / self.cell, (it.y - self.corner.y) / self.cell);
        // A line's number, from 1; none beside the board.
        let number = |it: f64| {
            let line = it.floor() + 1.0;
            (1.0..=f64::from(self.size.side())).contains(&line).then_some(line as u8)
        };
        match (number(down), number(across)) {
            (Some(row), Some(column)) => self.size.cell(row, column).map_or(Place::Elsewhere, Place::In),
            (Some(row), None) if across < 0.0 => Place::LeftOf(row, -across),
            (None, Some(column)) if down < 0.0 => Place::Above(column, -down),
            _ => Place::Elsewhere,
        }
    }
}

/// Parallel lines at equal distances, every so many of them heavy.
struct Ruling {
    first: f64,
    last: f64,
    n_cells: usize,
    cell: f64,
    /// Cells from one heavy line to the next.
    box_side: u8,
}

impl Ruling {
    /// The ruling of lines at those places, of those widths; none if they are no ruling.
    fn of(lines: impl Iterator<Item = (f64, f64)>) -> Option<Ruling> {
        let mut lines: Vec<(f64, f64)> = lines.collect();
        lines.sort_by(|a, b| a.0.total_cmp(&b.0));
        let (first, last) = (lines.first()?.0, lines.last()?.0);
        let n_cells = lines.len() - 1;
        let cell = (last - first) / n_cells as f64;
        let is_heavy = |at: usize| lines[at].1 > HEAVY;
        let box_side = (1..=n_cells).find(|at| is_heavy(*at))?;
        let is_ruled = |at: usize| {
            is_same(lines[at].0, first + cell * at as f64) && is_heavy(at) == at.is_multiple_of(box_side)
        };
        (cell > SAME && (0..=n_cells).all(is_ruled)).then_some(Ruling {
            first,
            last,
            n_cells,
            cell,
            box_side: u8::try_from(box_side).ok()?,
        })
    }
}

fn is_same(a: f64, b: f64) -> bool {
    (a - b).abs() < SAME
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The strokes of a board whose corner is at (10, 20), with cells of 30 points.
    fn strokes(size: Size) -> Vec<Stroke> {
        let end = 30.0 * f64::from(size.side());
        let width = |at: u8, of: u8| if at.is_multiple_of(of) { 1.7 } else { 0.5 };
        let lines = (0..=size.side()).flat_map(|at| {
            let way = 30.0 * f64::from(at);
            let (x, y) = (10.0 + way, 20.0 + way);
            [
                Stroke {
                    from: Point::new(x, 20.0),
                    to: Point::new(x, 20.0 + end),
                    width: width(at, size.box_width()),
                },
                Stroke {
                    from: Point::new(10.0, y),
                    to: Point::new(10.0 + end, y),
                    width: width(at, size.box_height()),
                },
            ]
        });
        lines.collect()
    }

    #[test]
    fn boards_of_all_sizes_are_found() {
        for size in (4..=16).filter_map(Size::of_side).chain(Size::new(2, 3)) {
            let mut strokes = strokes(size);
            // A rule under a heading is no board.
            strokes.push(Stroke { from: Point::new(10.0, 5.0), to: Point::new(300.0, 5.0), width: 0.8 });
            let lattice = Lattice::find(&strokes).unwrap();
            assert_eq!((lattice.size, lattice.cell), (size, 30.0));
        }
    }

    #[test]
    fn places_are_told_apart() {
        let lattice = Lattice::find(&strokes(Size::NINE)).unwrap();
        let place = |x, y| lattice.place(Point::new(x, y));
        assert_eq!(place(11.0, 21.0), Place::In(Size::NINE.cell(1, 1).unwrap()));
        assert_eq!(place(279.0, 50.5), Place::In(Size::NINE.cell(2, 9).unwrap()));
        assert_eq!(place(-5.0, 51.0), Place::LeftOf(2, 0.5));
        assert_eq!(place(41.0, 5.0), Place::Above(2, 0.5));
        assert_eq!(place(300.0, 51.0), Place::Elsewhere);
        assert_eq!(place(41.0, 300.0), Place::Elsewhere);
    }

    #[test]
    fn what_is_no_board_is_not_found() {
        let strokes = strokes(Size::NINE);
        assert_eq!(Lattice::find(&[]), None);
        assert_eq!(Lattice::find(&strokes[1..]), None, "a line is missing");
        let mut light = strokes.clone();
        light.iter_mut().for_each(|it| it.width = 0.5);
        assert_eq!(Lattice::find(&light), None, "nothing bounds the boxes");
        let moved = strokes.iter().map(|it| {
            let away = |it: Point| Point::new(it.x + 400.0, it.y);
            Stroke { from: away(it.from), to: away(it.to), width: it.width }
        });
        let two: Vec<Stroke> = strokes.iter().copied().chain(moved).collect();
        assert_eq!(Lattice::find(&two), None, "two boards side by side");
    }
}
