//! The model's numbers, all in seconds or ratios, each with its reason. Estimates, from no data; a `Calibration`
//! corrects what comes of them.
//!
//! The seconds until a step is noticed are its technique's weight (`reason`), which is for a step that is alone in leading
//! on. **What leads nowhere has no number here**: two in three of the steps that are open along the demo's walkthroughs
//! are marks that nobody needs. Taking one is no progress, so it shortens no wait. That people look at some in vain is
//! part of every weight, for a step is never seen without others around it; to count it apart, for each mark once, would
//! take a second figure a technique, and nobody has measured one.

use crate::Solver;

/// Even where everything is open, the eye needs a moment to settle on something.
pub const LEAST_WAIT: f64 = 2.0;

/// To write down one conclusion: a digit, a mark or a crossed-off candidate.
pub const CARRY_OUT: f64 = 3.0;

/// What one more house or clue to be held in view adds to the time in which a step is noticed: effort grows with
/// the number of constraints that a deduction depends on (N. Lee, G. Goodwin, P. Johnson-Laird, Thinking &
/// Reasoning 14(4), 2008). The same figure as in `reason`'s effort.
pub const HELD: f64 = 3.0;

/// How much likelier a step is noticed where the eye is already: along the same row or column, near by, far off.
/// Common practice (a solver goes on where something has just been written), no source.
pub const NEAR: [f64; 3] = [1.5, 1.0, 0.75];

/// To find out which candidate is worth supposing false, where only an argument helps: longer than any
/// technique takes to see.
pub const ARGUMENT_LOOK: f64 = 120.0;

/// To follow one case or one consequence of an argument.
pub const ARGUMENT_CASE: f64 = 6.0;

/// How often a puzzle is solved in thought for each solver: the tenth and the ninetieth percentile then rest on
/// forty runs each.
pub const RUNS: usize = 400;

/// Knows the puzzles without clues, and is new to the genre: its steps are seen at a third of the rate, and what is
/// hard in the others at half. Days differ more for those who are still learning.
pub const NEWCOMER: Solver = Solver { name: "newcomer", notices: [0.5, 0.33], hands: 1.4, spread: 0.45 };

/// Solves such puzzles now and then: the weights of the techniques are meant for this solver.
pub const REGULAR: Solver = Solver { name: "regular", notices: [1.0, 1.0], hands: 1.0, spread: 0.35 };

/// Has solved hundreds: sees most steps at a glance, and writes fewer marks.
pub const OLD_HAND: Solver = Solver { name: "old hand", notices: [2.2, 2.5], hands: 0.6, spread: 0.25 };
