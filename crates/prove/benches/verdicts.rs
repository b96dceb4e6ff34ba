//! How long a verdict takes: `cargo bench -p prove`.
//!
//! Sandwich puzzles with all sums, from seeds, on 9x9 with a few givens and on larger boards with a quarter of the
//! cells given, and the 17-given puzzles of `shared/data` where they are at hand.

#![expect(clippy::disallowed_methods, clippy::print_stdout, reason = "a bench reads the clock and prints")]

#[path = "../tests/agreement/seeded.rs"]
#[allow(dead_code, reason = "a bench draws fewer kinds of puzzle than the tests do")]
mod seeded;

use std::time::{Duration, Instant};

use grid::{Grid, Size};
use prove::{Limit, Printed, Verdict, some_solution, verdict};
use rulebook::Puzzle;
use seeded::Seeded;

const LIMIT: Limit = Limit(1_000_000);

/// How often each puzzle is decided.
const N_RUNS: usize = 5;

fn main() {
    for side in [16, 12, 15] {
        let size = Size::of_side(side).expect("a size");
        let mut seeded = Seeded::new(2);
        let name = format!("{side}x{side}, all {} sums, {} givens", 2 * side, quarter(size));
        report(&format!("{name} at random"), &large(60, || large_at_random(size, &mut seeded)));
        report(&format!("{name} that leave one solution"), &large(30, || large_sound(size, &mut seeded)));
    }
    let mut seeded = Seeded::new(1);
    for n_givens in 0..=9 {
        let puzzles: Vec<Puzzle> = (0..200).map(|_| sandwich(n_givens, &mut seeded)).collect();
        report(&format!("all 18 sums, {n_givens} givens"), &puzzles);
    }
    let puzzles: Vec<Puzzle> =
        (0..200).map(|_| seeded::sparse_puzzle(Size::NINE, &mut seeded, has_one)).collect();
    report("all 18 sums, no given to spare", &puzzles);
    let Some(path) = std::env::var_os("CLASSIC_17") else {
        return println!("classic, 17 givens: skipped, CLASSIC_17 does not say where the puzzles are");
    };
    match std::fs::read_to_string(&path) {
        Ok(text) => {
            let grids = text.lines().filter_map(|it| Grid::from_line(it).ok());
            let puzzles: Vec<Puzzle> = grids.map(|it| Puzzle::new(it, [])).collect();
            report("classic, 17 givens", &puzzles);
        }
        Err(error) => println!("classic, 17 givens: skipped, {}: {error}", path.display()),
    }
}

fn has_one(puzzle: &Puzzle) -> bool {
    matches!(verdict(puzzle, LIMIT), Verdict::One(_))
}

/// A puzzle with all sums and so many givens.
fn sandwich(n_givens: usize, seeded: &mut Seeded) -> Puzzle {
    let grid = seeded::full_grid(Size::NINE, seeded);
    let shown = seeded.shuffled(Size::NINE.cells()).split_off(81 - n_givens);
    let givens = Grid::from_fn(Size::NINE, |it| grid.get(it).filter(|_| shown.contains(&it)));
    Puzzle::new(givens, seeded::true_clues(&grid))
}

/// So many puzzles with all sums and a quarter of the cells given.
fn large(n: usize, draw: impl FnMut() -> Puzzle) -> Vec<Puzzle> {
    let is_meant = |it: &Puzzle| it.givens().filled().count() == quarter(it.size());
    std::iter::repeat_with(draw).filter(is_meant).take(n).collect()
}

fn quarter(size: Size) -> usize {
    size.n_cells() / 4
}

/// So many cells of a grid that the engine filled at random are given.
fn large_puzzle(size: Size, n_givens: usize, seeded: &mut Seeded) -> Puzzle {
    let blank = Puzzle::new(Grid::empty(size), []);
    let mut prefer = |digits: &[_]| seeded.below(digits.len());
    let grid = some_solution(&blank, LIMIT, &mut prefer).expect("every size has full grids");
    let shown = seeded.shuffled(size.cells()).split_off(size.n_cells() - n_givens);
    let givens = Grid::from_fn(size, |it| grid.get(it).filter(|_| shown.contains(&it)));
    Puzzle::new(givens, seeded::true_clues(&grid))
}

fn large_at_random(size: Size, seeded: &mut Seeded) -> Puzzle {
    large_puzzle(size, quarter(size), seeded)
}

/// From a full grid givens are taken away while one solution is left that some nodes prove, down to a quarter.
fn large_sound(size: Size, seeded: &mut Seeded) -> Puzzle {
    let mut puzzle = large_puzzle(size, size.n_cells(), seeded);
    let mut n_given = puzzle.givens().filled().count();
    for (cell, digit) in seeded.shuffled(puzzle.givens().filled()) {
        let fewer = Printed::Given(cell, digit).taken_from(&puzzle);
        if n_given > quarter(size) && matches!(verdict(&fewer, Limit(300)), Verdict::One(_)) {
            (puzzle, n_given) = (fewer, n_given - 1);
        }
    }
    puzzle
}

fn report(name: &str, puzzles: &[Puzzle]) {
    let mut times = Vec::with_capacity(puzzles.len());
    let (mut n_one, mut n_many, mut n_undecided) = (0, 0, 0);
    for puzzle in puzzles {
        // The best of a few runs, so that whatever else the machine does is left out.
        let runs = (0..N_RUNS).map(|_| {
            let start = Instant::now();
            let verdict = verdict(puzzle, LIMIT);
            (start.elapsed(), verdict)
        });
        let Some((time, verdict)) = runs.min_by_key(|it| it.0) else { return };
        times.push(time);
        match verdict {
            Verdict::One(_) => n_one += 1,
            Verdict::Many(_) => n_many += 1,
            Verdict::None => unreachable!("each was drawn from a solution"),
            Verdict::Undecided => n_undecided += 1,
        }
    }
    times.sort();
    let micros = |it: Duration| it.as_secs_f64() * 1e6;
    let mean = micros(times.iter().sum()) / times.len() as f64;
    println!(
        "{name}: {} puzzles, one {n_one}, many {n_many}, undecided {n_undecided}; µs a verdict: median {:.1}, mean {mean:.1}, 99th {:.1}, most {:.1}",
        times.len(),
        micros(times[times.len() / 2]),
        micros(times[times.len() * 99 / 100]),
        micros(times[times.len() - 1]),
    );
}
