//! What would be said of a cell that a reader sees by then: that a filled cell is no crust, or not another digit, or that
//! a cell is not a digit that stands in a house of its. Whatever rests on it rests on the digit instead.

use std::collections::BTreeMap;

use grid::{Cell, Digit, House, Size};
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
pub(crate) fn resting_on_digits(size: Size, page: Trail, trail: &Trail) -> Result<Option<Trail>, PushError> {
    let mut told = page;
    let placed = Placed::on(size, trail);
    let mut is_changed = false;
    for (id, step) in trail.steps() {
        let mut proposal = trail.proposal(id);
        let names_facts = matches!(
            step.argument(),
            Argument::Cases { .. } | Argument::Followed { .. } | Argument::Chain { .. }
        );
        for (_, cites) in proposal.conclusions.iter_mut().filter(|_| !names_facts) {
            let late: Vec<(FactId, Seen)> =
                cites.facts.iter().filter_map(|it| Some((*it, placed.instead_of(trail, *it)?))).collect();
            // What are the premises then is to be found out anew.
            cites.beside.clear();
            for (fact, seen) in late {
                cites.facts.remove(&fact);
                cites.facts.insert(seen.digit);
                cites.houses.extend(seen.house);
                is_changed = true;
            }
        }
        told.push(proposal)?;
    }
    Ok(is_changed.then_some(told))
}

/// A digit that a reader sees, and the house by which it says something of another cell.
struct Seen {
    digit: FactId,
    house: Option<House>,
}

/// Where digits stand at the end of a trail.
struct Placed {
    size: Size,
    by_cell: BTreeMap<Cell, FactId>,
    by_digit: BTreeMap<Digit, Vec<(Cell, FactId)>>,
}

impl Placed {
    fn on(size: Size, trail: &Trail) -> Placed {
        let mut placed = Placed { size, by_cell: BTreeMap::new(), by_digit: BTreeMap::new() };
        for (id, fact) in trail.facts() {
            if let Claim::Is(cell, digit) = fact.claim() {
                placed.by_cell.entry(cell).or_insert(id);
                placed.by_digit.entry(digit).or_default().push((cell, id));
            }
        }
        placed
    }

    /// What was written down before that fact and says as much to a reader; none if the fact places a digit itself.
    fn instead_of(&self, trail: &Trail, fact: FactId) -> Option<Seen> {
        let claim = trail.fact(fact).claim();
        let (Claim::IsNot(cell, _) | Claim::Crust(cell) | Claim::Filling(cell)) = claim else { return None };
        if let Some(&digit) = self.by_cell.get(&cell).filter(|it| **it < fact) {
            return Some(Seen { digit, house: None });
        }
        let Claim::IsNot(_, digit) = claim else { return None };
        let stands = self.by_digit.get(&digit)?.iter().filter(|it| it.1 < fact);
        let mut seen = stands.filter_map(|(other, id)| Some((self.size.shared_house(cell, *other)?, *id)));
        seen.next().map(|(house, digit)| Seen { digit, house: Some(house) })
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

        let told = resting_on_digits(size, Trail::from_page(&puzzle), &trail).unwrap().unwrap();
        let cited = told.fact(rests).cites().unwrap();
        assert_eq!(cited.facts.iter().copied().collect::<Vec<_>>(), [early, digit]);
        assert_eq!(told.needed_for([rests]).n_steps(), 3);
        let again = resting_on_digits(size, Trail::from_page(&puzzle), &told).unwrap();
        assert!(again.is_none());
    }

    #[test]
    fn bug_what_a_digit_in_the_same_house_says_rests_on_that_digit() {
        let size = Size::NINE;
        let cell = |row, column| size.cell(row, column).unwrap();
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
        let early = push(Claim::IsNot(cell(1, 9), five), &[]);
        let digit = push(Claim::Is(cell(1, 1), five), &[]);
        let seen = push(Claim::IsNot(cell(1, 8), five), &[]);
        let unseen = push(Claim::IsNot(cell(5, 5), five), &[]);
        let rests = push(Claim::Is(cell(1, 7), six), &[early, seen, unseen]);

        let told = resting_on_digits(size, Trail::from_page(&puzzle), &trail).unwrap().unwrap();
        let cited = told.fact(rests).cites().unwrap();
        assert_eq!(cited.facts.iter().copied().collect::<Vec<_>>(), [early, digit, unseen]);
        assert_eq!(
            cited.houses.iter().copied().collect::<Vec<_>>(),
            [size.shared_house(cell(1, 1), cell(1, 8)).unwrap()]
        );
    }
}
