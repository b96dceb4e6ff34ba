//! One line as its crusts allow: where they can be, which cells lie between or outside for certain,
//! which digit sets still make its sum, and the reasons for all of it.

use grid::{Cell, Digit, DigitSet, House};
use rulebook::{filling_digits, filling_sets};
use trail::{Cites, Side};

use crate::View;

/// The places left for a line's crusts, as known facts leave them.
pub(crate) struct Line<'v, 'a> {
    view: &'v View<'a>,
    /// The row or column.
    pub(crate) line: House,
    /// Its cells, from the start.
    pub(crate) cells: Vec<Cell>,
    /// The pairs of places (from 0) left for the two crusts.
    pub(crate) pairs: Vec<(usize, usize)>,
}

impl<'v, 'a> Line<'v, 'a> {
    pub(crate) fn new(view: &'v View<'a>, line: House) -> Line<'v, 'a> {
        let mut it = Line { view, line, cells: view.size().cells_of(line), pairs: Vec::new() };
        it.pairs = it.all_pairs().filter(|pair| !it.is_excluded(*pair)).collect();
        it
    }

    fn all_pairs(&self) -> impl Iterator<Item = (usize, usize)> + use<> {
        let n = self.cells.len();
        (0..n).flat_map(move |left| (left + 1..n).map(move |right| (left, right)))
    }

    /// How many cells lie between the crusts: each number some pair has, rising.
    pub(crate) fn counts(&self) -> Vec<usize> {
        let mut counts: Vec<usize> = self.pairs.iter().map(|(left, right)| right - left - 1).collect();
        counts.sort_unstable();
        counts.dedup();
        counts
    }

    /// Whether some pair puts the cell (its place, from 0) on that side.
    pub(crate) fn may_be(&self, side: Side, at: usize) -> bool {
        self.pairs.iter().any(|pair| is_on(side, *pair, at))
    }

    /// Whether every pair puts the cell on that side.
    pub(crate) fn must_be(&self, side: Side, at: usize) -> bool {
        !self.pairs.is_empty() && self.pairs.iter().all(|pair| is_on(side, *pair, at))
    }

    /// Adds to `cites` why the cell is on that side wherever the crusts are.
    #[must_use]
    pub(crate) fn why_must_be(&self, side: Side, at: usize, cites: &mut Cites) -> bool {
        self.why_no_pair(|pair| !is_on(side, pair, at), cites)
    }

    /// Adds to `cites` why the cell is not on that side wherever the crusts are.
    #[must_use]
    pub(crate) fn why_never(&self, side: Side, at: usize, cites: &mut Cites) -> bool {
        self.why_no_pair(|pair| is_on(side, pair, at), cites)
    }

    /// Adds to `cites` why none of the pairs that `which` picks can hold the crusts. False if one of
    /// them can.
    ///
    /// A reason cited already is taken first, then known crusts, then the distance (each rules out
    /// many pairs at once), and last the filling cells one by one.
    #[must_use]
    pub(crate) fn why_no_pair(&self, which: impl Fn((usize, usize)) -> bool, cites: &mut Cites) -> bool {
        let mut wanted: Vec<(usize, usize)> = self.all_pairs().filter(|it| which(*it)).collect();
        if wanted.iter().any(|it| !self.is_excluded(*it)) {
            return false;
        }
        cites.houses.insert(self.line);
        for at in 0..self.cells.len() {
            let rules_out = |pair: &(usize, usize)| pair.0 != at && pair.1 != at;
            if self.view.is_crust(self.cells[at]) && wanted.iter().any(rules_out) {
                wanted.retain(|it| !rules_out(it));
                _ = self.view.why_crust(self.cells[at], cites);
            }
        }
        if let Some((fact, ..)) = self.view.distance(self.line)
            && wanted.iter().any(|it| self.is_too_near_or_far(*it))
        {
            wanted.retain(|it| !self.is_too_near_or_far(*it));
            cites.facts.insert(fact);
        }
        while let Some(at) = self.filling_cell_that_rules_out_most(&wanted) {
            wanted.retain(|pair| pair.0 != at && pair.1 != at);
            _ = self.view.why_filling(self.cells[at], cites);
        }
        wanted.is_empty()
    }

    fn filling_cell_that_rules_out_most(&self, pairs: &[(usize, usize)]) -> Option<usize> {
        let hits = |at: &usize| pairs.iter().filter(|it| it.0 == *at || it.1 == *at).count();
        let filling = (0..self.cells.len()).rev().filter(|at| self.view.is_filling(self.cells[*at]));
        filling.filter(|at| hits(at) > 0).max_by_key(hits)
    }

    fn is_too_near_or_far(&self, (left, right): (usize, usize)) -> bool {
        let distance = self.view.distance(self.line);
        distance.is_some_and(|(_, fewest, most)| {
            !(usize::from(fewest)..=usize::from(most)).contains(&(right - left - 1))
        })
    }

    fn is_excluded(&self, pair: (usize, usize)) -> bool {
        let elsewhere =
            |(at, cell): (usize, &Cell)| at != pair.0 && at != pair.1 && self.view.is_crust(*cell);
        self.view.is_filling(self.cells[pair.0])
            || self.view.is_filling(self.cells[pair.1])
            || self.is_too_near_or_far(pair)
            || self.cells.iter().enumerate().any(elsewhere)
    }

    /// The filling sets that still make the clue's sum, and those that something excludes.
    pub(crate) fn sets(&self, sum: u16) -> Sets {
        let counts = self.counts();
        let mut sets = Sets { left: Vec::new(), excluded: Vec::new() };
        for set in filling_sets(self.view.size(), sum) {
            match self.misfit(set) {
                _ if !counts.contains(&set.len()) => sets.excluded.push((set, None)),
                Some(digit) => sets.excluded.push((set, Some(digit))),
                None => sets.left.push(set),
            }
        }
        sets
    }

    /// A digit that shows that the set does not fit: it would have to be on a side where it cannot be.
    fn misfit(&self, set: DigitSet) -> Option<Digit> {
        filling_digits(self.view.size()).iter().find(|digit| {
            let side = side_of(set, *digit);
            !(0..self.cells.len()).any(|at| self.can_hold(side, at, *digit))
        })
    }

    /// Whether the cell may lie on that side and hold the digit.
    pub(crate) fn can_hold(&self, side: Side, at: usize, digit: Digit) -> bool {
        self.view.candidates(self.cells[at]).contains(digit) && self.may_be(side, at)
    }

    /// Adds to `cites` why each of the excluded sets is excluded.
    #[must_use]
    pub(crate) fn why_excluded(&self, excluded: &[(DigitSet, Option<Digit>)], cites: &mut Cites) -> bool {
        excluded.iter().all(|(set, digit)| match digit {
            None => self.why_no_pair(|(left, right)| right - left - 1 == set.len(), cites),
            Some(digit) => {
                (0..self.cells.len()).all(|at| self.why_cannot_hold(side_of(*set, *digit), at, *digit, cites))
            }
        })
    }

    /// Adds to `cites` why the cell cannot both lie on that side and hold the digit.
    #[must_use]
    pub(crate) fn why_cannot_hold(&self, side: Side, at: usize, digit: Digit, cites: &mut Cites) -> bool {
        self.view.why_not(self.cells[at], digit, cites) || self.why_never(side, at, cites)
    }
}

/// The filling sets of a line's sum.
pub(crate) struct Sets {
    /// Those still possible, fewest digits first.
    pub(crate) left: Vec<DigitSet>,
    /// The others: with the digit that does not fit, or none where the number of cells does not.
    pub(crate) excluded: Vec<(DigitSet, Option<Digit>)>,
}

impl Sets {
    /// The digits that every possible set contains.
    pub(crate) fn in_all(&self) -> DigitSet {
        self.left.iter().copied().reduce(|all, it| all & it).unwrap_or_default()
    }

    /// The digits that some possible set contains.
    pub(crate) fn in_some(&self) -> DigitSet {
        self.left.iter().fold(DigitSet::EMPTY, |all, it| all | *it)
    }
}

/// The side on which a digit lies when `between` lies between the crusts.
fn side_of(between: DigitSet, digit: Digit) -> Side {
    match between.contains(digit) {
        true => Side::Between,
        false => Side::Outside,
    }
}

fn is_on(side: Side, (left, right): (usize, usize), at: usize) -> bool {
    match side {
        Side::Between => left < at && at < right,
        Side::Outside => at < left || right < at,
    }
}
