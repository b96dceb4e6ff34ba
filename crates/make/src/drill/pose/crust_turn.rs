//! Three crusts in turn, one way round of which would leave a house no place for a crust.

use grid::{CellSet, DigitSet, Grid};
use rand::RngExt;
use rand_chacha::ChaCha8Rng;
use rulebook::{Claim, crusts};

use super::{Plan, Pose, any, any_cell, holding};

/// The house has places for one crust digit in sight of either end of the three and nowhere else. It is told which
/// cells are crusts, and not which crusts.
pub(super) fn pose(solution: &Grid, random: &mut ChaCha8Rng) -> Option<Pose> {
    let size = solution.size();
    let (mut refused, mut other) = crusts(size);
    if random.random_ratio(1, 2) {
        (refused, other) = (other, refused);
    }
    let [places, ends] = [refused, other].map(|it| holding(solution, it));
    let house = any(&size.houses().collect::<Vec<_>>(), random)?;
    let members: CellSet = size.cells_of(house).into_iter().collect();
    let place = (places & members).first()?;

    // Where the house really has the digit is in sight of one end, and something else in sight of the other.
    let end = any_cell((ends & size.peers(place)) - members, random)?;
    let middle = any_cell((places & size.peers(end)) - members, random)?;
    let other_end = any_cell((ends & size.peers(middle)) - members - [end].into_iter().collect(), random)?;
    let is_seen_by_other = (members & size.peers(other_end)) - size.peers(end) - places - ends;
    let decoy = any_cell(is_seen_by_other, random)?;

    let turn = [end, middle, other_end];
    let sights = [(end, middle), (middle, other_end), (place, end), (decoy, other_end)];
    let shared = sights.iter().filter_map(|it| size.shared_house(it.0, it.1));
    let mut plan = Plan::new(solution, shared.chain([house]), None);
    plan.told.extend(turn.map(Claim::Crust));
    let left = [place, decoy].into_iter().collect();
    for cell in (members - left).iter() {
        plan.strike(cell, DigitSet::only(refused));
    }
    let crust_digits = DigitSet::only(refused).with(other);
    plan.give_some(plan.cells() - left, crust_digits, 40, random);
    // Crusts mean something only where there is a clue.
    let lines: Vec<_> = plan.houses.iter().copied().filter(|it| it.is_line()).collect();
    plan.clues.push(any(&lines, random)?);
    Some(plan.pose())
}
