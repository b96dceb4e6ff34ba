//! How the digits of one house can be laid out: which digit fits which cell in some layout.

use grid::{Digit, DigitSet};

/// The digits each cell holds in some layout of the house, where cell `n` may hold `allowed[n]` and
/// each digit is used once. None if there is no layout.
///
/// There are as many cells as digits, so a layout is a perfect matching of cells and digits.
pub(super) fn fitting(allowed: &[DigitSet]) -> Option<Vec<DigitSet>> {
    let layout = Layout::of(allowed)?;
    let fits = |cell: usize| {
        let is_possible = |digit: &Digit| layout.at(cell) == *digit || layout.exchanged(cell, *digit);
        allowed[cell].iter().filter(is_possible).collect()
    };
    Some((0..allowed.len()).map(fits).collect())
}

/// One layout.
struct Layout<'a> {
    allowed: &'a [DigitSet],
    /// For each digit (its value less one), the cell that holds it.
    cell_of: [Option<u8>; 16],
}

impl<'a> Layout<'a> {
    /// Places cell after cell, moving earlier ones where needed (augmenting paths).
    fn of(allowed: &'a [DigitSet]) -> Option<Layout<'a>> {
        let mut layout = Layout { allowed, cell_of: [None; 16] };
        (0..allowed.len()).all(|cell| layout.place(cell, &mut DigitSet::default())).then_some(layout)
    }

    /// Gives the cell a digit outside `tried`, moving others.
    fn place(&mut self, cell: usize, tried: &mut DigitSet) -> bool {
        for digit in self.allowed[cell].iter() {
            if tried.contains(digit) {
                continue;
            }
            *tried = tried.with(digit);
            let holder = self.cell_of[slot(digit)];
            if holder.is_none_or(|it| self.place(usize::from(it), tried)) {
                self.cell_of[slot(digit)] = Some(cell as u8);
                return true;
            }
        }
        false
    }

    fn at(&self, cell: usize) -> Digit {
        let holds = |digit: &Digit| self.cell_of[slot(*digit)] == Some(cell as u8);
        let digit = self.allowed[cell].iter().find(holds);
        digit.unwrap_or_else(|| unreachable!("every cell of a layout has a digit"))
    }

    /// Whether another layout has the digit in this cell: the cell that holds it now must find
    /// another digit, in the end the one that this cell gives up.
    fn exchanged(&self, cell: usize, digit: Digit) -> bool {
        let mut other = Layout { allowed: self.allowed, cell_of: self.cell_of };
        let Some(loser) = other.cell_of[slot(digit)] else { return true };
        other.cell_of[slot(self.at(cell))] = None;
        other.cell_of[slot(digit)] = Some(cell as u8);
        // The digit and its new holder stay: marking the digit as tried keeps the search off it.
        other.place(usize::from(loser), &mut DigitSet::only(digit))
    }
}

fn slot(digit: Digit) -> usize {
    usize::from(digit.get()) - 1
}

#[cfg(test)]
mod tests {
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
