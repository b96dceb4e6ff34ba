//! Whether everything that a conclusion cites is needed: [`replay()`](crate::replay()) accepts no premise to spare.

use rulebook::{Claim, Puzzle};
use trail::{Cited, Cites, Trail};

use crate::{Cap, Judge, Refusal};

/// Everything cited that is not shown to be needed, each thing by itself.
///
/// A citation is needed if there is a counterexample to the claim without it. Facts are tried first,
/// the latest before earlier ones, then clues, then houses. A cited clue, and a cited fact about a
/// house, bring the classic rule of their line with them, so citing that house beside them is to
/// spare.
///
/// `claim` must follow from `cites` (see [`judge()`](crate::judge())) for the answer to mean anything. Two things that
/// can be spared cannot always be spared together: see [`without_spare`].
pub fn spares(
    puzzle: &Puzzle,
    trail: &Trail,
    claim: &Claim,
    cites: &Cites,
    cap: Cap,
) -> impl Iterator<Item = Spare> {
    let judge = Judge::new(puzzle);
    cites.each().filter_map(move |cited| judge.spare(trail, claim, cites, cited, cap))
}

impl Judge<'_> {
    /// As [`spares`].
    pub(crate) fn spares(
        &self,
        trail: &Trail,
        claim: &Claim,
        cites: &Cites,
        cap: Cap,
    ) -> impl Iterator<Item = Spare> {
        cites.each().filter_map(move |cited| self.spare(trail, claim, cites, cited, cap))
    }

    fn spare(&self, trail: &Trail, claim: &Claim, cites: &Cites, cited: Cited, cap: Cap) -> Option<Spare> {
        match self.judge(trail, claim, &cited.left_out_of(cites), cap) {
            Err(Refusal::Counterexample(_)) => None,
            Ok(_) => Some(Spare { cited, is_proved: true }),
            Err(_) => Some(Spare { cited, is_proved: false }),
        }
    }

    /// As [`without_spare`].
    #[must_use]
    pub fn without_spare(
        &self,
        trail: &Trail,
        claim: &Claim,
        cites: &Cites,
        cap: Cap,
        may_go: impl Fn(Cited, &Cites) -> bool,
    ) -> Cites {
        // Fewer citations prove less, so what was needed once is still needed later: one pass is enough.
        cites.each().fold(cites.clone(), |kept, cited| {
            let fewer = cited.left_out_of(&kept);
            match self.judge(trail, claim, &fewer, cap) {
                Ok(_) if may_go(cited, &fewer) => fewer,
                _ => kept,
            }
        })
    }
}

/// The same citations without those that can be spared and that `may_go` (given what would be left),
/// dropped one after the other in the order of [`spares`]. What is not decided within the cap stays.
#[must_use]
pub fn without_spare(
    puzzle: &Puzzle,
    trail: &Trail,
    claim: &Claim,
    cites: &Cites,
    cap: Cap,
    may_go: impl Fn(Cited, &Cites) -> bool,
) -> Cites {
    Judge::new(puzzle).without_spare(trail, claim, cites, cap, may_go)
}

/// Something cited that is not shown to be needed.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Spare {
    /// What is cited.
    pub cited: Cited,
    /// Whether the conclusion was proved without it; otherwise the search was not finished.
    pub is_proved: bool,
}
