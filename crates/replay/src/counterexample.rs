//! Fillings that show that a claim does not follow.

use grid::{Cell, Digit, DigitSet, House};
use rulebook::{Claim, Puzzle};
use trail::{Cites, Trail};

/// A filling of some cells that agreed with what was cited for a claim and broke the claim.
#[derive(Debug)]
pub(crate) struct Counterexample {
    /// In reading order.
    pub(crate) filling: Vec<(Cell, Digit)>,
    /// The same by [`Cell::slot`].
    by_cell: Vec<Option<Digit>>,
}

impl Counterexample {
    pub(crate) fn new(filling: Vec<(Cell, Digit)>) -> Counterexample {
        let n_slots = filling.last().map_or(0, |it| it.0.slot() + 1);
        let mut by_cell = vec![None; n_slots];
        filling.iter().for_each(|(cell, digit)| by_cell[cell.slot()] = Some(*digit));
        Counterexample { filling, by_cell }
    }

    /// Whether it agrees with everything cited here and breaks the claim, by the definitions of the rules and claims
    /// rather than by the ways the search computes with. It does not if it leaves a cell open that this is about.
    ///
    /// The claim and the citations have to be of the puzzle.
    pub(crate) fn is_one(&self, puzzle: &Puzzle, trail: &Trail, claim: &Claim, cites: &Cites) -> bool {
        let size = puzzle.size();
        let digits = |house: House| -> Option<Vec<Digit>> {
            size.cells_of(house).into_iter().map(|it| self.digit(it)).collect()
        };
        let is_all = |digits: &[Digit]| digits.iter().copied().collect::<DigitSet>() == size.digits();
        let each_once = |house: House| digits(house).is_some_and(|it| is_all(&it));
        // A claim about a house has a meaning only where each digit is there once.
        let holds = |claim: &Claim| -> Option<bool> {
            let has_meaning = match claim.house() {
                Some(house) => each_once(house),
                None => claim.cell().is_some_and(|it| self.digit(it).is_some()),
            };
            let digit =
                |cell| self.digit(cell).unwrap_or_else(|| unreachable!("{cell} is part of the claim"));
            has_meaning.then(|| claim.holds(size, digit))
        };

        cites.facts.iter().all(|it| holds(&trail.fact(*it).claim()) == Some(true))
            && holds(claim) == Some(false)
            && cites.houses.iter().all(|it| each_once(*it))
            && cites.clues.iter().filter_map(|it| puzzle.clue(*it)).all(|it| {
                let digits = digits(it.line).filter(|it| is_all(it));
                digits.is_some_and(|digits| it.rule.allows(size, it.value, &digits))
            })
    }

    fn digit(&self, cell: Cell) -> Option<Digit> {
        self.by_cell.get(cell.slot()).copied().flatten()
    }
}
