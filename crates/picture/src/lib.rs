//! Drawings as pictures of pixels (PNG): boards beside words, single boards, and boards that move.
//!
//! [`sheet()`] sets some boards beside a few words, for link previews and covers; [`png()`] draws one drawing at any width;
//! [`film()`] makes one moving picture of several (APNG). A drawing carries the colours of light paper in its
//! attributes, which is all that is read of it here. Fonts are part of the program, so that equal drawings give equal
//! bytes on every machine.
//!
//! Left out: letters that the fonts do not have. Wherever a picture is shown, text beside it says the same.

mod film;
mod render;
mod sheet;
mod words;

pub use film::{Still, film};
pub use render::{MOST_PIXELS, png};
pub use sheet::{Frame, sheet};
pub use words::Words;
