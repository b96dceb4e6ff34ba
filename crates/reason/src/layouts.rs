//! How digits can be laid out in cells: which digit fits which cell in some layout.

use grid::DigitSet;

/// The digits each cell holds in some layout, where cell `n` may hold `allowed[n]` and each digit is
/// used once. None if there is no layout.
///
/// There are as many cells as digits, so a layout is a perfect matching of cells and digits. One is
/// found first. Then a cell can take another digit exactly if the cell that gives it up can take yet
/// another, and so on until the first cell's old digit is taken.
pub(crate) fn fitting(allowed: &[DigitSet]) -> Option<Vec<DigitSet>> {
    let layout = Layout::of(allowed)?;
    // By digit: the digits that are taken, at once or further on, if its cell moves on.
    let mut taken = [0u16; 16];
    for (digit, cell) in layout.cell_of.iter().enumerate().filter_map(|(at, it)| Some((at, (*it)?))) {
        taken[digit] = allowed[usize::from(cell)].bits() | 1 << digit;
    }
    for through in 0..16 {
        for digit in 0..16 {
            if taken[digit] >> through & 1 == 1 {
                taken[digit] |= taken[through];
            }
        }
    }
    let mut fits = vec![DigitSet::EMPTY; allowed.len()];
    for (digit, cell) in layout.cell_of.iter().enumerate().filter_map(|(at, it)| Some((at, (*it)?))) {
        let comes_back = (0..16).filter(|it| taken[*it] >> digit & 1 == 1).fold(0, |all, it| all | 1 << it);
        let cell = usize::from(cell);
        fits[cell] = allowed[cell] & DigitSet::from_bits(comes_back);
    }
    Some(fits)
}

/// Whether there is a layout: each cell holds a digit of its own that it may hold.
pub(crate) fn has_layout(allowed: &[DigitSet]) -> bool {
    Layout::of(allowed).is_some()
}

/// One layout.
struct Layout<'a> {
    allowed: &'a [DigitSet],
    /// For each digit, from 0, the cell that holds it.
    cell_of: [Option<u8>; 16],
}

impl<'a> Layout<'a> {
    /// Places cell after cell, moving earlier ones where needed (augmenting paths).
    fn of(allowed: &'a [DigitSet]) -> Option<Layout<'a>> {
        let mut layout = Layout { allowed, cell_of: [None; 16] };
        (0..allowed.len()).all(|cell| layout.place(cell, &mut 0)).then_some(layout)
    }

    /// Gives the cell a digit outside `tried`, moving others.
    fn place(&mut self, cell: usize, tried: &mut u16) -> bool {
        loop {
            let open = self.allowed[cell].bits() & !*tried;
            if open == 0 {
                return false;
            }
            let digit = open.trailing_zeros() as usize;
            *tried |= 1 << digit;
            if self.cell_of[digit].is_none_or(|it| self.place(usize::from(it), tried)) {
                self.cell_of[digit] = Some(cell as u8);
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
