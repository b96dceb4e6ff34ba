//! The puzzles that a new one must differ from.

use std::collections::BTreeSet;

use grid::Grid;
use prove::{Canonical, Limit, Symmetries, canonical, canonical_grid};
use rulebook::Puzzle;

use crate::Kind;

/// Arrangements looked at for each form: even a blank page takes fewer.
const FORM: Limit = Limit(100_000);

/// What no new puzzle may have in common with others, from whatever side it is seen.
#[derive(Clone, Debug)]
pub struct Others {
    symmetries: Symmetries,
    pages: BTreeSet<Canonical>,
    solutions: BTreeSet<Canonical>,
}

impl Others {
    /// None yet, for a brief of that kind.
    pub fn none(kind: Kind) -> Others {
        let symmetries = match kind {
            Kind::Classic => Symmetries::Classic,
            Kind::Sandwich => Symmetries::SANDWICH,
        };
        Others { symmetries, pages: BTreeSet::new(), solutions: BTreeSet::new() }
    }

    /// One more to differ from: its page, and its solution if that may be known.
    pub fn add(&mut self, puzzle: &Puzzle, solution: Option<&Grid>) {
        self.pages.extend(canonical(puzzle, FORM));
        self.solutions.extend(solution.and_then(|it| self.form_of(it)));
    }

    /// Whether it is the same as one of them, or has the same solution.
    pub(crate) fn have(&self, puzzle: &Puzzle, solution: &Grid) -> bool {
        canonical(puzzle, FORM).is_some_and(|it| self.pages.contains(&it))
            || self.form_of(solution).is_some_and(|it| self.solutions.contains(&it))
    }

    fn form_of(&self, solution: &Grid) -> Option<Canonical> {
        canonical_grid(self.symmetries, solution, FORM)
    }
}
