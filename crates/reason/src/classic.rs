//! Techniques of classic puzzles, one file each.

mod hidden_single;
mod last_empty_cell;
mod locked_candidates;
mod naked_single;
mod shared_cells;
mod shared_digits;

pub(crate) use hidden_single::HiddenSingle;
pub(crate) use last_empty_cell::LastEmptyCell;
pub(crate) use locked_candidates::LockedCandidates;
pub(crate) use naked_single::NakedSingle;
pub(crate) use shared_cells::{HIDDEN_PAIR, HIDDEN_TRIPLE};
pub(crate) use shared_digits::{NAKED_PAIR, NAKED_TRIPLE};

/// Calls `visit` with every choice of `n` items, in order.
fn each_choice<T: Copy>(items: &[T], n: usize, visit: &mut impl FnMut(&[T])) {
    fn extend<T: Copy>(items: &[T], n: usize, chosen: &mut Vec<T>, visit: &mut impl FnMut(&[T])) {
        if n == 0 {
            return visit(chosen);
        }
        for at in 0..items.len().saturating_sub(n - 1) {
            chosen.push(items[at]);
            extend(&items[at + 1..], n - 1, chosen, visit);
            chosen.pop();
        }
    }
    extend(items, n, &mut Vec::with_capacity(n), visit);
}

#[cfg(test)]
mod tests {
    #[test]
    fn choices_are_all_there_in_order() {
        let mut seen = Vec::new();
        super::each_choice(&[1, 2, 3, 4], 2, &mut |it| seen.push(it.to_vec()));
        assert_eq!(seen, [[1, 2], [1, 3], [1, 4], [2, 3], [2, 4], [3, 4]]);
        super::each_choice(&[1], 2, &mut |_| unreachable!("one item has no pair"));
    }
}
