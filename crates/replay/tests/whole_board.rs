//! All 27 houses and 18 clues cited at once, on 9x9 boards made for these tests: it finishes, and what
//! follows is what is so in every solution.

mod common;

use common::{assert_counterexample, cell, claim, everything, supposing};
use grid::{Grid, Size};
use replay::{Cap, Refusal, judge};
use rulebook::{Claim, Clue, Puzzle, Rule, SANDWICH};
use trail::Trail;

/// Completed boards, each with the cells whose digits, printed beside all 18 sums, leave no other.
const BOARDS: [(&str, &str); 3] = [
    ("284173695695248137317659428846397251952481376731526984128734569473965812569812743", "r1c4"),
    ("368295741254781369791436528625149873817362954943578216582914637176823495439657182", "r3c8 r3c2 r4c4"),
    (
        "453687129269135874718942563942316758836574912571298436695821347327459681184763295",
        "r2c9 r4c9 r9c4 r3c2 r3c1 r7c8",
    ),
];

/// The puzzle with all sums of the board and the digits of some of its cells.
fn puzzle(board: &Grid, given: &str) -> Puzzle {
    let size = board.size();
    let given: Vec<_> = given.split_whitespace().map(|it| cell(size, it)).collect();
    let givens = Grid::from_fn(size, |it| given.contains(&it).then(|| board.get(it)).flatten());
    let clues = size.lines().map(|line| {
        let digits: Vec<_> = size.cells_of(line).into_iter().map(|it| board.get(it).unwrap()).collect();
        let value = (0..=35).find(|it| SANDWICH.allows(size, *it, &digits)).unwrap();
        Clue { rule: &SANDWICH, line, value }
    });
    Puzzle::new(givens, clues)
}

#[test]
fn every_digit_of_the_one_solution_follows() {
    for (board, given) in BOARDS {
        let board = Grid::from_line(board).unwrap();
        let puzzle = puzzle(&board, given);
        assert!(puzzle.is_solved_by(&board));
        let trail = Trail::from_page(&puzzle);
        let cites = everything(&puzzle, &trail);
        for (at, digit) in board.filled() {
            match judge(&puzzle, &trail, &Claim::Is(at, digit), &cites, Cap(1000)) {
                Ok(nodes) => assert!(nodes <= 20, "{at}={digit} took {nodes} nodes"),
                Err(refusal) => panic!("{at}={digit} is refused: {refusal}"),
            }
            let wrong = Claim::IsNot(at, digit);
            match judge(&puzzle, &trail, &wrong, &cites, Cap(1000)) {
                Err(Refusal::Counterexample(filling)) => {
                    assert_eq!(filling, board.filled().collect::<Vec<_>>());
                }
                other => panic!("{wrong:?} gave {other:?}"),
            }
        }
    }
}

#[test]
fn with_a_given_uncited_the_second_solution_shows_up() {
    let board = Grid::from_line(BOARDS[0].0).unwrap();
    let puzzle = puzzle(&board, BOARDS[0].1);
    let trail = Trail::from_page(&puzzle);
    let mut cites = everything(&puzzle, &trail);
    // The only given is a 1: without it nothing tells the 1s from the 9s.
    cites.facts.clear();
    let is_one = claim(Size::NINE, "r1c4=1");
    let Err(Refusal::Counterexample(filling)) = judge(&puzzle, &trail, &is_one, &cites, Cap(1000)) else {
        panic!("nothing says which crust is the 1");
    };
    assert_counterexample(&puzzle, &trail, &is_one, &cites, &filling);
    let crust = claim(Size::NINE, "r1c4 crust");
    assert!(judge(&puzzle, &trail, &crust, &cites, Cap(1000)).is_ok());
}

#[test]
fn the_cap_is_kept() {
    let board = Grid::from_line(BOARDS[0].0).unwrap();
    let puzzle = puzzle(&board, BOARDS[0].1);
    let trail = Trail::from_page(&puzzle);
    let cites = everything(&puzzle, &trail);
    let most = board.filled().map(|(at, digit)| {
        let claim = Claim::Is(at, digit);
        let nodes = judge(&puzzle, &trail, &claim, &cites, Cap(1000)).unwrap();
        assert_eq!(judge(&puzzle, &trail, &claim, &cites, Cap(nodes)), Ok(nodes));
        assert_eq!(judge(&puzzle, &trail, &claim, &cites, Cap(nodes - 1)), Err(Refusal::CapReached));
        nodes
    });
    assert!(most.max() > Some(1), "no claim needs cases, so the cap was hardly tested");
}

#[test]
fn a_step_that_argues_from_there_being_one_solution_is_refused() {
    // Two rows, two columns and two boxes meet in four cells. If the fourth were 3 or 5 too, these four
    // could be exchanged, so whoever trusts that the puzzle has one solution writes 7 in it.
    let puzzle = common::puzzle(&".".repeat(81), "");
    let mut facts = Vec::new();
    for digit in puzzle.size().digits().iter() {
        for at in ["r1c1", "r1c4", "r2c1", "r2c4"] {
            let spare = at == "r2c4" && digit.get() == 7;
            if ![3, 5].contains(&digit.get()) && !spare {
                facts.push(claim(Size::NINE, &format!("{at}!={digit}")));
            }
        }
    }
    let (trail, _) = supposing(&puzzle, &facts);
    let mut cites = everything(&puzzle, &trail);
    let seven = claim(Size::NINE, "r2c4=7");
    for only_these in [false, true] {
        if only_these {
            let named = ["row 1", "row 2", "column 1", "column 4", "box 1", "box 2"];
            cites.houses = named.iter().map(|it| common::house(Size::NINE, it)).collect();
        }
        match judge(&puzzle, &trail, &seven, &cites, Cap(1000)) {
            Err(Refusal::Counterexample(filling)) => {
                assert_counterexample(&puzzle, &trail, &seven, &cites, &filling);
            }
            other => panic!("{other:?}"),
        }
    }
}
