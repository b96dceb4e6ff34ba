//! Constructed pairs of puzzles, alike in all but one thing: what was published about that thing holds for the minutes.
//!
//! Set by Galley's own seeds and picked because walkthroughs of a pair have equally many steps that write equally much
//! down. Whatever leads nowhere is left out of what is open, or the second and the third pair would take equally long.

use grade::{Calibration, Estimate, estimate};
use grid::{Grid, Size};
use prove::{Limit, Verdict};
use reason::{Known, Settings, View, explain, survey, technique};
use rulebook::{Clue, Puzzle, SANDWICH};
use trail::{TechniqueId, Trail};

/// The published signal where only singles are needed (R. Pelánek, arXiv:1403.7373: few open steps, 0.73 to 0.80).
#[test]
fn of_two_puzzles_of_hidden_singles_the_one_with_few_open_at_once_takes_longer() {
    let known = ["hidden-single"];
    let few = Graded::of(
        "56..2...14.13....9.3......62...89....4....9......13.5.65..97.8....84....81.236.9.",
        "",
        &known,
    );
    let many = Graded::of(
        "7..3....1.4.2.163...6..8.....21.9.75..9...364.5....12.5...6.....81935.........2.8",
        "",
        &known,
    );
    assert_eq!((few.n_steps(), few.weight()), (many.n_steps(), many.weight()));
    few.takes_longer_than(&many, 1.4);
    assert!(2.0 * few.mean_open() < many.mean_open());
}

/// The same with clues (0.67 and 0.69 over all puzzles).
#[test]
fn of_two_puzzles_of_equal_effort_the_one_with_few_open_at_once_takes_longer() {
    let few = Graded::of(
        ".85....373.........2.3.8.............3...4.5....53..6..1..4..7.4...5....7...1.2.6",
        "17 22 31 4 13 8 21 31 0  3 0 0 31 35 4 7 0 22",
        &GENTLE,
    );
    let many = Graded::of(
        ".3..8.1..9..43...6.68.....3....1......3....2545....7.....1...4..4........8.....12",
        "7 0 7 0 0 0 0 8 0  10 13 0 15 13 0 35 10 18",
        &GENTLE,
    );
    assert_eq!((few.n_steps(), few.weight()), (many.n_steps(), many.weight()));
    few.takes_longer_than(&many, 1.15);
    assert!(1.5 * few.mean_open() < many.mean_open());
}

/// The strongest published signal (0.68 and 0.83): the effort of single steps.
#[test]
fn of_two_puzzles_with_as_many_open_at_once_the_one_of_harder_steps_takes_longer() {
    let hard = Graded::of(
        "...2...6..................21.46........4.1...562.....39.6.....1...763.592.31..47.",
        "9 18 21 20 7 7 35 31 8  12 30 4 33 17 12 6 0 0",
        &GENTLE,
    );
    let easy = Graded::of(
        "62.581.7.4......6...1..32.....2.8.....6..........9.....8....9...6..15..77..4..8..",
        "13 9 20 28 33 0 28 16 8  0 0 3 15 6 35 20 17 4",
        &GENTLE,
    );
    assert_eq!(hard.n_steps(), easy.n_steps());
    hard.takes_longer_than(&easy, 1.1);
    assert!((hard.mean_open() / easy.mean_open() - 1.0).abs() < 0.05);
    assert!(10 * hard.weight() > 11 * easy.weight());
}

/// What the puzzles with clues take.
const GENTLE: [&str; 14] = [
    "last-empty-cell",
    "crusts-at-ends",
    "crusts-adjacent",
    "crusts-found",
    "hidden-single",
    "crust-distance",
    "naked-single",
    "crust-places",
    "last-outside",
    "last-in-sum",
    "outside-digits",
    "filling-sets",
    "spent-clue",
    "crust-reach",
];

/// A puzzle with its walkthrough and minutes, for those who know some techniques only.
struct Graded {
    trail: Trail,
    estimate: Estimate,
}

impl Graded {
    /// `clues` are the sums of all rows and then of all columns, or of none.
    fn of(givens: &str, clues: &str, known: &[&'static str]) -> Graded {
        let size = Size::NINE;
        let digits = givens.chars().map(|it| it.to_digit(10).and_then(|it| size.digit(it as u8)));
        let givens = size.cells().zip(digits).fold(Grid::empty(size), |grid, (cell, it)| grid.with(cell, it));
        let values = clues.split_whitespace().map(|it| it.parse().unwrap());
        let clues = size.lines().zip(values).map(|(line, value)| Clue { rule: &SANDWICH, line, value });
        let puzzle = Puzzle::new(givens, clues);
        let Verdict::One(solution) = prove::verdict(&puzzle, Limit(1_000_000)) else { panic!("{puzzle:?}") };
        let known = Known::only(known.iter().map(|it| TechniqueId::new(it)));
        let settings = Settings { known, ..Settings::TECHNIQUES_ALONE };
        let explained = explain(&puzzle, &solution, settings).unwrap();
        let trail = explained.walkthrough().trail().clone();
        let surveys = survey(View::new(&puzzle), &trail);
        let estimate = estimate(&surveys, &trail, known, &Calibration::default());
        Graded { trail, estimate }
    }

    /// How many there are, and how much they conclude.
    fn n_steps(&self) -> (usize, usize) {
        (self.trail.n_steps(), self.trail.steps().map(|it| it.1.concludes().len()).sum())
    }

    /// The weights of all steps.
    fn weight(&self) -> u32 {
        self.trail.steps().map(|it| technique(it.1.technique()).unwrap().weight()).sum()
    }

    fn mean_open(&self) -> f64 {
        let open: usize = self.estimate.steps.iter().map(|it| it.open).sum();
        open as f64 / self.estimate.steps.len() as f64
    }

    /// By this factor at least for a regular, and at all for everybody.
    fn takes_longer_than(&self, other: &Graded, factor: f64) {
        for (own, other) in self.estimate.times.iter().zip(other.estimate.times) {
            assert!(own.median > other.median && own.ninetieth > other.ninetieth, "{own:?} {other:?}");
        }
        let (own, other) = (self.estimate.minutes(), other.estimate.minutes());
        assert!(own > factor * other, "{own:.2} minutes, {other:.2}");
    }
}
