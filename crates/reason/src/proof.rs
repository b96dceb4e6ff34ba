//! A short proof for one goal, outwards from what is known.
//!
//! Each round takes what is nearest among all that is open. For a proof that is what rests on the fewest steps, so the
//! goal is met on a short way rather than on the easiest one; [`next`](crate::next) goes by effort instead. It is the shortest found, not proven to be the shortest
//! there is: a technique names one reason where several would do, and a fact keeps the first proof that
//! is found for it.

use std::collections::BTreeSet;

use grid::{Cell, DigitSet, Grid, House, Size};
use rulebook::Claim;
use trail::{Cites, FactId, Proposal, StepId, Trail};

use crate::small_argument::{Arguments, Effort};
use crate::{Known, Settings, View, order, technique};

/// A proof that has not been replayed yet, with nothing in it that its goal does not need.
#[derive(Clone, Debug)]
pub(crate) struct Proof {
    /// The steps, in some order in which they can be taken.
    pub(crate) trail: Trail,
    /// The fact that settles the goal: its last, or one of the page.
    pub(crate) by: Claim,
}

impl Proof {
    /// Steps, then their weights: the less, the shorter.
    pub(crate) fn length(&self) -> (usize, u64) {
        let weights = self.trail.steps().map(|(it, _)| order::weight(&self.trail, it));
        (self.trail.n_steps(), weights.sum())
    }

    /// Whether it needs a small argument.
    pub(crate) fn argues(&self) -> bool {
        self.trail.steps().any(|(_, it)| it.is_small_argument())
    }
}

/// What a search may do.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Reach<'a> {
    /// The techniques it may use, and what an argument may cost.
    pub(crate) settings: Settings,
    /// The most steps the goal may rest on.
    pub(crate) most: usize,
    /// The solution, if small arguments about the goal's own cell may help where techniques do not.
    pub(crate) argue: Option<&'a Grid>,
}

/// How many small arguments a search makes before it gives up.
const MOST_ARGUMENTS: usize = 4;

/// A short proof of the goal from `start`, a position in which nothing but the page is known.
pub(crate) fn search(start: View<'_>, goal: Claim, reach: Reach<'_>) -> Option<Proof> {
    let mut search = Search::new(start, reach.settings.known, Near::Steps);
    let mut arguments_left = MOST_ARGUMENTS;
    loop {
        if let Some(found) = best_in(search.view.size(), search.view.trail(), goal) {
            return Some(found);
        }
        if search.take_nearest(reach.most as u64).is_empty() {
            arguments_left = arguments_left.checked_sub(1)?;
            search.argue(goal, reach)?;
        }
    }
}

/// The shortest of the proofs that a trail holds for the goal.
pub(crate) fn best_in(size: Size, trail: &Trail, goal: Claim) -> Option<Proof> {
    let settling = trail.facts().filter(|(_, it)| settles(size, it.claim(), goal));
    let proofs = settling.map(|(id, it)| Proof { trail: trail.needed_for([id]), by: it.claim() });
    // The goal itself is the plainest answer; of equals the earliest counts.
    proofs.min_by_key(|it| (it.length(), it.by != goal))
}

/// Whether whoever knows the fact knows the goal: it is the goal, leaves the goal's cell no more than
/// that, or places the digit where the cell sees it.
fn settles(size: Size, fact: Claim, goal: Claim) -> bool {
    let Some((cell, left)) = goal.leaves(size) else { return fact == goal };
    let leaves_no_more = |(at, digits): (Cell, DigitSet)| at == cell && (digits - left).is_empty();
    fact.leaves(size).is_some_and(leaves_no_more) || seen_in(size, fact, goal).is_some()
}

/// The house in which the goal's cell sees the digit that the fact places and the goal denies.
pub(crate) fn seen_in(size: Size, fact: Claim, goal: Claim) -> Option<House> {
    match (fact, goal) {
        (Claim::Is(at, placed), Claim::IsNot(cell, digit)) if placed == digit && at != cell => {
            let houses = size.houses_of(at);
            size.houses_of(cell).into_iter().find(|it| houses.contains(it))
        }
        _ => None,
    }
}

/// What makes a step near.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Near {
    /// That few steps lead to it; of equals, those of less effort.
    Steps,
    /// That little effort leads to it; of equals, fewer steps.
    Effort,
}

/// A position, and how far from the page each of its facts is.
pub(crate) struct Search<'a> {
    pub(crate) view: View<'a>,
    known: Known,
    near: Near,
    /// By [`FactId::index`]: the steps a fact rests on, through others too.
    rests_on: Vec<BTreeSet<StepId>>,
}

/// A step that is open, with those of its conclusions that rest on the fewest steps.
struct Offer {
    proposal: Proposal,
    /// How near it is, its own step counted: steps and weights, in the order that [`Near`] says.
    length: (u64, u64),
}

impl<'a> Search<'a> {
    pub(crate) fn new(view: View<'a>, known: Known, near: Near) -> Search<'a> {
        let rests_on = vec![BTreeSet::new(); view.trail().n_facts()];
        Search { view, known, near, rests_on }
    }

    /// Takes all that is nearest, and gives the steps; none if that is farther than `most`, or nothing is open.
    pub(crate) fn take_nearest(&mut self, most: u64) -> Vec<StepId> {
        let mut offers: Vec<Offer> = Vec::new();
        let mut nearest = most;
        for technique in self.known.techniques() {
            // Techniques come easiest first, and a step is never nearer than its own effort.
            let is_farther = self.near == Near::Effort && u64::from(technique.weight()) > nearest;
            if is_farther || (technique.is_last_resort() && !offers.is_empty()) {
                break;
            }
            for offer in technique.find(&self.view).into_iter().filter_map(|it| self.offer(it)) {
                nearest = nearest.min(offer.length.0);
                offers.push(offer);
            }
        }
        offers.retain(|it| it.length.0 == nearest);
        offers.sort_by_key(|it| it.length);
        offers.into_iter().filter_map(|it| self.take(it.proposal)).collect()
    }

    /// How many steps a fact rests on.
    pub(crate) fn n_steps_to(&self, fact: FactId) -> usize {
        self.rests_on[fact.index()].len()
    }

    /// The proposal cut down to what is news and nearest. What it says beyond that will be offered again.
    fn offer(&self, mut proposal: Proposal) -> Option<Offer> {
        proposal.retain(|claim, _| self.view.is_news(*claim));
        let own = technique(proposal.technique).map_or(0, |it| u64::from(it.weight()));
        let length = |cites: &Cites| {
            let below = self.below(cites);
            let weights = below.iter().map(|it| order::weight(self.view.trail(), *it));
            let (steps, weight) = (below.len() as u64 + 1, own + weights.sum::<u64>());
            match self.near {
                Near::Steps => (steps, weight),
                Near::Effort => (weight, steps),
            }
        };
        let (nearest, _) = proposal.conclusions.iter().map(|it| length(&it.1)).min()?;
        proposal.retain(|_, cites| length(cites).0 == nearest);
        let length = length(&proposal.conclusions.first()?.1);
        Some(Offer { proposal, length })
    }

    /// The steps that what is cited rests on.
    fn below(&self, cites: &Cites) -> BTreeSet<StepId> {
        cites.facts.iter().flat_map(|it| self.rests_on[it.index()].iter().copied()).collect()
    }

    /// Takes what is still news of the proposal; none if nothing is.
    fn take(&mut self, mut proposal: Proposal) -> Option<StepId> {
        proposal.retain(|claim, _| self.view.is_news(*claim));
        self.take_whole(proposal)
    }

    pub(crate) fn take_whole(&mut self, proposal: Proposal) -> Option<StepId> {
        let rest_on: Vec<BTreeSet<StepId>> =
            proposal.conclusions.iter().map(|(_, cites)| self.below(cites)).collect();
        // What cannot be put on a trail is a fault of its technique, which `explain` reports.
        let step = self.view.take(proposal).ok()?;
        for mut below in rest_on {
            below.insert(step);
            self.rests_on.push(below);
        }
        Some(step)
    }

    /// Makes a small argument about the goal's cell; none if there is none that is near enough.
    fn argue(&mut self, goal: Claim, reach: Reach<'_>) -> Option<()> {
        let effort = reach.settings.argument;
        // An argument too long to follow is no short proof: the walkthrough's own is better then.
        let effort = Effort { cases_at_worst: effort.cases, ..effort };
        let proposal = Arguments::new(reach.argue?, effort).find_about(&self.view, goal.cell()?)?;
        let step = self.take_whole(proposal)?;
        let n_steps = |fact: &FactId| self.rests_on[fact.index()].len();
        let concluded = self.view.trail().step(step).concludes();
        concluded.iter().any(|it| n_steps(it) <= reach.most).then_some(())
    }
}
