//! A walkthrough: a trail cut down to what is needed, in passages.

use grid::{Grid, House};
use rulebook::{Claim, Puzzle};

use crate::{StepId, Trail};

/// What a passage is mostly about; `tell` makes its title from this.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Theme {
    /// Finding where crusts are and are not.
    Crusts,
    /// Sums: which digits lie between the crusts and which outside.
    Sums,
    /// Filling one house.
    House(House),
    /// Placing digits across the board.
    Digits,
    /// An argument by cases.
    Argument,
    /// Filling in what is left.
    Finish,
}

/// A stretch of steps that are told together.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Passage {
    /// What it is mostly about.
    pub theme: Theme,
    /// Its steps, at least one.
    pub steps: Vec<StepId>,
}

/// A way from the page towards the solution.
///
/// Invariant: the passages cut the trail's steps into consecutive stretches.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Walkthrough {
    trail: Trail,
    passages: Vec<Passage>,
}

impl Walkthrough {
    /// Cuts a trail into passages: a new one begins wherever `theme_of` says another theme than for
    /// the step before.
    pub fn new(trail: Trail, theme_of: impl Fn(&Trail, StepId) -> Theme) -> Walkthrough {
        let mut passages: Vec<Passage> = Vec::new();
        for (id, _) in trail.steps() {
            let theme = theme_of(&trail, id);
            match passages.last_mut() {
                Some(last) if last.theme == theme => last.steps.push(id),
                _ => passages.push(Passage { theme, steps: vec![id] }),
            }
        }
        Walkthrough { trail, passages }
    }

    /// The same walkthrough with no passage of more than `longest` steps: one that is longer is cut into parts of
    /// about equal length.
    #[must_use]
    pub fn in_short_passages(self, longest: usize) -> Walkthrough {
        let longest = longest.max(1);
        let cut = |it: Passage| {
            let n_parts = it.steps.len().div_ceil(longest);
            let start = |part: usize| part * it.steps.len() / n_parts;
            let steps = |part: usize| it.steps[start(part)..start(part + 1)].to_vec();
            (0..n_parts).map(|part| Passage { theme: it.theme, steps: steps(part) }).collect::<Vec<_>>()
        };
        Walkthrough { passages: self.passages.into_iter().flat_map(cut).collect(), trail: self.trail }
    }

    /// The facts and steps.
    pub fn trail(&self) -> &Trail {
        &self.trail
    }

    /// The passages, in order.
    pub fn passages(&self) -> &[Passage] {
        &self.passages
    }

    /// The board as far as the walkthrough fills it.
    pub fn board(&self, puzzle: &Puzzle) -> Grid {
        self.trail.facts().fold(puzzle.givens().clone(), |board, (_, fact)| match fact.claim() {
            Claim::Is(cell, digit) => board.with(cell, Some(digit)),
            _ => board,
        })
    }

    /// Whether every cell is filled at the end.
    pub fn is_complete(&self, puzzle: &Puzzle) -> bool {
        self.board(puzzle).is_full()
    }
}
