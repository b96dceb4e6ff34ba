//! The judgement of one conclusion.

use grid::{Cell, Digit, DigitSet};
use rulebook::{Claim, Puzzle};
use trail::{Cites, Trail};

use crate::Refusal;
use crate::page::Page;
use crate::problem::Problem;
use crate::search::{Outcome, search};

/// The most nodes that the search for one counterexample may visit.
///
/// A node is a state of the search: the first one, and one for each case tried after that.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct Cap(pub u64);

/// Judges conclusions about one puzzle. What has to be listed of its clues and facts is listed once.
#[derive(Debug)]
pub struct Judge<'a> {
    page: Page<'a>,
}

impl<'a> Judge<'a> {
    /// The judge of that puzzle.
    pub fn new(puzzle: &'a Puzzle) -> Judge<'a> {
        Judge { page: Page::new(puzzle) }
    }

    /// As [`judge()`].
    ///
    /// # Errors
    ///
    /// As there.
    pub fn judge(&self, trail: &Trail, claim: &Claim, cites: &Cites, cap: Cap) -> Result<u64, Refusal> {
        let problem = Problem::counter_to(&self.page, trail, claim, cites)?;
        match search(&problem, cap.0) {
            Outcome::Nothing { nodes } => Ok(nodes),
            Outcome::CapReached => Err(Refusal::CapReached),
            Outcome::Filling(filling) => {
                debug_assert!(
                    is_counterexample(self.page.puzzle, trail, claim, cites, &filling),
                    "{filling:?} is no counterexample to {claim:?} from {cites:?}",
                );
                Err(Refusal::Counterexample(filling))
            }
        }
    }
}

/// Whether `claim` follows from what it cites, and from nothing else; if so, how many nodes it took.
///
/// Cited houses hold each digit once, and so do the line of a cited clue and the house that the claim
/// or a cited fact is about. Cited clues and cited facts hold. `cites` must cite facts of `trail` only.
///
/// If what is cited contradicts itself, everything follows from it.
///
/// # Errors
///
/// If the claim does not follow ([`Refusal::Counterexample`]), if the cap is reached first, or if the
/// claim or a citation is not of this puzzle.
pub fn judge(puzzle: &Puzzle, trail: &Trail, claim: &Claim, cites: &Cites, cap: Cap) -> Result<u64, Refusal> {
    Judge::new(puzzle).judge(trail, claim, cites, cap)
}

/// Whether the filling agrees with everything cited and breaks the claim, by the definitions of the
/// rules and claims rather than by the ways the search computes with.
fn is_counterexample(
    puzzle: &Puzzle,
    trail: &Trail,
    claim: &Claim,
    cites: &Cites,
    filling: &[(Cell, Digit)],
) -> bool {
    let size = puzzle.size();
    let find = |cell| filling.binary_search_by_key(&cell, |it| it.0).ok().map(|at| filling[at].1);
    let digits = |house| -> Option<Vec<Digit>> { size.cells_of(house).into_iter().map(find).collect() };
    let holds =
        |claim: &Claim| claim.holds(size, |cell| find(cell).unwrap_or_else(|| unreachable!("{cell}")));
    let facts = || cites.facts.iter().map(|it| trail.fact(*it).claim());
    let clues = || cites.clues.iter().filter_map(|it| puzzle.clue(*it));
    let houses = cites.houses.iter().copied();
    let houses =
        houses.chain(clues().map(|it| it.line)).chain(facts().chain([*claim]).filter_map(|it| it.house()));

    houses
        .into_iter()
        .all(|house| digits(house).is_some_and(|it| it.into_iter().collect::<DigitSet>() == size.digits()))
        && clues().all(|it| digits(it.line).is_some_and(|digits| it.rule.allows(size, it.value, &digits)))
        && facts().all(|it| holds(&it))
        && !holds(claim)
}
