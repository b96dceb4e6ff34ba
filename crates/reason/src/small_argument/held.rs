//! What a person can hold in view together: a house, with the clue beside it and what is known of it.

use std::ops::ControlFlow;

use grid::{CellSet, House, Size};

use super::premise::{self, Premise};
use crate::View;

/// A house that has open cells, and all premises that come with it.
pub(super) struct Held {
    house: House,
    /// The cells whose digit is not known.
    open: CellSet,
    pub(super) premises: Vec<Premise>,
}

/// A set of [`Held`]s, by their places in the list of all: bit 0 stands for the first.
pub(super) type HeldSet = u64;

/// Each house that still has open cells.
pub(super) fn all(view: &View) -> Vec<Held> {
    let premises = premise::premises(view);
    let open: CellSet = view.open_cells().collect();
    let held = view.size().houses().map(|house| {
        let premises: Vec<Premise> = premises.iter().copied().filter(|it| it.house() == house).collect();
        let open = view.size().cells_of(house).into_iter().filter(|it| open.contains(*it)).collect();
        Held { house, open, premises }
    });
    held.filter(|it| !it.open.is_empty()).collect()
}

impl Held {
    /// The cells whose digit is not known.
    pub(super) fn open(&self) -> CellSet {
        self.open
    }

    /// The house.
    pub(super) fn house(&self) -> House {
        self.house
    }

    /// The house's bit in a set of all houses.
    pub(super) fn bit(&self, size: Size) -> u64 {
        1 << size.house_index(self.house)
    }
}

/// Visits every connected set of `n` of them, each once, always in the same order.
///
/// Two are connected if they share an open cell. What is proved by a set that is not connected is
/// proved by one of its parts alone, because the puzzle has a solution.
///
/// The enumeration is the one known for motifs in networks: each set is grown from its first member by
/// neighbours that no earlier member had (S. Wernicke, IEEE/ACM TCBB 3(4), 2006; from memory).
pub(super) fn connected(
    held: &[Held],
    n: usize,
    mut visit: impl FnMut(HeldSet) -> ControlFlow<()>,
) -> ControlFlow<()> {
    let neighbours_of = |(at, it): (usize, &Held)| {
        let shares = |other: &usize| *other != at && !(it.open & held[*other].open).is_empty();
        (0..held.len()).filter(shares).fold(0, |all, it| all | 1 << it)
    };
    let grow = Grow { neighbours: held.iter().enumerate().map(neighbours_of).collect(), n };
    (0..held.len()).try_for_each(|first| {
        let later = (HeldSet::MAX << first) << 1;
        let next = grow.neighbours[first] & later;
        grow.from(1 << first, next, later & !next, &mut visit)
    })
}

struct Grow {
    /// By place: what it is connected to.
    neighbours: Vec<HeldSet>,
    n: usize,
}

impl Grow {
    /// Grows `set` by members of `next`; `fresh` are later members that are connected to none of the set.
    fn from(
        &self,
        set: HeldSet,
        mut next: HeldSet,
        fresh: HeldSet,
        visit: &mut impl FnMut(HeldSet) -> ControlFlow<()>,
    ) -> ControlFlow<()> {
        if set.count_ones() as usize == self.n {
            return visit(set);
        }
        while next != 0 {
            let at = next.trailing_zeros() as usize;
            next &= next - 1;
            let new = self.neighbours[at] & fresh;
            self.from(set | 1 << at, next | new, fresh & !new, visit)?;
        }
        ControlFlow::Continue(())
    }
}

/// Those held that the premises come with.
pub(super) fn holding(held: &[Held], premises: &[Premise]) -> HeldSet {
    let comes_with = |it: &Held| premises.iter().any(|premise| premise.house() == it.house);
    held.iter().enumerate().filter(|it| comes_with(it.1)).fold(0, |all, (at, _)| all | 1 << at)
}

/// The members of a set, in order.
pub(super) fn members(mut set: HeldSet) -> impl Iterator<Item = usize> {
    std::iter::from_fn(move || {
        let first = set.trailing_zeros() as usize;
        (set != 0).then(|| {
            set &= set - 1;
            first
        })
    })
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use grid::{Grid, Size};
    use rulebook::Puzzle;

    use super::*;

    /// Every set of the members, with a flood from its first for the oracle.
    #[test]
    fn connected_sets_are_those_that_a_flood_fills() {
        let puzzle = Puzzle::new(Grid::empty(Size::of_side(4).unwrap()), []);
        let held = all(&View::new(&puzzle));
        let is_connected = |set: HeldSet| {
            let mut filled = 1u64 << set.trailing_zeros();
            loop {
                let touches =
                    |it: &usize| members(filled).any(|at| !(held[at].open & held[*it].open).is_empty());
                let more = members(set).filter(touches).fold(filled, |all, it| all | 1 << it);
                if more == filled {
                    return filled == set;
                }
                filled = more;
            }
        };
        for n in 1..=4 {
            let mut seen = Vec::new();
            let visited = connected(&held, n, |set| {
                seen.push(set);
                ControlFlow::Continue(())
            });
            assert!(visited.is_continue());
            let expected: BTreeSet<HeldSet> = (0..1u64 << held.len())
                .filter(|it| it.count_ones() as usize == n && is_connected(*it))
                .collect();
            assert_eq!(seen.len(), expected.len(), "{n}: some set comes twice");
            assert_eq!(seen.into_iter().collect::<BTreeSet<_>>(), expected, "{n}");
        }
    }
}
