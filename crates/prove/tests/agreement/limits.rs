//! A limit can leave a question open, and never changes an answer.

use grid::{Digit, Grid, Size};
use prove::{Limit, Verdict, count, some_solution, verdict};
use rulebook::{Clue, Puzzle, SANDWICH};

use crate::seeded::{self, Recipe, Seeded};

const FAR: Limit = Limit(1_000_000);

#[test]
fn under_every_limit_the_answer_is_right_or_open() {
    let mut seeded = Seeded::new(21);
    let (mut n_open, mut n_answered) = (0, 0);
    for _ in 0..60 {
        let recipe = Recipe { givens: 15, clues: 70, spoilt: 40 };
        let puzzle = seeded::puzzle(Size::NINE, recipe, &mut seeded);
        let (answer, n_solutions) = (verdict(&puzzle, FAR), count(&puzzle, 5, FAR));
        assert!(answer != Verdict::Undecided && n_solutions.is_some());
        for limit in (0..12).map(Limit) {
            match verdict(&puzzle, limit) {
                Verdict::Undecided => n_open += 1,
                it => {
                    n_answered += 1;
                    assert_eq!(it, answer);
                }
            }
            assert!(count(&puzzle, 5, limit).is_none_or(|it| Some(it) == n_solutions));
        }
        assert_eq!(verdict(&puzzle, Limit(0)), Verdict::Undecided);
        assert_eq!(count(&puzzle, 1, Limit(0)), None);
        assert_eq!(count(&puzzle, 0, Limit(0)), Some(0));
    }
    assert!(n_open > 100 && n_answered > 100, "{n_open} open, {n_answered} answered");
}

/// Once the ends of a line are known, each set between them has to leave every cell a digit; asked of all
/// sets together, this one took 89,285 nodes instead of 407.
#[test]
fn bug_each_set_between_known_ends_is_held_against_the_cells() {
    let givens = "..........1...8..7.......................9.....................76...........8....";
    let sums = [9, 7, 0, 0, 18, 20, 4, 0, 0, 0, 0, 0, 0, 0, 0, 12, 0, 11];
    let clues = Size::NINE.lines().zip(sums).map(|(line, value)| Clue { rule: &SANDWICH, line, value });
    let puzzle = Puzzle::new(Grid::from_line(givens).unwrap(), clues);
    assert!(matches!(verdict(&puzzle, Limit(2_000)), Verdict::Many(_)));
}

#[test]
fn a_seeded_caller_draws_grids() {
    let draw = |size, seed| {
        let mut seeded = Seeded::new(seed);
        some_solution(&Puzzle::new(Grid::empty(size), []), FAR, &mut |digits| seeded.below(digits.len()))
    };
    for side in [4, 6, 9] {
        let size = Size::of_side(side).unwrap();
        let grids: Vec<Grid> = (0..20).filter_map(|seed| draw(size, seed)).collect();
        assert_eq!(grids.len(), 20);
        assert!(grids.iter().all(|it| Puzzle::new(Grid::empty(size), []).is_solved_by(it)));
        assert_eq!(draw(size, 3), draw(size, 3));
        let different: std::collections::BTreeSet<&Grid> = grids.iter().collect();
        assert!(different.len() >= 17, "side {side}: {} different grids of 20", different.len());
    }
}

#[test]
fn the_caller_is_shown_rising_digits_and_may_answer_anything() {
    let mut seeded = Seeded::new(22);
    for _ in 0..20 {
        let recipe = Recipe { givens: 10, clues: 80, spoilt: 0 };
        let puzzle = seeded::puzzle(Size::NINE, recipe, &mut seeded);
        let mut n_asked = 0;
        let solution = some_solution(&puzzle, FAR, &mut |digits: &[Digit]| {
            n_asked += 1;
            assert!(digits.len() > 1 && digits.is_sorted() && digits.iter().all(|it| it.get() <= 9));
            usize::MAX
        });
        assert!(solution.is_some_and(|it| puzzle.is_solved_by(&it)));
        assert!(n_asked > 0 || matches!(verdict(&puzzle, FAR), Verdict::One(_)));
        assert_eq!(some_solution(&puzzle, Limit(0), &mut |_| 0), None);
    }
}

#[test]
fn no_order_finds_a_solution_where_there_is_none() {
    let mut seeded = Seeded::new(23);
    let mut n_none = 0;
    for _ in 0..60 {
        let recipe = Recipe { givens: 25, clues: 90, spoilt: 100 };
        let puzzle = seeded::puzzle(Size::NINE, recipe, &mut seeded);
        let found = some_solution(&puzzle, FAR, &mut |digits| seeded.below(digits.len()));
        let none = verdict(&puzzle, FAR) == Verdict::None;
        assert_eq!(found.is_none(), none);
        n_none += u32::from(none);
    }
    assert!(n_none >= 20, "{n_none}");
}

#[test]
fn contradictions_on_the_page_need_no_search() {
    let size = Size::NINE;
    let page = |givens: &[(u8, u8, u8)]| {
        let shown =
            givens.iter().map(|&(row, column, digit)| (size.cell(row, column).unwrap(), Digit::new(digit)));
        shown.fold(Grid::empty(size), |grid, (cell, digit)| grid.with(cell, digit))
    };
    // Row 1 has no place for its 9: box 1 fills its cells there, boxes 2 and 3 have their 9 elsewhere.
    let no_place = Puzzle::new(page(&[(1, 1, 1), (1, 2, 2), (1, 3, 3), (2, 4, 9), (3, 7, 9)]), []);
    assert_eq!(verdict(&no_place, Limit(1)), Verdict::None);

    // The sum 5 is 5, which stands at the end of the row, or 2 + 3, and the 2 must be in column 2 or 9,
    // where it cannot lie between two crusts.
    let row = size.house(grid::HouseKind::Row, 1).unwrap();
    let five = Clue { rule: &SANDWICH, line: row, value: 5 };
    let givens = page(&[(1, 1, 5), (2, 5, 2), (5, 3, 2), (6, 7, 2), (8, 8, 2)]);
    assert_eq!(verdict(&Puzzle::new(givens.clone(), [five]), Limit(1)), Verdict::None);
    assert!(matches!(verdict(&Puzzle::new(givens, []), FAR), Verdict::Many(_)));
}

/// Work is counted, so what an answer costs can be held to a figure. These cost 34 and 224 nodes; with crusts
/// tried in lines whose clues are met, too, 53 and 319; before it was asked of each way whether every digit still has
/// a place 167 and 554, without crusts first far more.
#[test]
fn hard_verdicts_cost_few_nodes() {
    let mut seeded = Seeded::new(24);
    let cost = |puzzle: &Puzzle| -> u64 {
        let enough = (1..1_000).find(|it| verdict(puzzle, Limit(*it)) != Verdict::Undecided);
        enough.unwrap_or_else(|| panic!("over 1,000 nodes for {puzzle:?}"))
    };
    let has_one = |it: &Puzzle| matches!(verdict(it, FAR), Verdict::One(_));
    let sparse: u64 = (0..20).map(|_| cost(&seeded::sparse_puzzle(Size::NINE, &mut seeded, has_one))).sum();
    let bare: u64 = (0..20)
        .map(|_| {
            let grid = seeded::full_grid(Size::NINE, &mut seeded);
            cost(&Puzzle::new(Grid::empty(Size::NINE), seeded::true_clues(&grid)))
        })
        .sum();
    assert!(sparse <= 50 && bare <= 300, "{sparse} nodes for sparse puzzles, {bare} without givens");
}
