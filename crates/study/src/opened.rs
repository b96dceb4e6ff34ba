//! What would spoil a puzzle.

use ::pack::Placed;
use grade::{Calibration, Course, Estimate};
use grid::Grid;
use prove::Many;
use reason::{Explained, Settings, Stopped, Survey};
use replay::Checked;
use rulebook::Puzzle;
use std::collections::BTreeSet;
use trail::{TechniqueId, Trail};

use crate::way_in::{way_in, ways_in};
use crate::{MinutesRange, Repair};

/// A walkthrough that has passed `replay`, with its expected minutes.
#[derive(Clone, Debug)]
pub struct Account {
    /// The walkthrough and what was open at its steps.
    pub explained: Checked,
    /// Its expected times.
    pub estimate: Estimate,
    /// Whether the search for a walkthrough of little effort ended at its limit, so that there may be an easier one.
    pub has_reached_limit: bool,
    surveys: Vec<Survey>,
    settings: Settings,
    /// Worked out once: an order asks for them again and again.
    way_in: Option<Trail>,
    techniques: BTreeSet<TechniqueId>,
}

impl Account {
    /// The walkthrough, whose steps were surveyed, as it was looked for with those settings; its times by the model
    /// alone.
    pub(crate) fn new(explained: Explained, surveys: Vec<Survey>, settings: Settings) -> Account {
        let Explained { told: explained, has_reached_limit } = explained;
        let trail = explained.walkthrough().trail();
        let estimate = grade::estimate(&surveys, trail, settings.known, &Calibration::default());
        let (way_in, techniques) = (way_in(trail), trail.techniques());
        Account { explained, estimate, has_reached_limit, surveys, settings, way_in, techniques }
    }

    /// The same with times that are corrected by what logged solves have taught.
    pub(crate) fn calibrated(self, calibration: &Calibration) -> Account {
        let trail = self.explained.walkthrough().trail();
        Account { estimate: grade::estimate(&self.surveys, trail, self.settings.known, calibration), ..self }
    }

    /// What the walkthrough was looked for with: what is known, and whether small arguments are made.
    pub fn settings(&self) -> Settings {
        self.settings
    }

    /// The walkthrough as logged solves are held against it.
    pub fn course(&self) -> Course {
        Course::new(&self.surveys, self.explained.walkthrough().trail(), self.settings.known)
    }

    /// Expected minutes of a regular solver, as a range.
    pub fn minutes(&self) -> MinutesRange {
        MinutesRange::of(self.estimate.regular(), self.estimate.n_solves)
    }

    /// Where the puzzle opens: a trail of the few steps that lead from the page to the first digit or
    /// crust worth writing down, the one on which most of the rest of the walkthrough rests. None only for
    /// a puzzle that is printed solved.
    pub fn way_in(&self) -> Option<&Trail> {
        self.way_in.as_ref()
    }

    /// Where the puzzle can be opened: [`Account::way_in`] first, then others that have no step in common, be they part
    /// of the walkthrough or not; three at most. `puzzle` is the one that the walkthrough explains.
    pub fn ways_in(&self, puzzle: &Puzzle) -> Vec<Trail> {
        ways_in(puzzle, self.explained.walkthrough().trail(), self.settings.known)
    }

    /// The technique with which the puzzle opens: the last step of the way in.
    pub fn break_in(&self) -> Option<TechniqueId> {
        self.way_in()?.steps().last().map(|(_, it)| it.technique())
    }

    /// The techniques the walkthrough uses, small arguments among them.
    pub fn techniques(&self) -> &BTreeSet<TechniqueId> {
        &self.techniques
    }
}

/// What is found out about a puzzle that is not sealed, or has been unsealed.
#[derive(Clone, Copy, Debug)]
pub struct Opened<'a> {
    /// The only solution, if there is exactly one.
    pub solution: Option<&'a Grid>,
    /// Two solutions, if there are several.
    pub many: Option<&'a Many>,
    /// What would make it sound, if it has no solution or several.
    pub repair: Option<&'a Repair>,
    /// The walkthrough, if there is exactly one solution and it was explained.
    pub account: Option<&'a Account>,
    /// Why there is no walkthrough although there is exactly one solution.
    pub stopped: Option<&'a Stopped>,
    /// The place in the pack's order and what was weighed; none outside a pack.
    pub placed: Option<&'a Placed>,
}
