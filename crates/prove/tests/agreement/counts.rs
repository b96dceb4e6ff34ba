//! Counts known from elsewhere.

use std::collections::BTreeMap;

use grid::{Cell, Digit, DigitSet, Grid, HouseKind, Size};
use prove::{Limit, Verdict, count, some_solution, verdict};
use rulebook::Puzzle;

use crate::plain_search;
use crate::seeded;

const LIMIT: Limit = Limit(100_000_000);

fn four() -> Size {
    Size::of_side(4).expect("a size")
}

fn blank(size: Size) -> Puzzle {
    Puzzle::new(Grid::empty(size), [])
}

/// `facts.md` section 2 (exact): 288 grids of 4x4.
#[test]
fn grids_of_four_by_four() {
    assert_eq!(count(&blank(four()), 1000, LIMIT), Some(288));
    assert_eq!(plain_search::count(&blank(four()), 1000), 288);
    assert_eq!(count(&blank(four()), 287, LIMIT), Some(287));
}

/// `facts.md` section 2 (published: K. F. Pettersen, reported by Russell and Jarvis): 28,200,960 grids
/// of 6x6. Renaming the digits makes every first row equally frequent, so each has one in 6! of them:
/// 39,168; further, whatever stands below it in the first column.
#[test]
fn grids_of_six_by_six() {
    for (width, height) in [(3, 2), (2, 3)] {
        let size = Size::new(width, height).unwrap();
        let row = size.cells_of(size.house(HouseKind::Row, 1).unwrap());
        let first_row = row.iter().zip(size.digits().iter());
        let givens = first_row.fold(Grid::empty(size), |grid, (cell, digit)| grid.with(*cell, Some(digit)));
        assert_eq!(count(&Puzzle::new(givens, []), u64::MAX, LIMIT), Some(28_200_960 / 720));
    }
}

/// The same, counted one by one.
#[test]
fn every_grid_of_six_by_six() {
    if is_skipped() {
        return;
    }
    for (width, height) in [(3, 2), (2, 3)] {
        let size = Size::new(width, height).unwrap();
        assert_eq!(count(&blank(size), u64::MAX, LIMIT), Some(28_200_960));
    }
}

/// `facts.md` section 2 (published: B. Felgenhauer, F. Jarvis 2005): beside a fixed first box the top band of
/// 9x9 can be finished in 56 * 6^6 ways. Each digit is tried in each cell, and the rest of the board has to
/// be filled before it counts.
#[test]
fn every_top_band_beside_a_first_box() {
    if is_skipped() {
        return;
    }
    let size = Size::NINE;
    let first_box = size.cells_of(size.house(HouseKind::Box, 1).unwrap());
    let givens = first_box.iter().zip(size.digits().iter());
    let givens = givens.fold(Grid::empty(size), |grid, (cell, digit)| grid.with(*cell, Some(digit)));
    let rest: Vec<Cell> = size.cells().filter(|it| it.row() <= 3 && it.column() > 3).collect();
    let filled = filled(&givens).expect("a grid");
    assert_eq!(n_ways(&givens, &rest, &filled), 2_612_736);
}

/// In how many ways these cells can be filled so that all others can be filled too. `filled` is one of them.
fn n_ways(grid: &Grid, rest: &[Cell], filled: &Grid) -> u64 {
    let Some((cell, rest)) = rest.split_first() else { return 1 };
    let seen: DigitSet = grid.size().peers(*cell).iter().filter_map(|it| grid.get(it)).collect();
    let open = (grid.size().digits() - seen).iter();
    open.map(|digit| {
        let next = grid.clone().with(*cell, Some(digit));
        if filled.get(*cell) == Some(digit) {
            n_ways(&next, rest, filled)
        } else {
            self::filled(&next).map_or(0, |it| n_ways(&next, rest, &it))
        }
    })
    .sum()
}

fn filled(grid: &Grid) -> Option<Grid> {
    some_solution(&Puzzle::new(grid.clone(), []), LIMIT, &mut |_| 0)
}

/// Whether tests of more than a few seconds are left out.
#[expect(clippy::print_stderr, reason = "a test that does not run says why")]
fn is_skipped() -> bool {
    let is_skipped = std::env::var_os("SLOW_TESTS").is_none();
    if is_skipped {
        eprintln!("skipped: set SLOW_TESTS to run it");
    }
    is_skipped
}

/// `facts.md` section 1 (exact): all sums shown and no givens, the 288 grids of 4x4 have 90 different
/// pages; 76 of these belong to 2 grids, 2 to 4, 8 to 8, and 4 to 16.
#[test]
fn pages_of_four_by_four_with_all_sums() {
    let mut grids_of: BTreeMap<Vec<u16>, u64> = BTreeMap::new();
    let mut pages: BTreeMap<Vec<u16>, Puzzle> = BTreeMap::new();
    plain_search::visit_solutions(&blank(four()), &mut |grid| {
        let clues = seeded::true_clues(grid);
        let values: Vec<u16> = clues.iter().map(|it| it.value).collect();
        *grids_of.entry(values.clone()).or_default() += 1;
        pages.entry(values).or_insert_with(|| Puzzle::new(Grid::empty(four()), clues));
        true
    });
    let mut classes: BTreeMap<u64, u32> = BTreeMap::new();
    for (values, puzzle) in &pages {
        let n_grids = count(puzzle, 1000, LIMIT).unwrap();
        assert_eq!(n_grids, grids_of[values], "{values:?}");
        *classes.entry(n_grids).or_default() += 1;
    }
    assert_eq!(classes.into_iter().collect::<Vec<_>>(), [(2, 76), (4, 2), (8, 8), (16, 4)]);
}

/// `facts.md` section 2: the fewest givens of a 4x4 puzzle with one solution are 4, and exactly 25,728
/// puzzles with 4 givens have one.
#[test]
fn fewest_givens_of_four_by_four() {
    assert_eq!(n_sound_with_givens(3), 0);
    assert_eq!(n_sound_with_givens(4), 25_728);
}

/// How many 4x4 puzzles with so many givens have one solution. Renaming digits changes nothing, so only
/// puzzles whose digits first appear in rising order are decided, and each counts for all its namesakes.
fn n_sound_with_givens(n_givens: usize) -> u64 {
    fn add_givens(grid: &Grid, rest: &[Cell], n_more: usize, n_digits: u8, n_namesakes: u64) -> u64 {
        if n_more == 0 {
            let puzzle = Puzzle::new(grid.clone(), []);
            return if matches!(verdict(&puzzle, LIMIT), Verdict::One(_)) { n_namesakes } else { 0 };
        }
        let mut n_sound = 0;
        for (at, cell) in rest.iter().enumerate() {
            for value in 1..=(n_digits + 1).min(4) {
                let is_new = value > n_digits;
                let next = grid.clone().with(*cell, Digit::new(value));
                let names = if is_new { u64::from(4 - n_digits) } else { 1 };
                let n_digits = n_digits + u8::from(is_new);
                n_sound += add_givens(&next, &rest[at + 1..], n_more - 1, n_digits, n_namesakes * names);
            }
        }
        n_sound
    }
    let cells: Vec<Cell> = four().cells().collect();
    add_givens(&Grid::empty(four()), &cells, n_givens, 0, 1)
}

/// `shared/data/README.md`: each of these puzzles has exactly one solution; and no puzzle with fewer
/// givens has (McGuire, Tugemann, Civario, arXiv:1201.0749), so none stays sound if a given is dropped.
#[test]
#[expect(clippy::print_stderr, reason = "a test that cannot run says why")]
fn seventeen_givens() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../../shared/data/classic17.txt");
    let text = match std::fs::read_to_string(path) {
        Ok(text) => text,
        Err(error) => return eprintln!("skipped: the outside data {path} is not here ({error})"),
    };
    let grids: Vec<Grid> = text.lines().step_by(25).map(|it| Grid::from_line(it).unwrap()).collect();
    assert_eq!(grids.len(), 200);
    for (at, grid) in grids.iter().enumerate() {
        assert_eq!(grid.filled().count(), 17);
        let Verdict::One(solution) = verdict(&Puzzle::new(grid.clone(), []), LIMIT) else {
            panic!("{grid} has not one solution");
        };
        assert!(Puzzle::new(grid.clone(), []).is_solved_by(&solution));
        if at % 10 == 0 {
            for (cell, _) in grid.filled() {
                let fewer = Puzzle::new(grid.clone().with(cell, None), []);
                assert!(matches!(verdict(&fewer, LIMIT), Verdict::Many(_)), "{grid} without {cell}");
            }
        }
    }
}
