//! What every HTML page of Galley's shares: texts of a pack made safe, steps laid out beside boards,
//! and the style of a printed sheet.
//!
//! [`text()`], [`sentence`], [`paragraphs`] and [`bare`] are the only ways in which a text of a pack's
//! file reaches a page. [`stretches`] and [`told`] lay a walkthrough out, [`key()`] explains the marks on its
//! boards. [`style()`] gives the colours
//! of the boards and the rules that all pages have in common; each page adds its own.
//!
//! Left out: what a page is about. The report, the site and the cue sheet are crates of their own.

mod key;
mod steps;
mod style;
mod text;
mod words;

pub use key::key;
pub use steps::{stretches, told};
pub use style::style;
pub use text::{bare, paragraphs, sentence, text};
pub use words::steps;
