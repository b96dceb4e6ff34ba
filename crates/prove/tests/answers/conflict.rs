//! What contradicts itself, held against a search that knows nothing of the solver.

use grid::{Digit, Grid, House, Size};
use proptest::prelude::*;
use prove::{Conflict, Digging, Limit, Member, Printed, conflict};
use rulebook::Puzzle;

use crate::drawn::{LIMIT, config, with_solutions};

const DIGGING: Digging = Digging { work: 100_000, limit: LIMIT, more_work: 1_000_000, choices: 1_000_000 };

/// Whether all of this can hold together: cell by cell, digits in order.
fn can_hold(size: Size, members: &[Member]) -> bool {
    let givens = members.iter().filter_map(|it| match *it {
        Member::Given(cell, digit) => Some((cell, digit)),
        _ => None,
    });
    let grid = givens.fold(Grid::empty(size), |grid, (cell, digit)| grid.with(cell, Some(digit)));
    size.cells().all(|cell| grid.get(cell).is_none() || members.iter().all(|it| fits(&grid, *it)))
        && can_fill(&grid, members)
}

fn can_fill(grid: &Grid, members: &[Member]) -> bool {
    let size = grid.size();
    let is_spoken_of =
        |cell| members.iter().any(|it| house(*it).is_some_and(|it| size.houses_of(cell).contains(&it)));
    let open = size.cells().find(|it| grid.get(*it).is_none() && is_spoken_of(*it));
    let Some(cell) = open else { return true };
    size.digits().iter().any(|digit| {
        let next = grid.clone().with(cell, Some(digit));
        members.iter().all(|it| fits(&next, *it)) && can_fill(&next, members)
    })
}

fn house(member: Member) -> Option<House> {
    match member {
        Member::Given(..) => None,
        Member::Clue(clue) => Some(clue.line),
        Member::House(house) => Some(house),
    }
}

/// Whether it holds, as far as the board is filled.
fn fits(grid: &Grid, member: Member) -> bool {
    let digits = |house| -> Vec<Digit> {
        grid.size().cells_of(house).into_iter().filter_map(|it| grid.get(it)).collect()
    };
    let no_digit_twice = |house| {
        let mut digits = digits(house);
        digits.sort();
        digits.windows(2).all(|it| it[0] != it[1])
    };
    match member {
        Member::Given(cell, digit) => grid.get(cell) == Some(digit),
        Member::House(house) => no_digit_twice(house),
        Member::Clue(clue) => {
            let is_full = digits(clue.line).len() == usize::from(grid.size().side());
            no_digit_twice(clue.line) && (!is_full || Printed::Clue(clue).is_true_of(grid))
        }
    }
}

/// Without this member; a line takes its clue along.
fn without(members: &[Member], gone: Member) -> Vec<Member> {
    let goes_along = |it: &Member| match (gone, *it) {
        (Member::House(house), Member::Clue(clue)) => clue.line == house,
        _ => *it == gone,
    } || *it == gone;
    members.iter().copied().filter(|it| !goes_along(it)).collect()
}

/// Every member there is.
fn everything(puzzle: &Puzzle) -> Vec<Member> {
    let printed = Printed::all(puzzle).into_iter().map(|it| match it {
        Printed::Given(cell, digit) => Member::Given(cell, digit),
        Printed::Clue(clue) => Member::Clue(clue),
    });
    printed.chain(puzzle.size().houses().map(Member::House)).collect()
}

/// Whether so many of what is offered, and no fewer, contradict what was chosen before.
fn is_there_a_conflict(size: Size, chosen: &mut Vec<Member>, offered: &[Member], n: usize) -> bool {
    if n == 0 {
        // A clue counts with its line or not at all.
        let has_line = |it: &Member| match it {
            Member::Clue(clue) => chosen.contains(&Member::House(clue.line)),
            _ => true,
        };
        return chosen.iter().all(has_line) && !can_hold(size, chosen);
    }
    (0..offered.len()).any(|at| {
        chosen.push(offered[at]);
        let found = is_there_a_conflict(size, chosen, &offered[at + 1..], n - 1);
        chosen.pop();
        found
    })
}

proptest! {
    #![proptest_config(config(60))]

    #[test]
    fn a_conflict_needs_all_its_members(puzzle in with_solutions(0)) {
        let Some(Conflict { members, at_least }) = conflict(&puzzle, DIGGING) else {
            return Err(TestCaseError::fail("no conflict"));
        };
        let size = puzzle.size();
        prop_assert!(members.iter().all(|it| everything(&puzzle).contains(it)));
        prop_assert!(!can_hold(size, &members), "{:?}", members);
        for it in &members {
            prop_assert!(can_hold(size, &without(&members, *it)), "{:?} without {:?}", members, it);
            if let Member::Clue(clue) = it {
                prop_assert!(members.contains(&Member::House(clue.line)));
            }
        }
        prop_assert_eq!(at_least, members.len(), "small boards are dug through");
    }

    #[test]
    fn no_conflict_is_smaller(puzzle in with_solutions(0)) {
        let found = conflict(&puzzle, DIGGING).expect("a conflict");
        // Five at a time are too many to try all.
        let n = found.members.len();
        prop_assume!(puzzle.size().side() == 4 && n <= 5);
        prop_assert!(!is_there_a_conflict(puzzle.size(), &mut Vec::new(), &everything(&puzzle), n - 1));
    }

    #[test]
    fn a_puzzle_with_a_solution_has_none(puzzle in with_solutions(1)) {
        prop_assert_eq!(conflict(&puzzle, DIGGING), None);
    }

    #[test]
    fn with_little_work_it_is_irreducible_all_the_same(puzzle in with_solutions(0)) {
        prop_assume!(puzzle.size().side() == 4);
        let little = Digging { more_work: 0, choices: 1, ..DIGGING };
        let found = conflict(&puzzle, little).expect("a conflict");
        let smallest = conflict(&puzzle, DIGGING).expect("a conflict");
        prop_assert!(found.at_least <= smallest.members.len());
        prop_assert!(found.members.len() >= smallest.members.len());
        prop_assert!(!can_hold(puzzle.size(), &found.members));
        for it in &found.members {
            prop_assert!(can_hold(puzzle.size(), &without(&found.members, *it)));
        }
        // What no verdict tells beforehand is asked all the same.
        let untold = Digging { limit: Limit(0), ..little };
        prop_assert!(conflict(&puzzle, untold).is_some_and(|it| !can_hold(puzzle.size(), &it.members)));
        prop_assert_eq!(conflict(&puzzle, Digging { work: 0, ..DIGGING }), None);
    }
}
