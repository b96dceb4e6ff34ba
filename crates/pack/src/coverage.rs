//! Which technique is met in which puzzle.

use std::collections::BTreeSet;

use trail::TechniqueId;

use crate::{PuzzleId, Studied};

/// A technique, and the puzzles that use it, in pack order.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Coverage {
    /// The technique.
    pub technique: TechniqueId,
    /// The puzzles whose walkthrough uses it; unless it is known from the start, the first is where it is taught.
    pub puzzles: Vec<PuzzleId>,
    /// Whether it is known from the start.
    pub is_known: bool,
}

impl Coverage {
    /// The puzzle that teaches it.
    pub fn taught_in(&self) -> Option<&PuzzleId> {
        self.puzzles.first().filter(|_| !self.is_known)
    }

    /// The puzzles that practise it.
    pub fn practised_in(&self) -> &[PuzzleId] {
        &self.puzzles[usize::from(self.taught_in().is_some())..]
    }
}

/// For each of `techniques`, in that order, the puzzles that use it; those that none uses too. `known` are known from
/// the start.
pub fn coverage(
    techniques: &[TechniqueId],
    known: &[TechniqueId],
    order: &[PuzzleId],
    studied: &[Studied],
) -> Vec<Coverage> {
    let uses = |id: &PuzzleId| -> BTreeSet<TechniqueId> {
        studied.iter().filter(|it| it.id == *id).flat_map(|it| it.techniques.iter().copied()).collect()
    };
    let used: Vec<(&PuzzleId, BTreeSet<TechniqueId>)> = order.iter().map(|it| (it, uses(it))).collect();
    let of = |technique: &TechniqueId| Coverage {
        technique: *technique,
        puzzles: used.iter().filter(|it| it.1.contains(technique)).map(|it| it.0.clone()).collect(),
        is_known: known.contains(technique),
    };
    techniques.iter().map(of).collect()
}
