//! What no order can cost less than.
//!
//! The cost of an order is a sum of two kinds of parts, and each is bounded by itself: what comes of the puzzle just
//! before (an assignment of a next one to each puzzle, which need not be one chain), and what comes of all that was
//! shown before (the cheapest way to meet every technique, whatever the neighbours).
//!
//! Where not all puzzles have a place, the first part is what the cheapest puzzles cost beside whichever other suits them
//! best, and the second may stop at any time and then pays for what is never shown.
//!
//! That what recordings say may cost something is left out: a bound without it is one too.

use std::cmp::Reverse;
use std::collections::{BTreeSet, BinaryHeap};

use pathfinding::kuhn_munkres::kuhn_munkres_min;
use pathfinding::matrix::Matrix;

use crate::board::{Board, START, SoFar};

/// So many sets of puzzles are looked at.
const MOST_SETS: usize = 3_000;

/// A bound on the cost of every order of so many of the puzzles, those that are certain among them.
pub(crate) fn at_least(board: &Board<'_>, n_places: usize, certain: &[bool]) -> u64 {
    match board.n() {
        129.. => 0,
        n if n_places < n => chosen_neighbours(board, n_places, certain) + meetings(board, certain),
        n => neighbours(board) + meetings(board, &vec![true; n]),
    }
}

/// The least that the costs of neighbours can add up to where puzzles are left out.
///
/// Every puzzle that has a place, but for the first, costs what the best puzzle before it costs it at least; and every
/// one but for the last what the best after it costs. Whichever is left out of that sum, the dearest may be it.
fn chosen_neighbours(board: &Board<'_>, n_places: usize, certain: &[bool]) -> u64 {
    let n = board.n();
    let beside = |a, b| board.objective().weights.costs(board.beside(a, b)).total();
    let others = |it: usize| (0..n).filter(move |other| *other != it);
    let before = (0..n).map(|it| others(it).map(|other| beside(other, it)).min().unwrap_or(0));
    let after = (0..n).map(|it| others(it).map(|other| beside(it, other)).min().unwrap_or(0));
    let cheapest = |costs: Vec<u64>| -> u64 {
        let of = |wanted: bool| (0..n).filter(move |it| certain[*it] == wanted);
        let mut open: Vec<u64> = of(false).map(|it| costs[it]).collect();
        open.sort_unstable();
        let mut placed: Vec<u64> = of(true).map(|it| costs[it]).chain(open).take(n_places).collect();
        placed.sort_unstable();
        placed.pop();
        placed.iter().sum()
    };
    cheapest(before.collect()).max(cheapest(after.collect()))
}

/// The least that the costs of neighbours can add up to.
fn neighbours(board: &Board<'_>) -> u64 {
    let n = board.n();
    let weights = &board.objective().weights;
    let cost = |(row, column): (usize, usize)| match (row == n, column == n) {
        // The one row and the one column more are the end and the beginning.
        (true, true) => FORBIDDEN,
        (true, false) | (false, true) => 0,
        (false, false) if row == column => FORBIDDEN,
        (false, false) => weights.costs(board.beside(row, column)).total().cast_signed().min(FORBIDDEN),
    };
    kuhn_munkres_min(&Matrix::from_fn(n + 1, n + 1, cost)).0.cast_unsigned()
}

/// More than any two neighbours cost that an order would want, small enough to be added up.
const FORBIDDEN: i64 = 1 << 40;

/// The least that meeting techniques costs, with all puzzles that are certain.
///
/// A puzzle that costs nothing now may as well be placed now: having been shown more never makes a later place dearer,
/// and leaves less that is never shown. So only those that cost something are a choice, and the cheapest sequence of
/// choices is looked for, the cheapest set so far first (Dijkstra). Once all that are certain have their places it may
/// end, and costs what is never shown. If there are too many sets, what the cheapest of those left costs is a bound too.
fn meetings(board: &Board<'_>, certain: &[bool]) -> u64 {
    let n = board.n();
    let needed = (0..n).filter(|it| certain[*it]).fold(0, |set: u128, it| set | 1 << it);
    let cost = |shown, next| {
        // Without a puzzle before and without shelves.
        let flaws = board.flaws(&SoFar { shown, ..START }, next);
        board.objective().weights.costs(flaws).total()
    };
    let closed = |mut placed: u128, mut shown| loop {
        let open = (0..n).filter(|it| placed >> it & 1 == 0);
        let free: Vec<usize> = open.filter(|it| cost(shown, *it) == 0).collect();
        if free.is_empty() {
            return (placed, shown);
        }
        for it in free {
            placed |= 1 << it;
            shown |= board.uses(it);
        }
    };
    let mut done = BTreeSet::new();
    // An end is a set like any other, reached at the cost of what is never shown; at equal cost ends come first.
    let mut open = BinaryHeap::from([Reverse((0, Some(closed(0, 0))))]);
    while let Some(Reverse((so_far, set))) = open.pop() {
        let Some((placed, shown)) = set else { return so_far };
        if done.len() >= MOST_SETS {
            return so_far;
        }
        if done.insert(placed) {
            if placed & needed == needed {
                open.push(Reverse((so_far + board.cost_of_untaught(shown), None)));
            }
            for next in (0..n).filter(|it| placed >> it & 1 == 0) {
                let then = closed(placed | 1 << next, shown | board.uses(next));
                open.push(Reverse((so_far + cost(shown, next), Some(then))));
            }
        }
    }
    0
}
