//! The figures of `examples/measure` on how much a step asks to be looked at.

use grid::{Cell, Digit, Grid, House, HouseKind, Size};
use replay::Cap;
use rulebook::{Claim, Puzzle};
use trail::{Argument, Cites, Proposal, StepId, TechniqueId, Trail};

use crate::measured::{n_beside, n_in_view};

const SIZE: Size = Size::NINE;
const CAP: Cap = Cap(100_000);

fn cell(row: u8, column: u8) -> Cell {
    SIZE.cell(row, column).unwrap()
}

fn house(kind: HouseKind, number: u8) -> House {
    SIZE.house(kind, number).unwrap()
}

fn five() -> Digit {
    SIZE.digit(5).unwrap()
}

/// A step on a board with a 5 in row 1, column 1, that knows of cells which are no 5.
fn step(no_fives: &[(u8, u8)], houses: &[House], claim: Claim) -> (Puzzle, Trail, StepId, Cites) {
    let puzzle = Puzzle::new(Grid::empty(SIZE).with(cell(1, 1), Some(five())), []);
    let mut trail = Trail::from_page(&puzzle);
    let push = |trail: &mut Trail, conclusions| {
        let argument = Argument::OnePlace { house: houses[0], cell: cell(2, 5), digit: five() };
        trail.push(Proposal { technique: TechniqueId::new("test"), argument, conclusions }).unwrap()
    };
    let told = no_fives.iter().map(|it| (Claim::IsNot(cell(it.0, it.1), five()), Cites::default())).collect();
    push(&mut trail, told);
    let cites = trail.facts().fold(Cites::default(), |cites, (id, _)| cites.fact(id));
    let cites = houses.iter().fold(cites, |cites, it| cites.house(*it));
    let step = push(&mut trail, vec![(claim, cites.clone())]);
    (puzzle, trail, step, cites)
}

/// Row 2 is looked at for the place of its 5; box 1 only shows that three of its cells see a 5.
#[test]
fn a_house_in_which_only_a_placed_digit_is_seen_is_not_held_in_view() {
    let elsewhere = [(2, 4), (2, 6), (2, 7), (2, 8), (2, 9)];
    let houses = [house(HouseKind::Row, 2), house(HouseKind::Box, 1)];
    let (puzzle, trail, step, cites) = step(&elsewhere, &houses, Claim::Is(cell(2, 5), five()));
    assert!(replay::judge(&puzzle, &trail, &Claim::Is(cell(2, 5), five()), &cites, CAP).is_ok());
    assert_eq!(n_in_view(&puzzle, &trail, step, CAP), 1);
    // Outside row 2 lies the 5.
    assert_eq!(n_beside(&puzzle, &trail, &cites), 1);
}

/// Box 5 is looked at for the places of its 5, row 5 because they all lie there.
#[test]
fn houses_that_are_counted_on_are_held_in_view() {
    let elsewhere = [(4, 4), (4, 5), (4, 6), (6, 4), (6, 5), (6, 6)];
    let houses = [house(HouseKind::Row, 5), house(HouseKind::Box, 5)];
    let (puzzle, trail, step, cites) = step(&elsewhere, &houses, Claim::IsNot(cell(5, 9), five()));
    assert!(replay::judge(&puzzle, &trail, &Claim::IsNot(cell(5, 9), five()), &cites, CAP).is_ok());
    assert_eq!(n_in_view(&puzzle, &trail, step, CAP), 2);
    // Outside box 5 lies the 5 of row 1, which is cited to spare.
    assert_eq!(n_beside(&puzzle, &trail, &cites), 1);
}

/// A line that a fact is about is looked at, cited or not.
#[test]
fn a_line_that_a_fact_is_about_is_looked_at() {
    let puzzle = Puzzle::new(Grid::empty(SIZE), []);
    let mut trail = Trail::from_page(&puzzle);
    let row = house(HouseKind::Row, 4);
    let told = [
        Claim::Spent { line: row, filling: SIZE.digits().without(five()).without(SIZE.digit(1).unwrap()) },
        Claim::IsNot(cell(4, 1), five()),
        Claim::IsNot(cell(5, 1), five()),
    ];
    let argument = Argument::SeesBothCrusts { cells: grid::CellSet::EMPTY };
    let conclusions = told.iter().map(|it| (*it, Cites::default())).collect();
    trail.push(Proposal { technique: TechniqueId::new("test"), argument, conclusions }).unwrap();
    let all = trail.facts().fold(Cites::default(), |cites, (id, _)| cites.fact(id));
    assert_eq!(n_beside(&puzzle, &trail, &all), 1);
    let cells_alone = trail.facts().skip(1).fold(Cites::default(), |cites, (id, _)| cites.fact(id));
    assert_eq!(n_beside(&puzzle, &trail, &cells_alone), 2);
}
