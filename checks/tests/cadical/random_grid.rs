//! Full grids of every size.

use grid::{Grid, Size};
use prove::{Limit, some_solution};
use rulebook::Puzzle;

use crate::seeded::{self, Seeded};

const LIMIT: Limit = Limit(10_000_000);

/// A random full grid. The plain search finds none on large boards, so that there `prove` has to fill them.
pub(crate) fn random_grid(size: Size, seeded: &mut Seeded) -> Grid {
    if size.side() <= 9 {
        return seeded::full_grid(size, seeded);
    }
    let blank = Puzzle::new(Grid::empty(size), []);
    let mut prefer = |digits: &[_]| seeded.below(digits.len());
    some_solution(&blank, LIMIT, &mut prefer).expect("every size has a full grid")
}
