//! Twins, held against all symmetries tried one by one, and against published numbers of grids that are
//! essentially different.

use std::collections::BTreeSet;

use grid::{Digit, Grid, HouseKind, Size};
use proptest::prelude::*;
use prove::{Canonical, Limit, Symmetries, canonical, canonical_grid};
use rulebook::{Clue, Puzzle, SANDWICH};

use crate::drawn::config;
use crate::plain_search;
use crate::seeded::{self, Recipe, Seeded};

const LIMIT: Limit = Limit(100_000);

fn classic(grid: &Grid) -> Canonical {
    canonical_grid(Symmetries::Classic, grid, LIMIT).expect("the limit is far away")
}

/// A way to move a grid: from which row and column each comes, and what each digit becomes.
#[derive(Clone, Debug)]
struct Move {
    rows: Vec<u8>,
    columns: Vec<u8>,
    transposed: bool,
    digits: Vec<u8>,
}

impl Move {
    fn of(&self, grid: &Grid) -> Grid {
        let size = grid.size();
        Grid::from_fn(size, |cell| {
            let (row, column) =
                (self.rows[usize::from(cell.row() - 1)], self.columns[usize::from(cell.column() - 1)]);
            let (row, column) = if self.transposed { (column, row) } else { (row, column) };
            let digit = grid.get(size.cell(row, column)?)?;
            size.digit(self.digits[usize::from(digit.get() - 1)])
        })
    }

    fn random(size: Size, seeded: &mut Seeded) -> Move {
        let digits = seeded.shuffled(1..=size.side());
        Move {
            rows: random_lines(size.side(), size.box_height(), seeded),
            columns: random_lines(size.side(), size.box_width(), seeded),
            transposed: size.box_width() == size.box_height() && seeded.chance(50),
            digits,
        }
    }
}

/// Lines in another order that keeps those of one band together.
fn random_lines(side: u8, in_band: u8, seeded: &mut Seeded) -> Vec<u8> {
    let bands = seeded.shuffled(0..side / in_band);
    bands
        .into_iter()
        .flat_map(|band| seeded.shuffled(1..=in_band).into_iter().map(move |it| band * in_band + it))
        .collect()
}

/// Every order of four lines that keeps pairs together.
fn orders_of_four() -> [[u8; 4]; 8] {
    [
        [1, 2, 3, 4],
        [2, 1, 3, 4],
        [1, 2, 4, 3],
        [2, 1, 4, 3],
        [3, 4, 1, 2],
        [4, 3, 1, 2],
        [3, 4, 2, 1],
        [4, 3, 2, 1],
    ]
}

/// The smallest of all grids that a 4x4 grid can be moved to, with digits named in the order in which they
/// come.
fn smallest_move(grid: &Grid) -> String {
    let mut all = Vec::new();
    for rows in orders_of_four() {
        for columns in orders_of_four() {
            for transposed in [false, true] {
                let moved = Move {
                    rows: rows.to_vec(),
                    columns: columns.to_vec(),
                    transposed,
                    digits: vec![1, 2, 3, 4],
                };
                all.push(in_order_of_coming(&moved.of(grid).to_string()));
            }
        }
    }
    all.into_iter().min().expect("128 of them")
}

fn in_order_of_coming(text: &str) -> String {
    let mut met: Vec<char> = Vec::new();
    let named = text.chars().map(|it| {
        if it == '.' {
            return it;
        }
        let at = met.iter().position(|met| *met == it).unwrap_or_else(|| {
            met.push(it);
            met.len() - 1
        });
        char::from_digit(at as u32 + 1, 10).expect("a digit")
    });
    named.collect()
}

fn random_givens(size: Size, percent: usize, seeded: &mut Seeded) -> Grid {
    let full = seeded::full_grid(size, seeded);
    Grid::from_fn(size, |it| full.get(it).filter(|_| seeded.chance(percent)))
}

proptest! {
    #![proptest_config(config(200))]

    #[test]
    fn classic_twins_are_those_that_can_be_moved_to_each_other(seed in any::<u64>()) {
        let mut seeded = Seeded::new(seed);
        let size = Size::of_side(4).unwrap();
        let percent = 15 + seeded.below(60);
        let grids = [(); 6].map(|()| random_givens(size, percent, &mut seeded));
        for a in &grids {
            for b in &grids {
                prop_assert_eq!(classic(a) == classic(b), smallest_move(a) == smallest_move(b), "{} {}", a, b);
            }
        }
    }

    #[test]
    fn moved_grids_of_all_sizes_are_twins(seed in any::<u64>(), size in any_size(), percent in 0..=100usize) {
        let mut seeded = Seeded::new(seed);
        let grid = some_givens(size, percent, &mut seeded);
        let moved = Move::random(size, &mut seeded).of(&grid);
        prop_assert_eq!(classic(&grid), classic(&moved));
        // One digit more or less is another puzzle.
        if let Some((cell, _)) = grid.filled().next() {
            prop_assert!(classic(&grid.clone().with(cell, None)) != classic(&grid));
        }
    }

    #[test]
    fn turned_puzzles_with_clues_are_twins(seed in any::<u64>(), size in any_size()) {
        let mut seeded = Seeded::new(seed);
        let puzzle = random_sandwich(size, &mut seeded);
        let form = canonical(&puzzle, Limit(0));
        prop_assert!(form.is_some(), "there is nothing to search for");
        let moves = all_turns(size);
        prop_assert_eq!(moves.len(), if size.box_width() == size.box_height() { 16 } else { 8 });
        for it in moves {
            prop_assert_eq!(&canonical(&turned(&it, &puzzle), LIMIT), &form, "{:?}", it);
        }
    }

    #[test]
    fn rows_of_a_puzzle_with_clues_cannot_be_exchanged(seed in any::<u64>()) {
        let mut seeded = Seeded::new(seed);
        let size = Size::NINE;
        let puzzle = random_sandwich(size, &mut seeded);
        let it = Move::random(size, &mut seeded);
        let moved = turned(&it, &puzzle);
        let is_turn = all_turns(size).iter().any(|turn| turned(turn, &puzzle) == moved);
        prop_assert_eq!(canonical(&moved, LIMIT) == canonical(&puzzle, LIMIT), is_turn);
    }
}

fn any_size() -> impl Strategy<Value = Size> {
    let sizes = vec![(2, 2), (3, 2), (4, 2), (3, 3), (5, 2), (4, 3), (5, 3), (4, 4)];
    prop::sample::select(sizes).prop_map(|(width, height)| Size::new(width, height).expect("a size"))
}

/// The plainest full grid of a size, which has many symmetries of its own.
fn plain_grid(size: Size) -> Grid {
    let (side, width, height) = (size.side(), size.box_width(), size.box_height());
    Grid::from_fn(size, |cell| {
        let (row, column) = (cell.row() - 1, cell.column() - 1);
        size.digit((row % height * width + row / height + column) % side + 1)
    })
}

/// Some digits of a full grid; beyond 9x9 of the plainest one, moved at random.
fn some_givens(size: Size, percent: usize, seeded: &mut Seeded) -> Grid {
    let full = match size.side() {
        ..=9 => seeded::full_grid(size, seeded),
        _ => Move::random(size, seeded).of(&plain_grid(size)),
    };
    Grid::from_fn(size, |it| full.get(it).filter(|_| seeded.chance(percent)))
}

fn random_sandwich(size: Size, seeded: &mut Seeded) -> Puzzle {
    let givens = some_givens(size, 20, seeded);
    let values = SANDWICH_VALUES.map(|it| it % (u16::from(size.side()) * 2));
    let lines = size.lines().filter(|_| seeded.chance(70)).collect::<Vec<_>>();
    let clues = lines.into_iter().map(|line| Clue {
        rule: &SANDWICH,
        line,
        value: values[seeded.below(values.len())],
    });
    Puzzle::new(givens, clues.collect::<Vec<_>>())
}

/// Any numbers: whether a clue can be met does not matter here.
const SANDWICH_VALUES: [u16; 6] = [0, 2, 5, 9, 14, 27];

/// Turns and mirrors, each with and without the exchange.
fn all_turns(size: Size) -> Vec<Move> {
    let side = size.side();
    let orders = [(1..=side).collect::<Vec<u8>>(), (1..=side).rev().collect()];
    let exchanged = |it: u8| {
        if it == 1 {
            side
        } else if it == side {
            1
        } else {
            it
        }
    };
    let digits = [(1..=side).collect::<Vec<u8>>(), (1..=side).map(exchanged).collect()];
    let mut all = Vec::new();
    for rows in &orders {
        for columns in &orders {
            for digits in &digits {
                for transposed in [false, true] {
                    if !transposed || size.box_width() == size.box_height() {
                        let (rows, columns, digits) = (rows.clone(), columns.clone(), digits.clone());
                        all.push(Move { rows, columns, transposed, digits });
                    }
                }
            }
        }
    }
    all
}

/// The puzzle moved, its clues with their lines.
fn turned(it: &Move, puzzle: &Puzzle) -> Puzzle {
    let size = puzzle.size();
    let (rows, columns) =
        if it.transposed { (HouseKind::Column, HouseKind::Row) } else { (HouseKind::Row, HouseKind::Column) };
    let clue_from = |kind, from: &Vec<u8>, to: HouseKind| -> Vec<Clue> {
        let lines = from.iter().enumerate().filter_map(|(at, number)| {
            let (_, clue) = puzzle.clue_at(&SANDWICH, size.house(kind, *number)?)?;
            Some(Clue { line: size.house(to, at as u8 + 1)?, ..*clue })
        });
        lines.collect()
    };
    let mut clues = clue_from(rows, &it.rows, HouseKind::Row);
    clues.extend(clue_from(columns, &it.columns, HouseKind::Column));
    Puzzle::new(it.of(puzzle.givens()), clues)
}

/// `facts.md` section 2 (exact): of the 288 grids of 4x4, 2 are essentially different.
#[test]
fn two_grids_of_four_by_four() {
    let mut forms = BTreeSet::new();
    let mut n_grids = 0;
    plain_search::visit_solutions(&Puzzle::new(Grid::empty(Size::of_side(4).unwrap()), []), &mut |grid| {
        forms.insert(classic(grid));
        n_grids += 1;
        true
    });
    assert_eq!((n_grids, forms.len()), (288, 2));
}

/// `facts.md` section 2 (published): of the 28,200,960 grids of 6x6, 49 are essentially different. Each can
/// be moved so that its first box reads 1 to 6 and its first column rises within bands and from the second
/// row on from band to band.
#[test]
fn forty_nine_grids_of_six_by_six() {
    let size = Size::new(3, 2).unwrap();
    let digits: Vec<Digit> = size.digits().iter().collect();
    let first_box = size.cells_of(size.house(HouseKind::Box, 1).unwrap());
    let givens = first_box
        .iter()
        .zip(&digits)
        .fold(Grid::empty(size), |grid, (cell, digit)| grid.with(*cell, Some(*digit)));
    let mut forms = BTreeSet::new();
    let mut n_grids = 0;
    let at = |grid: &Grid, row: u8| grid.get(size.cell(row, 1).unwrap());
    plain_search::visit_solutions(&Puzzle::new(givens, []), &mut |grid| {
        let is_sorted = at(grid, 3) < at(grid, 4) && at(grid, 5) < at(grid, 6) && at(grid, 3) < at(grid, 5);
        if is_sorted {
            forms.insert(classic(grid));
        }
        n_grids += 1;
        true
    });
    assert_eq!((n_grids, forms.len()), (28_200_960 / 720, 49));
}

#[test]
fn a_blank_page_has_a_form_of_its_own() {
    for (width, height) in [(2, 2), (3, 2), (3, 3), (4, 4)] {
        let size = Size::new(width, height).unwrap();
        let blank = Grid::empty(size);
        assert_eq!(
            canonical_grid(Symmetries::Classic, &blank, Limit(1_000)),
            canonical_grid(Symmetries::Classic, &blank, LIMIT)
        );
        let one = |row, column, digit| {
            classic(&blank.clone().with(size.cell(row, column).unwrap(), Digit::new(digit)))
        };
        assert_eq!(one(1, 1, 1), one(4, 3, 2));
        assert!(one(1, 1, 1) != classic(&blank));
        assert_eq!(canonical_grid(Symmetries::Classic, &blank, Limit(0)), None);
    }
}

#[test]
fn grids_with_many_symmetries_have_a_form() {
    let mut seeded = Seeded::new(2);
    for (width, height) in [(2, 2), (3, 2), (4, 2), (3, 3), (5, 2), (4, 3), (5, 3), (4, 4)] {
        let size = Size::new(width, height).unwrap();
        let grid = plain_grid(size);
        assert!(rulebook::first_repeat(&grid).is_none());
        assert_eq!(classic(&Move::random(size, &mut seeded).of(&grid)), classic(&grid), "{size:?}");
    }
}

#[test]
fn puzzles_of_one_grid_are_known_by_their_solution() {
    let mut seeded = Seeded::new(8);
    let recipe = Recipe { givens: 30, clues: 100, spoilt: 0 };
    let puzzle = seeded::puzzle(Size::NINE, recipe, &mut seeded);
    assert_eq!(Symmetries::of(&puzzle), Symmetries::SANDWICH);
    let grid = seeded::full_grid(Size::NINE, &mut seeded);
    let form = |grid: &Grid| canonical_grid(Symmetries::SANDWICH, grid, LIMIT);
    for it in all_turns(Size::NINE) {
        assert_eq!(form(&it.of(&grid)), form(&grid));
    }
    assert_ne!(form(&seeded::full_grid(Size::NINE, &mut seeded)), form(&grid));
}
