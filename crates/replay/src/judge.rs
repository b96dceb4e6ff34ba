//! The judgement of one conclusion.

use std::cell::RefCell;
use std::collections::BTreeMap;

use rulebook::{Claim, Puzzle};
use trail::{Cites, Trail};

use crate::Refusal;
use crate::counterexample::Counterexample;
use crate::page::Page;
use crate::problem::{Problem, Scope};
use crate::search::{Outcome, search};

/// The most nodes that the search for one counterexample may visit.
///
/// A node is a state of the search: the first one, and one for each case tried after that.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct Cap(pub u64);

/// Judges conclusions about one puzzle. What has to be listed of its clues and facts is listed once.
///
/// It keeps the counterexamples that it finds: whether a filling is one to another question about the same claim is
/// seen at a glance, by the definitions of the rules and claims, and no search is needed then.
#[derive(Debug)]
pub struct Judge<'a> {
    page: Page<'a>,
    /// By the claim that they break.
    counterexamples: RefCell<BTreeMap<Claim, Vec<Counterexample>>>,
}

impl<'a> Judge<'a> {
    /// The judge of that puzzle.
    pub fn new(puzzle: &'a Puzzle) -> Judge<'a> {
        Judge { page: Page::new(puzzle), counterexamples: RefCell::default() }
    }

    /// The puzzle.
    pub(crate) fn puzzle(&self) -> &'a Puzzle {
        self.page.puzzle
    }

    /// As [`judge()`].
    ///
    /// # Errors
    ///
    /// As there.
    pub fn judge(&self, trail: &Trail, claim: &Claim, cites: &Cites, cap: Cap) -> Result<u64, Refusal> {
        let scope = Scope::new(&self.page, trail, claim, cites)?;
        let is_one = |it: &Counterexample| it.is_one(self.page.puzzle, trail, claim, cites);
        if let Some(found) = self.counterexamples.borrow().get(claim)
            && let Some(one) = found.iter().find(|it| cap.0 > 0 && is_one(it))
        {
            return Err(Refusal::Counterexample(one.filling.clone()));
        }
        let problem = Problem::counter_to(&self.page, trail, claim, cites, &scope);
        match search(&problem, cap.0) {
            Outcome::Nothing { nodes } => Ok(nodes),
            Outcome::CapReached => Err(Refusal::CapReached),
            Outcome::Filling(filling) => {
                let found = Counterexample::new(filling.clone());
                debug_assert!(is_one(&found), "{filling:?} is none to {claim:?} from {cites:?}");
                self.counterexamples.borrow_mut().entry(*claim).or_default().push(found);
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
