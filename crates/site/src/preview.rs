//! Pictures for link previews, 1200 by 630 pixels, as PNG: a puzzle's bare board beside its title and setter, and the first
//! boards of the pack beside its title.
//!
//! A drawing carries the colours of light paper in its attributes, which is all that is read of it here.
//!
//! Left out: letters that the fonts do not have. The page says title and setter in text besides.

use std::sync::{Arc, LazyLock};

use draw::{Board, Marks, Scale};
use pack::PuzzleId;
use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::fontdb::{Database, Source};
use resvg::usvg::{Options, Tree};
use rulebook::Puzzle;

use crate::contents::Contents;
use crate::frame::{bare_pack_title, is_untitled};
use crate::preview::caption::{Caption, caption};
use crate::words;
use page::bare;
use study::Published;

mod caption;

/// Width and height in pixels; the shape that link previews are commonly cut to (common practice, no source).
pub(crate) const SIZE: (u16, u16) = (1200, 630);

/// Paper that is left free at each side, in pixels.
const MARGIN: f32 = 35.0;

/// The side of the square in which boards stand.
const BOARDS: f32 = SIZE.1 as f32 - 2.0 * MARGIN;

/// Between boards, and between boards and words.
const GAP: f32 = 50.0;

/// The font of words and figures; it comes with the program.
const FACE: &str = "Libertinus Serif";

/// Where the pack's picture is.
pub(crate) const PACK_PATH: &str = "preview.png";

/// Where a puzzle's picture is.
pub(crate) fn path(id: &PuzzleId) -> String {
    format!("previews/{id}.png")
}

/// The picture of a puzzle; none only if the drawing library refuses a drawing of ours.
pub(crate) fn of_puzzle(contents: &Contents, it: &Published) -> Option<Vec<u8>> {
    let entry = it.study.entry();
    let caption = Caption {
        above: format!("Puzzle {}", it.number),
        title: bare(&entry.title),
        by: format!("Set by {}", bare(&entry.setter)),
        below: bare_pack_title(contents.info),
    };
    picture(&[&entry.puzzle], &caption)
}

/// The picture of the pack, with its first boards, four at most.
pub(crate) fn of_pack(contents: &Contents) -> Option<Vec<u8>> {
    let info = contents.info;
    let n_shown = if contents.published.len() < 4 { 1 } else { 4 };
    let shown: Vec<&Puzzle> =
        contents.published.iter().take(n_shown).map(|it| &it.study.entry().puzzle).collect();
    let editor = bare(&info.editor);
    let caption = Caption {
        above: if is_untitled(info) { String::new() } else { words::KIND.to_owned() },
        title: bare_pack_title(info),
        by: if editor.trim().is_empty() { String::new() } else { format!("Edited by {editor}") },
        below: words::n_puzzles(contents.published.len()),
    };
    picture(&shown, &caption)
}

/// One board or four of them, and the words to their right.
fn picture(puzzles: &[&Puzzle], words: &Caption) -> Option<Vec<u8>> {
    let (width, height) = (f32::from(SIZE.0), f32::from(SIZE.1));
    let mut picture = Pixmap::new(u32::from(SIZE.0), u32::from(SIZE.1))?;
    resvg::render(&read(&caption::paper())?, Transform::identity(), &mut picture.as_mut());
    let n_across: u8 = if puzzles.len() > 1 { 2 } else { 1 };
    let side = (BOARDS - GAP * f32::from(n_across - 1)) / f32::from(n_across);
    for (place, puzzle) in (0..).zip(puzzles) {
        let tree = read(&bare_board(puzzle))?;
        let at = |it: u8| MARGIN + f32::from(it) * (side + GAP);
        let (left, top) = (at(place % n_across), at(place / n_across));
        let (wide, high) = (tree.size().width(), tree.size().height());
        let scale = (side / wide).min(side / high);
        let (left, top) = (left + (side - scale * wide) / 2.0, top + (side - scale * high) / 2.0);
        let placed = Transform::from_scale(scale, scale).post_translate(left, top);
        resvg::render(&tree, placed, &mut picture.as_mut());
    }
    let tree = read(&caption(words))?;
    // How wide words are is known once they are set: what would be cut off is made smaller.
    let words = tree.root().abs_bounding_box();
    let left = MARGIN + BOARDS + GAP;
    let scale = ((width - MARGIN - left) / words.width()).min(BOARDS / words.height()).min(1.0);
    let top = (height - scale * words.height()) / 2.0;
    let placed = Transform::from_translate(-words.left(), -words.top()).post_scale(scale, scale);
    resvg::render(&tree, placed.post_translate(left, top), &mut picture.as_mut());
    picture.encode_png().ok()
}

fn bare_board(puzzle: &Puzzle) -> String {
    let (digits, marks) = (puzzle.givens(), Marks::default());
    draw::board(&Board { puzzle, digits, marks: &marks, title: "", scale: Scale::Large, coordinates: false })
}

fn read(drawing: &str) -> Option<Tree> {
    static FONTS: LazyLock<Arc<Database>> = LazyLock::new(|| {
        let mut fonts = Database::new();
        typst_assets::fonts().for_each(|it| _ = fonts.load_font_source(Source::Binary(Arc::new(it))));
        fonts.set_serif_family(FACE);
        Arc::new(fonts)
    });
    let options = Options { fontdb: Arc::clone(&FONTS), font_family: FACE.to_owned(), ..Options::default() };
    Tree::from_str(drawing, &options).ok()
}
