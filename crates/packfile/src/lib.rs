//! The files of a pack, format 1: reading them with every problem at its place, and writing them.
//!
//! Reading never fails. [`read_pack`] and [`read_puzzle`] take bytes, give what could be read, and say
//! everything that is wrong with a file at once, so that an editor mends it in one go. A puzzle file
//! becomes an entry only if it has no error: half a puzzle is no puzzle, and a misspelt `sealed` must
//! not break a seal. What it does have, its title for instance, goes into [`Unreadable`].
//!
//! Test solves, what they have taught, and logs of rehearsals are JSON, because programs write them: `solve`,
//! `calibration`, `rehearsal`.
//!
//! Left out on purpose: the file system (paths come in as names, bytes as bytes), and every question
//! about solutions, which is for `prove`. The format itself is described in `docs/format.md`; the words
//! of every message are in one place, `wording`.

mod board;
mod calibration;
mod clues;
mod fault;
mod fingerprint;
mod json;
mod nearest;
mod notes;
mod pack_info;
mod phrases;
mod plans;
mod problem;
mod puzzle;
mod read;
mod rehearsal;
mod solve;
mod source;
mod syntax;
mod template;
mod text;
mod whole;
mod wording;
mod write;

pub use calibration::{Calibrations, read_calibration, write_calibration};
pub use fingerprint::fingerprint;
pub use notes::read_notes;
pub use problem::{Code, Problem, Severity, Span};
pub use puzzle::{Unreadable, read_puzzle};
pub use rehearsal::{LoggedRehearsal, read_rehearsal};
pub use solve::{LoggedSolve, read_solve};
pub use source::{MOST_BYTES, SourceFile};
pub use template::{pack_template, puzzle_template};
pub use whole::{ReadPack, read_pack};
pub use write::write_puzzle;

/// The number of the format that this crate reads and writes.
pub const FORMAT: u8 = 1;
