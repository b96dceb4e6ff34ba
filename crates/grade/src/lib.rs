//! Expected minutes: how long a person would take, from what is open to them at each step.
//!
//! A model of a person solving. At each step of the walkthrough a
//! person waits until they notice one of the steps that they know, that are open, no harder than the one the
//! walkthrough takes, and that lead on (`reason`'s survey says which). Each is noticed at a rate of its own: one in its
//! technique's weight in seconds, less often the more has to be held in view and the farther the eye is. So the wait is
//! short where much leads on and long where little does. Then they carry it out. Many seeded runs of that, on better and worse
//! days, give a distribution for each of three kinds of solver; `model` has every number with its reason.
//!
//! Published findings behind it (R. Pelánek, arXiv:1403.7373): both the effort of single steps and how few are
//! open at once decide how long people take; the number of givens hardly matters.
//!
//! By itself the model gives an **estimate**. [`calibrate()`] holds it against logged solves and fits how long each
//! kind of solver takes and how soon each technique is noticed: `timed` puts the time between digits down to
//! steps, `posterior` says how likely a correction is, `fit` finds the likeliest, `priors` has the numbers. An
//! [`Estimate`] says on how many solves it rests.
//!
//! Left out for now:
//!
//! - mistakes, tiredness;
//! - the time that goes into what leads nowhere (`model` says why);
//! - that people take the easy steps first, wherever the walkthrough has them. Where it takes a hard step while easier
//!   ones are open that it needs later, they shorten the wait for the hard one, too. Along the demo's walkthroughs, with
//!   their own steps alone, the waits add up to a tenth less by that than if every order is drawn by chance.

mod calibrate;
mod calibration;
mod estimate;
mod fit;
mod model;
mod moment;
mod posterior;
mod priors;
mod runs;
mod solve;
mod solver;
mod timed;

pub use calibrate::{Errors, Lesson, Lessons, Person, Verdict, calibrate};
pub use calibration::{Calibration, Pace, Wait};
pub use estimate::{Estimate, StepTime, estimate};
pub use model::{
    ARGUMENT_CASE, ARGUMENT_LOOK, CARRY_OUT, HELD, LEAST_WAIT, NEAR, NEWCOMER, OLD_HAND, REGULAR, RUNS,
};
pub use priors::{FEWEST_PUZZLES, FEWEST_SOLVES, FEWEST_STEPS, FEWEST_STRETCHES};
pub use runs::Times;
pub use solve::{Entry, Outcome, Solve};
pub use solver::Solver;
pub use timed::{Course, Mismatch, Progress, Timed};
