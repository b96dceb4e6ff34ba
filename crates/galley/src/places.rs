//! Why a puzzle stands where it stands, as far as the seals of its neighbours allow.
//!
//! A sealed puzzle must not be given away by those beside it. `study` leaves what it teaches, and how long it takes,
//! out of what was weighed for the others; what an order costs is told only when no puzzle is sealed.

use pack::{Costs, Coverage, Placed, PuzzleId};
use study::{StudiedPack, Study};
use trail::TechniqueId;

/// A pack's order with what may be said about it.
#[derive(Debug)]
pub(crate) struct Places<'a> {
    pack: &'a StudiedPack,
    coverage: Vec<Coverage>,
}

impl<'a> Places<'a> {
    /// The places of the pack's puzzles.
    pub(crate) fn of(pack: &'a StudiedPack) -> Places<'a> {
        Places { pack, coverage: pack.coverage() }
    }

    /// The puzzles that have a place, in order, each with its number from 1 and what was weighed; that is kept back
    /// for a sealed puzzle, and there is none for one without a walkthrough.
    pub(crate) fn iter(&self) -> impl Iterator<Item = (usize, &'a Study, Option<&'a Placed>)> {
        let studies = self.pack.studies().iter().enumerate();
        studies.map(|(at, it)| (at + 1, it, it.opened().and_then(|it| it.placed)))
    }

    /// The techniques that some open puzzle uses, easiest first.
    pub(crate) fn used(&self) -> impl Iterator<Item = &Coverage> {
        self.coverage.iter().filter(|it| !it.puzzles.is_empty())
    }

    /// The techniques that are neither known from the start nor used by any puzzle; none while a puzzle is sealed,
    /// because it might. A small argument is nothing that a pack would want to teach.
    pub(crate) fn not_taught(&self) -> Vec<TechniqueId> {
        if has_seal(self.pack) {
            return Vec::new();
        }
        let missing = |it: &&Coverage| {
            it.puzzles.is_empty() && !it.is_known && it.technique != TechniqueId::SMALL_ARGUMENT
        };
        self.coverage.iter().filter(missing).map(|it| it.technique).collect()
    }

    /// The techniques that one puzzle teaches and none practises after it; none while a puzzle is sealed.
    pub(crate) fn not_practised(&self) -> Vec<(TechniqueId, &PuzzleId)> {
        if has_seal(self.pack) {
            return Vec::new();
        }
        let only = self.coverage.iter().filter(|it| it.practised_in().is_empty());
        let only = only.filter(|it| it.technique != TechniqueId::SMALL_ARGUMENT);
        only.filter_map(|it| Some((it.technique, it.taught_in()?))).collect()
    }
}

/// What the order costs; none while a puzzle is sealed, because it would say how much that one teaches.
pub(crate) fn costs(pack: &StudiedPack) -> Option<Costs> {
    (!has_seal(pack)).then(|| pack.costs())
}

pub(crate) fn has_seal(pack: &StudiedPack) -> bool {
    pack.all().any(Study::is_sealed)
}
