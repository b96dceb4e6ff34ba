//! What a puzzle teaches: what each technique of its walkthrough is worth to a solver who knows the rest.

use reason::{Known, Settings, by_ease, solve};
use trail::TechniqueId;

use crate::puzzle::account;
use crate::{Account, Study};

/// What a technique is worth in a puzzle to somebody who knows all others by then.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Worth {
    /// There is no walkthrough without it.
    Needed,
    /// There is one, which takes a regular so many seconds longer.
    Saves(u64),
    /// There is one that takes no longer, or hardly.
    Avoidable,
}

/// What saves less than this, in seconds, saves nothing that anybody would notice.
const HARDLY: f64 = 30.0;

impl Study {
    /// What each technique of the walkthrough is worth that is asked about, easiest first. None while
    /// the puzzle is sealed, and if it has no walkthrough.
    ///
    /// "The rest" is what a solver is taken to know before this puzzle and what the walkthrough teaches beside; where
    /// nobody in particular is meant, every other technique. A last resort is not part of it ([`Known::in_place_of`]).
    pub fn worth(&self, is_asked: impl Fn(TechniqueId) -> bool) -> Option<Vec<(TechniqueId, Worth)>> {
        let opened = self.opened()?;
        let (own, solution) = opened.account.zip(opened.solution)?;
        let used = own.techniques();
        let by_then = match self.known() {
            Some(known) => used.iter().fold(known, |known, it| known.with(*it)),
            None => Known::ALL,
        };
        let worth = |id: TechniqueId| {
            let settings = Settings { known: by_then.in_place_of(id), ..Settings::TECHNIQUES_ALONE };
            let without = match solve(&self.entry().puzzle, solution, settings) {
                Ok(_) => {
                    account(self.entry(), solution, settings).ok().map(|it| it.calibrated(&self.calibration))
                }
                Err(_) => None,
            };
            without.map_or(Worth::Needed, |without| saves(own, &without))
        };
        let asked = by_ease(used.iter().copied().filter(|it| is_asked(*it)));
        Some(asked.into_iter().map(|it| (it, worth(it))).collect())
    }
}

/// What is saved by the walkthrough with a technique against the one without.
fn saves(with: &Account, without: &Account) -> Worth {
    let more = without.estimate.seconds() - with.estimate.seconds();
    match more >= HARDLY {
        true => Worth::Saves(more.round() as u64),
        false => Worth::Avoidable,
    }
}
