//! The rules in words: in short to stand beside a board, in full to be read out.
//!
//! One function a rule; a test fails for a rule that has no words.

use grid::Size;
use rulebook::{Puzzle, RULES, Rule, SANDWICH, crusts};

/// The words for one rule of a puzzle.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct RuleWords {
    /// Its name, with a capital letter.
    pub name: String,
    /// A sentence or two, for someone who has met the rule before.
    pub short: String,
    /// Everything a newcomer needs, a thought a sentence.
    pub full: Vec<String>,
}

/// The rules of a puzzle: the classic one, then those that its clues belong to.
pub fn rules(puzzle: &Puzzle) -> Vec<RuleWords> {
    let has_clues = |rule: &&dyn Rule| puzzle.clues().iter().any(|it| it.rule.id() == rule.id());
    let of_clues = RULES.into_iter().filter(has_clues).map(|it| words(it, puzzle));
    std::iter::once(classic(puzzle.size())).chain(of_clues).collect()
}

/// The words of a rule; only its name if it has none here.
fn words(rule: &dyn Rule, puzzle: &Puzzle) -> RuleWords {
    match rule.id() {
        it if it == SANDWICH.id() => sandwich(puzzle),
        it => RuleWords { name: it.name().to_owned(), short: String::new(), full: Vec::new() },
    }
}

fn classic(size: Size) -> RuleWords {
    let (side, width, height) = (size.side(), size.box_width(), size.box_height());
    RuleWords {
        name: "Classic".to_owned(),
        short: format!("Each row, column and outlined box holds every digit from 1 to {side} once."),
        full: vec![format!(
            "Fill every cell so that each row, each column and each outlined box, {width} cells wide and \
             {height} high, holds every digit from 1 to {side} once."
        )],
    }
}

fn sandwich(puzzle: &Puzzle) -> RuleWords {
    let (one, last) = crusts(puzzle.size());
    let mut full = vec![
        format!("In every row and column, the {one} and the {last} are the crusts, in either order."),
        "A number left of a row, or above a column, is the sum of the digits between its two crusts. The \
         crusts do not count."
            .to_owned(),
        format!("If 2 and 3 stand between the {last} and the {one}, for example, the number is 5."),
        format!("A 0 says that nothing stands between them: the {one} and the {last} are side by side."),
    ];
    let mut short = vec![format!(
        "A number beside a row or column is the sum of the digits between its crusts, the {one} and the \
         {last}, in either order."
    )];
    if puzzle.clues().iter().any(|it| it.rule.id() == SANDWICH.id() && it.value == 0) {
        short.push("A 0: they stand side by side.".to_owned());
    }
    if puzzle.size().lines().any(|it| puzzle.clue_at(&SANDWICH, it).is_none()) {
        full.push(
            "A line without a number has its two crusts as well, but keeps its sum to itself.".to_owned(),
        );
        short.push("A line without a number has its crusts too.".to_owned());
    }
    RuleWords { name: "Sandwich".to_owned(), short: short.join(" "), full }
}

#[cfg(test)]
mod tests {
    use grid::Grid;
    use rulebook::Clue;

    use super::*;
    use crate::prose::{LONGEST, n_words};

    /// A board of that side on which every line, or every row, has a clue of that rule.
    fn board(side: u8, rule: &'static dyn Rule, columns_too: bool) -> Puzzle {
        let size = Size::of_side(side).unwrap();
        let lines = size.lines().take(usize::from(side) * if columns_too { 2 } else { 1 });
        Puzzle::new(Grid::empty(size), lines.map(|line| Clue { rule, line, value: 0 }))
    }

    #[test]
    fn every_rule_has_words_on_every_size() {
        for rule in RULES {
            for side in [4, 6, 9, 12, 16] {
                let told = rules(&board(side, rule, false));
                assert_eq!(told.len(), 2, "{rule:?}");
                assert_eq!(told[1].name.to_lowercase(), rule.id().name());
                for it in told {
                    assert!(it.short.contains(&format!("{side}")) && !it.full.is_empty(), "{it:?}");
                    let sentences = it.full.iter().chain([&it.short]).flat_map(|it| it.split_inclusive(". "));
                    for sentence in sentences {
                        assert!(n_words(sentence) <= LONGEST, "{sentence}");
                        assert!(sentence.trim_end().ends_with('.'), "{sentence}");
                    }
                }
            }
        }
    }

    #[test]
    fn only_the_rules_of_the_board_are_told() {
        assert_eq!(rules(&Puzzle::new(Grid::empty(Size::NINE), [])).len(), 1);
        let full = |columns_too| rules(&board(9, &SANDWICH, columns_too))[1].full.len();
        assert_eq!((full(false), full(true)), (5, 4));
    }

    /// The example is true of a line that it describes.
    #[test]
    fn the_example_satisfies_the_rule() {
        for side in [4, 6, 9, 16] {
            let size = Size::of_side(side).unwrap();
            let others = (4..side).rev();
            let line: Vec<_> =
                [side, 2, 3, 1].into_iter().chain(others).filter_map(|it| size.digit(it)).collect();
            assert!(line.len() == usize::from(side) && SANDWICH.allows(size, 5, &line));
        }
    }
}
