//! The clues beside the board, in bands: one a rule and edge, from the board outwards.

use rulebook::{Clue, ClueId, Puzzle};

use crate::Marks;
use crate::ink::Tone;
use crate::rules::{Edge, Picture, pictures};
use crate::sheet::{Pen, Sheet};
use crate::svg::{FIGURE_WIDTH, Num, escape, figure, group, path, stretch, type_of};

/// The clues of one rule at one edge.
struct Band {
    edge: Edge,
    /// Type size of its figures.
    size: f64,
    /// Distance from the board to the band.
    offset: f64,
    /// Extent away from the board.
    depth: f64,
    /// Each clue with what is printed for it.
    clues: Vec<(ClueId, Clue, String)>,
}

/// The clues of a puzzle, laid out.
pub(crate) struct Clues(Vec<Band>);

impl Clues {
    /// Lays out the clues of a puzzle.
    pub(crate) fn new(puzzle: &Puzzle, pen: &Pen) -> Clues {
        let mut bands: Vec<Band> = Vec::new();
        for (picture, edge) in pictures().flat_map(|it| [Edge::Left, Edge::Above].map(|edge| (it, edge))) {
            let offset = bands.iter().filter(|it| it.edge == edge).map(|it| it.depth).sum();
            bands.extend(band(puzzle, picture, edge, pen, offset));
        }
        Clues(bands)
    }

    /// The room the clues take: left of the board and above it.
    pub(crate) fn room(&self) -> (f64, f64) {
        let room = |edge| self.0.iter().filter(|it| it.edge == edge).map(|it| it.depth).sum();
        (room(Edge::Left), room(Edge::Above))
    }

    /// The outlines of the used ones alone.
    pub(crate) fn outlines(&self, sheet: &Sheet, marks: &Marks) -> String {
        self.0.iter().map(|it| it.outlines(sheet, marks)).collect()
    }

    /// Draws them; used ones outlined, spent ones grey and struck.
    pub(crate) fn draw(&self, sheet: &Sheet, marks: &Marks) -> String {
        self.0.iter().map(|it| it.draw(sheet, marks)).collect()
    }
}

/// The clues of that rule at that edge; none if there are no such clues.
fn band(puzzle: &Puzzle, picture: &dyn Picture, edge: Edge, pen: &Pen, offset: f64) -> Option<Band> {
    let clues: Vec<(ClueId, Clue, String)> = puzzle
        .clue_ids()
        .filter(|(_, it)| it.rule.id() == picture.rule().id() && picture.edge(it.line.kind()) == edge)
        .map(|(id, it)| (id, *it, picture.figure(it)))
        .collect();
    let longest = clues.iter().map(|(_, _, text)| text.chars().count()).max()?.max(2);
    // Three figures or more have to stay within a column of cells, beside their neighbours.
    let size = pen.clue.min((pen.cell - pen.gap) / (FIGURE_WIDTH * longest as f64));
    let depth = match edge {
        Edge::Left => size * FIGURE_WIDTH * longest as f64 + 2.0 * pen.gap,
        Edge::Above => size * 0.72 + 2.5 * pen.gap,
    };
    Some(Band { edge, size, offset, depth, clues })
}

impl Band {
    fn draw(&self, sheet: &Sheet, marks: &Marks) -> String {
        let (mut open, mut spent, mut strikes) = (String::new(), String::new(), String::new());
        for (id, clue, text) in &self.clues {
            let (anchor, y) = self.anchor(sheet, clue);
            let (middle, half) = self.middle(sheet, clue, text);
            let is_spent = marks.spent.contains(id);
            let texts = if is_spent { &mut spent } else { &mut open };
            *texts += &figure((anchor, y), self.size, escape(text));
            if is_spent {
                let reach = half + self.size * 0.12;
                strikes += &stretch((middle - reach, y), (middle + reach, y));
            }
        }
        let anchor = if self.edge == Edge::Left { "end" } else { "middle" };
        let mut out = self.outlines(sheet, marks);
        for (tone, texts) in [(Tone::Ink, open), (Tone::Grey, spent)] {
            out += &group(&type_of(tone, self.size, anchor), &texts);
        }
        out + &path(&Tone::Pencil.line(sheet.pen.stroke * 0.8), &strikes)
    }

    fn outlines(&self, sheet: &Sheet, marks: &Marks) -> String {
        let used = self.clues.iter().filter(|it| marks.clues_used.contains(&it.0));
        let outlines: String = used
            .map(|(_, clue, text)| {
                let (middle, half) = self.middle(sheet, clue, text);
                self.outline(sheet, (middle, self.anchor(sheet, clue).1), half)
            })
            .collect();
        group(&Tone::Blue.line(sheet.pen.bold * 0.8), &outlines)
    }

    /// Where the middle of a clue's figures lies along its edge's reading, and about half of how wide they are.
    fn middle(&self, sheet: &Sheet, clue: &Clue, text: &str) -> (f64, f64) {
        let (anchor, half) = (self.anchor(sheet, clue).0, self.half_width(text));
        (if self.edge == Edge::Left { anchor - half } else { anchor }, half)
    }

    /// About half of how wide the text is.
    fn half_width(&self, text: &str) -> f64 {
        text.chars().count() as f64 * self.size * FIGURE_WIDTH / 2.0
    }

    /// Where a clue is anchored, at half its height: clues beside rows end on one line, as in a
    /// table; clues above columns stand over the middle of their column.
    fn anchor(&self, sheet: &Sheet, clue: &Clue) -> (f64, f64) {
        let along = sheet.middle_of(clue.line);
        match self.edge {
            Edge::Left => (sheet.board.x - self.offset - sheet.pen.gap * 1.5, along),
            Edge::Above => (along, sheet.board.y - self.offset - sheet.pen.gap * 1.5 - self.size * 0.36),
        }
    }

    fn outline(&self, sheet: &Sheet, (x, y): (f64, f64), half_width: f64) -> String {
        let room = sheet.pen.gap * 0.75;
        let (width, height) = (2.0 * (half_width + room), self.size * 0.72 + 2.0 * room);
        let (left, top, radius) = (Num(x - width / 2.0), Num(y - height / 2.0), Num(height / 3.0));
        let (width, height) = (Num(width), Num(height));
        format!("<rect x=\"{left}\" y=\"{top}\" width=\"{width}\" height=\"{height}\" rx=\"{radius}\"/>")
    }
}
