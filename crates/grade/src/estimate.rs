//! From surveys to minutes.

use std::collections::BTreeMap;

use reason::{Survey, technique};
use trail::{Argument, Branch, End, StepId, TechniqueId, Trail};

use crate::model::{ARGUMENT_CASE, ARGUMENT_LOOK, CARRY_OUT, LEAST_WAIT};

/// How long one step of a walkthrough is expected to take.
#[derive(Clone, PartialEq, Debug)]
pub struct StepTime {
    /// The step.
    pub step: StepId,
    /// Seconds until it, or something as easy, is noticed.
    pub wait: f64,
    /// Seconds to carry it out.
    pub work: f64,
    /// How many steps are open that are no harder than this one.
    pub open: usize,
}

/// How long a puzzle is expected to take a solver who knows every technique its walkthrough uses.
#[derive(Clone, PartialEq, Debug)]
pub struct Estimate {
    /// One entry a step, in order.
    pub steps: Vec<StepTime>,
    /// Seconds spent on each technique.
    pub by_technique: BTreeMap<TechniqueId, f64>,
}

impl Estimate {
    /// Seconds in all.
    pub fn seconds(&self) -> f64 {
        self.steps.iter().map(|it| it.wait + it.work).sum()
    }

    /// Minutes in all.
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
}

/// Expected times for the walkthrough whose steps were surveyed.
///
/// `surveys` and `trail` must belong together: one survey for each step.
pub fn estimate(surveys: &[Survey], trail: &Trail) -> Estimate {
    let mut by_technique: BTreeMap<TechniqueId, f64> = BTreeMap::new();
    let steps: Vec<StepTime> = surveys.iter().map(|it| time(it, trail)).collect();
    for (survey, time) in surveys.iter().zip(&steps) {
        *by_technique.entry(survey.technique).or_default() += time.wait + time.work;
    }
    Estimate { steps, by_technique }
}

fn time(survey: &Survey, trail: &Trail) -> StepTime {
    let carry_out = CARRY_OUT * survey.conclusions as f64;
    let step = survey.step;
    if let Argument::Cases { branches: cases, .. } = trail.step(step).argument() {
        // The first conclusion is what is looked for; the others follow from the same view.
        let work = ARGUMENT_CASE * cases.first().map_or(0, size_of) as f64;
        return StepTime { step, wait: ARGUMENT_LOOK, work: work + carry_out, open: 0 };
    }
    let weight = |id| technique(id).map_or(f64::INFINITY, |it| f64::from(it.weight()));
    let hardest = weight(survey.technique);
    let as_easy = survey.open.iter().filter(|(id, _)| weight(*id) <= hardest);
    let rate: f64 = as_easy.clone().map(|(id, places)| *places as f64 / weight(*id)).sum();
    let wait = if rate > 0.0 { (1.0 / rate).max(LEAST_WAIT) } else { hardest };
    StepTime { step, wait, work: carry_out, open: as_easy.map(|it| it.1).sum() }
}

/// The number of cases and consequences of an argument.
fn size_of(branch: &Branch) -> usize {
    let inner = match &branch.end {
        End::Split(branches) => branches.iter().map(size_of).sum(),
        _ => 0,
    };
    1 + branch.chain.len() + inner
}
