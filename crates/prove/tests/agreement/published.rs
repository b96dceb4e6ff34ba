//! Classic puzzles and the solutions printed for them elsewhere. Puzzles, solutions and sources are written
//! from memory; each puzzle has one solution, so a slip of memory could not go unseen.

use grid::Grid;
use prove::{Limit, Verdict, count, verdict};
use rulebook::Puzzle;

/// Where it was printed, the puzzle, and the solution printed.
const PUBLISHED: [(&str, &str, &str); 3] = [
    (
        "the English Wikipedia's article on sudoku, its first picture, since 2005",
        "53..7....6..195....98....6.8...6...34..8.3..17...2...6.6....28....419..5....8..79",
        "534678912672195348198342567859761423426853791713924856961537284287419635345286179",
    ),
    (
        "A. Inkala, 2006, in newspapers called the hardest so far",
        "1....7.9..3..2...8..96..5....53..9...1..8...26....4...3......1..4......7..7...3..",
        "162857493534129678789643521475312986913586742628794135356478219241935867897261354",
    ),
    (
        "A. Inkala, The Daily Telegraph, June 2012, called the hardest of all",
        "8..........36......7..9.2...5...7.......457.....1...3...1....68..85...1..9....4..",
        "812753649943682175675491283154237896369845721287169534521974368438526917796318452",
    ),
];

#[test]
fn the_solution_is_the_one_that_was_printed() {
    for (source, givens, solution) in PUBLISHED {
        let puzzle = Puzzle::new(Grid::from_line(givens).unwrap(), []);
        let solution = Grid::from_line(solution).unwrap();
        assert_eq!(verdict(&puzzle, Limit(10_000)), Verdict::One(solution), "{source}");
        assert_eq!(count(&puzzle, 100, Limit(10_000)), Some(1), "{source}");
    }
}
