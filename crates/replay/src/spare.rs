//! Whether everything that a conclusion cites is needed.

use std::fmt;

use grid::House;
use rulebook::{Claim, ClueId, Puzzle};
use trail::{Cites, FactId, Trail};

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
    citations(cites).filter_map(move |cited| {
        match judge.judge(trail, claim, &cited.left_out_of(cites), cap) {
            Err(Refusal::Counterexample(_)) => None,
            Ok(_) => Some(Spare { cited, is_proved: true }),
            Err(_) => Some(Spare { cited, is_proved: false }),
        }
    })
}

impl Judge<'_> {
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
        citations(cites).fold(cites.clone(), |kept, cited| {
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

/// Everything cited, in the order in which it is tried: what comes late and takes most to see first.
pub fn citations(cites: &Cites) -> impl Iterator<Item = Cited> {
    let facts = cites.facts.iter().rev().map(|it| Cited::Fact(*it));
    let clues = cites.clues.iter().map(|it| Cited::Clue(*it));
    facts.chain(clues).chain(cites.houses.iter().map(|it| Cited::House(*it)))
}

/// Something cited that is not shown to be needed.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Spare {
    /// What is cited.
    pub cited: Cited,
    /// Whether the conclusion was proved without it; otherwise the search was not finished.
    pub is_proved: bool,
}

/// One thing of [`Cites`].
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Cited {
    /// A house.
    House(House),
    /// A clue.
    Clue(ClueId),
    /// A fact.
    Fact(FactId),
}

impl Cited {
    /// The citations without this one.
    #[must_use]
    pub fn left_out_of(self, cites: &Cites) -> Cites {
        let mut fewer = cites.clone();
        _ = match self {
            Cited::House(it) => fewer.houses.remove(&it),
            Cited::Clue(it) => fewer.clues.remove(&it),
            Cited::Fact(it) => fewer.facts.remove(&it),
        };
        fewer
    }
}

/// Names the citation for messages, in lower case; facts and clues by number.
impl fmt::Display for Cited {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Cited::House(it) => write!(f, "{it}"),
            Cited::Clue(it) => write!(f, "clue {}", it.index() + 1),
            Cited::Fact(it) => write!(f, "fact {}", it.index()),
        }
    }
}
