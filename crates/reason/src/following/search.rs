//! The fewest houses between which a supposition comes to an end.
//!
//! Each supposition is followed through the whole board first, which most survive. For the others, those first that
//! fall soonest, sets of houses are grown by houses that see something new, until one has no way left. What ends only
//! after too many looks is left out. No set is passed over but for the limit on work, so no fewer houses would do.

use std::collections::BTreeSet;

use grid::{Cell, CellSet, DigitSet};

use super::MOST_LOOKS;
use super::looks::{Board, Houses, Look, Looks, NoWay};
use crate::View;

/// That a cell holds one of some digits.
pub(super) type Supposed = (Cell, DigitSet);

/// A supposition that ends, with the looks that lead there.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) struct Ending {
    pub(super) supposed: Supposed,
    pub(super) looks: Vec<Look>,
}

/// A search that takes more looks than this is given up: nobody looks for so long.
const MOST_IN_ALL: usize = 500_000;

/// Once so many sets of houses are known in which something ends, no more are looked for.
const ENOUGH: usize = 6;

/// Some sets of the fewest houses that end anything, each with all that ends in it; those that end most first.
pub(super) fn fewest(view: &View, looks: &Looks) -> Vec<Vec<Ending>> {
    let mut board = [DigitSet::EMPTY; Cell::SLOTS];
    view.size().cells().for_each(|it| board[it.slot()] = view.candidates(it));
    let mut search = Search { looks, board, looks_left: MOST_IN_ALL };
    let rounds = suppositions(view).into_iter().filter_map(|it| Some((search.rounds(it)?, it)));
    let mut ending: Vec<(usize, Supposed)> = rounds.collect();
    // What ends soon on the whole board mostly ends between few houses.
    ending.sort_by_key(|it| it.0);
    let ending: Vec<Supposed> = ending.into_iter().map(|it| it.1).collect();
    for n in 1..=MOST_LOOKS {
        let mut sets: BTreeSet<Houses> = BTreeSet::new();
        for supposed in &ending {
            sets.extend(search.sets_that_end(*supposed, n));
            if sets.len() >= ENOUGH {
                break;
            }
        }
        let of_set = |houses: Houses| {
            let all = ending
                .iter()
                .filter_map(|it| Some(Ending { supposed: *it, looks: search.sequence(*it, houses)? }));
            all.collect::<Vec<Ending>>()
        };
        let mut found: Vec<Vec<Ending>> = sets.into_iter().map(of_set).filter(|it| !it.is_empty()).collect();
        if !found.is_empty() {
            found.sort_by_key(|it| std::cmp::Reverse(it.len()));
            return found;
        }
    }
    Vec::new()
}

/// What may be tried: each digit, then each kind of which more than one digit is left.
fn suppositions(view: &View) -> Vec<Supposed> {
    let of_cell = |cell: Cell| {
        let left = view.candidates(cell);
        let kinds = [left & view.filling_digits(), left - view.filling_digits()];
        let has_sandwiches = !view.clued_lines().is_empty();
        let kinds = kinds.into_iter().filter(move |it| has_sandwiches && it.len() > 1 && *it != left);
        kinds.chain(left.iter().map(DigitSet::only)).map(move |it| (cell, it)).collect::<Vec<_>>()
    };
    view.open_cells().flat_map(of_cell).collect()
}

struct Search<'l, 'v> {
    looks: &'l Looks<'v>,
    board: Board,
    looks_left: usize,
}

impl Search<'_, '_> {
    fn supposing(&self, (cell, digits): Supposed) -> (Board, Houses) {
        let mut board = self.board;
        board[cell.slot()] = board[cell.slot()] & digits;
        (board, self.looks.touching([cell].into_iter().collect::<CellSet>()))
    }

    /// In how many rounds the supposition ends if all houses are looked at in each; none if that takes more than
    /// looks may be taken, which are no fewer.
    fn rounds(&mut self, supposed: Supposed) -> Option<usize> {
        let (mut board, mut fresh) = self.supposing(supposed);
        (1..=MOST_LOOKS).find(|_| {
            let before = board;
            let mut changed = CellSet::EMPTY;
            for house in members(fresh) {
                self.looks_left = self.looks_left.saturating_sub(1);
                let look = self.looks.fullest(house);
                let Ok(leaves) = self.looks.leaves(&before, look) else { return true };
                for (cell, left) in self.looks.cells(house).iter().zip(leaves) {
                    if !before[cell.slot()].is_subset(left) {
                        board[cell.slot()] = board[cell.slot()] & left;
                        changed.insert(*cell);
                    }
                }
            }
            fresh = self.looks.touching(changed);
            false
        })
    }

    /// Looks at those of the houses that are `fresh`, that is, have lost something since the last look, until
    /// nothing changes. Gives the fresh houses outside.
    fn settle(&mut self, board: &mut Board, houses: Houses, mut fresh: Houses) -> Result<Houses, NoWay> {
        while fresh & houses != 0 && self.looks_left > 0 {
            self.looks_left -= 1;
            let house = (fresh & houses).trailing_zeros() as usize;
            let changed = self.looks.take(board, self.looks.fullest(house))?;
            fresh = (fresh | self.looks.touching(changed)) & !(1 << house);
        }
        Ok(fresh)
    }

    /// Every set of `n` houses in which the supposition ends, and that no smaller one would do for.
    fn sets_that_end(&mut self, supposed: Supposed, n: usize) -> Vec<Houses> {
        let (board, fresh) = self.supposing(supposed);
        let mut grown = Grown { n, seen: BTreeSet::new(), ending: Vec::new() };
        self.grow(&board, 0, fresh, &mut grown);
        grown.ending
    }

    fn grow(&mut self, board: &Board, houses: Houses, fresh: Houses, grown: &mut Grown) {
        let mut next = fresh & !houses;
        while next != 0 {
            let house = next & next.wrapping_neg();
            next &= next - 1;
            let more = houses | house;
            if !grown.seen.insert(more) {
                continue;
            }
            let n_houses = more.count_ones() as usize;
            let mut then = *board;
            match self.settle(&mut then, more, fresh) {
                Err(NoWay) => grown.ending.extend((n_houses == grown.n).then_some(more)),
                Ok(fresh) if n_houses < grown.n && then != *board => {
                    self.grow(&then, more, fresh, grown);
                }
                Ok(_) => {}
            }
        }
    }

    /// The fewest looks at these houses in which the supposition ends; none if they are too many.
    fn sequence(&mut self, supposed: Supposed, houses: Houses) -> Option<Vec<Look>> {
        let (board, fresh) = self.supposing(supposed);
        let mut open: Vec<(Board, Houses, Vec<Look>)> = vec![(board, fresh & houses, Vec::new())];
        for _ in 0..MOST_LOOKS {
            let mut next: Vec<(Board, Houses, Vec<Look>)> = Vec::new();
            for (board, fresh, taken) in open {
                for house in members(fresh) {
                    self.looks_left = self.looks_left.saturating_sub(1);
                    let mut then = board;
                    let look = self.looks.fullest(house);
                    let with = |mut taken: Vec<Look>| {
                        taken.push(look);
                        taken
                    };
                    let Ok(changed) = self.looks.take(&mut then, look) else {
                        return Some(with(taken));
                    };
                    let touched = self.looks.touching(changed) & houses;
                    if !changed.is_empty() && !next.iter().any(|it| it.0 == then) {
                        next.push((then, (fresh | touched) & !(1 << house), with(taken.clone())));
                    }
                }
            }
            open = next;
        }
        None
    }
}

/// The places of the houses of a set.
fn members(mut houses: Houses) -> impl Iterator<Item = usize> {
    std::iter::from_fn(move || {
        let first = houses.trailing_zeros() as usize;
        (houses != 0).then(|| {
            houses &= houses - 1;
            first
        })
    })
}

/// Sets of houses while they are grown.
struct Grown {
    n: usize,
    seen: BTreeSet<Houses>,
    ending: Vec<Houses>,
}
