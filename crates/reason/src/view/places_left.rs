//! How many cells of a house can still hold each digit.

use grid::DigitSet;

/// The counts of one house, kept up to date with each candidate that is lost.
#[derive(Clone, Copy, Debug)]
pub(crate) struct PlacesLeft {
    /// By digit, from 0.
    counts: [u8; 16],
    /// The digits whose count is one.
    once: DigitSet,
}

impl PlacesLeft {
    /// Every one of the house's cells can hold each digit.
    pub(crate) fn anywhere(n_cells: u8) -> PlacesLeft {
        PlacesLeft { counts: [n_cells; 16], once: DigitSet::EMPTY }
    }

    /// A cell that could hold these digits can no longer.
    pub(crate) fn lose(&mut self, digits: DigitSet) {
        for digit in digits.iter() {
            let count = &mut self.counts[super::at(digit)];
            *count -= 1;
            self.once = match count {
                1 => self.once.with(digit),
                _ => self.once.without(digit),
            };
        }
    }

    /// The digits that one cell alone can hold.
    pub(crate) fn once(&self) -> DigitSet {
        self.once
    }
}
