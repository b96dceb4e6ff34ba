//! The booklet's own sentences, beside those of the rules (`howto`) and of the steps (`tell`).

use grid::Size;
use rulebook::{Puzzle, Rule, SANDWICH, crusts, filling_digits, filling_total};
use study::MinutesRange;

/// What is said of expected minutes, which are calibrated on so many solves.
pub(crate) fn minutes_note(n_solves: usize) -> String {
    format!("Minutes are for a regular solver who knows the techniques: {}.", tell::basis(n_solves))
}

/// Under the title: `Twelve sandwich puzzles, with hints and solutions`.
pub(crate) fn subtitle(puzzles: &[&Puzzle]) -> String {
    let has_sums = |it: &&Puzzle| it.clues().iter().any(|it| it.rule.id() == SANDWICH.id());
    let kind = if puzzles.iter().all(has_sums) { "sandwich puzzle" } else { "puzzle" };
    let plural = if puzzles.len() == 1 { "" } else { "s" };
    format!("{} {kind}{plural}, with hints and solutions", tell::capital(&tell::count(puzzles.len())))
}

/// `10 to 20 minutes`.
pub(crate) fn minutes(it: MinutesRange) -> String {
    format!("{} to {} minutes", it.from, it.to)
}

/// How to use the booklet.
pub(crate) fn about(n_solves: usize) -> [String; 4] {
    [
        "Take the puzzles in their order: each is best met with those before it behind you. Every one has \
         exactly one solution and can be solved without a guess."
            .to_owned(),
        "Small grey numbers beside a board count its rows and columns. A cell is named by both: r4c7 is \
         where row 4 crosses column 7."
            .to_owned(),
        "Each puzzle has three hints, all about one way in. The first says where to look, the second what \
         to look for there, and the third gives the whole step. They are printed on pages of their own, \
         first hints with first hints, so that the next one is not read by accident."
            .to_owned(),
        minutes_note(n_solves),
    ]
}

/// What the credits say about how far the booklet can be trusted.
pub(crate) fn proof() -> [String; 2] {
    [
        "Each puzzle was proved to have exactly one solution. Each hint is a step of a complete \
         walkthrough, every step of which was checked by a program that knows no solving technique."
            .to_owned(),
        "Made with Galley.".to_owned(),
    ]
}

/// `Sandwich sums on 9 by 9`.
pub(crate) fn card_title(size: Size) -> String {
    format!("Sandwich sums on {0} by {0}", size.side())
}

/// How to read a reference card.
pub(crate) fn card_note(size: Size, lists_sets: bool) -> String {
    let (total, filling) = (filling_total(size), filling_digits(size));
    let (one, last) = crusts(size);
    let what = match lists_sets {
        true => "the digits between the crusts and, in the same row, the digits left outside",
        false => "how many cells are left outside, and how many sets of digits have that sum",
    };
    let impossible = match impossible_sums(size)[..] {
        [] => String::new(),
        [only] => format!(" No sum is {only}."),
        [ref before @ .., last] => {
            let before: Vec<String> = before.iter().map(u16::to_string).collect();
            format!(" No sum is {} or {last}.", before.join(", "))
        }
    };
    format!(
        "For each sum: how many cells lie between the crusts {one} and {last}, at fewest and at most; {what}. \
         The {} filling digits add up to {total}, so what is outside adds up to {total} less the sum.{impossible}",
        tell::count(filling.len())
    )
}

/// The numbers up to the largest sum that no line has as its sum.
fn impossible_sums(size: Size) -> Vec<u16> {
    let reachable = SANDWICH.reachable(size);
    (0..=filling_total(size)).filter(|it| !reachable.contains(it)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cards_name_the_sums_that_no_line_has() {
        // Exact: of all 128 sets of the digits 2 to 8, none adds up to 1 or 34.
        assert_eq!(impossible_sums(Size::NINE), [1, 34]);
        assert!(card_note(Size::NINE, true).ends_with("No sum is 1 or 34."));
    }
}
