//! What logged solves have taught about the model: how much longer or shorter people take than it says.

use std::collections::BTreeMap;

use trail::TechniqueId;

use crate::Solver;

/// Corrections of the model, each a ratio of times: 1.2 is a fifth longer than the model says.
///
/// `Default` corrects nothing and rests on no solve: what is estimated with it is an estimate.
/// Invariant: every ratio lies within [`Calibration::RATIOS`] and is a whole number of thousandths, so that it is
/// written and read back as it is.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Calibration {
    paces: [Pace; 3],
    waits: BTreeMap<TechniqueId, Wait>,
}

/// How long a kind of solver takes, compared with the model.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Pace {
    /// The ratio of all their times.
    pub ratio: f64,
    /// On how many solves by such solvers it rests. With none it is what the other kinds taught.
    pub n_solves: usize,
}

impl Default for Pace {
    fn default() -> Pace {
        Pace { ratio: 1.0, n_solves: 0 }
    }
}

/// How long it takes until a technique is noticed, compared with the model.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Wait {
    /// The ratio of the waits.
    pub ratio: f64,
    /// On how many of its steps it rests.
    pub n_steps: usize,
}

impl Calibration {
    /// The least and the largest ratio. Beyond a factor of twenty it is the model or the log that is wrong.
    pub const RATIOS: [f64; 2] = [0.05, 20.0];

    /// The calibration with those paces, for each of [`Solver::ALL`], and those waits. Ratios are rounded to
    /// thousandths.
    ///
    /// # Errors
    ///
    /// The first ratio that is not within [`Calibration::RATIOS`].
    pub fn new(mut paces: [Pace; 3], mut waits: BTreeMap<TechniqueId, Wait>) -> Result<Calibration, f64> {
        let ratios = paces.iter_mut().map(|it| &mut it.ratio);
        for ratio in ratios.chain(waits.values_mut().map(|it| &mut it.ratio)) {
            let [least, most] = Calibration::RATIOS;
            if !(least..=most).contains(ratio) {
                return Err(*ratio);
            }
            *ratio = (*ratio * 1000.0).round() / 1000.0;
        }
        Ok(Calibration { paces, waits })
    }

    /// On how many solves it rests; on none if it corrects nothing.
    pub fn n_solves(&self) -> usize {
        self.n_solves_by().iter().sum()
    }

    /// How many of them were solved by each of [`Solver::ALL`].
    pub fn n_solves_by(&self) -> [usize; 3] {
        self.paces.map(|it| it.n_solves)
    }

    /// Each kind of solver, and how long it takes.
    pub fn paces(&self) -> impl Iterator<Item = (Solver, Pace)> {
        Solver::ALL.into_iter().zip(self.paces)
    }

    /// Each technique that solves were seen to need, and how long it takes until it is noticed.
    pub fn waits(&self) -> impl Iterator<Item = (TechniqueId, Wait)> {
        self.waits.iter().map(|(id, it)| (*id, *it))
    }

    /// The ratio of all times of a kind of solver.
    pub(crate) fn pace(&self, solver: Solver) -> f64 {
        self.paces[solver.place()].ratio
    }

    /// The ratio of a technique's wait.
    pub(crate) fn wait(&self, id: TechniqueId) -> f64 {
        self.waits.get(&id).map_or(1.0, |it| it.ratio)
    }
}
