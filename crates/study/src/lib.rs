//! What Galley finds out about a puzzle and about a pack, with the seal kept.
//!
//! [`study`] proves, explains and grades one puzzle ([`proved`] only proves it); [`StudiedPack::as_syllabus`]
//! puts a whole pack in order, and walks through each puzzle with what is known by then. Both are pure, so that
//! `galley` may study many puzzles at once and a desk one at a time.
//!
//! The seal is kept here and nowhere else: what would spoil a puzzle (a solution digit, a technique,
//! a step) can only be had through [`Study::opened`], which a sealed puzzle refuses. Whatever is
//! written from a study cannot break a seal by oversight.

mod gaps;
mod held;
mod knowing;
mod landmarks;
mod learning;
mod opened;
mod pack;
mod published;
mod puzzle;
mod repair;
mod syllabus;
mod twins;
mod way_in;
mod worth;

pub use gaps::{Gap, Lacks};
pub use held::Misfit;
pub use knowing::Knowing;
pub use landmarks::Landmark;
pub use opened::{Account, Opened};
pub use pack::{Placement, StudiedPack};
pub use published::{LeftOut, Published};
pub use puzzle::{Finding, MinutesRange, Study, proved, study, study_with};
pub use repair::{Mending, Repair, Settlings, Towards};
pub use syllabus::{OneByOne, Unsettled, Walker};
pub use twins::{Compared, TwinKind, Twins, twins};
pub use worth::Worth;
