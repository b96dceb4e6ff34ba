//! No solution, one or several: CaDiCaL says the same.

use grid::Size;

use crate::comparison::{Tally, compare, compare_sparse};
use crate::solver::CaDiCaL;

#[test]
fn cadical_agrees_on_nine_by_nine() {
    let tally = compare(Size::NINE, 40, 101, CaDiCaL::default);
    assert_eq!(tally.none + tally.one + tally.many, 240);
    assert!(tally.none >= 50 && tally.one >= 50 && tally.many >= 50, "{tally:?}");
}

#[test]
fn cadical_agrees_on_other_sizes() {
    for (width, height) in [(2, 2), (3, 2), (2, 3), (4, 2), (2, 4)] {
        let size = Size::new(width, height).unwrap();
        let tally = compare(size, 20, 102, CaDiCaL::default);
        assert!(tally.none >= 15 && tally.one >= 15 && tally.many >= 15, "{size:?}: {tally:?}");
    }
}

#[test]
fn cadical_agrees_where_every_given_counts() {
    let tally = compare_sparse(12, 103, CaDiCaL::default);
    assert_eq!(tally, Tally { none: 0, one: 12, many: 12 });
}
