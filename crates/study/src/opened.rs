//! What would spoil a puzzle.

use ::pack::Placed;
use grade::Estimate;
use grid::Grid;
use prove::Many;
use reason::{Explained, Stopped, technique};
use std::collections::BTreeSet;
use trail::{StepId, TechniqueId};

/// A walkthrough that has passed `replay`, with its expected minutes.
#[derive(Clone, Debug)]
pub struct Account {
    /// The walkthrough and what was open at its steps.
    pub explained: Explained,
    /// Its expected times.
    pub estimate: Estimate,
}

impl Account {
    /// Where to begin: of the steps that rest on the page alone, the one that is hardest to see (the
    /// first of equals). None only for a puzzle that is printed solved.
    pub fn break_in(&self) -> Option<StepId> {
        let trail = self.explained.walkthrough.walkthrough().trail();
        let from_page = trail.steps().filter(|(id, _)| trail.steps_cited_by(*id).is_empty());
        let weight = |id: TechniqueId| technique(id).map_or(u32::MAX, |it| it.weight());
        // `max_by_key` would take the last of equals, so the order is turned round.
        from_page.rev().max_by_key(|(_, it)| weight(it.technique())).map(|it| it.0)
    }

    /// The techniques the walkthrough uses, small arguments among them.
    pub fn techniques(&self) -> BTreeSet<TechniqueId> {
        self.explained.surveys.iter().map(|it| it.technique).collect()
    }
}

/// What is found out about a puzzle that is not sealed, or has been unsealed.
#[derive(Clone, Copy, Debug)]
pub struct Opened<'a> {
    /// The only solution, if there is exactly one.
    pub solution: Option<&'a Grid>,
    /// Two solutions, if there are several.
    pub many: Option<&'a Many>,
    /// The walkthrough, if there is exactly one solution and it was explained.
    pub account: Option<&'a Account>,
    /// Why there is no walkthrough although there is exactly one solution.
    pub stopped: Option<&'a Stopped>,
    /// The place in the pack's order and what was weighed; none outside a pack.
    pub placed: Option<&'a Placed>,
}
