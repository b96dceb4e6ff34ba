//! A board read from its drawing: lines make the board, figures lie in its cells or beside it.
//!
//! ```text
//!            10        above the frame: clues of columns
//!       ┏━━━┯━━━┳━━━
//!     6 ┃   │ 5 ┃      left of it: clues of rows; inside, in bold: givens
//! ```
//!
//! Thin and thick lines cut the frame into cells and boxes; a figure belongs to the cell, row or column
//! that its place falls into. Row and column numbers stand right of the frame and below it.

use std::collections::BTreeMap;

use grid::{Cell, Digit, Grid, House, HouseKind, Size};
use scraper::ElementRef;

use super::{Fault, all};

/// What a board holds, wherever it is said.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub(super) struct BoardContents {
    /// The digits in cells.
    pub(super) digits: BTreeMap<Cell, Digit>,
    /// The numbers beside rows and columns.
    pub(super) clues: BTreeMap<House, u16>,
}

/// A board that was read from its drawing.
pub(super) struct Drawn {
    /// The digits in its cells.
    pub(super) givens: Grid,
    /// The same with its clues.
    pub(super) contents: BoardContents,
}

impl Drawn {
    /// Reads a picture that shows givens, clues, and row and column numbers, and nothing else.
    pub(super) fn read(picture: ElementRef) -> Result<Drawn, Fault> {
        let frame = Frame::read(picture).ok_or(Fault::NoBoard)?;
        let mut contents = BoardContents::default();
        for figure in all(picture, "text") {
            let text: String = figure.text().collect();
            let place = number(figure, "x").zip(number(figure, "y"));
            place
                .and_then(|place| contents.take(&frame, place, &text, is_bold(figure)))
                .ok_or(Fault::StrayFigure(text))?;
        }
        let givens = Grid::from_fn(frame.size, |it| contents.digits.get(&it).copied());
        Ok(Drawn { givens, contents })
    }
}

impl BoardContents {
    /// Takes in a figure; none if it does not belong where it stands.
    fn take(&mut self, frame: &Frame, place: (f64, f64), text: &str, bold: bool) -> Option<()> {
        let number: u16 = text.parse().ok().filter(|it: &u16| it.to_string() == text)?;
        let (across, down) = (frame.place(place.0 - frame.left), frame.place(place.1 - frame.top));
        let clue = |kind, line| frame.size.house(kind, line);
        match (across, down) {
            (Place::Within(column), Place::Within(row)) => {
                let digit = frame.size.digit(u8::try_from(number).ok()?).filter(|_| bold)?;
                new(self.digits.insert(frame.size.cell(row, column)?, digit))
            }
            (Place::Before, Place::Within(row)) => new(self.clues.insert(clue(HouseKind::Row, row)?, number)),
            (Place::Within(column), Place::Before) => {
                new(self.clues.insert(clue(HouseKind::Column, column)?, number))
            }
            // The numbers of rows and columns count them.
            (Place::After, Place::Within(line)) | (Place::Within(line), Place::After) => {
                (number == u16::from(line)).then_some(())
            }
            _ => None,
        }
    }
}

/// Nothing, if nothing was there before.
fn new<T>(before: Option<T>) -> Option<()> {
    before.is_none().then_some(())
}

/// Where something lies along a row or down a column.
enum Place {
    /// Before the first cell.
    Before,
    /// In the cell of that number, from 1.
    Within(u8),
    /// After the last cell.
    After,
}

/// The frame of the board, and what the lines cut it into.
struct Frame {
    left: f64,
    top: f64,
    cell: f64,
    size: Size,
}

/// Coordinates are printed with two decimals.
const ROUNDING: f64 = 0.02;

impl Frame {
    /// None if the lines make no board.
    fn read(picture: ElementRef) -> Option<Frame> {
        let frame = match all(picture, "rect.line-ink")[..] {
            [only] => only,
            _ => return None,
        };
        let (left, top) = (number(frame, "x")?, number(frame, "y")?);
        let side = number(frame, "width").filter(|it| Some(*it) == number(frame, "height"))?;
        let thin = Lines::read(picture, "path.line-rule")?;
        let thick = Lines::read(picture, "path.line-ink")?;
        let n_cells = u8::try_from(thin.down.len() + thick.down.len() + 1).ok()?;
        let cell = side / f64::from(n_cells);
        let steps = |lines: &[f64], from: f64| -> Option<Vec<u8>> {
            let step = |it: &f64| whole((it - from) / cell, ROUNDING);
            lines.iter().map(step).collect()
        };
        let (box_width, columns) = boxes(steps(&thin.down, left)?, steps(&thick.down, left)?)?;
        let (box_height, rows) = boxes(steps(&thin.across, top)?, steps(&thick.across, top)?)?;
        let size = Size::new(box_width, box_height)?;
        (size.side() == n_cells && columns == n_cells && rows == n_cells).then_some(Frame {
            left,
            top,
            cell,
            size,
        })
    }

    fn place(&self, distance: f64) -> Place {
        match distance / self.cell {
            it if it < 0.0 => Place::Before,
            it if it < f64::from(self.size.side()) => Place::Within(it as u8 + 1),
            _ => Place::After,
        }
    }
}

/// How many cells lie between thick lines, and how many in all; none if the lines do not cut evenly.
fn boxes(thin: Vec<u8>, thick: Vec<u8>) -> Option<(u8, u8)> {
    let first = *thick.iter().min()?;
    let n_cells = u8::try_from(thin.len() + thick.len() + 1).ok()?;
    let mut all: Vec<u8> = thin.iter().chain(&thick).copied().collect();
    all.sort_unstable();
    let is_even = all.into_iter().eq(1..n_cells);
    (is_even && first > 0 && (1..n_cells).all(|it| thick.contains(&it) == it.is_multiple_of(first)))
        .then_some((first, n_cells))
}

/// Where the straight lines of some paths lie.
#[derive(Default)]
struct Lines {
    /// Lines down, by their distance from the left.
    down: Vec<f64>,
    /// Lines across, by their distance from the top.
    across: Vec<f64>,
}

impl Lines {
    /// None if a path has anything but straight lines down (`M10 6V402`) and across (`M10 6H402`).
    fn read(picture: ElementRef, selector: &str) -> Option<Lines> {
        let mut lines = Lines::default();
        for path in all(picture, selector) {
            for stretch in path.attr("d")?.split('M').skip(1) {
                let (from, to) = stretch.split_once(['V', 'H'])?;
                let (x, y) = from.split_once(' ')?;
                let _end: f64 = to.parse().ok()?;
                match stretch.contains('V') {
                    true => lines.down.push(x.parse().ok()?),
                    false => lines.across.push(y.parse().ok()?),
                }
            }
        }
        Some(lines)
    }
}

/// The whole number that this is, but for so much.
fn whole(it: f64, tolerance: f64) -> Option<u8> {
    ((it - it.round()).abs() <= tolerance && (0.0..256.0).contains(&it.round())).then(|| it.round() as u8)
}

fn number(element: ElementRef, attribute: &str) -> Option<f64> {
    element.attr(attribute)?.parse().ok().filter(|it: &f64| it.is_finite())
}

/// Whether the figure is in bold, as givens are.
fn is_bold(figure: ElementRef) -> bool {
    let weight = |it: ElementRef| it.attr("font-weight").map(|it| it == "700");
    std::iter::once(figure)
        .chain(figure.ancestors().filter_map(ElementRef::wrap))
        .find_map(weight)
        .unwrap_or(false)
}
