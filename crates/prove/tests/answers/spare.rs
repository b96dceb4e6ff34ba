//! What can go and what cannot.

use proptest::prelude::*;
use prove::{Irreducible, Limit, Printed, Spare, irreducible, spare};
use rulebook::Puzzle;

use crate::drawn::{LIMIT, config, counted, with_solutions};

fn without(puzzle: &Puzzle, gone: &[Printed]) -> Puzzle {
    gone.iter().fold(puzzle.clone(), |puzzle, it| it.taken_from(&puzzle))
}

proptest! {
    #![proptest_config(config(60))]

    #[test]
    fn what_is_spare_can_go_and_what_is_needed_cannot(puzzle in with_solutions(1)) {
        let Spare { spare, needed, undecided } = spare(&puzzle, LIMIT);
        prop_assert_eq!(undecided, []);
        prop_assert_eq!(spare.len() + needed.len(), Printed::all(&puzzle).len());
        for it in spare {
            prop_assert_eq!(counted(&it.taken_from(&puzzle), 2), 1, "{:?}", it);
        }
        for it in needed {
            prop_assert_eq!(counted(&it.taken_from(&puzzle), 2), 2, "{:?}", it);
        }
    }

    #[test]
    fn nothing_can_go_from_an_irreducible_form(puzzle in with_solutions(1)) {
        let known = spare(&puzzle, LIMIT);
        let Irreducible { puzzle: left, gone, undecided } = irreducible(&puzzle, &known, LIMIT);
        prop_assert_eq!(undecided, []);
        prop_assert_eq!(&left, &without(&puzzle, &gone));
        prop_assert_eq!(counted(&left, 2), 1);
        for it in Printed::all(&left) {
            prop_assert_eq!(counted(&it.taken_from(&left), 2), 2, "{:?} is spare", it);
        }
        // What is not said to be needed is tried all the same.
        prop_assert_eq!(irreducible(&puzzle, &Spare::default(), LIMIT).puzzle, left);
    }

    #[test]
    fn what_is_taken_and_put_back_is_as_it_was(puzzle in with_solutions(1)) {
        for it in Printed::all(&puzzle) {
            let fewer = it.taken_from(&puzzle);
            prop_assert!(!Printed::all(&fewer).contains(&it));
            prop_assert_eq!(it.added_to(&fewer), puzzle.clone());
            prop_assert_eq!(it.added_to(&puzzle), puzzle.clone());
        }
    }

    #[test]
    fn without_work_nothing_is_claimed(puzzle in with_solutions(1)) {
        let known = spare(&puzzle, Limit(0));
        prop_assert_eq!(&known.undecided, &Printed::all(&puzzle));
        let left = irreducible(&puzzle, &known, Limit(0));
        prop_assert_eq!(left.puzzle, puzzle);
        prop_assert_eq!(left.undecided.len(), known.undecided.len());
    }
}
