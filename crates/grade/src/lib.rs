//! Expected minutes: how long a person would take, from what is open to them at each step.
//!
//! A first honest model, **not yet calibrated** against logged solves. At each step a person waits
//! until they notice one of the steps that are open and no harder than the one the walkthrough
//! takes; each open step is noticed at a rate of one in its technique's weight in seconds, so the
//! wait is short where much is open and long where little is. Then they carry it out. Published
//! findings behind it (R. Pelánek, arXiv:1403.7373): both the effort of single steps and how few are
//! open at once decide how long people take; the number of givens hardly matters.
//!
//! Left out for now: differences between solvers, mistakes, tiredness, calibration.

mod estimate;
mod model;

pub use estimate::{Estimate, StepTime, estimate};
pub use model::{ARGUMENT_CASE, ARGUMENT_LOOK, CARRY_OUT, LEAST_WAIT};
