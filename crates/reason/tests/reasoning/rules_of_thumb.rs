//! What teachers of these puzzles say by heart, each shown by a technique on an empty board.
//!
//! The rules are common practice of the trade, without a source; that they are true is checked by
//! arithmetic beside each.

use grid::{Digit, DigitSet, Grid, House, Size};
use reason::{View, technique};
use rulebook::{Claim, Clue, Puzzle, Rule, SANDWICH, crusts, filling_digits};
use trail::{Cites, Proposal, TechniqueId};

const NINE: Size = Size::NINE;

/// The first row, the only one with a clue.
fn row() -> House {
    NINE.lines().next().unwrap()
}

/// An empty board with that one clue.
fn board(value: u16) -> Puzzle {
    Puzzle::new(Grid::empty(NINE), [Clue { rule: &SANDWICH, line: row(), value }])
}

/// What the technique says on a board where those that come before it have been heard out.
fn says(puzzle: &Puzzle, before: &[&'static str], last: &'static str) -> Vec<Claim> {
    let mut view = View::new(puzzle);
    let find = |name: &'static str, view: &View| technique(TechniqueId::new(name)).unwrap().find(view);
    for name in before {
        while let Some(step) = find(name, &view).into_iter().next() {
            view.take(step).unwrap();
        }
    }
    let steps: Vec<Proposal> = find(last, &view);
    steps.into_iter().flat_map(|it| it.conclusions).map(|(claim, _): (Claim, Cites)| claim).collect()
}

fn fewest_filling(value: u16) -> Option<u8> {
    says(&board(value), &[], "crust-distance").into_iter().find_map(|it| match it {
        Claim::FillingCells { fewest, .. } => Some(fewest),
        _ => None,
    })
}

/// The `n` largest or smallest filling digits together.
fn sum_of(n: usize, digits: impl Iterator<Item = Digit>) -> u16 {
    digits.take(n).map(|it| u16::from(it.get())).sum()
}

#[test]
fn three_filling_cells_reach_at_most_21_and_four_at_most_26() {
    let largest = |n| sum_of(n, filling_digits(NINE).iter().rev());
    assert_eq!((largest(3), largest(4)), (21, 26));
    for (value, fewest) in [(21, 3), (22, 4), (26, 4), (27, 5)] {
        assert_eq!(fewest_filling(value), Some(fewest), "{value}");
    }
}

#[test]
fn three_outside_digits_sum_to_at_least_9() {
    let smallest = |n| sum_of(n, filling_digits(NINE).iter());
    assert_eq!(smallest(3), 9);
    // All filling digits are 35, so what leaves less than 9 has at most two outside and five inside.
    assert_eq!((35 - 26, 35 - 27), (9, 8));
    assert_eq!((fewest_filling(26), fewest_filling(27)), (Some(4), Some(5)));
}

#[test]
fn from_22_on_no_crust_is_in_the_middle_of_its_line() {
    let middle = Claim::Filling(NINE.cells_of(row())[4]);
    for value in SANDWICH.reachable(NINE).into_iter().filter(|it| *it < 35) {
        let says = says(&board(value), &["crust-distance"], "crust-reach");
        assert_eq!(says.contains(&middle), value >= 22, "{value}: {says:?}");
    }
}

#[test]
fn sums_of_31_to_33_leave_one_digit_outside() {
    for (value, outside) in [(31, 4), (32, 3), (33, 2)] {
        assert_eq!(35 - value, outside);
        let digit = NINE.digit(outside as u8).unwrap();
        let filling = filling_digits(NINE).without(digit);
        let says = ["outside-digits", "filling-sets"].map(|it| says(&board(value), &["crust-distance"], it));
        let spent = Claim::Spent { line: row(), filling };
        assert!(says.concat().contains(&spent), "{value}: {says:?}");
    }
}

#[test]
fn the_crusts_of_a_line_sum_to_10_and_every_house_has_two() {
    let (one, last) = crusts(NINE);
    assert_eq!(one.get() + last.get(), 10);
    assert_eq!(DigitSet::only(one).with(last), NINE.digits() - filling_digits(NINE));
    for house in NINE.houses() {
        let cells = NINE.cells_of(house);
        let givens = Grid::empty(NINE).with(cells[0], Some(one)).with(cells[4], Some(last));
        let says = says(
            &Puzzle::new(givens, [Clue { rule: &SANDWICH, line: row(), value: 12 }]),
            &[],
            "crusts-found",
        );
        let others = cells.iter().filter(|it| ![cells[0], cells[4]].contains(it));
        assert!(others.into_iter().all(|it| says.contains(&Claim::Filling(*it))), "{house:?}: {says:?}");
    }
}

#[test]
fn a_clue_is_spent_once_its_filling_or_its_outside_is_known() {
    // A filling of three cells that sums to 21 is 6, 7 and 8; an outside of one digit is known with it.
    let is_spent = |it: &Claim| matches!(it, Claim::Spent { .. });
    let known = |value, places: [usize; 2]| {
        let cells = NINE.cells_of(row());
        let (one, last) = crusts(NINE);
        let givens = Grid::empty(NINE).with(cells[places[0]], Some(one)).with(cells[places[1]], Some(last));
        let puzzle = Puzzle::new(givens, [Clue { rule: &SANDWICH, line: row(), value }]);
        let by = |name: &'static str| says(&puzzle, &[], name).iter().any(is_spent);
        by("filling-sets") || by("outside-digits")
    };
    assert!(known(21, [2, 6]), "the filling is known");
    assert!(known(31, [1, 8]), "the digit outside is known");
    assert!(!known(16, [2, 6]), "2 + 6 + 8 and 3 + 5 + 8 both make 16");
}
