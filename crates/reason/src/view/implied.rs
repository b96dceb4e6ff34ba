//! What one cell of a line says of another, as far as the line's sum goes.

use grid::{Digit, DigitSet};

use crate::sandwich::LineRules;

/// A line with more ways, each a pair of places for the crusts with a set between, is not looked at:
/// nobody sees through so many.
const MOST_WAYS: usize = 12;

/// For each digit of each cell of a line, what it leaves to the other cells.
#[derive(Clone, Debug)]
pub(crate) struct Implied {
    side: usize,
    /// By cell, digit, and again cell: the digits it can hold then; none if the first cannot be.
    leaves: Vec<DigitSet>,
}

impl Implied {
    /// What the rules and the digits left to the cells imply; none if there are too many ways.
    pub(crate) fn of(rules: &LineRules, left: &[DigitSet]) -> Option<Implied> {
        let side = left.len();
        let mut implied = Implied { side, leaves: vec![DigitSet::EMPTY; side * side * side] };
        let is_whole = rules.each_holding(left, MOST_WAYS, |at, digit, then| {
            let from = implied.place(at, digit);
            implied.leaves[from..].iter_mut().zip(then).for_each(|(all, it)| *all = *all | *it);
        });
        is_whole.then_some(implied)
    }

    /// The digits that each cell can hold if the cell at this place holds one of these; none if it cannot.
    ///
    /// The line has a way for each two of them that may go together; three may not.
    pub(crate) fn if_among(&self, at: usize, digits: DigitSet) -> Option<Vec<DigitSet>> {
        let mut left = vec![DigitSet::EMPTY; self.side];
        for digit in digits.iter() {
            left.iter_mut()
                .zip(&self.leaves[self.place(at, digit)..])
                .for_each(|(all, it)| *all = *all | *it);
        }
        (!left[at].is_empty()).then_some(left)
    }

    fn place(&self, at: usize, digit: Digit) -> usize {
        (at * self.side + usize::from(digit.get()) - 1) * self.side
    }
}
