//! From the page to the solution: the steps are found, chosen, put in order and judged.

use grid::{Grid, Size};
use replay::{Cap, Checked, Refusal};
use rulebook::{Claim, Puzzle};
use trail::{FactId, Proposal, PushError, TechniqueId, Trail, Walkthrough};

use crate::effort::{effort, of_steps};
use crate::least_effort::{LeastEffort, least_effort};
use crate::small_argument::Effort;
use crate::steps::Terms;
use crate::trim::Trimmer;
use crate::{Known, Technique, View, by_then, late, order, technique};

/// How much work explaining may cost, and with what.
#[derive(Clone, Copy, Debug)]
pub struct Settings {
    /// What one small argument may cost.
    pub argument: Effort,
    /// How many small arguments a puzzle may take before it is left unexplained.
    pub arguments: usize,
    /// How many steps of last resort a walkthrough may hold, small arguments and things followed to an end together;
    /// one with more is not fit to be read out.
    pub readable: usize,
    /// The techniques that may be used.
    pub known: Known,
    /// What each question of `replay` may cost when what was found is checked: far more than when a small argument is
    /// looked for, since it is asked of every premise whether there is a counterexample without it. Where many houses
    /// are held in view it takes the search long to come upon one: more than 100,000 nodes have been met.
    pub cap: Cap,
    /// How the steps are chosen.
    pub search: Search,
    /// A technique to be shown, as early as a walkthrough shows it that takes at most [`FEATURED`] more effort than the
    /// best; none for the best alone. It counts for nothing if it is not known.
    pub features: Option<TechniqueId>,
}

/// How much more effort a walkthrough may take that shows what is to be shown, in hundredths of the least.
pub const FEATURED: u64 = 15;

/// How the steps of a walkthrough are chosen.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Search {
    /// The easiest step, again and again: quick.
    EasiestNext,
    /// Of all steps that were open along that way, those that together take the least effort; and again
    /// without the step that takes most, as long as that is better.
    LeastEffort {
        /// How many steps are tried to be done without.
        detours: usize,
    },
}

impl Settings {
    /// Generous enough for any puzzle with one solution that a person would want to be led through.
    pub const THOROUGH: Settings = Settings {
        readable: 10,
        argument: Effort { careful: 10, ..Settings::WHATEVER_IT_TAKES.argument },
        ..Settings::WHATEVER_IT_TAKES
    };

    /// Generous enough for any puzzle with one solution.
    pub const WHATEVER_IT_TAKES: Settings = Settings {
        argument: Effort {
            houses: 5,
            questions: 8_000,
            sets: 48,
            cores: 24,
            cap: Cap(100_000),
            cases: 24,
            cases_at_worst: 20_000,
            careful: usize::MAX,
            conclusions: 8,
        },
        arguments: 500,
        readable: usize::MAX,
        known: Known::ALL,
        cap: Cap(1_000_000),
        search: Search::LeastEffort { detours: 8 },
        features: None,
    };

    /// The techniques alone: a puzzle that needs an argument is left unexplained.
    pub const TECHNIQUES_ALONE: Settings = Settings { arguments: 0, ..Settings::THOROUGH };
}

/// Why there is no complete walkthrough.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Stopped {
    /// Nothing within the settings leads on from this board.
    Stuck(Grid),
    /// There is a walkthrough, but one with so many steps of last resort, small arguments and things followed to an
    /// end together, that it is not fit to be read out.
    NotTeachable(usize),
    /// A step contradicts the solution: a fault of the technique it names.
    Wrong(Box<(Proposal, Claim)>),
    /// A step was refused by `replay`: a fault of its technique.
    Refused(FactId, Refusal),
    /// A step could not be put on the trail: a fault of its technique.
    Misbuilt(PushError),
}

/// A walkthrough, and how far it was looked for.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Explained {
    /// The walkthrough: complete, and passed by `replay`.
    pub told: Checked,
    /// Whether the search for little effort ended at its limit, while it was still finding easier ways (or before it
    /// tried any, where steps take long to look for): there may well be a walkthrough that is easier.
    pub has_reached_limit: bool,
}

/// Explains the puzzle, whose only solution is `solution`, step by step: a complete walkthrough that has
/// passed `replay`.
///
/// # Errors
///
/// As for [`explain_within`].
pub fn explain(puzzle: &Puzzle, solution: &Grid, settings: Settings) -> Result<Checked, Stopped> {
    explain_within(puzzle, solution, settings).map(|it| it.told)
}

/// The same, and whether the search ended at its limit.
///
/// # Errors
///
/// If no step is left within the settings, or too many small arguments are needed, or a technique has a
/// fault (which its tests should find first).
pub fn explain_within(puzzle: &Puzzle, solution: &Grid, settings: Settings) -> Result<Explained, Stopped> {
    let page = View::new(puzzle);
    let mut trimmer = Trimmer::new(&page, settings.cap);
    let (easiest, has_reached_limit) = match settings.search {
        Search::EasiestNext => (in_order(&mut trimmer, &by_ease(&page, solution, settings)?), false),
        Search::LeastEffort { detours } => {
            let found = least_effort(&page, solution, settings, detours)?;
            (easier_in_order(&mut trimmer, &found), found.has_reached_limit)
        }
    };
    let easiest = easiest.map_err(Stopped::Misbuilt)?;
    let mut walkthrough =
        as_seen_by_then(&mut trimmer, settings.known, easiest).map_err(Stopped::Misbuilt)?;
    if let Some(featured) = settings.features.filter(|it| settings.known.has(*it)) {
        let most = effort(walkthrough.trail()) * (100 + FEATURED) / 100;
        let terms = Terms { page: &page, solution, settings, avoided: &[] };
        for n_taken in FEATURED_AT_MOST {
            let Ok(found) = terms.featuring(featured, n_taken) else { continue };
            let told = in_order(&mut trimmer, &needed(found));
            let told = told
                .and_then(|it| as_seen_by_then(&mut trimmer, settings.known, it))
                .map_err(Stopped::Misbuilt)?;
            if effort(told.trail()) <= most && shows_earlier(featured, told.trail(), walkthrough.trail()) {
                walkthrough = told;
            }
        }
    }
    let is_last_resort = |id| technique(id).is_none_or(<dyn Technique>::is_last_resort);
    let n_last_resorts = walkthrough.trail().steps().filter(|(_, it)| is_last_resort(it.technique())).count();
    if n_last_resorts > settings.readable {
        return Err(Stopped::NotTeachable(n_last_resorts));
    }
    let told = trimmer.replay(walkthrough).map_err(|(fact, refusal)| Stopped::Refused(fact, refusal))?;
    Ok(Explained { told, has_reached_limit })
}

/// So many steps of a technique that is to be shown are taken as soon as they are open, in one walkthrough after
/// another: the more, the surer one of them is needed in the end, and the more effort the whole may take.
const FEATURED_AT_MOST: [usize; 4] = [1, 2, 4, usize::MAX];

/// Whether the one trail shows the technique and the other does so later or not at all.
fn shows_earlier(technique: TechniqueId, one: &Trail, other: &Trail) -> bool {
    // Trails differ in length, so places are compared in hundredths of it.
    let place = |trail: &Trail| {
        let first = trail.steps().position(|(_, it)| it.technique() == technique)?;
        Some(first * 100 / trail.n_steps())
    };
    place(one).is_some_and(|it| place(other).is_none_or(|other| it < other))
}

/// What is needed of the easiest step, again and again.
fn by_ease(page: &View, solution: &Grid, settings: Settings) -> Result<Trail, Stopped> {
    let trail = Terms { page, solution, settings, avoided: &[] }.easiest()?;
    Ok(needed(trail))
}

/// The easiest step again and again is put in order only if that may pay: if what was chosen takes, as it is told, nearly
/// as much as it, so many hundredths, takes step by step before anything cited to spare is cut.
const NEARLY: u64 = 97;

/// Of the two ways found, each in order and with nothing cited to spare, the one that takes less effort then.
fn easier_in_order(trimmer: &mut Trimmer, found: &LeastEffort) -> Result<Walkthrough, PushError> {
    let chosen = in_order(trimmer, &found.trail)?;
    let takes = effort(chosen.trail());
    if takes * 100 < of_steps(&found.by_ease) * NEARLY {
        return Ok(chosen);
    }
    let by_ease = in_order(trimmer, &found.by_ease)?;
    Ok(if effort(by_ease.trail()) < takes { by_ease } else { chosen })
}

/// How often a walkthrough is put in order anew because a step is seen otherwise by then.
const MOST_ROUNDS: usize = 4;

/// The walkthrough with each step as it is seen by the time it is told.
fn as_seen_by_then(
    trimmer: &mut Trimmer,
    known: Known,
    mut told: Walkthrough,
) -> Result<Walkthrough, PushError> {
    for _ in 0..MOST_ROUNDS {
        let page = Trail::from_page(trimmer.puzzle());
        let late = late::resting_on_digits(trimmer.size(), page, told.trail())?;
        let seen = by_then::as_seen(trimmer, known, late.as_ref().unwrap_or(told.trail()))?;
        let Some(trail) = seen.or(late) else { return Ok(told) };
        told = in_order(trimmer, &trail)?;
    }
    // What is seen by now holds in this order, so this is the last.
    match by_then::as_seen(trimmer, known, told.trail())? {
        Some(trail) => Ok(order::in_passages(trimmer.size(), needed(trail))),
        None => Ok(told),
    }
}

/// The trail without what is cited to spare, in the order in which it is told.
fn in_order(trimmer: &mut Trimmer, trail: &Trail) -> Result<Walkthrough, PushError> {
    let trimmed = trimmer.trimmed(trail)?;
    // What was cited to spare is needed no longer.
    Ok(order::arrange(trimmer.size(), needed(trimmed).saying_once()))
}

/// What the digits rest on.
fn needed(trail: Trail) -> Trail {
    let goals = goals(&trail);
    trail.needed_for(goals)
}

/// Takes the easiest step, again and again, until every cell is filled: for callers that only ask whether
/// there is a way. Nothing is chosen, put in order, replayed or surveyed.
///
/// # Errors
///
/// As for [`explain`].
pub fn solve(puzzle: &Puzzle, solution: &Grid, settings: Settings) -> Result<Trail, Stopped> {
    Terms { page: &View::new(puzzle), solution, settings, avoided: &[] }.easiest()
}

/// The same as far as it leads: where no step is left, what was taken up to there.
///
/// # Errors
///
/// As for [`explain`], but never [`Stopped::Stuck`].
pub fn solve_as_far(puzzle: &Puzzle, solution: &Grid, settings: Settings) -> Result<Trail, Stopped> {
    Terms { page: &View::new(puzzle), solution, settings, avoided: &[] }.easiest_as_far()
}

/// The digits that are not given.
pub(crate) fn goals(trail: &Trail) -> Vec<FactId> {
    let digits = trail.facts().filter(|(_, it)| it.step().is_some() && matches!(it.claim(), Claim::Is(..)));
    digits.map(|it| it.0).collect()
}

/// Whether the claim is true of the solution; of a board that is none, nothing is.
pub(crate) fn is_true(size: Size, solution: &Grid, claim: &Claim) -> bool {
    untrue(size, solution, [claim]).is_none()
}

/// The first of the claims that is not true of the solution.
pub(crate) fn untrue<'c>(
    size: Size,
    solution: &Grid,
    claims: impl IntoIterator<Item = &'c Claim>,
) -> Option<&'c Claim> {
    let is_full = solution.is_full() && solution.size() == size;
    let digit = |cell| solution.get(cell).unwrap_or_else(|| unreachable!("the solution is full"));
    claims.into_iter().find(|it| !(is_full && it.holds(size, digit)))
}
