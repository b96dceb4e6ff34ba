//! The moment before a step: how it can be noticed, and what it then takes to carry it out.

use reason::{Known, Survey, technique};
use trail::{Argument, Branch, End, Trail};

use crate::Solver;
use crate::model::{ARGUMENT_CASE, ARGUMENT_LOOK, CARRY_OUT, HELD, LEAST_WAIT, NEAR};

/// A moment, for any solver.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Moment {
    /// How many steps a second a regular would notice if all were alone: those that every puzzle has, and those
    /// of the genre.
    rates: [f64; 2],
    /// Seconds that a regular takes to carry the step out.
    work: f64,
    /// How many known steps are open that are no harder than the one the walkthrough takes.
    pub(crate) open: usize,
}

impl Moment {
    /// The moment of one step of a walkthrough, for a solver who knows these techniques.
    pub(crate) fn of(survey: &Survey, trail: &Trail, known: Known) -> Moment {
        let carry_out = CARRY_OUT * survey.conclusions as f64;
        if let Argument::Cases { branches: cases, .. } = trail.step(survey.step).argument() {
            // The first conclusion is what is looked for; the others follow from the same view. It is
            // found by the same patience whatever the genre.
            let work = ARGUMENT_CASE * cases.first().map_or(0, size_of) as f64;
            return Moment { rates: [1.0 / ARGUMENT_LOOK, 0.0], work: work + carry_out, open: 0 };
        }
        let mut moment = Moment { rates: [0.0; 2], work: carry_out, open: 0 };
        for (id, places) in &survey.open {
            let Some(it) = technique(*id) else { continue };
            let is_taken = *id == survey.technique;
            // The walkthrough's own step is known, whatever was said: else it could never go on.
            if !known.has(*id) && !is_taken {
                continue;
            }
            let seconds = f64::from(it.weight());
            let mut rate = *places as f64 / seconds;
            if is_taken {
                let held = HELD * survey.held.saturating_sub(1) as f64;
                rate += NEAR[usize::from(survey.eye.min(2))] / (seconds + held) - 1.0 / seconds;
            }
            moment.rates[usize::from(it.rule().is_some())] += rate;
            moment.open += places;
        }
        moment
    }

    /// Seconds until something is noticed, beyond the least, on average.
    pub(crate) fn mean_wait(&self, solver: Solver) -> f64 {
        let rate: f64 = self.rates.iter().zip(solver.notices).map(|(a, b)| a * b).sum();
        // Where nothing at all is open the walkthrough does not go on, so there is a rate.
        1.0 / rate.max(f64::MIN_POSITIVE)
    }

    /// Seconds that do not depend on luck.
    pub(crate) fn sure(&self, solver: Solver) -> f64 {
        LEAST_WAIT + self.work * solver.hands
    }

    /// Seconds to carry the step out.
    pub(crate) fn work(&self, solver: Solver) -> f64 {
        self.work * solver.hands
    }
}

/// The number of cases and consequences of an argument.
fn size_of(branch: &Branch) -> usize {
    let inner = match &branch.end {
        End::Split(branches) => branches.iter().map(size_of).sum(),
        _ => 0,
    };
    1 + branch.chain.len() + inner
}
