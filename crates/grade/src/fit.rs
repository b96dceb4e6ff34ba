//! The likeliest corrections: the highest point of the posterior (MAP).
//!
//! The directions come from `lbfgs` (limited-memory BFGS); along each, a step is halved until the cost falls
//! enough (L. Armijo, Pacific J. Math. 16, 1966, from memory). It begins at "nothing to correct" and takes at
//! most a fixed number of steps, so equal solves give equal fits.

use std::collections::BTreeMap;

use lbfgs::Lbfgs;
use libm::exp;
use trail::TechniqueId;

use crate::posterior::{OF_KINDS, OF_MODEL, Posterior};
use crate::priors::FEWEST_STEPS;
use crate::{Calibration, Pace, Solver, Timed, Wait};

/// More steps downhill than any fit needs: sixty solves of ten puzzles took 49 to 69.
const MOST_STEPS: usize = 500;

/// So flat is the bottom: the parameters are then within about a ten-thousandth of a spread of it, which no
/// thousandth of a ratio shows.
const FLAT: f64 = 1e-4;

/// The share of the promised fall that a step must bring: the usual small one.
const ENOUGH: f64 = 1e-4;

/// How many past steps the directions are made from; from 3 to 20 is common practice.
const MEMORY: usize = 12;

/// What a fit found.
pub(crate) struct Fit {
    /// The corrections.
    pub(crate) calibration: Calibration,
    /// Each person's ratio to their kind.
    pub(crate) people: BTreeMap<(String, usize), f64>,
}

/// Fits the model to the solves.
pub(crate) fn fit(solves: &[&Timed]) -> Fit {
    let n_steps = n_steps(solves);
    let enough = n_steps.iter().filter(|it| *it.1 >= FEWEST_STEPS).map(|it| *it.0);
    let posterior = Posterior::new(solves, enough);
    let lowest = lowest(&posterior);
    let value = |at: usize| posterior.value(&lowest, at);
    let [least, most] = Calibration::RATIOS;
    let ratio = |it: f64| exp(it).clamp(least, most);
    let mut paces = [Pace::default(); Solver::ALL.len()];
    for (at, pace) in paces.iter_mut().enumerate() {
        let n_solves = solves.iter().filter(|it| it.kind.place() == at).count();
        *pace = Pace { ratio: ratio(value(OF_MODEL) + value(OF_KINDS + at)), n_solves };
    }
    let wait =
        |(id, at): (&TechniqueId, &usize)| (*id, Wait { ratio: ratio(value(*at)), n_steps: n_steps[id] });
    let waits = posterior.techniques.iter().map(wait).collect();
    let calibration = Calibration::new(paces, waits);
    let calibration = calibration.unwrap_or_else(|it| unreachable!("clamped, and yet beyond: {it}"));
    let people = posterior.people.iter().map(|(who, at)| (who.clone(), exp(value(*at)))).collect();
    Fit { calibration, people }
}

/// How many steps of each technique the solves needed.
pub(crate) fn n_steps(solves: &[&Timed]) -> BTreeMap<TechniqueId, usize> {
    let mut n_steps = BTreeMap::new();
    let moments = solves.iter().flat_map(|it| &it.stretches).flat_map(|it| &it.moments);
    for it in moments {
        *n_steps.entry(it.technique).or_default() += 1;
    }
    n_steps
}

/// Goes downhill from nothing to correct.
fn lowest(posterior: &Posterior) -> Vec<f64> {
    let n = posterior.len();
    // Near the bottom the steps are short and still say how it curves.
    let mut directions = Lbfgs::new(n, MEMORY).with_sy_epsilon(f64::EPSILON);
    let (mut at, mut slope) = (vec![0.0; n], vec![0.0; n]);
    let mut cost = posterior.cost(&at, &mut slope);
    let mut next_slope = vec![0.0; n];
    for _ in 0..MOST_STEPS {
        if slope.iter().all(|it| it.abs() < FLAT) {
            break;
        }
        directions.update_hessian(&slope, &at);
        let mut uphill = slope.clone();
        directions.apply_hessian(&mut uphill);
        let promised: f64 = uphill.iter().zip(&slope).map(|(a, b)| a * b).sum();
        // Steps of up to one spread for all, at first; the directions have their own length once they are known.
        let longest = uphill.iter().fold(1.0_f64, |longest, it| longest.max(it.abs()));
        let mut length = 1.0 / longest;
        let stepped = loop {
            let next: Vec<f64> = at.iter().zip(&uphill).map(|(a, b)| a - length * b).collect();
            let next_cost = posterior.cost(&next, &mut next_slope);
            if next_cost <= cost - ENOUGH * length * promised {
                cost = next_cost;
                break Some(next);
            }
            length /= 2.0;
            if length < f64::EPSILON {
                break None;
            }
        };
        // Where no step is short enough to fall, rounding is all that is left.
        let Some(next) = stepped else { break };
        at = next;
        std::mem::swap(&mut slope, &mut next_slope);
    }
    at
}
