//! Boards that were met before: each shows at once what many sets of premises cannot prove.
//!
//! Sets of houses are looked at by the ten thousand and boards are as many, so what the boards say is kept
//! in words of 64 boards, a bit a board: one look at a word asks all of them. And what denied a goal for one
//! set mostly denies it for the next.

use std::collections::BTreeSet;

use grid::{Cell, Digit, Grid, Size};

use super::held::{Held, HeldSet, members};
use super::premise::{Goal, Premise};
use crate::View;

/// A set of goals, by their places in the list of all.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) struct GoalSet(Vec<u64>);

impl GoalSet {
    /// None of `n` goals.
    pub(super) fn none_of(n: usize) -> GoalSet {
        GoalSet(vec![0; n.div_ceil(64)])
    }

    pub(super) fn first(&self) -> Option<usize> {
        let (at, word) = self.0.iter().enumerate().find(|it| *it.1 != 0)?;
        Some(at * 64 + word.trailing_zeros() as usize)
    }

    pub(super) fn take(&mut self, goal: usize) {
        self.0[goal / 64] &= !(1 << (goal % 64));
    }

    fn insert(&mut self, goal: usize) {
        self.0[goal / 64] |= 1 << (goal % 64);
    }

    fn extend(&mut self, other: &GoalSet) {
        self.0.iter_mut().zip(&other.0).for_each(|(a, b)| *a |= b);
    }

    /// Takes out those that `goes` says.
    fn take_if(&mut self, mut goes: impl FnMut(usize) -> bool) {
        for (at, word) in self.0.iter_mut().enumerate() {
            let mut left = *word;
            while left != 0 {
                let bit = left.trailing_zeros();
                left &= left - 1;
                *word &= !(u64::from(goes(at * 64 + bit as usize)) << bit);
            }
        }
    }
}

/// The boards of one solve, handed on from each position to the next.
#[derive(Default, Debug)]
pub(super) struct Met {
    boards: Vec<Board>,
    /// The premises that the boards were held against.
    premises: BTreeSet<Premise>,
}

/// A full board that is not the solution.
#[derive(Debug)]
struct Board {
    grid: Grid,
    /// Whether it satisfies what is held of a house, a bit a house by [`Size::house_index`].
    satisfies: u64,
}

/// Full boards within the candidates, none of them the solution.
pub(super) struct Counterexamples<'a> {
    view: &'a View<'a>,
    held: &'a [Held],
    /// By house held: the goals about its open cells.
    about: Vec<GoalSet>,
    /// By cell and digit: the goals that are false where the cell holds the digit.
    denied_by: Vec<Vec<usize>>,
    met: Met,
    /// By house held, a set of boards: those that satisfy it.
    satisfy: Vec<Vec<u64>>,
    /// By goal, a set of boards: those on which it is false.
    deny: Vec<Vec<u64>>,
    /// By goal: the word of boards that denied it last.
    denied_in: Vec<usize>,
    /// The boards that satisfy the set of houses looked at.
    satisfying: Vec<u64>,
}

impl<'a> Counterexamples<'a> {
    /// Those of the boards, met in earlier positions of the same solve, that still say something.
    pub(super) fn new(
        view: &'a View<'a>,
        held: &'a [Held],
        goals: &'a [Goal],
        met: Met,
    ) -> Counterexamples<'a> {
        let mut denied_by = vec![Vec::new(); Cell::SLOTS * 16];
        let mut about = vec![GoalSet::none_of(goals.len()); held.len()];
        for (at, goal) in goals.iter().enumerate() {
            goal.denied.iter().for_each(|digit| denied_by[place(goal.cell, digit)].push(at));
            let touches = held.iter().zip(&mut about).filter(|it| it.0.open().contains(goal.cell));
            touches.for_each(|it| it.1.insert(at));
        }
        let mut it = Counterexamples {
            view,
            held,
            about,
            denied_by,
            met: Met::default(),
            satisfy: vec![Vec::new(); held.len()],
            deny: vec![Vec::new(); goals.len()],
            denied_in: vec![0; goals.len()],
            satisfying: Vec::new(),
        };
        it.met.premises = held.iter().flat_map(|it| it.premises.iter().copied()).collect();
        let fresh: Vec<Premise> = it.met.premises.difference(&met.premises).copied().collect();
        for mut board in met.boards {
            if it.is_possible(&board.grid) {
                board.satisfies &= !it.broken(&board.grid, fresh.iter());
                it.file(board);
            }
        }
        it
    }

    /// All boards, for the next position.
    pub(super) fn into_met(self) -> Met {
        self.met
    }

    /// Keeps a board. Takes the goals that it denies out of `open`.
    pub(super) fn add(&mut self, grid: Grid, open: &mut GoalSet) {
        let satisfies = !self.broken(&grid, self.held.iter().flat_map(|it| &it.premises));
        self.denied_on(&grid).for_each(|it| open.take(it));
        self.file(Board { grid, satisfies });
    }

    /// The goals about an open cell of the set that no board denies while it satisfies the whole set.
    pub(super) fn open_about(&mut self, set: HeldSet) -> GoalSet {
        let mut open = GoalSet::none_of(self.deny.len());
        self.satisfying.clear();
        self.satisfying.resize(self.met.boards.len().div_ceil(64), u64::MAX);
        for it in members(set) {
            open.extend(&self.about[it]);
            self.satisfying.iter_mut().zip(&self.satisfy[it]).for_each(|(all, it)| *all &= it);
        }
        let Counterexamples { satisfying, deny, denied_in, .. } = self;
        open.take_if(|goal| {
            let denied = |word: usize| satisfying[word] & deny[goal][word] != 0;
            if satisfying.is_empty() || denied(denied_in[goal]) {
                return !satisfying.is_empty();
            }
            // The newest first: sets that follow each other have much in common.
            let word = (0..satisfying.len()).rev().find(|it| denied(*it));
            denied_in[goal] = word.unwrap_or(denied_in[goal]);
            word.is_some()
        });
        open
    }

    /// Whether some board denies the goal while it satisfies the whole set.
    pub(super) fn is_denied(&self, set: HeldSet, goal: usize) -> bool {
        self.deny[goal]
            .iter()
            .enumerate()
            .any(|(word, deny)| members(set).fold(*deny, |all, it| all & self.satisfy[it][word]) != 0)
    }

    /// Whether each cell can hold what it holds on the board.
    fn is_possible(&self, grid: &Grid) -> bool {
        let mut cells = self.view.size().cells();
        cells.all(|cell| grid.get(cell).is_some_and(|it| self.view.candidates(cell).contains(it)))
    }

    /// The houses of which the board breaks one of the premises, a bit a house.
    fn broken<'p>(&self, grid: &Grid, premises: impl Iterator<Item = &'p Premise>) -> u64 {
        let size = self.view.size();
        let broken = premises.filter(|it| !it.is_satisfied_by(self.view.puzzle(), grid));
        broken.fold(0, |all, it| all | house_bit(size, it))
    }

    fn denied_on(&self, grid: &Grid) -> impl Iterator<Item = usize> {
        grid.filled().flat_map(|(cell, digit)| self.denied_by[place(cell, digit)].iter().copied())
    }

    /// Puts a board to the others, if it denies something.
    fn file(&mut self, board: Board) {
        let denied: Vec<usize> = self.denied_on(&board.grid).collect();
        if denied.is_empty() {
            return;
        }
        let at = self.met.boards.len();
        if at.is_multiple_of(64) {
            self.satisfy.iter_mut().chain(&mut self.deny).for_each(|it| it.push(0));
        }
        for (held, boards) in self.held.iter().zip(&mut self.satisfy) {
            let is_satisfied = board.satisfies & held.bit(self.view.size()) != 0;
            boards[at / 64] |= u64::from(is_satisfied) << (at % 64);
        }
        denied.into_iter().for_each(|it| self.deny[it][at / 64] |= 1 << (at % 64));
        self.met.boards.push(board);
    }
}

/// The place of a cell with a digit in a list of all.
fn place(cell: Cell, digit: Digit) -> usize {
    cell.slot() * 16 + usize::from(digit.get()) - 1
}

fn house_bit(size: Size, premise: &Premise) -> u64 {
    1 << size.house_index(premise.house())
}
