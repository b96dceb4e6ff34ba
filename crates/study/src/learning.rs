//! The walkthrough for somebody who knows some of the techniques, and learns as few others from it as will do.

use std::collections::BTreeSet;

use grid::Grid;
use pack::Entry;
use reason::{Known, Settings, Stopped, TECHNIQUES, rank, solve, technique};
use rulebook::{Claim, Puzzle};
use trail::TechniqueId;

use crate::Account;
use crate::puzzle::account;

/// The walkthrough with what is known alone, where that is enough; else with as little more as will do; and if all
/// techniques are not enough, with all of them and small arguments.
///
/// # Errors
///
/// As for [`reason::explain()`].
pub(crate) fn account_for(entry: &Entry, solution: &Grid, known: Known) -> Result<Account, Stopped> {
    let settings = match (Learner { puzzle: &entry.puzzle, solution, known }).knows_then() {
        Some(known) => {
            // What the walkthrough should show is learnt from it.
            let known = entry.features.map_or(known, |it| known.with(it));
            Settings { known, ..Settings::TECHNIQUES_ALONE }
        }
        None => Settings::THOROUGH,
    };
    account(entry, solution, settings)
}

/// Somebody before a puzzle.
struct Learner<'a> {
    puzzle: &'a Puzzle,
    solution: &'a Grid,
    known: Known,
}

impl Learner<'_> {
    /// What is known and what is learnt: with every technique also those that it builds on, and no more than will do.
    /// One technique alone, all of whose ground is known, is taken in place of several that are no easier together.
    /// None if all techniques are not enough.
    fn knows_then(&self) -> Option<Known> {
        if self.uses(&BTreeSet::new()).is_some() {
            return Some(self.known);
        }
        let all = TECHNIQUES.iter().map(|it| it.id()).collect();
        let mut learnt = self.with_ground(self.uses(&all)?);
        // The hardest first: what builds on others goes before them.
        let mut tried = BTreeSet::new();
        while let Some(id) = learnt.difference(&tried).copied().max_by_key(|it| rank(*it)) {
            tried.insert(id);
            let others: BTreeSet<TechniqueId> = learnt.iter().copied().filter(|it| *it != id).collect();
            if self.with_ground(others.clone()).len() == others.len()
                && let Some(used) = self.uses(&others)
            {
                learnt = self.with_ground(used);
            }
        }
        if learnt.len() > 1
            && let Some(one) = self.one_instead_of(&learnt)
        {
            return Some(self.known.with(one));
        }
        Some(self.with(&learnt))
    }

    /// The techniques not known that a way through the puzzle takes, which takes no others than these; none if there
    /// is none.
    fn uses(&self, learnt: &BTreeSet<TechniqueId>) -> Option<BTreeSet<TechniqueId>> {
        let settings = Settings { known: self.with(learnt), ..Settings::TECHNIQUES_ALONE };
        let trail = solve(self.puzzle, self.solution, settings).ok()?;
        let digits = trail.facts().filter(|(_, it)| matches!(it.claim(), Claim::Is(..))).map(|it| it.0);
        let needed = trail.needed_for(digits.collect::<Vec<_>>());
        Some(needed.techniques().into_iter().filter(|it| !self.known.has(*it)).collect())
    }

    fn with(&self, learnt: &BTreeSet<TechniqueId>) -> Known {
        learnt.iter().fold(self.known, |known, it| known.with(*it))
    }

    /// These, and what they build on and is not known.
    fn with_ground(&self, mut ids: BTreeSet<TechniqueId>) -> BTreeSet<TechniqueId> {
        let mut open: Vec<TechniqueId> = ids.iter().copied().collect();
        while let Some(it) = open.pop() {
            let below = technique(it).map_or(&[][..], |it| it.prerequisites());
            open.extend(below.iter().filter(|it| !self.known.has(**it) && ids.insert(**it)));
        }
        ids
    }

    /// The easiest technique that is enough by itself, builds on nothing that is not known, and weighs no more than
    /// those together.
    fn one_instead_of(&self, learnt: &BTreeSet<TechniqueId>) -> Option<TechniqueId> {
        let weight: u32 = learnt.iter().filter_map(|it| technique(*it)).map(|it| it.weight()).sum();
        // A last resort would do in place of nearly anything, and teaches nothing of it.
        let open = TECHNIQUES.iter().filter(|it| it.weight() <= weight && !it.is_last_resort());
        let open = open.filter(|it| !self.known.has(it.id()));
        let mut grounded = open.filter(|it| it.prerequisites().iter().all(|it| self.known.has(*it)));
        grounded.find(|it| self.uses(&BTreeSet::from([it.id()])).is_some()).map(|it| it.id())
    }
}
