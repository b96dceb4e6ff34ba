//! What was open: for each step of a walkthrough, every step a person could have taken there that leads on.
//!
//! A position is full of steps that nobody needs: marks that say nothing about what is still to be found out. They stay
//! open from the beginning to the end, two in three of all that is open along the demo's walkthroughs, and whoever takes
//! one is no nearer to the solution. So a step **leads on** only if it concludes something that the walkthrough has yet
//! to conclude; every digit is among that.
//!
//! Left out: a step that leads on along another way than the walkthrough's, by something that this never says.

use std::collections::BTreeSet;

use grid::CellSet;
use rulebook::Claim;
use trail::{StepId, TechniqueId, Trail};

use crate::{TECHNIQUES, Technique, View, effort, technique};

/// The steps open just before one step of a walkthrough.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Survey {
    /// The step that the walkthrough takes.
    pub step: StepId,
    /// Its technique.
    pub technique: TechniqueId,
    /// How many facts it establishes.
    pub conclusions: usize,
    /// How many houses and clues it takes to be held in view together.
    pub held: usize,
    /// How far the eye has to move from the step before: 0 along a row or column, 1 near by, 2 far off.
    pub eye: u8,
    /// Each technique that is no harder than the one taken and offers something here that leads on, easiest first,
    /// and in how many places. Empty where only an argument helps.
    pub open: Vec<(TechniqueId, usize)>,
}

/// Walks through `trail` again from the page and looks around before each step, for what a person would not
/// pass over for something harder.
///
/// `start` must be the position in which nothing but the page is known.
pub fn survey(mut start: View, trail: &Trail) -> Vec<Survey> {
    let mut surveys = Vec::new();
    let mut last_seen = CellSet::EMPTY;
    let mut ahead: BTreeSet<Claim> =
        trail.facts().filter(|it| it.1.step().is_some()).map(|it| it.1.claim()).collect();
    for (id, step) in trail.steps() {
        let cells = effort::cells(trail, id);
        // The step itself is open, even where its technique would put it otherwise by now.
        let least = |id: TechniqueId| usize::from(id == step.technique());
        let hardest = technique(step.technique()).map_or(u32::MAX, |it| it.weight());
        let no_harder = TECHNIQUES.iter().filter(|it| it.weight() <= hardest);
        let offers = no_harder.map(|it| (it.id(), n_leading_on(*it, &start, &ahead).max(least(it.id()))));
        surveys.push(Survey {
            step: id,
            technique: step.technique(),
            conclusions: step.concludes().len(),
            held: effort::n_held(step.concludes().iter().filter_map(|it| trail.fact(*it).cites())),
            eye: effort::distance(last_seen, cells) as u8,
            open: offers.filter(|it| it.1 > 0).collect(),
        });
        last_seen = cells;
        step.concludes().iter().for_each(|it| _ = ahead.remove(&trail.fact(*it).claim()));
        // The same steps in the same order get the same ids, so what was cited there is cited here.
        if start.take(trail.proposal(id)).is_err() {
            break;
        }
    }
    surveys
}

/// In how many places the technique offers something that concludes one of these claims.
fn n_leading_on(technique: &dyn Technique, view: &View, ahead: &BTreeSet<Claim>) -> usize {
    let leads_on = |claims: &[Claim]| claims.iter().any(|it| ahead.contains(it));
    match technique.open_claims(view) {
        Some(open) => open.iter().filter(|it| leads_on(it)).count(),
        None => technique.find_wanted(view, &|it| ahead.contains(it)).len(),
    }
}
