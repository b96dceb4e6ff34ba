//! How often a try gives a puzzle that teaches a technique, and how long it takes to find one: by the clock and, where
//! the system says it, in processor time, which other work on the machine changes less.
//!
//! ```text
//! cargo run -p make --example isolate -- [--tries N] [--seeds N] [--spare-allowed] [TECHNIQUE...]
//! ```

#![allow(clippy::print_stdout, reason = "a measurement prints")]
#![allow(clippy::disallowed_methods, reason = "a measurement reads the clock")]

use std::time::Instant;

use grade::Calibration;
use grid::Size;
use make::{Brief, Clues, Kind, Look, Others, Span, Wanted, make};
use reason::TECHNIQUES;

fn main() {
    let mut arguments = std::env::args().skip(1).peekable();
    let (mut tries, mut seeds) = (200, 5);
    let mut is_spare_allowed = false;
    let mut names: Vec<String> = Vec::new();
    while let Some(it) = arguments.next() {
        let mut number = || arguments.next().and_then(|it| it.parse().ok()).unwrap_or(1);
        match it.as_str() {
            "--tries" => tries = number(),
            "--seeds" => seeds = number(),
            "--spare-allowed" => is_spare_allowed = true,
            _ => names.push(it),
        }
    }
    for technique in TECHNIQUES {
        let id = technique.id();
        if technique.rule().is_none() && names.is_empty()
            || !names.is_empty() && !names.iter().any(|it| it == id.name())
        {
            continue;
        }
        let brief = Brief {
            size: Size::NINE,
            kind: Kind::Sandwich,
            teaches: vec![id],
            known: make::usually_known(&[id]),
            minutes: None,
            givens: Span { least: 0, most: 24 },
            clues: Clues::Needed,
            look: Look::Any,
            is_spare_allowed,
        };
        let mut times = Vec::new();
        let (mut n_tries, mut n_found) = (0, 0);
        let mut beyond: Vec<usize> = Vec::new();
        let (mut givens, mut clues) = (Vec::new(), Vec::new());
        for seed in 1..=seeds {
            let (start, start_on_cores) = (Instant::now(), on_cores());
            let wanted = Wanted { count: 1, tries };
            let batch = make(
                &brief,
                seed,
                wanted,
                &Others::none(Kind::Sandwich),
                &Calibration::default(),
                &mut |_| {},
                &|| false,
            );
            let spent = on_cores().zip(start_on_cores).map_or(f64::NAN, |it| it.0 - it.1);
            times.push((start.elapsed().as_secs_f64(), spent, batch.made.len()));
            givens.extend(batch.made.iter().map(|it| it.puzzle.givens().filled().count()));
            clues.extend(batch.made.iter().map(|it| it.puzzle.clues().len()));
            n_tries += batch.tally.tries;
            n_found += batch.made.len();
            beyond.extend(batch.made.iter().map(|it| it.beyond_unique.len()));
            if std::env::var("V").is_ok() {
                println!("  {:?}", batch.tally);
            }
        }
        beyond.sort_unstable();
        givens.sort_unstable();
        clues.sort_unstable();
        let median = |of: &dyn Fn(&(f64, f64, usize)) -> f64| {
            let mut found: Vec<f64> =
                times.iter().map(|it| if it.2 > 0 { of(it) } else { f64::INFINITY }).collect();
            found.sort_by(f64::total_cmp);
            found[found.len() / 2]
        };
        println!(
            "{id}: median {:.2} s, on cores {:.2} s; {n_found} of {seeds} seeds, {n_tries} tries, {:.1} % of tries; \
             not needed for one solution: {beyond:?}; givens {givens:?}, clues {clues:?}",
            median(&|it| it.0),
            median(&|it| it.1),
            100.0 * n_found as f64 / n_tries as f64,
        );
    }
}

/// Seconds that the program has spent on cores, all threads together.
fn on_cores() -> Option<f64> {
    let stat = std::fs::read_to_string("/proc/self/stat").ok()?;
    // After the name, which may hold anything: state and ten numbers, then the ticks, a hundred a second.
    let ticks = stat.rsplit_once(')')?.1.split_whitespace().nth(11)?;
    Some(ticks.parse::<f64>().ok()? / 100.0)
}
