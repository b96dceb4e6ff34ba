//! A good order of many puzzles: puzzles are moved about for as long as that pays, and again from orders that were
//! shaken a little (iterated local search).

use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

use crate::board::{Board, START, SoFar};

/// So many orders may be weighed.
const MOST_WEIGHED: usize = 400_000;

/// So many times the best order is shaken.
const SHAKES: usize = 1_000;

/// As many puzzles move together at most.
const LONGEST_RUN: usize = 3;

/// A good order of `n_places` puzzles, those that are certain among them, and none that costs more than one of those that
/// were `met`; of equals the first of those. The same puzzles give the same order.
pub(crate) fn improved(
    board: &Board<'_>,
    n_places: usize,
    certain: &[bool],
    met: &[Vec<usize>],
) -> Vec<usize> {
    let pinned = board.pinned(n_places);
    let mut search = Search { board, free: places_left(&pinned), pinned, certain, n_weighed: 0 };
    let met: Vec<Weighed> = met.iter().map(|it| search.weighed(search.draft(it))).collect();
    // What was met comes first, so that it stays unless something costs less.
    let met = met.into_iter().min_by_key(|it| it.cost);
    let begin = [search.by_effort(), search.cheapest_next()].map(|it| search.weighed(it));
    let settled = met.into_iter().chain(begin).map(|it| search.settled(it));
    let best = settled.min_by_key(|it| it.cost);
    let mut best = best.unwrap_or_else(|| unreachable!("there are two ways to begin"));
    let mut now = best.draft.clone();
    // The numbers only have to be mixed well; the seed means nothing.
    let mut random = ChaCha8Rng::seed_from_u64(1);
    for _ in 0..SHAKES {
        if search.n_weighed > MOST_WEIGHED {
            break;
        }
        let shaken = search.weighed(search.shaken(&now, &mut random));
        let settled = search.settled(shaken);
        // One as good is gone on from too, so that the search does not stay where it is.
        if settled.cost <= best.cost {
            now = settled.draft.clone();
            best = if settled.cost < best.cost { settled } else { best };
        }
    }
    search.order(&best.draft)
}

/// The places that nothing is pinned to.
fn places_left(pinned: &[Option<usize>]) -> Vec<usize> {
    (0..pinned.len()).filter(|it| pinned[*it].is_none()).collect()
}

/// The puzzles that are not pinned: those that have a place, in order, and the others.
#[derive(Clone)]
struct Draft {
    placed: Vec<usize>,
    left: Vec<usize>,
}

/// A draft and what it costs.
struct Weighed {
    draft: Draft,
    cost: u64,
    /// By place: what those before it cost, and what is so far by then.
    before: Vec<(u64, SoFar)>,
}

struct Search<'a> {
    board: &'a Board<'a>,
    pinned: Vec<Option<usize>>,
    /// The places that nothing is pinned to.
    free: Vec<usize>,
    certain: &'a [bool],
    n_weighed: usize,
}

impl Search<'_> {
    /// With the pinned puzzles in their places.
    fn order(&self, draft: &Draft) -> Vec<usize> {
        let mut free = draft.placed.iter();
        self.pinned.iter().filter_map(|it| it.or_else(|| free.next().copied())).collect()
    }

    /// An order as a draft.
    fn draft(&self, order: &[usize]) -> Draft {
        let is_free = |it: &usize| !self.pinned.contains(&Some(*it));
        let mut placed: Vec<usize> = order.iter().copied().filter(is_free).collect();
        placed.truncate(self.free.len());
        let left = (0..self.board.n()).filter(|it| is_free(it) && !placed.contains(it)).collect();
        Draft { placed, left }
    }

    fn weighed(&mut self, draft: Draft) -> Weighed {
        self.n_weighed += 1;
        let order = self.order(&draft);
        let (mut cost, mut so_far) = (0, START);
        let mut before = Vec::with_capacity(order.len());
        for &next in &order {
            before.push((cost, so_far));
            let (more, then) = self.board.placed(so_far, next);
            (cost, so_far) = (cost + more, then);
        }
        cost += self.board.cost_of_end(&so_far, &order);
        Weighed { draft, cost, before }
    }

    /// Whether that draft, which differs from `now` only from the `same`-th place on of those that are free, costs less.
    fn is_cheaper(&mut self, draft: &Draft, same: usize, now: &Weighed) -> bool {
        self.n_weighed += 1;
        let order = self.order(draft);
        let first = self.free[same];
        let (mut cost, mut so_far) = now.before[first];
        for &next in &order[first..] {
            let (more, then) = self.board.placed(so_far, next);
            (cost, so_far) = (cost + more, then);
            if cost >= now.cost {
                return false;
            }
        }
        cost + self.board.cost_of_end(&so_far, &order) < now.cost
    }

    /// Shelf by shelf, from the quickest to the longest; what is certain goes before what is not where there are too
    /// many.
    fn by_effort(&self) -> Draft {
        let is_pinned = |it: &usize| self.pinned.contains(&Some(*it));
        let mut free: Vec<usize> = (0..self.board.n()).filter(|it| !is_pinned(it)).collect();
        free.sort_by_key(|it| (!self.certain[*it], self.board.studied(*it).seconds));
        let n_free = self.pinned.iter().filter(|it| it.is_none()).count();
        let left = free.split_off(n_free.min(free.len()));
        free.sort_by_key(|it| (self.board.studied(*it).shelf, self.board.studied(*it).seconds));
        Draft { placed: free, left }
    }

    /// Place by place whatever costs least there; of equals the quicker.
    fn cheapest_next(&self) -> Draft {
        let Draft { placed: mut open, mut left } = self.by_effort();
        let mut placed = Vec::new();
        let mut so_far = START;
        for pinned in &self.pinned {
            let quickest = |it: &usize| (self.board.cost(&so_far, *it), self.board.studied(*it).seconds, *it);
            let next = pinned.or_else(|| open.iter().copied().min_by_key(quickest));
            let Some(next) = next else { break };
            so_far = self.board.then(so_far, next);
            if pinned.is_none() {
                open.retain(|it| *it != next);
                placed.push(next);
            }
        }
        left.extend(open);
        Draft { placed, left }
    }

    /// Moves puzzles about until no single move pays, or the work is used up.
    fn settled(&mut self, begin: Weighed) -> Weighed {
        let mut now = begin;
        while self.n_weighed <= MOST_WEIGHED && (self.moves(&mut now) || self.exchanges(&mut now)) {}
        now
    }

    /// Takes each run of puzzles to wherever it costs less. Whether any move paid.
    fn moves(&mut self, now: &mut Weighed) -> bool {
        let n = now.draft.placed.len();
        let before = now.cost;
        for length in 1..=LONGEST_RUN.min(n) {
            for from in 0..=n - length {
                for to in (0..=n - length).filter(|it| *it != from) {
                    let mut moved = now.draft.clone();
                    let run: Vec<usize> = moved.placed.drain(from..from + length).collect();
                    moved.placed.splice(to..to, run);
                    self.take_if_better(now, moved, from.min(to));
                }
            }
        }
        now.cost < before
    }

    /// Exchanges two puzzles that have places, or one that has with one that has none. Whether any exchange paid.
    fn exchanges(&mut self, now: &mut Weighed) -> bool {
        let before = now.cost;
        for a in 0..now.draft.placed.len() {
            for b in a + 1..now.draft.placed.len() {
                let mut other = now.draft.clone();
                other.placed.swap(a, b);
                self.take_if_better(now, other, a);
            }
            for b in 0..now.draft.left.len() {
                if !self.certain[now.draft.placed[a]] {
                    let mut other = now.draft.clone();
                    std::mem::swap(&mut other.placed[a], &mut other.left[b]);
                    self.take_if_better(now, other, a);
                }
            }
        }
        now.cost < before
    }

    /// The order with three stretches of it in another sequence, the "double bridge", a change that single moves do
    /// not undo at once; and where puzzles have no place, every other time with one of them.
    fn shaken(&self, draft: &Draft, random: &mut ChaCha8Rng) -> Draft {
        let mut left = draft.left.clone();
        let mut order = draft.placed.clone();
        let n = order.len();
        if n > 0 && !left.is_empty() && random.random_bool(0.5) {
            let at = random.random_range(0..n);
            if !self.certain[order[at]] {
                let other = random.random_range(0..left.len());
                std::mem::swap(&mut order[at], &mut left[other]);
            }
        }
        let mut cuts = [0; 3].map(|_| random.random_range(0..=n));
        cuts.sort_unstable();
        let [a, b, c] = cuts;
        Draft { placed: [&order[..a], &order[b..c], &order[a..b], &order[c..]].concat(), left }
    }

    /// Takes another draft, which differs only from the `same`-th free place on, if it costs less.
    fn take_if_better(&mut self, now: &mut Weighed, other: Draft, same: usize) {
        if self.n_weighed <= MOST_WEIGHED && self.is_cheaper(&other, same, now) {
            *now = self.weighed(other);
        }
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use trail::TechniqueId;

    use super::*;
    use crate::exact::best_of_all;
    use crate::{Objective, PuzzleId, Studied, bound};

    /// Puzzles of which much is equal: a seeded hash gives their times, setters and techniques.
    fn invented(n: usize, seed: u64) -> Vec<Studied> {
        let mut random = ChaCha8Rng::seed_from_u64(seed);
        let all = ["a", "b", "c", "d", "e", "f", "g"].map(TechniqueId::new);
        let mut one = |at| Studied {
            id: PuzzleId::new(&format!("p{at:02}")).unwrap(),
            setter: random.random_range(0..3).to_string(),
            seconds: random.random_range(2..12) * 60,
            techniques: all.into_iter().filter(|_| random.random_bool(0.35)).collect::<BTreeSet<_>>(),
            break_in: Some(all[random.random_range(0..2)]),
            shelf: [None, Some(0), Some(1)][random.random_range(0..3)],
            is_optional: random.random_bool(0.6),
            said: Vec::new(),
        };
        (0..n).map(&mut one).collect()
    }

    #[test]
    fn what_is_moved_about_comes_to_the_best() {
        for seed in 0..12 {
            let studied = invented(9, seed);
            let pins = [(studied[4].id.clone(), 2)].into();
            let objective = Objective { pins, ..Objective::default() };
            let board = Board::new(&objective, &studied);
            for n_places in [7, 9] {
                let certain: Vec<bool> = (0..9).map(|it| n_places == 9 || it == 4).collect();
                let best = board.total(&best_of_all(&board, n_places, &certain));
                assert_eq!(board.total(&improved(&board, n_places, &certain, &[])), best, "seed {seed}");
                assert!(bound::at_least(&board, n_places, &certain) <= best);
            }
        }
    }

    #[test]
    fn the_bound_finds_what_cannot_be_helped() {
        // Two techniques at once in the only puzzle that has them.
        let mut studied = invented(3, 1);
        for (at, it) in studied.iter_mut().enumerate() {
            it.techniques = if at == 0 { ["a", "b"].map(TechniqueId::new).into() } else { BTreeSet::new() };
            (it.setter, it.break_in) = ("one and the same".into(), None);
        }
        let objective = Objective::default();
        let board = Board::new(&objective, &studied);
        let weights = objective.weights;
        assert_eq!(bound::at_least(&board, 3, &[true; 3]), weights.new_at_once + 2 * weights.same_setter);
    }
}
