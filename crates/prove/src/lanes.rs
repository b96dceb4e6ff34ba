//! The candidates of a whole line as a few machine words, so that all its cells are asked at once.

use crate::compile::Mask;

/// One mask for each cell of a line, in the line's order, four to a word; unused lanes hold no digit.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Lanes<const L: usize>([u64; L]);

/// The highest bit of each lane.
const HIGHEST: u64 = 0x8000_8000_8000_8000;

impl<const L: usize> Lanes<L> {
    /// No digit anywhere.
    pub(crate) const NONE: Lanes<L> = Lanes([0; L]);

    /// The first masks of the iterator, one a lane.
    #[inline(always)]
    pub(crate) fn of(masks: impl IntoIterator<Item = Mask>) -> Lanes<L> {
        let mut lanes = Lanes::NONE;
        for (lane, mask) in masks.into_iter().enumerate().take(4 * L) {
            lanes.add(lane, mask);
        }
        lanes
    }

    /// The masks of a line.
    #[inline(always)]
    pub(crate) fn of_line(masks: &[Mask; 16]) -> Lanes<L> {
        let mask = |at: usize| u64::from(masks[at & 15]);
        Lanes(std::array::from_fn(|at| {
            mask(4 * at) | mask(4 * at + 1) << 16 | mask(4 * at + 2) << 32 | mask(4 * at + 3) << 48
        }))
    }

    /// Adds digits to a lane.
    #[inline(always)]
    pub(crate) fn add(&mut self, lane: usize, mask: Mask) {
        self.0[lane / 4] |= u64::from(mask) << (lane % 4 * 16);
    }

    /// What both have, lane by lane.
    #[inline(always)]
    pub(crate) fn and(self, other: Lanes<L>) -> Lanes<L> {
        Lanes(std::array::from_fn(|at| self.0[at] & other.0[at]))
    }

    /// What either has, lane by lane.
    #[inline(always)]
    pub(crate) fn or(self, other: Lanes<L>) -> Lanes<L> {
        Lanes(std::array::from_fn(|at| self.0[at] | other.0[at]))
    }

    /// What this has and the other has not, lane by lane.
    #[inline(always)]
    pub(crate) fn without(self, other: Lanes<L>) -> Lanes<L> {
        Lanes(std::array::from_fn(|at| self.0[at] & !other.0[at]))
    }

    /// Only these digits.
    #[inline(always)]
    pub(crate) fn only(self, mask: Mask) -> Lanes<L> {
        let everywhere = u64::from(mask) * 0x1_0001_0001_0001;
        Lanes(self.0.map(|it| it & everywhere))
    }

    /// The digits that some lane has.
    #[inline(always)]
    pub(crate) fn any(self) -> Mask {
        let all = self.0.iter().fold(0, |all, it| all | it);
        let half = all | all >> 32;
        (half | half >> 16) as Mask
    }

    /// Which lanes have any digit.
    #[inline(always)]
    pub(crate) fn occupied(self) -> Occupied<L> {
        Occupied(self.0.map(|it| ((it & !HIGHEST) + !HIGHEST) | it))
    }

    /// Each lane that has any digit, and its digits.
    #[inline(always)]
    pub(crate) fn each(self) -> impl Iterator<Item = (usize, Mask)> {
        // The lanes of all words in one: those of the second word one bit lower than those of the first, and so on.
        let mut rest = 0;
        for (at, word) in self.occupied().0.into_iter().enumerate() {
            rest |= (word & HIGHEST) >> at;
        }
        std::iter::from_fn(move || {
            let lowest = rest.trailing_zeros() as usize;
            let some = rest != 0;
            rest &= rest.wrapping_sub(1);
            some.then(|| {
                let (word, lane) = (15 - lowest % 16, lowest / 16);
                (4 * word + lane, (self.0[word % L] >> (16 * lane)) as Mask)
            })
        })
    }
}

/// A set of lanes, told by the highest bit of each; the other bits are of no account.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Occupied<const L: usize>([u64; L]);

impl<const L: usize> Occupied<L> {
    /// So many lanes, from the first on.
    #[inline(always)]
    pub(crate) fn first(n_lanes: usize) -> Occupied<L> {
        let in_word = |at: usize| n_lanes.saturating_sub(4 * at).min(4);
        // The highest bits of the lanes that are not there fall off.
        Occupied(std::array::from_fn(|at| HIGHEST.checked_shr(64 - 16 * in_word(at) as u32).unwrap_or(0)))
    }

    /// Whether all those lanes are among these.
    #[inline(always)]
    pub(crate) fn covers(self, those: Occupied<L>) -> bool {
        let mut missing = 0;
        for at in 0..L {
            missing |= those.0[at] & !self.0[at];
        }
        missing & HIGHEST == 0
    }
}
