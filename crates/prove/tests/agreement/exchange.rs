//! Two facts that decide a puzzle before any search: digits that nothing tells apart, and sums that no
//! line has.

use grid::{Digit, Grid, Size};
use prove::{Limit, Verdict, count, verdict};
use rulebook::{Clue, Puzzle, SANDWICH};

use crate::seeded::{self, Seeded};

const LIMIT: Limit = Limit(1_000_000);

/// A puzzle with sums beside lines and givens of 2 to 8 only, and the grid it was drawn from.
fn without_given_crusts(seeded: &mut Seeded) -> (Puzzle, Grid) {
    let size = Size::NINE;
    let grid = seeded::full_grid(size, seeded);
    let (givens, clues) = (seeded.below(101), 20 + seeded.below(81));
    let is_filling = |it: &Digit| (2..=8).contains(&it.get());
    let shown = Grid::from_fn(size, |it| grid.get(it).filter(is_filling).filter(|_| seeded.chance(givens)));
    let mut sums = seeded::true_clues(&grid);
    sums.retain(|_| seeded.chance(clues));
    (Puzzle::new(shown, sums), grid)
}

/// `facts.md` section 1 (exact): exchanging every 1 with every 9 changes no sum, so a puzzle in which no
/// given tells them apart never has one solution.
#[test]
fn a_puzzle_without_given_crusts_never_has_one_solution() {
    let mut seeded = Seeded::new(11);
    let (one, nine) = (Digit::new(1), Digit::new(9));
    for _ in 0..120 {
        let (puzzle, drawn_from) = without_given_crusts(&mut seeded);
        assert!(puzzle.is_solved_by(&drawn_from));
        assert_eq!(puzzle.exchange(), one.zip(nine));
        let Verdict::Many(many) = verdict(&puzzle, LIMIT) else { panic!("{puzzle:?}") };
        assert_eq!(many.exchange, one.zip(nine));
        assert!(puzzle.is_solved_by(&many.first) && puzzle.is_solved_by(&many.second));
        for cell in Size::NINE.cells() {
            match many.first.get(cell) {
                it if it == one => assert_eq!(many.second.get(cell), nine),
                it if it == nine => assert_eq!(many.second.get(cell), one),
                it => assert_eq!(many.second.get(cell), it),
            }
        }
        // What the exchange tells, a search that does not know of it finds too.
        assert_eq!(count(&puzzle, 2, LIMIT), Some(2));
    }
}

#[test]
fn one_given_crust_can_settle_it() {
    let mut seeded = Seeded::new(12);
    let mut n_settled = 0;
    for _ in 0..20 {
        let grid = seeded::full_grid(Size::NINE, &mut seeded);
        let is_filling = |it: &Digit| (2..=8).contains(&it.get());
        let filling_shown = Grid::from_fn(Size::NINE, |it| grid.get(it).filter(is_filling));
        let (corner, digit) = grid.filled().find(|(_, it)| it.get() == 1).unwrap();
        let puzzle = |givens| Puzzle::new(givens, seeded::true_clues(&grid));
        assert!(matches!(verdict(&puzzle(filling_shown.clone()), LIMIT), Verdict::Many(_)));
        let settled = verdict(&puzzle(filling_shown.with(corner, Some(digit))), LIMIT);
        n_settled += u32::from(settled == Verdict::One(grid.clone()));
    }
    assert!(n_settled > 0);
}

#[test]
fn a_contradictory_puzzle_has_no_twin_either() {
    let sum = |number, value| {
        let line = Size::NINE.house(grid::HouseKind::Row, number).unwrap();
        Clue { rule: &SANDWICH, line, value }
    };
    // Rows 1 to 3 share three boxes, two crusts a box; with the crusts of all three rows at the ends,
    // the middle box has none.
    let puzzle = Puzzle::new(Grid::empty(Size::NINE), [sum(1, 35), sum(2, 35), sum(3, 35)]);
    assert!(puzzle.exchange().is_some());
    assert_eq!(verdict(&puzzle, LIMIT), Verdict::None);
}

/// `facts.md` section 1 (exact): no set of the digits 2 to 8 adds up to 1, 34 or more than 35.
#[test]
fn unreachable_sums_leave_no_solution() {
    for value in [1, 34, 36, 37, 100, u16::MAX] {
        for line in Size::NINE.lines() {
            let puzzle = Puzzle::new(Grid::empty(Size::NINE), [Clue { rule: &SANDWICH, line, value }]);
            assert_eq!(verdict(&puzzle, Limit(1)), Verdict::None, "{line}: {value}");
            assert_eq!(count(&puzzle, 2, Limit(1)), Some(0));
        }
    }
}

#[test]
fn reachable_sums_can_stand_alone() {
    for value in (0..=35).filter(|it| ![1, 34].contains(it)) {
        for line in Size::NINE.lines() {
            let puzzle = Puzzle::new(Grid::empty(Size::NINE), [Clue { rule: &SANDWICH, line, value }]);
            assert!(matches!(verdict(&puzzle, LIMIT), Verdict::Many(_)), "{line}: {value}");
        }
    }
}
