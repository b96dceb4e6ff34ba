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

use rulebook::Claim;
use trail::{FactId, Trail};

use crate::offer::Offer;
use crate::steps::Run;

/// Exchanges go over all facts at most so often.
const MOST_ROUNDS: usize = 8;

/// The cheapest way found to the goals, which are facts of the run, by the offers that were open along it. The steps
/// of the run itself must be among the offers.
pub(crate) fn cheapest<'a>(run: &'a Run, goals: &[FactId]) -> Chosen<'a> {
    let mut choice = Choice::new(run);
    for it in goals {
        choice.need(*it);
    }
    for _ in 0..MOST_ROUNDS {
        if !choice.improve() {
            break;
        }
    }
    Chosen { needed: choice.needed(), run }
}

/// Steps chosen, each with the conclusions that are needed of it.
pub(crate) struct Chosen<'a> {
    run: &'a Run,
    /// By offer: the places of the conclusions, and the facts of the run that they are.
    needed: BTreeMap<usize, Vec<(usize, FactId)>>,
}

impl Chosen<'_> {
    /// What the steps take, wherever the eye is.
    pub(crate) fn effort(&self) -> u64 {
        let efforts = self.needed.iter().map(|(offer, kept)| {
            let kept: Vec<usize> = kept.iter().map(|it| it.0).collect();
            self.run.offers[*offer].step.effort_of(&kept)
        });
        efforts.sum()
    }

    /// They as a trail, in the order in which they were open.
    pub(crate) fn trail(&self, goals: &[FactId]) -> Trail {
        let built = self.built();
        debug_assert!(built.is_some(), "what is chosen rests only on what is chosen too");
        built.unwrap_or_else(|| self.run.trail.needed_for(goals.iter().copied()))
    }

    fn built(&self) -> Option<Trail> {
        let Run { trail, offers, places } = self.run;
        let mut new_ids: Vec<Option<FactId>> = vec![None; trail.n_facts()];
        let page = trail.facts().take_while(|(_, it)| it.step().is_none());
        page.for_each(|(it, _)| new_ids[it.index()] = Some(it));
        let mut built = trail.needed_for([]);
        let mut in_order: Vec<(&Offer, &Vec<(usize, FactId)>)> =
            self.needed.iter().map(|(offer, kept)| (&offers[*offer], kept)).collect();
        in_order.sort_by_key(|it| it.0.after);
        for (offer, kept) in in_order {
            let concluded: Vec<usize> = kept.iter().map(|it| it.0).collect();
            let proposal = offer.step.keeping(&concluded, |it| new_ids[places.of(it)?.index()])?;
            let step = built.push(proposal).ok()?;
            for ((_, old), new) in kept.iter().zip(built.step(step).concludes()) {
                new_ids[old.index()] = Some(*new);
            }
        }
        Some(built)
    }
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
    run: &'a Run,
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
    fn new(run: &'a Run) -> Choice<'a> {
        let mut sources: Vec<Vec<Source>> = vec![Vec::new(); run.trail.n_facts()];
        let mut cited = Vec::new();
        for (offer, it) in run.offers.iter().enumerate() {
            for (conclusion, concluded) in it.step.conclusions.iter().enumerate() {
                if let Some(fact) = run.places.of(concluded.number).filter(|id| id.index() >= it.after) {
                    let from = cited.len();
                    cited.extend(concluded.rests_on.iter().filter_map(|it| run.places.of(*it)));
                    let source = Source { offer, conclusion, cited: (from, cited.len()) };
                    sources[fact.index()].push(source);
                }
            }
        }
        // At first each fact comes from the step that is easiest by itself.
        let effort = |it: &Source| run.offers[it.offer].step.effort;
        let easiest = |ways: &Vec<Source>| (0..ways.len()).min_by_key(|it| effort(&ways[*it]));
        let chosen = sources.iter().map(|it| easiest(it).unwrap_or_default()).collect();
        Choice {
            run,
            cited,
            chosen,
            uses: vec![0; run.trail.n_facts()],
            taken: vec![0; run.offers.len()],
            sources,
        }
    }

    fn source(&self, fact: FactId) -> Option<Source> {
        self.sources[fact.index()].get(self.chosen[fact.index()]).copied()
    }

    /// What an offer costs.
    fn effort(&self, offer: usize) -> u64 {
        self.run.offers[offer].step.effort
    }

    /// Counts one more use of the fact, and of what it rests on if it was not needed before. Gives what
    /// that costs.
    fn need(&mut self, fact: FactId) -> u64 {
        self.uses[fact.index()] += 1;
        let Some(source) = self.source(fact).filter(|_| self.uses[fact.index()] == 1) else { return 0 };
        self.taken[source.offer] += 1;
        let own = if self.taken[source.offer] == 1 { self.effort(source.offer) } else { 0 };
        own + (source.cited.0..source.cited.1).map(|it| self.need(self.cited[it])).sum::<u64>()
    }

    /// Takes one use of the fact back, and of what nothing else needs then. Gives what that saves.
    fn release(&mut self, fact: FactId) -> u64 {
        self.uses[fact.index()] -= 1;
        let Some(source) = self.source(fact).filter(|_| self.uses[fact.index()] == 0) else { return 0 };
        self.taken[source.offer] -= 1;
        let own = if self.taken[source.offer] == 0 { self.effort(source.offer) } else { 0 };
        own + (source.cited.0..source.cited.1).map(|it| self.release(self.cited[it])).sum::<u64>()
    }

    /// Goes over all needed facts once, and takes for each the cheapest way. Whether anything changed.
    fn improve(&mut self) -> bool {
        let mut has_changed = false;
        for (fact, _) in self.run.trail.facts().rev() {
            let at = fact.index();
            if self.uses[at] == 0 || self.sources[at].len() < 2 {
                continue;
            }
            let uses = std::mem::replace(&mut self.uses[at], 1);
            let before = self.chosen[at];
            // Only what is really cheaper is exchanged, so that this comes to an end.
            let mut cheapest = (self.release(fact), before);
            for way in 0..self.sources[at].len() {
                let offer = self.sources[at][way].offer;
                if self.taken[offer] == 0 && self.effort(offer) >= cheapest.0 {
                    continue;
                }
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

    /// What is needed of each offer.
    fn needed(&self) -> BTreeMap<usize, Vec<(usize, FactId)>> {
        let mut needed: BTreeMap<usize, Vec<(usize, FactId)>> = BTreeMap::new();
        for (fact, _) in self.run.trail.facts().filter(|(id, _)| self.uses[id.index()] > 0) {
            if let Some(source) = self.source(fact) {
                needed.entry(source.offer).or_default().push((source.conclusion, fact));
            }
        }
        self.complete(&mut needed);
        needed.values_mut().for_each(|it| it.sort_unstable());
        needed
    }

    /// Adds to what is needed of each offer the crusts that it gives beside: whoever says that the crusts
    /// are at the two ends writes both down.
    fn complete(&self, needed: &mut BTreeMap<usize, Vec<(usize, FactId)>>) {
        let mut added: BTreeSet<FactId> = BTreeSet::new();
        for (id, fact) in self.run.trail.facts().filter(|(id, _)| self.uses[id.index()] == 0) {
            if !matches!(fact.claim(), Claim::Crust(_)) {
                continue;
            }
            for source in &self.sources[id.index()] {
                let conclusions = &self.run.offers[source.offer].step.conclusions;
                let Some(kept) = needed.get_mut(&source.offer) else { continue };
                let this = &conclusions[source.conclusion];
                if kept.iter().any(|it| conclusions[it.0].rests_on_what(this)) && added.insert(id) {
                    kept.push((source.conclusion, id));
                }
            }
        }
    }
}
