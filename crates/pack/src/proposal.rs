//! The order in which puzzles teach best.

use crate::board::Board;
use crate::exact::{EXACT, best_of_all};
use crate::improve::improved;
use crate::{Objective, PuzzleId, Studied, bound};

/// An order that Galley proposes.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Proposal {
    /// The puzzles that have a place, in order.
    pub order: Vec<PuzzleId>,
    /// What it costs.
    pub cost: u64,
    /// No order costs less than this. Equal to `cost` where the order is proved to be the best.
    pub at_least: u64,
}

impl Objective {
    /// The order of all puzzles with the least cost; ties are broken by puzzle id, the smaller first.
    ///
    /// Up to 15 puzzles it is the best there is. Beyond, it is the best that was met by moving puzzles about, and
    /// `at_least` says how far from the best it may be.
    pub fn propose(&self, studied: &[Studied]) -> Proposal {
        let board = Board::new(self, studied);
        let n = board.n();
        self.choose_among(&board, n)
    }

    /// The same with fewer places than puzzles: which to take, and in which order. Those that are not optional, or
    /// pinned, are taken. None if there are more of them than places.
    pub fn choose(&self, studied: &[Studied], n_places: usize) -> Option<Proposal> {
        let board = Board::new(self, studied);
        let n_places = n_places.min(board.n());
        let n_certain = certain(&board, n_places).into_iter().filter(|it| *it).count();
        (n_certain <= n_places).then(|| self.choose_among(&board, n_places))
    }

    fn choose_among(&self, board: &Board<'_>, n_places: usize) -> Proposal {
        let certain = certain(board, n_places);
        let (order, at_least) = match board.n() {
            0..=EXACT => (best_of_all(board, n_places, &certain), None),
            _ => (improved(board, n_places, &certain), Some(bound::at_least(board, n_places))),
        };
        let cost = board.total(&order);
        Proposal { order: board.ids_of(&order), cost, at_least: at_least.unwrap_or(cost) }
    }
}

/// By puzzle: whether it must have a place.
fn certain(board: &Board<'_>, n_places: usize) -> Vec<bool> {
    let pinned = board.pinned(n_places);
    (0..board.n()).map(|it| !board.studied(it).is_optional || pinned.contains(&Some(it))).collect()
}
