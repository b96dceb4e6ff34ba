//! A solve that was logged: what somebody wrote, and when.

use grid::{Cell, Digit};

use crate::Solver;

/// One person's solve of one puzzle. All times are seconds since they began.
#[derive(Clone, PartialEq, Debug)]
pub struct Solve {
    /// The puzzle's id.
    pub puzzle: String,
    /// Who solved it; the same name means the same person.
    pub solver: String,
    /// What kind of solver that is.
    pub kind: Solver,
    /// Whether they talked while they solved: recording a walkthrough takes a time of its own.
    pub is_aloud: bool,
    /// What was written and taken out, in order of time.
    pub entries: Vec<Entry>,
    /// When a hint was opened.
    pub hints: Vec<f64>,
    /// When the solver was away: from and to.
    pub pauses: Vec<[f64; 2]>,
    /// How it ended.
    pub outcome: Outcome,
}

/// A digit that was written into a cell, in place of whatever was there.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Entry {
    /// When.
    pub at: f64,
    /// Where.
    pub cell: Cell,
    /// What; none if the cell was emptied.
    pub digit: Option<Digit>,
}

/// How a solve ended.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Outcome {
    /// The board was full and right.
    Solved,
    /// The solver said that they would go no farther.
    GaveUp,
    /// They went away and did not come back.
    Left,
}
