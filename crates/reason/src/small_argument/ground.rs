//! Which known facts an argument needs, once its houses and clues are fixed.

use batsat::Lit;
use grid::{Cell, DigitSet};
use replay::Cap;
use rulebook::Claim;
use trail::{Cites, FactId};

use super::cores::Core;
use super::encode::Clauses;
use super::premise::{self, Premise};
use crate::View;

/// What is known about one cell, as one thing a person would point at.
#[derive(Clone, Copy, Debug)]
struct Ground {
    cell: Cell,
    /// The digits it takes from the cell.
    lost: DigitSet,
    /// The fact that says so; none if the cell sees the digit, or is known not to be it.
    fact: Option<FactId>,
    /// Facts that are harder to see are dropped first.
    hidden: u8,
}

/// What proves the core's goal, with nothing to spare: its premises, and the fewest facts about cells
/// that dropping one at a time leads to. None if the premises and all that is known do not prove the
/// goal, which would be a fault of the core.
pub(super) fn cites(view: &View, core: &Core) -> Option<Cites> {
    let mut cites = Cites::default();
    for premise in &core.premises {
        match *premise {
            Premise::House(house) => _ = cites.houses.insert(house),
            Premise::Clue(clue, _) => _ = cites.clues.insert(clue),
            Premise::Fact(fact, ..) => _ = cites.facts.insert(fact),
        }
    }
    for ground in irreducible(view, core)? {
        match ground.fact {
            Some(fact) => _ = cites.facts.insert(fact),
            None if !view.why_none_of(ground.cell, ground.lost, &mut cites) => return None,
            None => {}
        }
    }
    // Why a cell cannot hold a digit may be seen in a house, which then proves more than the core did.
    let (puzzle, trail, claim) = (view.puzzle(), view.trail(), &core.goal.claim);
    Some(replay::without_spare(puzzle, trail, claim, &cites, CAP, |_, _| true))
}

/// Nodes one question about a citation may take; where it takes more, the citation stays.
const CAP: Cap = Cap(2_000);

/// Known facts about cells, none of which the argument can spare.
fn irreducible(view: &View, core: &Core) -> Option<Vec<Ground>> {
    let size = view.size();
    let touched = premise::touched(view, &core.premises, core.goal);
    let mut clauses = Clauses::new(
        size,
        |cell| match touched.contains(cell) {
            true => size.digits(),
            false => DigitSet::EMPTY.with(size.digits().iter().next().unwrap_or_else(|| unreachable!())),
        },
        None,
    );
    for premise in &core.premises {
        clauses.house(premise.house(), None);
        if let Some(ways) = premise.ways(view) {
            clauses.ways(&ways, None);
        }
    }
    let mut grounds: Vec<(Ground, Lit)> = Vec::new();
    for ground in touched.iter().flat_map(|it| grounds_of(view, it)) {
        let switch = clauses.new_lit();
        let lost: Vec<Lit> = ground.lost.iter().filter_map(|it| clauses.holds(ground.cell, it)).collect();
        lost.into_iter().for_each(|it| clauses.add([!switch, !it]));
        grounds.push((ground, switch));
    }
    grounds.sort_by_key(|it| std::cmp::Reverse(it.0.hidden));

    let denied: Vec<Lit> = clauses.denial(core.goal);
    let mut prove = |kept: &[(Ground, Lit)]| {
        let assumed: Vec<Lit> = kept.iter().map(|it| it.1).chain(denied.iter().copied()).collect();
        clauses.core(&assumed)
    };
    let used = prove(&grounds)?;
    grounds.retain(|it| used.contains(&it.1));
    let mut at = 0;
    while at < grounds.len() {
        let mut without = grounds.clone();
        without.remove(at);
        match prove(&without) {
            Some(used) => {
                // What the solver did not use either can go at once; those before `at` are needed.
                without.retain(|it| used.contains(&it.1));
                grounds = without;
            }
            None => at += 1,
        }
    }
    Some(grounds.into_iter().map(|it| it.0).collect())
}

/// What is known about a cell, in parts: its digit, or its kind and the digits it cannot hold.
fn grounds_of(view: &View, cell: Cell) -> Vec<Ground> {
    let size = view.size();
    if let Some(digit) = view.digit(cell) {
        let claim = Claim::Is(cell, digit);
        return vec![Ground { cell, lost: size.digits().without(digit), fact: view.fact(claim), hidden: 0 }];
    }
    let mut grounds = Vec::new();
    let mut rest = size.digits() - view.candidates(cell);
    for claim in [Claim::Crust(cell), Claim::Filling(cell)] {
        if let (Some(fact), Some((_, leaves))) = (view.fact(claim), claim.leaves(size)) {
            let lost = size.digits() - leaves;
            rest = rest - lost;
            grounds.push(Ground { cell, lost, fact: Some(fact), hidden: 1 });
        }
    }
    for digit in rest.iter() {
        let hidden = if view.fact(Claim::IsNot(cell, digit)).is_some() { 2 } else { 0 };
        grounds.push(Ground { cell, lost: DigitSet::only(digit), fact: None, hidden });
    }
    grounds
}
