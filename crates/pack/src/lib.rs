//! A pack: its puzzles, and the order in which they teach.

mod board;
mod bound;
mod coverage;
mod day;
mod exact;
mod form;
mod heard;
mod improve;
mod model;
mod notes;
mod objective;
mod placed;
mod proposal;
mod rehearsal;
mod said;
mod setter;
mod studied;
mod walked;

pub use coverage::{Coverage, coverage};
pub use day::{Day, NoSuchDay};
pub use form::{FORM_WORDS, Form, Ink, Layout, NoForm, Paper};
pub use model::{Chapter, Entry, Erratum, NoChapter, Pack, PackInfo, PuzzleId, Shelf, State, TextLimits};
pub use notes::{Notes, StepNote};
pub use objective::{Costs, Flaws, Objective, Weights};
pub use placed::Placed;
pub use proposal::Proposal;
pub use rehearsal::{Event, Happening, Rehearsal};
pub use said::{SAID_PLAINLY, Said};
pub use setter::{Approval, NoApproval, Setter};
pub use studied::Studied;
pub use walked::{Outcome, Walked};
