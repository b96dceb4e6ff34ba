#![allow(missing_docs, clippy::print_stdout, clippy::disallowed_methods)]
use make::*;
use trail::TechniqueId;
fn main() {
    for seed in 0..10u64 {
        let brief = Brief {
            size: grid::Size::NINE,
            kind: Kind::Sandwich,
            givens: 24,
            clues: 18,
            balanced: false,
            hardest: Some(TechniqueId::new("hidden-triple")),
            teaches: vec![],
        };
        let t = std::time::Instant::now();
        match make(&brief, seed, &|| false) {
            Ok(it) => println!(
                "{seed} {:?} {} {} steps {:?}",
                t.elapsed(),
                it.puzzle.givens(),
                it.puzzle.givens().filled().count(),
                it.explained.surveys.len()
            ),
            Err(e) => println!("{seed} {e} {:?}", t.elapsed()),
        }
    }
}
