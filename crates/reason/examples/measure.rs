//! How long explaining takes, and what the walkthroughs are like.
//!
//! ```text
//! cargo run -p reason --example measure -- [PUZZLES] [CLUES] [SIDE] [FIRST]
//! ```
//!
//! Makes that many seeded puzzles (20) with that many sandwich clues (18; 0 makes classic puzzles) on
//! a board of that side (9), none with a given to spare, from that seed on (0), and prints a line for
//! each, then the whole.

#![allow(
    clippy::print_stdout,
    clippy::disallowed_methods,
    reason = "a measurement reads the clock and prints"
)]

#[path = "../tests/reasoning/support/seeded.rs"]
mod seeded;

use std::time::{Duration, Instant};

use grid::Size;
use reason::{Search, Settings, View, effort, explain, solve, survey};
use trail::{Argument, Branch, End, Trail};

fn main() {
    let mut numbers = std::env::args().skip(1).map(|it| it.parse::<u64>());
    let mut number = |otherwise| match numbers.next() {
        None => otherwise,
        Some(it) => it.unwrap_or_else(|error| panic!("not a number: {error}")),
    };
    let (n_puzzles, n_clues, side, first) = (number(20), number(18) as usize, number(9) as u8, number(0));
    let size = Size::of_side(side).unwrap_or_else(|| panic!("no board has {side} rows"));

    let mut whole = Whole::default();
    for seed in first..first + n_puzzles {
        measure(seed, size, n_clues, &mut whole);
    }
    whole.print();
}

fn measure(seed: u64, size: Size, n_clues: usize, whole: &mut Whole) {
    let made = seeded::puzzle(size, n_clues, seed);
    let (solved, solving) = timed(|| solve(&made.puzzle, &made.solution, Settings::THOROUGH));
    let greedy = Settings { search: Search::EasiestNext, ..Settings::THOROUGH };
    let (by_ease, explaining_by_ease) = timed(|| explain(&made.puzzle, &made.solution, greedy));
    let (explained, explaining) = timed(|| explain(&made.puzzle, &made.solution, Settings::THOROUGH));
    let n_givens = made.puzzle.givens().filled().count();
    let (solved, by_ease, explained) = match (solved, by_ease, explained) {
        (Ok(solved), Ok(by_ease), Ok(explained)) => (solved, by_ease, explained),
        (solved, by_ease, explained) => {
            let why = solved.err().or(by_ease.err()).or(explained.err());
            println!("{seed}: {n_givens} givens, failed: {why:?}\n  {}", made.puzzle.givens());
            whole.n_failed += 1;
            return;
        }
    };
    let efforts = [by_ease, explained.clone()].map(|it| effort(it.walkthrough().trail()));
    let walkthrough = explained.walkthrough();
    let trail = walkthrough.trail();
    let (_, surveying) = timed(|| survey(View::new(&made.puzzle), trail));
    let lengths: Vec<usize> = walkthrough.passages().iter().map(|it| it.steps.len()).collect();
    println!(
        "{seed}: {n_givens} givens, {} steps found, {} kept, {} arguments; effort {} by ease, {} chosen; solve \
         {solving:.1?}, explain {explaining_by_ease:.1?} by ease, {explaining:.1?} chosen, survey \
         {surveying:.1?}, {} nodes; passages {lengths:?}",
        solved.n_steps(),
        trail.n_steps(),
        n_arguments(trail),
        efforts[0],
        efforts[1],
        explained.nodes(),
    );
    whole.solving.push(solving);
    whole.explaining_by_ease.push(explaining_by_ease);
    whole.explaining.push(explaining);
    whole.efforts.0 += efforts[0];
    whole.efforts.1 += efforts[1];
    whole.n_steps += trail.n_steps();
    whole.arguments.push(n_arguments(trail));
    if n_arguments(&solved) == 0 {
        whole.by_techniques.push(explaining);
    }
    whole.branches.extend(branches(trail).map(Told::of));
    whole.passages.extend(lengths);
}

/// The quickest of three runs, so that what else the machine does counts little.
fn timed<T>(mut run: impl FnMut() -> T) -> (T, Duration) {
    let runs = (0..3).map(|_| {
        let start = Instant::now();
        (run(), start.elapsed())
    });
    runs.min_by_key(|it| it.1).unwrap_or_else(|| unreachable!("there are three runs"))
}

fn n_arguments(trail: &Trail) -> usize {
    trail.steps().filter(|(_, it)| it.is_small_argument()).count()
}

/// The branch of every conclusion of every small argument.
fn branches(trail: &Trail) -> impl Iterator<Item = &Branch> {
    trail.steps().flat_map(|(_, step)| match step.argument() {
        Argument::Cases { branches, .. } => branches.as_slice(),
        _ => &[],
    })
}

/// How much there is to tell about a conclusion.
struct Told {
    cases: usize,
    links: usize,
}

impl Told {
    fn of(branch: &Branch) -> Told {
        let mut told = Told { cases: 1, links: branch.chain.len() };
        if let End::Split(parts) = &branch.end {
            for part in parts.iter().map(Told::of) {
                told.cases += part.cases;
                told.links += part.links;
            }
        }
        told
    }
}

/// What was measured on all puzzles.
#[derive(Default)]
struct Whole {
    n_failed: usize,
    n_steps: usize,
    /// Of all puzzles together: by ease, and chosen.
    efforts: (u64, u64),
    /// By puzzle.
    arguments: Vec<usize>,
    solving: Vec<Duration>,
    explaining_by_ease: Vec<Duration>,
    explaining: Vec<Duration>,
    by_techniques: Vec<Duration>,
    branches: Vec<Told>,
    passages: Vec<usize>,
}

impl Whole {
    fn print(self) {
        let Whole { solving, explaining_by_ease, explaining, by_techniques, branches, passages, .. } = self;
        let n_without = self.arguments.iter().filter(|it| **it == 0).count();
        let n_arguments = self.arguments.iter().sum::<usize>();
        println!(
            "{} explained, {} not; {n_without} without arguments, {n_arguments} arguments in {} steps; effort {} by \
             ease, {} chosen ({:.1}%)",
            self.arguments.len(),
            self.n_failed,
            self.n_steps,
            self.efforts.0,
            self.efforts.1,
            100.0 * self.efforts.1 as f64 / self.efforts.0.max(1) as f64,
        );
        spread("arguments of a puzzle", self.arguments);
        spread("solve", solving);
        spread("explain by ease", explaining_by_ease);
        spread("explain, chosen", explaining);
        spread("explain, where techniques are enough", by_techniques);
        let (cases, links): (Vec<_>, Vec<_>) = branches.into_iter().map(|it| (it.cases, it.links)).unzip();
        spread("cases of an argument's conclusion", cases);
        spread("links of an argument's conclusion", links);
        spread("steps of a passage", passages);
    }
}

fn spread<T: Ord + std::fmt::Debug>(what: &str, mut values: Vec<T>) {
    values.sort();
    let at = |part: usize| &values[(values.len() - 1) * part / 10];
    match values.len() {
        0 => println!("{what}: none"),
        n => println!(
            "{what}: {n} of them, least {:.1?}, median {:.1?}, nine tenths {:.1?}, most {:.1?}",
            at(0),
            at(5),
            at(9),
            at(10)
        ),
    }
}
