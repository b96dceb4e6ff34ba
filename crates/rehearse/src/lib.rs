//! What a presenter needs to record a walkthrough, before and after.
//!
//! A [`Setting`] is a puzzle at its place in the pack, with what the editor has noted. From it come the [`Script`] (what is
//! said, from the first word to the last, with times) and the [`Plan`] (the script with what is new in it, what viewers may
//! stumble over, what to ask them, and what to say more shortly), which `cue` lays out to be read at a glance.
//!
//! While it is said, the stage ([`stage()`]) is what is recorded, and the presenter's page beside it has the plan.
//!
//! Once it has been said, the stage's log is held against the script: [`Recorded`] gives chapters, captions, what ran long
//! and what may be cut.
//!
//! How times are reckoned is in `pace` (the numbers) and `speech` (how text is read out). Steps are told in the voice that
//! `tell` has for the ear. Looking at what was really said is for `review`.

mod introductions;
mod log;
mod pace;
mod pictures;
mod plan;
mod questions;
mod recorded;
mod script;
mod setting;
mod shorter;
mod speech;
mod stage;
mod step_key;
mod stumbles;
mod under;

pub use introductions::{Introduction, Taught};
pub use log::{Reached, gone, reached};
pub use pace::{MARK_MILLISECONDS, Pace, WORDS_A_MINUTE};
pub use pictures::{board, cover, silent_film, stills};
pub use plan::Plan;
pub use questions::Question;
pub use recorded::{Draft, RanLong, Recorded};
pub use script::{Cue, Passage, Script};
pub use setting::Setting;
pub use shorter::{Part, Together};
pub use stage::{StageFiles, presenter_path, stage, stage_path, stage_shared};
pub use step_key::step_key;
pub use stumbles::{Stop, Stumble, stops};
pub use under::{TEMPLATE, TemplateError, Under, under};
