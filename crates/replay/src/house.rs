//! What a house that holds each digit once leaves to each of its cells.

use grid::DigitSet;

/// The most cells a house has.
pub(crate) const LONGEST: usize = 16;

/// Digits for each cell of a house, in its order; where a house is shorter, the rest means nothing, but is not
/// empty in what is given.
pub(crate) type Lanes = [DigitSet; LONGEST];

/// What both leave to each cell.
pub(crate) fn and(a: &Lanes, b: &Lanes) -> Lanes {
    std::array::from_fn(|lane| a[lane] & b[lane])
}

/// Whether some cell is left no digit.
pub(crate) fn has_empty(lanes: &Lanes) -> bool {
    lanes.iter().fold(false, |any, it| any | it.is_empty())
}

/// Cuts the digits of each cell down to those it holds in some arrangement of the house; false if
/// there is no arrangement.
///
/// `cells` are the digits left to each cell of the house, which has as many cells as digits, at most
/// [`LONGEST`]. One arrangement is found first. Then a cell can take another digit exactly if the cell
/// that loses it can take yet another, and so on until the ring closes on the first cell's old digit.
pub(crate) fn arrange(cells: &mut [DigitSet]) -> bool {
    let Some(holder) = arrangement(cells) else { return false };
    keep_arranged(cells, &holder);
    true
}

/// The same where an arrangement is at hand: for each digit (from 0), the cell that holds it.
pub(crate) fn keep_arranged(cells: &mut [DigitSet], holder: &[usize; LONGEST]) {
    // `takes[digit]`: the digits that the holder of `digit` could take instead, and by whom each could be taken.
    let (mut takes, mut taken_by) = ([0u16; LONGEST], [0u16; LONGEST]);
    // The digits whose holders could move on.
    let mut moving = 0u16;
    for digit in 0..cells.len() {
        let digits = cells[holder[digit]].bits();
        if !digits.is_power_of_two() {
            moving |= 1 << digit;
            takes[digit] = digits;
            each(digits, |it| taken_by[it] |= 1 << digit);
        }
    }
    while moving != 0 {
        let first = moving & moving.wrapping_neg();
        // The digits that can go round in rings with the first; not moving is a way too.
        let ring = all_from(first, &takes) & all_from(first, &taken_by);
        each(ring, |digit| cells[holder[digit]] = cells[holder[digit]] & DigitSet::from_bits(ring));
        moving &= !ring;
    }
}

/// The digits that one leads to, at once or further along, and that one itself.
fn all_from(first: u16, leads_to: &[u16; LONGEST]) -> u16 {
    let (mut all, mut fresh) = (first, first);
    while fresh != 0 {
        let new = leads_to[fresh.trailing_zeros() as usize] & !all;
        fresh = fresh & (fresh - 1) | new;
        all |= new;
    }
    all
}

/// Calls `visit` with each digit of a mask, from 0.
fn each(mut mask: u16, mut visit: impl FnMut(usize)) {
    while mask != 0 {
        visit(mask.trailing_zeros() as usize);
        mask &= mask - 1;
    }
}

/// Some arrangement: for each digit (from 0), the cell that holds it; none if there is none.
pub(crate) fn arrangement(cells: &[DigitSet]) -> Option<[usize; LONGEST]> {
    let mut seats = Seats { holder: [0; LONGEST], free: u16::MAX };
    let all_seated = (0..cells.len()).all(|cell| {
        let mut untried = u16::MAX;
        seats.seat(cells, cell, &mut untried)
    });
    all_seated.then_some(seats.holder)
}

/// An arrangement of the first few cells.
struct Seats {
    /// For each digit that is not free, the cell that holds it.
    holder: [usize; LONGEST],
    /// The digits that no cell holds yet.
    free: u16,
}

impl Seats {
    /// Gives `cell` one of the digits not tried yet, a free one if it can, else one whose holder can
    /// move on to another; false if that cannot be done.
    fn seat(&mut self, cells: &[DigitSet], cell: usize, untried: &mut u16) -> bool {
        let digits = cells[cell].bits();
        let free = digits & self.free;
        if free != 0 {
            self.free &= !(free & free.wrapping_neg());
            self.holder[free.trailing_zeros() as usize] = cell;
            return true;
        }
        while digits & *untried != 0 {
            let digit = (digits & *untried).trailing_zeros() as usize;
            *untried &= !(1 << digit);
            if self.seat(cells, self.holder[digit], untried) {
                self.holder[digit] = cell;
                return true;
            }
        }
        false
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Adds up, cell by cell, all arrangements that go on from the cells before `at`.
    fn by_enumeration(cells: &[DigitSet], at: usize, used: DigitSet, sum: &mut Vec<DigitSet>) -> bool {
        if at == cells.len() {
            return true;
        }
        let mut any = false;
        for digit in (cells[at] - used).iter() {
            if by_enumeration(cells, at + 1, used.with(digit), sum) {
                sum[at] = sum[at].with(digit);
                any = true;
            }
        }
        any
    }

    #[test]
    fn what_is_left_is_what_some_arrangement_holds() {
        // Every choice of digits for four cells.
        for bits in 0..1u32 << 16 {
            let cells: [DigitSet; 4] =
                std::array::from_fn(|at| DigitSet::from_bits((bits >> (4 * at) & 15) as u16));
            let mut expected = vec![DigitSet::EMPTY; 4];
            let possible = by_enumeration(&cells, 0, DigitSet::EMPTY, &mut expected);
            let mut got = cells;
            assert_eq!(arrange(&mut got), possible, "{cells:?}");
            if possible {
                assert_eq!(got.to_vec(), expected, "{cells:?}");
            }
        }
    }

    #[test]
    fn the_longest_house_is_arranged_too() {
        // Each cell can hold its own digit and the next; the last has only its own.
        let mut cells: [DigitSet; LONGEST] =
            std::array::from_fn(|at| DigitSet::from_bits(3u32.wrapping_shl(at as u32) as u16));
        assert!(arrange(&mut cells));
        assert!(cells.iter().enumerate().all(|(at, it)| it.bits() == 1 << at));
        cells[15] = cells[14];
        assert!(!arrange(&mut cells));
    }
}
