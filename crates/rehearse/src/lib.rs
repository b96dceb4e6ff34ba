//! What a presenter needs to record a walkthrough: for now the cue sheet, one HTML page a puzzle.
//!
//! [`cue_sheet`] lays out what is said, in the order in which it is said: the credit line and the rules,
//! then the walkthrough passage by passage, in type large enough to read at a glance from a second
//! screen, with a small board for each stretch of it. Each step, each passage and the whole have an
//! estimated speaking time; how that is reckoned is in `pace` (the numbers) and `speech` (how text is
//! read out). The page stands alone: no script, nothing fetched.
//!
//! Steps are told in the voice that `tell` has for the ear. Left out for now: chapters and captions, and
//! looking at a finished recording.

mod cue;
mod pace;
mod script;
mod speech;
mod step_key;

pub use cue::cue_sheet;
pub use pace::{MARK_MILLISECONDS, WORDS_A_MINUTE};
pub use step_key::step_key;
