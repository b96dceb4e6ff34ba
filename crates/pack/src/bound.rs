//! What no order can cost less than.
//!
//! The cost of an order is a sum of two kinds of parts, and each is bounded by itself: what comes of the puzzle just
//! before (an assignment of a next one to each puzzle, which need not be one chain), and what comes of all that was
//! shown before (the cheapest way to meet every technique, whatever the neighbours).

use std::cmp::Reverse;
use std::collections::{BTreeSet, BinaryHeap};

use pathfinding::kuhn_munkres::kuhn_munkres_min;
use pathfinding::matrix::Matrix;

use crate::board::{Board, SoFar};

/// So many sets of puzzles are looked at.
const MOST_SETS: usize = 3_000;

/// A bound on the cost of every order of all puzzles. Where some are left out nothing is claimed: 0.
pub(crate) fn at_least(board: &Board<'_>, n_places: usize) -> u64 {
    match n_places < board.n() || board.n() > 128 {
        true => 0,
        false => neighbours(board) + meetings(board),
    }
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

/// The least that meeting all techniques costs.
///
/// A puzzle that costs nothing now may as well be placed now: having been shown more never makes a later place dearer.
/// So only those that cost something are a choice, and the cheapest sequence of choices is looked for, the cheapest
/// set so far first (Dijkstra). If there are too many sets, what the cheapest of those left costs is a bound too.
fn meetings(board: &Board<'_>) -> u64 {
    let n = board.n();
    let all: u128 = if n == 128 { u128::MAX } else { (1 << n) - 1 };
    let cost = |shown, next| {
        // Without a puzzle before and without shelves.
        let flaws = board.flaws(&SoFar { shown, shelf: None, last: None }, next);
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
    let mut open = BinaryHeap::from([Reverse((0, closed(0, 0)))]);
    while let Some(Reverse((so_far, (placed, shown)))) = open.pop() {
        if placed == all || done.len() >= MOST_SETS {
            return so_far;
        }
        if done.insert(placed) {
            for next in (0..n).filter(|it| placed >> it & 1 == 0) {
                let then = closed(placed | 1 << next, shown | board.uses(next));
                open.push(Reverse((so_far + cost(shown, next), then)));
            }
        }
    }
    0
}
