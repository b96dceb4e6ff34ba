//! The walkthrough for somebody who knows some of the techniques, and learns as few others from it as will do.

use grid::Grid;
use pack::Entry;
use reason::{Known, Settings, Stopped, TECHNIQUES, solve};
use rulebook::Puzzle;
use trail::TechniqueId;

use crate::Account;
use crate::puzzle::account;

/// The walkthrough with what is known alone, where that is enough; else with as little more as will do; and if all
/// techniques are not enough, with all of them and small arguments.
///
/// # Errors
///
/// As for [`reason::explain()`].
pub(crate) fn account_for(entry: &Entry, solution: &Grid, known: Known) -> Result<Account, Stopped> {
    let settings = match with_few_more(&entry.puzzle, solution, known) {
        Some(known) => Settings { known, ..Settings::TECHNIQUES_ALONE },
        None => Settings::THOROUGH,
    };
    account(entry, solution, settings)
}

/// What is known, and as few others as will do, none of which can be spared: one if it is no harder than several would
/// be together, else the easiest. None if all techniques are not enough.
fn with_few_more(puzzle: &Puzzle, solution: &Grid, known: Known) -> Option<Known> {
    let is_enough = |known| {
        let settings = Settings { known, ..Settings::TECHNIQUES_ALONE };
        solve(puzzle, solution, settings).is_ok()
    };
    if known == Known::ALL || !is_enough(Known::ALL) {
        return is_enough(Known::ALL).then_some(Known::ALL);
    }
    if is_enough(known) {
        return Some(known);
    }
    let unknown: Vec<TechniqueId> =
        TECHNIQUES.iter().map(|it| it.id()).filter(|it| !known.has(*it)).collect();
    let with = |ids: &[TechniqueId]| ids.iter().fold(known, |known, it| known.with(*it));
    // Knowing more never makes a puzzle harder to finish, so the hardest that is needed is found by halving.
    let places: Vec<usize> = (0..unknown.len()).collect();
    let rest = places.partition_point(|at| !is_enough(with(&unknown[..=*at])));
    let mut learnt = unknown[..=rest].to_vec();
    for id in learnt.clone().into_iter().rev() {
        let without: Vec<TechniqueId> = learnt.iter().copied().filter(|it| *it != id).collect();
        if is_enough(with(&without)) {
            learnt = without;
        }
    }
    if learnt.len() > 1 {
        let weight = |id: &TechniqueId| reason::technique(*id).map_or(0, |it| it.weight());
        let together: u32 = learnt.iter().map(weight).sum();
        // An easier one alone would have been enough with all that are easier still.
        let harder = unknown[rest..].iter().take_while(|it| weight(it) <= together);
        if let Some(one) = harder.copied().find(|it| is_enough(known.with(*it))) {
            return Some(known.with(one));
        }
    }
    Some(with(&learnt))
}
