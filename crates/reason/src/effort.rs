//! What following a walkthrough asks of a person, as one number: the less, the better it is to read.
//!
//! Three things count for a step: how hard its kind is to see (the technique's weight), how much must be
//! held in view at once (the houses and clues that it rests on beyond the first), and how far the eye has
//! to move from the step before. That effort grows with the number of constraints that a deduction
//! depends on: N. Lee, G. Goodwin, P. Johnson-Laird, Thinking & Reasoning 14(4), 2008. How much each
//! counts is an estimate, not yet calibrated.

use std::collections::BTreeSet;

use grid::{Cell, CellSet, House};
use rulebook::ClueId;
use trail::{Argument, Branch, Cites, End, Step, StepId, TechniqueId, Trail};

use crate::technique;

/// What one more house or clue in view adds.
const HELD: u64 = 3;

/// What it adds to move the eye: to near by, or, twice, to far off.
const EYE_MOVE: u64 = 4;

/// What a small argument takes to see at all: more than any technique.
const ARGUMENT: u64 = 120;

/// What one case or consequence of an argument adds.
const LINK: u64 = 5;

/// The effort of a trail in its order, in about the seconds of the techniques' weights.
pub fn effort(trail: &Trail) -> u64 {
    let mut eye = CellSet::EMPTY;
    let steps = trail.steps().map(|(id, step)| {
        let cells = cells(trail, id);
        let moved = EYE_MOVE * distance(eye, cells);
        eye = cells;
        of_step_on(trail, step) + moved
    });
    steps.sum()
}

/// The effort of the steps of a trail in whatever order: without the moves of the eye.
pub(crate) fn of_steps(trail: &Trail) -> u64 {
    trail.steps().map(|(_, it)| of_step_on(trail, it)).sum()
}

/// The effort of one step of a trail wherever the eye is.
pub(crate) fn of_step_on(trail: &Trail, step: &Step) -> u64 {
    let cites = step.concludes().iter().filter_map(|it| trail.fact(*it).cites());
    of_step(step.technique(), step.argument(), cites)
}

/// The effort of one step wherever the eye is; `cites` is what each of its conclusions rests on.
pub(crate) fn of_step<'c>(
    id: TechniqueId,
    argument: &Argument,
    cites: impl Iterator<Item = &'c Cites>,
) -> u64 {
    let seen = match argument {
        Argument::Followed { branches } => {
            let weight = technique(id).map_or(ARGUMENT, |it| u64::from(it.weight()));
            weight + LINK * branches.iter().map(size_of).sum::<u64>()
        }
        Argument::Cases { branches, .. } => ARGUMENT + LINK * branches.iter().map(size_of).sum::<u64>(),
        _ => technique(id).map_or(ARGUMENT, |it| u64::from(it.weight())),
    };
    seen + HELD * n_held(cites).saturating_sub(1) as u64
}

/// How many houses and clues are cited in all.
pub(crate) fn n_held<'c>(cites: impl Iterator<Item = &'c Cites>) -> usize {
    let (mut houses, mut clues): (BTreeSet<House>, BTreeSet<ClueId>) = Default::default();
    cites.for_each(|it| {
        houses.extend(&it.houses);
        clues.extend(&it.clues);
    });
    houses.len() + clues.len()
}

/// How much the move of the eye to a step adds.
pub(crate) fn eye_move(from: CellSet, to: CellSet) -> u64 {
    EYE_MOVE * distance(from, to)
}

/// The cells a step settles something about.
pub(crate) fn cells(trail: &Trail, step: StepId) -> CellSet {
    let claims = trail.step(step).concludes().iter().map(|it| trail.fact(*it).claim());
    claims.filter_map(|it| it.cell()).collect()
}

/// 0 where some cell shares a row or column or stays in place, 1 near by, 2 far off.
pub(crate) fn distance(from: CellSet, to: CellSet) -> u64 {
    let gap = |a: Cell, b: Cell| a.row().abs_diff(b.row()).min(a.column().abs_diff(b.column()));
    let gaps = from.iter().flat_map(|a| to.iter().map(move |b| gap(a, b)));
    match gaps.min() {
        None | Some(0) => 0,
        Some(1..=2) => 1,
        Some(_) => 2,
    }
}

/// How much there is to follow in a case: cases and consequences.
pub(crate) fn size_of(branch: &Branch) -> u64 {
    let inner = match &branch.end {
        End::Split(branches) => branches.iter().map(size_of).sum(),
        _ => 0,
    };
    1 + branch.chain.len() as u64 + inner
}

#[cfg(test)]
mod tests {
    use grid::Size;

    use super::*;

    #[test]
    fn the_eye_counts_how_far_cells_lie_from_a_common_line() {
        let cell = |row, column| Size::NINE.cell(row, column).into_iter().collect::<CellSet>();
        assert_eq!(distance(CellSet::EMPTY, cell(5, 5)), 0);
        assert_eq!(distance(cell(1, 1), cell(1, 9)), 0);
        assert_eq!(distance(cell(1, 1), cell(3, 9)), 1);
        assert_eq!(distance(cell(1, 1), cell(9, 9)), 2);
    }
}
