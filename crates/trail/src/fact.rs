//! Facts with their reasons, and the trail they form.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use std::num::NonZeroU32;

use grid::Cell;
use rulebook::{Claim, Puzzle};

use crate::{Argument, Cites, TechniqueId};

/// A fact's place in its trail.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct FactId(NonZeroU32);

impl FactId {
    /// The place in [`Trail::facts`].
    pub fn index(self) -> usize {
        self.0.get() as usize - 1
    }

    /// The id of the fact at that place.
    fn at(index: usize) -> FactId {
        // One more than the place, so that no id at all takes no more room than an id.
        let number = u32::try_from(index + 1).ok().and_then(NonZeroU32::new);
        FactId(number.unwrap_or_else(|| unreachable!("a trail has fewer facts than fill the memory")))
    }
}

/// A step's place in its trail.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct StepId(u32);

impl StepId {
    /// The place in [`Trail::steps`].
    pub fn index(self) -> usize {
        self.0 as usize
    }

    /// The number a person reads, from 1.
    pub fn number(self) -> usize {
        self.index() + 1
    }
}

/// Where a fact comes from.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Origin {
    /// It is printed on the page: the given of this cell.
    Page(Cell),
    /// A solver has noted it on the sheet: a candidate left out, a kind of cell marked.
    Noted,
    /// A step concludes it from what it cites.
    Step {
        /// The step.
        step: StepId,
        /// What this conclusion rests on.
        cites: Cites,
    },
}

/// A claim and where it comes from.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Fact {
    claim: Claim,
    origin: Origin,
}

impl Fact {
    /// What is claimed.
    pub fn claim(&self) -> Claim {
        self.claim
    }

    /// Where it comes from.
    pub fn origin(&self) -> &Origin {
        &self.origin
    }

    /// What it cites; none for a fact of the page or of the sheet.
    pub fn cites(&self) -> Option<&Cites> {
        match &self.origin {
            Origin::Page(_) | Origin::Noted => None,
            Origin::Step { cites, .. } => Some(cites),
        }
    }

    /// The step that concludes it; none for a fact of the page or of the sheet.
    pub fn step(&self) -> Option<StepId> {
        match self.origin {
            Origin::Page(_) | Origin::Noted => None,
            Origin::Step { step, .. } => Some(step),
        }
    }
}

/// One thing a person would say: a technique, what it points at, and one or more conclusions.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Step {
    technique: TechniqueId,
    argument: Argument,
    concludes: Vec<FactId>,
}

impl Step {
    /// The technique, or [`TechniqueId::SMALL_ARGUMENT`].
    pub fn technique(&self) -> TechniqueId {
        self.technique
    }

    /// Whether this is an argument by cases rather than a technique.
    pub fn is_small_argument(&self) -> bool {
        self.technique == TechniqueId::SMALL_ARGUMENT
    }

    /// What a sentence about the step needs.
    pub fn argument(&self) -> &Argument {
        &self.argument
    }

    /// The facts it establishes, at least one.
    pub fn concludes(&self) -> &[FactId] {
        &self.concludes
    }
}

/// A step before it is part of a trail.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Proposal {
    /// The technique.
    pub technique: TechniqueId,
    /// What a sentence about the step needs. One that has parts ([`Argument::n_parts`]) has one a
    /// conclusion.
    pub argument: Argument,
    /// Each conclusion with what it rests on, at least one.
    pub conclusions: Vec<(Claim, Cites)>,
}

impl Proposal {
    /// Keeps the conclusions for which `keep` holds, and the parts of the argument that belong to them.
    pub fn retain(&mut self, keep: impl Fn(&Claim, &Cites) -> bool) {
        let kept = |at: &usize| keep(&self.conclusions[*at].0, &self.conclusions[*at].1);
        let kept: Vec<usize> = (0..self.conclusions.len()).filter(kept).collect();
        self.argument = self.argument.keeping(&kept);
        self.conclusions = kept.iter().map(|at| self.conclusions[*at].clone()).collect();
    }
}

/// Why a proposal cannot become a step.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum PushError {
    /// It concludes nothing.
    NoConclusion,
    /// A conclusion cites a fact that the trail does not hold.
    UnknownFact(FactId),
    /// An argument by cases has another number of cases than of conclusions.
    CaseCount,
    /// An order of steps leaves one out or names one twice.
    NotAnOrder,
}

impl fmt::Display for PushError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            PushError::NoConclusion => write!(f, "the step concludes nothing"),
            PushError::UnknownFact(it) => write!(f, "fact {} is cited before it is known", it.index()),
            PushError::CaseCount => write!(f, "the step does not have one case a conclusion"),
            PushError::NotAnOrder => write!(f, "the order leaves a step out or names one twice"),
        }
    }
}

impl std::error::Error for PushError {}

/// Facts in the order in which they became known, and the steps that established them.
///
/// Invariant: a fact cites only facts before it, never one of its own step.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Trail {
    facts: Vec<Fact>,
    steps: Vec<Step>,
}

impl Trail {
    /// The trail that knows what is printed on the page, and nothing more.
    pub fn from_page(puzzle: &Puzzle) -> Trail {
        let given = |(cell, digit)| Fact { claim: Claim::Is(cell, digit), origin: Origin::Page(cell) };
        Trail { facts: puzzle.givens().filled().map(given).collect(), steps: Vec::new() }
    }

    /// The trail that knows what is printed on the page and what a solver has noted, and nothing more.
    pub fn from_sheet(puzzle: &Puzzle, notes: impl IntoIterator<Item = Claim>) -> Trail {
        let mut trail = Trail::from_page(puzzle);
        for claim in notes {
            trail.note(claim);
        }
        trail
    }

    /// Adds what a solver has noted: a fact that is known without a step.
    pub fn note(&mut self, claim: Claim) -> FactId {
        self.facts.push(Fact { claim, origin: Origin::Noted });
        FactId::at(self.facts.len() - 1)
    }

    /// Adds a step and its conclusions.
    ///
    /// # Errors
    ///
    /// If it concludes nothing, cites a fact the trail does not hold, or shows cases for other
    /// conclusions than it has. The trail is then as before.
    pub fn push(&mut self, proposal: Proposal) -> Result<StepId, PushError> {
        let Proposal { technique, argument, conclusions } = proposal;
        if conclusions.is_empty() {
            return Err(PushError::NoConclusion);
        }
        let n_facts = self.facts.len();
        let mut cited = conclusions.iter().flat_map(|(_, cites)| &cites.facts);
        if let Some(unknown) = cited.find(|it| it.index() >= n_facts) {
            return Err(PushError::UnknownFact(*unknown));
        }
        if argument.n_parts().is_some_and(|it| it != conclusions.len()) {
            return Err(PushError::CaseCount);
        }
        let step = StepId(self.steps.len() as u32);
        let concludes = (n_facts..n_facts + conclusions.len()).map(FactId::at).collect();
        let facts = conclusions.into_iter();
        self.facts.extend(facts.map(|(claim, cites)| Fact { claim, origin: Origin::Step { step, cites } }));
        self.steps.push(Step { technique, argument, concludes });
        Ok(step)
    }

    /// Every fact with its id, in the order in which they became known.
    pub fn facts(&self) -> impl DoubleEndedIterator<Item = (FactId, &Fact)> {
        self.facts.iter().enumerate().map(|(at, it)| (FactId::at(at), it))
    }

    /// How many facts there are.
    pub fn n_facts(&self) -> usize {
        self.facts.len()
    }

    /// The fact with that id, which must be of this trail.
    pub fn fact(&self, id: FactId) -> &Fact {
        &self.facts[id.index()]
    }

    /// Every step with its id, in order.
    pub fn steps(&self) -> impl DoubleEndedIterator<Item = (StepId, &Step)> {
        self.steps.iter().enumerate().map(|(at, it)| (StepId(at as u32), it))
    }

    /// The techniques of its steps, small arguments among them.
    pub fn techniques(&self) -> BTreeSet<TechniqueId> {
        self.steps.iter().map(Step::technique).collect()
    }

    /// How many steps there are.
    pub fn n_steps(&self) -> usize {
        self.steps.len()
    }

    /// The step with that id, which must be of this trail.
    pub fn step(&self, id: StepId) -> &Step {
        &self.steps[id.index()]
    }

    /// The step as it was proposed; taken again on top of the same facts, it gets the same ids.
    pub fn proposal(&self, id: StepId) -> Proposal {
        let step = self.step(id);
        let conclusions = step.concludes().iter().map(|it| {
            let fact = self.fact(*it);
            (fact.claim(), fact.cites().cloned().unwrap_or_default())
        });
        Proposal {
            technique: step.technique(),
            argument: step.argument().clone(),
            conclusions: conclusions.collect(),
        }
    }

    /// Everything the step's conclusions cite together.
    pub fn cites_of(&self, id: StepId) -> Cites {
        let concluded = self.step(id).concludes.iter();
        concluded.filter_map(|it| self.fact(*it).cites()).fold(Cites::default(), Cites::and)
    }

    /// The earlier steps whose conclusions the step cites, in order.
    pub fn steps_cited_by(&self, id: StepId) -> BTreeSet<StepId> {
        self.facts_cited_by(id).filter_map(|it| self.fact(it).step()).collect()
    }

    /// The facts that the step's conclusions cite, each as often as it is cited.
    fn facts_cited_by(&self, id: StepId) -> impl Iterator<Item = FactId> {
        let concluded = self.step(id).concludes.iter();
        concluded.filter_map(|it| self.fact(*it).cites()).flat_map(|it| &it.facts).copied()
    }

    /// The trail without the conclusions, and then the steps, that the goals do not rest on. All
    /// facts of the page and the sheet stay. Order is kept; ids are counted anew.
    #[must_use]
    pub fn needed_for(&self, goals: impl IntoIterator<Item = FactId>) -> Trail {
        let needed = self.needed(goals);
        let is_kept = |it: FactId| needed[it.index()] || self.fact(it).step().is_none();
        self.rebuilt(self.steps().map(|it| vec![it.0]), is_kept)
    }

    /// The trail with those steps joined into the first of them that say the same of the same: of one technique, with one
    /// argument, whose conclusions cite the same. Those whose argument has a part for each conclusion stay apart. Ids are
    /// counted anew.
    #[must_use]
    pub fn saying_once(&self) -> Trail {
        let mut joined: Vec<Vec<StepId>> = Vec::new();
        let mut first: BTreeMap<(TechniqueId, Vec<&Cites>), Vec<usize>> = BTreeMap::new();
        for (id, step) in self.steps() {
            let cites: BTreeSet<&Cites> =
                step.concludes.iter().filter_map(|it| self.fact(*it).cites()).collect();
            let is_apart = step.argument.n_parts().is_some();
            let alike = first.entry((step.technique, cites.into_iter().collect())).or_default();
            let same =
                alike.iter().find(|it| !is_apart && self.step(joined[**it][0]).argument == step.argument);
            match same {
                Some(at) => joined[*at].push(id),
                None => {
                    alike.push(joined.len());
                    joined.push(vec![id]);
                }
            }
        }
        self.rebuilt(joined.into_iter(), |_| true)
    }

    /// The conclusions of steps that the goals rest on, and those goals that are such conclusions, in order: what
    /// [`Trail::needed_for`] keeps of them.
    pub fn conclusions_needed_for(&self, goals: impl IntoIterator<Item = FactId>) -> Vec<FactId> {
        let needed = self.needed(goals);
        let concluded = self.facts().filter(|(_, it)| it.step().is_some()).map(|it| it.0);
        concluded.filter(|it| needed[it.index()]).collect()
    }

    /// By fact, whether it is a goal or a goal rests on it.
    fn needed(&self, goals: impl IntoIterator<Item = FactId>) -> Vec<bool> {
        let mut needed = vec![false; self.facts.len()];
        for goal in goals {
            needed[goal.index()] = true;
        }
        // Citations point backwards, so one pass from the end sees every reason why a fact is needed.
        for (at, fact) in self.facts.iter().enumerate().rev() {
            if needed[at]
                && let Origin::Step { cites, .. } = &fact.origin
            {
                cites.facts.iter().for_each(|it| needed[it.index()] = true);
            }
        }
        needed
    }

    /// The trail with its steps in another order.
    ///
    /// # Errors
    ///
    /// If a step would come before one it cites, is missing or there twice.
    pub fn reordered(&self, order: &[StepId]) -> Result<Trail, PushError> {
        let mut seen = BTreeSet::new();
        for &step in order {
            let unknown = self
                .facts_cited_by(step)
                .find(|fact| self.fact(*fact).step().is_some_and(|source| !seen.contains(&source)));
            match unknown {
                Some(fact) => return Err(PushError::UnknownFact(fact)),
                None if !seen.insert(step) => return Err(PushError::NotAnOrder),
                None => {}
            }
        }
        match seen.len() == self.steps.len() {
            true => Ok(self.rebuilt(order.iter().map(|it| vec![*it]), |_| true)),
            false => Err(PushError::NotAnOrder),
        }
    }

    /// Builds the trail again from the steps in that order (each after those it cites, those that are one from now on
    /// together), keeping the facts for which `keep` holds.
    fn rebuilt(&self, order: impl Iterator<Item = Vec<StepId>>, keep: impl Fn(FactId) -> bool) -> Trail {
        let mut new_id: Vec<Option<FactId>> = vec![None; self.facts.len()];
        let mut built = Trail { facts: Vec::new(), steps: Vec::new() };
        for (id, fact) in self.facts().filter(|(_, it)| it.step().is_none()) {
            new_id[id.index()] = Some(FactId::at(built.facts.len()));
            built.facts.push(fact.clone());
        }
        for steps in order {
            let [first, ..] = &steps[..] else { continue };
            let step = self.step(*first);
            let concluded: Vec<FactId> =
                steps.iter().flat_map(|it| self.step(*it).concludes.iter().copied()).collect();
            let kept: Vec<usize> = (0..concluded.len()).filter(|at| keep(concluded[*at])).collect();
            let conclusions = kept.iter().map(|at| {
                let fact = self.fact(concluded[*at]);
                let mut cites = fact.cites().cloned().unwrap_or_default();
                cites.renumber(|it| new_id[it.index()]);
                (fact.claim, cites)
            });
            let argument = step.argument.keeping(&kept);
            let proposal =
                Proposal { technique: step.technique, argument, conclusions: conclusions.collect() };
            if let Ok(id) = built.push(proposal) {
                for (at, new) in kept.iter().zip(&built.steps[id.index()].concludes) {
                    new_id[concluded[*at].index()] = Some(*new);
                }
            }
        }
        built
    }
}
