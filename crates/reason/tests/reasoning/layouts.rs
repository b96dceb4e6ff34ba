//! Every way to lay out a house, cell after cell: slow and plain.

use std::collections::BTreeSet;

use grid::{DigitSet, Size};

/// Whether each cell can have one of its digits so that no digit comes twice.
pub(crate) fn can_be_laid_out(left: &[DigitSet]) -> bool {
    // The digits that the cells so far can have used up.
    let mut used = BTreeSet::from([DigitSet::EMPTY]);
    for here in left {
        used = used.iter().flat_map(|used| (*here - *used).iter().map(|it| used.with(it))).collect();
    }
    !used.is_empty()
}

/// The digits that can lie between the crusts, over all ways to lay out the line.
pub(crate) fn betweens(size: Size, left: &[DigitSet]) -> BTreeSet<DigitSet> {
    let is_crust = |digit: grid::Digit| digit.get() == 1 || digit.get() == size.side();
    // Of the cells so far: the digits used up, how many of them are crusts, and those between.
    let mut so_far = BTreeSet::from([(DigitSet::EMPTY, 0, DigitSet::EMPTY)]);
    for here in left {
        let longer = so_far.iter().flat_map(|&(used, n_crusts, between)| {
            (*here - used).iter().map(move |digit| match (is_crust(digit), n_crusts) {
                (true, _) => (used.with(digit), n_crusts + 1, between),
                (false, 1) => (used.with(digit), n_crusts, between.with(digit)),
                (false, _) => (used.with(digit), n_crusts, between),
            })
        });
        so_far = longer.collect();
    }
    so_far.into_iter().map(|it| it.2).collect()
}

/// Exact: they follow from the rules, so each is counted again here by another road.
#[test]
fn bare_lines_can_be_laid_out_in_every_known_way() {
    let nine = vec![Size::NINE.digits(); 9];
    // Any of the 2^7 sets of filling digits can lie between.
    assert_eq!(betweens(Size::NINE, &nine).len(), 128);
    assert!(can_be_laid_out(&nine));
    let mut short = nine.clone();
    for at in [0, 4, 8] {
        short[at] = [1, 9].into_iter().filter_map(grid::Digit::new).collect();
    }
    assert!(!can_be_laid_out(&short) && betweens(Size::NINE, &short).is_empty());
    // Crusts at the ends: everything lies between.
    let mut wide = nine;
    (1..8).for_each(|at| wide[at] = (2..=8).filter_map(grid::Digit::new).collect());
    let between: Vec<DigitSet> = betweens(Size::NINE, &wide).into_iter().collect();
    assert_eq!(between.iter().map(|it| (it.len(), it.sum())).collect::<Vec<_>>(), [(7, 35)]);
}
