//! How many cells of a house can hold each digit, counted for all digits at once.

use grid::DigitSet;

/// For each digit, a count of at most 16.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Counts {
    /// The digits whose count, written in base two, has a one there: at the units first, then at the twos, and so on.
    bits: [DigitSet; 5],
}

impl Default for Counts {
    fn default() -> Counts {
        Counts { bits: [DigitSet::EMPTY; 5] }
    }
}

impl Counts {
    /// One more of each of the digits.
    pub(crate) fn and_each(mut self, digits: DigitSet) -> Counts {
        let mut carried = digits;
        for bit in &mut self.bits {
            let full = *bit & carried;
            *bit = (*bit | carried) - full;
            carried = full;
        }
        self
    }

    /// The digits with that count, which is not 0.
    pub(crate) fn exactly(self, count: usize) -> DigitSet {
        let all = self.bits.iter().fold(DigitSet::EMPTY, |all, it| all | *it);
        let bits = self.bits.iter().enumerate();
        bits.fold(all, |left, (at, bit)| if count >> at & 1 == 1 { left & *bit } else { left - *bit })
    }

    /// The smallest count above 1, if it is below `most`.
    pub(crate) fn fewest(self, most: Option<usize>) -> Option<usize> {
        (2..most.unwrap_or(17)).find(|it| !self.exactly(*it).is_empty())
    }
}

#[cfg(test)]
mod tests {
    use grid::Digit;

    use super::*;

    #[test]
    fn digits_are_counted_up_to_sixteen() {
        // Digit n is counted n times.
        let digit = |it: u8| Digit::new(it).unwrap();
        let counts = (1..=16u8).fold(Counts::default(), |counts, time| {
            counts.and_each((time..=16).map(digit).fold(DigitSet::EMPTY, DigitSet::with))
        });
        for n in 1..=16u8 {
            assert_eq!(counts.exactly(usize::from(n)), DigitSet::only(digit(n)));
        }
        assert_eq!(counts.fewest(None), Some(2));
        assert_eq!(counts.fewest(Some(2)), None);
        let thrice = (0..3).fold(Counts::default(), |counts, _| counts.and_each(DigitSet::only(digit(7))));
        assert_eq!(
            (thrice.fewest(None), thrice.fewest(Some(4)), thrice.fewest(Some(3))),
            (Some(3), Some(3), None)
        );
    }
}
