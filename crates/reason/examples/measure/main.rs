//! How well and how quickly puzzles are explained, on seeded corpora.
//!
//! ```text
//! cargo run -p reason --example measure -- [teaching|full|sparse|classic|demo] [PUZZLES] [FIRST]
//! ```
//!
//! Explains that many puzzles (20) of the corpus (`full`), from that number on (0), prints a line for
//! each, then the whole. Times are those that the thread spent on a core.

#![allow(clippy::print_stdout, reason = "a measurement prints")]

mod corpora;
mod premises;
#[path = "../../tests/reasoning/support/seeded.rs"]
mod seeded;
#[path = "../../tests/reasoning/support/teaching.rs"]
mod teaching;
mod whole;

use std::time::Duration;

use cpu_time::ThreadTime;
use reason::{Search, Settings, View, effort, explain, solve, survey};
use trail::{Argument, Step, Trail};

use corpora::Corpus;
use seeded::Made;
use whole::Whole;

/// What the program takes, but walkthroughs that it would not read out are given too.
const SETTINGS: Settings = Settings { readable: usize::MAX, ..Settings::THOROUGH };

fn main() {
    let mut arguments = std::env::args().skip(1).peekable();
    let corpus = arguments.peek().and_then(|it| Corpus::named(it));
    if corpus.is_some() {
        arguments.next();
    }
    let mut numbers = arguments.map(|it| it.parse::<u64>().unwrap_or_else(|error| panic!("{it}: {error}")));
    let (n_puzzles, first) = (numbers.next().unwrap_or(20), numbers.next().unwrap_or(0));

    let mut whole = Whole::default();
    for number in first..first + n_puzzles {
        match corpus.unwrap_or(Corpus::Full).puzzle(number) {
            Some(made) => measure(number, &made, &mut whole),
            None => whole.n_missing += 1,
        }
    }
    whole.print();
}

fn measure(number: u64, made: &Made, whole: &mut Whole) {
    let Made { puzzle, solution } = made;
    let (solved, solving) = timed(|| solve(puzzle, solution, SETTINGS));
    let replayed = solved.as_ref().map(|it| timed(|| is_replayed(made, it)));
    let greedy = Settings { search: Search::EasiestNext, ..SETTINGS };
    let (by_ease, explaining_by_ease) = timed(|| explain(puzzle, solution, greedy));
    let (explained, explaining) = timed(|| explain(puzzle, solution, SETTINGS));
    let n_givens = puzzle.givens().filled().count();
    let (Ok((true, replaying)), Ok(by_ease), Ok(explained)) = (&replayed, &by_ease, &explained) else {
        let why = [by_ease.err(), explained.err()];
        println!("{number}: {n_givens} givens, NOT EXPLAINED: {why:?}\n  {}", puzzle.givens());
        whole.n_failed += 1;
        return;
    };
    let (by_ease, trail) = (by_ease.walkthrough().trail(), explained.walkthrough().trail());
    let (_, surveying) = timed(|| survey(View::new(puzzle), trail));
    println!(
        "{number}: {n_givens} givens, {} steps, {} arguments, {} followed to an end; effort {} by ease, {} chosen; found and replayed \
         {:.1?}, explained {explaining_by_ease:.1?} by ease, {explaining:.1?} chosen, surveyed {surveying:.1?}",
        trail.n_steps(),
        n_arguments(trail),
        n_followed(trail),
        effort(by_ease),
        effort(trail),
        solving + *replaying,
    );
    whole.finding.push(solving + *replaying);
    whole.explaining_by_ease.push(explaining_by_ease);
    whole.explaining.push(explaining);
    whole.efforts.0 += effort(by_ease);
    whole.efforts.1 += effort(trail);
    whole.n_steps += trail.n_steps();
    whole.arguments.push(n_arguments(trail));
    whole.followed.push(n_followed(trail));
    let is_readable = n_arguments(trail) + n_followed(trail) <= Settings::THOROUGH.readable;
    whole.n_not_teachable += usize::from(!is_readable);
    for (id, step) in trail.steps() {
        let cites = trail.cites_of(id);
        whole.beside.push(premises::n_beside(puzzle, trail, &cites));
        if let Argument::Followed { .. } = step.argument() {
            whole.followed_in_view.push(premises::n_in_view(puzzle, trail, id, Settings::THOROUGH.cap));
        }
        if let Argument::Cases { branches, is_smallest } = step.argument() {
            whole.n_smallest += usize::from(*is_smallest);
            whole.in_view.push(premises::n_in_view(puzzle, trail, id, Settings::THOROUGH.cap));
            whole.told.extend(branches.iter().map(whole::Told::of));
            for fact in step.concludes().iter().map(|it| trail.fact(*it)) {
                let Some(cites) = fact.cites() else { continue };
                let cap = Settings::THOROUGH.cap;
                let judged = timed(|| replay::judge(puzzle, trail, &fact.claim(), cites, cap));
                whole.judging.push(judged.1);
            }
        }
    }
}

/// Whether `replay` accepts the steps in the order in which they were found.
fn is_replayed(made: &Made, trail: &Trail) -> bool {
    let cap = Settings::THOROUGH.cap;
    let judge = replay::Judge::new(&made.puzzle);
    let mut facts = trail.facts().filter_map(|(_, it)| Some((it.claim(), it.cites()?)));
    facts.all(|(claim, cites)| judge.judge(trail, &claim, cites, cap).is_ok())
}

fn timed<T>(run: impl FnOnce() -> T) -> (T, Duration) {
    let start = ThreadTime::now();
    (run(), start.elapsed())
}

fn n_arguments(trail: &Trail) -> usize {
    trail.steps().filter(|(_, it)| it.is_small_argument()).count()
}

fn n_followed(trail: &Trail) -> usize {
    let is_followed = |it: &Step| matches!(it.argument(), Argument::Followed { .. });
    trail.steps().filter(|(_, it)| is_followed(it)).count()
}
