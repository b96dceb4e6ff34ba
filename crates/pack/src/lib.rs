//! A pack: its puzzles, and the order in which they teach.

mod model;

pub use model::{Entry, Pack, PackInfo, PuzzleId};
