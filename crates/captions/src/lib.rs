//! The times of a recording: what is said when, its chapters, and what cutting it does to both.
//!
//! Everything is a list of texts with times: [`Caption`]s are read while somebody speaks, [`Chapter`]s lead
//! through the whole. [`read()`] reads captions as others write them; [`webvtt()`] and [`chapters_webvtt`] write them in the
//! W3C's format. [`within`] divides a spoken text into captions that can be read in the time there is, and [`Cuts`] moves
//! all of them to where they are once stretches are cut out. Times are whole milliseconds; only what people type, `1:05`,
//! is rounded, always down.
//!
//! Nothing here knows a puzzle, a file or a clock.

mod caption;
mod chapters;
mod cut_list;
mod cuts;
mod edit_list;
mod read;
mod split;
mod time;
mod webvtt;

pub use caption::Caption;
pub use chapters::{Chapter, LEAST_CHAPTER, chapter_lines, chapters};
pub use cut_list::{cut_lines, read_cuts};
pub use cuts::{Cut, Cuts};
pub use edit_list::{FrameRate, edit_list};
pub use read::{Fault, Form, ReadCaptions, ReadFault, read};
pub use split::{Limits, READABLE, within};
pub use time::{NoTime, Time};
pub use webvtt::{chapters_webvtt, webvtt};
