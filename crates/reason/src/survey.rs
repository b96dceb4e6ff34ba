//! What was open: for each step of a walkthrough, every step a person could have taken there.

use grid::CellSet;
use trail::{StepId, TechniqueId, Trail};

use crate::{TECHNIQUES, View, effort, technique};

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
    /// Each technique that offers something here and is no harder than the one taken, easiest first, and in
    /// how many places. Empty where only an argument helps.
    pub open: Vec<(TechniqueId, usize)>,
}

/// Walks through `trail` again from the page and looks around before each step, for what a person would not
/// pass over for something harder.
///
/// `start` must be the position in which nothing but the page is known.
pub fn survey(mut start: View, trail: &Trail) -> Vec<Survey> {
    let mut surveys = Vec::new();
    let mut last_seen = CellSet::EMPTY;
    for (id, step) in trail.steps() {
        let cells = effort::cells(trail, id);
        // The step itself is open, even where its technique would put it otherwise by now.
        let least = |id: TechniqueId| usize::from(id == step.technique());
        let hardest = technique(step.technique()).map_or(u32::MAX, |it| it.weight());
        let no_harder = TECHNIQUES.iter().filter(|it| it.weight() <= hardest);
        let offers = no_harder.map(|it| (it.id(), it.n_open(&start).max(least(it.id()))));
        surveys.push(Survey {
            step: id,
            technique: step.technique(),
            conclusions: step.concludes().len(),
            held: effort::n_held(step.concludes().iter().filter_map(|it| trail.fact(*it).cites())),
            eye: effort::distance(last_seen, cells) as u8,
            open: offers.filter(|it| it.1 > 0).collect(),
        });
        last_seen = cells;
        // The same steps in the same order get the same ids, so what was cited there is cited here.
        if start.take(trail.proposal(id)).is_err() {
            break;
        }
    }
    surveys
}
