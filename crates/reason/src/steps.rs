//! Taking steps from the page to the full grid: the easiest one, again and again.

use std::collections::BTreeSet;

use grid::{CellSet, Grid};
use rulebook::{Claim, Puzzle};
use trail::{Proposal, TechniqueId, Trail};

use crate::chosen::Offer;
use crate::effort::distance;
use crate::explain::is_true;
use crate::small_argument::Arguments;
use crate::{Known, Settings, Stopped, Technique, View};

/// A step that harder techniques offer is kept as an alternative if they are no more than so many seconds
/// harder than the easiest that is open; what is harder still would hardly be chosen.
const NO_HARDER: u32 = 10;

/// A step to do without: its technique and something it concludes.
pub(crate) type Avoided = (TechniqueId, Claim);

/// Takes the easiest step until every cell is filled, but none that is `avoided`. The steps that were open
/// on the way and hardly harder than the one taken are added to `offers`, if those are asked for.
pub(crate) fn take_steps(
    puzzle: &Puzzle,
    solution: &Grid,
    settings: Settings,
    avoided: &[Avoided],
    mut offers: Option<&mut Vec<Offer>>,
) -> Result<Trail, Stopped> {
    let mut view = View::new(puzzle);
    let mut eye = CellSet::EMPTY;
    let mut offered = BTreeSet::new();
    let mut arguments_left = settings.arguments;
    let mut arguments = Arguments::new(solution, settings.argument);
    while !view.is_finished() {
        let open = match &offers {
            None => easiest_steps(&view, settings.known, avoided).into_iter().collect(),
            Some(_) => open_steps(&view, settings.known, avoided, &mut offered),
        };
        let proposal = match nearest(&open, eye) {
            Some(it) => it.clone(),
            None => {
                let stuck = Stopped::Stuck(view.board().clone());
                arguments_left = arguments_left.checked_sub(1).ok_or(stuck.clone())?;
                arguments.find(&view, |claims| n_struck(&view, settings.known, claims)).ok_or(stuck)?
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

/// How many candidates are struck until the techniques lead no farther, once the claims are known.
fn n_struck(view: &View, known: Known, claims: &[Claim]) -> usize {
    let n_candidates = |view: &View| view.size().cells().map(|it| view.candidates(it).len()).sum::<usize>();
    let before = n_candidates(view);
    let Some(mut after) = view.with(claims) else { return 0 };
    while let Some(proposal) = easiest_steps(&after, known, &[]).and_then(|it| it.into_iter().next()) {
        if after.take(proposal).is_err() {
            break;
        }
    }
    before - n_candidates(&after)
}

/// The steps of the easiest technique that offers any.
fn easiest_steps(view: &View, known: Known, avoided: &[Avoided]) -> Option<Vec<Proposal>> {
    known.techniques().map(|it| steps_of(it, view, avoided, &|_| true)).find(|it| !it.is_empty())
}

/// The same, followed by those of techniques that are harder by no more than [`NO_HARDER`], as far as
/// they conclude something that they have not `offered` before: what they say of the rest has been
/// open for longer.
fn open_steps(
    view: &View,
    known: Known,
    avoided: &[Avoided],
    offered: &mut BTreeSet<Avoided>,
) -> Vec<Vec<Proposal>> {
    let mut open: Vec<Vec<Proposal>> = Vec::new();
    let mut hardest: Option<u32> = None;
    for technique in known.techniques() {
        if hardest.is_some_and(|it| technique.weight() > it) {
            break;
        }
        let is_new = |it: &Claim| hardest.is_none() || !offered.contains(&(technique.id(), *it));
        let steps = steps_of(technique, view, avoided, &is_new);
        if steps.is_empty() {
            continue;
        }
        hardest = hardest.or(Some(technique.weight() + NO_HARDER));
        let concluded = steps.iter().flat_map(|it| &it.conclusions);
        offered.extend(concluded.map(|(claim, _)| (technique.id(), *claim)));
        open.push(steps);
    }
    open
}

/// The technique's steps that conclude something wanted and nothing that is avoided.
fn steps_of(
    technique: &dyn Technique,
    view: &View,
    avoided: &[Avoided],
    is_wanted: &dyn Fn(&Claim) -> bool,
) -> Vec<Proposal> {
    let mut steps = technique.find_wanted(view, is_wanted);
    let is_avoided = |(claim, _): &(Claim, _)| avoided.contains(&(technique.id(), *claim));
    steps.retain(|it| !it.conclusions.iter().any(is_avoided));
    steps
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
