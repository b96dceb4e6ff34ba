//! From the page to the solution: the easiest step, again and again.

use grid::{CellSet, Grid, Size};
use replay::{Cap, Checked, Refusal};
use rulebook::{Claim, Puzzle};
use trail::{FactId, Proposal, PushError, TechniqueId, Trail};

use crate::small_argument::{self, Effort};
use crate::technique::up_to;
use crate::{Survey, View, order, survey};

/// How much work explaining may cost.
#[derive(Clone, Copy, Debug)]
pub struct Settings {
    /// What one small argument may cost.
    pub argument: Effort,
    /// How many small arguments a puzzle may take before it is left unexplained.
    pub arguments: usize,
    /// The hardest technique that may be used; none for all of them.
    pub hardest: Option<TechniqueId>,
}

impl Settings {
    /// Generous enough for any puzzle with one solution.
    pub const THOROUGH: Settings = Settings {
        argument: Effort { cores: 24, cap: Cap(100_000), cases: 24, cases_at_worst: 20_000, conclusions: 8 },
        arguments: 500,
        hardest: None,
    };

    /// The techniques alone: a puzzle that needs an argument is left unexplained.
    pub const TECHNIQUES_ALONE: Settings = Settings { arguments: 0, ..Settings::THOROUGH };
}

/// A complete walkthrough that has passed `replay`, and what was open at each of its steps.
#[derive(Clone, Debug)]
pub struct Explained {
    /// The walkthrough.
    pub walkthrough: Checked,
    /// One survey a step, in order.
    pub surveys: Vec<Survey>,
}

/// Why there is no complete walkthrough.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Stopped {
    /// Nothing within the settings leads on from this board.
    Stuck(Grid),
    /// A step contradicts the solution: a fault of the technique it names.
    Wrong(Box<(Proposal, Claim)>),
    /// A step was refused by `replay`: a fault of its technique.
    Refused(FactId, Refusal),
    /// A step could not be put on the trail: a fault of its technique.
    Misbuilt(PushError),
}

/// Explains the puzzle, whose only solution is `solution`, step by step.
///
/// # Errors
///
/// If no step is left within the settings, or a technique has a fault (which its tests should find
/// first).
pub fn explain(puzzle: &Puzzle, solution: &Grid, settings: Settings) -> Result<Explained, Stopped> {
    let trail = solve(puzzle, solution, settings)?;
    let goals = trail.facts().filter(|(_, it)| matches!(it.claim(), Claim::Is(..))).map(|it| it.0);
    let goals: Vec<FactId> = goals.collect();
    let walkthrough = order::arrange(puzzle.size(), trail.needed_for(goals));
    let surveys = survey(View::new(puzzle), walkthrough.trail());
    let walkthrough = replay::replay(puzzle, walkthrough, settings.argument.cap)
        .map_err(|(fact, refusal)| Stopped::Refused(fact, refusal))?;
    Ok(Explained { walkthrough, surveys })
}

/// Takes steps until every cell is filled: the first half of [`explain`], for callers that only ask
/// whether there is a way. Nothing is sliced, put in order, replayed or surveyed.
///
/// # Errors
///
/// As for [`explain`].
pub fn solve(puzzle: &Puzzle, solution: &Grid, settings: Settings) -> Result<Trail, Stopped> {
    let mut view = View::new(puzzle);
    let mut eye = CellSet::EMPTY;
    let mut arguments_left = settings.arguments;
    while !view.is_finished() {
        let proposal = match easiest(&view, eye, settings.hardest) {
            Some(it) => it,
            None => {
                let stuck = Stopped::Stuck(view.board().clone());
                arguments_left = arguments_left.checked_sub(1).ok_or(stuck.clone())?;
                small_argument::find(&view, solution, settings.argument).ok_or(stuck)?
            }
        };
        check(puzzle, solution, &proposal)?;
        eye = proposal.conclusions.iter().filter_map(|(claim, _)| claim.cell()).collect();
        view.take(proposal).map_err(Stopped::Misbuilt)?;
    }
    Ok(view.into_trail())
}

/// The easiest step that is open; of several of one technique, the one nearest to where the last
/// step settled something, then the first.
fn easiest(view: &View, eye: CellSet, hardest: Option<TechniqueId>) -> Option<Proposal> {
    let offers = up_to(hardest).iter().map(|it| it.find(view)).find(|it| !it.is_empty())?;
    offers.into_iter().min_by_key(|it| {
        let cells = it.conclusions.iter().filter_map(|(claim, _)| claim.cell()).collect();
        order::distance(eye, cells)
    })
}

/// Holds each conclusion against the proven solution, so that a technique with a fault stops at its
/// first wrong step.
fn check(puzzle: &Puzzle, solution: &Grid, proposal: &Proposal) -> Result<(), Stopped> {
    match proposal.conclusions.iter().find(|(claim, _)| !is_true(puzzle.size(), solution, claim)) {
        None => Ok(()),
        Some((claim, _)) => Err(Stopped::Wrong(Box::new((proposal.clone(), *claim)))),
    }
}

/// Whether the claim is true of the solution; of a board that is none, nothing is.
pub(crate) fn is_true(size: Size, solution: &Grid, claim: &Claim) -> bool {
    let is_full = solution.is_full() && solution.size() == size;
    is_full
        && claim
            .holds(size, |cell| solution.get(cell).unwrap_or_else(|| unreachable!("the solution is full")))
}
