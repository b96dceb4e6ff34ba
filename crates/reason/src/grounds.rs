//! What is known about cells, in parts that can be spared one by one, so that a step cites only what it
//! needs.

use grid::{Cell, DigitSet};
use rulebook::Claim;
use trail::{Cites, FactId};

use crate::View;

/// What is known about one cell, as one thing a person would point at.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Ground {
    pub(crate) cell: Cell,
    /// The digits it takes from the cell.
    pub(crate) lost: DigitSet,
    pub(crate) shown: Shown,
    /// The fact that says so; none if the cell sees the digit, or is known not to be it.
    fact: Option<FactId>,
}

impl Ground {
    /// Whether it is what the cell itself holds, as far as the board shows it: its digit.
    pub(crate) fn is_own_digit(&self) -> bool {
        self.shown == Shown::OnBoard && self.fact.is_some()
    }
}

/// Where a person finds what is known, the easiest to see first.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(crate) enum Shown {
    /// A digit stands on the board.
    OnBoard,
    /// The cell is marked as a crust or as filling.
    ByKind,
    /// An earlier step says so, and the board does not show it.
    ByStep,
}

/// What is known about a cell: its digit, or its kind and the digits it cannot hold.
pub(crate) fn grounds_of(view: &View, cell: Cell) -> Vec<Ground> {
    let (all, filling) = (view.size().digits(), view.filling_digits());
    let by_fact =
        |claim, lost, shown| view.fact(claim).map(|it| Ground { cell, lost, shown, fact: Some(it) });
    if let Some(digit) = view.digit(cell) {
        let of_digit = by_fact(Claim::Is(cell, digit), all.without(digit), Shown::OnBoard);
        return of_digit.into_iter().collect();
    }
    let kinds = [(Claim::Crust(cell), filling), (Claim::Filling(cell), all - filling)];
    let kinds = kinds.map(|(claim, lost)| by_fact(claim, lost, Shown::ByKind));
    let mut grounds: Vec<Ground> = kinds.into_iter().flatten().collect();
    let rest = grounds.iter().fold(all - view.candidates(cell), |rest, it| rest - it.lost);
    grounds.extend(rest.iter().map(|digit| {
        let shown = match view.fact(Claim::IsNot(cell, digit)) {
            Some(_) => Shown::ByStep,
            None => Shown::OnBoard,
        };
        Ground { cell, lost: DigitSet::only(digit), shown, fact: None }
    }));
    grounds
}

/// Adds to `cites` what the grounds rest on.
#[must_use]
pub(crate) fn cite(view: &View, grounds: &[Ground], cites: &mut Cites) -> bool {
    grounds.iter().all(|it| match it.fact {
        Some(fact) => {
            cites.facts.insert(fact);
            true
        }
        None => view.why_none_of(it.cell, it.lost, cites),
    })
}
