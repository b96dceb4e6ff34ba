//! The letter to the setter.

mod common;

use common::{GRID, pack, print};
use prove::Limit;
use season::{TestedBy, letter};

fn of(lines: &str, grid: &str) -> String {
    let pack =
        pack("editor = \"Rowan\"\n[setters.Fern]\ncredit = \"Fern <b>Ashdown</b>\"\n", &[("a", lines, grid)]);
    let study = &pack.studies()[0];
    let spare = study
        .opened()
        .and_then(|it| it.solution)
        .map(|_| prove::spare(&study.entry().puzzle, Limit(100_000)));
    let tested = [TestedBy { solver: "Sorrel".to_owned(), minutes: 4, is_solved: true }];
    letter(pack.info(), study, spare.as_ref(), &tested).text
}

#[test]
fn a_sound_puzzle_is_told_of_and_its_solution_is_not() {
    let text = of("intends = [\"small sums\"]\n", GRID);
    for part in [
        "Dear Fern,\n\nthank you for \"Puzzle a\", which you sent for Trial. It has exactly one solution; that is proved.",
        "You meant it to teach small sums. Our walkthrough uses ",
        "- Sorrel solved it in 4 minutes",
        "Please tell us that we may print it as it is",
        "We credit you as Fern <b>Ashdown</b>, without a link.",
        "With kind regards,\nRowan\n",
    ] {
        assert!(text.contains(part), "{part}\n---\n{text}");
    }
    // Cells whose digit is to be found are not named with one.
    assert!(!text.contains(" in r1c2") && !text.contains("r1c2 is"), "{text}");
}

#[test]
fn what_would_mend_or_settle_is_suggested() {
    let none = of("", &GRID.replace(". . | 4 .", ". . | 4 1"));
    assert!(none.contains("no solution") && none.contains("\n- ") && none.contains("instead of"), "{none}");
    let many = of("", &GRID.replace("1 . | . .", ". . | . ."));
    assert!(many.contains("several solutions") && many.contains("\n- "), "{many}");
    assert!(many.lines().filter(|it| it.starts_with("- ")).count() <= 6, "{many}");
}

#[test]
fn what_was_approved_is_not_asked_for_again_unless_it_has_changed() {
    let approved = format!("approved = \"2026-10-02 {}\"\n", print());
    assert!(of(&approved, GRID).contains("You have approved it as it is"));
    let changed = of(&approved, &GRID.replace("1 . | . .", "1 2 | . ."));
    assert!(changed.contains("It has changed since you approved it."), "{changed}");
}

#[test]
fn of_a_sealed_puzzle_only_the_verdict_is_told() {
    let text = of("sealed = true\n", GRID);
    assert!(text.contains("exactly one solution"));
    for word in ["walkthrough uses", "single", "wait:", "spare", "without any one"] {
        assert!(!text.contains(word), "{word}: {text}");
    }
}
