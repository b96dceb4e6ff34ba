//! Where a solver took longer than is expected.

use grade::{Progress, Timed};
use study::Account;

/// So many places of one solver are told.
pub(crate) const MOST_PLACES: usize = 6;

/// A stretch of a solve, and how many seconds a regular is expected to take for the same steps.
pub(crate) type Stop<'a> = (&'a Progress, f64);

/// The places where it took longest beyond what a regular is expected to take, those first; where it was quicker, it did not
/// stop.
pub(crate) fn stops<'a>(timed: &'a Timed, account: &Account) -> Vec<Stop<'a>> {
    let expected = |it: &Progress| -> f64 {
        it.steps.iter().filter_map(|at| account.estimate.steps.get(*at)).map(|it| it.wait + it.work).sum()
    };
    let mut stops: Vec<Stop> = timed.progress().iter().map(|it| (it, expected(it))).collect();
    stops.retain(|(it, expected)| it.seconds > *expected);
    stops.sort_by(|a, b| (b.0.seconds - b.1).total_cmp(&(a.0.seconds - a.1)));
    stops.truncate(MOST_PLACES);
    stops
}
