//! Some boards beside a few words.

use draw::{Board, Marks, Scale};
use resvg::tiny_skia::{Pixmap, Transform};
use rulebook::Puzzle;

use crate::render::read;
use crate::words::{Words, drawn, paper};

/// Paper that is left free at each side, of a sheet [`HEIGHT`] high, in pixels.
const MARGIN: f32 = 35.0;

/// Between boards, and between boards and words.
const GAP: f32 = 50.0;

/// The height by which all else is measured.
const HEIGHT: f32 = 630.0;

/// Width and height of a sheet in pixels, wider than high.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Frame {
    /// The width.
    pub width: u16,
    /// The height.
    pub height: u16,
}

impl Frame {
    /// The shape that link previews are commonly cut to (common practice, no source).
    pub const PREVIEW: Frame = Frame { width: 1_200, height: 630 };

    /// The shape of a recording's cover (common practice, no source).
    pub const COVER: Frame = Frame { width: 1_280, height: 720 };
}

/// Bare boards, one or four of them, and the words to their right. None only if the drawing library refuses a drawing of
/// ours.
pub fn sheet(puzzles: &[&Puzzle], words: &Words, frame: Frame) -> Option<Vec<u8>> {
    let (width, height) = (f32::from(frame.width), f32::from(frame.height));
    let unit = height / HEIGHT;
    let (margin, gap) = (MARGIN * unit, GAP * unit);
    let boards = height - 2.0 * margin;
    let mut picture = Pixmap::new(u32::from(frame.width), u32::from(frame.height))?;
    resvg::render(&read(&paper(frame))?, Transform::identity(), &mut picture.as_mut());
    let n_across: u8 = if puzzles.len() > 1 { 2 } else { 1 };
    let side = (boards - gap * f32::from(n_across - 1)) / f32::from(n_across);
    for (place, puzzle) in (0..).zip(puzzles) {
        let tree = read(&bare_board(puzzle))?;
        let at = |it: u8| margin + f32::from(it) * (side + gap);
        let (left, top) = (at(place % n_across), at(place / n_across));
        let (wide, high) = (tree.size().width(), tree.size().height());
        let scale = (side / wide).min(side / high);
        let (left, top) = (left + (side - scale * wide) / 2.0, top + (side - scale * high) / 2.0);
        let placed = Transform::from_scale(scale, scale).post_translate(left, top);
        resvg::render(&tree, placed, &mut picture.as_mut());
    }
    let tree = read(&drawn(words, frame))?;
    // How wide words are is known once they are set: what would be cut off is made smaller.
    let words = tree.root().abs_bounding_box();
    let left = margin + boards + gap;
    let scale = ((width - margin - left) / words.width()).min(boards / words.height()).min(unit);
    let top = (height - scale * words.height()) / 2.0;
    let placed = Transform::from_translate(-words.left(), -words.top()).post_scale(scale, scale);
    resvg::render(&tree, placed.post_translate(left, top), &mut picture.as_mut());
    picture.encode_png().ok()
}

fn bare_board(puzzle: &Puzzle) -> String {
    let (digits, marks) = (puzzle.givens(), Marks::default());
    draw::board(&Board { puzzle, digits, marks: &marks, title: "", scale: Scale::Large, coordinates: false })
}
