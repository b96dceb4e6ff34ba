//! A house with no digit placed, where four digits have no other places than four cells.
//!
//! With a digit placed the other open cells, four or fewer, would show the same as a naked quad, which is easier.

use grid::{CellSet, DigitSet, Grid};
use rand::seq::SliceRandom;
use rand_chacha::ChaCha8Rng;

use super::{Plan, Pose, any};

/// How many digits are hidden in as many cells.
const N: usize = 4;

/// Many of the other digits are struck too, so that it takes looking to see which four these are.
pub(super) fn pose(solution: &Grid, random: &mut ChaCha8Rng) -> Option<Pose> {
    let size = solution.size();
    let house = any(&size.houses().collect::<Vec<_>>(), random)?;
    let mut plan = Plan::new(solution, [house], None);
    let mut cells = size.cells_of(house);
    cells.shuffle(random);
    let hiding: CellSet = cells.iter().take(N).copied().collect();
    let hidden = hiding.iter().map(|it| plan.digit(it)).fold(DigitSet::EMPTY, DigitSet::with);
    for cell in cells {
        if hiding.contains(cell) {
            plan.strike_some(cell, hidden, 25, random);
            plan.strike_some(cell, size.digits() - hidden, 50, random);
        } else {
            plan.strike(cell, hidden);
            plan.strike_some(cell, size.digits() - hidden, 20, random);
        }
    }
    Some(plan.pose())
}
