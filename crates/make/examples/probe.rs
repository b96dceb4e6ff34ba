#![allow(missing_docs, clippy::print_stdout, clippy::disallowed_methods)]
use make::*;
use trail::TechniqueId;
fn main() {
    let briefs: [(&str, usize, usize, Option<&'static str>, &[&'static str]); 12] = [
        ("first-light", 34, 18, Some("naked-single"), &["crusts-at-ends"]),
        ("low-wick", 32, 18, Some("crust-places"), &["crusts-adjacent"]),
        ("lamp-oil", 30, 18, Some("last-in-sum"), &["last-outside"]),
        ("two-moths", 26, 18, Some("outside-digits"), &["outside-digits"]),
        ("smoked-glass", 24, 18, Some("filling-sets"), &["filling-sets"]),
        ("brass-hinge", 20, 18, Some("spent-clue"), &["spent-clue"]),
        ("tide-bell", 16, 18, Some("crust-reach"), &["crust-reach"]),
        ("long-shadow", 12, 16, Some("locked-candidates"), &["locked-candidates"]),
        ("keepers-stair", 10, 16, Some("crust-held"), &["crust-held"]),
        ("paper-lantern", 9, 15, Some("held-digit"), &["held-digit"]),
        ("north-window", 8, 14, Some("hidden-pair"), &["hidden-pair"]),
        ("small-hours", 5, 18, None, &["small-argument"]),
    ];
    for (name, givens, clues, hardest, teaches) in briefs {
        let brief = Brief {
            size: grid::Size::NINE,
            kind: Kind::Sandwich,
            givens,
            clues,
            balanced: false,
            hardest: hardest.map(TechniqueId::new),
            teaches: teaches.iter().map(|it| TechniqueId::new(it)).collect(),
        };
        let t = std::time::Instant::now();
        match make(&brief, 1, &|| false) {
            Ok(it) => {
                let mut by = std::collections::BTreeMap::new();
                for s in &it.explained.surveys {
                    *by.entry(s.technique.name()).or_insert(0) += 1;
                }
                println!(
                    "{name} {:?} {} given {} steps {} {by:?}",
                    t.elapsed(),
                    it.puzzle.givens(),
                    it.puzzle.givens().filled().count(),
                    it.explained.surveys.len()
                )
            }
            Err(e) => println!("{name} {e} {:?}", t.elapsed()),
        }
    }
}
