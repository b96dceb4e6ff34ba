//! The faces that documents are set in. They come with the program, never from the machine, so that the
//! same pack gives the same bytes everywhere.
//!
//! All are free fonts that `typst-assets` carries: Libertinus Serif (SIL Open Font License 1.1), and
//! where it has no letter, New Computer Modern (GUST Font License) and DejaVu Sans Mono (Bitstream
//! Vera and DejaVu licences). [`CREDITS`] is what a booklet itself says about them.

use std::sync::LazyLock;

use typst::foundations::Bytes;
use typst::text::{Font, FontBook, FontStyle, FontWeight};
use typst::utils::LazyHash;

/// The face of running text.
pub const FACE: &str = "Libertinus Serif";

/// The faces that stand in for letters that [`FACE`] does not have, in that order.
pub const STAND_INS: [&str; 2] = ["New Computer Modern", "DejaVu Sans Mono"];

/// Each face with its licence, as the credits print them.
pub const CREDITS: [(&str, &str); 3] = [
    (FACE, "SIL Open Font License 1.1"),
    (STAND_INS[0], "GUST Font License"),
    (STAND_INS[1], "Bitstream Vera and DejaVu licences"),
];

/// What stands for a character that no face has.
pub const REPLACEMENT: char = '\u{fffd}';

/// The fonts and what is known about them.
#[derive(Debug)]
pub struct Fonts {
    /// Families, styles and coverage, by place in [`Fonts::fonts`].
    pub book: LazyHash<FontBook>,
    /// The fonts.
    pub fonts: Vec<Font>,
}

/// All fonts, read once.
pub static FONTS: LazyLock<Fonts> = LazyLock::new(Fonts::load);

impl Fonts {
    fn load() -> Fonts {
        let all = typst_assets::fonts().filter_map(|it| Font::new(Bytes::new(it), 0));
        let fonts: Vec<Font> = all.filter(is_used).collect();
        Fonts { book: LazyHash::new(FontBook::from_fonts(&fonts)), fonts }
    }

    /// Whether some font has a glyph for that character.
    pub fn have(&self, it: char) -> bool {
        self.fonts.iter().any(|font| font.info().coverage.contains(u32::from(it)))
    }
}

/// Whether a document can come to use a font: each face it is set in, and the stand-ins upright only.
fn is_used(font: &Font) -> bool {
    let info = font.info();
    let is_plain = info.variant.style == FontStyle::Normal && info.variant.weight == FontWeight::REGULAR;
    let stands_in = STAND_INS.contains(&info.family.as_str());
    info.family == FACE || (stands_in && is_plain)
}
