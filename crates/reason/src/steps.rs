//! Taking steps from the page to the full grid: the easiest one, again and again.

use std::collections::BTreeSet;
use std::rc::Rc;

use grid::{CellSet, Grid};
use rulebook::{Claim, Puzzle};
use trail::{Proposal, TechniqueId, Trail};

use crate::classic::FOLLOWED;
use crate::effort::distance;
use crate::explain::untrue;
use crate::offer::{Claims, Offer, OpenStep, Places};
use crate::parts::InVain;
use crate::small_argument::Arguments;
use crate::{Known, Settings, Stopped, TECHNIQUES, Technique, View, technique};

/// A step that harder techniques offer is kept as an alternative if they are no more than so many seconds
/// harder than the easiest that is open; what is harder still would hardly be chosen.
const NO_HARDER: u32 = 10;

/// A step to do without: something it concludes and its technique.
pub(crate) type Avoided = (Claim, TechniqueId);

/// The way to the full grid that takes the easiest step again and again, and what was open beside it.
#[derive(Debug)]
pub(crate) struct Run {
    /// The steps taken.
    pub(crate) trail: Trail,
    /// Those and others that were open on the way and hardly harder than the one taken, in no certain order.
    pub(crate) offers: Vec<Offer>,
    /// Where the claims of the offers stand on the trail.
    pub(crate) places: Places,
}

/// What a run is to keep to.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Terms<'a> {
    /// The position in which nothing but the page is known.
    pub(crate) page: &'a View<'a>,
    pub(crate) solution: &'a Grid,
    pub(crate) settings: Settings,
    /// Steps not to be taken.
    pub(crate) avoided: &'a [Avoided],
}

impl<'a> Terms<'a> {
    /// Takes the easiest step until every cell is filled.
    pub(crate) fn easiest(self) -> Result<Trail, Stopped> {
        let mut view = self.page.clone();
        Progress::new(self).finish(&mut view)?;
        Ok(view.into_trail())
    }

    /// The same, or until no step is left.
    pub(crate) fn easiest_as_far(self) -> Result<Trail, Stopped> {
        let mut view = self.page.clone();
        match Progress::new(self).finish(&mut view) {
            Ok(()) | Err(Stopped::Stuck(_)) => Ok(view.into_trail()),
            Err(other) => Err(other),
        }
    }

    /// Takes the easiest step, but up to so many of one technique as soon as they are open.
    pub(crate) fn featuring(self, id: TechniqueId, most: usize) -> Result<Trail, Stopped> {
        let mut view = self.page.clone();
        let mut progress = Progress::new(self);
        let mut left = most;
        while !view.is_finished() {
            let technique = technique(id).filter(|_| left > 0);
            let featured = technique.and_then(|it| nearest_step(it, &view, self.avoided, progress.eye));
            let nearest = featured.or_else(|| progress.easiest(&view));
            let proposal = progress.next(&view, nearest)?;
            left -= usize::from(proposal.technique == id && left > 0);
            view.take(proposal).map_err(Stopped::Misbuilt)?;
        }
        Ok(view.into_trail())
    }

    /// The same with what was open beside it. Where an earlier run is given, its steps are taken as far as
    /// these terms allow them: up to there the run would be the same, but for what no longer counts as hardly
    /// harder.
    pub(crate) fn run(self, claims: &mut Claims, earlier: Option<&Run>) -> Result<Run, Stopped> {
        let mut view = self.page.clone();
        let mut progress = Progress::new(self);
        let mut offers = match earlier {
            Some(run) => progress.follow(&mut view, run)?,
            None => Vec::new(),
        };
        let concluded =
            offers.iter().flat_map(|Offer { step, .. }| step.claims().map(|it| (it, step.technique)));
        let mut offered: BTreeSet<Avoided> = concluded.collect();
        while !view.is_finished() {
            let open = open_steps(&view, self.settings.known, self.avoided, &mut offered);
            let proposal = progress.next(&view, nearest(&open, progress.eye).cloned())?;
            let after = view.trail().n_facts();
            let argument = open.is_empty().then(|| proposal.clone());
            for it in open.into_iter().flatten().chain(argument) {
                offers.push(Offer { after, step: Rc::new(OpenStep::new(claims, view.trail(), it)) });
            }
            view.take(proposal).map_err(Stopped::Misbuilt)?;
        }
        let trail = view.into_trail();
        Ok(Run { places: claims.places_on(&trail), trail, offers })
    }

    /// The same more quickly, by the easiest steps alone from where the earlier run has to be left. What was
    /// open beside that run is offered here too, wherever what it rests on is known.
    pub(crate) fn detour(self, claims: &mut Claims, earlier: &Run) -> Result<Run, Stopped> {
        let mut view = self.page.clone();
        let mut progress = Progress::new(self);
        progress.follow(&mut view, earlier)?;
        let n_followed = view.trail().n_steps();
        progress.finish(&mut view)?;
        let trail = view.into_trail();
        let places = claims.places_on(&trail);
        let allowed = earlier.offers.iter().filter(|it| self.allows(it.step.technique, it.step.claims()));
        let known = allowed
            .filter_map(|it| Some(Offer { after: it.step.open_after(&places)?, step: Rc::clone(&it.step) }));
        let mut offers: Vec<Offer> = known.collect();
        for (id, step) in trail.steps().skip(n_followed) {
            let after = step.concludes()[0].index();
            let step = Rc::new(OpenStep::new(claims, &trail, trail.proposal(id)));
            offers.push(Offer { after, step });
        }
        Ok(Run { trail, offers, places })
    }

    /// Whether a step of the technique may be taken that concludes these.
    fn allows(self, technique: TechniqueId, mut claims: impl Iterator<Item = Claim>) -> bool {
        self.settings.known.has(technique) && !claims.any(|it| self.avoided.contains(&(it, technique)))
    }
}

/// Where a run has got to, beside what it knows.
struct Progress<'a> {
    terms: Terms<'a>,
    /// The cells that the last step settled something about.
    eye: CellSet,
    in_vain: InVain,
    arguments: Arguments<'a>,
    arguments_left: usize,
}

impl<'a> Progress<'a> {
    fn new(terms: Terms<'a>) -> Progress<'a> {
        Progress {
            terms,
            eye: CellSet::EMPTY,
            in_vain: InVain::new(),
            arguments: Arguments::new(terms.solution, terms.settings.argument),
            arguments_left: terms.settings.arguments,
        }
    }

    /// As [`easiest_step`].
    fn easiest(&mut self, view: &View) -> Option<Proposal> {
        self.terms.settings.known.places().find_map(|place| {
            if self.in_vain.is_certain(place, view) {
                return None;
            }
            let nearest = nearest_step(TECHNIQUES[place], view, self.terms.avoided, self.eye);
            if nearest.is_none() {
                self.in_vain.note(place, view);
            }
            nearest
        })
    }

    /// The step to take where this is the nearest of the easiest; a small argument where there is none.
    fn next(&mut self, view: &View, nearest: Option<Proposal>) -> Result<Proposal, Stopped> {
        let Terms { page, solution, settings, .. } = self.terms;
        let proposal = match nearest {
            Some(it) => it,
            None => {
                let stuck = Stopped::Stuck(view.board().clone());
                self.arguments_left = self.arguments_left.checked_sub(1).ok_or(stuck.clone())?;
                let leads_to = |claims: &[Claim]| n_struck(view, settings.known, claims);
                self.arguments.find(view, leads_to).ok_or(stuck)?
            }
        };
        check(page.puzzle(), solution, &proposal)?;
        self.eye = concluded_cells(&proposal);
        Ok(proposal)
    }

    /// Takes the steps of an earlier run up to the first that the terms do not allow, and gives what was
    /// open up to there and is allowed.
    fn follow(&mut self, view: &mut View, run: &Run) -> Result<Vec<Offer>, Stopped> {
        for (id, _) in run.trail.steps() {
            let proposal = run.trail.proposal(id);
            if !self.terms.allows(proposal.technique, proposal.conclusions.iter().map(|it| it.0)) {
                break;
            }
            self.eye = concluded_cells(&proposal);
            view.take(proposal).map_err(Stopped::Misbuilt)?;
        }
        let n_facts = view.trail().n_facts();
        let before = run.offers.iter().filter(|it| it.after < n_facts);
        Ok(before.filter(|it| self.terms.allows(it.step.technique, it.step.claims())).cloned().collect())
    }

    /// Takes the easiest step until every cell is filled.
    fn finish(&mut self, view: &mut View) -> Result<(), Stopped> {
        while !view.is_finished() {
            let nearest = self.easiest(view);
            let proposal = self.next(view, nearest)?;
            view.take(proposal).map_err(Stopped::Misbuilt)?;
        }
        Ok(())
    }
}

/// How many candidates are struck until the techniques lead no farther, once the claims are known. What is tried
/// and followed is not counted: it takes long to look for, and this is asked again and again.
fn n_struck(view: &View, known: Known, claims: &[Claim]) -> usize {
    let known = known.without(FOLLOWED);
    let n_candidates = |view: &View| view.size().cells().map(|it| view.candidates(it).len()).sum::<usize>();
    let before = n_candidates(view);
    let mut after = view.with(claims.iter().copied());
    while let Some(proposal) = easiest_step(&after, known, &[], CellSet::EMPTY) {
        if after.take(proposal).is_err() {
            break;
        }
    }
    before - n_candidates(&after)
}

/// Of the steps of the easiest technique that offers any, the one nearest to the eye, then the first.
pub(crate) fn easiest_step(view: &View, known: Known, avoided: &[Avoided], eye: CellSet) -> Option<Proposal> {
    known.techniques().find_map(|it| nearest_step(it, view, avoided, eye))
}

/// The same of one technique. Where that saves a search, only this step is asked what it cites.
fn nearest_step(
    technique: &dyn Technique,
    view: &View,
    avoided: &[Avoided],
    eye: CellSet,
) -> Option<Proposal> {
    let Some(mut open) = technique.open_claims(view) else {
        let steps = steps_of(technique, view, avoided, &|_| true).into_iter();
        return steps.min_by_key(|it| distance(eye, concluded_cells(it)));
    };
    open.retain(|it| !it.iter().any(|it| avoided.contains(&(*it, technique.id()))));
    let nearest =
        open.into_iter().min_by_key(|it| distance(eye, it.iter().filter_map(Claim::cell).collect()))?;
    let steps = technique.find_wanted(view, &|it| nearest.contains(it)).into_iter();
    let concludes_that = |it: &Proposal| it.conclusions.iter().map(|it| it.0).eq(nearest.iter().copied());
    let mut steps = steps.filter(concludes_that);
    steps.next()
}

/// The steps of the easiest technique that offers any, followed by those of techniques that are harder by no
/// more than [`NO_HARDER`], as far as they conclude something that they have not `offered` before: what they
/// say of the rest has been open for longer.
fn open_steps(
    view: &View,
    known: Known,
    avoided: &[Avoided],
    offered: &mut BTreeSet<Avoided>,
) -> Vec<Vec<Proposal>> {
    let mut open: Vec<Vec<Proposal>> = Vec::new();
    let mut hardest: Option<u32> = None;
    for technique in known.techniques() {
        if hardest.is_some_and(|it| technique.weight() > it || technique.is_last_resort()) {
            break;
        }
        let is_new = |it: &Claim| hardest.is_none() || !offered.contains(&(*it, technique.id()));
        let steps = steps_of(technique, view, avoided, &is_new);
        if steps.is_empty() {
            continue;
        }
        hardest = hardest.or(Some(technique.weight() + NO_HARDER));
        let concluded = steps.iter().flat_map(|it| &it.conclusions);
        offered.extend(concluded.map(|(claim, _)| (*claim, technique.id())));
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
    let is_avoided = |(claim, _): &(Claim, _)| avoided.contains(&(*claim, technique.id()));
    steps.retain(|it| !it.conclusions.iter().any(is_avoided));
    steps
}

/// Of the steps of the easiest technique the one nearest to where the last step settled something, then
/// the first.
fn nearest(open: &[Vec<Proposal>], eye: CellSet) -> Option<&Proposal> {
    open.first()?.iter().min_by_key(|it| distance(eye, concluded_cells(it)))
}

/// The cells that the step settles something about.
fn concluded_cells(step: &Proposal) -> CellSet {
    step.conclusions.iter().filter_map(|(claim, _)| claim.cell()).collect()
}

/// Holds each conclusion against the proven solution, so that a technique with a fault stops at its
/// first wrong step.
fn check(puzzle: &Puzzle, solution: &Grid, proposal: &Proposal) -> Result<(), Stopped> {
    match untrue(puzzle.size(), solution, proposal.conclusions.iter().map(|it| &it.0)) {
        None => Ok(()),
        Some(claim) => Err(Stopped::Wrong(Box::new((proposal.clone(), *claim)))),
    }
}
