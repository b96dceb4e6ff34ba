//! Why something cannot be: the facts and houses to cite for it.
//!
//! Where several reasons would do, one that is cited already comes first, so that citations stay few;
//! then the one most visible on the board.

use std::cmp::Reverse;

use grid::{Cell, CellSet, Digit, DigitSet, House};
use rulebook::Claim;
use trail::{Cites, FactId};

use super::View;

impl View<'_> {
    /// Adds to `cites` why the cell cannot hold the digit. False if it can, for all that is known.
    ///
    /// A reason that is cited already is taken before a new one, so that citations stay few.
    #[must_use]
    pub fn why_not(&self, cell: Cell, digit: Digit, cites: &mut Cites) -> bool {
        if self.candidates(cell).contains(digit) {
            return false;
        }
        let reasons = self.reasons_against(cell, digit);
        let cited = reasons.clone().find(|it| it.adds_nothing_to(cites));
        let Some(chosen) = cited.or_else(|| reasons.into_iter().next()) else { return false };
        cites.facts.insert(chosen.fact);
        cites.houses.extend(chosen.house);
        true
    }

    /// Adds to `cites` why none of the cells can hold the digit, as [`View::why_none`] does.
    #[must_use]
    pub(crate) fn why_nowhere(&self, cells: CellSet, digit: Digit, cites: &mut Cites) -> bool {
        self.why_none(cells.iter().map(|it| (it, digit)), cites)
    }

    /// Adds to `cites` why each cell cannot hold the digit beside it, with few reasons: those that serve
    /// most. False if one can, for all that is known.
    #[must_use]
    pub(crate) fn why_none(&self, all: impl Iterator<Item = (Cell, Digit)>, cites: &mut Cites) -> bool {
        let mut open: Vec<Vec<Reason>> =
            all.map(|(cell, digit)| self.reasons_against(cell, digit).collect()).collect();
        loop {
            open.retain(|it| !it.iter().any(|it| it.adds_nothing_to(cites)));
            let Some(hardest) = open.iter().min_by_key(|it| it.len()) else { return true };
            let n_served = |reason: &Reason| open.iter().filter(|it| it.contains(reason)).count();
            // Of equals, the first counts: the most visible.
            let Some(chosen) = hardest.iter().min_by_key(|it| Reverse(n_served(it))) else { return false };
            cites.facts.insert(chosen.fact);
            cites.houses.extend(chosen.house);
        }
    }

    /// Adds to `cites` a house in which the cells see each other: one that is cited already if there is
    /// one.
    pub(crate) fn cite_sight(&self, a: Cell, b: Cell, cites: &mut Cites) {
        let shared = self.size().houses_of(a).into_iter().filter(|it| self.members(*it).contains(b));
        cites.houses.extend(shared.min_by_key(|it| !cites.houses.contains(it)));
    }

    /// Adds to `cites` why the cell can hold none of the digits.
    #[must_use]
    pub fn why_none_of(&self, cell: Cell, digits: DigitSet, cites: &mut Cites) -> bool {
        digits.iter().all(|it| self.why_not(cell, it, cites))
    }

    /// Adds to `cites` the fact that the cell is a crust.
    #[must_use]
    pub fn why_crust(&self, cell: Cell, cites: &mut Cites) -> bool {
        self.cite_kind(cell, self.is_crust(cell), Claim::Crust(cell), cites)
    }

    /// Adds to `cites` the fact that the cell is filling.
    #[must_use]
    pub fn why_filling(&self, cell: Cell, cites: &mut Cites) -> bool {
        self.cite_kind(cell, self.is_filling(cell), Claim::Filling(cell), cites)
    }

    fn cite_kind(&self, cell: Cell, known: bool, kind: Claim, cites: &mut Cites) -> bool {
        let is = self.digit(cell).and_then(|digit| self.fact(Claim::Is(cell, digit)));
        let kind = self.fact(kind);
        let fact = kind.filter(|it| cites.facts.contains(it)).or(is).or(kind);
        cites.facts.extend(fact.filter(|_| known));
        known && fact.is_some()
    }

    /// Each reason why the cell cannot hold the digit, the most visible first: its own digit, the
    /// digit seen in its row, column and box, its kind, and that it is known not to be the digit.
    fn reasons_against(&self, cell: Cell, digit: Digit) -> impl Iterator<Item = Reason> + Clone {
        let of = |fact: Option<FactId>| Some(Reason { fact: fact?, house: None });
        let facts = self.facts_of(cell);
        let own = of(facts.is.filter(|_| self.digit(cell) != Some(digit)));
        let [row, column, the_box] = self.size().houses_of(cell).map(|house| {
            let at = self.placed_in(house, digit)?;
            Some(Reason { fact: self.fact(Claim::Is(at, digit))?, house: Some(house) })
        });
        let kind = match self.filling_digits().contains(digit) {
            true => facts.crust,
            false => facts.filling,
        };
        let removed = self.fact(Claim::IsNot(cell, digit));
        [own, row, column, the_box, of(kind), of(removed)].into_iter().flatten()
    }
}

/// One reason why a cell cannot hold a digit.
#[derive(Clone, Copy, PartialEq, Eq)]
struct Reason {
    fact: FactId,
    house: Option<House>,
}

impl Reason {
    fn adds_nothing_to(&self, cites: &Cites) -> bool {
        cites.facts.contains(&self.fact) && self.house.is_none_or(|it| cites.houses.contains(&it))
    }
}
