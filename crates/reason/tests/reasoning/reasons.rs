//! Why is that so? What every reason promises, over puzzles from a seed.

use reason::{Unanswered, why};
use rulebook::{Claim, crusts};

use crate::support::known::{Known, SETTINGS, check_reason, corpus};

#[test]
fn every_reason_ends_at_what_was_asked_and_has_nothing_to_spare() {
    for it in corpus() {
        for claim in it.true_claims() {
            let why = why(it.solved(), claim, SETTINGS).unwrap();
            check_reason(&format!("{}: {claim:?}", it.name), &it.made.puzzle, claim, &why);
            assert!(why.trail().n_steps() <= n_steps_of_walkthrough(it, claim), "{}: {claim:?}", it.name);
        }
    }
}

#[test]
fn the_reason_for_a_given_is_the_page() {
    for it in corpus() {
        for (cell, digit) in it.made.puzzle.givens().filled() {
            let (one, last) = crusts(it.size());
            let kind = if digit == one || digit == last { Claim::Crust(cell) } else { Claim::Filling(cell) };
            let others = it.size().digits().without(digit).iter().map(|it| Claim::IsNot(cell, it));
            for claim in others.chain([Claim::Is(cell, digit), kind]) {
                let why = why(it.solved(), claim, SETTINGS).unwrap();
                assert_eq!(why.trail().n_steps(), 0, "{}: {claim:?}", it.name);
            }
        }
    }
}

#[test]
fn a_digit_that_is_seen_is_answered_by_the_digit_it_sees() {
    let mut n_seen = 0;
    for it in corpus() {
        for claim in it.true_claims() {
            let why = why(it.solved(), claim, SETTINGS).unwrap();
            if let Some(house) = why.seen_in {
                let (Claim::Is(at, placed), Claim::IsNot(cell, digit)) = (why.by, claim) else {
                    panic!("{}: {why:?}", it.name)
                };
                let cells = it.size().cells_of(house);
                assert!(placed == digit && at != cell && cells.contains(&at) && cells.contains(&cell));
                n_seen += 1;
            }
        }
    }
    assert!(n_seen > 50, "{n_seen}");
}

#[test]
fn nothing_is_the_reason_for_what_is_untrue() {
    for it in corpus() {
        for claim in it.claims().into_iter().filter(|claim| !it.holds(*claim)) {
            assert_eq!(why(it.solved(), claim, SETTINGS), Err(Unanswered::Untrue), "{}: {claim:?}", it.name);
        }
    }
}

#[test]
fn equal_questions_get_equal_answers() {
    for it in corpus() {
        for claim in it.true_claims().into_iter().step_by(7) {
            let answer = || why(it.solved(), claim, SETTINGS).unwrap();
            assert_eq!(answer(), answer(), "{}: {claim:?}", it.name);
        }
    }
}

/// The shortest proof within the walkthrough, by the claim itself or its cell's digit.
fn n_steps_of_walkthrough(known: &Known, claim: Claim) -> usize {
    let trail = known.solved().walkthrough;
    let cell = claim.cell().unwrap();
    let settling = [claim, Claim::Is(cell, known.answer(cell))];
    let facts = trail.facts().filter(|(_, it)| settling.contains(&it.claim()));
    facts.map(|(it, _)| trail.needed_for([it]).n_steps()).min().unwrap()
}
