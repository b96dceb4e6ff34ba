//! How digits can be laid out in cells: which digit fits which cell in some layout.

use grid::DigitSet;

/// The digits each cell holds in some layout, where cell `n` may hold `allowed[n]` and each digit is
/// used once. None if there is no layout.
///
/// There are as many cells as digits, so a layout is a perfect matching of cells and digits. One is
/// found first. Then a cell can take another digit exactly if the cell that gives it up can take yet
/// another, and so on until the first cell's old digit is taken.
pub(crate) fn fitting(allowed: &[DigitSet]) -> Option<Vec<DigitSet>> {
    let mut fits = allowed.to_vec();
    fit(&mut fits).then_some(fits)
}

/// The same in place; false if there is no layout.
pub(crate) fn fit(allowed: &mut [DigitSet]) -> bool {
    let Some(Layout { cell_of, used, .. }) = Layout::of(allowed) else { return false };
    // By digit: the digits that are taken, at once or further on, if its cell moves on.
    let mut taken = [0u16; 16];
    for digit in bits(used) {
        taken[digit] = allowed[usize::from(cell_of[digit])].bits() & used | 1 << digit;
    }
    for through in bits(used) {
        let beyond = taken[through];
        for digit in bits(used) {
            if taken[digit] >> through & 1 == 1 {
                taken[digit] |= beyond;
            }
        }
    }
    // The same seen from the digits that are taken.
    let mut taken_by = [0u16; 16];
    for digit in bits(used) {
        bits(taken[digit]).for_each(|it| taken_by[it] |= 1 << digit);
    }
    for digit in bits(used) {
        let cell = &mut allowed[usize::from(cell_of[digit])];
        *cell = *cell & DigitSet::from_bits(taken_by[digit]);
    }
    true
}

/// The places of a mask's bits.
fn bits(mut mask: u16) -> impl Iterator<Item = usize> {
    std::iter::from_fn(move || {
        let bit = mask.trailing_zeros() as usize;
        (mask != 0).then(|| {
            mask &= mask - 1;
            bit
        })
    })
}

/// Whether there is a layout: each cell holds a digit of its own that it may hold.
pub(crate) fn has_layout(allowed: &[DigitSet]) -> bool {
    Layout::of(allowed).is_some()
}

/// One layout.
struct Layout<'a> {
    allowed: &'a [DigitSet],
    /// For each digit, from 0, that is used: the cell that holds it.
    cell_of: [u8; 16],
    /// The digits that some cell holds.
    used: u16,
}

impl<'a> Layout<'a> {
    /// Places cell after cell, moving earlier ones where needed (augmenting paths).
    fn of(allowed: &'a [DigitSet]) -> Option<Layout<'a>> {
        let mut layout = Layout { allowed, cell_of: [0; 16], used: 0 };
        (0..allowed.len()).all(|cell| layout.place(cell, &mut 0)).then_some(layout)
    }

    /// Gives the cell a digit outside `tried`: a free one if it can, else one whose cell can move on.
    fn place(&mut self, cell: usize, tried: &mut u16) -> bool {
        let allowed = self.allowed[cell].bits();
        let free = allowed & !self.used;
        if free != 0 {
            self.used |= free & free.wrapping_neg();
            self.cell_of[free.trailing_zeros() as usize] = cell as u8;
            return true;
        }
        loop {
            let open = allowed & !*tried;
            if open == 0 {
                return false;
            }
            let digit = open.trailing_zeros() as usize;
            *tried |= 1 << digit;
            if self.place(usize::from(self.cell_of[digit]), tried) {
                self.cell_of[digit] = cell as u8;
                return true;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use grid::Digit;

    use super::*;

    fn sets(texts: &[&str]) -> Vec<DigitSet> {
        texts.iter().map(|it| it.chars().filter_map(Digit::from_char).collect()).collect()
    }

    #[test]
    fn pairs_and_triples_take_their_digits() {
        let got = fitting(&sets(&["12", "12", "123", "34"]));
        assert_eq!(got, Some(sets(&["12", "12", "3", "4"])));
        let got = fitting(&sets(&["123", "12", "23", "1234"]));
        assert_eq!(got, Some(sets(&["123", "12", "23", "4"])));
        assert_eq!(fitting(&sets(&["12", "12", "12", "34"])), None);
    }

    #[test]
    fn agrees_with_trying_every_layout() {
        fn each(allowed: &[DigitSet], line: &mut Vec<Digit>, seen: &mut Vec<DigitSet>) {
            let Some(here) = allowed.get(line.len()) else {
                for (all, digit) in seen.iter_mut().zip(line) {
                    *all = all.with(*digit);
                }
                return;
            };
            for digit in here.iter() {
                if !line.contains(&digit) {
                    line.push(digit);
                    each(allowed, line, seen);
                    line.pop();
                }
            }
        }
        // A linear congruential sequence (Numerical Recipes' constants, from memory) of domains.
        let mut state = 1u32;
        let mut layouts = 0;
        for _ in 0..2_000 {
            let allowed: Vec<DigitSet> = (0..5)
                .map(|_| {
                    state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
                    DigitSet::from_bits((state >> 16) as u16 & 0b11111)
                })
                .collect();
            let mut seen = vec![DigitSet::EMPTY; 5];
            each(&allowed, &mut Vec::new(), &mut seen);
            let expected = (!seen[0].is_empty()).then_some(seen);
            layouts += usize::from(expected.is_some());
            assert_eq!(fitting(&allowed), expected, "{allowed:?}");
        }
        assert!((200..1_800).contains(&layouts), "{layouts} of 2,000 had a layout");
    }
}
