//! Whether some houses prove something: asked of the boards met before, then tried, and only then put to the solver.

use grid::Grid;

use super::cores::Core;
use super::counterexamples::{Counterexamples, GoalSet, Met};
use super::encode::{Answer, Prover};
use super::held::{self, Held, HeldSet, members};
use super::premise::{Goal, Premise};
use super::trial::{Trials, Tried};
use crate::View;

/// How many digits one trial may try where the solver answers what is left open.
const TRIES: usize = 300;

/// The same where a house is kept that is not seen to be spared.
const TRIES_TO_SPARE: usize = 100;

/// What can be asked about a position, and what was answered.
pub(super) struct Questions<'a> {
    pub(super) held: &'a [Held],
    pub(super) goals: &'a [Goal],
    pub(super) prover: Prover,
    trials: Trials<'a>,
    boards: Counterexamples<'a>,
    left: usize,
}

/// No question is left.
pub(super) struct NoneLeft;

impl<'a> Questions<'a> {
    /// `left` questions, with the boards that were met in earlier positions of the same solve.
    pub(super) fn new(
        view: &'a View,
        solution: &'a Grid,
        held: &'a [Held],
        goals: &'a [Goal],
        met: Met,
        left: usize,
    ) -> Questions<'a> {
        Questions {
            held,
            goals,
            prover: Prover::new(view, solution),
            trials: Trials::new(view, held, solution),
            boards: Counterexamples::new(view, held, goals, met),
            left,
        }
    }

    /// All boards, for the next position.
    pub(super) fn into_met(self) -> Met {
        self.boards.into_met()
    }

    /// Allows so many questions from here on.
    pub(super) fn allow(&mut self, left: usize) {
        self.left = left;
    }

    /// The goals about an open cell of the set that no board denies while it satisfies the whole set.
    pub(super) fn open_about(&mut self, set: HeldSet) -> GoalSet {
        self.boards.open_about(set)
    }

    /// Keeps a board. Takes the goals that it denies out of `open`.
    pub(super) fn keep(&mut self, board: Grid, open: &mut GoalSet) {
        self.boards.add(board, open);
    }

    /// Looks for a board on which the houses hold and the goal, which is about a cell of theirs, does not.
    pub(super) fn try_deny(&mut self, set: HeldSet, goal: usize) -> Result<Tried, NoneLeft> {
        self.trial(set, goal, TRIES)
    }

    fn trial(&mut self, set: HeldSet, goal: usize, tries: usize) -> Result<Tried, NoneLeft> {
        self.left = self.left.checked_sub(1).ok_or(NoneLeft)?;
        Ok(self.trials.try_deny(set, self.goals[goal], tries))
    }

    /// The same, asked of the solver, which says of what is proved what it was proved from.
    pub(super) fn ask(&mut self, set: HeldSet, goal: usize) -> Answer {
        let offered: Vec<Premise> =
            members(set).flat_map(|it| self.held[it].premises.iter().copied()).collect();
        self.prover.ask(self.goals[goal], &offered)
    }

    /// Whether the houses are seen to prove the goal. Where a trial is not enough, or none is left, they are not.
    pub(super) fn is_proved(&mut self, set: HeldSet, goal: usize) -> bool {
        if self.boards.is_denied(set, goal) {
            return false;
        }
        match self.trial(set, goal, TRIES_TO_SPARE) {
            Ok(Tried::Board(board)) => {
                self.boards.add(board, &mut GoalSet::none_of(self.goals.len()));
                false
            }
            Ok(Tried::NoBoard) => true,
            Ok(Tried::Undecided) | Err(NoneLeft) => false,
        }
    }

    /// Those of the houses that the solver used to prove the goal; none if they do not prove it.
    pub(super) fn used(&mut self, set: HeldSet, goal: usize) -> Option<HeldSet> {
        Some(held::holding(self.held, &self.core(set, goal)?.premises))
    }

    /// The goal with what the solver used of these houses to prove it.
    pub(super) fn core(&mut self, set: HeldSet, goal: usize) -> Option<Core> {
        match self.ask(set, goal) {
            Answer::Proved(premises) => Some(Core { goal: self.goals[goal], premises }),
            Answer::Counterexample(_) => None,
        }
    }
}
