//! Puzzles from a seed: the same seed gives the same puzzle everywhere.
//!
//! Grids are filled here by a plain search of their own, and sums are added up from the definition, so
//! that a slip in the crate under test cannot hide in its test data.

use grid::{Digit, DigitSet, Grid, House, Size};
use rulebook::{Clue, Puzzle, SANDWICH};

/// Pseudo-random numbers: SplitMix64 (Steele, Lea, Flood, OOPSLA 2014).
pub(crate) struct Seeded(u64);

impl Seeded {
    /// The sequence that belongs to a seed.
    pub(crate) fn new(seed: u64) -> Seeded {
        Seeded(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let it = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        let it = (it ^ (it >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        it ^ (it >> 31)
    }

    /// A number below `n`.
    pub(crate) fn below(&mut self, n: usize) -> usize {
        (self.next() % n as u64) as usize
    }

    /// True in `percent` of 100 cases.
    pub(crate) fn chance(&mut self, percent: usize) -> bool {
        self.below(100) < percent
    }

    /// The same items in another order.
    pub(crate) fn shuffled<T>(&mut self, items: impl IntoIterator<Item = T>) -> Vec<T> {
        let mut items: Vec<T> = items.into_iter().collect();
        for at in (1..items.len()).rev() {
            items.swap(at, self.below(at + 1));
        }
        items
    }
}

/// What a seeded puzzle shows, each in percent, and whether one thing shown is made wrong.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Recipe {
    /// Of the cells.
    pub(crate) givens: usize,
    /// Of the lines.
    pub(crate) clues: usize,
    /// Of the puzzles: one sum or given is replaced by another, so that there may be no solution.
    pub(crate) spoilt: usize,
}

/// A puzzle drawn from a random grid.
pub(crate) fn puzzle(size: Size, recipe: Recipe, seeded: &mut Seeded) -> Puzzle {
    puzzle_of(&full_grid(size, seeded), recipe, seeded)
}

/// A puzzle drawn from this full grid.
pub(crate) fn puzzle_of(grid: &Grid, recipe: Recipe, seeded: &mut Seeded) -> Puzzle {
    let size = grid.size();
    let mut givens = Grid::from_fn(size, |it| grid.get(it).filter(|_| seeded.chance(recipe.givens)));
    let mut clues = true_clues(grid);
    clues.retain(|_| seeded.chance(recipe.clues));
    if seeded.chance(recipe.spoilt) {
        let open = seeded.below(clues.len() + givens.filled().count() + 1);
        if let Some(clue) = clues.get_mut(open) {
            clue.value = other_sum(grid, clue, seeded);
        } else if let Some((cell, digit)) = givens.clone().filled().nth(open - clues.len()) {
            let other = seeded.shuffled(size.digits().without(digit).iter())[0];
            givens = givens.with(cell, Some(other));
        }
    }
    Puzzle::new(givens, clues)
}

/// A puzzle with all sums and one solution that loses it if any given is dropped: the hardest to decide.
///
/// Which givens are needed is for the caller to say, by deciding whether a puzzle has one solution.
pub(crate) fn sparse_puzzle(size: Size, seeded: &mut Seeded, has_one: impl Fn(&Puzzle) -> bool) -> Puzzle {
    let grid = full_grid(size, seeded);
    without_spare_givens(&grid, &true_clues(&grid), seeded, has_one)
}

/// The same with only these sums of the grid.
pub(crate) fn without_spare_givens(
    grid: &Grid,
    clues: &[Clue],
    seeded: &mut Seeded,
    has_one: impl Fn(&Puzzle) -> bool,
) -> Puzzle {
    let with_clues = |givens: Grid| Puzzle::new(givens, clues.iter().copied());
    let mut puzzle = with_clues(grid.clone());
    for cell in seeded.shuffled(grid.size().cells()) {
        let fewer = with_clues(puzzle.givens().clone().with(cell, None));
        if has_one(&fewer) {
            puzzle = fewer;
        }
    }
    puzzle
}

/// A full grid without repeats: cell by cell, digits in random order, going back where none fits.
pub(crate) fn full_grid(size: Size, seeded: &mut Seeded) -> Grid {
    fn fill(grid: Grid, at: usize, seeded: &mut Seeded) -> Option<Grid> {
        let size = grid.size();
        let Some(cell) = size.cells().nth(at) else { return Some(grid) };
        let seen: DigitSet = size.peers(cell).iter().filter_map(|it| grid.get(it)).collect();
        let digits = seeded.shuffled((size.digits() - seen).iter());
        digits.into_iter().find_map(|it| fill(grid.clone().with(cell, Some(it)), at + 1, seeded))
    }
    fill(Grid::empty(size), 0, seeded).expect("every size has a full grid")
}

/// The sum beside every line of a full grid.
pub(crate) fn true_clues(grid: &Grid) -> Vec<Clue> {
    grid.size().lines().map(|line| Clue { rule: &SANDWICH, line, value: sum_beside(grid, line) }).collect()
}

/// The sum of the digits strictly between the 1 and the largest digit.
fn sum_beside(grid: &Grid, line: House) -> u16 {
    let size = grid.size();
    let digits: Vec<u8> =
        size.cells_of(line).into_iter().filter_map(|it| grid.get(it)).map(Digit::get).collect();
    let place = |digit| digits.iter().position(|it| *it == digit).expect("a full line has every digit");
    let (one, last) = (place(1), place(size.side()));
    digits[one.min(last) + 1..one.max(last)].iter().map(|it| u16::from(*it)).sum()
}

/// A sum that some other line of the grid has, or one that none can have.
fn other_sum(grid: &Grid, clue: &Clue, seeded: &mut Seeded) -> u16 {
    let sums = true_clues(grid).into_iter().map(|it| it.value).filter(|it| *it != clue.value);
    seeded.shuffled(sums.chain([1])).into_iter().next().unwrap_or(1)
}
