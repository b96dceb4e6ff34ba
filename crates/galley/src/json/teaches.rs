//! The document of what a puzzle teaches.

use serde::Serialize;

/// What `teaches` says of a puzzle; without a walkthrough to show, nothing.
#[derive(Serialize, Debug, Default)]
pub(crate) struct Teaches {
    pub(crate) techniques: Vec<TechniqueWorth>,
    pub(crate) intends: Vec<Meant>,
}

/// What a technique is worth: `needed`, `saves` (so many seconds) or `avoidable`.
#[derive(Serialize, Debug)]
pub(crate) struct TechniqueWorth {
    pub(crate) technique: &'static str,
    /// Whether nobody knows it before the puzzle.
    pub(crate) new: bool,
    pub(crate) worth: &'static str,
    pub(crate) saves: Option<u64>,
}

/// What the setter meant, and how that compares.
#[derive(Serialize, Debug)]
pub(crate) struct Meant {
    pub(crate) meant: String,
    pub(crate) says: String,
}
