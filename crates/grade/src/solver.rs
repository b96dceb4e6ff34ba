//! Who solves.

use crate::{NEWCOMER, OLD_HAND, REGULAR};

/// A kind of solver.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Solver {
    /// What it is called.
    pub name: &'static str,
    /// How readily steps are noticed, compared with a regular: those that every puzzle of rows, columns and boxes
    /// has, and those of the genre.
    pub notices: [f64; 2],
    /// How long it takes to carry a step out, compared with a regular.
    pub hands: f64,
    /// How much the time of one day differs from another's: the standard deviation of its logarithm. Logarithms of
    /// solving times add up from solver and puzzle (R. Pelánek, P. Jarušek 2015, doi 10.1007/s40593-015-0048-x).
    pub spread: f64,
}

impl Solver {
    /// Those that a puzzle is graded for, the slowest first.
    pub const ALL: [Solver; 3] = [NEWCOMER, REGULAR, OLD_HAND];

    /// The kind of that name.
    pub fn named(name: &str) -> Option<Solver> {
        Solver::ALL.into_iter().find(|it| it.name == name)
    }

    /// Its place in [`Solver::ALL`]; names tell the kinds apart.
    pub(crate) fn place(self) -> usize {
        Solver::ALL.iter().position(|it| it.name == self.name).unwrap_or_default()
    }
}
