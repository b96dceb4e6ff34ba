//! What an order looks like from each of its places.

use std::collections::BTreeSet;

use trail::TechniqueId;

use crate::board::{Board, START};
use crate::{Costs, Flaws, Objective, PuzzleId, Studied};

/// A puzzle's place in an order, with what was weighed.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Placed {
    /// The puzzle.
    pub id: PuzzleId,
    /// Techniques that nobody knows yet: not from the start, nor from a puzzle before.
    pub new: BTreeSet<TechniqueId>,
    /// Techniques known by then.
    pub practised: BTreeSet<TechniqueId>,
    /// What a new technique builds on and nobody has been shown.
    pub unprepared: BTreeSet<TechniqueId>,
    /// Expected seconds more (or, negative, fewer) than the puzzle before; none for the first.
    pub step_up: Option<i64>,
    /// The technique with which it opens.
    pub break_in: Option<TechniqueId>,
    /// How far the place falls short.
    pub flaws: Flaws,
}

impl Objective {
    /// Explains an order: what is new at each place, and how it compares with the one before.
    ///
    /// Puzzles that are not among `studied` are left out.
    pub fn place(&self, order: &[PuzzleId], studied: &[Studied]) -> Vec<Placed> {
        let board = Board::new(self, studied);
        let order = board.places_of(order);
        let mut placed = Vec::new();
        let mut so_far = START;
        for at in order {
            let it = board.studied(at);
            let new = board.techniques_of(board.new_in(&so_far, at));
            placed.push(Placed {
                id: it.id.clone(),
                practised: it.techniques.difference(&new).copied().collect(),
                new,
                unprepared: board.techniques_of(board.unprepared_in(&so_far, at)),
                step_up: so_far
                    .last
                    .map(|last| it.seconds.cast_signed() - board.studied(last).seconds.cast_signed()),
                break_in: it.break_in,
                flaws: board.flaws(&so_far, at),
            });
            so_far = board.then(so_far, at);
        }
        placed
    }

    /// What an order costs; puzzles that are not among `studied` cost nothing.
    pub fn costs(&self, order: &[PuzzleId], studied: &[Studied]) -> Costs {
        let board = Board::new(self, studied);
        board.costs(&board.places_of(order))
    }
}
