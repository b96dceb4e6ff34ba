//! What a line's crusts and its sum allow: which digits its cells can hold together.
//!
//! A *way* is a pair of places for the crusts, with a set of digits for the cells between. Nothing here
//! knows a position: it works on whatever digits it is told are left to the cells, so that it can be
//! asked again with less known.

use grid::{Digit, DigitSet};
use trail::Side;

use crate::layouts::{fit, fitting, has_layout};
use crate::view::{Pair, all_pairs, is_on, n_between, uses};

/// What holds for a line apart from the digits left to its cells.
#[derive(Clone)]
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
        let never_filling = (0..cells.len()).filter(|at| (cells[*at] & self.filling).is_empty());
        let never_filling: u16 = never_filling.fold(0, |all, at| all | 1 << at);
        all_pairs(cells.len()).filter(move |pair| {
            never_filling & !(1 << pair.0 | 1 << pair.1) == 0
                && self.allows(pair)
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
        let mut add = |way: &[DigitSet]| leaves.iter_mut().zip(way).for_each(|(all, it)| *all = *all | *it);
        let mut n_pairs = 0;
        for pair in self.pairs(cells) {
            let ways = self.ways_at(cells, pair);
            n_pairs += usize::from(!ways.is_empty());
            ways.iter().for_each(|it| add(it));
        }
        (leaves, n_pairs)
    }

    /// Shows every way, as the places of the crusts and the digits each cell holds in it, until `visit`
    /// says no.
    pub(crate) fn each_way(&self, cells: &[DigitSet], visit: &mut impl FnMut(Pair, Vec<DigitSet>) -> bool) {
        let mut ways = self
            .pairs(cells)
            .flat_map(|pair| self.ways_at(cells, pair).into_iter().map(move |it| (pair, it)));
        _ = ways.all(|(pair, way)| visit(pair, way));
    }

    /// The ways that have the crusts at these places. Where sums do not count, there is one.
    fn ways_at(&self, cells: &[DigitSet], pair: Pair) -> Vec<Vec<DigitSet>> {
        let Some(sets) = self.sets else {
            let mut way: Vec<DigitSet> = cells.iter().map(|it| *it & self.filling).collect();
            (way[pair.0], way[pair.1]) = self.ends(cells, pair);
            return vec![way];
        };
        sets.iter().filter_map(|set| self.way(cells, pair, *set)).collect()
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
                let fits = sides.each_ref().map(|it| fitting(it.allowed()));
                let [Some(between), Some(outside)] = fits else { continue };
                n_ways += 1;
                if n_ways > most_ways {
                    return false;
                }
                let mut leaves = vec![DigitSet::EMPTY; cells.len()];
                (leaves[pair.0], leaves[pair.1]) = (left, right);
                for (side, fits) in sides.iter().zip([&between, &outside]) {
                    side.places().zip(fits).for_each(|(at, it)| leaves[at] = *it);
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
                    for (nth, at) in side.places().enumerate() {
                        for digit in fits[nth].iter() {
                            let mut allowed: Vec<DigitSet> =
                                fits.iter().map(|it| it.without(digit)).collect();
                            allowed[nth] = DigitSet::only(digit);
                            let Some(fits) = fitting(&allowed) else { continue };
                            let mut then = leaves.clone();
                            side.places().zip(fits).for_each(|(at, it)| then[at] = it);
                            add(at, digit, &then);
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
        self.sides(cells, pair, set).is_some_and(|sides| sides.iter().all(|it| has_layout(it.allowed())))
    }

    /// What each cell holds where the crusts are at these places and the set lies between; none if it
    /// cannot.
    fn way(&self, cells: &[DigitSet], pair: Pair, set: DigitSet) -> Option<Vec<DigitSet>> {
        let sides = self.sides(cells, pair, set)?;
        let mut way = vec![DigitSet::EMPTY; cells.len()];
        (way[pair.0], way[pair.1]) = self.ends(cells, pair);
        for mut side in sides {
            if !fit(side.allowed_mut()) {
                return None;
            }
            side.places().zip(side.allowed()).for_each(|(at, digits)| way[at] = *digits);
        }
        Some(way)
    }

    /// The cells between and outside with the digits they could take; none if a cell has none.
    fn sides(&self, cells: &[DigitSet], pair: Pair, set: DigitSet) -> Option<[Cells; 2]> {
        if set.len() != n_between(&pair) {
            return None;
        }
        let rest = self.filling - set;
        let mut sides = [Cells::NONE; 2];
        for (at, left) in cells.iter().enumerate().filter(|it| !uses(pair, it.0)) {
            let is_between = is_on(Side::Between, pair, at);
            let allowed = *left & if is_between { set } else { rest };
            if allowed.is_empty() {
                return None;
            }
            sides[usize::from(!is_between)].add(at, allowed);
        }
        Some(sides)
    }
}

/// The most cells a line has.
const LONGEST: usize = 16;

/// Some cells of a line, by their places in it, with the digits they could take.
struct Cells {
    n: usize,
    places: [u8; LONGEST],
    allowed: [DigitSet; LONGEST],
}

impl Cells {
    const NONE: Cells = Cells { n: 0, places: [0; LONGEST], allowed: [DigitSet::EMPTY; LONGEST] };

    fn add(&mut self, place: usize, allowed: DigitSet) {
        self.places[self.n] = place as u8;
        self.allowed[self.n] = allowed;
        self.n += 1;
    }

    fn places(&self) -> impl Iterator<Item = usize> {
        self.places[..self.n].iter().map(|it| usize::from(*it))
    }

    fn allowed(&self) -> &[DigitSet] {
        &self.allowed[..self.n]
    }

    fn allowed_mut(&mut self) -> &mut [DigitSet] {
        &mut self.allowed[..self.n]
    }
}
