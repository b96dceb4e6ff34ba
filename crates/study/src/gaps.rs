//! What a pack lacks: techniques that it never teaches, and those that it teaches and never practises.

use std::collections::BTreeSet;

use ::pack::Coverage;
use reason::{Known, technique};
use trail::TechniqueId;

use crate::StudiedPack;

/// A technique that a pack lacks a puzzle for.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Gap {
    /// The technique.
    pub technique: TechniqueId,
    /// What there is no puzzle for.
    pub lacks: Lacks,
    /// What it builds on and the pack does not teach either: before it is met, those should be.
    pub not_shown: BTreeSet<TechniqueId>,
}

/// What a pack does not do with a technique.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Lacks {
    /// No puzzle uses it, and nobody knows it before.
    Teaching,
    /// One puzzle introduces it, and no other uses it.
    Practice,
}

impl StudiedPack {
    /// What the puzzles lack, the easiest technique first. Sealed ones count as if they were not there.
    pub fn gaps(&self) -> Vec<Gap> {
        let known = self.taught();
        let lacks = |it: &Coverage| match (it.taught_in(), it.practised_in()) {
            (None, []) if !it.is_known => Some(Lacks::Teaching),
            (Some(_), []) => Some(Lacks::Practice),
            _ => None,
        };
        let gap = |it: Coverage| {
            // A small argument is nothing that a pack would want to teach.
            let below = technique(it.technique)?.prerequisites();
            let not_shown = below.iter().copied().filter(|it| !known.has(*it)).collect();
            Some(Gap { technique: it.technique, lacks: lacks(&it)?, not_shown })
        };
        self.coverage().into_iter().filter_map(gap).collect()
    }

    /// What a solver knows who has come through the pack: what it takes for granted and what its puzzles use.
    pub fn taught(&self) -> Known {
        let coverage = self.coverage();
        Known::only(coverage.iter().filter(|it| it.is_known || !it.puzzles.is_empty()).map(|it| it.technique))
    }
}
