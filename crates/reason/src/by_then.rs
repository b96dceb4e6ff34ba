//! Each step as it is seen by the time it is told: with every digit on the board that stands there by then.
//!
//! A step is found when it is first open and told when it is wanted. By then a reader sees more: crusts whose distance
//! nobody needs to work out any more, a cell among its places that is filled. So it is looked for once more, by the
//! same technique, from what the board shows and what it rested on, and told as it is found then if that asks no more.

use std::collections::{BTreeMap, BTreeSet};

use grid::{Cell, CellSet, House};
use rulebook::Claim;
use trail::{Argument, Cites, FactId, Proposal, PushError, Trail};

use crate::effort::of_step;
use crate::sandwich::CrustsFound;
use crate::trim::Trimmer;
use crate::{Known, Technique, View, technique};

/// The trail with each step as it is seen by then; none if all of them stay what they are. No step goes: nobody may
/// need some of them any more.
///
/// Small arguments, what is followed and chains name what they rest on at each turn, so they stay.
///
/// # Errors
///
/// None for the trail of a puzzle.
pub(crate) fn as_seen(
    trimmer: &mut Trimmer,
    known: Known,
    trail: &Trail,
) -> Result<Option<Trail>, PushError> {
    let mut told = Trail::from_page(trimmer.puzzle());
    // What has been told, and the digits alone that stand on the board.
    let (mut position, mut board) = (trimmer.page().clone(), trimmer.page().clone());
    let mut is_changed = false;
    for (id, _) in trail.steps() {
        let found = trail.proposal(id);
        let mut seen =
            Look { trimmer, known, board: &board, told: &told }.again(&found).unwrap_or(found.clone());
        seen.argument = naming_places_left(&position, seen.argument);
        is_changed |= seen != found;
        position.take(seen.clone())?;
        let step = told.push(seen)?;
        let concluded = told.step(step).concludes().iter().map(|it| told.fact(*it).claim());
        concluded.filter(|it| matches!(it, Claim::Is(..))).for_each(|it| board.note(it));
    }
    Ok(is_changed.then_some(told))
}

/// A look at the board just before a step is told.
struct Look<'l, 'p> {
    trimmer: &'l mut Trimmer<'p>,
    known: Known,
    /// The page and the digits that stand on it by then.
    board: &'l View<'p>,
    /// What has been told.
    told: &'l Trail,
}

impl Look<'_, '_> {
    /// The step as it is seen now, if that is another thing and asks no more.
    fn again(&mut self, found: &Proposal) -> Option<Proposal> {
        if matches!(found.argument, Argument::Followed { .. } | Argument::Chain { .. }) {
            return None;
        }
        let own = technique(found.technique)?;
        let (seen, news): (Vec<Claim>, Vec<Claim>) =
            self.cited_beside_digits(found).into_iter().partition(|it| is_seen(self.board, *it));
        // To look again at every step would take as long as to find them all.
        if seen.is_empty() && !is_dated(self.board, &found.argument) {
            return None;
        }
        let view = self.board.with(news);
        let wanted: Vec<Claim> = found.conclusions.iter().map(|it| it.0).collect();
        let mut offers: Vec<Proposal> = Vec::new();
        for technique in self.by_both_crusts(&wanted).into_iter().chain([own]) {
            let found_now = technique.find_wanted(&view, &|it| wanted.contains(it)).into_iter();
            let others = found_now.filter_map(|it| only(&wanted, it));
            let others = others.filter(|it| !seen.is_empty() || it.argument != found.argument);
            offers.extend(others.filter_map(|it| self.on_told(&view, technique, it)));
        }
        let asks = |it: &Proposal| of_step(it.technique, &it.argument, it.conclusions.iter().map(|it| &it.1));
        offers.into_iter().min_by_key(asks).filter(|it| asks(it) <= asks(found) && it != found)
    }

    /// What the step cites that was concluded before and is no digit.
    fn cited_beside_digits(&self, found: &Proposal) -> BTreeSet<Claim> {
        let cited = found.conclusions.iter().flat_map(|it| &it.1.facts).map(|it| self.told.fact(*it));
        let concluded = cited.filter(|it| it.step().is_some()).map(|it| it.claim());
        concluded.filter(|it| !matches!(it, Claim::Is(..))).collect()
    }

    /// Where both crusts stand on the board, nobody asks any more where they could be.
    fn by_both_crusts(&self, wanted: &[Claim]) -> Option<&'static dyn Technique> {
        let is_filling = wanted.iter().all(|it| matches!(it, Claim::Filling(_)));
        let technique: &dyn Technique = &CrustsFound;
        Some(technique).filter(|it| is_filling && self.known.has(it.id()))
    }

    /// What was found in that view as a step of what has been told, with nothing to spare.
    fn on_told(&mut self, view: &View, technique: &dyn Technique, offer: Proposal) -> Option<Proposal> {
        let ids: BTreeMap<Claim, FactId> = self.told.facts().rev().map(|(id, it)| (it.claim(), id)).collect();
        let trimmed = offer.conclusions.into_iter().map(|(claim, cites)| {
            let facts = cites.facts.iter().map(|it| ids.get(&view.trail().fact(*it).claim()).copied());
            let cites = Cites { facts: facts.collect::<Option<_>>()?, ..cites };
            Some((claim, self.trimmer.told_and_premises(self.told, technique, claim, cites)))
        });
        Some(Proposal { conclusions: trimmed.collect::<Option<_>>()?, ..offer })
    }
}

/// Whether nobody would say it who looks at the board.
fn is_seen(board: &View, claim: Claim) -> bool {
    match claim {
        Claim::Filling(cell) => {
            let houses = board.size().houses_of(cell);
            let has_both = |it: &House| (board.digits_placed_in(*it) - board.filling_digits()).len() == 2;
            houses.iter().any(has_both) || !board.is_news(claim)
        }
        Claim::FillingCells { line, .. } => board.crust_pairs(line).pairs().len() == 1,
        Claim::DigitAmong { house, digit, .. } => board.digits_placed_in(house).contains(digit),
        _ => !board.is_news(claim),
    }
}

/// The argument with the places of its digit that are left by then. When the step was found more may have been known than
/// is told before it, or less.
fn naming_places_left(position: &View, argument: Argument) -> Argument {
    match argument {
        Argument::Locked { digit, from, into, cells } => {
            let left = position.places(from, digit);
            // With one place left it is another technique's thought; the open ones of those found are no fewer.
            let cells = [left, cells & position.open()].into_iter().find(|it| it.len() > 1).unwrap_or(cells);
            Argument::Locked { digit, from, into, cells }
        }
        other => other,
    }
}

/// Whether it speaks of places that nobody would name who looks at the board.
fn is_dated(board: &View, argument: &Argument) -> bool {
    let is_filled = |cells: &CellSet| !cells.is_subset(&board.open());
    let is_no_pair = |line: House, (left, right): &(Cell, Cell)| {
        let place = |cell: &Cell| board.cells_of(line).iter().position(|it| it == cell);
        let open = board.crust_pairs(line).pairs();
        !place(left).zip(place(right)).is_some_and(|pair| open.contains(&pair))
    };
    match argument {
        Argument::CrustAmong { cells, .. }
        | Argument::SideHolds { cells, .. }
        | Argument::HeldActs { cells, .. } => is_filled(cells),
        Argument::Reach { line, pairs, .. } => pairs.iter().any(|it| is_no_pair(*line, it)),
        Argument::Misfits { line, tries, .. } => {
            tries.iter().flat_map(|it| &it.pairs).any(|it| is_no_pair(*line, it))
        }
        _ => false,
    }
}

/// The step with these conclusions alone, in their order; none if it lacks one.
fn only(wanted: &[Claim], offer: Proposal) -> Option<Proposal> {
    let place = |claim: &Claim| offer.conclusions.iter().position(|it| it.0 == *claim);
    let places: Vec<usize> = wanted.iter().map(place).collect::<Option<_>>()?;
    let argument = offer.argument.keeping(&places);
    let conclusions = places.iter().map(|it| offer.conclusions[*it].clone()).collect();
    Some(Proposal { technique: offer.technique, argument, conclusions })
}

#[cfg(test)]
mod tests {
    use grid::{Digit, Grid, Size};
    use replay::Cap;
    use rulebook::{Clue, Puzzle, SANDWICH};
    use trail::TechniqueId;

    use super::*;
    use crate::{TECHNIQUES, named};

    /// A board of nine with these digits and row clues.
    fn puzzle(digits: &[(u8, u8, u8)], clues: &[(u8, u16)]) -> Puzzle {
        let size = Size::NINE;
        let put = |board: Grid, &(row, column, digit): &(u8, u8, u8)| {
            board.with(cell(row, column), Digit::new(digit))
        };
        let row = |row: u8| size.houses_of(cell(row, 1))[0];
        let clue = |&(at, value): &(u8, u16)| Clue { rule: &SANDWICH, line: row(at), value };
        Puzzle::new(digits.iter().fold(Grid::empty(size), put), clues.iter().map(clue))
    }

    fn cell(row: u8, column: u8) -> Cell {
        Size::NINE.cell(row, column).unwrap()
    }

    /// A walkthrough of a person who takes these steps: of each technique, what concludes the claim.
    fn taken(puzzle: &Puzzle, steps: &[(&str, Claim)]) -> Trail {
        let mut view = View::new(puzzle);
        for (name, claim) in steps {
            let technique = TECHNIQUES.iter().find(|it| it.id().name() == *name).unwrap();
            let offers = technique.find_wanted(&view, &|it| it == claim);
            let offer = offers.into_iter().find_map(|it| only(&[*claim], it));
            view.take(offer.unwrap_or_else(|| panic!("{name} does not show {claim:?}"))).unwrap();
        }
        view.into_trail()
    }

    /// The last step as it is seen once these digits stand on the board.
    fn last_seen(puzzle: &Puzzle, steps: &[(&str, Claim)], digits: &[Claim]) -> Option<Proposal> {
        let found = taken(puzzle, steps);
        let (last, _) = found.steps().next_back().unwrap();
        let page = View::new(puzzle);
        let mut trail = taken(puzzle, &steps[..steps.len() - 1]);
        for digit in digits {
            let argument = Argument::SeesBothCrusts { cells: CellSet::EMPTY };
            let conclusions = vec![(*digit, Cites::default())];
            trail.push(Proposal { technique: TechniqueId::new("told"), argument, conclusions }).unwrap();
        }
        trail.push(found.proposal(last)).unwrap();
        let mut trimmer = Trimmer::new(&page, Cap(100_000));
        let seen = as_seen(&mut trimmer, Known::ALL, &trail).unwrap()?;
        let (last, _) = seen.steps().next_back().unwrap();
        Some(seen.proposal(last))
    }

    fn is(row: u8, column: u8, digit: u8) -> Claim {
        Claim::Is(cell(row, column), Digit::new(digit).unwrap())
    }

    fn is_not(row: u8, column: u8, digit: u8) -> Claim {
        Claim::IsNot(cell(row, column), Digit::new(digit).unwrap())
    }

    #[test]
    fn bug_nobody_works_out_a_distance_between_crusts_that_are_on_the_board() {
        let puzzle = puzzle(&[(1, 1, 9)], &[(1, 9)]);
        let line = Size::NINE.houses_of(cell(1, 1))[0];
        let distance = Claim::FillingCells { line, fewest: 2, most: 3 };
        let steps = [("crust-distance", distance), ("filling-sets", is_not(1, 2, 8))];
        let found = taken(&puzzle, &steps);
        let distance = found.steps().next().unwrap().1.concludes()[0];
        let cites = |it: &Proposal| it.conclusions[0].1.facts.contains(&distance);
        assert!(cites(&found.proposal(found.steps().next_back().unwrap().0)));
        let seen = last_seen(&puzzle, &steps, &[is(1, 4, 1)]).expect("the crusts are seen");
        assert!(!cites(&seen), "{seen:?}");
    }

    #[test]
    fn bug_a_filled_cell_is_not_named_among_the_places_of_a_digit() {
        // In row 4 the 5 is left to the cells of box 6.
        let row: Vec<(u8, u8, u8)> =
            (1..=6).zip([2, 3, 4, 6, 7, 8]).map(|(column, digit)| (4, column, digit)).collect();
        let puzzle = puzzle(&row, &[]);
        let steps = [("locked-candidates", is_not(5, 7, 5))];
        let named_cells = |it: Option<Proposal>| match it.map(|it| it.argument) {
            Some(Argument::Locked { cells, .. }) => Some(cells.iter().collect::<Vec<_>>()),
            _ => None,
        };
        assert_eq!(named_cells(last_seen(&puzzle, &steps, &[])), None, "nothing has changed");
        let seen = last_seen(&puzzle, &steps, &[is(4, 7, 9)]);
        assert_eq!(named_cells(seen), Some(vec![cell(4, 8), cell(4, 9)]));
    }

    #[test]
    fn bug_a_place_is_named_that_nothing_told_by_then_rules_out() {
        // In row 4 the 5 is left to the three cells of box 6, whatever more was known when the step was found.
        let row: Vec<(u8, u8, u8)> =
            (1..=6).zip([2, 3, 4, 6, 7, 8]).map(|(column, digit)| (4, column, digit)).collect();
        let puzzle = puzzle(&row, &[]);
        let [from, _, into] = Size::NINE.houses_of(cell(4, 7));
        let digit = Digit::new(5).unwrap();
        let cells = |columns: &[u8]| columns.iter().map(|it| cell(4, *it)).collect::<CellSet>();
        let named = |columns: &[u8]| Argument::Locked { digit, from, into, cells: cells(columns) };
        assert_eq!(naming_places_left(&View::new(&puzzle), named(&[7, 8])), named(&[7, 8, 9]));
        // Where one is left, the open ones of those found are named.
        let left = [is(4, 7, 9), is_not(4, 8, 5)];
        let position = View::new(&puzzle).with(left);
        assert_eq!(naming_places_left(&position, named(&[7, 8, 9])), named(&[8, 9]));
    }

    #[test]
    fn bug_both_crusts_of_a_line_say_more_simply_that_the_rest_is_filling() {
        let puzzle = puzzle(&[(1, 1, 9)], &[(1, 10)]);
        let line = Size::NINE.houses_of(cell(1, 1))[0];
        let distance = Claim::FillingCells { line, fewest: 2, most: 3 };
        let steps = [("crust-distance", distance), ("crust-reach", Claim::Filling(cell(1, 2)))];
        let seen = last_seen(&puzzle, &steps, &[is(1, 4, 1)]).expect("it is seen otherwise");
        assert_eq!(seen.technique, named("crusts-found").unwrap());
    }
}
