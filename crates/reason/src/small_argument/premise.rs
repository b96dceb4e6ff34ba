//! What an argument can rest on, and what it can be for.

use grid::{Cell, CellSet, Digit, DigitSet, Grid, House};
use rulebook::{Claim, ClueId, Puzzle, Ways};
use trail::{Cites, FactId};

use crate::View;

/// Something an argument holds in view: the houses and clues of the page, and facts about houses.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Premise {
    /// The house holds each digit once.
    House(House),
    /// The clue, with the house of its line.
    Clue(ClueId, House),
    /// A fact about a house (a distance, a spent clue, a digit held), with that house.
    Fact(FactId, Claim, House),
}

impl Premise {
    /// The house that comes with it.
    pub(super) fn house(self) -> House {
        match self {
            Premise::House(house) | Premise::Clue(_, house) | Premise::Fact(_, _, house) => house,
        }
    }

    /// Whether the full board satisfies it. What a clue or fact says of its house is meant for boards that
    /// satisfy the house too.
    pub(super) fn is_satisfied_by(&self, puzzle: &Puzzle, board: &Grid) -> bool {
        let size = board.size();
        let digits = |house| size.cells_of(house).into_iter().filter_map(|it| board.get(it));
        match *self {
            Premise::House(house) => digits(house).collect::<DigitSet>() == size.digits(),
            Premise::Clue(id, house) => puzzle
                .clue(id)
                .is_some_and(|it| it.rule.allows(size, it.value, &digits(house).collect::<Vec<Digit>>())),
            Premise::Fact(_, claim, _) => {
                claim.holds(size, |cell| board.get(cell).unwrap_or_else(|| unreachable!("the board is full")))
            }
        }
    }

    /// Its ways, beyond the house's own rule.
    pub(super) fn ways(self, view: &View) -> Option<Ways> {
        match self {
            Premise::House(_) => None,
            Premise::Clue(id, _) => view.puzzle().clue(id).map(|it| view.puzzle().ways(it)),
            Premise::Fact(_, claim, _) => Some(claim.ways(view.size())),
        }
    }
}

/// Every premise the position offers.
pub(super) fn premises(view: &View) -> Vec<Premise> {
    let houses = view.size().houses().map(Premise::House);
    let clues = view.puzzle().clue_ids().map(|(id, it)| Premise::Clue(id, it.line));
    let facts = view.house_facts().filter_map(|(id, it)| Some(Premise::Fact(id, it, it.house()?)));
    houses.chain(clues).chain(facts).collect()
}

/// The premises that are cited.
pub(super) fn cited(view: &View, cites: &Cites) -> Vec<Premise> {
    let houses = cites.houses.iter().copied().map(Premise::House);
    let clue = |id: &ClueId| Some(Premise::Clue(*id, view.puzzle().clue(*id)?.line));
    let fact = |id: &FactId| {
        let claim = view.trail().fact(*id).claim();
        Some(Premise::Fact(*id, claim, claim.house()?))
    };
    let clues = cites.clues.iter().filter_map(clue);
    houses.chain(clues).chain(cites.facts.iter().filter_map(fact)).collect()
}

/// The cells that the premises and the goal are about.
pub(super) fn touched(view: &View, premises: &[Premise], goal: Goal) -> CellSet {
    let cells = premises.iter().flat_map(|it| view.size().cells_of(it.house()));
    cells.chain([goal.cell]).collect()
}

/// A claim about one cell that an argument may be for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Goal {
    /// The claim.
    pub claim: Claim,
    /// Its cell.
    pub cell: Cell,
    /// The digits the cell would hold if the claim were false.
    pub denied: DigitSet,
}

/// Every true claim about one cell that is not known yet, in reading order: what kind the cell is
/// (where crusts matter), then which digits it is not.
pub(super) fn open_goals(view: &View, solution: &Grid) -> Vec<Goal> {
    let size = view.size();
    let sandwiches = view.puzzle().clues().iter().any(|it| it.rule.id().name() == "sandwich");
    let mut goals = Vec::new();
    for cell in view.open_cells() {
        let Some(answer) = solution.get(cell) else { continue };
        let kinds = [Claim::Crust(cell), Claim::Filling(cell)].into_iter().filter(|_| sandwiches);
        let digits = view.candidates(cell).without(answer);
        for claim in kinds.chain(digits.iter().map(|it| Claim::IsNot(cell, it))) {
            let Some((_, leaves)) = claim.leaves(size) else { continue };
            // The whole opposite: that some of its digits are excluded already needs citing too.
            let denied = size.digits() - leaves;
            let is_open = !(view.candidates(cell) & denied).is_empty();
            if leaves.contains(answer) && is_open && view.is_news(claim) {
                goals.push(Goal { claim, cell, denied });
            }
        }
    }
    goals
}
