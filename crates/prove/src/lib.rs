//! Exact answers about a puzzle: does it have one solution, none, or several?
//!
//! The engine searches depth first over candidates kept as bit masks. After each choice it works out
//! what follows from the houses (naked and hidden singles) and from the clues (which of a clue's ways
//! can still be met), until nothing more does. It knows the rules only through
//! [`Puzzle::ways`](rulebook::Puzzle::ways), so a new rule is proved without a line here.
//!
//! Every limit counts nodes of the search. Where it is reached, or the caller wants no more
//! ([`interruptible`]), the answer says so; an answer that is given is exact. No human technique lives here:
//! how a person would get there is for `reason`.
//!
//! ```
//! use grid::Grid;
//! use prove::{Limit, Verdict, count, verdict};
//! use rulebook::Puzzle;
//!
//! # fn main() -> Result<(), String> {
//! let read = |text| Grid::from_line(text).map_err(|it| format!("{it:?}"));
//! let puzzle = Puzzle::new(read("1234............")?, []);
//! assert_eq!(count(&puzzle, 1_000, Limit(10_000)), Some(12));
//! assert!(matches!(verdict(&puzzle, Limit(10_000)), Verdict::Many(_)));
//! assert_eq!(verdict(&puzzle, Limit(3)), Verdict::Undecided);
//!
//! let puzzle = Puzzle::new(read("12343.......4...")?, []);
//! println!("{:?}", verdict(&puzzle, Limit(10_000)));
//! # Ok(())
//! # }
//! ```

mod clauses;
mod compile;
mod conditions;
mod conflict;
mod hitting;
mod lanes;
mod lines;
mod mend;
mod printed;
mod propagate;
mod prover;
mod refine;
mod search;
mod settle;
mod slip;
mod spare;
mod stop;
mod twins;
mod verdict;

pub use conflict::{Conflict, Digging, Member, conflict};
pub use mend::{Change, Mend, Mends, Solutions, changes_at, mends, mends_at};
pub use printed::Printed;
pub use prover::Prover;
pub use settle::{
    Effort, Settling, SingleGivens, differences, fewest, open_clues, open_givens, single_givens,
};
pub use slip::Slip;
pub use spare::{Irreducible, Spare, irreducible, is_spare, spare};
pub use stop::interruptible;
pub use twins::{Canonical, Symmetries, canonical, canonical_grid};
pub use verdict::{Limit, Many, Verdict, count, some_solution, verdict};
