//! How long the answers beside a verdict take: `cargo bench -p prove --bench repairs`; with
//! `-- conflict`, only what has that word in its name.
//!
//! Seeded sandwich puzzles with all sums and no given to spare; for mends and conflicts with one sum
//! replaced by another so that there is no solution, for settlings with two givens taken away. Times are those that
//! the thread was on a core, so that what else the machine does weighs little.

#![expect(clippy::print_stdout, reason = "a bench prints")]

#[path = "../tests/agreement/seeded.rs"]
#[allow(dead_code, reason = "a bench draws fewer kinds of puzzle than the tests do")]
mod seeded;

use std::time::Duration;

use cpu_time::ThreadTime;
use grid::{Grid, Size};
use prove::{
    Canonical, Digging, Effort, Limit, Printed, Symmetries, Verdict, canonical, canonical_grid, conflict,
    fewest, irreducible, mends, open_clues, open_givens, single_givens, spare, verdict,
};
use rulebook::{Clue, Puzzle};
use seeded::Seeded;

const LIMIT: Limit = Limit(1_000_000);
const EFFORT: Effort = Effort { limit: LIMIT, verdicts: 5_000, choices: 200_000 };
const IRREDUCIBLE: Digging = Digging { work: 100_000, limit: Limit(1_000), more_work: 0, choices: 1 };
/// What the program allows: `DIGGING` in `crates/study/src/repair.rs`.
const SMALLEST: Digging = Digging { work: 50_000, limit: Limit(1_000), more_work: 100_000, choices: 50_000 };

fn main() {
    let mut seeded = Seeded::new(1);
    let sound: Vec<Puzzle> =
        (0..60).map(|_| seeded::sparse_puzzle(Size::NINE, &mut seeded, has_one)).collect();
    let wrong: Vec<Puzzle> = sound.iter().map(|it| misprinted(it, &mut seeded)).collect();
    let several: Vec<Puzzle> = sound.iter().map(|it| with_fewer_givens(it, &mut seeded)).collect();
    let few_clues: Vec<Puzzle> = sound.iter().map(|it| with_fewer_clues(it, &mut seeded)).collect();

    report("what is spare, and an irreducible form", &sound, |it| {
        let known = spare(it, LIMIT);
        irreducible(it, &known, LIMIT);
        format!("{} spare", known.spare.len())
    });
    report("mends, all changes", &wrong, |it| {
        let found = mends(it, 100, LIMIT);
        let n_one = found.mends.iter().filter(|it| it.solutions == Some(prove::Solutions::Exactly(1)));
        format!("{} changes, {} leave one solution", found.n_changes, n_one.count())
    });
    report("conflict, irreducible", &wrong, |it| said(it, IRREDUCIBLE));
    report("conflict, smallest", &wrong, |it| said(it, SMALLEST));
    report("single givens that settle", &several, |it| match verdict(it, LIMIT) {
        Verdict::Many(many) => format!("{} do", single_givens(it, &many, LIMIT).givens.len()),
        other => unreachable!("{other:?}"),
    });
    // In the order of the puzzles, whose solutions are known.
    let solutions = || sound.iter().filter_map(solution);
    let mut chosen = solutions();
    report("fewest givens that settle", &several, |it| settled(it, chosen.next(), open_givens));
    let mut chosen = solutions();
    report("fewest clues that settle", &few_clues, |it| settled(it, chosen.next(), open_clues));

    report("canonical form, with sums", &sound, |it| formed(&canonical(it, LIMIT)));
    let classic = |it: &Grid| formed(&canonical_grid(Symmetries::Classic, it, LIMIT));
    report("canonical form, classic, full grids", &sound, |it| {
        solution(it).as_ref().map_or(String::new(), classic)
    });
    let half: Vec<Puzzle> = (0..60).map(|_| Puzzle::new(half_of_a_grid(&mut seeded), [])).collect();
    report("canonical form, classic, about 27 givens", &half, |it| classic(it.givens()));
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../../shared/data/classic17.txt");
    match std::fs::read_to_string(path) {
        Ok(text) => {
            let grids = text.lines().step_by(10).filter_map(|it| Grid::from_line(it).ok());
            let puzzles: Vec<Puzzle> = grids.map(|it| Puzzle::new(it, [])).collect();
            report("canonical form, classic, 17 givens", &puzzles, |it| classic(it.givens()));
        }
        Err(error) => println!("canonical form, classic, 17 givens: skipped, {path}: {error}"),
    }
}

fn formed(form: &Option<Canonical>) -> String {
    if form.is_some() { "found" } else { "not found" }.to_owned()
}

fn half_of_a_grid(seeded: &mut Seeded) -> Grid {
    let full = seeded::full_grid(Size::NINE, seeded);
    Grid::from_fn(Size::NINE, |it| full.get(it).filter(|_| seeded.chance(33)))
}

fn solution(puzzle: &Puzzle) -> Option<Grid> {
    match verdict(puzzle, LIMIT) {
        Verdict::One(only) => Some(only),
        _ => None,
    }
}

fn settled(puzzle: &Puzzle, chosen: Option<Grid>, open: impl Fn(&Puzzle, &Grid) -> Vec<Printed>) -> String {
    let chosen = chosen.expect("each puzzle was drawn with one solution");
    match fewest(puzzle, &chosen, &open(puzzle, &chosen), EFFORT) {
        Some(it) if it.is_fewest() => format!("{}, proved", it.added.len()),
        Some(it) => format!("{}, not proved", it.added.len()),
        None => "not possible".to_owned(),
    }
}

fn has_one(puzzle: &Puzzle) -> bool {
    matches!(verdict(puzzle, LIMIT), Verdict::One(_))
}

fn said(puzzle: &Puzzle, digging: Digging) -> String {
    match conflict(puzzle, digging) {
        Some(it) if it.is_smallest() => "proved to be the smallest".to_owned(),
        Some(_) => "irreducible".to_owned(),
        None => "none".to_owned(),
    }
}

/// The puzzle with one sum replaced so that there is no solution.
fn misprinted(puzzle: &Puzzle, seeded: &mut Seeded) -> Puzzle {
    loop {
        let clue = puzzle.clues()[seeded.below(18)];
        let values = clue.rule.reachable(Size::NINE);
        let value = values[seeded.below(values.len())];
        let wrong = Printed::Clue(Clue { value, ..clue }).added_to(puzzle);
        if verdict(&wrong, LIMIT) == Verdict::None {
            return wrong;
        }
    }
}

fn with_fewer_givens(puzzle: &Puzzle, seeded: &mut Seeded) -> Puzzle {
    let mut shown = seeded.shuffled(puzzle.givens().filled());
    shown.truncate(2);
    shown.into_iter().fold(puzzle.clone(), |it, (cell, digit)| Printed::Given(cell, digit).taken_from(&it))
}

/// Without clues, one after another, until there are several solutions; and without four more.
fn with_fewer_clues(puzzle: &Puzzle, seeded: &mut Seeded) -> Puzzle {
    let mut fewer = puzzle.clone();
    let mut n_more = 4;
    for clue in seeded.shuffled(puzzle.clues().iter().copied()) {
        fewer = Printed::Clue(clue).taken_from(&fewer);
        if !has_one(&fewer) {
            n_more -= 1;
        }
        if n_more < 0 {
            break;
        }
    }
    fewer
}

/// The times, and how often each answer was given.
fn report(name: &str, puzzles: &[Puzzle], mut answer: impl FnMut(&Puzzle) -> String) {
    let is_meant = |it: String| it.starts_with("--") || name.contains(&it);
    if !std::env::args().skip(1).all(is_meant) {
        return;
    }
    let mut times = Vec::with_capacity(puzzles.len());
    let mut answers = std::collections::BTreeMap::<String, usize>::new();
    for puzzle in puzzles {
        let start = ThreadTime::now();
        let said = answer(puzzle);
        times.push(start.elapsed());
        *answers.entry(said).or_default() += 1;
    }
    times.sort();
    let millis = |it: Duration| it.as_secs_f64() * 1e3;
    println!(
        "{name}: {} puzzles; ms: median {:.3}, 90th {:.3}, most {:.3}",
        times.len(),
        millis(times[times.len() / 2]),
        millis(times[times.len() * 9 / 10]),
        millis(times[times.len() - 1]),
    );
    let mut answers: Vec<(String, usize)> = answers.into_iter().collect();
    answers.sort_by_key(|it| std::cmp::Reverse(it.1));
    for (said, n) in answers.iter().take(6) {
        println!("    {n} times {said}");
    }
}
