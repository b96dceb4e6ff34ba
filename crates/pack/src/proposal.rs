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
        (n_certain(&certain(&board, n_places)) <= n_places).then(|| self.choose_among(&board, n_places))
    }

    /// The order of so many of the puzzles with the least cost, if they are few enough for that to be proved: 15 at most.
    /// None too if more of them must have a place than there are places.
    pub fn best(&self, studied: &[Studied], n_places: usize) -> Option<Proposal> {
        if studied.len() > EXACT {
            return None;
        }
        self.choose(studied, n_places)
    }

    /// What no order of so many of the puzzles costs less than: up to 15 puzzles what the best one costs.
    pub fn at_least(&self, studied: &[Studied], n_places: usize) -> u64 {
        let board = Board::new(self, studied);
        let n_places = n_places.min(board.n());
        let certain = certain(&board, n_places);
        match board.n() {
            0..=EXACT => board.total(&best_of_all(&board, n_places, &certain)),
            _ => bound::at_least(&board, n_places, &certain),
        }
    }

    fn choose_among(&self, board: &Board<'_>, n_places: usize) -> Proposal {
        let certain = certain(board, n_places);
        let (order, at_least) = match board.n() {
            0..=EXACT => (best_of_all(board, n_places, &certain), None),
            _ => (improved(board, n_places, &certain, &[]), Some(bound::at_least(board, n_places, &certain))),
        };
        let cost = board.total(&order);
        Proposal { order: board.ids_of(&order), cost, at_least: at_least.unwrap_or(cost) }
    }
}

/// By puzzle: whether it must have a place.
pub(crate) fn certain(board: &Board<'_>, n_places: usize) -> Vec<bool> {
    let pinned = board.pinned(n_places);
    (0..board.n()).map(|it| !board.studied(it).is_optional || pinned.contains(&Some(it))).collect()
}

pub(crate) fn n_certain(certain: &[bool]) -> usize {
    certain.iter().filter(|it| **it).count()
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use rand::{RngExt, SeedableRng};
    use rand_chacha::ChaCha8Rng;
    use trail::TechniqueId;

    use super::*;

    const NAMES: [&str; 6] = ["a", "b", "c", "d", "e", "f"];

    fn invented(n: usize, seed: u64) -> Vec<Studied> {
        let mut random = ChaCha8Rng::seed_from_u64(seed);
        let mut one = |at: usize| Studied {
            id: PuzzleId::new(&format!("p{at:02}")).unwrap(),
            setter: random.random_range(0..3).to_string(),
            seconds: random.random_range(120..900),
            techniques: NAMES
                .iter()
                .filter(|_| random.random_bool(0.5))
                .map(|it| TechniqueId::new(it))
                .collect(),
            break_in: Some(TechniqueId::new(NAMES[random.random_range(0..3)])),
            shelf: [None, Some(0), Some(1)][random.random_range(0..3)],
            is_optional: random.random_bool(0.8),
            said: Vec::new(),
        };
        (0..n).map(&mut one).collect()
    }

    /// The bound for many puzzles, held against the best order of few: as if none but the least of packs were put in
    /// order exactly.
    #[test]
    fn no_order_costs_less_than_the_bound() {
        let (mut n_proved, mut n_above_nothing) = (0, 0);
        for seed in 0..60 {
            let all = invented(4 + seed as usize % 7, seed);
            let objective = Objective {
                prerequisites: BTreeMap::from([(TechniqueId::new("d"), [TechniqueId::new("b")].into())]),
                pins: [(all[seed as usize % 3].id.clone(), 2)].into(),
                ..Objective::default()
            };
            let board = Board::new(&objective, &all);
            for n_places in 1..=board.n() {
                let certain = certain(&board, n_places);
                if n_certain(&certain) > n_places {
                    continue;
                }
                let best = board.total(&best_of_all(&board, n_places, &certain));
                let bound = bound::at_least(&board, n_places, &certain);
                assert!(bound <= best, "seed {seed}, {n_places} places: {bound} and {best}");
                n_proved += usize::from(bound == best);
                n_above_nothing += usize::from(bound > 0 && n_places < board.n());
            }
        }
        assert!(n_proved > 0 && n_above_nothing > 200, "{n_proved}, {n_above_nothing}");
    }
}
