//! Answers to questions about one claim, word for word.

use crate::support::{cell, digit, digits, house, sentences};
use grid::{CellSet, Grid, Size};
use reason::{Position, Settings, easiest_to};
use rulebook::{Claim, Puzzle};
use tell::{because, opposite_not_yet, true_but_not_yet, untrue, would_have_taken, wrong_board};

#[test]
fn reasons_name_what_settles_the_claim() {
    let size = Size::NINE;
    let not_5 = Claim::IsNot(cell("r4c7"), digit(5));
    let is_5 = Claim::Is(cell("r4c7"), digit(5));
    let cases = [
        (is_5, is_5, None, 0, "r4c7 is 5: that stands on the board."),
        (is_5, is_5, None, 3, "r4c7 is 5: that takes three steps."),
        (
            not_5,
            Claim::Is(cell("r4c2"), digit(5)),
            Some(house("row 4")),
            0,
            "r4c7 is not 5, because r4c2 is 5 and row 4 has only one 5. That r4c2 is 5 stands on the board.",
        ),
        (
            not_5,
            Claim::Is(cell("r4c2"), digit(5)),
            Some(house("row 4")),
            20,
            "r4c7 is not 5, because r4c2 is 5 and row 4 has only one 5. That r4c2 is 5 takes 20 steps.",
        ),
        (
            not_5,
            Claim::Is(cell("r4c7"), digit(3)),
            None,
            1,
            "r4c7 is not 5, because it is 3. That takes one step.",
        ),
        (
            not_5,
            Claim::Crust(cell("r4c7")),
            None,
            2,
            "r4c7 is not 5, because it is a crust. That takes two steps.",
        ),
    ];
    for (goal, by, seen_in, n_steps, said) in cases {
        assert_eq!(because(size, goal, by, seen_in, n_steps), said);
    }
}

#[test]
fn judgements_say_what_is_missing_or_wrong() {
    let size = Size::NINE;
    let one = [Claim::Is(cell("r3c3"), digit(5))];
    assert_eq!(
        true_but_not_yet(size, 12, &one, 4),
        "True, but it does not follow yet: no way by techniques was found within twelve steps. It \
         would follow, in four steps, if this were known: r3c3 is 5."
    );
    let several = [
        Claim::Spent { line: house("row 3"), filling: digits(&[7]) },
        Claim::IsNot(cell("r1c9"), digit(4)),
        Claim::IsNot(cell("r2c9"), digit(4)),
    ];
    assert!(
        true_but_not_yet(size, 12, &several, 2)
            .ends_with("in two steps, if these were known: row 3's filling is 7; r1c9 and r2c9 are not 4.")
    );
    assert_eq!(
        untrue(cell("r4c7"), digit(3), digits(&[3, 5, 8])),
        "Not true: r4c7 is 3. For all that r4c7 sees on this board, it could be 3, 5 or 8."
    );
    assert_eq!(untrue(cell("r4c7"), digit(3), digits(&[3])), "Not true: r4c7 is 3.");
    assert_eq!(
        opposite_not_yet(1),
        "That does not follow yet: no way by techniques was found within one step."
    );
    assert_eq!(
        wrong_board(size, &[(cell("r2c2"), digit(4))]),
        "This board is wrong, so nothing that follows from it counts. In the solution, r2c2 is not 4."
    );
}

/// Most words of a sentence, as for steps.
const LONGEST: usize = 30;

#[test]
fn long_answers_are_cut_into_sentences() {
    let size = Size::NINE;
    let other = |at: usize| digit(at as u8 % 9 + 1);
    let cells = size.cells().step_by(4).take(20).enumerate();
    let facts: Vec<Claim> = cells.map(|(at, it)| Claim::Is(it, other(at))).collect();
    let wrong: Vec<_> = size.cells().step_by(4).take(20).map(|it| (it, digit(7))).collect();
    for text in [true_but_not_yet(size, 12, &facts, 4), wrong_board(size, &wrong)] {
        let words = |it: &str| it.split_whitespace().count();
        assert!(sentences(&text).iter().all(|it| words(it) <= LONGEST), "{text}");
        assert!(facts.iter().all(|it| text.contains(&it.cell().unwrap().to_string())), "{text}");
    }
}

/// A board of 4x4 whose last cell takes several steps, as the desk tells of a digit that was written too early.
#[test]
fn what_would_have_led_there_names_the_hardest_step_and_the_digits_on_the_way() {
    let grid = Grid::from_line("1...3.2.......4.").unwrap();
    let (size, puzzle) = (grid.size(), Puzzle::new(grid, []));
    let position = Position { board: &puzzle, notes: &[], pencilled: CellSet::EMPTY };
    let told = |at: &str, it: u8| {
        let cell = size.cells().find(|it| it.to_string() == at).unwrap();
        let claim = Claim::Is(cell, digit(it));
        would_have_taken(size, &easiest_to(position, claim, Settings::TECHNIQUES_ALONE).unwrap())
    };
    assert_eq!(told("r1c1", 1), "It stands on the board.");
    assert_eq!(
        told("r4c4", 3),
        "Eleven steps, the hardest of them “hidden single”. On the way, r1c2 is 2; r2c2 is 4; r2c4 is 1; r1c4 is 4; \
         r1c3 is 3; r3c3 is 1; r4c2 is 1; r3c2 is 3; r3c1 is 4. And r4c1 is 2."
    );
    assert_eq!(told("r1c2", 2), "One step: hidden single.");
}
