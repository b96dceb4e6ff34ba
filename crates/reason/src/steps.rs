//! Taking steps from the page to the full grid: the easiest one, again and again.

use grid::{CellSet, Grid};
use rulebook::{Claim, Puzzle};
use trail::{Proposal, TechniqueId, Trail};

use crate::chosen::Offer;
use crate::effort::distance;
use crate::explain::is_true;
use crate::{Known, Settings, Stopped, View, small_argument};

/// A step that harder techniques offer is kept as an alternative if they are no more than so many seconds
/// harder than the easiest that is open; what is harder still would hardly be chosen.
const NO_HARDER: u32 = 10;

/// A step to do without: its technique and something it concludes.
pub(crate) type Avoided = (TechniqueId, Claim);

/// Takes the easiest step until every cell is filled, but none that is `avoided`. Every step that was open
/// on the way and hardly harder than the one taken is added to `offers`, if those are asked for.
pub(crate) fn take_steps(
    puzzle: &Puzzle,
    solution: &Grid,
    settings: Settings,
    avoided: &[Avoided],
    mut offers: Option<&mut Vec<Offer>>,
) -> Result<Trail, Stopped> {
    let mut view = View::new(puzzle);
    let mut eye = CellSet::EMPTY;
    let mut arguments_left = settings.arguments;
    while !view.is_finished() {
        let leeway = if offers.is_some() { NO_HARDER } else { 0 };
        let open = open_steps(&view, settings.known, avoided, leeway);
        let proposal = match nearest(&open, eye) {
            Some(it) => it.clone(),
            None => {
                let stuck = Stopped::Stuck(view.board().clone());
                arguments_left = arguments_left.checked_sub(1).ok_or(stuck.clone())?;
                small_argument::find(&view, solution, settings.argument).ok_or(stuck)?
            }
        };
        check(puzzle, solution, &proposal)?;
        if let Some(offers) = &mut offers {
            let after = view.trail().n_facts();
            let argument = open.is_empty().then(|| proposal.clone());
            offers
                .extend(open.into_iter().flatten().chain(argument).map(|proposal| Offer { after, proposal }));
        }
        eye = proposal.conclusions.iter().filter_map(|(claim, _)| claim.cell()).collect();
        view.take(proposal).map_err(Stopped::Misbuilt)?;
    }
    Ok(view.into_trail())
}

/// The steps that are open, by technique, easiest first: those of the easiest technique that offers any,
/// and of techniques that are harder by no more than `leeway`.
fn open_steps(view: &View, known: Known, avoided: &[Avoided], leeway: u32) -> Vec<Vec<Proposal>> {
    let mut open = Vec::new();
    let mut hardest = None;
    for technique in known.techniques() {
        if hardest.is_some_and(|it| technique.weight() > it) {
            break;
        }
        let mut offers = technique.find(view);
        let is_avoided = |(claim, _): &(Claim, _)| avoided.contains(&(technique.id(), *claim));
        offers.retain(|it| !it.conclusions.iter().any(is_avoided));
        if !offers.is_empty() {
            hardest = hardest.or(Some(technique.weight() + leeway));
            open.push(offers);
        }
    }
    open
}

/// Of the steps of the easiest technique the one nearest to where the last step settled something, then
/// the first.
fn nearest(open: &[Vec<Proposal>], eye: CellSet) -> Option<&Proposal> {
    open.first()?.iter().min_by_key(|it| {
        let cells = it.conclusions.iter().filter_map(|(claim, _)| claim.cell()).collect();
        distance(eye, cells)
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
