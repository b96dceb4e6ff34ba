//! Boards that were met before: each shows at once what many sets of premises cannot prove.

use grid::{Cell, Grid};

use super::held::{Held, HeldSet, members};
use super::premise::Goal;
use crate::View;

/// A set of goals, by their places in the list of all.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) struct GoalSet(Vec<u64>);

impl GoalSet {
    /// Those of `n` goals that `holds` says.
    pub(super) fn new(n: usize, holds: impl Fn(usize) -> bool) -> GoalSet {
        let mut set = GoalSet(vec![0; n.div_ceil(64)]);
        (0..n).filter(|it| holds(*it)).for_each(|it| set.0[it / 64] |= 1 << (it % 64));
        set
    }

    pub(super) fn is_empty(&self) -> bool {
        self.0.iter().all(|it| *it == 0)
    }

    pub(super) fn first(&self) -> Option<usize> {
        let (at, word) = self.0.iter().enumerate().find(|it| *it.1 != 0)?;
        Some(at * 64 + word.trailing_zeros() as usize)
    }

    pub(super) fn remove(&mut self, other: &GoalSet) {
        self.0.iter_mut().zip(&other.0).for_each(|(a, b)| *a &= !b);
    }

    pub(super) fn take(&mut self, goal: usize) {
        self.0[goal / 64] &= !(1 << (goal % 64));
    }
}

/// Full boards within the candidates, none of them the solution.
pub(super) struct Counterexamples<'a> {
    held: &'a [Held],
    goals: &'a [Goal],
    boards: Vec<Grid>,
    /// By board: the goals that are false on it.
    denied: Vec<GoalSet>,
    /// By house held, a set of boards: those that satisfy it.
    satisfy: Vec<Vec<u64>>,
}

impl<'a> Counterexamples<'a> {
    /// Those of the boards, met in an earlier position, that still say something.
    pub(super) fn new(
        view: &View,
        held: &'a [Held],
        goals: &'a [Goal],
        met: Vec<Grid>,
    ) -> Counterexamples<'a> {
        let satisfy = vec![Vec::new(); held.len()];
        let mut it = Counterexamples { held, goals, boards: Vec::new(), denied: Vec::new(), satisfy };
        let is_possible = |board: &Grid| {
            let mut cells = view.size().cells();
            cells.all(|cell| board.get(cell).is_some_and(|digit| view.candidates(cell).contains(digit)))
        };
        let denies_some = |board: &Grid| goals.iter().any(|it| it.is_denied_by(board));
        for board in met.into_iter().filter(|it| is_possible(it) && denies_some(it)) {
            it.add(board);
        }
        it
    }

    /// All boards, for the next position.
    pub(super) fn into_boards(self) -> Vec<Grid> {
        self.boards
    }

    /// Keeps a board. Gives the goals that it denies.
    pub(super) fn add(&mut self, board: Grid) -> &GoalSet {
        let at = self.denied.len();
        for (held, boards) in self.held.iter().zip(&mut self.satisfy) {
            boards.resize(at / 64 + 1, 0);
            boards[at / 64] |= u64::from(held.is_satisfied_by(&board)) << (at % 64);
        }
        self.denied.push(GoalSet::new(self.goals.len(), |it| self.goals[it].is_denied_by(&board)));
        self.boards.push(board);
        &self.denied[at]
    }

    /// The goals about an open cell of the set that no board denies while it satisfies the whole set.
    pub(super) fn open_about(&self, set: HeldSet) -> GoalSet {
        let touched = |cell: Cell| members(set).any(|it| self.held[it].open().contains(cell));
        let mut open = GoalSet::new(self.goals.len(), |it| touched(self.goals[it].cell));
        // The newest first: sets that follow each other have much in common.
        for word in (0..self.denied.len().div_ceil(64)).rev() {
            let mut boards = members(set).fold(u64::MAX, |all, it| all & self.satisfy[it][word]);
            while boards != 0 && !open.is_empty() {
                let at = 63 - boards.leading_zeros() as usize;
                boards &= !(1 << at);
                open.remove(&self.denied[word * 64 + at]);
            }
        }
        open
    }
}
