//! How long it takes to grade 1,000 teaching puzzles: `cargo bench -p grade`; with `-- N`, as many.
//!
//! Seeded sandwich puzzles with all clues, from which givens are taken away only while techniques alone finish the
//! puzzle. Graded is what a first look at a pack needs: the greedy walkthrough, a survey of what is open at each of its
//! steps, and the minutes. All cores; making the puzzles does not count.

#![expect(clippy::print_stdout, reason = "a bench prints")]
#![expect(clippy::disallowed_methods, reason = "a measurement reads the clock")]

#[path = "../../reason/tests/reasoning/support/seeded.rs"]
mod seeded;
#[path = "../../reason/tests/reasoning/support/teaching.rs"]
mod teaching;

use std::time::{Duration, Instant};

use cpu_time::{ProcessTime, ThreadTime};
use grade::{Calibration, estimate};
use rayon::prelude::*;
use reason::{Known, Settings, View, solve, survey};
use seeded::Made;
use teaching::teaching;

fn main() {
    let n = std::env::args().skip(1).find_map(|it| it.parse().ok()).unwrap_or(1_000);
    let puzzles: Vec<Made> = (0..n).into_par_iter().map(teaching).collect();
    let (start, cpu) = (Instant::now(), ProcessTime::now());
    let graded: Vec<Graded> = puzzles.par_iter().map(graded).collect();
    let (wall, cpu) = (start.elapsed(), cpu.elapsed());
    let part = |of: fn(&Graded) -> Duration| graded.iter().map(of).sum::<Duration>().as_secs_f64();
    let mut minutes: Vec<f64> = graded.iter().map(|it| it.minutes).collect();
    minutes.sort_by(f64::total_cmp);
    println!(
        "{n} puzzles, {} steps, on {} threads",
        graded.iter().map(|it| it.n_steps).sum::<usize>(),
        rayon::current_num_threads()
    );
    println!("{:.1} s by the clock, {:.1} s on cores", wall.as_secs_f64(), cpu.as_secs_f64());
    println!(
        "walkthroughs {:.1} s, surveys {:.1} s, minutes {:.1} s",
        part(|it| it.walk),
        part(|it| it.survey),
        part(|it| it.estimate)
    );
    println!("a regular takes {:.1} minutes at the median of the puzzles", minutes[minutes.len() / 2]);
}

/// What grading one puzzle took, on its thread.
struct Graded {
    walk: Duration,
    survey: Duration,
    estimate: Duration,
    n_steps: usize,
    minutes: f64,
}

fn graded(made: &Made) -> Graded {
    let time = ThreadTime::now();
    let trail = solve(&made.puzzle, &made.solution, Settings::TECHNIQUES_ALONE);
    let trail = trail.unwrap_or_else(|it| unreachable!("techniques finished it before: {it:?}"));
    let walk = time.elapsed();
    let surveys = survey(View::new(&made.puzzle), &trail);
    let survey = time.elapsed() - walk;
    let minutes = estimate(&surveys, &trail, Known::ALL, &Calibration::default()).minutes();
    Graded { walk, survey, estimate: time.elapsed() - walk - survey, n_steps: trail.n_steps(), minutes }
}
