//! How long it takes to order packs of several sizes, and how far from the best the orders may be:
//! `cargo bench -p pack`.
//!
//! The packs are invented and seeded: 5 a row; each puzzle uses what the easier half of some 24 techniques offers, and
//! one or two of the harder as it gets longer.

#![expect(clippy::disallowed_methods, clippy::print_stdout, reason = "a bench reads the clock and prints")]

use std::time::Instant;

use pack::{Objective, PuzzleId, Studied};
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use trail::TechniqueId;

const TECHNIQUES: [&str; 24] = [
    "a", "b", "c", "d", "e", "f", "g", "h", "i", "j", "k", "l", "m", "n", "o", "p", "q", "r", "s", "t", "u",
    "v", "w", "x",
];

fn main() {
    println!("puzzles  places  seconds  cost  at least");
    for (n, n_places) in [(12, 12), (15, 15), (15, 10), (24, 24), (40, 40), (60, 60), (60, 30)] {
        for seed in 0..5 {
            let all = invented(n, seed);
            let objective = Objective::default();
            let start = Instant::now();
            let proposal =
                objective.choose(&all, n_places).unwrap_or_else(|| unreachable!("all are optional"));
            let seconds = start.elapsed().as_secs_f64();
            println!("{n:7}  {n_places:6}  {seconds:7.2}  {:4}  {:8}", proposal.cost, proposal.at_least);
        }
    }
}

fn invented(n: usize, seed: u64) -> Vec<Studied> {
    let mut random = ChaCha8Rng::seed_from_u64(seed);
    let mut puzzles = Vec::new();
    for at in 0..n {
        let minutes: u64 = random.random_range(3..40);
        let hardest = (6 + minutes as usize / 2).min(TECHNIQUES.len());
        let mut techniques = Vec::new();
        for (rank, name) in TECHNIQUES.into_iter().enumerate().take(hardest) {
            let share = if rank < 6 { 0.8 } else { 0.15 };
            if rank + 1 == hardest || random.random_bool(share) {
                techniques.push(TechniqueId::new(name));
            }
        }
        puzzles.push(Studied {
            id: PuzzleId::new(&format!("p{at:02}")).unwrap_or_else(|| unreachable!("the name is an id")),
            setter: random.random_range(0..6).to_string(),
            seconds: minutes * 60 + random.random_range(0..60),
            break_in: Some(techniques[random.random_range(0..techniques.len())]),
            techniques: techniques.into_iter().collect(),
            shelf: None,
            is_optional: true,
            said: Vec::new(),
        });
    }
    puzzles
}
