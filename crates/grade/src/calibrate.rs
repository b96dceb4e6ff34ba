//! From logged solves to a calibration, with how well it would have done.
//!
//! Whether it helps is judged by puzzles that it has not seen: each puzzle's solves are foretold from the solves of
//! all others, as the pack prints minutes, for a kind of solver and not for a person. A calibration that foretells
//! them no better than the model alone is not used, and neither is one from too few solves.

use std::collections::BTreeSet;

use libm::{exp, log};
use trail::TechniqueId;

use crate::fit::{fit, n_steps};
use crate::priors::{FEWEST_PUZZLES, FEWEST_SOLVES, FEWEST_STEPS, FEWEST_STRETCHES};
use crate::{Calibration, Solver, Timed};

/// What the solves of one manner, silent or aloud, have taught.
#[derive(Clone, PartialEq, Debug)]
pub struct Lesson {
    /// How many solves there are that are long enough to count.
    pub n_solves: usize,
    /// How many were too short, or found too much with hints.
    pub n_too_short: usize,
    /// Of how many puzzles.
    pub n_puzzles: usize,
    /// What they say, if it is to be believed.
    pub verdict: Verdict,
    /// Each person: their kind, and how long they take compared with others of it. Empty if there is too little.
    pub people: Vec<Person>,
    /// The techniques of which more steps are wanted before their wait is moved, with how many.
    pub wanted: Vec<(TechniqueId, usize)>,
}

/// Whether a calibration is to be used.
#[derive(Clone, PartialEq, Debug)]
pub enum Verdict {
    /// There are too few solves; so many more are wanted, and of so many more puzzles.
    TooLittle {
        /// Solves.
        solves: usize,
        /// Puzzles.
        puzzles: usize,
    },
    /// It foretells puzzles that it has not seen no better than the model alone.
    NoBetter(Errors),
    /// It foretells them better.
    Moves(Errors, Calibration),
}

/// By what factor the time of half of the solves is off at most, puzzle by puzzle.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Errors {
    /// Foretold by the model alone.
    pub before: f64,
    /// Foretold from the solves of the other puzzles.
    pub after: f64,
}

/// One person's pace.
#[derive(Clone, PartialEq, Debug)]
pub struct Person {
    /// Who.
    pub name: String,
    /// The kind of solver that they are.
    pub kind: Solver,
    /// How long they take, compared with their kind; drawn towards 1 where there are few solves.
    pub ratio: f64,
    /// How many of their solves count.
    pub n_solves: usize,
}

/// What the solves have taught, silent ones and those that were talked aloud apart.
#[derive(Clone, PartialEq, Debug)]
pub struct Lessons {
    /// From solves in silence. Minutes for solvers come from these.
    pub silent: Lesson,
    /// From solves that were talked aloud.
    pub aloud: Lesson,
}

/// Fits the model to the solves. Equal solves, in whatever order, give equal lessons.
pub fn calibrate(solves: &[Timed]) -> Lessons {
    let of = |is_aloud| lesson(&solves.iter().filter(|it| it.is_aloud == is_aloud).collect::<Vec<_>>());
    Lessons { silent: of(false), aloud: of(true) }
}

fn lesson(solves: &[&Timed]) -> Lesson {
    let long_enough = |it: &&&Timed| it.stretches.len() >= FEWEST_STRETCHES;
    let mut counted: Vec<&Timed> = solves.iter().filter(long_enough).copied().collect();
    // Sums are rounded as they grow, so that they depend on the order a little; files come in any.
    counted.sort_by(|a, b| {
        let names = |it: &Timed| (it.puzzle.clone(), it.solver.clone(), it.kind.place());
        names(a).cmp(&names(b)).then(a.seconds().total_cmp(&b.seconds()))
    });
    let puzzles: BTreeSet<&str> = counted.iter().map(|it| &it.puzzle[..]).collect();
    let mut lesson = Lesson {
        n_solves: counted.len(),
        n_too_short: solves.len() - counted.len(),
        n_puzzles: puzzles.len(),
        verdict: Verdict::TooLittle {
            solves: FEWEST_SOLVES.saturating_sub(counted.len()),
            puzzles: FEWEST_PUZZLES.saturating_sub(puzzles.len()),
        },
        people: Vec::new(),
        wanted: n_steps(&counted)
            .into_iter()
            .filter_map(|(id, n)| Some((id, FEWEST_STEPS.checked_sub(n).filter(|it| *it > 0)?)))
            .collect(),
    };
    if counted.len() < FEWEST_SOLVES || puzzles.len() < FEWEST_PUZZLES {
        return lesson;
    }
    let all = fit(&counted);
    let person = |((name, kind), ratio): ((String, usize), f64)| Person {
        n_solves: counted.iter().filter(|it| it.solver == name && it.kind.place() == kind).count(),
        name,
        kind: Solver::ALL[kind],
        ratio,
    };
    lesson.people = all.people.into_iter().map(person).collect();
    let errors = leave_one_puzzle_out(&counted, &puzzles);
    lesson.verdict = match errors.after < errors.before {
        true => Verdict::Moves(errors, all.calibration),
        false => Verdict::NoBetter(errors),
    };
    lesson
}

impl Lesson {
    /// What to correct the model by: nothing, unless the solves say so and are to be believed.
    pub fn calibration(&self) -> Calibration {
        match &self.verdict {
            Verdict::Moves(_, it) => it.clone(),
            Verdict::TooLittle { .. } | Verdict::NoBetter(_) => Calibration::default(),
        }
    }
}

/// How far the solves of each puzzle are off, foretold with and without those of the others.
fn leave_one_puzzle_out(solves: &[&Timed], puzzles: &BTreeSet<&str>) -> Errors {
    let (mut before, mut after) = (Vec::new(), Vec::new());
    for puzzle in puzzles {
        let (held_out, others): (Vec<&Timed>, Vec<&Timed>) =
            solves.iter().copied().partition(|it| it.puzzle == *puzzle);
        let from_others = fit(&others).calibration;
        before.extend(held_out.iter().map(|it| off_by(it, &Calibration::default())));
        after.extend(held_out.iter().map(|it| off_by(it, &from_others)));
    }
    Errors { before: exp(median(before)), after: exp(median(after)) }
}

/// By how much a solve's whole time is off, as a logarithm without its sign.
fn off_by(solve: &Timed, calibration: &Calibration) -> f64 {
    let took = solve.seconds();
    let moments = solve.stretches.iter().flat_map(|it| &it.moments);
    let seconds = moments.map(|it| it.sure(solve.kind) + it.mean_wait(solve.kind, calibration));
    let foretold = calibration.pace(solve.kind) * seconds.sum::<f64>();
    // The middle, not the mean, of these is taken: a telephone call must not decide it.
    (log(took.max(1.0)) - log(foretold)).abs()
}

fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    let at = |it: usize| values.get(it).copied().unwrap_or_default();
    match values.len() {
        0 => 0.0,
        n => (at((n - 1) / 2) + at(n / 2)) / 2.0,
    }
}
