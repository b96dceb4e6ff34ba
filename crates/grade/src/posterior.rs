//! How well a set of corrections goes with the solves: minus the logarithm of their probability, and its slope.
//!
//! The model, a hierarchy of normal distributions of logarithms of time (so effects multiply):
//!
//! - a stretch of steps takes `exp(pace) × (sure seconds + the sum of the waits)`; each wait is exponential with the
//!   mean that `Moment` gives, each technique's rate divided by its own correction;
//! - the pace adds up from the model, the kind of solver, the person and the day, each drawn around 0 with the spread
//!   that `priors` (a day: `Solver::spread`) says; the logarithm of solving time is linear in such effects (R. Pelánek,
//!   P. Jarušek 2015, doi 10.1007/s40593-015-0048-x);
//! - techniques' corrections are drawn around 0 likewise. So what little is known moves little: each figure shrinks
//!   to the default by as much as its data are few.
//!
//! The sum of the waits is taken for log-normal with the same mean and variance (L. Fenton, "The sum of log-normal
//! probability distributions in scatter transmission systems", IRE Trans. Comm. Syst. 8, 1960, does so; from
//! memory). Its middle and spread are worked out once, before anything is corrected. The logarithm of the stretch is
//! then taken to follow Student's t around it, so that a stretch that is far off is not believed.

use std::collections::BTreeMap;

use libm::{exp, log, log1p};
use trail::TechniqueId;

use crate::priors::{FREEDOM, KIND, MODEL, OTHER_WAY, PERSON, TECHNIQUE};
use crate::timed::Stretch;
use crate::{Calibration, Solver, Timed};

/// No stretch is shorter: a log counts hardly finer, and writing takes so long.
const SHORTEST: f64 = 1.0;

/// The solves, ready to be fitted.
pub(crate) struct Posterior {
    /// The spread of each parameter; the parameters themselves are counted in spreads.
    spreads: Vec<f64>,
    stretches: Vec<Term>,
    /// Where each person's parameter is.
    pub(crate) people: BTreeMap<(String, usize), usize>,
    /// Where each technique's parameter is.
    pub(crate) techniques: BTreeMap<TechniqueId, usize>,
}

/// Where the parameter of the whole model is, and that of the first kind.
pub(crate) const OF_MODEL: usize = 0;
pub(crate) const OF_KINDS: usize = 1;

/// A stretch in numbers.
struct Term {
    /// The logarithm of its seconds, less that by which the middle of the sum lies below its mean.
    log_seconds: f64,
    /// The square of its spread.
    variance: f64,
    sure: f64,
    /// For each wait, the rates by technique: where its parameter is, none if it keeps to the default.
    waits: Vec<Vec<(Option<usize>, f64)>>,
    /// The parameters that add up to its pace.
    pace: [usize; 4],
}

impl Posterior {
    /// Of those solves, with a parameter for each of these techniques.
    pub(crate) fn new(solves: &[&Timed], techniques: impl Iterator<Item = TechniqueId>) -> Posterior {
        let mut spreads = vec![MODEL];
        spreads.extend([KIND; Solver::ALL.len()]);
        let mut it = Posterior {
            spreads,
            stretches: Vec::new(),
            people: BTreeMap::new(),
            techniques: BTreeMap::new(),
        };
        for id in techniques {
            let at = it.parameter(TECHNIQUE);
            it.techniques.insert(id, at);
        }
        for solve in solves {
            let kind = solve.kind.place();
            let key = (solve.solver.clone(), kind);
            let person = match it.people.get(&key) {
                Some(person) => *person,
                None => it.parameter(PERSON),
            };
            it.people.insert(key, person);
            let day = it.parameter(solve.kind.spread);
            let pace = [OF_MODEL, OF_KINDS + kind, person, day];
            let terms = solve.stretches.iter().map(|stretch| it.term(stretch, solve.kind, pace));
            let terms: Vec<Term> = terms.collect();
            it.stretches.extend(terms);
        }
        it
    }

    fn parameter(&mut self, spread: f64) -> usize {
        self.spreads.push(spread);
        self.spreads.len() - 1
    }

    fn term(&self, stretch: &Stretch, kind: Solver, pace: [usize; 4]) -> Term {
        let sure = stretch.moments.iter().map(|it| it.sure(kind)).sum();
        let (mut mean, mut squares) = (sure, 0.0);
        for it in &stretch.moments {
            let wait = it.mean_wait(kind, &Calibration::default());
            mean += wait;
            squares += wait * wait;
        }
        let luck = log1p(squares / (mean * mean));
        let parameter = |id: TechniqueId| self.techniques.get(&id).copied();
        let waits = stretch.moments.iter().map(|it| it.rates(kind).map(|(id, rate)| (parameter(id), rate)));
        Term {
            log_seconds: log(stretch.seconds.max(SHORTEST)) + luck / 2.0,
            variance: luck + OTHER_WAY * OTHER_WAY,
            sure,
            waits: waits.map(Iterator::collect).collect(),
            pace,
        }
    }

    /// How many parameters there are.
    pub(crate) fn len(&self) -> usize {
        self.spreads.len()
    }

    /// The correction, as a logarithm, that a parameter stands for.
    pub(crate) fn value(&self, parameters: &[f64], at: usize) -> f64 {
        parameters[at] * self.spreads[at]
    }

    /// What is to be as small as can be, and its slope along each parameter.
    pub(crate) fn cost(&self, parameters: &[f64], slope: &mut [f64]) -> f64 {
        let values: Vec<f64> = (0..self.len()).map(|at| self.value(parameters, at)).collect();
        let quicker: Vec<f64> = values.iter().map(|it| exp(-it)).collect();
        slope.fill(0.0);
        let mut cost = 0.0;
        for term in &self.stretches {
            let waits: Vec<f64> = term.waits.iter().map(|rates| 1.0 / rate(rates, &quicker)).collect();
            let mean = term.sure + waits.iter().sum::<f64>();
            let pace: f64 = term.pace.iter().map(|it| values[*it]).sum();
            let off = term.log_seconds - pace - log(mean);
            let scale = FREEDOM * term.variance;
            cost += (FREEDOM + 1.0) / 2.0 * log1p(off * off / scale);
            let pull = (FREEDOM + 1.0) * off / (scale + off * off);
            for at in term.pace {
                slope[at] -= pull;
            }
            for (rates, wait) in term.waits.iter().zip(&waits) {
                for (at, rate) in rates.iter().filter_map(|(at, rate)| Some(((*at)?, rate))) {
                    slope[at] -= pull / mean * wait * wait * rate * quicker[at];
                }
            }
        }
        for (at, it) in parameters.iter().enumerate() {
            cost += it * it / 2.0;
            slope[at] = slope[at] * self.spreads[at] + it;
        }
        cost
    }
}

/// How often a second anything is noticed.
fn rate(rates: &[(Option<usize>, f64)], quicker: &[f64]) -> f64 {
    let rate: f64 = rates.iter().map(|(at, rate)| rate * at.map_or(1.0, |at| quicker[at])).sum();
    rate.max(f64::MIN_POSITIVE)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The slope is the one that small differences of the cost show.
    #[test]
    fn the_slope_is_the_slope() {
        let (a, b) = (Some(4), Some(5));
        let term = |seconds: f64, person| Term {
            log_seconds: log(seconds),
            variance: 0.5,
            sure: 7.0,
            waits: vec![vec![(a, 0.1), (None, 0.02)], vec![(b, 0.05), (a, 0.2)]],
            pace: [OF_MODEL, OF_KINDS + 1, person, person + 1],
        };
        let it = Posterior {
            spreads: vec![0.5, 0.3, 0.3, 0.3, 0.5, 0.5, 0.35, 0.25, 0.35],
            stretches: vec![term(30.0, 6), term(200.0, 7), term(4.0, 6)],
            people: BTreeMap::new(),
            techniques: BTreeMap::new(),
        };
        let at: Vec<f64> = (0..it.len()).map(|at| 0.3 - 0.1 * at as f64).collect();
        let (mut slope, mut unused) = (vec![0.0; it.len()], vec![0.0; it.len()]);
        it.cost(&at, &mut slope);
        for along in 0..it.len() {
            let mut cost = |by: f64| {
                let mut near = at.clone();
                near[along] += by;
                it.cost(&near, &mut unused)
            };
            let difference = (cost(1e-5) - cost(-1e-5)) / 2e-5;
            assert!((difference - slope[along]).abs() < 1e-7, "{along}: {difference} {}", slope[along]);
        }
    }
}
