//! Chooses, of all ways in which a puzzle could be explained, one that takes little effort.
//!
//! The easiest step, again and again, finds *a* way; but what it takes because it is there may be
//! needed by nobody, and a fact that one step gives may be had from another that gives more. So while
//! those steps are taken, every step that was open beside them is kept as an offer. Each needed fact can
//! then come from any offer that concludes it, and the offers are chosen so that the whole takes the least
//! effort, a step that gives several needed facts being paid for once.
//!
//! That is the question of the cheapest proof among many, known from circuit design as covering a network
//! at least area, and hard in general. It is answered as there: by walking over the facts again and
//! again, taking for each the offer that is cheapest as things stand (released first, then priced with what
//! else is already paid for), until nothing changes. The effort falls with every exchange.

use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

use rulebook::Claim;
use trail::{Cites, FactId, Proposal, TechniqueId, Trail};

use crate::effort;

/// Exchanges go over all facts at most so often.
const MOST_ROUNDS: usize = 8;

/// A step that was open once.
#[derive(Clone, Debug)]
pub(crate) struct Offer {
    /// How many facts were known then: it cites only those.
    pub(crate) after: usize,
    /// The step; its ids are those of the trail on which it was open.
    pub(crate) proposal: Rc<Proposal>,
}

impl Offer {
    /// Its technique with each thing it concludes.
    pub(crate) fn concludes(&self) -> impl Iterator<Item = (TechniqueId, Claim)> {
        self.proposal.conclusions.iter().map(|it| (self.proposal.technique, it.0))
    }
}

/// The cheapest trail found to the goals, which are facts of `trail`, from the offers that were open along
/// it. The steps of the trail itself must be among the offers.
pub(crate) fn cheapest(trail: &Trail, offers: &[Offer], goals: &[FactId]) -> Trail {
    let mut choice = Choice::new(trail, offers);
    for it in goals {
        choice.need(*it);
    }
    for _ in 0..MOST_ROUNDS {
        if !choice.improve() {
            break;
        }
    }
    let chosen = choice.trail();
    debug_assert!(chosen.is_some(), "what is chosen rests only on what is chosen too");
    chosen.unwrap_or_else(|| trail.needed_for(goals.iter().copied()))
}

/// One way to conclude a fact.
#[derive(Clone, Copy)]
struct Source {
    offer: usize,
    conclusion: usize,
    /// Where what it rests on begins and ends in [`Choice::cited`].
    cited: (usize, usize),
}

/// Which offer each fact comes from, and what is needed of all that.
struct Choice<'a> {
    trail: &'a Trail,
    offers: &'a [Offer],
    /// What each offer costs.
    efforts: Vec<u64>,
    /// The facts that the sources rest on, source after source.
    cited: Vec<FactId>,
    /// By fact: every way to conclude it; none for a fact of the page.
    sources: Vec<Vec<Source>>,
    /// By fact: the chosen way, as a place in `sources`.
    chosen: Vec<usize>,
    /// By fact: how many needed conclusions and goals rest on it.
    uses: Vec<usize>,
    /// By offer: how many needed facts come from it.
    taken: Vec<usize>,
}

impl<'a> Choice<'a> {
    fn new(trail: &'a Trail, offers: &'a [Offer]) -> Choice<'a> {
        let ids: BTreeMap<Claim, FactId> = trail.facts().rev().map(|(id, it)| (it.claim(), id)).collect();
        let mut sources: Vec<Vec<Source>> = vec![Vec::new(); trail.n_facts()];
        let mut cited = Vec::new();
        for (offer, it) in offers.iter().enumerate() {
            for (conclusion, (claim, cites)) in it.proposal.conclusions.iter().enumerate() {
                if let Some(fact) = ids.get(claim).filter(|id| id.index() >= it.after) {
                    let from = cited.len();
                    cited.extend(&cites.facts);
                    let source = Source { offer, conclusion, cited: (from, cited.len()) };
                    sources[fact.index()].push(source);
                }
            }
        }
        let efforts = offers.iter().map(|it| {
            let cites = it.proposal.conclusions.iter().map(|it| &it.1);
            effort::of_step(it.proposal.technique, &it.proposal.argument, cites)
        });
        let efforts: Vec<u64> = efforts.collect();
        // At first each fact comes from the step that is easiest by itself.
        let easiest = |ways: &Vec<Source>| (0..ways.len()).min_by_key(|it| efforts[ways[*it].offer]);
        let chosen = sources.iter().map(|it| easiest(it).unwrap_or_default()).collect();
        Choice {
            trail,
            offers,
            efforts,
            cited,
            chosen,
            uses: vec![0; trail.n_facts()],
            taken: vec![0; offers.len()],
            sources,
        }
    }

    fn source(&self, fact: FactId) -> Option<Source> {
        self.sources[fact.index()].get(self.chosen[fact.index()]).copied()
    }

    /// Counts one more use of the fact, and of what it rests on if it was not needed before. Gives what
    /// that costs.
    fn need(&mut self, fact: FactId) -> u64 {
        self.uses[fact.index()] += 1;
        let Some(source) = self.source(fact).filter(|_| self.uses[fact.index()] == 1) else { return 0 };
        self.taken[source.offer] += 1;
        let own = if self.taken[source.offer] == 1 { self.efforts[source.offer] } else { 0 };
        own + (source.cited.0..source.cited.1).map(|it| self.need(self.cited[it])).sum::<u64>()
    }

    /// Takes one use of the fact back, and of what nothing else needs then. Gives what that saves.
    fn release(&mut self, fact: FactId) -> u64 {
        self.uses[fact.index()] -= 1;
        let Some(source) = self.source(fact).filter(|_| self.uses[fact.index()] == 0) else { return 0 };
        self.taken[source.offer] -= 1;
        let own = if self.taken[source.offer] == 0 { self.efforts[source.offer] } else { 0 };
        own + (source.cited.0..source.cited.1).map(|it| self.release(self.cited[it])).sum::<u64>()
    }

    /// Goes over all needed facts once, and takes for each the cheapest way. Whether anything changed.
    fn improve(&mut self) -> bool {
        let mut has_changed = false;
        for (fact, _) in self.trail.facts().rev() {
            let at = fact.index();
            if self.uses[at] == 0 || self.sources[at].len() < 2 {
                continue;
            }
            let uses = std::mem::replace(&mut self.uses[at], 1);
            let before = self.chosen[at];
            // Only what is really cheaper is exchanged, so that this comes to an end.
            let mut cheapest = (self.release(fact), before);
            for way in 0..self.sources[at].len() {
                self.chosen[at] = way;
                let cost = self.need(fact);
                self.release(fact);
                if cost < cheapest.0 {
                    cheapest = (cost, way);
                }
            }
            self.chosen[at] = cheapest.1;
            self.need(fact);
            self.uses[at] = uses;
            has_changed |= cheapest.1 != before;
        }
        has_changed
    }

    /// Adds to what is needed of each offer the crusts that it gives beside: whoever says that the crusts
    /// are at the two ends writes both down.
    fn complete(&self, needed: &mut BTreeMap<usize, Vec<(usize, FactId)>>) {
        let mut added: BTreeSet<FactId> = BTreeSet::new();
        for (fact, _) in self.trail.facts().filter(|(id, _)| self.uses[id.index()] == 0) {
            if !matches!(self.trail.fact(fact).claim(), Claim::Crust(_)) {
                continue;
            }
            for source in &self.sources[fact.index()] {
                let conclusions = &self.offers[source.offer].proposal.conclusions;
                let Some(kept) = needed.get_mut(&source.offer) else { continue };
                let rests_on_the_same =
                    kept.iter().any(|it| conclusions[it.0].1 == conclusions[source.conclusion].1);
                if rests_on_the_same && added.insert(fact) {
                    kept.push((source.conclusion, fact));
                }
            }
        }
    }

    /// What is needed as a trail: offers in the order in which they were open.
    fn trail(&self) -> Option<Trail> {
        let mut needed: BTreeMap<usize, Vec<(usize, FactId)>> = BTreeMap::new();
        for (fact, _) in self.trail.facts().filter(|(id, _)| self.uses[id.index()] > 0) {
            if let Some(source) = self.source(fact) {
                needed.entry(source.offer).or_default().push((source.conclusion, fact));
            }
        }
        self.complete(&mut needed);
        let mut offers: Vec<usize> = needed.keys().copied().collect();
        offers.sort_by_key(|it| self.offers[*it].after);

        let mut new_ids: Vec<Option<FactId>> = vec![None; self.trail.n_facts()];
        let page = self.trail.facts().take_while(|(_, it)| it.step().is_none());
        let page: Vec<FactId> = page.map(|it| it.0).collect();
        page.iter().for_each(|it| new_ids[it.index()] = Some(*it));
        let mut built = self.trail.needed_for([]);
        for offer in offers {
            let Proposal { technique, argument, conclusions } = &*self.offers[offer].proposal;
            let facts = needed.get_mut(&offer)?;
            facts.sort_unstable();
            let kept = facts.iter().map(|(at, _)| {
                let (claim, cites) = &conclusions[*at];
                let facts = cites.facts.iter().map(|it| new_ids[it.index()]).collect::<Option<_>>()?;
                Some((*claim, Cites { facts, ..cites.clone() }))
            });
            let argument = argument.keeping(&facts.iter().map(|it| it.0).collect::<Vec<_>>());
            let proposal =
                Proposal { technique: *technique, argument, conclusions: kept.collect::<Option<_>>()? };
            let step = built.push(proposal).ok()?;
            for ((_, old), new) in facts.iter().zip(built.step(step).concludes()) {
                new_ids[old.index()] = Some(*new);
            }
        }
        Some(built)
    }
}
