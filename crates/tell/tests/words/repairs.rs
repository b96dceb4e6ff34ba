//! Words for what would make a puzzle sound.

use grid::{Grid, Size};
use prove::{
    Digging, Effort, Limit, Printed, SingleGivens, Slip, Verdict, conflict, fewest, mends, open_givens,
    verdict,
};
use rulebook::{Clue, Puzzle, SANDWICH};

const FAR: Limit = Limit(1_000_000);
const DIGGING: Digging = Digging { work: 10_000, limit: FAR, more_work: 10_000, choices: 10_000 };

/// A 4x4 page with these givens and the sandwich clues of its rows.
fn page(givens: &str, rows: &[u16]) -> Puzzle {
    let size = Size::of_side(4).unwrap();
    let clues = size.lines().zip(rows).map(|(line, value)| Clue { rule: &SANDWICH, line, value: *value });
    Puzzle::new(Grid::from_line(givens).unwrap(), clues)
}

#[test]
fn a_contradiction_is_told_by_what_is_printed() {
    for (puzzle, said) in [
        (
            page("1...1...........", &[]),
            "A part of the page contradicts itself. Givens: 1 in r1c1 and 1 in r2c1. Each digit once in: \
             column 1. Without any one of these, the others can hold together. No fewer things on this page \
             contradict each other.",
        ),
        (
            // A 1 and a 4 with a cell between them hold a filling digit, not nothing.
            page("1.4.............", &[0]),
            "A part of the page contradicts itself. Givens: 1 in r1c1 and 4 in r1c3. Clues: 0 beside row 1. \
             Without any one of these, the others can hold together. No fewer things on this page contradict \
             each other.",
        ),
    ] {
        assert_eq!(tell::conflict(&conflict(&puzzle, DIGGING).unwrap()), said);
    }
}

#[test]
fn changes_are_told_by_place() {
    let puzzle = page("1.4.............", &[0]);
    let found = mends(&puzzle, 20, FAR);
    let told: Vec<String> = found.mends.iter().map(|it| tell::change(it.change)).collect();
    for it in ["row 1: no clue instead of 0", "row 1: 2 instead of 0", "r1c3: empty instead of 4"] {
        assert!(told.iter().any(|told| told == it), "{it} in {told:?}");
    }
    let counts = found.mends.iter().map(|it| tell::n_solutions(it.solutions));
    assert!(counts.clone().any(|it| it == "20 or more"), "{:?}", counts.collect::<Vec<_>>());
    let summary = tell::mends_summary(&found);
    assert_eq!(
        summary,
        format!(
            "{} changes of one thing printed were tried: none leaves exactly one solution and {} leave several.",
            found.n_changes,
            tell::count(found.mends.len())
        )
    );
}

#[test]
fn additions_are_told_with_what_is_proved() {
    let puzzle = page("12343.......4...", &[]);
    let Verdict::Many(many) = verdict(&puzzle, FAR) else { panic!("it has several") };
    let effort = Effort { limit: FAR, verdicts: 1_000, choices: 10_000 };
    let settling = fewest(&puzzle, &many.first, &open_givens(&puzzle, &many.first), effort).unwrap();
    assert!(settling.is_fewest());
    let added: Vec<String> = settling.added.iter().map(|it| tell::to_print(*it)).collect();
    let added = tell::list(&added);
    let said = tell::fewest_additions(&puzzle, Some(&settling), None);
    assert_eq!(said, format!("The fewest givens to add: {added}."), "nothing is said of clues");
    let unproved = prove::Settling { at_least: 0, ..settling };
    let with_clue = page("1.4.............", &[2]);
    let said = tell::fewest_additions(&with_clue, None, Some(&unproved));
    let expected = format!(
        "No givens to add were found within the work allowed. The fewest clues to add: {added} (perhaps fewer \
         are enough)."
    );
    assert_eq!(said, expected);
    assert!(tell::fewest_additions(&with_clue, None, None).contains("Clues alone are not enough"));
}

#[test]
fn single_givens_are_counted() {
    let given =
        |cell: usize| Printed::Given(Size::NINE.cells().nth(cell).unwrap(), grid::Digit::new(5).unwrap());
    let said = |givens: Vec<Printed>, n_undecided| tell::single_givens(&SingleGivens { givens, n_undecided });
    assert_eq!(said(vec![], 0), "No given leaves one solution by itself.");
    assert_eq!(said(vec![given(0)], 0), "One given leaves one solution by itself: 5 in r1c1.");
    assert_eq!(
        said(vec![given(0), given(1)], 3),
        "Two givens leave one solution, each by itself: 5 in r1c1 and 5 in r1c2. Of three more it was not \
         decided."
    );
}

#[test]
fn what_is_printed_is_named_by_its_place() {
    let all = Printed::all(&page("1.4.............", &[2]));
    let told: Vec<String> = all.into_iter().map(tell::to_print).collect();
    assert_eq!(told, ["1 in r1c1", "4 in r1c3", "2 beside row 1"]);
}

#[test]
fn slips_are_told_apart() {
    let words: std::collections::BTreeSet<&str> = Slip::ALL.map(tell::slip).into_iter().collect();
    assert_eq!(words.len(), Slip::ALL.len());
}
