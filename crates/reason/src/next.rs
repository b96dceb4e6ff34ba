//! The next step from a solver's own sheet: what would be least effort to see from what is written there.
//!
//! A hint is worth giving if its reader can write down what it says: a digit, a kind of cell, a pencilled candidate to
//! strike. So the search goes outwards from the sheet by effort until it meets such a thing, through facts that one
//! only keeps in mind. Where all such things lie far off, a candidate of a cell without pencil marks is near enough: it
//! can be written once the cell is pencilled.

use grid::{CellSet, Grid};
use replay::Checked;
use rulebook::{Claim, Puzzle};
use trail::{StepId, Trail};

use crate::proof::{Near, Search};
use crate::small_argument::Arguments;
use crate::trim::Trimmer;
use crate::{Settings, View, order};

/// A hint of more steps than this is hard to follow; something nearer is looked for.
const MOST_STEPS: usize = 5;

/// Where a solver is.
#[derive(Clone, Copy, Debug)]
pub struct Position<'a> {
    /// The puzzle with the solver's digits in place of its givens.
    pub board: &'a Puzzle,
    /// What is noted of cells without a digit: candidates left out, kinds marked. None is on the board already.
    pub notes: &'a [Claim],
    /// The cells whose pencil marks are all their candidates.
    pub pencilled: CellSet,
}

/// A step, and what leads to it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Next {
    /// The steps that lead to it, then the step itself, which is the last.
    pub proof: Checked,
    /// What can be written down then.
    pub settles: Vec<Claim>,
}

impl Next {
    /// The facts and steps.
    pub fn trail(&self) -> &Trail {
        self.proof.walkthrough().trail()
    }
}

/// The step of least effort by the techniques of the settings, with what leads to it; where they lead nowhere and
/// `settings.arguments` allows one, a small argument. `solution` is the puzzle's only one. Every note must be true.
///
/// None if nothing was found within the settings, or the board is full.
pub fn next_step(position: Position<'_>, solution: &Grid, settings: Settings) -> Option<Next> {
    let start = View::of_sheet(position.board, position.notes);
    let mut search = Search::new(start.clone(), settings.known, Near::Effort);
    let mut writable_later = None;
    let found = loop {
        let steps = search.take_nearest(u64::MAX);
        if steps.is_empty() {
            break writable_later.or_else(|| argument(&mut search, solution, settings))?;
        }
        let first = |wanted: &dyn Fn(Claim) -> bool| {
            let concludes = |it: &&StepId| concluded(&search, **it).any(wanted);
            steps.iter().find(concludes).copied()
        };
        let digit = first(&|it| matches!(it, Claim::Is(..)));
        let writable = digit.or_else(|| first(&|it| position.is_writable(it)));
        match writable {
            Some(step) if n_steps(&search, step) <= MOST_STEPS => break step,
            Some(step) => break writable_later.unwrap_or(step),
            None => {}
        }
        writable_later = writable_later.or_else(|| first(&|it| matches!(it, Claim::IsNot(..))));
    };
    told(position, &start, search.view.trail(), found, settings)
}

impl Position<'_> {
    /// Whether the claim can be written on the sheet as it is.
    fn is_writable(&self, claim: Claim) -> bool {
        match claim {
            Claim::Is(..) | Claim::Crust(_) | Claim::Filling(_) => true,
            Claim::IsNot(cell, _) => self.pencilled.contains(cell),
            _ => false,
        }
    }
}

fn concluded<'a>(search: &'a Search<'_>, step: StepId) -> impl Iterator<Item = Claim> + 'a {
    let trail = search.view.trail();
    trail.step(step).concludes().iter().map(|it| trail.fact(*it).claim())
}

/// The steps, the last among them, that it takes to get there.
fn n_steps(search: &Search<'_>, step: StepId) -> usize {
    let concluded = search.view.trail().step(step).concludes();
    concluded.iter().map(|it| search.n_steps_to(*it)).min().unwrap_or(0)
}

fn argument(search: &mut Search<'_>, solution: &Grid, settings: Settings) -> Option<StepId> {
    if settings.arguments == 0 {
        return None;
    }
    let proposal = Arguments::new(solution, settings.argument).find(&search.view, |_| 0)?;
    search.take_whole(proposal)
}

/// The step with what it needs, trimmed, in order and replayed.
fn told(
    position: Position<'_>,
    start: &View<'_>,
    trail: &Trail,
    step: StepId,
    settings: Settings,
) -> Option<Next> {
    let cap = settings.cap;
    let goals = |trail: &Trail| trail.steps().next_back().map(|it| it.1.concludes().to_vec());
    let found = trail.needed_for(trail.step(step).concludes().to_vec());
    // A step that a technique misbuilt is none; `explain` reports such faults.
    let trimmed = Trimmer::new(start, cap).trimmed(&found).ok()?;
    let told = order::arrange(start.size(), trimmed.needed_for(goals(&trimmed)?));
    let proof = replay::replay_from(position.board, position.notes, told, cap).ok()?;
    let trail = proof.walkthrough().trail();
    let settles = goals(trail)?.into_iter().map(|it| trail.fact(it).claim()).collect();
    Some(Next { proof, settles })
}
