//! Rules that have no closed form are proved by their ways alone. No rule of Galley's is such a one, so here
//! the sandwich rule goes without.

use std::collections::BTreeSet;
use std::mem::discriminant;

use grid::Size;
use prove::{Limit, count, verdict};
use rulebook::{Clue, Puzzle};

use crate::listed_rule::Listed;
use crate::seeded::{self, Recipe, Seeded};

const LIMIT: Limit = Limit(1_000_000);

const LISTED: Listed = Listed("listed");

#[test]
fn a_rule_is_proved_the_same_without_a_closed_form() {
    let sizes = [(2, 2, 5), (3, 2, 10), (3, 3, 20)];
    let mut seeded = Seeded::new(11);
    let mut seen = BTreeSet::new();
    for (width, height, givens) in sizes {
        let size = Size::new(width, height).unwrap();
        for _ in 0..60 {
            let puzzle = seeded::puzzle(size, Recipe { givens, clues: 80, spoilt: 30 }, &mut seeded);
            // All of its clues, then every other one.
            for every in [1, 2] {
                let clues = puzzle.clues().iter().enumerate();
                let clues =
                    clues.map(|(at, it)| if at % every == 0 { Clue { rule: &LISTED, ..*it } } else { *it });
                let listed = Puzzle::new(puzzle.givens().clone(), clues.collect::<Vec<_>>());
                assert_eq!(count(&listed, 40, LIMIT), count(&puzzle, 40, LIMIT), "{puzzle:?}");
                let verdicts = [&listed, &puzzle].map(|it| discriminant(&verdict(it, LIMIT)));
                assert_eq!(verdicts[0], verdicts[1], "{puzzle:?}");
            }
            seen.insert(count(&puzzle, 2, LIMIT));
        }
    }
    assert_eq!(seen, BTreeSet::from([Some(0), Some(1), Some(2)]), "none, one and many all come up");
}
