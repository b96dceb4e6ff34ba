//! Sandwich clues: the number beside a line is the sum of the digits between its two crusts, the 1
//! and the largest digit.

use std::cmp::Reverse;

use grid::{Digit, DigitSet, Size};

use crate::{Between, Clue, Rule, RuleId, Ways};

/// The sandwich rule.
pub static SANDWICH: Sandwich = Sandwich;

/// The type of [`SANDWICH`].
#[derive(Debug)]
pub struct Sandwich;

/// The two crusts of a size: 1 and its largest digit.
#[inline]
pub fn crusts(size: Size) -> (Digit, Digit) {
    let mut digits = size.digits().iter();
    let ends = digits.next().zip(digits.next_back());
    ends.unwrap_or_else(|| unreachable!("a size has at least four digits"))
}

/// The digits that can lie between crusts: all but the two crusts.
#[inline]
pub fn filling_digits(size: Size) -> DigitSet {
    let (one, last) = crusts(size);
    size.digits().without(one).without(last)
}

/// The sum of all filling digits: what lies between and what lies outside together. 35 on 9x9.
pub fn filling_total(size: Size) -> u16 {
    filling_digits(size).sum()
}

/// The sets of filling digits with that sum, fewest digits first.
pub fn filling_sets(size: Size, sum: u16) -> Vec<DigitSet> {
    let mut sets: Vec<DigitSet> = filling_digits(size).subsets().filter(|it| it.sum() == sum).collect();
    // Of sets of one length the one with the smaller digit comes first where they differ: with the bits turned
    // round, the greater number.
    sets.sort_by_key(|it| (it.len(), Reverse(it.bits().reverse_bits())));
    sets
}

impl Rule for Sandwich {
    fn id(&self) -> RuleId {
        const { RuleId::new("sandwich") }
    }

    fn allows(&self, size: Size, value: u16, digits: &[Digit]) -> bool {
        let (one, last) = crusts(size);
        let is_crust = |it: &Digit| *it == one || *it == last;
        let between = digits.iter().skip_while(|it| !is_crust(it)).skip(1).take_while(|it| !is_crust(it));
        between.map(|it| u16::from(it.get())).sum::<u16>() == value
    }

    fn ways(&self, size: Size, clue: &Clue) -> Ways {
        let kinds = Kinds::of(size);
        let ways = filling_sets(size, clue.value).into_iter().flat_map(|set| kinds.slices(set));
        Ways::of(size.cells_of(clue.line), ways)
    }

    fn between(&self, size: Size, value: u16) -> Option<Between> {
        Some(Between { ends: crusts(size), sets: filling_sets(size, value) })
    }

    fn reachable(&self, size: Size) -> Vec<u16> {
        (0..=filling_total(size))
            .filter(|sum| filling_digits(size).subsets().any(|it| it.sum() == *sum))
            .collect()
    }

    fn summands(&self, size: Size) -> Option<DigitSet> {
        Some(filling_digits(size))
    }

    fn blind_to(&self, size: Size, a: Digit, b: Digit) -> bool {
        let (one, last) = crusts(size);
        (a, b) == (one, last) || (a, b) == (last, one)
    }

    fn same_both_ways(&self) -> bool {
        true
    }
}

/// Two places in a line, from 0, the left one (or upper one) first.
pub(crate) type Pair = (usize, usize);

/// The digits of a size by their kind, for listing the ways of a line.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Kinds {
    side: usize,
    crusts: DigitSet,
    filling: DigitSet,
}

impl Kinds {
    pub(crate) fn of(size: Size) -> Kinds {
        let filling = filling_digits(size);
        Kinds { side: usize::from(size.side()), crusts: size.digits() - filling, filling }
    }

    /// The digits that can lie between crusts.
    pub(crate) fn filling(self) -> DigitSet {
        self.filling
    }

    /// Every pair of places for two crusts.
    pub(crate) fn pairs(self) -> impl Iterator<Item = Pair> {
        (0..self.side).flat_map(move |left| (left + 1..self.side).map(move |right| (left, right)))
    }

    /// The ways that have exactly these digits between the crusts, the leftmost first.
    pub(crate) fn slices(self, inside: DigitSet) -> impl Iterator<Item = impl Iterator<Item = DigitSet>> {
        let (n, outside) = (inside.len(), self.filling - inside);
        (0..self.side - 1 - n).map(move |left| self.way((left, left + n + 1), inside, outside))
    }

    /// The way that has its crusts at two places, digits of `inside` between them and digits of `outside`
    /// elsewhere.
    pub(crate) fn way(
        self,
        (left, right): Pair,
        inside: DigitSet,
        outside: DigitSet,
    ) -> impl Iterator<Item = DigitSet> {
        (0..self.side).map(move |at| match at {
            _ if at == left || at == right => self.crusts,
            _ if left < at && at < right => inside,
            _ => outside,
        })
    }
}
