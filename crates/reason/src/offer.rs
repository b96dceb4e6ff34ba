//! Steps that were open once, kept so that they mean the same on every trail of a search.

use std::collections::BTreeMap;
use std::rc::Rc;

use rulebook::Claim;
use trail::{Argument, Cites, FactId, Proposal, TechniqueId, Trail};

use crate::effort::of_step;

/// A step that was open on a trail.
#[derive(Clone, Debug)]
pub(crate) struct Offer {
    /// How many facts of the trail were known then: it cites only those.
    pub(crate) after: usize,
    pub(crate) step: Rc<OpenStep>,
}

/// A step by what it says, whatever ids that has on a trail.
#[derive(Debug)]
pub(crate) struct OpenStep {
    pub(crate) technique: TechniqueId,
    pub(crate) argument: Argument,
    pub(crate) conclusions: Vec<Conclusion>,
    /// What it takes wherever the eye is.
    pub(crate) effort: u64,
}

/// What a step concludes and what that rests on.
#[derive(Debug)]
pub(crate) struct Conclusion {
    pub(crate) claim: Claim,
    pub(crate) number: ClaimNumber,
    /// Without the facts.
    cites: Cites,
    /// The facts.
    pub(crate) rests_on: Vec<ClaimNumber>,
}

impl OpenStep {
    /// A step that is open on the trail.
    pub(crate) fn new(claims: &mut Claims, trail: &Trail, proposal: Proposal) -> OpenStep {
        let Proposal { technique, argument, conclusions } = proposal;
        let effort = of_step(technique, &argument, conclusions.iter().map(|it| &it.1));
        let conclusions = conclusions.into_iter().map(|(claim, mut cites)| Conclusion {
            claim,
            number: claims.number(claim),
            rests_on: std::mem::take(&mut cites.facts)
                .into_iter()
                .map(|it| claims.number(trail.fact(it).claim()))
                .collect(),
            cites,
        });
        let conclusions = conclusions.collect();
        OpenStep { technique, argument, conclusions, effort }
    }

    /// What it concludes.
    pub(crate) fn claims(&self) -> impl Iterator<Item = Claim> {
        self.conclusions.iter().map(|it| it.claim)
    }

    /// How many facts of a trail are known when the step can first be taken there; none if the trail lacks one.
    pub(crate) fn open_after(&self, places: &Places) -> Option<usize> {
        let cited = self.conclusions.iter().flat_map(|it| &it.rests_on);
        cited.map(|it| Some(places.of(*it)?.index() + 1)).try_fold(0, |most, it| Some(most.max(it?)))
    }

    /// The step with the conclusions at these places, on a trail that has what they rest on there.
    pub(crate) fn keeping(
        &self,
        kept: &[usize],
        id: impl Fn(ClaimNumber) -> Option<FactId>,
    ) -> Option<Proposal> {
        let conclusions = kept.iter().map(|it| {
            let Conclusion { claim, cites, rests_on, .. } = &self.conclusions[*it];
            let facts = rests_on.iter().map(|it| id(*it)).collect::<Option<_>>()?;
            Some((*claim, Cites { facts, ..cites.clone() }))
        });
        let (technique, argument) = (self.technique, self.argument.keeping(kept));
        Some(Proposal { technique, argument, conclusions: conclusions.collect::<Option<_>>()? })
    }

    /// What it takes with these conclusions alone.
    pub(crate) fn effort_of(&self, kept: &[usize]) -> u64 {
        if kept.len() == self.conclusions.len() {
            return self.effort;
        }
        let cites = kept.iter().map(|it| &self.conclusions[*it].cites);
        of_step(self.technique, &self.argument.keeping(kept), cites)
    }
}

impl Conclusion {
    /// Whether both rest on the same.
    pub(crate) fn rests_on_what(&self, other: &Conclusion) -> bool {
        (&self.cites, &self.rests_on) == (&other.cites, &other.rests_on)
    }
}

/// What stands for a claim in a search.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct ClaimNumber(usize);

/// The claims that a search has met, numbered: where they stand on a trail is then had without looking for them.
#[derive(Default, Debug)]
pub(crate) struct Claims {
    numbers: BTreeMap<Claim, ClaimNumber>,
}

impl Claims {
    fn number(&mut self, claim: Claim) -> ClaimNumber {
        let next = ClaimNumber(self.numbers.len());
        *self.numbers.entry(claim).or_insert(next)
    }

    /// Where they stand on the trail.
    pub(crate) fn places_on(&mut self, trail: &Trail) -> Places {
        let mut places = Vec::new();
        // Of facts that claim the same the first counts.
        for (id, fact) in trail.facts().rev() {
            let ClaimNumber(at) = self.number(fact.claim());
            places.resize(places.len().max(at + 1), None);
            places[at] = Some(id);
        }
        Places(places)
    }
}

/// Where claims stand on a trail.
#[derive(Debug)]
pub(crate) struct Places(Vec<Option<FactId>>);

impl Places {
    /// The fact that makes the claim; none if the trail does not.
    pub(crate) fn of(&self, claim: ClaimNumber) -> Option<FactId> {
        self.0.get(claim.0).copied().flatten()
    }
}
