//! Four parallel lines in which a digit has no other places than where four lines cross them.

use grid::{CellSet, DigitSet, Grid, House, HouseKind};
use rand::RngExt;
use rand::seq::SliceRandom;
use rand_chacha::ChaCha8Rng;

use super::{Plan, Pose, any, any_cell, holding};

/// How many lines.
const N: usize = 4;

/// The lines are partly filled. Asked is a cell elsewhere of those that cross them.
pub(super) fn jellyfish(solution: &Grid, random: &mut ChaCha8Rng) -> Option<Pose> {
    let size = solution.size();
    let digit = any(&size.digits().iter().collect::<Vec<_>>(), random)?;
    let base_kind = if random.random_ratio(1, 2) { HouseKind::Row } else { HouseKind::Column };
    let members = |houses: &[House]| houses.iter().flat_map(|it| size.cells_of(*it)).collect::<CellSet>();

    let (mut base, across): (Vec<House>, Vec<House>) = size.lines().partition(|it| it.kind() == base_kind);
    base.shuffle(random);
    base.truncate(N);
    let within = members(&base);
    let held = holding(solution, digit);
    let is_cover = |it: &House| size.cells_of(*it).into_iter().any(|it| (held & within).contains(it));
    let crossed = members(&across.into_iter().filter(is_cover).collect::<Vec<_>>());

    let asked = any_cell(crossed - within - held, random)?;
    let mut plan = Plan::new(solution, base, Some(asked));
    let digit = DigitSet::only(digit);
    for cell in (within - crossed).iter() {
        plan.strike(cell, digit);
    }
    for cell in (within & crossed).iter() {
        plan.strike_some(cell, digit, 15, random);
    }
    plan.give_some(within, digit, 35, random);
    plan.strike_some(asked, size.digits() - digit, 60, random);
    Some(plan.pose())
}
