//! Why a puzzle stands where it stands, as far as the seals of its neighbours allow.
//!
//! A sealed puzzle must not be given away by those beside it. What is new in a puzzle is therefore
//! counted among the open puzzles alone, its time is compared with an open puzzle's only, and what an
//! order costs is told only when no puzzle is sealed.

use pack::{Coverage, PuzzleId};
use study::{StudiedPack, Study};
use trail::TechniqueId;

/// A pack's order with what may be said about it.
#[derive(Debug)]
pub(crate) struct Places<'a> {
    pack: &'a StudiedPack,
    coverage: Vec<Coverage>,
}

/// What was weighed for an open puzzle that has a walkthrough.
#[derive(Debug)]
pub(crate) struct Reasons {
    /// Techniques that no open puzzle before it uses, easiest first.
    pub(crate) new: Vec<TechniqueId>,
    /// Techniques that an open puzzle before it uses, easiest first.
    pub(crate) practised: Vec<TechniqueId>,
    /// Expected seconds more than the puzzle before it, or, negative, fewer; none for the first, and
    /// after a sealed one.
    pub(crate) seconds_more: Option<i64>,
    /// Whether the puzzle before is by the same setter.
    pub(crate) same_setter: bool,
}

impl<'a> Places<'a> {
    /// The places of the pack's puzzles.
    pub(crate) fn of(pack: &'a StudiedPack) -> Places<'a> {
        Places { pack, coverage: pack.coverage() }
    }

    /// The puzzles in order, each with its number from 1 and its reasons; those are kept back for a
    /// sealed puzzle, and there are none for one without a walkthrough.
    pub(crate) fn iter(&self) -> impl Iterator<Item = (usize, &'a Study, Option<Reasons>)> {
        self.pack.studies().iter().enumerate().map(|(at, it)| (at + 1, it, self.reasons(at)))
    }

    fn reasons(&self, at: usize) -> Option<Reasons> {
        let study = &self.pack.studies()[at];
        let placed = study.opened()?.placed?;
        let id = &study.entry().id;
        // Only puzzles with a walkthrough are weighed against each other.
        let before = self.pack.studies()[..at].iter().rev().find(|it| it.is_publishable());
        Some(Reasons {
            new: self.techniques(|it| it.puzzles.first() == Some(id)),
            practised: self.techniques(|it| it.puzzles.iter().skip(1).any(|it| it == id)),
            seconds_more: placed.step_up.filter(|_| before.is_some_and(|it| !it.is_sealed())),
            same_setter: placed.same_setter,
        })
    }

    fn techniques(&self, is_meant: impl Fn(&Coverage) -> bool) -> Vec<TechniqueId> {
        self.coverage.iter().filter(|it| is_meant(it)).map(|it| it.technique).collect()
    }

    /// The techniques that some open puzzle uses, easiest first, with those puzzles.
    pub(crate) fn taught(&self) -> impl Iterator<Item = (TechniqueId, &[PuzzleId])> {
        let used = self.coverage.iter().filter(|it| !it.puzzles.is_empty());
        used.map(|it| (it.technique, &it.puzzles[..]))
    }

    /// The techniques that no puzzle uses; none while a puzzle is sealed, because it might. A small
    /// argument is nothing that a pack would want to teach.
    pub(crate) fn not_taught(&self) -> Vec<TechniqueId> {
        if has_seal(self.pack) {
            return Vec::new();
        }
        let unused = self.techniques(|it| it.puzzles.is_empty());
        unused.into_iter().filter(|it| *it != TechniqueId::SMALL_ARGUMENT).collect()
    }
}

/// What the order costs; none while a puzzle is sealed, because it would say how much that one teaches.
pub(crate) fn cost(pack: &StudiedPack) -> Option<u64> {
    (!has_seal(pack)).then(|| pack.cost())
}

fn has_seal(pack: &StudiedPack) -> bool {
    pack.studies().iter().any(Study::is_sealed)
}
