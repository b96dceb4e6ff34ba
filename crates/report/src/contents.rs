//! The pack as its parts ask about it, with the seals kept between puzzles too.
//!
//! A sealed puzzle must not be given away by its neighbours. What is new in a puzzle is therefore
//! counted among the open puzzles alone, exact minutes are compared only with an open puzzle, and what
//! no puzzle teaches is not said while one is sealed, because it might.

use pack::{Coverage, PuzzleId};
use study::{StudiedPack, Study, Worth};
use trail::TechniqueId;

use crate::Worths;

/// A studied pack with its coverage.
#[derive(Debug)]
pub(crate) struct Contents<'a> {
    pub(crate) pack: &'a StudiedPack,
    /// The techniques, easiest first, with the open puzzles that use them.
    pub(crate) coverage: Vec<Coverage>,
    worths: &'a Worths,
}

impl<'a> Contents<'a> {
    pub(crate) fn new(pack: &'a StudiedPack, worths: &'a Worths) -> Contents<'a> {
        Contents { pack, coverage: pack.coverage(), worths }
    }

    /// What techniques of that puzzle are worth, as far as it was found out; nothing of a sealed one.
    pub(crate) fn worths_in(&self, id: &PuzzleId) -> Option<&'a [(TechniqueId, Worth)]> {
        let is_open = self.pack.studies().iter().any(|it| it.entry().id == *id && !it.is_sealed());
        self.worths.get(id).filter(|_| is_open).map(|it| &it[..])
    }

    /// The puzzle at that place, from 0.
    pub(crate) fn study(&self, at: usize) -> &'a Study {
        &self.pack.studies()[at]
    }

    /// The puzzle's number, from 1.
    pub(crate) fn number_of(&self, id: &PuzzleId) -> Option<usize> {
        self.pack.studies().iter().position(|it| it.entry().id == *id).map(|at| at + 1)
    }

    /// How many puzzles are sealed.
    pub(crate) fn n_sealed(&self) -> usize {
        self.pack.studies().iter().filter(|it| it.is_sealed()).count()
    }

    /// Whether any puzzle is open, and so any board shown.
    pub(crate) fn has_boards(&self) -> bool {
        self.n_sealed() < self.pack.studies().len()
    }

    /// The techniques of that puzzle which solvers do not know from the start and no open puzzle before it uses,
    /// easiest first; nothing of a sealed one.
    pub(crate) fn new_in(&self, id: &PuzzleId) -> Vec<TechniqueId> {
        self.coverage.iter().filter(|it| it.taught_in() == Some(id)).map(|it| it.technique).collect()
    }

    /// The techniques of that puzzle which are known by then, easiest first.
    pub(crate) fn practised_in(&self, id: &PuzzleId) -> Vec<TechniqueId> {
        let later = |it: &&Coverage| it.practised_in().contains(id);
        self.coverage.iter().filter(later).map(|it| it.technique).collect()
    }

    /// The puzzle with a walkthrough that comes just before that place.
    pub(crate) fn before(&self, at: usize) -> Option<&'a Study> {
        self.pack.studies()[..at].iter().rev().find(|it| it.is_publishable())
    }
}
