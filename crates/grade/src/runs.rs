//! Many solves in thought: how long they take.

use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use rand_distr::{Exp1, LogNormal};

use crate::model::RUNS;
use crate::moment::Moment;
use crate::{Calibration, Solver};

/// How long a solver takes: seconds, over many solves.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Times {
    /// One solve in ten is quicker.
    pub tenth: f64,
    /// Half of them are quicker.
    pub median: f64,
    /// Nine in ten are quicker.
    pub ninetieth: f64,
}

/// Runs through the moments again and again. All puzzles meet the same luck, so that one is not called harder than
/// another by chance.
pub(crate) fn times(moments: &[Moment], solver: Solver, calibration: &Calibration) -> Times {
    let mut luck = ChaCha8Rng::seed_from_u64(1);
    let sure: f64 = moments.iter().map(|it| it.sure(solver)).sum();
    let days = LogNormal::new(0.0, solver.spread).unwrap_or_else(|it| unreachable!("a spread below 0: {it}"));
    let pace = calibration.pace(solver);
    let mean_waits: Vec<f64> = moments.iter().map(|it| it.mean_wait(solver, calibration)).collect();
    let mut seconds: Vec<f64> = (0..RUNS)
        .map(|_| {
            let day: f64 = luck.sample(days);
            let waits = mean_waits.iter().map(|it| it * luck.sample::<f64, _>(Exp1));
            (sure + waits.sum::<f64>()) * day * pace
        })
        .collect();
    seconds.sort_by(f64::total_cmp);
    let at = |percent: usize| seconds[(RUNS - 1) * percent / 100];
    Times { tenth: at(10), median: at(50), ninetieth: at(90) }
}
