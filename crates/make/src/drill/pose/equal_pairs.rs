//! Four cells that hold two digits in turn, each in sight of the next, and a cell that sees both ends.

use grid::{DigitSet, Grid};
use rand_chacha::ChaCha8Rng;

use super::{Plan, Pose, any, any_cell, holding};

/// The four can hold nothing but the two digits; the cell that is asked about a few more.
pub(super) fn pose(solution: &Grid, random: &mut ChaCha8Rng) -> Option<Pose> {
    let size = solution.size();
    let digits: Vec<_> = size.digits().iter().collect();
    let (one, other) = (any(&digits, random)?, any(&digits, random)?);
    let pair = DigitSet::only(one).with(other);
    let [ones, others] = [one, other].map(|it| holding(solution, it));
    let first = any_cell(ones, random)?;
    let second = any_cell(others & size.peers(first), random)?;
    let third = any_cell((ones & size.peers(second)) - [first].into_iter().collect(), random)?;
    let last =
        any_cell((others & size.peers(third)) - size.peers(first) - [second].into_iter().collect(), random)?;
    let chain = [first, second, third, last];
    let houses: Vec<_> = chain.windows(2).filter_map(|it| size.shared_house(it[0], it[1])).collect();
    let mut plan = Plan::new(solution, houses, None);
    let asked = any_cell((size.peers(first) & size.peers(last)) - ones - others - plan.cells(), random)?;
    plan.cell = Some(asked);
    for cell in chain {
        plan.strike(cell, size.digits() - pair);
    }
    plan.strike_some(asked, size.digits() - pair, 70, random);
    plan.strike_some(asked, pair, 25, random);
    plan.give_some(plan.cells(), pair, 40, random);
    Some(plan.pose())
}
