//! A logged solve held against the walkthrough: which steps the time between two digits went into.
//!
//! People fill cells in another order than the walkthrough. So time is not read off by counting cells: the
//! time before a digit is put down to **the steps that this digit rests on and no digit before it did**, which the
//! walkthrough's citations tell whatever the order. Each step is counted once, where it was first needed.
//!
//! - A digit that needs no new step is the rest of what was found before; its time is added to that.
//! - A wrong digit is no progress: its time counts until the next right one. Slips are part of solving.
//! - Pauses are taken out. What was found with a hint is left out, for nobody noticed it by themselves.
//! - What came after the last digit of a solve that was given up is left out: it is not known how far it went.
//!
//! What this cannot see: a solver who found a digit in another way than the walkthrough. Such times are wrong for
//! those steps by a factor that may be large, which the fit expects (`posterior`).

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;

use grid::{Cell, Digit};
use reason::{Known, Survey};
use rulebook::Claim;
use trail::{FactId, Trail};

use crate::moment::Moment;
use crate::{Outcome, Solve, Solver};

/// A walkthrough as solves are held against it.
#[derive(Clone, Debug)]
pub struct Course {
    moments: Vec<Moment>,
    /// For each step, the steps whose conclusions it cites.
    cites: Vec<BTreeSet<usize>>,
    /// For each cell to be filled, its digit and what that rests on: its own step first of all.
    goals: BTreeMap<Cell, (Digit, BTreeSet<usize>)>,
}

/// Why a solve is not one of this walkthrough's puzzle, as it is now.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Mismatch {
    /// A digit was written into a cell that the board does not have or that is filled from the start.
    NotToBeFilled(Cell),
    /// The solve was right, and yet this cell held something else at its end.
    EndsOtherwise(Cell),
}

/// A stretch of time in which digits were found by known steps.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Stretch {
    /// How long it was, pauses taken out.
    pub(crate) seconds: f64,
    /// Its steps.
    pub(crate) moments: Vec<Moment>,
}

/// A solve with its stretches.
#[derive(Clone, PartialEq, Debug)]
pub struct Timed {
    pub(crate) puzzle: String,
    pub(crate) solver: String,
    pub(crate) kind: Solver,
    pub(crate) is_aloud: bool,
    pub(crate) stretches: Vec<Stretch>,
    progress: Vec<Progress>,
}

/// A stretch of a solve in which digits were found, with a hint or without.
#[derive(Clone, PartialEq, Debug)]
pub struct Progress {
    /// The places of its steps in the walkthrough, counted from 0, at least one.
    pub steps: Vec<usize>,
    /// How long it was, pauses taken out.
    pub seconds: f64,
    /// Whether a hint was taken.
    pub has_hint: bool,
}

impl Course {
    /// The course of the walkthrough whose steps were surveyed, for solvers who know these techniques: as for
    /// [`estimate()`](crate::estimate()), so that what is fitted is what is printed. `surveys` and `trail` must belong
    /// together.
    pub fn new(surveys: &[Survey], trail: &Trail, known: Known) -> Course {
        let step_of = |fact: &FactId| trail.fact(*fact).step().map(|it| it.index());
        let of_facts = |facts: &BTreeSet<FactId>| facts.iter().filter_map(step_of).collect();
        let goals = trail.facts().filter_map(|(id, fact)| match fact.claim() {
            Claim::Is(cell, digit) => {
                // The step's other conclusions may rest on more than this digit does.
                let rests_on: BTreeSet<usize> = fact.cites().map(|it| of_facts(&it.facts))?;
                Some((cell, (digit, rests_on.into_iter().chain(step_of(&id)).collect())))
            }
            _ => None,
        });
        let cites =
            trail.steps().map(|(id, _)| trail.steps_cited_by(id).iter().map(|it| it.index()).collect());
        Course {
            moments: surveys.iter().map(|it| Moment::of(it, trail, known)).collect(),
            cites: cites.collect(),
            goals: goals.collect(),
        }
    }

    /// Adds to `done` the steps that these rest on, themselves among them, and gives those that are new, in order.
    fn new_steps(&self, needed: &BTreeSet<usize>, done: &mut BTreeSet<usize>) -> BTreeSet<usize> {
        let mut new = BTreeSet::new();
        let mut todo: Vec<usize> = needed.iter().copied().collect();
        while let Some(step) = todo.pop() {
            if done.insert(step) {
                new.insert(step);
                todo.extend(&self.cites[step]);
            }
        }
        new
    }
}

impl Timed {
    /// The solve, held against the walkthrough of its puzzle.
    ///
    /// # Errors
    ///
    /// If it cannot be a solve of the puzzle as it is now.
    pub fn new(solve: &Solve, course: &Course) -> Result<Timed, Mismatch> {
        check_end(solve, course)?;
        let mut done = BTreeSet::new();
        let mut found: BTreeSet<Cell> = BTreeSet::new();
        let mut drafts: Vec<Draft> = Vec::new();
        let mut last = 0.0;
        for entry in &solve.entries {
            let Some((digit, rests_on)) = course.goals.get(&entry.cell) else {
                return Err(Mismatch::NotToBeFilled(entry.cell));
            };
            if entry.digit != Some(*digit) || !found.insert(entry.cell) {
                continue;
            }
            let new = course.new_steps(rests_on, &mut done);
            let seconds = entry.at - last - paused(solve, last, entry.at);
            let has_hint = solve.hints.iter().any(|it| last <= *it && *it < entry.at);
            last = entry.at;
            if !new.is_empty() {
                drafts.push(Draft { seconds, has_hint, steps: new });
            } else if let Some(before) = drafts.last_mut() {
                before.seconds += seconds;
                before.has_hint |= has_hint;
            }
        }
        let progress = drafts.iter().map(|it| Progress {
            steps: it.steps.iter().copied().collect(),
            seconds: it.seconds,
            has_hint: it.has_hint,
        });
        let progress = progress.collect();
        let stretches = drafts.into_iter().filter(|it| !it.has_hint).map(|it| Stretch {
            seconds: it.seconds,
            moments: it.steps.into_iter().map(|at| course.moments[at].clone()).collect(),
        });
        Ok(Timed {
            puzzle: solve.puzzle.clone(),
            solver: solve.solver.clone(),
            kind: solve.kind,
            is_aloud: solve.is_aloud,
            stretches: stretches.collect(),
            progress,
        })
    }

    /// How many steps each stretch went into, and how many seconds it was.
    pub fn stretches(&self) -> impl Iterator<Item = (usize, f64)> {
        self.stretches.iter().map(|it| (it.moments.len(), it.seconds))
    }

    /// Every stretch in which something was found, in order of time, with those for which a hint was taken.
    pub fn progress(&self) -> &[Progress] {
        &self.progress
    }

    /// The seconds of all stretches.
    pub fn seconds(&self) -> f64 {
        self.stretches.iter().map(|it| it.seconds).sum()
    }
}

/// A stretch that may still grow.
struct Draft {
    seconds: f64,
    has_hint: bool,
    steps: BTreeSet<usize>,
}

/// Checks that a right solve ends as the walkthrough does.
fn check_end(solve: &Solve, course: &Course) -> Result<(), Mismatch> {
    if solve.outcome != Outcome::Solved {
        return Ok(());
    }
    let end: BTreeMap<Cell, Option<Digit>> = solve.entries.iter().map(|it| (it.cell, it.digit)).collect();
    let differs = |(cell, (digit, _)): &(&Cell, &(Digit, _))| end.get(cell) != Some(&Some(*digit));
    match course.goals.iter().find(differs) {
        Some((cell, _)) => Err(Mismatch::EndsOtherwise(*cell)),
        None => Ok(()),
    }
}

/// How much of the time from one moment to another the solver was away. Pauses do not overlap.
fn paused(solve: &Solve, from: f64, to: f64) -> f64 {
    solve.pauses.iter().map(|[begin, end]| (end.min(to) - begin.max(from)).max(0.0)).sum()
}

impl fmt::Display for Mismatch {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Mismatch::NotToBeFilled(cell) => write!(f, "{cell} is no cell to be filled"),
            Mismatch::EndsOtherwise(cell) => write!(f, "{cell} ends with another digit than the solution's"),
        }
    }
}
