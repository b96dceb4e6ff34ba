//! Where a puzzle opens: the few steps from the page to the first thing worth writing down.

use std::cmp::Reverse;
use std::collections::BTreeSet;
use std::iter;

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
    let concluded = trail.facts().filter(|(_, it)| it.step().is_some());
    let ways: Vec<Way> = concluded.map(|(it, _)| Way::to(it, trail)).collect();
    let opening = |is_meant: &dyn Fn(FactId) -> bool| {
        // `max_by_key` takes the last of equals, so the order is turned round.
        let short = ways.iter().rev().filter(|it| is_meant(it.goal) && it.is_short(trail));
        short
            .max_by_key(|it| (it.uses_clue(trail), n_resting_on(trail, it.goal), usize::MAX - it.steps.len()))
    };
    let best = opening(&|it| settles(trail, it)).or_else(|| opening(&|_| true));
    let way = best.or_else(|| ways.iter().min_by_key(|it| it.steps.len()))?;
    Some(trail.needed_for([way.goal]))
}

/// What of a trail leads to one of its facts.
struct Way {
    goal: FactId,
    facts: Vec<FactId>,
    steps: BTreeSet<StepId>,
}

impl Way {
    fn to(goal: FactId, trail: &Trail) -> Way {
        let facts = trail.conclusions_needed_for([goal]);
        let steps = facts.iter().filter_map(|it| trail.fact(*it).step()).collect();
        Way { goal, facts, steps }
    }

    fn is_short(&self, trail: &Trail) -> bool {
        self.steps.len() <= MOST_STEPS && !self.steps.iter().any(|it| trail.step(*it).is_small_argument())
    }

    /// Whether some step uses a clue: what sets the puzzle apart from a classic one.
    fn uses_clue(&self, trail: &Trail) -> bool {
        self.facts.iter().filter_map(|it| trail.fact(*it).cites()).any(|it| !it.clues.is_empty())
    }
}

/// Whether it is a digit or a crust.
fn settles(trail: &Trail, fact: FactId) -> bool {
    matches!(trail.fact(fact).claim(), Claim::Is(..) | Claim::Crust(_))
}

/// At most so many ways in are told apart.
const MOST_WAYS: usize = 3;

/// The way in, and others that share no step with it or with each other, each as short: where else a solver may
/// begin. Of the walkthrough's own those that use a clue come first, then those on which more rests; after them those
/// that the walkthrough leaves aside, the least effort first.
pub(crate) fn ways_in(puzzle: &Puzzle, trail: &Trail, known: Known) -> Vec<Trail> {
    let mut ways: Vec<Trail> = way_in(trail).into_iter().collect();
    let own = trail.facts().filter(|(id, it)| it.step().is_some() && settles(trail, *id));
    let mut own: Vec<Way> = own.map(|(it, _)| Way::to(it, trail)).filter(|it| it.is_short(trail)).collect();
    own.sort_by_cached_key(|it| Reverse((it.uses_clue(trail), n_resting_on(trail, it.goal))));
    let own = own.into_iter().map(|it| trail.needed_for([it.goal]));
    let cap = Settings::THOROUGH.cap;
    // They are looked for only where the walkthrough's own are too few.
    let aside = iter::once_with(|| openings(puzzle, known, MOST_STEPS, cap)).flatten();
    for way in own.chain(aside.map(|it| it.walkthrough().trail().clone())) {
        if ways.iter().all(|it| !share_a_step(trail, it, &way)) {
            ways.push(way);
        }
        if ways.len() == MOST_WAYS {
            break;
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
