//! What matters about a puzzle for its place.

use std::collections::BTreeSet;

use trail::TechniqueId;

use crate::{PuzzleId, Said};

/// What matters about a puzzle for its place in the order.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Studied {
    /// Its name.
    pub id: PuzzleId,
    /// Who set it.
    pub setter: String,
    /// Expected seconds.
    pub seconds: u64,
    /// The techniques its walkthrough uses.
    pub techniques: BTreeSet<TechniqueId>,
    /// The technique with which it opens.
    pub break_in: Option<TechniqueId>,
    /// The editor's tier it is meant for, from 0; none where the editor has not said.
    pub shelf: Option<usize>,
    /// Whether it may be left out where there are fewer places than puzzles.
    pub is_optional: bool,
    /// What recordings say of its place.
    pub said: Vec<Said>,
}
