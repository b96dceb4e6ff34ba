//! Properties that any right answer has, on random puzzles.

use grid::{Cell, Grid, Size};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use prove::{Limit, Verdict, count, verdict};
use rulebook::{Clue, Puzzle};

use crate::plain_search;
use crate::seeded::{self, Recipe, Seeded};

const LIMIT: Limit = Limit(1_000_000);

/// Far more than the properties need, so that counts differ wherever puzzles do.
const UP_TO: u64 = 60;

/// The same cases on every run, so that a failure can be looked into.
fn config() -> ProptestConfig {
    ProptestConfig {
        cases: 300,
        failure_persistence: None,
        rng_seed: RngSeed::Fixed(4),
        ..Default::default()
    }
}

fn small_size() -> impl Strategy<Value = Size> {
    prop_oneof![Just((2, 2)), Just((3, 2)), Just((2, 3))]
        .prop_map(|(width, height)| Size::new(width, height).expect("a small size"))
}

fn small_puzzle() -> impl Strategy<Value = Puzzle> {
    (small_size(), 0..50usize, 0..=100usize, any::<u64>()).prop_map(|(size, more, clues, seed)| {
        seeded::puzzle(size, small_recipe(size, more, clues), &mut Seeded::new(seed))
    })
}

fn any_puzzle() -> impl Strategy<Value = Puzzle> {
    let nine = (12..60usize, 0..=100usize, any::<u64>()).prop_map(|(givens, clues, seed)| {
        seeded::puzzle(Size::NINE, Recipe { givens, clues, spoilt: 25 }, &mut Seeded::new(seed))
    });
    prop_oneof![small_puzzle(), nine]
}

/// Enough givens on 6x6 that the plain search comes to an end.
fn small_recipe(size: Size, more: usize, clues: usize) -> Recipe {
    let fewest = if size.side() == 4 { 5 } else { 16 };
    Recipe { givens: fewest + more, clues, spoilt: 40 }
}

/// A symmetry of the square that maps boxes to boxes.
#[derive(Clone, Copy, Debug)]
struct Symmetry {
    transposed: bool,
    upside_down: bool,
    mirrored: bool,
}

impl Symmetry {
    /// All that the size has: 8 where boxes are square, else 4.
    fn of(size: Size) -> Vec<Symmetry> {
        let both = [false, true];
        let all = both.into_iter().flat_map(|transposed| {
            both.into_iter().flat_map(move |upside_down| {
                both.map(|mirrored| Symmetry { transposed, upside_down, mirrored })
            })
        });
        all.filter(|it| !it.transposed || size.box_width() == size.box_height()).collect()
    }

    fn cell(self, size: Size, cell: Cell) -> Cell {
        let flip = |it: u8, flipped| if flipped { size.side() + 1 - it } else { it };
        let (row, column) = (flip(cell.row(), self.upside_down), flip(cell.column(), self.mirrored));
        let image = if self.transposed { size.cell(column, row) } else { size.cell(row, column) };
        image.expect("the image lies on the board")
    }

    fn puzzle(self, puzzle: &Puzzle) -> Puzzle {
        let size = puzzle.size();
        let givens = puzzle
            .givens()
            .filled()
            .fold(Grid::empty(size), |grid, (cell, digit)| grid.with(self.cell(size, cell), Some(digit)));
        let clues = puzzle.clues().iter().map(|clue| {
            let cells = size.cells_of(clue.line);
            let ends = (self.cell(size, cells[0]), self.cell(size, cells[cells.len() - 1]));
            Clue { line: size.shared_house(ends.0, ends.1).expect("lines go to lines"), ..*clue }
        });
        Puzzle::new(givens, clues)
    }
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn plain_search_counts_the_same(puzzle in small_puzzle()) {
        let expected = plain_search::count(&puzzle, UP_TO);
        prop_assert_eq!(count(&puzzle, UP_TO, LIMIT), Some(expected));
        match verdict(&puzzle, LIMIT) {
            Verdict::None => prop_assert_eq!(expected, 0),
            Verdict::One(only) => {
                prop_assert_eq!(expected, 1);
                prop_assert!(puzzle.is_solved_by(&only));
            }
            Verdict::Many(many) => {
                prop_assert!(expected >= 2);
                prop_assert!(many.first != many.second);
                prop_assert!(puzzle.is_solved_by(&many.first) && puzzle.is_solved_by(&many.second));
                prop_assert_eq!(many.exchange, puzzle.exchange());
            }
            Verdict::Undecided => prop_assert!(false, "the limit is far away"),
        }
    }

    #[test]
    fn dropping_never_lowers_the_count(puzzle in any_puzzle(), pick in any::<prop::sample::Index>()) {
        let before = count(&puzzle, UP_TO, LIMIT);
        let clues = puzzle.clues();
        let shown: Vec<Cell> = puzzle.givens().filled().map(|(cell, _)| cell).collect();
        prop_assume!(clues.len() + shown.len() > 0);
        let dropped = pick.index(clues.len() + shown.len());
        let fewer = match dropped.checked_sub(clues.len()) {
            None => {
                let others = (clues.iter().enumerate()).filter(|(at, _)| *at != dropped).map(|(_, it)| *it);
                Puzzle::new(puzzle.givens().clone(), others)
            }
            Some(at) => Puzzle::new(puzzle.givens().clone().with(shown[at], None), clues.iter().copied()),
        };
        prop_assert!(count(&fewer, UP_TO, LIMIT) >= before);
    }

    #[test]
    fn adding_a_true_sum_keeps_the_answer(puzzle in any_puzzle(), pick in any::<prop::sample::Index>()) {
        let (before, solution) = match verdict(&puzzle, LIMIT) {
            Verdict::One(only) => (1, only),
            Verdict::Many(many) => (2, many.second),
            _ => return Err(TestCaseError::reject("no solution to keep")),
        };
        let sums = seeded::true_clues(&solution);
        let more = Puzzle::new(
            puzzle.givens().clone(),
            puzzle.clues().iter().copied().chain([sums[pick.index(sums.len())]]),
        );
        prop_assert!(more.is_solved_by(&solution));
        match verdict(&more, LIMIT) {
            Verdict::One(only) => prop_assert_eq!(only, solution),
            Verdict::Many(_) => prop_assert_eq!(before, 2),
            other => prop_assert!(false, "{other:?}"),
        }
    }

    #[test]
    fn turns_and_mirrors_count_the_same(puzzle in any_puzzle()) {
        let expected = count(&puzzle, UP_TO, LIMIT);
        for symmetry in Symmetry::of(puzzle.size()) {
            prop_assert_eq!(count(&symmetry.puzzle(&puzzle), UP_TO, LIMIT), expected, "{:?}", symmetry);
        }
    }

    #[test]
    fn two_runs_are_equal(puzzle in any_puzzle()) {
        prop_assert_eq!(verdict(&puzzle, LIMIT), verdict(&puzzle, LIMIT));
    }
}

#[test]
fn squares_have_eight_symmetries_and_oblongs_four() {
    // `style.md` H5: all turns and mirrors that map boxes to boxes.
    let symmetries = |width, height| Symmetry::of(Size::new(width, height).unwrap());
    assert_eq!((symmetries(2, 2).len(), symmetries(3, 2).len()), (8, 4));
    let size = Size::new(2, 2).unwrap();
    let corner = size.cell(1, 2).unwrap();
    let images: std::collections::BTreeSet<Cell> =
        symmetries(2, 2).into_iter().map(|it| it.cell(size, corner)).collect();
    assert_eq!(images.len(), 8);
}

#[test]
fn the_generator_draws_every_kind_of_puzzle() {
    for (width, height) in [(2, 2), (3, 2), (2, 3)] {
        let size = Size::new(width, height).unwrap();
        let mut seeded = Seeded::new(9);
        let mut n_with = [0; 3];
        for _ in 0..100 {
            let recipe = small_recipe(size, seeded.below(50), seeded.below(101));
            let puzzle = seeded::puzzle(size, recipe, &mut seeded);
            n_with[plain_search::count(&puzzle, 2) as usize] += 1;
        }
        assert!(n_with.iter().all(|it| *it >= 15), "{size:?}: {n_with:?} with none, one, several solutions");
    }
}
