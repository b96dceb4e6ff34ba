//! Digits, and sets of digits as bit masks.

use std::fmt;
use std::ops::{BitAnd, BitOr, Sub};

/// A digit that a cell can hold.
///
/// Invariant: from 1 to 16; whether it fits a given board is for `Size` to say.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Digit(u8);

impl Digit {
    /// The digit of that value, if it lies between 1 and 16.
    #[inline]
    pub fn new(value: u8) -> Option<Digit> {
        (1..=16).contains(&value).then_some(Digit(value))
    }

    /// The value, from 1.
    #[inline]
    pub fn get(self) -> u8 {
        self.0
    }

    /// The digit one character stands for: `1`…`9`, then `A`…`G` for 10 to 16.
    pub fn from_char(it: char) -> Option<Digit> {
        let value = it.to_digit(17)?;
        Digit::new(value as u8)
    }

    /// The one character that stands for the digit (see [`Digit::from_char`]).
    pub fn to_char(self) -> char {
        char::from_digit(u32::from(self.0), 17).unwrap_or('?').to_ascii_uppercase()
    }
}

/// Prints the number, `12` rather than `C`.
impl fmt::Display for Digit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

impl fmt::Debug for Digit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

/// A set of digits, iterated from the smallest.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct DigitSet(u16);

impl DigitSet {
    /// The set with no digit.
    pub const EMPTY: DigitSet = DigitSet(0);

    /// The set of the digits 1 to `n` (at most 16).
    #[inline]
    pub fn up_to(n: u8) -> DigitSet {
        debug_assert!(n <= 16);
        DigitSet(((1u32 << n) - 1) as u16)
    }

    /// The set with one digit.
    #[inline]
    pub fn only(digit: Digit) -> DigitSet {
        DigitSet(1 << (digit.0 - 1))
    }

    /// The set whose mask this is: bit 0 stands for digit 1.
    #[inline]
    pub fn from_bits(bits: u16) -> DigitSet {
        DigitSet(bits)
    }

    /// The mask: bit 0 stands for digit 1.
    #[inline]
    pub fn bits(self) -> u16 {
        self.0
    }

    /// This set with `digit` added.
    #[must_use]
    #[inline]
    pub fn with(self, digit: Digit) -> DigitSet {
        self | DigitSet::only(digit)
    }

    /// This set with `digit` taken out.
    #[must_use]
    #[inline]
    pub fn without(self, digit: Digit) -> DigitSet {
        self - DigitSet::only(digit)
    }

    /// Whether `digit` is in the set.
    #[inline]
    pub fn contains(self, digit: Digit) -> bool {
        self.0 >> (digit.0 - 1) & 1 == 1
    }

    /// How many digits the set has.
    #[inline]
    pub fn len(self) -> usize {
        self.0.count_ones() as usize
    }

    /// Whether the set has no digit.
    #[inline]
    pub fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// The smallest digit.
    #[inline]
    pub fn first(self) -> Option<Digit> {
        (self.0 != 0).then(|| Digit(self.0.trailing_zeros() as u8 + 1))
    }

    /// The digit, when there is exactly one.
    #[inline]
    pub fn single(self) -> Option<Digit> {
        (self.len() == 1).then(|| Digit(self.0.trailing_zeros() as u8 + 1))
    }

    /// Whether every digit of this set is in `other`.
    #[inline]
    pub fn is_subset(self, other: DigitSet) -> bool {
        (self - other).is_empty()
    }

    /// The digits added up.
    #[inline]
    pub fn sum(self) -> u16 {
        self.iter().map(|it| u16::from(it.0)).sum()
    }

    /// The digits from the smallest.
    #[inline]
    pub fn iter(self) -> impl DoubleEndedIterator<Item = Digit> + Clone {
        Left(self.0)
    }

    /// Every subset of this set, the empty one first, in rising order of mask.
    pub fn subsets(self) -> impl Iterator<Item = DigitSet> {
        let mut next = Some(0u16);
        std::iter::from_fn(move || {
            let it = next?;
            // Counting upwards through the bits of the set only.
            let after = (it | !self.0).wrapping_add(1) & self.0;
            next = (after != 0).then_some(after);
            Some(DigitSet(it))
        })
    }
}

/// The digits of a mask that are still to come.
#[derive(Clone)]
struct Left(u16);

impl Iterator for Left {
    type Item = Digit;
    #[inline]
    fn next(&mut self) -> Option<Digit> {
        let digit = DigitSet(self.0).first()?;
        self.0 &= self.0 - 1;
        Some(digit)
    }

    #[inline]
    fn size_hint(&self) -> (usize, Option<usize>) {
        let n = self.0.count_ones() as usize;
        (n, Some(n))
    }
}

impl DoubleEndedIterator for Left {
    #[inline]
    fn next_back(&mut self) -> Option<Digit> {
        let place = self.0.checked_ilog2()?;
        self.0 &= !(1 << place);
        Some(Digit(place as u8 + 1))
    }
}

impl BitOr for DigitSet {
    type Output = DigitSet;
    #[inline]
    fn bitor(self, other: DigitSet) -> DigitSet {
        DigitSet(self.0 | other.0)
    }
}

impl BitAnd for DigitSet {
    type Output = DigitSet;
    #[inline]
    fn bitand(self, other: DigitSet) -> DigitSet {
        DigitSet(self.0 & other.0)
    }
}

impl Sub for DigitSet {
    type Output = DigitSet;
    #[inline]
    fn sub(self, other: DigitSet) -> DigitSet {
        DigitSet(self.0 & !other.0)
    }
}

impl FromIterator<Digit> for DigitSet {
    fn from_iter<I: IntoIterator<Item = Digit>>(digits: I) -> DigitSet {
        digits.into_iter().fold(DigitSet::EMPTY, DigitSet::with)
    }
}

impl fmt::Debug for DigitSet {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_set().entries(self.iter()).finish()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_character_a_digit() {
        for value in 1..=16 {
            let digit = Digit::new(value).unwrap();
            assert_eq!(Digit::from_char(digit.to_char()), Some(digit));
        }
        assert_eq!(Digit::from_char('0'), None);
        assert_eq!(Digit::from_char('.'), None);
        assert_eq!(Digit::from_char('G').map(Digit::get), Some(16));
    }

    #[test]
    fn subsets_are_all_there_once() {
        let set: DigitSet = [2, 5, 7].into_iter().filter_map(Digit::new).collect();
        let all: Vec<DigitSet> = set.subsets().collect();
        assert_eq!(all.len(), 8);
        assert!(all.is_sorted() && all.iter().all(|it| it.is_subset(set)));
        assert_eq!(DigitSet::up_to(16).subsets().count(), 65_536);
        assert_eq!(DigitSet::EMPTY.subsets().count(), 1);
    }
}
