//! A pack: its puzzles, and the order in which they teach.

mod coverage;
mod model;
mod order;

pub use coverage::{Coverage, coverage};
pub use model::{Entry, Pack, PackInfo, PuzzleId};
pub use order::{Placed, Studied, WEIGHTS, Weights, cost, place, propose_order};
