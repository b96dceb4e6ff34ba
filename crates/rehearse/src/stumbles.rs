//! Where viewers are likely to lose the thread: what the model expects, and where testers stopped.

use grade::{Estimate, Timed};
use trail::{StepId, Trail};

use crate::Setting;

/// A tester who took this many times as long as expected has stopped, if it was also [`LEAST_SECONDS`] more. Both are
/// estimates, no source.
const TIMES_AS_LONG: f64 = 2.5;

/// See [`TIMES_AS_LONG`].
const LEAST_SECONDS: f64 = 30.0;

/// Where testers of the puzzle stopped.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Stop {
    /// The step that took them long, or for which they took a hint.
    pub step: StepId,
    /// How many testers stopped there.
    pub n_stopped: usize,
    /// How many of these took a hint.
    pub n_hints: usize,
    /// How many testers there were.
    pub n_testers: usize,
}

/// A step at which viewers may stumble, and why.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Stumble {
    /// The step.
    pub step: StepId,
    /// Why, in a sentence.
    pub why: String,
}

/// Where those solves of one puzzle stopped, in the order of the steps. Of a stretch of several steps the one that is
/// expected to take longest is taken to have been it.
pub fn stops(trail: &Trail, estimate: &Estimate, solves: &[Timed]) -> Vec<Stop> {
    let steps: Vec<StepId> = trail.steps().map(|it| it.0).collect();
    let expected = |at: usize| estimate.steps.get(at).map_or(0.0, |it| it.wait + it.work);
    let hardest =
        |stretch: &[usize]| stretch.iter().copied().max_by(|a, b| expected(*a).total_cmp(&expected(*b)));
    let mut found: Vec<Stop> = Vec::new();
    for solve in solves {
        for it in solve.progress() {
            let all: f64 = it.steps.iter().map(|at| expected(*at)).sum();
            let has_stopped = it.seconds > TIMES_AS_LONG * all && it.seconds > all + LEAST_SECONDS;
            let Some(step) = hardest(&it.steps).filter(|_| has_stopped || it.has_hint) else { continue };
            let Some(step) = steps.get(step) else { continue };
            let n_hints = usize::from(it.has_hint);
            match found.iter_mut().find(|it| it.step == *step) {
                Some(known) => {
                    known.n_stopped += 1;
                    known.n_hints += n_hints;
                }
                None => found.push(Stop { step: *step, n_stopped: 1, n_hints, n_testers: solves.len() }),
            }
        }
    }
    found.sort_by_key(|it| it.step);
    found
}

/// The stumbling points of a walkthrough, in the order of its steps.
pub(crate) fn stumbles(setting: &Setting) -> Vec<Stumble> {
    let narrow = setting.account.estimate.narrow_places();
    let mut stumbles: Vec<Stumble> = narrow
        .into_iter()
        .map(|it| Stumble { step: it.step, why: format!("Hard to see: {}.", tell::wait(it)) })
        .collect();
    for it in &setting.stops {
        let why = stopped(it);
        match stumbles.iter_mut().find(|known| known.step == it.step) {
            Some(known) => known.why = format!("{} {why}", known.why),
            None => stumbles.push(Stumble { step: it.step, why }),
        }
    }
    stumbles.sort_by_key(|it| it.step);
    stumbles
}

/// `Two of three testers stopped here, one of them took a hint.`
fn stopped(it: &Stop) -> String {
    let testers = if it.n_testers == 1 {
        "The one tester".to_owned()
    } else {
        let stopped = tell::capital(&tell::count(it.n_stopped));
        format!("{stopped} of {} testers", tell::count(it.n_testers))
    };
    let hints = match it.n_hints {
        0 => String::new(),
        n if n == it.n_stopped => " and took a hint".to_owned(),
        n => format!(", {} with a hint", tell::count(n)),
    };
    format!("{testers} stopped here{hints}.")
}
