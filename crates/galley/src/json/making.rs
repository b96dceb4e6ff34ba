//! The documents of `make`.

use serde::Serialize;

use super::{Conclusion, Minutes, Printed, Problem};

/// What `make` prints.
#[derive(Serialize, Debug)]
pub(crate) struct Making {
    pub(crate) format: u8,
    pub(crate) seed: u64,
    /// How many were asked for.
    pub(crate) wanted: usize,
    pub(crate) found: usize,
    pub(crate) tries: u64,
    pub(crate) missed: Vec<Missed>,
    /// Why the nearest miss was one; completes "the nearest missed because".
    pub(crate) nearest: Option<String>,
    pub(crate) puzzles: Vec<Made>,
}

/// Tries that were turned down for the same reason.
#[derive(Serialize, Debug)]
pub(crate) struct Missed {
    pub(crate) why: String,
    pub(crate) tries: u64,
}

/// One puzzle of [`Making`].
#[derive(Serialize, Debug)]
pub(crate) struct Made {
    pub(crate) id: String,
    pub(crate) title: String,
    pub(crate) givens: usize,
    pub(crate) clues: usize,
    pub(crate) beyond_unique: BeyondUnique,
    pub(crate) steps: usize,
    pub(crate) techniques: Vec<&'static str>,
    pub(crate) minutes: Minutes,
    /// Half of all solves are quicker, in whole minutes.
    pub(crate) median: usize,
    pub(crate) moments: Vec<TeachingMoment>,
    /// The puzzle file.
    pub(crate) text: String,
    /// Where it was written, if it was.
    pub(crate) written: Option<String>,
}

/// What any one of could go and leave one solution.
#[derive(Serialize, Debug)]
pub(crate) struct BeyondUnique {
    pub(crate) givens: usize,
    pub(crate) clues: usize,
}

/// Where a technique is needed first.
#[derive(Serialize, Debug)]
pub(crate) struct TeachingMoment {
    pub(crate) technique: &'static str,
    pub(crate) step: usize,
    pub(crate) says: String,
    /// The board before the step, as text.
    pub(crate) board: String,
}

/// What `make --vary` prints. Without an answer all but `problems` is null or empty.
#[derive(Serialize, Debug)]
pub(crate) struct Varying {
    pub(crate) format: u8,
    /// The median of a regular for the puzzle itself.
    pub(crate) seconds: Option<u64>,
    /// On how many logged solves that rests.
    pub(crate) solves: Option<usize>,
    pub(crate) easier: Vec<Variant>,
    pub(crate) harder: Vec<Variant>,
    pub(crate) same: Option<usize>,
    pub(crate) several_solutions: Option<usize>,
    pub(crate) no_walkthrough: Option<usize>,
    pub(crate) problems: Vec<Problem>,
}

/// The puzzle with one given or clue less or more.
#[derive(Serialize, Debug)]
pub(crate) struct Variant {
    /// `with` or `without`.
    pub(crate) change: &'static str,
    #[serde(flatten)]
    pub(crate) printed: Printed,
    pub(crate) seconds: u64,
    pub(crate) steps: usize,
    pub(crate) new: Vec<&'static str>,
    pub(crate) gone: Vec<&'static str>,
    /// The puzzle file.
    pub(crate) text: String,
}

/// What `make --drill` prints.
#[derive(Serialize, Debug)]
pub(crate) struct Drills {
    pub(crate) format: u8,
    pub(crate) seed: u64,
    pub(crate) technique: &'static str,
    pub(crate) wanted: usize,
    pub(crate) drills: Vec<Drill>,
}

/// One question.
#[derive(Serialize, Debug)]
pub(crate) struct Drill {
    pub(crate) houses: Vec<DrillHouse>,
    pub(crate) cells: Vec<DrillCell>,
    /// What is known of the houses besides, in words.
    pub(crate) known: Vec<String>,
    pub(crate) question: String,
    pub(crate) answer: Vec<Conclusion>,
    pub(crate) says: String,
}

/// A row, column or box that is shown.
#[derive(Serialize, Debug)]
pub(crate) struct DrillHouse {
    pub(crate) house: String,
    pub(crate) clue: Option<u16>,
    pub(crate) cells: Vec<String>,
}

/// A cell as it is shown.
#[derive(Serialize, Debug)]
pub(crate) struct DrillCell {
    pub(crate) cell: String,
    pub(crate) digits: Vec<u8>,
    pub(crate) kind: Option<&'static str>,
}

/// What `make --gap` prints.
#[derive(Serialize, Debug)]
pub(crate) struct Gaps {
    pub(crate) format: u8,
    pub(crate) gaps: Vec<Gap>,
    /// What is no harder and has to wait.
    pub(crate) passed_over: Vec<PassedOver>,
}

/// A technique that a pack lacks and that builds on others which it lacks.
#[derive(Serialize, Debug)]
pub(crate) struct PassedOver {
    pub(crate) technique: &'static str,
    pub(crate) builds_on: Vec<&'static str>,
}

/// A technique that a pack lacks, and what was made for it.
#[derive(Serialize, Debug)]
pub(crate) struct Gap {
    pub(crate) technique: &'static str,
    /// `teaching` or `practice`.
    pub(crate) lacks: &'static str,
    pub(crate) made: Making,
}
