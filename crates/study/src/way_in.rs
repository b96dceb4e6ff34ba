//! Where a puzzle opens: the few steps from the page to the first thing worth writing down.

use std::cmp::Reverse;
use std::collections::BTreeSet;

use reason::{Known, Settings, openings};
use rulebook::{Claim, Puzzle};
use trail::{FactId, StepId, Trail};

/// A way in is at most so long, if it can be: a hint that takes more breath than that is no hint.
const MOST_STEPS: usize = 3;

/// A few steps that lead from the page alone to a digit or a crust, the one on which most of the rest of
/// the walkthrough rests: as a trail of their own, whose last step is the one that writes it down. A way
/// that uses a clue goes before one that does not. Of equals the shorter counts, then the earlier.
///
/// Where every digit and crust lies deeper, the steps lead to something else that much rests on; and
/// where everything rests on a small argument, to the end of that.
pub(crate) fn way_in(trail: &Trail) -> Option<Trail> {
    let ways: Vec<(FactId, Trail)> = trail
        .facts()
        .filter(|(_, it)| it.step().is_some())
        .map(|(it, _)| (it, trail.needed_for([it])))
        .collect();
    let is_short =
        |way: &Trail| way.n_steps() <= MOST_STEPS && !way.steps().any(|it| it.1.is_small_argument());
    let settles = |fact: FactId| matches!(trail.fact(fact).claim(), Claim::Is(..) | Claim::Crust(_));
    let opening = |is_meant: &dyn Fn(FactId) -> bool| {
        // `max_by_key` takes the last of equals, so the order is turned round.
        let short = ways.iter().rev().filter(|(fact, way)| is_meant(*fact) && is_short(way));
        short.max_by_key(|(fact, way)| {
            (uses_clue(way), n_resting_on(trail, *fact), usize::MAX - way.n_steps())
        })
    };
    let best = opening(&settles).or_else(|| opening(&|_| true));
    best.or_else(|| ways.iter().min_by_key(|it| it.1.n_steps())).map(|it| it.1.clone())
}

/// At most so many ways in are told apart.
const MOST_WAYS: usize = 3;

/// The way in, and others that share no step with it or with each other, each as short: where else a solver may
/// begin. Of the walkthrough's own those that use a clue come first, then those on which more rests; after them those
/// that the walkthrough leaves aside, the least effort first.
pub(crate) fn ways_in(puzzle: &Puzzle, trail: &Trail, known: Known) -> Vec<Trail> {
    let mut ways: Vec<Trail> = way_in(trail).into_iter().collect();
    let settles = |fact: FactId| matches!(trail.fact(fact).claim(), Claim::Is(..) | Claim::Crust(_));
    let mut others: Vec<FactId> = trail.facts().map(|it| it.0).filter(|it| settles(*it)).collect();
    others.retain(|it| trail.fact(*it).step().is_some());
    others.sort_by_cached_key(|it| Reverse((uses_clue(&trail.needed_for([*it])), n_resting_on(trail, *it))));
    for way in others.into_iter().map(|it| trail.needed_for([it])) {
        let is_short = way.n_steps() <= MOST_STEPS && !way.steps().any(|it| it.1.is_small_argument());
        if ways.len() < MOST_WAYS && is_short && ways.iter().all(|it| !share_a_step(trail, it, &way)) {
            ways.push(way);
        }
    }
    if ways.len() < MOST_WAYS {
        for way in openings(puzzle, known, MOST_STEPS, Settings::THOROUGH.argument.cap) {
            let way = way.walkthrough().trail();
            if ways.len() < MOST_WAYS && ways.iter().all(|it| !share_a_step(trail, it, way)) {
                ways.push(way.clone());
            }
        }
    }
    ways
}

/// Whether two ways conclude something alike, or have a step of the trail in common, for whatever each needs of it.
fn share_a_step(trail: &Trail, a: &Trail, b: &Trail) -> bool {
    let claims = |way: &Trail| -> BTreeSet<Claim> {
        way.facts().filter(|(_, it)| it.step().is_some()).map(|(_, it)| it.claim()).collect()
    };
    let (a, b) = (claims(a), claims(b));
    let steps = |claims: &BTreeSet<Claim>| -> BTreeSet<StepId> {
        trail.facts().filter(|(_, it)| claims.contains(&it.claim())).filter_map(|(_, it)| it.step()).collect()
    };
    !a.is_disjoint(&b) || !steps(&a).is_disjoint(&steps(&b))
}

/// Whether some step uses a clue: what sets the puzzle apart from a classic one.
fn uses_clue(way: &Trail) -> bool {
    way.steps().any(|(id, _)| !way.cites_of(id).clues.is_empty())
}

/// How many steps rest on the fact, through others too.
fn n_resting_on(trail: &Trail, on: FactId) -> usize {
    let mut rests = vec![false; trail.n_facts()];
    rests[on.index()] = true;
    let mut n = 0;
    for (_, step) in trail.steps() {
        let others: Vec<FactId> = step.concludes().iter().copied().filter(|it| *it != on).collect();
        for it in &others {
            let cites = trail.fact(*it).cites();
            rests[it.index()] = cites.is_some_and(|it| it.facts.iter().any(|it| rests[it.index()]));
        }
        n += usize::from(others.iter().any(|it| rests[it.index()]));
    }
    n
}
