//! An argument made quickly, for walkthroughs that hold too many to be read.
//!
//! What is open is followed with everything known, first without cases, then with a few more each time. What is
//! seen to be impossible first is told, without the houses that are not missed. Nothing is searched for among few
//! houses, and what is known is cited whole.

use std::collections::BTreeSet;

use grid::House;

use super::cores::Core;
use super::encode::Prover;
use super::premise::{Goal, Premise};
use super::trace::n_cases;
use super::{Effort, Told, ground, told_from};
use crate::View;

/// Cases allowed to each goal before more are allowed to any.
const CASES: [usize; 5] = [1, 5, 25, 125, 625];

/// The first goal of those that take fewest cases, told. None if none is seen within the effort's cases at
/// worst, counted over all that is tried.
pub(super) fn quick(view: &View, prover: &mut Prover, goals: &[Goal], effort: Effort) -> Option<Told> {
    let all = prover.premises();
    let mut cases_left = effort.cases_at_worst;
    let mut goals = goals.to_vec();
    // What leaves least to suppose shows most.
    goals.sort_by_key(|it| view.candidates(it.cell).len());
    for cases in CASES {
        for goal in &goals {
            let cases = cases.min(cases_left);
            if cases == 0 {
                return None;
            }
            let n_cases = n_cases(view, *goal, &all, cases);
            cases_left -= n_cases.unwrap_or(cases);
            let told = n_cases.and_then(|_| {
                let core = few_houses(view, prover, *goal, cases);
                let patient = Effort { cases: effort.cases.max(cases), ..effort };
                told_from(view, &core, ground::all_cites(view, &core)?, patient)
            });
            if told.is_some() {
                return told;
            }
        }
    }
    None
}

/// The goal with premises of fewer houses, from which it still takes no more cases.
fn few_houses(view: &View, prover: &mut Prover, goal: Goal, cases: usize) -> Core {
    let is_seen = |premises: &Vec<Premise>| n_cases(view, goal, premises, cases).is_some();
    let all = prover.premises();
    let proving = prover.core(goal, &all).filter(is_seen);
    let mut premises = proving.unwrap_or(all);
    let houses: BTreeSet<House> = premises.iter().map(|it| it.house()).collect();
    for house in houses {
        let without: Vec<Premise> = premises.iter().copied().filter(|it| it.house() != house).collect();
        if is_seen(&without) {
            premises = without;
        }
    }
    Core { goal, premises }
}
