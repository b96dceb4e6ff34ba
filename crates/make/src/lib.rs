//! Sets puzzles to a brief.
//!
//! A random solution, all its clues and a few givens; givens are added where a solver would be stuck
//! and taken away again where they can be spared, until the brief is met. Everything random comes
//! from the seed, so the same brief and seed give the same puzzle.

mod brief;
mod setter;

pub use brief::{Brief, Kind};
pub use setter::{Made, MakeError, make};
