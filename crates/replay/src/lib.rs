//! Accepts or rejects a walkthrough, conclusion by conclusion.
//!
//! [`judge()`] takes a claim and what it cites, and looks for a filling of the cells involved that
//! agrees with everything cited and yet breaks the claim. If there is one, the claim does not follow
//! and the filling is the reason; if there is none, it follows. [`replay()`] does this for a whole
//! walkthrough, and what it returns, [`Checked`], cannot be had in any other way. Whoever judges many
//! conclusions about one puzzle keeps a [`Judge`].
//!
//! [`spares`] asks the other question: whether everything cited is needed. A walkthrough with a premise that is not
//! needed is refused, too.
//!
//! Nothing but the citations is looked at: no other given, house or clue, and never the knowledge
//! that a puzzle has one solution. So a step that is wrong, forgets a reason or argues from there
//! being only one answer is refused. No solving technique is known here and no step is looked for;
//! all the search knows is what the digits of one house, or the ways of one clue or claim on one
//! house, leave to each of its cells. It shares no code with `prove`: it is the second opinion.

mod counterexample;
mod counts;
mod house;
mod judge;
mod page;
mod problem;
mod refusal;
mod search;
mod spare;
mod walkthrough;

pub use judge::{Cap, Judge, judge};
pub use refusal::Refusal;
pub use spare::{Spare, spares, without_spare};
pub use walkthrough::{Checked, replay, replay_from};
