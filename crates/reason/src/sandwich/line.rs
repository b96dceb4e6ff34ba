//! One line as its crusts allow: which cells lie between or outside for certain, which digit sets
//! still make its sum, and the reasons for all of it.

use grid::{Cell, CellSet, Digit, DigitSet, House};
use rulebook::Claim;
use trail::{Cites, Side};

use crate::View;
use crate::view::{CluedLine, CrustPairs, OnSides, Pair, all_pairs, is_on, n_between};

/// A line of a position, with the places left for its crusts.
pub(crate) struct Line<'v, 'a> {
    view: &'v View<'a>,
    /// The row or column.
    pub(crate) line: House,
    /// Its cells, from the start.
    pub(crate) cells: &'v [Cell],
    /// Where its crusts can be, as known facts leave it.
    pub(crate) crusts: &'v CrustPairs,
}

impl<'v, 'a> Line<'v, 'a> {
    pub(crate) fn new(view: &'v View<'a>, line: House) -> Line<'v, 'a> {
        Line { view, line, cells: view.cells_of(line), crusts: view.crust_pairs(line) }
    }

    /// The cells that are on that side wherever the crusts are.
    pub(crate) fn sure_cells(&self, side: Side) -> CellSet {
        let cells = self.cells.iter().enumerate();
        cells.filter(|(at, _)| self.crusts.must_be(side, *at)).map(|it| *it.1).collect()
    }

    /// What follows where `never_between` are digits that cannot lie between the crusts and
    /// `never_outside` such that cannot lie outside: the cells that are on a side for certain lose the
    /// digits of that side. `base` is why the digits cannot lie there.
    pub(crate) fn lost_on_sides(
        &self,
        never_between: DigitSet,
        never_outside: DigitSet,
        base: &Cites,
    ) -> Vec<(Claim, Cites)> {
        let mut conclusions = Vec::new();
        for (at, side, lost) in self.losing_on_sides(never_between, never_outside) {
            let mut cites = base.clone();
            if self.why_no_pair(|pair| !is_on(side, pair, at), &mut cites) {
                conclusions.extend(lost.iter().map(|it| (Claim::IsNot(self.cells[at], it), cites.clone())));
            }
        }
        conclusions
    }

    /// What [`Line::lost_on_sides`] concludes.
    pub(crate) fn claims_on_sides(&self, never_between: DigitSet, never_outside: DigitSet) -> Vec<Claim> {
        if never_between.is_empty() && never_outside.is_empty() {
            return Vec::new();
        }
        let losing = self.losing_on_sides(never_between, never_outside);
        losing.flat_map(|(at, _, lost)| lost.iter().map(move |it| Claim::IsNot(self.cells[at], it))).collect()
    }

    /// The cells, by their places, that lose digits because of the side on which they are, with these.
    fn losing_on_sides(
        &self,
        never_between: DigitSet,
        never_outside: DigitSet,
    ) -> impl Iterator<Item = (usize, Side, DigitSet)> {
        let sides = [(Side::Between, never_between), (Side::Outside, never_outside)];
        self.cells.iter().enumerate().flat_map(move |(at, &cell)| {
            let lost = sides.map(|(side, lost)| (at, side, lost & self.view.candidates(cell)));
            lost.into_iter().filter(move |(at, side, lost)| {
                !lost.is_empty() && self.view.digit(cell).is_none() && self.crusts.must_be(*side, *at)
            })
        })
    }

    /// Adds to `cites` why none of the pairs that `which` picks can hold the crusts. False if one of
    /// them can.
    ///
    /// Known crusts are taken first, then the distance (each rules out many pairs at once), and last
    /// the filling cells, those first that rule out most.
    #[must_use]
    pub(crate) fn why_no_pair(&self, which: impl Fn(Pair) -> bool, cites: &mut Cites) -> bool {
        if self.crusts.pairs().iter().any(|it| which(*it)) {
            return false;
        }
        let n = self.cells.len();
        let mut wanted: Vec<Pair> = Vec::with_capacity(n * (n - 1) / 2);
        wanted.extend(all_pairs(n).filter(|it| which(*it)));
        cites.houses.insert(self.line);
        for (at, cell) in self.cells.iter().enumerate() {
            let rules_out = |pair: &Pair| pair.0 != at && pair.1 != at;
            if self.view.is_crust(*cell) && wanted.iter().any(rules_out) {
                wanted.retain(|it| !rules_out(it));
                _ = self.view.why_crust(*cell, cites);
            }
        }
        let is_far = |pair: &Pair| self.view.is_too_near_or_far(self.line, *pair);
        if let Some((fact, ..)) = self.view.distance(self.line)
            && wanted.iter().any(is_far)
        {
            wanted.retain(|it| !is_far(it));
            cites.facts.insert(fact);
        }
        while let Some(at) = self.filling_cell_that_rules_out_most(&wanted) {
            wanted.retain(|pair| pair.0 != at && pair.1 != at);
            _ = self.view.why_filling(self.cells[at], cites);
        }
        wanted.is_empty()
    }

    fn filling_cell_that_rules_out_most(&self, pairs: &[Pair]) -> Option<usize> {
        let mut hits = [0; 16];
        for (left, right) in pairs {
            hits[*left] += 1;
            hits[*right] += 1;
        }
        let hit = (0..self.cells.len()).rev().filter(|at| hits[*at] > 0);
        hit.filter(|at| self.view.is_filling(self.cells[*at])).max_by_key(|at| hits[*at])
    }

    /// The filling sets that still make the clue's sum, and those that something excludes.
    pub(crate) fn sets(&self, clued: &CluedLine) -> &'v Sets {
        self.on_sides().sets.get_or_init(|| self.sets_left(clued))
    }

    /// What is remembered of the sides of the crusts.
    pub(crate) fn on_sides(&self) -> &'v OnSides {
        &self.view.line_fits(self.line).on_sides
    }

    fn sets_left(&self, clued: &CluedLine) -> Sets {
        let all = self.view.filling_digits();
        let [between, outside] = [Side::Between, Side::Outside].map(|side| self.digits_on(side));
        let has_room = |set: &DigitSet| self.crusts.pairs().iter().any(|it| n_between(it) == set.len());
        let mut sets = Sets { left: Vec::new(), excluded: Vec::new() };
        for &set in &clued.sets {
            let misfits = (set - between) | ((all - set) - outside);
            match misfits.iter().next() {
                _ if !has_room(&set) => sets.excluded.push((set, None)),
                Some(digit) => sets.excluded.push((set, Some(digit))),
                None => sets.left.push(set),
            }
        }
        sets
    }

    /// The digits that some cell which may lie on that side can hold.
    fn digits_on(&self, side: Side) -> DigitSet {
        let cells = self.cells.iter().enumerate().filter(|(at, _)| self.crusts.may_be(side, *at));
        cells.fold(DigitSet::EMPTY, |all, (_, cell)| all | self.view.candidates(*cell))
    }

    /// Whether the cell may lie on that side and hold the digit.
    pub(crate) fn can_hold(&self, side: Side, at: usize, digit: Digit) -> bool {
        self.view.candidates(self.cells[at]).contains(digit) && self.crusts.may_be(side, at)
    }

    /// Adds to `cites` why each of the excluded sets is excluded.
    #[must_use]
    pub(crate) fn why_excluded(&self, excluded: &[(DigitSet, Option<Digit>)], cites: &mut Cites) -> bool {
        excluded.iter().all(|(set, digit)| match digit {
            None => self.why_no_pair(|it| n_between(&it) == set.len(), cites),
            Some(digit) => {
                (0..self.cells.len()).all(|at| self.why_cannot_hold(side_of(*set, *digit), at, *digit, cites))
            }
        })
    }

    /// Adds to `cites` why the cell cannot both lie on that side and hold the digit.
    #[must_use]
    pub(crate) fn why_cannot_hold(&self, side: Side, at: usize, digit: Digit, cites: &mut Cites) -> bool {
        self.view.why_not(self.cells[at], digit, cites)
            || self.why_no_pair(|pair| is_on(side, pair, at), cites)
    }
}

/// The filling sets of a line's sum.
#[derive(Clone, Debug)]
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
