//! Exercises smaller than a puzzle: a house or a few, one question, one answer.
//!
//! A drill is cut out of a position that came up while a random puzzle was solved. It shows what was known there of
//! one line or box and nothing else; where the technique spans houses, of the few that it needs. For the few techniques that
//! hardly ever come up the position is built outwards from the technique instead, or is one in which all that is easier is
//! stuck. Either way the technique proves
//! the answer from what is shown, nothing easier does, and nothing that is shown says more about what is asked.

mod answer;
mod easier;
mod extract;
mod pose;

use std::collections::BTreeSet;

use grid::{Cell, CellSet, DigitSet, Grid, House};
use rand_chacha::ChaCha8Rng;
use rayon::prelude::*;
use reason::{Technique, View, technique};
use rulebook::{Claim, Puzzle};
use trail::{Proposal, StepId, TechniqueId, Trail};

use crate::brief::Brief;
use crate::draft::{Draft, Stop, Stopped};
use crate::luck::luck;
use crate::setter::random_solution;
use answer::{beside, is_proved, is_whole, of_one_kind};
use easier::easily_known;
use extract::{Extract, Part};
use pose::Build;

/// The technique that offers nothing where anything easier does.
const FOLLOWED: TechniqueId = TechniqueId::new("followed-to-an-end");

/// Puzzles that are tried side by side before it is looked whether that was enough.
const AT_ONCE: u64 = 16;

/// The most houses that a drill shows: with more it would be hardly smaller than a puzzle.
const MOST_HOUSES: usize = 6;

/// How many steps of one puzzle are tried to be cut out.
const MOST_STEPS: usize = 60;

/// How many positions are built on one solution at most.
const MOST_POSES: usize = 60;

/// A question about a line or box, or about a few of them.
#[derive(Clone, Debug)]
pub struct Drill {
    /// What is printed of the houses: their given digits and clues, on a board that is otherwise empty.
    pub puzzle: Puzzle,
    /// The houses: rows, then columns, then boxes.
    pub houses: Vec<House>,
    /// Their cells, and those that the question names, in reading order: as they are before the answer is known.
    pub cells: Vec<Shown>,
    /// What is known of the houses besides, that their cells do not show.
    pub known: Vec<Claim>,
    /// What is known of them, as steps without reasons, and then the step that answers.
    pub trail: Trail,
    /// The step that answers.
    pub step: StepId,
    /// What is asked about: a cell, or a house if none.
    pub cell: Option<Cell>,
    /// Cells that are named beside that one where a crust or filling is asked for: of none of them the same follows.
    pub beside: CellSet,
    /// The answer: everything that follows about what is asked.
    pub answer: Vec<Claim>,
}

impl Drill {
    /// The cells that the question names: the one that is asked about, if it is a cell, and those beside it.
    pub fn named(&self) -> CellSet {
        self.beside | self.cell.into_iter().collect()
    }
}

/// A cell of the houses, as it is shown.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Shown {
    /// The cell.
    pub cell: Cell,
    /// The digits left to it: one if it is filled.
    pub digits: DigitSet,
    /// Whether it is known to be a crust.
    pub is_crust: bool,
    /// Whether it is known to be filling.
    pub is_filling: bool,
}

/// Drills for the technique, at most so many, each from another puzzle; fewer if so many random puzzles
/// hold no more. None if the work was stopped.
///
/// The brief says what the puzzles are like and what is known; the same brief and seed give the same drills.
pub fn drill(
    brief: &Brief,
    asked: TechniqueId,
    seed: u64,
    (count, tries): (usize, u64),
    stop: Stop,
) -> Option<Vec<Drill>> {
    let mut drills: Vec<Drill> = Vec::new();
    let mut next = 0;
    while next < tries && drills.len() < count {
        let numbers = next..tries.min(next + AT_ONCE);
        next = numbers.end;
        let found: Vec<Result<Option<Drill>, Stopped>> =
            numbers.into_par_iter().map(|it| from_one_puzzle(brief, asked, seed, it, stop)).collect();
        for it in found {
            drills.extend(it.ok()?);
        }
    }
    drills.truncate(count);
    Some(drills)
}

/// The first drill that the way through one random puzzle holds.
fn from_one_puzzle(
    brief: &Brief,
    asked: TechniqueId,
    seed: u64,
    number: u64,
    stop: Stop,
) -> Result<Option<Drill>, Stopped> {
    let Some(asked) = technique(asked) else { return Ok(None) };
    let mut random = luck(brief, Some(asked.id()), seed, number);
    let solution = random_solution(brief.size, &mut random);
    if let Some(build) = pose::build(asked, brief.kind) {
        return first_built(&solution, build, asked, &mut random, stop);
    }
    if asked.id() == FOLLOWED {
        return first_where_stuck(brief, &solution, asked, &mut random, stop);
    }
    let mut draft = Draft::with_way(brief, &solution);
    draft.cut_back(&mut random, stop)?;
    let Some(way) = &draft.far else { return Ok(None) };
    // Where the way takes the technique, nothing easier was to be seen. Elsewhere that may be so only of what
    // is cut out.
    let taken = |_: &View, id: StepId| match way.step(id).technique() == asked.id() {
        true => vec![way.proposal(id)],
        false => Vec::new(),
    };
    let open = |view: &View, _: StepId| asked.find(view);
    let puzzle = draft.puzzle();
    let found = first_along(&puzzle, way, asked, &taken, stop)?;
    if found.is_some() {
        return Ok(found);
    }
    first_along(&puzzle, way, asked, &open, stop)
}

/// The first drill in the position in which those are stuck who know only what is easier: a page with nothing to spare
/// for its one solution often leads there.
fn first_where_stuck(
    brief: &Brief,
    solution: &Grid,
    asked: &dyn Technique,
    random: &mut ChaCha8Rng,
    stop: Stop,
) -> Result<Option<Drill>, Stopped> {
    let easier = brief.without(asked.id());
    let mut draft = Draft::whole(brief, solution);
    draft.cut_back(random, stop)?;
    let puzzle = draft.puzzle();
    let Ok(way) = reason::solve_as_far(&puzzle, solution, easier) else { return Ok(None) };
    let mut view = View::new(&puzzle);
    for (id, _) in way.steps() {
        if view.take(way.proposal(id)).is_err() {
            return Ok(None);
        }
    }
    for step in asked.find(&view) {
        if stop() {
            return Err(Stopped);
        }
        if let Some(found) = from_step(&view, &step, asked) {
            return Ok(Some(found));
        }
    }
    Ok(None)
}

/// The first drill among positions that are built on the solution.
fn first_built(
    solution: &Grid,
    build: Build,
    asked: &dyn Technique,
    random: &mut ChaCha8Rng,
    stop: Stop,
) -> Result<Option<Drill>, Stopped> {
    for _ in 0..MOST_POSES {
        if stop() {
            return Err(Stopped);
        }
        let Some(pose) = build(solution, random) else { continue };
        let is_wanted = |it: &Claim| pose.part.has(solution.size(), it);
        let found = question(&pose.extract, &pose.part, asked, &is_wanted);
        if found.is_some() {
            return Ok(found);
        }
    }
    Ok(None)
}

/// The first drill that can be cut out of a position along the way, where `steps` says which steps are looked at.
fn first_along(
    puzzle: &Puzzle,
    way: &Trail,
    asked: &dyn Technique,
    steps: &dyn Fn(&View, StepId) -> Vec<Proposal>,
    stop: Stop,
) -> Result<Option<Drill>, Stopped> {
    let mut view = View::new(puzzle);
    let mut tried: BTreeSet<Vec<Claim>> = BTreeSet::new();
    for (id, _) in way.steps() {
        for step in steps(&view, id) {
            if tried.len() < MOST_STEPS && tried.insert(step.conclusions.iter().map(|it| it.0).collect()) {
                if stop() {
                    return Err(Stopped);
                }
                if let Some(found) = from_step(&view, &step, asked) {
                    return Ok(Some(found));
                }
            }
        }
        if view.take(way.proposal(id)).is_err() {
            break;
        }
    }
    Ok(None)
}

/// The drill that the step makes: of one house if that is enough, else of those that one of its conclusions needs.
fn from_step(position: &View, step: &Proposal, asked: &dyn Technique) -> Option<Drill> {
    let claims: Vec<Claim> = step.conclusions.iter().map(|it| it.0).collect();
    let alone = position.size().houses().map(|it| Part { houses: BTreeSet::from([it]), cell: None });
    let mut alone = alone.filter(|part| claims.iter().any(|it| part.has(position.size(), it)));
    alone.find_map(|it| cut_out(position, &it, asked, &|_| true)).or_else(|| {
        let mut subjects = BTreeSet::new();
        let mut firsts = step.conclusions.iter().filter(|it| subjects.insert((it.0.cell(), it.0.house())));
        firsts.find_map(|(claim, cites)| {
            let part = Part::fewest_houses(position, asked, claim, cites)?;
            let is_small = part.houses.len() <= MOST_HOUSES;
            is_small.then(|| cut_out(position, &part, asked, &|it| it == claim))?
        })
    })
}

/// The drill that the part makes as it stands, or with only as much of it as the step needs, if it makes one. It
/// answers something that is wanted.
fn cut_out(
    position: &View,
    part: &Part,
    asked: &dyn Technique,
    is_wanted: &dyn Fn(&Claim) -> bool,
) -> Option<Drill> {
    let is_wanted = |it: &Claim| is_wanted(it) && part.has(position.size(), it);
    let whole = Extract::of(position, part);
    if let Some(it) = question(&whole, part, asked, &is_wanted) {
        return Some(it);
    }
    // The less is shown, the less follows from it, and the less is easy.
    let shown = whole.view()?;
    let (step, _) = step_with_news(&shown, asked, &is_wanted)?;
    question(&Extract::cited_by(&shown, &step), part, asked, &is_wanted)
}

/// The drill that the extract makes, if it makes one.
fn question(
    extract: &Extract,
    part: &Part,
    asked: &dyn Technique,
    is_wanted: &dyn Fn(&Claim) -> bool,
) -> Option<Drill> {
    let shown = extract.view()?;
    let (mut step, first) = step_with_news(&shown, asked, is_wanted)?;
    // One question: whatever the step says of this cell, or of the house, is its answer.
    let answer: Vec<Claim> =
        step.conclusions.iter().map(|it| it.0).filter(|it| of_one_kind(it, &first)).collect();
    let easily_known = easily_known(&shown, asked);
    if answer.iter().any(&easily_known) {
        return None;
    }
    // What it says of other cells is not asked.
    step.retain(|claim, _| answer.contains(claim));
    if !is_proved(&shown, &step) || !is_whole(&shown, &part.houses, &answer) {
        return None;
    }
    let mut trail = shown.trail().clone();
    let step = trail.push(step).ok()?;
    let beside = beside(&shown, &part.houses, &answer);
    let cells = part.cells(shown.size()) | beside;
    let shown_cell = |it: Cell| Shown {
        cell: it,
        digits: shown.candidates(it),
        is_crust: shown.is_crust(it),
        is_filling: shown.is_filling(it),
    };
    Some(Drill {
        puzzle: extract.puzzle.clone(),
        houses: part.houses.iter().copied().collect(),
        cells: cells.iter().map(shown_cell).collect(),
        known: shown.house_facts().map(|it| it.1).collect(),
        trail,
        step,
        cell: first.cell(),
        beside,
        answer,
    })
}

/// The first step of the technique that says something wanted which nothing easier leads to, and the first such
/// thing.
fn step_with_news(
    shown: &View,
    asked: &dyn Technique,
    is_wanted: &dyn Fn(&Claim) -> bool,
) -> Option<(Proposal, Claim)> {
    let steps = asked.find_wanted(shown, is_wanted);
    if steps.is_empty() {
        return None;
    }
    let easily_known = easily_known(shown, asked);
    steps.into_iter().find_map(|step| {
        let first = step.conclusions.iter().map(|it| it.0).find(|it| is_wanted(it) && !easily_known(it))?;
        Some((step, first))
    })
}
