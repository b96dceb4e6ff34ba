//! Orders of puzzles that are walked through in another way by whoever knows more.

use std::collections::BTreeSet;

use trail::TechniqueId;

use crate::board::{Board, START};
use crate::improve::improved;
use crate::proposal::{certain, n_certain};
use crate::{Objective, PuzzleId, Studied};

/// A puzzle as it is walked through by somebody.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Walked {
    /// The techniques known before it.
    pub known: BTreeSet<TechniqueId>,
    /// What matters about it. Of those with one id only seconds, techniques and break-in may differ: the rest is taken from
    /// the first.
    pub studied: Studied,
    /// What comes of it.
    pub outcome: Outcome,
}

/// What comes of walking through a puzzle.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Outcome {
    /// What it uses is known after it.
    Teaches,
    /// The puzzle is sealed, so that what it uses may not be taken for known.
    IsSealed,
    /// There is no walkthrough for that solver, only for others: no order is to put it there.
    IsMissing,
}

impl Objective {
    /// An order of so many puzzles that costs little when each is walked through with what is known by then, as far as
    /// that can be told from these walkthroughs. Of those with one id the first is that of the puzzle by itself. Where
    /// nobody has walked through it with just what is known at a place, of those that take the fewest techniques more that
    /// one counts whose solver knew most nearly the same; of equals the quickest.
    ///
    /// None costs more than the cheapest of those that were `met` before; of equals it is the first of those. It is not
    /// proved to be the best. None if more puzzles must have a place than there are places.
    pub fn propose_walked(
        &self,
        walked: &[Walked],
        n_places: usize,
        met: &[Vec<PuzzleId>],
    ) -> Option<Vec<PuzzleId>> {
        let board = Board::of_walked(self, walked);
        let n_places = n_places.min(board.n());
        let certain = certain(&board, n_places);
        let met: Vec<Vec<usize>> = met.iter().map(|it| board.places_of(it)).collect();
        (n_certain(&certain) <= n_places).then(|| board.ids_of(&improved(&board, n_places, &certain, &met)))
    }

    /// What is known before each puzzle of the order, beside what is known from the start: as far as that can be told
    /// from these walkthroughs. A puzzle without any teaches nothing.
    pub fn known_along(&self, order: &[PuzzleId], walked: &[Walked]) -> Vec<BTreeSet<TechniqueId>> {
        let board = Board::of_walked(self, walked);
        let mut so_far = START;
        let mut known = Vec::with_capacity(order.len());
        for id in order {
            known.push(board.techniques_of(so_far.known));
            so_far = board.place_of(id).map_or(so_far, |it| board.then(so_far, it));
        }
        known
    }
}
