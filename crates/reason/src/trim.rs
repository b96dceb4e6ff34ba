//! Enough and nothing to spare: each conclusion keeps only the citations it needs, and knows which of them are its premises.
//!
//! A technique cites what it sees, which may be more than its conclusion needs: the line of a clue
//! that is cited too, or a digit in a row that already fills a cell of the box at hand. That is easier
//! said of a whole step at the end than at each look.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};

use grid::{House, Size};
use replay::{Cap, Checked, Judge, Refusal};
use rulebook::{Claim, ClueId, Puzzle};
use trail::{Argument, Cited, Cites, FactId, Proposal, PushError, Step, TechniqueId, Trail, Walkthrough};

use crate::chains::can_be_followed;
use crate::{Technique, View, technique};

/// Cuts citations down to what each conclusion needs.
///
/// What it has worked out for a conclusion on one trail it knows when the same is concluded from the same on
/// another.
pub(crate) struct Trimmer<'a> {
    page: &'a View<'a>,
    judge: Judge<'a>,
    cap: Cap,
    /// What is told of a conclusion, and its premises.
    known: BTreeMap<(TechniqueId, Claim, Grounds), (Grounds, Grounds)>,
}

/// What a conclusion cites, whatever the trail.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Grounds {
    houses: BTreeSet<House>,
    clues: BTreeSet<ClueId>,
    facts: BTreeSet<Claim>,
}

impl<'a> Trimmer<'a> {
    /// `page` is the position in which nothing but the page is known; `cap` limits each judgement, and
    /// has to be that of the `replay` that follows.
    pub(crate) fn new(page: &'a View<'a>, cap: Cap) -> Trimmer<'a> {
        Trimmer { page, judge: Judge::new(page.puzzle()), cap, known: BTreeMap::new() }
    }

    /// The position in which nothing but the page is known.
    pub(crate) fn page(&self) -> &'a View<'a> {
        self.page
    }

    /// The puzzle.
    pub(crate) fn puzzle(&self) -> &'a Puzzle {
        self.page.puzzle()
    }

    /// Judges the walkthrough, as [`replay::replay`] does.
    pub(crate) fn replay(&self, walkthrough: Walkthrough) -> Result<Checked, (FactId, Refusal)> {
        self.judge.replay(walkthrough, self.cap)
    }

    /// The board's size.
    pub(crate) fn size(&self) -> Size {
        self.page.size()
    }

    /// The same steps with the same conclusions, each citing only what it needs.
    ///
    /// Its premises are what it does not follow without. Beside them it keeps the facts without which its technique does
    /// not see it: a sum may say where a crust must be, but a person who takes what is left of the sum wants to know
    /// both crusts. A chain, and what is followed, keep all that their links and looks rest on, and small arguments what
    /// their cases do; but for those made quickly, that is nothing beside their premises.
    ///
    /// # Errors
    ///
    /// None for a trail of this puzzle.
    pub(crate) fn trimmed(&mut self, trail: &Trail) -> Result<Trail, PushError> {
        let mut trimmed = self.page.trail().clone();
        for (_, step) in trail.steps() {
            let conclusions = step.concludes().iter().map(|it| self.trimmed_conclusion(trail, step, *it));
            let conclusions = conclusions.collect();
            let (technique, argument) = (step.technique(), step.argument().clone());
            // Ids stay the same, since all steps are taken in order.
            trimmed.push(Proposal { technique, argument, conclusions })?;
        }
        Ok(trimmed)
    }

    fn trimmed_conclusion(&mut self, trail: &Trail, step: &Step, id: FactId) -> (Claim, Cites) {
        let fact = trail.fact(id);
        let (claim, cites) = (fact.claim(), fact.cites().cloned().unwrap_or_default());
        // What was beside the premises before may be one of them now.
        let cites = Cites { beside: BTreeSet::new(), ..cites };
        let told = match (technique(step.technique()), step.argument()) {
            (None, _) | (_, Argument::Followed { .. }) => cites,
            (_, Argument::Chain { .. }) => self.trimmed_chain(trail, step.argument(), &claim, cites),
            (Some(technique), _) => return (claim, self.told_and_premises(trail, technique, claim, cites)),
        };
        let premises = self.premises(trail, &claim, &told);
        (claim, told.resting_on(&premises))
    }

    /// What is told of a conclusion that the technique shows, its premises known apart.
    pub(crate) fn told_and_premises(
        &mut self,
        trail: &Trail,
        technique: &dyn Technique,
        claim: Claim,
        cites: Cites,
    ) -> Cites {
        let key = (technique.id(), claim, Grounds::of(trail, &cites));
        let (told, premises) = self.known.entry(key).or_insert_with(|| {
            // What the conclusion follows without, but its technique is not seen without.
            let for_sight = RefCell::new(Vec::new());
            let told =
                self.judge.without_spare(trail, &claim, &cites, self.cap, |cited, fewer| match cited {
                    Cited::Fact(fact) if trail.fact(fact).step().is_some() => {
                        let is_seen = is_seen(technique, self.page, trail, &claim, fewer);
                        for_sight.borrow_mut().extend((!is_seen).then_some(cited));
                        is_seen
                    }
                    _ => true,
                });
            // Of everything else it was found already that the conclusion needs it.
            let follows = |cites: &Cites| self.judge.judge(trail, &claim, cites, self.cap).is_ok();
            let premises = for_sight.into_inner().into_iter().fold(told.clone(), |kept, cited| {
                Some(cited.left_out_of(&kept)).filter(follows).unwrap_or(kept)
            });
            (Grounds::of(trail, &told), Grounds::of(trail, &premises))
        });
        let premises = premises.kept_of(trail, &cites);
        told.kept_of(trail, &cites).resting_on(&premises)
    }

    /// What the conclusion follows from, nothing to spare.
    fn premises(&self, trail: &Trail, claim: &Claim, told: &Cites) -> Cites {
        self.judge.without_spare(trail, claim, told, self.cap, |_, _| true)
    }

    fn trimmed_chain(&self, trail: &Trail, argument: &Argument, claim: &Claim, cites: Cites) -> Cites {
        let Argument::Chain { start, links } = argument else { return cites };
        let puzzle = self.page.puzzle();
        let follows = |cites: &Cites| can_be_followed(puzzle, trail, (claim, cites), *start, links);
        cites
            .each()
            .fold(cites.clone(), |kept, cited| Some(cited.left_out_of(&kept)).filter(follows).unwrap_or(kept))
    }
}

impl Grounds {
    fn of(trail: &Trail, cites: &Cites) -> Grounds {
        Grounds {
            houses: cites.houses.clone(),
            clues: cites.clues.clone(),
            facts: cites.facts.iter().map(|it| trail.fact(*it).claim()).collect(),
        }
    }

    /// Those of the citations that are among these.
    fn kept_of(&self, trail: &Trail, cites: &Cites) -> Cites {
        let facts = cites.facts.iter().copied();
        let facts = facts.filter(|it| self.facts.contains(&trail.fact(*it).claim())).collect();
        Cites { houses: self.houses.clone(), clues: self.clues.clone(), facts, beside: BTreeSet::new() }
    }
}

/// Whether the technique offers the claim to someone who knows the page and the cited facts only.
fn is_seen(technique: &dyn Technique, page: &View, trail: &Trail, claim: &Claim, cites: &Cites) -> bool {
    let known = cites.facts.iter().map(|it| trail.fact(*it)).filter(|it| it.step().is_some());
    let view = page.with(known.map(|it| it.claim()));
    !technique.find_wanted(&view, &|it| it == claim).is_empty()
}
