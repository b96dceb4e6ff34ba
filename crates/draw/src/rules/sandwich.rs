//! How the sandwich rule looks: sums left of rows and above columns, crusts hatched, filling ringed.
//!
//! ```text
//! 12 │ ◦ ◦ ╱ 3 4 5 ╱ ◦ ◦
//! ```

use grid::{Cell, HouseKind};
use rulebook::{Clue, Rule};

use super::{Edge, Picture};
use crate::Marks;
use crate::ink::Tone;
use crate::sheet::{Pen, Square};
use crate::svg::{Num, path, stretch};

/// The picture of the sandwich rule.
pub(crate) static SANDWICH: SandwichPicture = SandwichPicture;

/// The type of [`SANDWICH`].
pub(crate) struct SandwichPicture;

impl Picture for SandwichPicture {
    fn rule(&self) -> &'static dyn Rule {
        &rulebook::SANDWICH
    }

    fn edge(&self, line: HouseKind) -> Edge {
        match line {
            HouseKind::Column => Edge::Above,
            HouseKind::Row | HouseKind::Box => Edge::Left,
        }
    }

    fn figure(&self, clue: &Clue) -> String {
        clue.value.to_string()
    }

    fn cell_marks(&self, marks: &Marks, cell: Cell, square: Square, pen: &Pen, busy: bool) -> String {
        let mut out = String::new();
        if marks.crusts.contains(cell) {
            out += &hatching(square, pen, busy);
        }
        if marks.filling.contains(cell) {
            out += &ring(square, pen, busy);
        }
        out
    }
}

/// A crust: lines rising to the right, which run on from cell to cell. In a busy cell they keep to
/// its corners.
pub(crate) fn hatching(square: Square, pen: &Pen, busy: bool) -> String {
    let inset = pen.thin;
    let (left, right) = (square.x + inset, square.right() - inset);
    let (top, bottom) = (square.y + inset, square.bottom() - inset);
    let (low, high) = (square.x + square.y, square.right() + square.bottom());
    // The lines are those where x + y is a multiple of the distance; the band around the falling
    // diagonal's middle is where figures stand.
    let kept = |sum: f64| !busy || (sum - (low + high) / 2.0).abs() > square.side * 0.55;
    let first = (low / pen.hatch).ceil() as i64;
    let last = (high / pen.hatch).floor() as i64;
    let lines = (first..=last)
        .map(|it| it as f64 * pen.hatch)
        .filter(|sum| kept(*sum))
        .map(|sum| ((left.max(sum - bottom), right.min(sum - top)), sum))
        .filter(|((from, to), _)| to - from > pen.stroke)
        .map(|((from, to), sum)| stretch((from, sum - from), (to, sum - to)));
    path(&Tone::Blue.line(pen.stroke), &lines.collect::<String>())
}

/// A filling cell: a small ring in the middle, or in the upper right corner of a busy cell.
pub(crate) fn ring(square: Square, pen: &Pen, busy: bool) -> String {
    let (middle_x, middle_y) = square.middle();
    let (x, y, radius) = match busy {
        false => (middle_x, middle_y, square.side * 0.13),
        true => (square.x + square.side * 0.86, square.y + square.side * 0.14, square.side * 0.075),
    };
    let (x, y, radius) = (Num(x), Num(y), Num(radius));
    format!("<circle {} cx=\"{x}\" cy=\"{y}\" r=\"{radius}\"/>", Tone::Grey.line(pen.stroke))
}
