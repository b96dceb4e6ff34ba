//! Puzzles from a seed: the same seed gives the same puzzle everywhere.

use grid::{Cell, Digit, Grid, House, Size};
use prove::{Limit, Verdict};
use rulebook::{Clue, Puzzle, Rule, SANDWICH};

/// What deciding one of these puzzles may cost; one that costs more does not count as decided.
const LIMIT: Limit = Limit(20_000);

/// Pseudo-random numbers: SplitMix64 (Steele, Lea, Flood, OOPSLA 2014).
pub(crate) struct Seeded(u64);

impl Seeded {
    /// The sequence that belongs to a seed.
    pub(crate) fn new(seed: u64) -> Seeded {
        Seeded(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15).wrapping_add(12_345))
    }

    /// A number below `n`.
    pub(crate) fn below(&mut self, n: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let it = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        let it = (it ^ (it >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((it ^ (it >> 31)) % n as u64) as usize
    }
}

/// A puzzle with its only solution.
pub(crate) struct Made {
    pub(crate) puzzle: Puzzle,
    pub(crate) solution: Grid,
}

/// A puzzle with that many sandwich clues (none: a classic one) and no given to spare.
///
/// A random solution with clues beside random lines; then, in random order, every given that can be
/// spared is taken away.
pub(crate) fn puzzle(size: Size, n_clues: usize, seed: u64) -> Made {
    let mut seeded = Seeded::new(seed);
    let empty = Puzzle::new(Grid::empty(size), []);
    let solution = prove::some_solution(&empty, LIMIT, &mut |digits| seeded.below(digits.len())).unwrap();
    let mut clues: Vec<Clue> = size.lines().map(|it| clue(&solution, it)).collect();
    while clues.len() > n_clues {
        clues.remove(seeded.below(clues.len()));
    }
    let mut puzzle = Puzzle::new(solution.clone(), clues.clone());
    let mut cells: Vec<Cell> = size.cells().collect();
    while !cells.is_empty() {
        let cell = cells.swap_remove(seeded.below(cells.len()));
        let fewer = Puzzle::new(puzzle.givens().clone().with(cell, None), clues.clone());
        if matches!(prove::verdict(&fewer, LIMIT), Verdict::One(_)) {
            puzzle = fewer;
        }
    }
    Made { puzzle, solution }
}

/// The clue that is true of the line.
fn clue(solution: &Grid, line: House) -> Clue {
    let size = solution.size();
    let digits: Vec<Digit> = size.cells_of(line).into_iter().filter_map(|it| solution.get(it)).collect();
    let value = SANDWICH.reachable(size).into_iter().find(|it| SANDWICH.allows(size, *it, &digits)).unwrap();
    Clue { rule: &SANDWICH, line, value }
}
