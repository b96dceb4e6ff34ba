//! CaDiCaL as a solver of clauses.

use cadical::Solver;

use crate::clauses::ClauseSolver;

/// A solver that knows nothing yet.
#[derive(Default)]
pub(crate) struct CaDiCaL(Solver);

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
