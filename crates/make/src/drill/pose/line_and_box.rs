//! Cells where a line crosses a box, some of the rest of either, and as many digits as cells.

use grid::{CellSet, DigitSet, Grid, House, HouseKind};
use rand::RngExt;
use rand::seq::SliceRandom;
use rand_chacha::ChaCha8Rng;

use super::{Plan, Pose, any};

/// How many cells of the crossing, where it has so many.
const CROSSING: usize = 3;

/// How many cells of the rest of either at most.
const MOST_OUTSIDE: usize = 3;

/// Each of the digits is left to the part of the line or to the part of the box, never to both; the crossing can hold them
/// all. The rest of line and box is partly filled.
pub(super) fn pose(solution: &Grid, random: &mut ChaCha8Rng) -> Option<Pose> {
    let size = solution.size();
    let members = |it: House| size.cells_of(it).into_iter().collect::<CellSet>();
    let (boxes, lines): (Vec<House>, Vec<House>) = size.houses().partition(|it| it.kind() == HouseKind::Box);
    let (line, the_box) = (any(&lines, random)?, any(&boxes, random)?);
    let both = members(line) & members(the_box);
    let mut plan = Plan::new(solution, [line, the_box], None);

    // With fewer cells in the crossing, easier techniques nearly always say the same.
    let [n_of_line, n_of_box] = [(); 2].map(|()| random.random_range(1..=MOST_OUTSIDE));
    let mut some = |cells: CellSet, n: usize| -> CellSet {
        let mut cells: Vec<_> = cells.iter().collect();
        cells.shuffle(random);
        cells.into_iter().take(n).collect()
    };
    let crossing = some(both, CROSSING);
    let of_line = some(members(line) - both, n_of_line);
    let of_box = some(members(the_box) - both, n_of_box);
    let digits = |cells: CellSet| cells.iter().map(|it| plan.digit(it)).collect::<DigitSet>();
    let (shared, mut in_line, mut in_box) = (digits(crossing), digits(of_line), digits(of_box));
    if !(in_line & in_box).is_empty() || shared.len() < 2 {
        return None;
    }
    // The crossing's digits are dealt out to the two parts.
    let mut dealt: Vec<_> = shared.iter().collect();
    dealt.shuffle(random);
    for (at, digit) in dealt.into_iter().enumerate() {
        let part = if at % 2 == 0 { &mut in_line } else { &mut in_box };
        *part = part.with(digit);
    }
    let all = in_line | in_box;
    for (cells, left) in [(crossing, all), (of_line, in_line), (of_box, in_box)] {
        for cell in cells.iter() {
            plan.strike(cell, size.digits() - left);
        }
    }
    for cell in crossing.iter() {
        plan.strike_some(cell, all, 15, random);
    }
    let rest = plan.cells() - crossing - of_line - of_box;
    plan.give_some(rest, all, 40, random);
    for cell in (rest - plan.given).iter() {
        plan.strike_some(cell, size.digits(), 20, random);
    }
    Some(plan.pose())
}
