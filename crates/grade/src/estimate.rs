//! From surveys to minutes.

use std::collections::BTreeMap;

use reason::{Known, Survey};
use rulebook::Claim;
use trail::{StepId, TechniqueId, Trail};

use crate::model::{LEAST_WAIT, REGULAR};
use crate::moment::Moment;
use crate::runs::{Times, times};
use crate::{Calibration, Solver};

/// Where more steps than this lead on that are no harder, it is not narrow: whoever misses one soon finds another.
const MOST_OPEN: usize = 4;

/// Where a step is seen sooner than this, in seconds, it is not narrow. Nobody feels stuck before a quarter of a minute; no
/// source. It is nearly three times what the demo's steps are waited for on average, and leaves one step in twenty.
const SHORTEST_WAIT: f64 = 15.0;

/// How long one step of a walkthrough takes a regular solver on average.
#[derive(Clone, PartialEq, Debug)]
pub struct StepTime {
    /// The step.
    pub step: StepId,
    /// Seconds until it, or something as easy, is noticed.
    pub wait: f64,
    /// Seconds to carry it out.
    pub work: f64,
    /// How many steps are open that lead on and are no harder than this one.
    pub open: usize,
    /// How many cells of the board have been filled by the walkthrough once it is done.
    pub filled: usize,
}

/// How long a puzzle is expected to take.
#[derive(Clone, PartialEq, Debug)]
pub struct Estimate {
    /// For each of [`Solver::ALL`].
    pub times: [Times; 3],
    /// One entry a step, in order, for a regular.
    pub steps: Vec<StepTime>,
    /// Seconds that a regular spends on each technique.
    pub by_technique: BTreeMap<TechniqueId, f64>,
    /// How many logged solves it has been calibrated on; none for an estimate by the model alone.
    pub n_solves: usize,
    /// How many of these were solved by each of [`Solver::ALL`].
    pub n_solves_by: [usize; 3],
}

impl Estimate {
    /// For a regular solver.
    pub fn regular(&self) -> Times {
        // In the order of `Solver::ALL`.
        self.times[1]
    }

    /// Each kind of solver, and how long it takes.
    pub fn solvers(&self) -> impl Iterator<Item = (Solver, Times)> {
        Solver::ALL.into_iter().zip(self.times)
    }

    /// Seconds in the middle of a regular's solves.
    pub fn seconds(&self) -> f64 {
        self.regular().median
    }

    /// The same in minutes.
    pub fn minutes(&self) -> f64 {
        self.seconds() / 60.0
    }

    /// The steps that are waited for longest, the longest first; at most `n`.
    pub fn narrowest(&self, n: usize) -> Vec<&StepTime> {
        let mut steps: Vec<&StepTime> = self.steps.iter().collect();
        steps.sort_by(|a, b| b.wait.total_cmp(&a.wait).then(a.step.cmp(&b.step)));
        steps.truncate(n);
        steps
    }

    /// Every step where the wait is long and few other steps lead on, the longest wait first.
    pub fn narrow_places(&self) -> Vec<&StepTime> {
        let mut steps = self.narrowest(self.steps.len());
        steps.retain(|it| it.open <= MOST_OPEN && it.wait >= SHORTEST_WAIT);
        steps
    }

    /// After how many seconds, for a regular on average, how many cells have been filled: from nothing, a point for
    /// each step that fills some.
    pub fn curve(&self) -> Vec<(f64, usize)> {
        let mut points = vec![(0.0, 0)];
        let mut seconds = 0.0;
        for it in &self.steps {
            seconds += it.wait + it.work;
            if points.last().is_some_and(|last| last.1 < it.filled) {
                points.push((seconds, it.filled));
            }
        }
        points
    }
}

/// Expected times for the walkthrough whose steps were surveyed, for solvers who know these techniques, corrected
/// by what logged solves have taught.
///
/// `surveys` and `trail` must belong together: one survey for each step. What is open but not known is not
/// noticed. Equal inputs give equal estimates.
pub fn estimate(surveys: &[Survey], trail: &Trail, known: Known, calibration: &Calibration) -> Estimate {
    let moments: Vec<Moment> = surveys.iter().map(|it| Moment::of(it, trail, known)).collect();
    let mut filled = 0;
    let mut by_technique: BTreeMap<TechniqueId, f64> = BTreeMap::new();
    let mut steps = Vec::with_capacity(surveys.len());
    for (survey, moment) in surveys.iter().zip(&moments) {
        let concludes = trail.step(survey.step).concludes().iter();
        filled += concludes.filter(|it| matches!(trail.fact(**it).claim(), Claim::Is(..))).count();
        let pace = calibration.pace(REGULAR);
        let wait = pace * (LEAST_WAIT + moment.mean_wait(REGULAR, calibration));
        let work = pace * moment.work(REGULAR);
        *by_technique.entry(survey.technique).or_default() += wait + work;
        steps.push(StepTime { step: survey.step, wait, work, open: moment.open, filled });
    }
    let times = Solver::ALL.map(|it| times(&moments, it, calibration));
    Estimate {
        times,
        steps,
        by_technique,
        n_solves: calibration.n_solves(),
        n_solves_by: calibration.n_solves_by(),
    }
}
