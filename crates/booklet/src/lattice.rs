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
    /// The boards whose lines are among the strokes, in reading order: those side by side from the left, those below
    /// each other from the top. Lines that are not those of any size are no board.
    pub(crate) fn all(strokes: &[Stroke]) -> Vec<Lattice> {
        let (across, down): (Vec<&Stroke>, Vec<&Stroke>) =
            strokes.iter().partition(|it| (it.from.y - it.to.y).abs() < SAME);
        let mut found: Vec<Lattice> = Vec::new();
        for (at, first) in down.iter().enumerate() {
            let same_extent = |it: &&Stroke| is_same(it.from.y, first.from.y) && is_same(it.to.y, first.to.y);
            // Each group of lines is looked at once, from its first line.
            if down[..at].iter().any(same_extent) {
                continue;
            }
            let lines: Vec<(f64, f64)> =
                down.iter().filter(|it| same_extent(it)).map(|it| (it.from.x, it.width)).collect();
            for columns in side_by_side(lines) {
                let spans_columns = |it: &&&Stroke| {
                    let is_within = first.from.y - SAME < it.from.y && it.from.y < first.to.y + SAME;
                    is_within && is_same(it.from.x, columns.first) && is_same(it.to.x, columns.last)
                };
                let rows = Ruling::of(across.iter().filter(spans_columns).map(|it| (it.from.y, it.width)));
                let Some(rows) = rows else { continue };
                let reaches = is_same(rows.first, first.from.y) && is_same(rows.last, first.to.y);
                found.extend(Lattice::new(&rows, &columns).filter(|_| reaches));
            }
        }
        found.sort_by(|a, b| a.corner.y.total_cmp(&b.corner.y));
        let rows = found.chunk_by(|a, b| b.corner.y < a.bottom());
        let rows = rows.map(|it| {
            let mut row = it.to_vec();
            row.sort_by(|a, b| a.corner.x.total_cmp(&b.corner.x));
            row
        });
        rows.flatten().collect()
    }

    /// Its upper edge.
    pub(crate) fn top(&self) -> f64 {
        self.corner.y
    }

    /// Its left edge.
    pub(crate) fn left(&self) -> f64 {
        self.corner.x
    }

    /// The inside of a cell, away from its lines.
    #[cfg(test)]
    pub(crate) fn field(&self, cell: Cell) -> kurbo::Rect {
        let x = self.corner.x + self.cell * f64::from(cell.column() - 1);
        let y = self.corner.y + self.cell * f64::from(cell.row() - 1);
        kurbo::Rect::new(x, y, x + self.cell, y + self.cell).inset(-0.15 * self.cell)
    }

    fn bottom(&self) -> f64 {
        self.corner.y + self.cell * f64::from(self.size.side())
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

/// The rulings of lines of one extent: of one board, or of several side by side, whose distance is not that of their
/// lines.
fn side_by_side(mut lines: Vec<(f64, f64)>) -> Vec<Ruling> {
    lines.sort_by(|a, b| a.0.total_cmp(&b.0));
    if let Some(one) = Ruling::of(lines.iter().copied()) {
        return vec![one];
    }
    let gap = |it: &[(f64, f64)]| it[1].0 - it[0].0;
    let Some(usual) = lines.windows(2).map(gap).min_by(f64::total_cmp) else { return Vec::new() };
    let boards = lines.chunk_by(|a, b| b.0 - a.0 < usual + SAME);
    boards.filter_map(|it| Ruling::of(it.iter().copied())).collect()
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

    /// The only board among the strokes.
    fn only(strokes: &[Stroke]) -> Lattice {
        let all = Lattice::all(strokes);
        assert_eq!(all.len(), 1);
        all[0]
    }

    #[test]
    fn boards_of_all_sizes_are_found() {
        for size in (4..=16).filter_map(Size::of_side).chain(Size::new(2, 3)) {
            let mut strokes = strokes(size);
            // A rule under a heading is no board.
            strokes.push(Stroke { from: Point::new(10.0, 5.0), to: Point::new(300.0, 5.0), width: 0.8 });
            let lattice = only(&strokes);
            assert_eq!((lattice.size, lattice.cell), (size, 30.0));
        }
    }

    #[test]
    fn places_are_told_apart() {
        let lattice = only(&strokes(Size::NINE));
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
        assert_eq!(Lattice::all(&[]), []);
        assert_eq!(Lattice::all(&strokes[1..]), [], "a line is missing");
        let mut light = strokes.clone();
        light.iter_mut().for_each(|it| it.width = 0.5);
        assert_eq!(Lattice::all(&light), [], "nothing bounds the boxes");
    }

    /// Side by side, below each other, and both at once, with boards that are not quite level too.
    #[test]
    fn several_boards_are_told_apart_in_reading_order() {
        let one = strokes(Size::NINE);
        let moved = |x: f64, y: f64| {
            let away = move |it: Point| Point::new(it.x + x, it.y + y);
            one.iter().map(move |it| Stroke { from: away(it.from), to: away(it.to), width: it.width })
        };
        for level in [0.0, 12.0] {
            let four: Vec<Stroke> = moved(400.0, 350.0)
                .chain(moved(400.0, level))
                .chain(moved(0.0, 350.0 + level))
                .chain(moved(0.0, 0.0))
                .collect();
            let found: Vec<(f64, f64)> = Lattice::all(&four).iter().map(|it| (it.left(), it.top())).collect();
            let expected = [(10.0, 20.0), (410.0, 20.0 + level), (10.0, 370.0 + level), (410.0, 370.0)];
            assert_eq!(found, expected);
        }
    }
}
