//! Where everything lies: the measures of a board at its two scales, and the squares of its cells.

use grid::{Cell, House, HouseKind, Size};

/// How large a board is drawn, in CSS pixels a cell at its own size.
///
/// A picture shrinks with its page; the scale decides how bold its lines and figures are for their
/// cells.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Scale {
    /// 44 pixels a cell: a board to solve on, about 450 pixels wide at 9x9.
    Large,
    /// 24 pixels a cell: a board in the margin, about 255 pixels wide at 9x9.
    Small,
}

/// The measures that follow from the scale and the size of the board.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Pen {
    /// Side of a cell.
    pub(crate) cell: f64,
    /// Type size of the digits in cells.
    pub(crate) digit: f64,
    /// Type size of clues of one or two figures.
    pub(crate) clue: f64,
    /// Type size of row and column numbers.
    pub(crate) label: f64,
    /// Width of lines between cells.
    pub(crate) thin: f64,
    /// Width of lines around boxes.
    pub(crate) thick: f64,
    /// Width of pencil strokes: hatching, rings, strikes.
    pub(crate) stroke: f64,
    /// Width of outlines and bars.
    pub(crate) bold: f64,
    /// Distance between hatching lines, measured along the edge of a cell.
    pub(crate) hatch: f64,
    /// Distance between things that must not touch.
    pub(crate) gap: f64,
    /// Whether digits of two figures occur.
    pub(crate) wide_digits: bool,
}

impl Pen {
    /// The measures for a board of that size.
    pub(crate) fn new(scale: Scale, size: Size) -> Pen {
        let wide_digits = size.side() > 9;
        // All digits of a board have one type size, so that none looks more important.
        let narrow = if wide_digits { 0.82 } else { 1.0 };
        match scale {
            Scale::Large => Pen {
                cell: 44.0,
                digit: 29.0 * narrow,
                clue: 19.0,
                label: 14.0,
                thin: 1.0,
                thick: 2.5,
                stroke: 1.4,
                bold: 2.5,
                hatch: 8.8,
                gap: 6.0,
                wide_digits,
            },
            Scale::Small => Pen {
                cell: 24.0,
                digit: 17.0 * narrow,
                clue: 13.0,
                label: 9.5,
                thin: 0.75,
                thick: 1.75,
                stroke: 1.1,
                bold: 1.75,
                hatch: 6.0,
                gap: 3.5,
                wide_digits,
            },
        }
    }
}

/// A square on the page.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Square {
    /// Left edge.
    pub(crate) x: f64,
    /// Upper edge.
    pub(crate) y: f64,
    /// Width and height.
    pub(crate) side: f64,
}

impl Square {
    /// Its middle.
    pub(crate) fn middle(self) -> (f64, f64) {
        (self.x + self.side / 2.0, self.y + self.side / 2.0)
    }

    /// Its right edge.
    pub(crate) fn right(self) -> f64 {
        self.x + self.side
    }

    /// Its lower edge.
    pub(crate) fn bottom(self) -> f64 {
        self.y + self.side
    }
}

/// Where a board lies within its picture, in the picture's own units.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Layout {
    /// Width and height of the picture.
    pub paper: (f64, f64),
    /// Left and upper edge of the board's frame.
    pub corner: (f64, f64),
    /// Width and height of the frame.
    pub side: f64,
}

/// A board laid out on its paper.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Sheet {
    /// The size of the board.
    pub(crate) size: Size,
    /// The measures.
    pub(crate) pen: Pen,
    /// The board without what stands beside it.
    pub(crate) board: Square,
    /// Width and height of the paper.
    pub(crate) paper: (f64, f64),
}

impl Sheet {
    /// Lays out a board that needs `left` and `above` for its clues, and room for row and column
    /// numbers if it has `coordinates`.
    pub(crate) fn new(size: Size, pen: Pen, (left, above): (f64, f64), coordinates: bool) -> Sheet {
        let side = pen.cell * f64::from(size.side());
        let edge = pen.gap + pen.bold + pen.gap / 2.0;
        let after = if coordinates { edge + pen.label * 1.4 } else { edge };
        let board = Square { x: pen.gap + left, y: pen.gap + above, side };
        Sheet { size, pen, board, paper: (board.right() + after, board.bottom() + after) }
    }

    /// The square of a cell.
    pub(crate) fn square(&self, cell: Cell) -> Square {
        let side = self.pen.cell;
        Square {
            x: self.board.x + side * f64::from(cell.column() - 1),
            y: self.board.y + side * f64::from(cell.row() - 1),
            side,
        }
    }

    /// The middle of a row or column along the edge it starts from; for a box, of its first row.
    pub(crate) fn middle_of(&self, line: House) -> f64 {
        let start = match line.kind() {
            HouseKind::Column => self.board.x,
            HouseKind::Row | HouseKind::Box => self.board.y,
        };
        start + self.pen.cell * (line.index() as f64 + 0.5)
    }

    /// How far right of or below the board the middle of a row or column number lies.
    pub(crate) fn label_offset(&self) -> f64 {
        self.pen.gap + self.pen.bold + self.pen.label * 0.75
    }
}
