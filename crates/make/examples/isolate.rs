//! How often a try gives a puzzle that teaches a technique, and how long it takes to find one.
//!
//! ```text
//! cargo run --release -p make --example isolate -- [--tries N] [--seeds N] [TECHNIQUE...]
//! ```

#![allow(clippy::print_stdout, reason = "a measurement prints")]
#![allow(clippy::disallowed_methods, reason = "a measurement reads the clock")]

use std::time::Instant;

use grid::Size;
use make::{Brief, Clues, Kind, Look, Others, Span, Wanted, make};
use reason::TECHNIQUES;

fn main() {
    let mut arguments = std::env::args().skip(1).peekable();
    let (mut tries, mut seeds) = (200, 5);
    let mut names: Vec<String> = Vec::new();
    while let Some(it) = arguments.next() {
        let mut number = || arguments.next().and_then(|it| it.parse().ok()).unwrap_or(1);
        match it.as_str() {
            "--tries" => tries = number(),
            "--seeds" => seeds = number(),
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
        };
        let mut times = Vec::new();
        let (mut n_tries, mut n_found) = (0, 0);
        let mut beyond: Vec<usize> = Vec::new();
        for seed in 1..=seeds {
            let start = Instant::now();
            let wanted = Wanted { count: 1, tries };
            let batch = make(&brief, seed, wanted, &Others::none(Kind::Sandwich), &mut |_| {}, &|| false);
            times.push((start.elapsed().as_secs_f64(), batch.made.len()));
            n_tries += batch.tally.tries;
            n_found += batch.made.len();
            beyond.extend(batch.made.iter().map(|it| it.beyond_unique.len()));
            if std::env::var("V").is_ok() {
                println!("  {:?}", batch.tally);
            }
        }
        let mut found: Vec<f64> =
            times.iter().map(|it| if it.1 > 0 { it.0 } else { f64::INFINITY }).collect();
        found.sort_by(f64::total_cmp);
        beyond.sort_unstable();
        let whole: f64 = times.iter().map(|it| it.0).sum();
        println!(
            "{id}: median {:.2} s, {n_found} of {seeds} seeds, {n_tries} tries, {:.1} % of tries, {:.0} ms a try; \
             not needed for one solution: {beyond:?}",
            found[found.len() / 2],
            100.0 * n_found as f64 / n_tries as f64,
            1000.0 * whole / n_tries as f64,
        );
    }
}
