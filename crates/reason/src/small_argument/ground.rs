//! Which known facts an argument needs, once its houses and clues are fixed.

use batsat::Lit;
use grid::DigitSet;
use replay::Cap;
use trail::Cites;

use super::cores::Core;
use super::encode::Clauses;
use super::premise::{self, Premise};
use crate::View;
use crate::grounds::{Ground, cite, grounds_of};

/// What proves the core's goal, with nothing to spare: its premises, and the fewest facts about cells
/// that dropping one at a time leads to. None if the premises and all that is known do not prove the
/// goal, which would be a fault of the core.
pub(super) fn cites(view: &View, core: &Core) -> Option<Cites> {
    let mut cites = of_premises(core);
    if !cite(view, &irreducible(view, core)?, &mut cites) {
        return None;
    }
    // Why a cell cannot hold a digit may be seen in a house, which then proves more than the core did.
    let (puzzle, trail, claim) = (view.puzzle(), view.trail(), &core.goal.claim);
    Some(replay::without_spare(puzzle, trail, claim, &cites, CAP, |_, _| true))
}

/// The core's premises with all that is known of their cells, whatever of it can be spared.
pub(super) fn all_cites(view: &View, core: &Core) -> Option<Cites> {
    let mut cites = of_premises(core);
    let touched = premise::touched(view, &core.premises, core.goal);
    let grounds: Vec<Ground> = touched.iter().flat_map(|it| grounds_of(view, it)).collect();
    cite(view, &grounds, &mut cites).then_some(cites)
}

fn of_premises(core: &Core) -> Cites {
    let mut cites = Cites::default();
    for premise in &core.premises {
        match *premise {
            Premise::House(house) => _ = cites.houses.insert(house),
            Premise::Clue(clue, _) => _ = cites.clues.insert(clue),
            Premise::Fact(fact, ..) => _ = cites.facts.insert(fact),
        }
    }
    cites
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
    // What is harder to see is dropped first.
    grounds.sort_by_key(|it| std::cmp::Reverse(it.0.shown));

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
