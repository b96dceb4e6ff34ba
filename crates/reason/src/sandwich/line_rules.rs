//! What a line's crusts and its sum allow: which digits its cells can hold together.
//!
//! A *way* is a pair of places for the crusts, with a set of digits for the cells between. Nothing here
//! knows a position: it works on whatever digits it is told are left to the cells, so that it can be
//! asked again with less known.

use grid::{Digit, DigitSet};

use crate::layouts::{fitting, has_layout};
use crate::view::{Pair, all_pairs, n_between};

/// What holds for a line apart from the digits left to its cells.
pub(crate) struct LineRules<'a> {
    /// The digits that are no crusts.
    pub(crate) filling: DigitSet,
    /// The 1 and the largest digit, each alone.
    pub(crate) crusts: (DigitSet, DigitSet),
    /// The fewest and the most cells between the crusts.
    pub(crate) spread: (usize, usize),
    /// The sets that can lie between the crusts; none where sums do not count.
    pub(crate) sets: Option<&'a [DigitSet]>,
}

impl LineRules<'_> {
    /// The pairs of places for the crusts that the digits left allow, without looking at the sum: one
    /// end can be the 1 and the other the largest digit, every other cell can be filling, and the
    /// distance is right.
    pub(crate) fn pairs<'c>(&'c self, cells: &'c [DigitSet]) -> impl Iterator<Item = Pair> + 'c {
        let never_filling: Vec<usize> =
            (0..cells.len()).filter(|at| (cells[*at] & self.filling).is_empty()).collect();
        all_pairs(cells.len()).filter(move |pair| {
            self.allows(pair)
                && never_filling.iter().all(|at| pair.0 == *at || pair.1 == *at)
                && !self.ends(cells, *pair).0.is_empty()
        })
    }

    /// Whether the pair has the right distance.
    pub(crate) fn allows(&self, pair: &Pair) -> bool {
        (self.spread.0..=self.spread.1).contains(&n_between(pair))
    }

    /// Whether the cells can be filled in some way.
    pub(crate) fn has_way(&self, cells: &[DigitSet]) -> bool {
        self.pairs(cells).any(|pair| match self.sets {
            None => true,
            Some(sets) => sets.iter().any(|set| self.fits(cells, pair, *set)),
        })
    }

    /// The digits each cell holds in some way, and how many pairs of places the crusts have in some way.
    pub(crate) fn leaves(&self, cells: &[DigitSet]) -> (Vec<DigitSet>, usize) {
        let mut leaves = vec![DigitSet::EMPTY; cells.len()];
        let mut n_pairs = 0;
        for pair in self.pairs(cells) {
            let mut is_possible = false;
            match self.sets {
                None => {
                    is_possible = true;
                    for (at, it) in leaves.iter_mut().enumerate() {
                        *it = *it | (cells[at] & self.filling);
                    }
                }
                Some(sets) => {
                    for set in sets {
                        is_possible |= self.add(cells, pair, *set, &mut leaves);
                    }
                }
            }
            if is_possible {
                n_pairs += 1;
                let (left, right) = self.ends(cells, pair);
                leaves[pair.0] = leaves[pair.0] | left;
                leaves[pair.1] = leaves[pair.1] | right;
            }
        }
        (leaves, n_pairs)
    }

    /// Calls `add` with what each way leaves while a cell holds a digit, for each that it can hold: the cell's
    /// place, the digit, and the digits that each cell can hold then. False if there are more than so many
    /// ways.
    pub(crate) fn each_holding(
        &self,
        cells: &[DigitSet],
        most_ways: usize,
        mut add: impl FnMut(usize, Digit, &[DigitSet]),
    ) -> bool {
        let Some(sets) = self.sets else { return false };
        let pairs: Vec<Pair> = self.pairs(cells).collect();
        let mut n_ways = 0;
        for pair in pairs {
            let (left, right) = self.ends(cells, pair);
            for set in sets {
                let Some(sides) = self.sides(cells, pair, *set) else { continue };
                let fits = sides.each_ref().map(|it| fitting(&it.allowed));
                let [Some(between), Some(outside)] = fits else { continue };
                n_ways += 1;
                if n_ways > most_ways {
                    return false;
                }
                let mut leaves = vec![DigitSet::EMPTY; cells.len()];
                (leaves[pair.0], leaves[pair.1]) = (left, right);
                for (side, fits) in sides.iter().zip([&between, &outside]) {
                    side.places.iter().zip(fits).for_each(|(at, it)| leaves[*at] = *it);
                }
                for (at, other) in [pair, (pair.1, pair.0)] {
                    for digit in leaves[at].iter() {
                        let mut then = leaves.clone();
                        then[at] = DigitSet::only(digit);
                        then[other] = then[other].without(digit);
                        add(at, digit, &then);
                    }
                }
                for (side, fits) in sides.iter().zip([between, outside]) {
                    for (nth, at) in side.places.iter().enumerate() {
                        for digit in fits[nth].iter() {
                            let mut allowed: Vec<DigitSet> =
                                fits.iter().map(|it| it.without(digit)).collect();
                            allowed[nth] = DigitSet::only(digit);
                            let Some(fits) = fitting(&allowed) else { continue };
                            let mut then = leaves.clone();
                            side.places.iter().zip(fits).for_each(|(at, it)| then[*at] = it);
                            add(*at, digit, &then);
                        }
                    }
                }
            }
        }
        true
    }

    /// The crust digits each end of the pair can hold while the other holds the other one.
    fn ends(&self, cells: &[DigitSet], (left, right): Pair) -> (DigitSet, DigitSet) {
        let (one, last) = self.crusts;
        let (a, b) = (cells[left], cells[right]);
        let mut ends = (DigitSet::EMPTY, DigitSet::EMPTY);
        for (at_left, at_right) in [(one, last), (last, one)] {
            if at_left.is_subset(a) && at_right.is_subset(b) {
                ends = (ends.0 | at_left, ends.1 | at_right);
            }
        }
        ends
    }

    /// Whether the set can lie between the crusts at these places and the other filling digits outside.
    fn fits(&self, cells: &[DigitSet], pair: Pair, set: DigitSet) -> bool {
        self.sides(cells, pair, set).is_some_and(|sides| sides.iter().all(|it| has_layout(&it.allowed)))
    }

    /// Adds what the cells other than the crusts hold where the set lies between; false if it cannot.
    fn add(&self, cells: &[DigitSet], pair: Pair, set: DigitSet, leaves: &mut [DigitSet]) -> bool {
        let Some(sides) = self.sides(cells, pair, set) else { return false };
        let [Some(between), Some(outside)] = sides.each_ref().map(|it| fitting(&it.allowed)) else {
            return false;
        };
        for (side, fits) in sides.iter().zip([between, outside]) {
            for (at, digits) in side.places.iter().zip(fits) {
                leaves[*at] = leaves[*at] | digits;
            }
        }
        true
    }

    /// The cells between and outside with the digits they could take; none if a cell has none.
    fn sides(&self, cells: &[DigitSet], pair: Pair, set: DigitSet) -> Option<[Cells; 2]> {
        if set.len() != n_between(&pair) {
            return None;
        }
        let (left, right) = pair;
        let rest = self.filling - set;
        let is_between = |at: usize| left < at && at < right;
        let others = (0..cells.len()).filter(|at| *at != left && *at != right);
        if others.clone().any(|at| (cells[at] & if is_between(at) { set } else { rest }).is_empty()) {
            return None;
        }
        let side = |between: bool, digits: DigitSet| {
            let places: Vec<usize> = others.clone().filter(|at| is_between(*at) == between).collect();
            let allowed = places.iter().map(|at| cells[*at] & digits).collect();
            Cells { places, allowed }
        };
        Some([side(true, set), side(false, rest)])
    }
}

/// Some cells of a line, by their places in it, with the digits they could take.
struct Cells {
    places: Vec<usize>,
    allowed: Vec<DigitSet>,
}
