//! Pictures for link previews: the bare board on paper, 1200 by 630 pixels, as PNG.
//!
//! The drawing carries the colours of light paper in its attributes, which is all that is read of it.
//!
//! There are no words on them: whoever shows a preview sets the page's title beside it.

use std::sync::{Arc, LazyLock};

use draw::{Board, Marks, Scale};
use pack::PuzzleId;
use resvg::tiny_skia::{Color, Pixmap, Transform};
use resvg::usvg::{Options, Tree, fontdb::Database};
use rulebook::Puzzle;

/// Width and height in pixels; the shape that link previews are commonly cut to (common practice, no source).
const SIZE: (u32, u32) = (1200, 630);

/// Paper that is left free above and below the board, in pixels.
const MARGIN: f32 = 35.0;

/// The paper of the boards.
const PAPER: [u8; 3] = [0xfc, 0xfa, 0xf5];

/// The font of the figures; it comes with the program.
const FACE: &str = "Libertinus Serif";

/// Where a puzzle's picture is.
pub(crate) fn path(id: &PuzzleId) -> String {
    format!("previews/{id}.png")
}

/// The picture; none only if the drawing library refuses a drawing of ours.
pub(crate) fn preview(puzzle: &Puzzle) -> Option<Vec<u8>> {
    let (digits, marks) = (puzzle.givens(), Marks::default());
    let board = Board { puzzle, digits, marks: &marks, title: "", scale: Scale::Large, coordinates: false };
    let tree = Tree::from_str(&draw::board(&board), &options()).ok()?;
    let mut picture = Pixmap::new(SIZE.0, SIZE.1)?;
    let [red, green, blue] = PAPER;
    picture.fill(Color::from_rgba8(red, green, blue, 255));
    let scale = (SIZE.1 as f32 - 2.0 * MARGIN) / tree.size().height();
    let left = (SIZE.0 as f32 - scale * tree.size().width()) / 2.0;
    let place = Transform::from_scale(scale, scale).post_translate(left, MARGIN);
    resvg::render(&tree, place, &mut picture.as_mut());
    picture.encode_png().ok()
}

fn options() -> Options<'static> {
    static FONTS: LazyLock<Arc<Database>> = LazyLock::new(|| {
        let mut fonts = Database::new();
        typst_assets::fonts().for_each(|it| fonts.load_font_data(it.to_vec()));
        fonts.set_serif_family(FACE);
        Arc::new(fonts)
    });
    Options { fontdb: Arc::clone(&FONTS), font_family: FACE.to_owned(), ..Options::default() }
}
