//! The fewest additions that leave one solution.

use grid::{Grid, Size};
use proptest::prelude::*;
use prove::{
    Effort, Limit, Many, Printed, Verdict, differences, fewest, open_clues, open_givens, single_givens,
    verdict,
};
use rulebook::Puzzle;

use crate::drawn::{LIMIT, config, counted, with_solutions};
use crate::seeded::{self, Seeded};

const EFFORT: Effort = Effort { limit: LIMIT, verdicts: 20_000, choices: 1_000_000 };

fn two_solutions(puzzle: &Puzzle) -> Many {
    match verdict(puzzle, LIMIT) {
        Verdict::Many(many) => many,
        other => panic!("{puzzle:?} was drawn with several solutions, but has {other:?}"),
    }
}

fn with(puzzle: &Puzzle, added: &[Printed]) -> Puzzle {
    added.iter().fold(puzzle.clone(), |puzzle, it| it.added_to(&puzzle))
}

/// Whether some choice of so many of what is offered leaves one solution; all are tried.
fn can_settle(puzzle: &Puzzle, offered: &[Printed], n: usize) -> bool {
    match n {
        0 => counted(puzzle, 2) == 1,
        _ => {
            (0..offered.len()).any(|at| can_settle(&offered[at].added_to(puzzle), &offered[at + 1..], n - 1))
        }
    }
}

fn is_settled_by_the_fewest(puzzle: &Puzzle, chosen: &Grid, offered: &[Printed]) {
    assert!(offered.iter().all(|it| it.is_true_of(chosen) && it.added_to(puzzle) != *puzzle));
    let Some(settling) = fewest(puzzle, chosen, offered, EFFORT) else {
        assert!(counted(&with(puzzle, offered), 2) > 1, "all of it together is enough");
        return;
    };
    assert_eq!(verdict(&with(puzzle, &settling.added), LIMIT), Verdict::One(chosen.clone()));
    assert!(settling.is_fewest(), "{settling:?}");
    // Four at a time are too many to try all.
    let n = settling.added.len();
    assert!(n > 0);
    if n <= 3 {
        assert!(!can_settle(puzzle, offered, n - 1), "{n} are not the fewest");
    }
}

proptest! {
    #![proptest_config(config(40))]

    #[test]
    fn the_fewest_givens_and_clues_of_a_solution(puzzle in with_solutions(2)) {
        let many = two_solutions(&puzzle);
        for chosen in [&many.first, &many.second] {
            is_settled_by_the_fewest(&puzzle, chosen, &open_givens(&puzzle, chosen));
            is_settled_by_the_fewest(&puzzle, chosen, &open_clues(&puzzle, chosen));
        }
    }

    #[test]
    fn single_givens_are_all_there(puzzle in with_solutions(2)) {
        let many = two_solutions(&puzzle);
        let found = single_givens(&puzzle, &many, LIMIT);
        prop_assert_eq!(found.n_undecided, 0);
        let size = puzzle.size();
        let open = size.cells().filter(|it| !puzzle.is_given(*it));
        let all = open.flat_map(|cell| size.digits().iter().map(move |it| Printed::Given(cell, it)));
        let expected: Vec<Printed> = all.filter(|it| counted(&it.added_to(&puzzle), 2) == 1).collect();
        prop_assert_eq!(found.givens, expected);
    }

    #[test]
    fn solutions_differ_where_it_is_said(puzzle in with_solutions(2)) {
        let many = two_solutions(&puzzle);
        let differing = differences(&many);
        prop_assert!(!differing.is_empty());
        for cell in puzzle.size().cells() {
            let told = differing.iter().find(|it| it.0 == cell).map(|it| (Some(it.1), Some(it.2)));
            let held = (many.first.get(cell), many.second.get(cell));
            prop_assert_eq!(told, (held.0 != held.1).then_some(held));
        }
    }
}

#[test]
fn every_missing_clue_of_a_rule_on_the_page_is_offered() {
    let mut seeded = Seeded::new(3);
    let grid = seeded::full_grid(Size::NINE, &mut seeded);
    let clues = seeded::true_clues(&grid);
    let shown = Puzzle::new(Grid::empty(Size::NINE), clues[..5].iter().copied());
    let missing: Vec<Printed> = clues[5..].iter().map(|it| Printed::Clue(*it)).collect();
    assert_eq!(open_clues(&shown, &grid), missing);
    assert_eq!(open_clues(&Puzzle::new(Grid::empty(Size::NINE), []), &grid), []);
}

#[test]
fn what_is_not_proved_is_not_said_to_be() {
    // No classic 9x9 puzzle has one solution with fewer than 17 givens (McGuire, Tugemann, Civario,
    // arXiv:1201.0749), which no search of this kind proves.
    let mut seeded = Seeded::new(5);
    let grid = seeded::full_grid(Size::NINE, &mut seeded);
    let blank = Puzzle::new(Grid::empty(Size::NINE), []);
    let effort = Effort { limit: LIMIT, verdicts: 3_000, choices: 20_000 };
    let settling = fewest(&blank, &grid, &open_givens(&blank, &grid), effort).expect("some way");
    assert_eq!(verdict(&with(&blank, &settling.added), LIMIT), Verdict::One(grid.clone()));
    assert!(settling.added.len() >= 17 && !settling.is_fewest());
    assert!((1..=17).contains(&settling.at_least), "{}", settling.at_least);
    let too_little = Effort { limit: Limit(0), ..effort };
    assert_eq!(fewest(&blank, &grid, &open_givens(&blank, &grid), too_little), None);
}

#[test]
fn bug_what_is_no_solution_is_never_settled_on() {
    // The offered clues leave one solution, but not the grid chosen, against which a given speaks.
    let mut seeded = Seeded::new(6);
    let grid = seeded::full_grid(Size::NINE, &mut seeded);
    let puzzle =
        seeded::sparse_puzzle(Size::NINE, &mut seeded, |it| matches!(verdict(it, LIMIT), Verdict::One(_)));
    assert!(!puzzle.is_solved_by(&grid));
    assert_eq!(fewest(&puzzle, &grid, &[], EFFORT), None);
}
