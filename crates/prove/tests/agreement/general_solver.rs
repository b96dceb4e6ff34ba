//! BatSat, a general SAT solver, as the other opinion.

use batsat::{BasicSolver, Lit, SolverInterface, Var, lbool};
use grid::Size;

use crate::clauses::ClauseSolver;
use crate::comparison::{Tally, compare, compare_sparse};

#[derive(Default)]
struct BatSat(BasicSolver);

impl BatSat {
    fn variable(&mut self, number: i32) -> Var {
        self.0.var_of_int(number.unsigned_abs())
    }
}

impl ClauseSolver for BatSat {
    fn add(&mut self, clause: &[i32]) {
        let mut literals: Vec<Lit> = clause.iter().map(|it| Lit::new(self.variable(*it), *it > 0)).collect();
        self.0.add_clause_reuse(&mut literals);
    }

    fn is_satisfiable(&mut self) -> bool {
        match self.0.solve_limited(&[]) {
            it if it == lbool::TRUE => true,
            it if it == lbool::FALSE => false,
            _ => unreachable!("no limit was set"),
        }
    }

    fn is_true(&self, variable: i32) -> bool {
        self.0.value_var(Var::unsafe_from_idx(variable.unsigned_abs())) == lbool::TRUE
    }
}

#[test]
fn batsat_agrees_on_nine_by_nine() {
    let tally = compare(Size::NINE, 40, 1, BatSat::default);
    assert_eq!(tally.none + tally.one + tally.many, 240);
    assert!(tally.none >= 50 && tally.one >= 50 && tally.many >= 50, "{tally:?}");
}

#[test]
fn batsat_agrees_on_other_sizes() {
    for (width, height) in [(2, 2), (3, 2), (2, 3), (4, 2), (2, 4)] {
        let size = Size::new(width, height).unwrap();
        let tally = compare(size, 20, 2, BatSat::default);
        assert!(tally.none >= 15 && tally.one >= 15 && tally.many >= 15, "{size:?}: {tally:?}");
    }
}

#[test]
fn batsat_agrees_where_every_given_counts() {
    let tally = compare_sparse(12, 3, BatSat::default);
    assert_eq!(tally, Tally { none: 0, one: 12, many: 12 });
}
