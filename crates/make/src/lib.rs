//! Sets puzzles to a brief.
//!
//! A try takes a random solution with all its clues and takes away, in random order, whatever can go while there is one
//! solution. What is left has nothing to spare; mostly it is too hard for the techniques that the brief allows, and is
//! changed bit by bit until these finish it, and not without the technique that is to be taught. Where the brief allows
//! something to spare, what those techniques need is not taken away in the first place. Everything random comes
//! from the seed and the brief, so the same brief and seed give the same puzzles.
//!
//! [`vary()`] says what one given or clue does to a puzzle, and [`drill()`] cuts exercises of a house or
//! a few out of what comes up while random puzzles are solved.

mod bare;
mod brief;
mod draft;
mod drill;
mod luck;
mod miss;
mod moment;
mod others;
mod setter;
mod vary;

pub use brief::{Brief, Clues, Kind, Look, Span, usually_known};
pub use draft::Stop;
pub use drill::{Drill, Shown, drill};
pub use miss::{Miss, Reason, Tally};
pub use others::Others;
pub use setter::{Batch, Made, Wanted, make};
pub use vary::{Variant, Variation, Varied, vary};
