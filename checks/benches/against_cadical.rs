//! How much faster than a general solver `prove` is: `cargo bench -p checks`.
//!
//! CaDiCaL's side is its solving time alone: stating the puzzle as clauses is left out. Ours is everything,
//! from the puzzle to the verdict. Both prove that there is one solution: CaDiCaL finds one, is forbidden
//! it, and finds no other. Each time is the best of a few runs. The two are asked in turns, so that `prove` starts
//! with whatever CaDiCaL has left in the processor's caches; what it takes when it is asked about one puzzle after
//! another, as the program does, is printed beside that. CaDiCaL's is the time that its thread was
//! on a core, so that what else the machine does weighs on it no more than it must; ours is by the clock, because
//! it is too short for the other, so where this is unfair it is so to us.
//!
//! Of the classic puzzles, which are not the project's own, it reads the file that `CLASSIC_17` names.

#![expect(clippy::disallowed_methods, clippy::print_stdout, reason = "a bench reads the clock and prints")]

#[allow(dead_code, reason = "the bench states clues by their ways alone")]
#[path = "../../crates/prove/tests/agreement/clauses.rs"]
mod clauses;
#[path = "../../crates/prove/tests/agreement/seeded.rs"]
#[allow(dead_code, reason = "a bench draws fewer kinds of puzzle than the tests do")]
mod seeded;

use std::time::{Duration, Instant};

use cadical::Solver;
use cpu_time::ThreadTime;
use grid::{Grid, Size};
use prove::{Limit, Verdict, verdict};
use rulebook::Puzzle;

use crate::clauses::{ClauseSolver, Statement, solutions};
use crate::seeded::Seeded;

const LIMIT: Limit = Limit(1_000_000);
const N_PUZZLES: usize = 300;
const N_RUNS: usize = 3;

fn main() {
    let mut seeded = Seeded::new(501);
    for (n_clues, n_givens) in [(18, 2..=9), (12, 1..=8)] {
        let name = format!("{n_clues} clues, {} to {} givens", n_givens.start(), n_givens.end());
        let fits = |it: &Puzzle| n_givens.contains(&it.givens().filled().count());
        let puzzles = std::iter::repeat_with(|| sparse(n_clues, &mut seeded)).filter(fits);
        compare(&name, &puzzles.take(N_PUZZLES).collect::<Vec<_>>());
    }
    let Some(path) = std::env::var_os("CLASSIC_17") else {
        return println!("classic, 17 givens: skipped, CLASSIC_17 does not say where the puzzles are");
    };
    match std::fs::read_to_string(&path) {
        Ok(text) => {
            let step = text.lines().count().div_ceil(N_PUZZLES).max(1);
            let grids = text.lines().step_by(step).filter_map(|it| Grid::from_line(it).ok());
            compare("classic, 17 givens", &grids.map(|it| Puzzle::new(it, [])).collect::<Vec<_>>());
        }
        Err(error) => println!("classic, 17 givens: skipped, {}: {error}", path.display()),
    }
}

/// A 9x9 puzzle with so many sums and one solution, which it loses if any given is dropped.
fn sparse(n_clues: usize, seeded: &mut Seeded) -> Puzzle {
    let grid = seeded::full_grid(Size::NINE, seeded);
    let mut clues = seeded.shuffled(seeded::true_clues(&grid));
    clues.truncate(n_clues);
    seeded::without_spare_givens(&grid, &clues, seeded, |it| matches!(verdict(it, LIMIT), Verdict::One(_)))
}

fn compare(name: &str, puzzles: &[Puzzle]) {
    let best = |times: &mut dyn Iterator<Item = Duration>| times.min().unwrap_or_default();
    let mut in_a_row: Vec<Duration> =
        puzzles.iter().map(|it| best(&mut (0..N_RUNS).map(|_| by_prove(it)))).collect();
    in_a_row.sort();
    let (mut ours, mut theirs) = (Vec::new(), Vec::new());
    for puzzle in puzzles {
        theirs.push(best(&mut (0..N_RUNS).map(|_| by_cadical(puzzle))));
        ours.push(best(&mut (0..N_RUNS).map(|_| by_prove(puzzle))));
    }
    ours.sort();
    theirs.sort();
    println!("{name}: {} puzzles with one solution, microseconds", puzzles.len());
    for (quantile, percent) in [("median", 50), ("99th percentile", 99)] {
        let at = |times: &[Duration]| times[times.len() * percent / 100].as_secs_f64() * 1e6;
        let (ours, theirs, in_a_row) = (at(&ours), at(&theirs), at(&in_a_row));
        println!(
            "  {quantile}: prove {ours:.1}, CaDiCaL {theirs:.1}: {:.0} times; prove, one puzzle after another, {in_a_row:.1}: {:.0} times",
            theirs / ours,
            theirs / in_a_row
        );
    }
    let total = |times: &[Duration]| times.iter().sum::<Duration>().as_secs_f64() / times.len() as f64;
    println!("  puzzles a second: prove {:.0}, CaDiCaL {:.0}", 1.0 / total(&ours), 1.0 / total(&theirs));
}

fn by_prove(puzzle: &Puzzle) -> Duration {
    let start = Instant::now();
    let verdict = verdict(puzzle, LIMIT);
    let time = start.elapsed();
    assert!(matches!(verdict, Verdict::One(_)), "{puzzle:?}");
    time
}

fn by_cadical(puzzle: &Puzzle) -> Duration {
    let mut timed = Timed::default();
    assert_eq!(solutions(puzzle, 2, Statement::Ways, &mut timed).len(), 1, "{puzzle:?}");
    timed.solving
}

/// CaDiCaL, with the time it spends solving.
#[derive(Default)]
struct Timed {
    solver: Solver,
    solving: Duration,
}

impl ClauseSolver for Timed {
    fn add(&mut self, clause: &[i32]) {
        self.solver.add_clause(clause.iter().copied());
    }

    fn is_satisfiable(&mut self) -> bool {
        let start = ThreadTime::now();
        let answer = self.solver.solve();
        self.solving += start.elapsed();
        answer.expect("no limit was set")
    }

    fn is_true(&self, variable: i32) -> bool {
        self.solver.value(variable) == Some(true)
    }
}
