//! Which techniques give drills: three of each are looked for, in sandwich puzzles and, for techniques that read no
//! clue, in classic ones.
//!
//! ```text
//! cargo run -p make --example drills -- [--tries N] [--seed N] [TECHNIQUE...]
//! ```

#![allow(clippy::print_stdout, reason = "a measurement prints")]
#![allow(clippy::disallowed_methods, reason = "a measurement reads the clock")]

use std::time::Instant;

use grid::Size;
use make::{Brief, Clues, Kind, Look, Span, drill, usually_known};
use reason::TECHNIQUES;

fn main() {
    let mut arguments = std::env::args().skip(1);
    let (mut tries, mut seed, mut names) = (96, 1, Vec::new());
    while let Some(it) = arguments.next() {
        match it.as_str() {
            "--tries" => tries = arguments.next().and_then(|it| it.parse().ok()).unwrap_or(tries),
            "--seed" => seed = arguments.next().and_then(|it| it.parse().ok()).unwrap_or(seed),
            _ => names.push(it),
        }
    }
    for technique in TECHNIQUES {
        let id = technique.id();
        if !names.is_empty() && !names.iter().any(|it| *it == id.name()) {
            continue;
        }
        let kinds = [(Kind::Sandwich, 24), (Kind::Classic, 40)];
        for (kind, most) in kinds.into_iter().take(if technique.rule().is_some() { 1 } else { 2 }) {
            let brief = Brief {
                size: Size::NINE,
                kind,
                known: usually_known(&[id]),
                teaches: Vec::new(),
                minutes: None,
                givens: Span { least: 0, most },
                clues: Clues::Needed,
                look: Look::Any,
                is_spare_allowed: true,
            };
            let start = Instant::now();
            let found = drill(&brief, id, seed, (3, tries), &|| false).unwrap_or_default();
            let houses: Vec<String> = found.iter().map(|it| it.houses.len().to_string()).collect();
            let cells: Vec<String> = found.iter().map(|it| it.cells.len().to_string()).collect();
            println!(
                "{id}, {kind:?}: {} drills of {} houses, {} cells, {:.2} s",
                found.len(),
                houses.join(" "),
                cells.join(" "),
                start.elapsed().as_secs_f64()
            );
        }
    }
}
