//! A board with its clues and marks.

use grid::{Cell, DigitSet, Grid, House, HouseKind};
use rulebook::Puzzle;

use crate::candidates::candidates;
use crate::clues::Clues;
use crate::describe::describe;
use crate::ink::Tone;
use crate::marks::Marks;
use crate::pointing::{looked_at, outlines};
use crate::rules::pictures;
use crate::sheet::{Layout, Pen, Scale, Sheet, Square};
use crate::svg::{figure, group, path, picture, rect, stretch, type_of};

/// What a picture of a board shows.
#[derive(Clone, Copy, Debug)]
pub struct Board<'a> {
    /// The puzzle: its givens and clues are drawn in ink.
    pub puzzle: &'a Puzzle,
    /// The digits known beside the givens, drawn in blue pencil. It may hold the givens too; it is
    /// left out if it is of another size than the puzzle.
    pub digits: &'a Grid,
    /// What is marked. Cells, digits and houses that the board does not have are left out.
    pub marks: &'a Marks,
    /// The picture's accessible name; if it is blank, the size of the board.
    pub title: &'a str,
    /// How large it is.
    pub scale: Scale,
    /// Whether rows are numbered at the right and columns below, for readers of `r4c7`.
    pub coordinates: bool,
}

/// Draws a board as an SVG element.
///
/// A row's clue stands left of it and a column's above it. Where a cell has a digit, its candidates
/// are left out.
pub fn board(board: &Board) -> String {
    let drawing = Drawing::new(board);
    let clues = Clues::new(board.puzzle, &drawing.sheet.pen);
    let layers = [
        drawing.conclusions(),
        drawing.rule_marks(),
        drawing.lines(),
        drawing.pointed_at(),
        drawing.givens(),
        drawing.written(),
        drawing.candidates(),
        clues.draw(&drawing.sheet, board.marks),
        drawing.coordinates(),
    ];
    let size = board.puzzle.size();
    let title = if board.title.trim().is_empty() { size.to_string() } else { board.title.to_owned() };
    let description = describe(board.puzzle, &drawing.digits, board.marks);
    let class = match board.scale {
        Scale::Large => "galley-board galley-large",
        Scale::Small => "galley-board galley-small",
    };
    picture(class, drawing.sheet.paper, &title, &description, &layers.concat())
}

/// What the marks of a few steps point at, to be laid over a picture of the same board that shows the page alone.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Pointing {
    /// What lies right on the paper: filled cells.
    pub below: String,
    /// What lies over everything: outlines, bars and brackets, and small digits.
    pub above: String,
}

/// The part of [`board`] that goes with the steps, and not with what is known by then (digits, crusts, filling cells,
/// spent clues), which a page writes in itself.
pub fn pointing(board: &Board) -> Pointing {
    let drawing = Drawing::new(board);
    let clues = Clues::new(board.puzzle, &drawing.sheet.pen);
    let above = [drawing.pointed_at(), drawing.candidates(), clues.outlines(&drawing.sheet, board.marks)];
    Pointing { below: drawing.conclusions(), above: above.concat() }
}

/// Where the board of such a picture lies, for those who lay something over it.
pub fn layout(puzzle: &Puzzle, scale: Scale, coordinates: bool) -> Layout {
    let pen = Pen::new(scale, puzzle.size());
    let room = Clues::new(puzzle, &pen).room();
    let sheet = Sheet::new(puzzle.size(), pen, room, coordinates);
    Layout { paper: sheet.paper, corner: (sheet.board.x, sheet.board.y), side: sheet.board.side }
}

/// The givens and what else is known.
fn known_digits(board: &Board) -> Grid {
    let size = board.puzzle.size();
    let beside = (board.digits.size() == size).then_some(board.digits);
    Grid::from_fn(size, |it| board.puzzle.givens().get(it).or_else(|| beside?.get(it)))
}

/// A board while it is drawn: each method is a layer.
struct Drawing<'a> {
    board: &'a Board<'a>,
    sheet: Sheet,
    digits: Grid,
}

impl<'a> Drawing<'a> {
    fn new(board: &'a Board<'a>) -> Drawing<'a> {
        let pen = Pen::new(board.scale, board.puzzle.size());
        let room = Clues::new(board.puzzle, &pen).room();
        let sheet = Sheet::new(board.puzzle.size(), pen, room, board.coordinates);
        Drawing { sheet, digits: known_digits(board), board }
    }

    fn pointed_at(&self) -> String {
        let (sheet, marks) = (&self.sheet, self.board.marks);
        [
            // Filled cells have a border too, because their ground alone is too faint for some eyes and printers.
            outlines(sheet, &marks.conclusions, sheet.pen.stroke),
            outlines(sheet, &marks.premises, sheet.pen.bold),
            looked_at(sheet, &marks.looked_at),
        ]
        .concat()
    }

    fn conclusions(&self) -> String {
        let cells = self.sheet.size.cells().filter(|it| self.board.marks.conclusions.contains(*it));
        let squares = cells.map(|it| self.sheet.square(it));
        let filled = squares.map(|it| rect("", (it.x, it.y), (it.side, it.side)));
        group(&Tone::Tint.fill(), &filled.collect::<String>())
    }

    fn rule_marks(&self) -> String {
        let (marks, pen) = (self.board.marks, &self.sheet.pen);
        pictures()
            .flat_map(|picture| self.sheet.size.cells().map(move |cell| (picture, cell)))
            .map(|(picture, cell)| {
                let (remain, removed) = self.small_digits(cell);
                let busy = self.digits.get(cell).is_some() || !(remain | removed).is_empty();
                picture.cell_marks(marks, cell, self.sheet.square(cell), pen, busy)
            })
            .collect()
    }

    fn lines(&self) -> String {
        let Square { x, y, .. } = self.sheet.board;
        let (right, bottom) = (self.sheet.board.right(), self.sheet.board.bottom());
        let (size, pen) = (self.sheet.size, &self.sheet.pen);
        let (mut thin, mut thick) = (String::new(), String::new());
        for at in 1..size.side() {
            let from_start = pen.cell * f64::from(at);
            let down = if at.is_multiple_of(size.box_width()) { &mut thick } else { &mut thin };
            *down += &stretch((x + from_start, y), (x + from_start, bottom));
            let across = if at.is_multiple_of(size.box_height()) { &mut thick } else { &mut thin };
            *across += &stretch((x, y + from_start), (right, y + from_start));
        }
        let frame = rect(&Tone::Ink.line(pen.thick), (x, y), (self.sheet.board.side, self.sheet.board.side));
        path(&Tone::Rule.line(pen.thin), &thin) + &path(&Tone::Ink.line(pen.thick), &thick) + &frame
    }

    fn givens(&self) -> String {
        let type_of = type_of(Tone::Ink, self.sheet.pen.digit, "middle");
        group(&format!("{type_of} font-weight=\"700\""), &self.figures(true))
    }

    fn written(&self) -> String {
        group(&type_of(Tone::Pencil, self.sheet.pen.digit, "middle"), &self.figures(false))
    }

    /// The digits that are given, or those that are not.
    fn figures(&self, given: bool) -> String {
        let digits = self.digits.filled().filter(|(cell, _)| self.board.puzzle.is_given(*cell) == given);
        digits
            .map(|(cell, digit)| figure(self.sheet.square(cell).middle(), self.sheet.pen.digit, digit))
            .collect()
    }

    fn candidates(&self) -> String {
        let marks = self.board.marks;
        let cells = self.sheet.size.cells().filter(|it| self.digits.get(*it).is_none());
        cells
            .map(|cell| {
                let (remain, removed) = self.small_digits(cell);
                let ringed = marks.filling.contains(cell);
                candidates(self.sheet.square(cell), &self.sheet.pen, remain, removed, ringed)
            })
            .collect()
    }

    /// The candidates that remain in a cell, and the removed ones.
    fn small_digits(&self, cell: Cell) -> (DigitSet, DigitSet) {
        let marked =
            |digits: Option<&DigitSet>| digits.copied().unwrap_or_default() & self.sheet.size.digits();
        (marked(self.board.marks.pencilled.get(&cell)), marked(self.board.marks.removed.get(&cell)))
    }

    fn coordinates(&self) -> String {
        if !self.board.coordinates {
            return String::new();
        }
        let sheet = &self.sheet;
        let place = |line: House| match line.kind() {
            HouseKind::Column => (sheet.middle_of(line), sheet.board.bottom() + sheet.label_offset()),
            HouseKind::Row | HouseKind::Box => {
                (sheet.board.right() + sheet.label_offset(), sheet.middle_of(line))
            }
        };
        let numbers = sheet.size.lines().map(|it| figure(place(it), sheet.pen.label, it.number()));
        group(&type_of(Tone::Grey, sheet.pen.label, "middle"), &numbers.collect::<String>())
    }
}
