//! The model's numbers, all in seconds. Estimates, from no data yet.

/// Even where everything is open, the eye needs a moment.
pub const LEAST_WAIT: f64 = 3.0;

/// To write down one conclusion: a digit, a mark or a crossed-off candidate.
pub const CARRY_OUT: f64 = 3.0;

/// To find out which candidate is worth supposing false, where only an argument helps: longer than any
/// technique takes to see.
pub const ARGUMENT_LOOK: f64 = 120.0;

/// To follow one case or one consequence of an argument.
pub const ARGUMENT_CASE: f64 = 6.0;
