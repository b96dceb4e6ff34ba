//! What would be said of a cell that holds its digit by then: that a filled cell is no crust, or not another
//! digit. A reader sees that, so whatever rests on it rests on the digit instead.

use std::collections::BTreeMap;

use grid::Cell;
use rulebook::Claim;
use trail::{Argument, FactId, PushError, Trail};

/// The trail with every citation of something late replaced by that of the digit; none if it cites nothing
/// late. No step goes: nobody may need the late ones any more.
///
/// Small arguments, what is followed and chains name the facts they rest on, so they keep them.
///
/// # Errors
///
/// None for the trail of a puzzle.
pub(crate) fn resting_on_digits(page: Trail, trail: &Trail) -> Result<Option<Trail>, PushError> {
    let mut told = page;
    let mut placed: BTreeMap<Cell, FactId> = BTreeMap::new();
    let mut is_changed = false;
    for (id, fact) in trail.facts() {
        if let Claim::Is(cell, _) = fact.claim() {
            placed.entry(cell).or_insert(id);
        }
    }
    for (id, step) in trail.steps() {
        let mut proposal = trail.proposal(id);
        let names_facts = matches!(
            step.argument(),
            Argument::Cases { .. } | Argument::Followed { .. } | Argument::Chain { .. }
        );
        for (_, cites) in proposal.conclusions.iter_mut().filter(|_| !names_facts) {
            let instead =
                |it: &FactId| late(trail, *it).and_then(|cell| placed.get(&cell).filter(|is| *is < it));
            let seen: Vec<(FactId, FactId)> =
                cites.facts.iter().filter_map(|it| Some((*it, *instead(it)?))).collect();
            // What are the premises then is to be found out anew.
            cites.beside.clear();
            for (fact, digit) in seen {
                cites.facts.remove(&fact);
                cites.facts.insert(digit);
                is_changed = true;
            }
        }
        told.push(proposal)?;
    }
    Ok(is_changed.then_some(told))
}

/// The cell that the fact says something about, if it does not place its digit.
fn late(trail: &Trail, fact: FactId) -> Option<Cell> {
    match trail.fact(fact).claim() {
        Claim::IsNot(cell, _) | Claim::Crust(cell) | Claim::Filling(cell) => Some(cell),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use grid::{CellSet, Digit, Grid, Size};
    use rulebook::Puzzle;
    use trail::{Cites, Proposal, TechniqueId};

    use super::*;

    #[test]
    fn what_rests_on_something_late_rests_on_the_digit() {
        let size = Size::NINE;
        let cell = |column| size.cell(1, column).unwrap();
        let [five, six] = [5, 6].map(|it| Digit::new(it).unwrap());
        let puzzle = Puzzle::new(Grid::empty(size), []);
        let mut trail = Trail::from_page(&puzzle);
        let mut push = |claim, facts: &[FactId]| {
            let cites = facts.iter().fold(Cites::default(), |cites, it| cites.fact(*it));
            let argument = Argument::SeesBothCrusts { cells: CellSet::EMPTY };
            let conclusions = vec![(claim, cites)];
            let step = trail.push(Proposal { technique: TechniqueId::new("test"), argument, conclusions });
            trail.step(step.unwrap()).concludes()[0]
        };
        let early = push(Claim::Filling(cell(2)), &[]);
        let digit = push(Claim::Is(cell(1), five), &[]);
        let late = push(Claim::Filling(cell(1)), &[]);
        let rests = push(Claim::Is(cell(3), six), &[early, late]);
        // Nothing of the trail is late for what was known before the digit.
        push(Claim::Is(cell(2), six), &[early]);

        let told = resting_on_digits(Trail::from_page(&puzzle), &trail).unwrap().unwrap();
        let cited = told.fact(rests).cites().unwrap();
        assert_eq!(cited.facts.iter().copied().collect::<Vec<_>>(), [early, digit]);
        assert_eq!(told.needed_for([rests]).n_steps(), 3);
        let again = resting_on_digits(Trail::from_page(&puzzle), &told).unwrap();
        assert!(again.is_none());
    }
}
