//! Every change of one thing, judged.

use grid::{Grid, Size};
use proptest::prelude::*;
use prove::{
    Change, Limit, Mend, Mends, Printed, Slip, Solutions, Verdict, changes_at, mends, mends_at, verdict,
};
use rulebook::{Clue, Puzzle};

use crate::drawn::{LIMIT, config, counted, with_solutions};
use crate::seeded::{self, Seeded};

const CAP: u64 = 6;

fn changes(puzzle: &Puzzle) -> Vec<Change> {
    Printed::all(puzzle).into_iter().flat_map(|it| changes_at(puzzle, it)).collect()
}

proptest! {
    #![proptest_config(config(60))]

    #[test]
    fn each_change_is_judged_rightly(puzzle in with_solutions(0)) {
        let found = mends(&puzzle, CAP, LIMIT);
        let changes = changes(&puzzle);
        prop_assert_eq!(found.n_changes, changes.len());
        for change in changes {
            let expected = match counted(&change.applied_to(&puzzle), CAP) {
                0 => None,
                CAP => Some(Solutions::AtLeast(CAP)),
                n => Some(Solutions::Exactly(n)),
            };
            let got = found.mends.iter().find(|it| it.change == change);
            prop_assert_eq!(got.map(|it| it.solutions), expected.map(Some), "{:?}", change);
        }
    }

    #[test]
    fn one_solution_comes_before_several_and_likely_slips_first(puzzle in with_solutions(0)) {
        let found = mends(&puzzle, CAP, LIMIT).mends;
        let is_one = |it: &Mend| it.solutions == Some(Solutions::Exactly(1));
        prop_assert!(found.is_sorted_by_key(|it| !is_one(it)));
        for part in found.chunk_by(|a, b| is_one(a) == is_one(b)) {
            let likeliest: Vec<Slip> = part.iter().map_while(|it| it.slips.first().copied()).collect();
            prop_assert!(likeliest.is_sorted());
            prop_assert!(part[likeliest.len()..].iter().all(|it| it.slips.is_empty()));
        }
    }

    #[test]
    fn bug_the_mends_of_one_thing_are_in_order_too(puzzle in with_solutions(0)) {
        for it in Printed::all(&puzzle) {
            let part = mends_at(&puzzle, it, CAP, LIMIT);
            prop_assert_eq!([part.clone()].into_iter().collect::<Mends>(), part);
        }
    }

    #[test]
    fn what_cannot_be_decided_is_told(puzzle in with_solutions(0)) {
        let found = mends(&puzzle, CAP, Limit(0));
        prop_assert_eq!(found.mends.len(), found.n_changes);
        prop_assert!(found.mends.iter().all(|it| it.solutions.is_none()));
    }
}

#[test]
fn transposed_digits_of_a_clue_are_found_first() {
    let mut seeded = Seeded::new(12);
    let mut n_mended = 0;
    while n_mended < 12 {
        let has_one = |it: &Puzzle| matches!(verdict(it, LIMIT), Verdict::One(_));
        let puzzle = seeded::sparse_puzzle(Size::NINE, &mut seeded, has_one);
        // Of 1 to 9 a value such as 12 can be typed as 21, which is some other line's sum.
        let is_slippery = |it: &&Clue| matches!(it.value, 12 | 13 | 21 | 23 | 31 | 32);
        let Some(clue) = puzzle.clues().iter().find(is_slippery).copied() else { continue };
        let wrong = Clue { value: clue.value % 10 * 10 + clue.value / 10, ..clue };
        let spoilt = Printed::Clue(wrong).added_to(&puzzle);
        if verdict(&spoilt, LIMIT) != Verdict::None {
            continue;
        }
        n_mended += 1;
        let found = mends(&spoilt, CAP, LIMIT);
        let right = Change::new(Size::NINE, Printed::Clue(wrong), Some(clue.value)).unwrap();
        let first = &found.mends[0];
        assert_eq!((first.change, first.solutions), (right, Some(Solutions::Exactly(1))), "{spoilt:?}");
        assert_eq!(first.slips[0], Slip::Transposed);
        assert_eq!(right.applied_to(&spoilt), puzzle);
    }
}

#[test]
fn bug_what_is_no_digit_is_refused_and_does_not_count_as_a_blank() {
    let puzzle = Puzzle::new(Grid::from_line("1234............").unwrap(), []);
    let (cell, digit) = puzzle.givens().filled().next().unwrap();
    let given = Printed::Given(cell, digit);
    let to = |value| Change::new(puzzle.size(), given, value);
    for value in [0, 5, 16, 256 + 3, u16::MAX] {
        assert_eq!(to(Some(value)), None, "{value}");
    }
    let blank = to(None).unwrap();
    assert_eq!(blank.applied_to(&puzzle), given.taken_from(&puzzle));
    let all: Vec<Change> = [2, 3, 4].map(Some).into_iter().chain([None]).filter_map(to).collect();
    assert_eq!(changes_at(&puzzle, given), all);
    for change in all {
        let first = change.applied_to(&puzzle).givens().get(cell).map(|it| u16::from(it.get()));
        assert_eq!((first, change.printed()), (change.to(), given));
    }
}
