//! Why is that so? The shortest proof found for one claim, back to the page.
//!
//! Two places are looked at: the walkthrough, cut down to what the claim needs, and a search for that
//! claim alone, which need not be easy for the rest of the board.

use grid::{Grid, House};
use replay::{Checked, Refusal};
use rulebook::{Claim, Puzzle};
use trail::{FactId, Trail};

use crate::explain::is_true;
use crate::proof::{Proof, Reach, best_in, search, seen_in};
use crate::trim::Trimmer;
use crate::{Settings, View, order};

/// A puzzle with its only solution and a walkthrough that leads there.
#[derive(Clone, Copy, Debug)]
pub struct Solved<'a> {
    /// The puzzle.
    pub puzzle: &'a Puzzle,
    /// Its only solution.
    pub solution: &'a Grid,
    /// The facts and steps of a complete walkthrough.
    pub walkthrough: &'a Trail,
}

/// The reason for a claim: a proof in which every step is needed, and which has passed `replay`.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Why {
    /// What was asked.
    pub goal: Claim,
    /// The fact that settles it: the goal itself, or one that leaves nothing else. A digit that a cell
    /// sees is no fact about that cell, so it is the seen digit that answers for it.
    pub by: Claim,
    /// The house in which the goal's cell sees the digit of `by`, if that is how `by` settles it.
    pub seen_in: Option<House>,
    /// The steps that lead to `by`; none if that is on the page.
    pub proof: Checked,
}

impl Why {
    /// The facts and steps.
    pub fn trail(&self) -> &Trail {
        self.proof.walkthrough().trail()
    }
}

/// Why there is no answer.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Unanswered {
    /// The solution says otherwise.
    Untrue,
    /// The walkthrough does not lead there, so it is not complete; or a claim to be judged is not about a
    /// cell.
    NotReached,
    /// A step was refused by `replay`: a fault of its technique.
    Refused(FactId, Refusal),
}

/// The shortest proof found for a claim about one cell: the fewest steps, then the least weight.
///
/// Small arguments are made anew only where the walkthrough needs one for the claim.
///
/// # Errors
///
/// If the claim is not true, or the walkthrough does not get there.
pub fn why(solved: Solved<'_>, goal: Claim, settings: Settings) -> Result<Why, Unanswered> {
    let Solved { puzzle, solution, walkthrough } = solved;
    if !is_true(puzzle.size(), solution, &goal) {
        return Err(Unanswered::Untrue);
    }
    let told = best_in(puzzle.size(), walkthrough, goal).ok_or(Unanswered::NotReached)?;
    let argue = told.argues().then_some(solution);
    let reach = Reach { settings, most: told.trail.n_steps(), argue };
    let alone = search(View::new(puzzle), goal, reach);
    // Of equals the walkthrough's counts, whose steps the reader may have met.
    let shortest = [Some(told), alone].into_iter().flatten().min_by_key(Proof::length);
    checked(puzzle, goal, shortest.ok_or(Unanswered::NotReached)?, settings)
}

/// The proof in the order in which it is told, replayed.
pub(crate) fn checked(
    puzzle: &Puzzle,
    goal: Claim,
    proof: Proof,
    settings: Settings,
) -> Result<Why, Unanswered> {
    let Proof { trail, by } = proof;
    let seen_in = seen_in(puzzle.size(), by, goal);
    // What the search found cites what it saw. A step that a technique misbuilt is none; `explain` reports such faults.
    let page = View::new(puzzle);
    let trimmed = Trimmer::new(&page, settings.cap).trimmed(&trail);
    let trimmed = trimmed.map_err(|_| Unanswered::NotReached)?;
    let goals: Vec<FactId> = trimmed.facts().filter(|it| it.1.claim() == by).map(|it| it.0).collect();
    let told = order::arrange(puzzle.size(), trimmed.needed_for(goals));
    let proof = replay::replay(puzzle, told, settings.cap)
        .map_err(|(fact, refusal)| Unanswered::Refused(fact, refusal))?;
    Ok(Why { goal, by, seen_in, proof })
}
