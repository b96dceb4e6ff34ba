//! What Galley finds out about a puzzle and about a pack, with the seal kept.
//!
//! [`study`] proves, explains and grades one puzzle; [`StudiedPack::new`] puts a whole pack in order.
//! Both are pure, so that `galley` may study many puzzles at once and a desk one at a time.
//!
//! The seal is kept here and nowhere else: what would spoil a puzzle (a solution digit, a technique,
//! a step) can only be had through [`Study::opened`], which a sealed puzzle refuses. Whatever is
//! written from a study cannot break a seal by oversight.

mod knowing;
mod opened;
mod pack;
mod published;
mod puzzle;
mod way_in;

pub use knowing::Knowing;
pub use opened::{Account, Opened};
pub use pack::{Placement, StudiedPack};
pub use published::{LeftOut, Published};
pub use puzzle::{Finding, MinutesRange, Study, study, study_with};
