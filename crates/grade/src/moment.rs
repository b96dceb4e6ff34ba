//! The moment before a step: how it can be noticed, and what it then takes to carry it out.

use reason::{Known, Survey, technique};
use trail::{Argument, Branch, End, TechniqueId, Trail};

use crate::model::{ARGUMENT_CASE, ARGUMENT_LOOK, CARRY_OUT, HELD, LEAST_WAIT, NEAR};
use crate::{Calibration, Solver};

/// A moment, for any solver.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Moment {
    /// The technique of the step that the walkthrough takes.
    pub(crate) technique: TechniqueId,
    /// What may be noticed, easiest first.
    rates: Vec<Rate>,
    /// Seconds that a regular takes to carry the step out.
    work: f64,
    /// How many known steps are open that lead on and are no harder than the one the walkthrough takes.
    pub(crate) open: usize,
}

/// How often a second a regular would notice a technique's open steps, if they were alone.
#[derive(Clone, Copy, PartialEq, Debug)]
struct Rate {
    technique: TechniqueId,
    is_of_genre: bool,
    per_second: f64,
}

impl Moment {
    /// The moment of one step of a walkthrough, for a solver who knows these techniques.
    pub(crate) fn of(survey: &Survey, trail: &Trail, known: Known) -> Moment {
        let carry_out = CARRY_OUT * survey.conclusions as f64;
        let taken = survey.technique;
        if let Argument::Cases { branches: cases, .. } = trail.step(survey.step).argument() {
            // The first conclusion is what is looked for; the others follow from the same view. It is
            // found by the same patience whatever the genre.
            let work = ARGUMENT_CASE * cases.first().map_or(0, size_of) as f64;
            let rate = Rate { technique: taken, is_of_genre: false, per_second: 1.0 / ARGUMENT_LOOK };
            return Moment { technique: taken, rates: vec![rate], work: work + carry_out, open: 0 };
        }
        let followed = match trail.step(survey.step).argument() {
            Argument::Followed { branches } => branches.first().map_or(0, size_of),
            _ => 0,
        };
        let work = ARGUMENT_CASE * followed as f64 + carry_out;
        let mut moment = Moment { technique: taken, rates: Vec::new(), work, open: 0 };
        for (id, places) in &survey.open {
            let Some(it) = technique(*id) else { continue };
            let is_taken = *id == taken;
            // The walkthrough's own step is known, whatever was said: else it could never go on.
            if !known.has(*id) && !is_taken {
                continue;
            }
            let seconds = f64::from(it.weight());
            let mut per_second = *places as f64 / seconds;
            if is_taken {
                let held = HELD * survey.held.saturating_sub(1) as f64;
                per_second += NEAR[usize::from(survey.eye.min(2))] / (seconds + held) - 1.0 / seconds;
            }
            moment.rates.push(Rate { technique: *id, is_of_genre: it.rule().is_some(), per_second });
            moment.open += places;
        }
        moment
    }

    /// How often a second such a solver would notice each technique's open steps, by the model alone.
    pub(crate) fn rates(&self, solver: Solver) -> impl Iterator<Item = (TechniqueId, f64)> {
        let notices = move |it: &Rate| it.per_second * solver.notices[usize::from(it.is_of_genre)];
        self.rates.iter().map(move |it| (it.technique, notices(it)))
    }

    /// Seconds until something is noticed, beyond the least, on average; but for the solver's pace.
    pub(crate) fn mean_wait(&self, solver: Solver, calibration: &Calibration) -> f64 {
        let rate: f64 = self.rates(solver).map(|(id, it)| it / calibration.wait(id)).sum();
        // Where nothing at all is open the walkthrough does not go on, so there is a rate.
        1.0 / rate.max(f64::MIN_POSITIVE)
    }

    /// Seconds that do not depend on luck, but for the solver's pace.
    pub(crate) fn sure(&self, solver: Solver) -> f64 {
        LEAST_WAIT + self.work(solver)
    }

    /// Seconds to carry the step out, but for the solver's pace.
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
