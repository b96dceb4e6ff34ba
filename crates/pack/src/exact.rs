//! The best of all orders, by looking at every set of puzzles already placed and every last one (Held and Karp's
//! method for tours: M. Held, R. M. Karp, "A dynamic programming approach to sequencing problems", 1962). What comes
//! next depends on nothing else.

use crate::board::{Board, START, SoFar};

/// Up to this many puzzles the best order is found.
pub(crate) const EXACT: usize = 15;

/// What no order costs.
const IMPOSSIBLE: u64 = u64::MAX / 4;

/// The order of `n_places` puzzles with the least cost, those that are certain among them; of equals that with the
/// smaller ids first.
pub(crate) fn best_of_all(board: &Board<'_>, n_places: usize, certain: &[bool]) -> Vec<usize> {
    let n = board.n();
    let full = (1usize << n) - 1;
    let so_far: Vec<SoFar> =
        (0..=full).map(|set| members(set, n).fold(START, |so_far, it| board.then(so_far, it))).collect();
    let pinned = board.pinned(n_places);
    let may_follow = |set: usize, next: usize| {
        let place = set.count_ones() as usize;
        set >> next & 1 == 0
            && match pinned[place] {
                Some(it) => it == next,
                None => !pinned.contains(&Some(next)),
            }
    };
    let certain = members(full, n).filter(|it| certain[*it]).fold(0, |set, it| set | 1 << it);
    let finished = |set: usize, last: usize| match set & certain == certain {
        true => {
            board.cost_of_untaught(so_far[set].shown)
                + board.cost_of_untrue_at_end(Some(last), |it| set >> it & 1 == 1)
        }
        false => IMPOSSIBLE,
    };
    // to_come[set][last]: the least cost of placing what is still to be placed after `last`.
    let mut to_come = vec![IMPOSSIBLE; (full + 1) * n.max(1)];
    let best = |to_come: &[u64], set: usize, last: Option<usize>| {
        let before = SoFar { last, ..so_far[set] };
        let options = (0..n).filter(|it| may_follow(set, *it));
        let costs = options.map(|it| (board.cost(&before, it) + to_come[(set | 1 << it) * n + it], it));
        costs.min()
    };
    for set in (1..=full).rev() {
        let n_placed = set.count_ones() as usize;
        for last in members(set, n) {
            to_come[set * n + last] = match n_placed.cmp(&n_places) {
                std::cmp::Ordering::Greater => continue,
                std::cmp::Ordering::Equal => finished(set, last),
                std::cmp::Ordering::Less => {
                    best(&to_come, set, Some(last)).map_or(IMPOSSIBLE, |it| it.0.min(IMPOSSIBLE))
                }
            };
        }
    }
    let (mut set, mut last) = (0, None);
    let mut order = Vec::with_capacity(n_places);
    while order.len() < n_places {
        let Some((_, next)) = best(&to_come, set, last) else { break };
        order.push(next);
        set |= 1 << next;
        last = Some(next);
    }
    order
}

fn members(set: usize, n: usize) -> impl Iterator<Item = usize> {
    (0..n).filter(move |it| set >> it & 1 == 1)
}
