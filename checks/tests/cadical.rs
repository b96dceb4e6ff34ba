//! CaDiCaL as the other opinion on verdicts.

#[path = "../../crates/prove/tests/agreement/clauses.rs"]
mod clauses;
#[path = "../../crates/prove/tests/agreement/comparison.rs"]
mod comparison;
#[path = "../../crates/prove/tests/agreement/seeded.rs"]
mod seeded;

use cadical::Solver;
use grid::Size;

use crate::clauses::ClauseSolver;
use crate::comparison::{Tally, compare, compare_sparse};

#[derive(Default)]
struct CaDiCaL(Solver);

impl ClauseSolver for CaDiCaL {
    fn add(&mut self, clause: &[i32]) {
        self.0.add_clause(clause.iter().copied());
    }

    fn is_satisfiable(&mut self) -> bool {
        self.0.solve().expect("no limit was set")
    }

    fn is_true(&self, variable: i32) -> bool {
        self.0.value(variable) == Some(true)
    }
}

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
