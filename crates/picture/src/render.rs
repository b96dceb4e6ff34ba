//! One drawing as pixels.

use std::sync::{Arc, LazyLock};

use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::fontdb::{Database, Source};
use resvg::usvg::{Options, Tree};

/// The font of words and figures; it comes with the program.
const FACE: &str = "Libertinus Serif";

/// The most pixels on a side: four times the width of a film in 4K.
pub const MOST_PIXELS: u32 = 15_360;

/// The drawing as PNG, so many pixels wide and as high as its shape asks for. None if it is no drawing, or would be
/// nothing or more than [`MOST_PIXELS`] on a side.
pub fn png(svg: &str, width: u32) -> Option<Vec<u8>> {
    pixels(svg, width)?.encode_png().ok()
}

/// The drawing on white paper, as pixels.
pub(crate) fn pixels(svg: &str, width: u32) -> Option<Pixmap> {
    let tree = read(svg)?;
    let size = tree.size();
    let scale = width as f32 / size.width();
    let height = (size.height() * scale).round() as u32;
    if !(1..=MOST_PIXELS).contains(&width) || !(1..=MOST_PIXELS).contains(&height) {
        return None;
    }
    let mut picture = Pixmap::new(width, height)?;
    picture.fill(resvg::tiny_skia::Color::WHITE);
    resvg::render(&tree, Transform::from_scale(scale, scale), &mut picture.as_mut());
    Some(picture)
}

/// What the drawing library makes of a drawing.
pub(crate) fn read(drawing: &str) -> Option<Tree> {
    static FONTS: LazyLock<Arc<Database>> = LazyLock::new(|| {
        let mut fonts = Database::new();
        typst_assets::fonts().for_each(|it| _ = fonts.load_font_source(Source::Binary(Arc::new(it))));
        fonts.set_serif_family(FACE);
        Arc::new(fonts)
    });
    let options = Options { fontdb: Arc::clone(&FONTS), font_family: FACE.to_owned(), ..Options::default() };
    Tree::from_str(drawing, &options).ok()
}
