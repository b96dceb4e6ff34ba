//! Which technique is met in which puzzle.

use std::collections::BTreeSet;

use trail::TechniqueId;

use crate::{PuzzleId, Studied};

/// A technique, and the puzzles that use it, in pack order.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Coverage {
    /// The technique.
    pub technique: TechniqueId,
    /// The puzzles whose walkthrough uses it; the first is where it is taught.
    pub puzzles: Vec<PuzzleId>,
}

/// For each of `techniques`, in that order, the puzzles that use it; those that none uses too.
pub fn coverage(techniques: &[TechniqueId], order: &[PuzzleId], studied: &[Studied]) -> Vec<Coverage> {
    let uses = |id: &PuzzleId| -> BTreeSet<TechniqueId> {
        studied.iter().filter(|it| it.id == *id).flat_map(|it| it.techniques.iter().copied()).collect()
    };
    let used: Vec<(&PuzzleId, BTreeSet<TechniqueId>)> = order.iter().map(|it| (it, uses(it))).collect();
    let of = |technique: &TechniqueId| Coverage {
        technique: *technique,
        puzzles: used.iter().filter(|it| it.1.contains(technique)).map(|it| it.0.clone()).collect(),
    };
    techniques.iter().map(of).collect()
}
